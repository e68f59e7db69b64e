// Package sight tells what is seen where in a picture, on a grid of small
// square cells: it fills shapes one over the other and remembers the last.
//
// It knows flat shapes and numbers for them. It does not know parts, leaders or
// pens, and it is only as sharp as its cells: exact edges are those of
// render/view.
package sight

import (
	"math"
	"slices"

	"planset/model/geom"
)

// Nobody is what is seen where nothing was filled in.
const Nobody = -1

// A Map is a grid of cells over a box, each with the number of the shape that
// was filled over it last.
type Map struct {
	low    geom.Pt
	cell   float64 // mm
	nx, ny int
	who    []int32
	sums   []int32 // of cells in which something is seen; made when asked for
	cuts   []float64
}

// mostCells bounds a map; a box that would need more gets coarser cells.
const mostCells = 1 << 21

// New returns a map of a box in which nothing is seen, with cells of the given
// size in mm. A box without a size gives a map without cells.
func New(box geom.Box, cell float64) *Map {
	m := &Map{low: box.Min, cell: cell}
	w, h := box.W(), box.H()
	if !(w > 0 && h > 0 && cell > 0) || math.IsInf(w*h, 0) {
		return m
	}
	m.cell = max(cell, math.Sqrt(w*h/mostCells))
	m.nx, m.ny = int(w/m.cell)+1, int(h/m.cell)+1
	m.who = make([]int32, m.nx*m.ny)
	for i := range m.who {
		m.who[i] = Nobody
	}
	return m
}

// Fill puts id over the inside of loops, by the even-odd rule.
func (m *Map) Fill(loops [][]geom.Pt, id int) {
	m.sums = nil
	m.cuts = Rows(loops, m.low, m.cell, m.ny, m.cuts, func(y int, x0, x1 float64) {
		lo, hi := max(0, int(math.Ceil(x0))), min(m.nx-1, int(math.Floor(x1)))
		row := m.who[y*m.nx : (y+1)*m.nx]
		for x := lo; x <= hi; x++ {
			row[x] = int32(id)
		}
	})
}

// Rows goes through the rows of cells whose middles are level with loops, and
// calls see with each stretch inside them by the even-odd rule, counted in cells
// from the middle of the first. Row 0 begins at low; there are ny. It returns
// cuts, its scratch space, for the next call.
func Rows(loops [][]geom.Pt, low geom.Pt, cell float64, ny int, cuts []float64, see func(y int, x0, x1 float64)) []float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		for _, p := range l {
			lo, hi = min(lo, p.Y), max(hi, p.Y)
		}
	}
	first, last := math.Ceil((lo-low.Y)/cell-0.5), math.Floor((hi-low.Y)/cell-0.5)
	if !(first <= last) || last < 0 || first > float64(ny-1) {
		return cuts
	}
	for y := max(0, int(first)); y <= min(ny-1, int(last)); y++ {
		cuts = cross(loops, low.Y+(float64(y)+0.5)*cell, cuts[:0])
		for k := 0; k+1 < len(cuts); k += 2 {
			see(y, (cuts[k]-low.X)/cell-0.5, (cuts[k+1]-low.X)/cell-0.5)
		}
	}
	return cuts
}

// cross returns where the level line at y meets loops, from left to right.
func cross(loops [][]geom.Pt, y float64, cuts []float64) []float64 {
	for _, l := range loops {
		if len(l) == 0 {
			continue
		}
		a := l[len(l)-1]
		for _, b := range l {
			if (a.Y > y) != (b.Y > y) {
				cuts = append(cuts, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
			a = b
		}
	}
	slices.Sort(cuts)
	return cuts
}

// At returns the number seen at p, or Nobody.
func (m *Map) At(p geom.Pt) int {
	x, y := math.Floor((p.X-m.low.X)/m.cell), math.Floor((p.Y-m.low.Y)/m.cell)
	if !(x >= 0 && y >= 0 && x < float64(m.nx) && y < float64(m.ny)) {
		return Nobody
	}
	return int(m.who[int(y)*m.nx+int(x)])
}

// Along calls see with the number seen at places along the line from a to b, a
// cell apart, and how much of the line in mm each stands for, until see says
// stop. The ends stand for half as much.
func (m *Map) Along(a, b geom.Pt, see func(id int, long float64) (stop bool)) {
	d := b.Sub(a)
	long := d.Len()
	n := int(math.Ceil(long / m.cell))
	if n == 0 || len(m.who) == 0 {
		return
	}
	step := long / float64(n)
	for i := range n + 1 {
		share := step
		if i == 0 || i == n {
			share = step / 2
		}
		if see(m.At(a.Add(d.Mul(float64(i)/float64(n)))), share) {
			return
		}
	}
}

// Any reports whether anything is seen in a box.
func (m *Map) Any(b geom.Box) bool {
	x0, x1, y0, y1, ok := m.span(b)
	if !ok {
		return false
	}
	if m.sums == nil {
		m.add()
	}
	w := m.nx + 1
	return m.sums[(y1+1)*w+x1+1]-m.sums[y0*w+x1+1]-m.sums[(y1+1)*w+x0]+m.sums[y0*w+x0] > 0
}

// add counts the cells in which something is seen, below and to the left of each
// corner of a cell.
func (m *Map) add() {
	w := m.nx + 1
	m.sums = make([]int32, w*(m.ny+1))
	for y := range m.ny {
		var row int32
		for x := range m.nx {
			if m.who[y*m.nx+x] != Nobody {
				row++
			}
			m.sums[(y+1)*w+x+1] = m.sums[y*w+x+1] + row
		}
	}
}

// span returns the cells that b reaches, and whether there are any.
func (m *Map) span(b geom.Box) (x0, x1, y0, y1 int, ok bool) {
	if len(m.who) == 0 || b.Empty() {
		return 0, 0, 0, 0, false
	}
	at := func(v float64, n int) int { return int(max(-1, min(float64(n), math.Floor(v/m.cell)))) }
	x0, x1 = at(b.Min.X-m.low.X, m.nx), at(b.Max.X-m.low.X, m.nx)
	y0, y1 = at(b.Min.Y-m.low.Y, m.ny), at(b.Max.Y-m.low.Y, m.ny)
	if x1 < 0 || y1 < 0 || x0 >= m.nx || y0 >= m.ny {
		return 0, 0, 0, 0, false
	}
	return max(x0, 0), min(x1, m.nx-1), max(y0, 0), min(y1, m.ny-1), true
}

// Has reports whether p lies inside loops by the even-odd rule, exactly.
func Has(loops [][]geom.Pt, p geom.Pt) bool {
	in := false
	for _, l := range loops {
		if len(l) == 0 {
			continue
		}
		a := l[len(l)-1]
		for _, b := range l {
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
			a = b
		}
	}
	return in
}
