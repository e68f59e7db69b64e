package assembly

import (
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// profile is a board's outline by its two edges: each a run of stations along
// the part, straight between them, with square or round ends.
type profile struct {
	length, width float64
	taperOf       [2][]station // edge 0, edge 1
	round         [2]float64   // radius of the ends; 0 is square
}

// station says how far an edge comes in at a place along the part.
type station struct{ x, in float64 }

// add lays a taper along edge 0, edge 1 or both (2).
func (p *profile) add(edge int, a1, w1, a2, w2 float64) model.Taper {
	in1, in2 := p.width-w1, p.width-w2
	edges := []int{edge}
	if edge == 2 {
		in1, in2, edges = in1/2, in2/2, []int{0, 1}
	}
	for _, e := range edges {
		p.taperOf[e] = append(p.taperOf[e], station{a1, in1}, station{a2, in2})
	}
	return model.Taper{Edge: edge, FromAlong: a1, FromWidth: w1, ToAlong: a2, ToWidth: w2,
		Angle: math.Abs(math.Atan2(in2-in1, a2-a1)), OffsetEdge: math.Abs(in2 - in1)}
}

// in is how far edge e comes in at x.
func (p *profile) in(e int, x float64) float64 {
	list := p.taperOf[e]
	for i := 0; i+1 < len(list); i += 2 {
		a, b := list[i], list[i+1]
		if x <= a.x && i == 0 {
			return a.in
		}
		if x <= b.x {
			return a.in + (b.in-a.in)*math.Max(0, x-a.x)/(b.x-a.x)
		}
	}
	if n := len(list); n > 0 {
		return list[n-1].in
	}
	return 0
}

// widthAt is the width an end has before it is rounded.
func (p *profile) widthAt(side int) float64 {
	x := p.length * float64(side)
	return p.width - p.in(0, x) - p.in(1, x)
}

// outline builds the closed outline, anticlockwise from the datum corner.
func (p *profile) outline() (geom.Outline, error) {
	from, to := p.roundStart(0), p.length-p.roundStart(1)
	t := geom.From(geom.Pt{X: from, Y: p.in(0, from)})
	for _, x := range p.stations(0, from, to) {
		t.LineTo(geom.Pt{X: x, Y: p.in(0, x)})
	}
	p.end(t, to, 1)
	back := p.stations(1, from, to)
	slices.Reverse(back)
	for _, x := range append(back[1:], from) {
		t.LineTo(geom.Pt{X: x, Y: p.width - p.in(1, x)})
	}
	if p.round[0] > 0 {
		mid := (p.in(0, 0) + p.width - p.in(1, 0)) / 2
		t.ArcOver(geom.Pt{X: 0, Y: mid}, geom.Pt{X: from, Y: p.in(0, from)})
	}
	return t.Close()
}

// end goes from edge 0 to edge 1 at the far end, straight or round.
func (p *profile) end(t *geom.Trace, x float64, side int) {
	far := geom.Pt{X: x, Y: p.width - p.in(1, x)}
	if p.round[side] == 0 {
		t.LineTo(far)
		return
	}
	mid := (p.in(0, p.length) + p.width - p.in(1, p.length)) / 2
	t.ArcOver(geom.Pt{X: p.length, Y: mid}, far)
}

// roundStart is how far from the end the round meets the edges. A half round
// is drawn about a center on the board's middle, its radius half the width.
func (p *profile) roundStart(side int) float64 {
	r := p.round[side]
	if r == 0 {
		return 0
	}
	half := p.widthAt(side) / 2
	return r - math.Sqrt(math.Max(0, r*r-half*half))
}

// stations are the places along an edge where it turns, and its far end.
func (p *profile) stations(e int, from, to float64) []float64 {
	var out []float64
	for _, st := range p.taperOf[e] {
		if st.x > from+tol && st.x < to-tol {
			out = append(out, st.x)
		}
	}
	slices.Sort(out)
	return append(out, to)
}
