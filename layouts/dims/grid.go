package dims

import (
	"math"

	"planset/model/geom"
)

// A grid finds the lines of a drawing near a box. It has square cells over the
// box round the drawing.
type grid struct {
	lines []line
	low   geom.Pt
	nx    int
	ny    int
	cell  float64 // mm
	cells [][]int32
	seen  []int32 // tick at which each line was last seen
	tick  int32
}

func newGrid(lines []line, b geom.Box) grid {
	g := grid{lines: lines, seen: make([]int32, len(lines))}
	if b.Empty() {
		return g
	}
	g.low = b.Min
	g.cell = math.Max(6, math.Max(b.W(), b.H())/100)
	g.nx, g.ny = int(b.W()/g.cell)+1, int(b.H()/g.cell)+1
	g.cells = make([][]int32, g.nx*g.ny)
	for i, l := range lines {
		x0, y0, x1, y1 := g.span(l.box)
		for x := x0; x <= x1; x++ {
			for y := y0; y <= y1; y++ {
				g.cells[x*g.ny+y] = append(g.cells[x*g.ny+y], int32(i))
			}
		}
	}
	return g
}

// span returns the first and last cells that b reaches.
func (g *grid) span(b geom.Box) (x0, y0, x1, y1 int) {
	at := func(v, low float64, n int) int {
		k := (v - low) / g.cell
		switch {
		case !(k > 0): // or not a number
			return 0
		case k >= float64(n-1):
			return n - 1
		}
		return int(k)
	}
	return at(b.Min.X, g.low.X, g.nx), at(b.Min.Y, g.low.Y, g.ny), at(b.Max.X, g.low.X, g.nx), at(b.Max.Y, g.low.Y, g.ny)
}

// near calls see with each line whose box meets b, once, until see says stop.
func (g *grid) near(b geom.Box, see func(*line) (stop bool)) {
	if len(g.lines) == 0 {
		return
	}
	g.tick++
	x0, y0, x1, y1 := g.span(b)
	for x := x0; x <= x1; x++ {
		if g.column(x, y0, y1, b, see) {
			return
		}
	}
}

// along calls see with each line that may come nearer than reach to l, once,
// until see says stop. Only the cells l passes are looked into: the box of a long
// slanting leader holds half the drawing.
func (g *grid) along(l line, reach float64, see func(*line) (stop bool)) {
	if len(g.lines) == 0 {
		return
	}
	g.tick++
	a, b := l.a, l.b
	if a.X > b.X {
		a, b = b, a
	}
	box := l.box.Grow(reach)
	x0, _, x1, _ := g.span(box)
	for x := x0; x <= x1; x++ {
		lo, hi := g.low.X+float64(x)*g.cell-reach, g.low.X+float64(x+1)*g.cell+reach
		strip := stripOf(a, b, lo, hi).Grow(reach)
		_, y0, _, y1 := g.span(strip)
		if g.column(x, y0, y1, box, see) {
			return
		}
	}
}

// stripOf is the box of the piece of the line from a to b between two uprights.
// Lines outside the grid's box are kept in its border cells, so a piece beyond
// the uprights counts with its nearest end.
func stripOf(a, b geom.Pt, lo, hi float64) geom.Box {
	at := func(x float64) geom.Pt {
		x = max(a.X, min(b.X, x))
		if b.X-a.X < 1e-9 {
			return geom.Pt{X: x, Y: a.Y}
		}
		return geom.Pt{X: x, Y: a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)}
	}
	if b.X-a.X < 1e-9 {
		return geom.NoBox().With(a).With(b)
	}
	return geom.NoBox().With(at(lo)).With(at(hi))
}

// column looks into the cells y0 to y1 of one column; a line that was seen since
// the last tick is passed over.
func (g *grid) column(x, y0, y1 int, b geom.Box, see func(*line) (stop bool)) bool {
	for y := y0; y <= y1; y++ {
		for _, i := range g.cells[x*g.ny+y] {
			l := &g.lines[i]
			if g.seen[i] == g.tick || !l.box.Meets(b) {
				continue
			}
			g.seen[i] = g.tick
			if see(l) {
				return true
			}
		}
	}
	return false
}
