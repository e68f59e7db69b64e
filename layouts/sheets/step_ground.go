package sheets

import (
	"math"

	"planset/layouts/woodwork"
	"planset/model/geom"
)

// groundStep is the side of a cell of a ground, mm of paper.
const groundStep = 1.0

// bare is the cell of a ground where the paper shows.
const bare = -1

// A ground knows which piece is seen at each place of a picture, cell by cell: where
// a leader would run over something, and where there is room.
type ground struct {
	box    geom.Box
	nx, ny int
	id     []int
}

// groundOf looks at every cell of a picture.
func groundOf(pic *woodwork.Picture) *ground {
	g := &ground{box: pic.Box}
	g.nx, g.ny = int(math.Ceil(pic.Box.W()/groundStep)), int(math.Ceil(pic.Box.H()/groundStep))
	g.id = make([]int, max(0, g.nx*g.ny))
	for i := range g.id {
		g.id[i] = bare
	}
	var cuts []float64
	for _, a := range pic.Patches() { // far ones first
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, q := range a.Loop {
			lo, hi = min(lo, q.Y), max(hi, q.Y)
		}
		for r := max(0, g.row(lo)); r <= min(g.ny-1, g.row(hi)); r++ {
			cuts = crossings(a.Loop, g.box.Min.Y+(float64(r)+0.5)*groundStep, cuts[:0])
			for k := 0; k+1 < len(cuts); k += 2 {
				g.fill(r, cuts[k], cuts[k+1], a.ID)
			}
		}
	}
	return g
}

func (g *ground) row(y float64) int { return int(math.Floor((y - g.box.Min.Y) / groundStep)) }

// fill gives the cells of a row whose middles lie between two places to a piece.
func (g *ground) fill(row int, from, to float64, id int) {
	first := int(math.Ceil((from-g.box.Min.X)/groundStep - 0.5))
	last := int(math.Floor((to-g.box.Min.X)/groundStep - 0.5))
	for c := max(0, first); c <= min(g.nx-1, last); c++ {
		g.id[row*g.nx+c] = id
	}
}

// crossings adds where a loop crosses the height y, in order.
func crossings(loop []geom.Pt, y float64, out []float64) []float64 {
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		if (a.Y > y) == (b.Y > y) {
			continue
		}
		x := a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		k := len(out)
		out = append(out, x)
		for ; k > 0 && out[k-1] > x; k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

// at is the piece seen at a place of the page, or bare.
func (g *ground) at(p geom.Pt) int {
	c, r := int(math.Floor((p.X-g.box.Min.X)/groundStep)), g.row(p.Y)
	if c < 0 || r < 0 || c >= g.nx || r >= g.ny {
		return bare
	}
	return g.id[r*g.nx+c]
}

// wood reports whether wood is seen at a place.
func (g *ground) wood(p geom.Pt) bool { id := g.at(p); return id != bare && id < hardwareID }

// over counts the mm of a line that run over wood that is not own.
func (g *ground) over(from, to geom.Pt, own func(id int) bool) float64 {
	d := to.Sub(from)
	n := int(d.Len()/(groundStep/2)) + 1
	sum := 0
	for i := range n {
		p := from.Add(d.Mul((float64(i) + 0.5) / float64(n)))
		if g.wood(p) && !own(g.at(p)) {
			sum++
		}
	}
	return float64(sum) * d.Len() / float64(n)
}

// clear reports whether nothing of the picture is seen in a box.
func (g *ground) clear(b geom.Box) bool {
	for y := b.Min.Y; y < b.Max.Y+groundStep; y += groundStep {
		for x := b.Min.X; x < b.Max.X+groundStep; x += groundStep {
			if g.at(pt(min(x, b.Max.X), min(y, b.Max.Y))) != bare {
				return false
			}
		}
	}
	return true
}
