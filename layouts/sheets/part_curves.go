package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/model/expr"
	"planset/model/geom"
)

// How many offsets a curve is checked by, at most and at least.
const (
	mostOffsets  = 5
	leastOffsets = 3
)

// curveChecks are the offsets of curves whose center lies off the board: no
// compass draws them. The template gives the shape, these prove it.
func (b *partPage) curveChecks() []called {
	var out []called
	names := counter{}
	for _, s := range b.p.Board.Outline {
		if !b.offBoard(s) {
			continue
		}
		o := dims.Offsets{Side: dims.Above}
		low := b.lowSide(s)
		if low {
			o.Side = dims.Below
		}
		for _, x := range offsetStations(s, b.unit()) {
			o.Stations = append(o.Stations, b.station(s, x, low))
		}
		out = append(out, called{Wish: o, name: names.name("offsets")})
	}
	return out
}

// offBoard reports whether a piece of the outline is an arc along the board
// whose center is not on the wood, long enough to be checked.
func (b *partPage) offBoard(s geom.Seg) bool {
	if s.Turn == geom.Straight || len(offsetStations(s, b.unit())) < leastOffsets {
		return false
	}
	o := b.p.Board.Outline
	return !o.Contains(s.C) && o.Distance(s.C) > 0.05
}

// lowSide reports whether a curve lies on the lower side of the face view.
func (b *partPage) lowSide(s geom.Seg) bool {
	return (s.Mid().Y < b.p.Width/2) != b.view.flip
}

// station is the offset of a curve at a place along the part: from the reference
// edge to a curve that lies over it, and from the edge of the blank below to a
// curve on the lower side.
func (b *partPage) station(s geom.Seg, x float64, low bool) dims.Station {
	v := b.view
	y := curveAt(s, x)
	foot := 0.0 // the straight edge that is measured from: the lower one of the view
	if v.flip {
		foot = v.p.Width
	}
	edge, curve := v.pt(x, foot), v.pt(x, y)
	st := dims.Station{Foot: edge, At: curve, Label: dims.Label{Text: b.unit().Length(math.Abs(y-foot), expr.Coarse), Note: true}}
	if low {
		st.Foot, st.At = curve, edge
	}
	return st
}

// curveAt is how far across a part an arc is at a place along it.
func curveAt(s geom.Seg, x float64) float64 {
	rise := math.Sqrt(math.Max(0, s.R*s.R-(x-s.C.X)*(x-s.C.X)))
	if s.Mid().Y < s.C.Y {
		rise = -rise
	}
	return s.C.Y + rise
}

// offsetStep is the distance of the checks of a curve: 2 in or 50 mm, or as much
// more, doubled, as it takes to have no more than five, or half for a short one.
func offsetStep(s geom.Seg, u expr.Unit) float64 {
	step := 25.4
	if u == expr.MM {
		step = 25
	}
	box := s.Box()
	for most := mostOffsets + 1; math.Ceil(box.Max.X/step)-math.Floor(box.Min.X/step) > float64(most); {
		step *= 2
	}
	return step
}

// offsetStations are the places along a part at which a curve is checked, all
// multiples of one step from the datum end.
func offsetStations(s geom.Seg, u expr.Unit) []float64 {
	box, step := s.Box(), offsetStep(s, u)
	if box.W() < 2*box.H() {
		return nil // it runs across more than along
	}
	var out []float64
	for k := math.Floor(box.Min.X/step) + 1; k*step < box.Max.X-1; k++ {
		if k*step > box.Min.X+1 {
			out = append(out, k*step)
		}
	}
	return out
}

// curveWords tell where along the part the offsets are taken.
func (b *partPage) curveWords() string {
	for _, s := range b.p.Board.Outline {
		if b.offBoard(s) {
			return "Prove the curve every " + b.unit().Long(offsetStep(s, b.unit())) + " from the " + orElse(b.p.Names.Ends[0], "datum") + " end."
		}
	}
	return ""
}

// bent are places along the part so close on its curves that nothing between two
// of them is plain.
func bent(o geom.Outline) []float64 {
	var out []float64
	for _, s := range o {
		if s.Turn == geom.Straight {
			continue
		}
		b := s.Box()
		const n = 12
		for i := range n + 1 {
			out = append(out, b.Min.X+b.W()*float64(i)/n)
		}
	}
	return out
}
