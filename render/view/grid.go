package view

import (
	"iter"
	"math"
	"slices"

	"planset/model/geom"
)

// A grid sorts things in the picture into square cells.
type grid struct {
	min    geom.Pt
	size   float64 // side of a cell
	nx, ny int
	first  []int32 // by cell: where its items begin
	items  []int32
}

const (
	perCell = 2.0 // cells for each face
	widest  = 400 // cells in one direction at most
)

// newGrid returns an empty grid over r for about n things.
func newGrid(r reach, n int) grid {
	w, h := math.Max(r.max.X-r.min.X, 1), math.Max(r.max.Y-r.min.Y, 1)
	if n == 0 {
		w, h = 1, 1
	}
	size := math.Sqrt(w * h / (perCell*float64(n) + 1))
	size = math.Max(size, math.Max(w, h)/widest)
	return grid{
		min:  geom.Pt{X: r.min.X, Y: r.min.Y},
		size: size,
		nx:   int(w/size) + 1,
		ny:   int(h/size) + 1,
	}
}

func clampCell(v float64, n int) int { return max(0, min(n-1, int(v))) }

func (g *grid) col(x float64) int { return clampCell((x-g.min.X)/g.size, g.nx) }
func (g *grid) row(y float64) int { return clampCell((y-g.min.Y)/g.size, g.ny) }

// rowSpan returns the first and last column that the line from a to b touches
// in row r, with a touch to spare.
func (g *grid) rowSpan(a, b geom.V3, r int) (int, int) {
	lo, hi := min(a.X, b.X), max(a.X, b.X)
	if dy := b.Y - a.Y; dy != 0 && hi > lo {
		y0 := g.min.Y + float64(r)*g.size - Touch
		y1 := y0 + g.size + 2*Touch
		x0 := a.X + (b.X-a.X)*clampUnit((y0-a.Y)/dy)
		x1 := a.X + (b.X-a.X)*clampUnit((y1-a.Y)/dy)
		lo, hi = min(x0, x1), max(x0, x1)
	}
	return g.col(lo - Touch), g.col(hi + Touch)
}

func clampUnit(t float64) float64 { return max(0, min(1, t)) }

// rows returns the first and last row that the line from a to b touches.
func (g *grid) rows(a, b geom.V3) (int, int) {
	return g.row(min(a.Y, b.Y) - Touch), g.row(max(a.Y, b.Y) + Touch)
}

// along yields the cells that the line from a to b touches.
func (g *grid) along(a, b geom.V3) iter.Seq[int] {
	return func(yield func(int) bool) {
		r0, r1 := g.rows(a, b)
		for r := r0; r <= r1; r++ {
			c0, c1 := g.rowSpan(a, b, r)
			for c := c0; c <= c1; c++ {
				if !yield(r*g.nx + c) {
					return
				}
			}
		}
	}
}

// A cover finds the cells of one face after the other; it keeps, for each row
// from low on, the first and last column.
type cover struct {
	low  int
	span [][2]int
}

// cells yields the cells that f touches, and perhaps a few more in the hollows
// of its outside and in its holes.
func (c *cover) cells(g *grid, f *face) iter.Seq[int] {
	c.trace(g, f)
	return func(yield func(int) bool) {
		for k, span := range c.span {
			for x := span[0]; x <= span[1]; x++ {
				if !yield((c.low+k)*g.nx + x) {
					return
				}
			}
		}
	}
}

func (c *cover) trace(g *grid, f *face) {
	c.low = g.row(f.reach.min.Y - Touch)
	high := g.row(f.reach.max.Y + Touch)
	c.span = c.span[:0]
	for range high - c.low + 1 {
		c.span = append(c.span, [2]int{g.nx, -1})
	}
	ring := f.loops[0]
	a := ring[len(ring)-1]
	for _, b := range ring {
		r0, r1 := g.rows(a, b)
		for r := r0; r <= r1; r++ {
			lo, hi := g.rowSpan(a, b, r)
			s := &c.span[r-c.low]
			s[0], s[1] = min(s[0], lo), max(s[1], hi)
		}
		a = b
	}
}

// raster sorts the faces nearest first and puts them into the cells they
// cover; so each cell lists its faces nearest first too.
func (s *scene) raster() {
	slices.SortStableFunc(s.faces, func(a, b face) int { return compare(b.reach.max.Z, a.reach.max.Z) })
	all := nowhere()
	for i := range s.faces {
		all = all.with(s.faces[i].reach.min).with(s.faces[i].reach.max)
	}
	s.cells = newGrid(all, len(s.faces))
	var c cover
	var cells, items []int32
	for i := range s.faces {
		for cell := range c.cells(&s.cells, &s.faces[i]) {
			cells, items = append(cells, int32(cell)), append(items, int32(i))
		}
	}
	s.cells.sort(cells, items)
}

// sort lists items by the cell each is in, and keeps their order there.
func (g *grid) sort(cells, items []int32) {
	g.first = make([]int32, g.nx*g.ny+1)
	for _, cell := range cells {
		g.first[cell+1]++
	}
	for i := 1; i < len(g.first); i++ {
		g.first[i] += g.first[i-1]
	}
	next := slices.Clone(g.first)
	g.items = make([]int32, len(items))
	for i, cell := range cells {
		g.items[next[cell]] = items[i]
		next[cell]++
	}
}

// in returns the items of one cell.
func (g *grid) in(cell int) []int32 { return g.items[g.first[cell]:g.first[cell+1]] }
