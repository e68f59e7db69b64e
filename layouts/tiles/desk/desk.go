// Package desk finds room on a page for words and signs among what is already
// there.
//
// It knows rectangles that are taken and free. It does not know what lies in them.
package desk

import (
	"math"

	"planset/model/geom"
)

// square is the size of the squares a desk counts in, in mm.
const square = 1.0

// A Desk keeps track of what is taken in a rectangle, so that words and marks
// find room without touching anything. A square is taken when anything comes
// into it: room that is found is truly free, though some free room is missed.
type Desk struct {
	box        geom.Box
	cols, rows int
	taken      []bool
	sums       []int32 // taken squares below and left of each corner
	summed     bool    // sums are up to date
}

// New returns an empty desk over b.
func New(b geom.Box) *Desk {
	d := &Desk{box: b, cols: int(b.W() / square), rows: int(b.H() / square)}
	d.taken = make([]bool, d.cols*d.rows)
	return d
}

// Block takes the squares of b.
func (d *Desk) Block(b geom.Box) {
	x0 := max(0, int(math.Floor((b.Min.X-d.box.Min.X)/square)))
	y0 := max(0, int(math.Floor((b.Min.Y-d.box.Min.Y)/square)))
	x1 := min(d.cols-1, int(math.Floor((b.Max.X-d.box.Min.X)/square)))
	y1 := min(d.rows-1, int(math.Floor((b.Max.Y-d.box.Min.Y)/square)))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			d.taken[y*d.cols+x] = true
		}
	}
	d.summed = false
}

// BlockLine takes the squares within reach mm of s.
func (d *Desk) BlockLine(s geom.Seg, reach float64) {
	const step = 0.5
	n := int(math.Ceil(s.Length()/step)) + 1
	for i := range n + 1 {
		p := s.At(float64(i) / float64(n))
		d.Block(geom.Box{Min: p, Max: p}.Grow(reach + step/2))
	}
}

// sum fills the table of sums: every rectangle is then counted in four looks.
func (d *Desk) sum() {
	w := d.cols + 1
	if d.sums == nil {
		d.sums = make([]int32, w*(d.rows+1))
	}
	for y := range d.rows {
		taken := d.taken[y*d.cols : (y+1)*d.cols]
		below, here := d.sums[y*w+1:(y+1)*w], d.sums[(y+1)*w+1:(y+2)*w]
		row := int32(0)
		for x, t := range taken {
			if t {
				row++
			}
			here[x] = below[x] + row
		}
	}
	d.summed = true
}

// A Want is a rectangle looking for a place.
type Want struct {
	Size   geom.Size
	Near   geom.Pt  // wished place of its centre
	Within geom.Box // the place must lie in here
	Pad    float64  // room to keep on every side
}

// Room finds the free place nearest to the wish and takes it. It is not ok when
// there is none.
func (d *Desk) Room(w Want) (at geom.Box, ok bool) {
	if at, ok = d.Look(w); ok {
		d.Block(at.Grow(w.Pad))
	}
	return at, ok
}

// Look finds the free place nearest to the wish and leaves it free. It is not ok
// when there is none.
func (d *Desk) Look(w Want) (at geom.Box, ok bool) {
	if !d.summed {
		d.sum()
	}
	nx := int(math.Ceil((w.Size.W + 2*w.Pad) / square))
	ny := int(math.Ceil((w.Size.H + 2*w.Pad) / square))
	x0 := max(0, int(math.Ceil((w.Within.Min.X-d.box.Min.X)/square)))
	y0 := max(0, int(math.Ceil((w.Within.Min.Y-d.box.Min.Y)/square)))
	x1 := min(d.cols, int(math.Floor((w.Within.Max.X-d.box.Min.X)/square)))
	y1 := min(d.rows, int(math.Floor((w.Within.Max.Y-d.box.Min.Y)/square)))
	best := math.Inf(1)
	var mid geom.Pt
	for y := y0; y+ny <= y1; y++ {
		for x := x0; x+nx <= x1; x++ {
			c := d.box.Min.Add(geom.Pt{X: float64(x) + float64(nx)/2, Y: float64(y) + float64(ny)/2}.Mul(square))
			off := c.Sub(w.Near)
			if dist := off.Dot(off); dist < best-1e-9 && d.count(x, y, x+nx, y+ny) == 0 {
				best, mid = dist, c
			}
		}
	}
	if math.IsInf(best, 1) {
		return geom.Box{}, false
	}
	half := geom.Pt{X: w.Size.W / 2, Y: w.Size.H / 2}
	return geom.Box{Min: mid.Sub(half), Max: mid.Add(half)}, true
}

// count returns how many squares are taken from column x0 and row y0 up to, not
// with, x1 and y1.
func (d *Desk) count(x0, y0, x1, y1 int) int32 {
	w := d.cols + 1
	return d.sums[y1*w+x1] - d.sums[y0*w+x1] - d.sums[y1*w+x0] + d.sums[y0*w+x0]
}

// Free reports whether nothing has been put in b so far.
func (d *Desk) Free(b geom.Box) bool {
	if !d.summed {
		d.sum()
	}
	at := func(v, from float64, most int) int { return min(most, max(0, int(math.Floor((v-from)/square)))) }
	x0, x1 := at(b.Min.X, d.box.Min.X, d.cols), at(b.Max.X, d.box.Min.X, d.cols-1)+1
	y0, y1 := at(b.Min.Y, d.box.Min.Y, d.rows), at(b.Max.Y, d.box.Min.Y, d.rows-1)+1
	return x1 <= x0 || y1 <= y0 || d.count(x0, y0, x1, y1) == 0
}
