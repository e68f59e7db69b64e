package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// Around a washer there must be this much flat wood, mm: 1/16 in (common
// practice). Things that stand within seatHigh of the wood are in its way.
const (
	seatRim  = 1.5875
	seatHigh = 2
	seatSpan = 16 // directions looked at
)

// washerSeat finds washers that do not lie on wood all round, and nuts or heads
// that another piece covers.
func washerSeat(s *shop) []Finding {
	var t tally
	for _, f := range s.fasteners() {
		size, known := wood.Bolt(f.Hardware.Size)
		if !isBolt(f) || !known {
			continue
		}
		r := washerRadius(f, size)
		nut := f.Head.Add(f.Dir.Mul(f.Grip))
		b := s.bores(f)[1]
		got := math.Inf(1)
		for _, d := range spokes(f.Dir, seatSpan) {
			if mm, ok := leaves(b.piece.Solid, nut.Sub(f.Dir.Mul(inside)), d); ok {
				got = math.Min(got, mm)
			}
		}
		if got < r+seatRim-slack {
			t.add(b.joint("seat"), r+seatRim-got, Finding{Severity: Error, Value: got, Limit: r + seatRim, Unit: "mm",
				Text: fmt.Sprintf("%s: the washer reaches %s from the bolt and the wood ends at %s", jointName(f.Joint), s.long(r), s.long(got)),
				Fix:  fmt.Sprintf("move the bolt in by %s", s.more(r+seatRim-got))}, b.piece.Part)
		}
		s.covered(&t, f, covering{"nut", nut.Add(f.Dir.Mul(seatHigh)), r})
		s.covered(&t, f, covering{"head", f.Head.Sub(f.Dir.Mul(seatHigh)), size.Head.Max / 2})
	}
	return t.list()
}

// washerRadius is half of what lies on the wood: the washer, else the nut.
func washerRadius(f model.Fastener, size wood.BoltSize) float64 {
	for _, h := range f.Joint.With {
		if h.Kind == model.Washer {
			return size.Wide.Outside / 2
		}
	}
	return math.Max(size.Nut.Corners.Max, size.Nut.Flats.Max) / 2
}

// covering is a nut or head that wants to stand free.
type covering struct {
	what string
	at   geom.V3
	r    float64
}

func (s *shop) covered(t *tally, f model.Fastener, c covering) {
	for _, p := range s.Placed {
		if p.Index == f.Pieces[0] || p.Index == f.Pieces[1] || !p.Solid.Box3(geom.Home()).Grow(c.r).Has(c.at) {
			continue
		}
		hit := p.Solid.Inside(c.at)
		for _, d := range spokes(f.Dir, seatSpan) {
			hit = hit || p.Solid.Inside(c.at.Add(d.Mul(c.r)))
		}
		if hit {
			t.add(f.Joint.Key+c.what+p.Part.Key, 0, Finding{Severity: Error, Value: 0, Limit: c.r, Unit: "mm",
				Text: fmt.Sprintf("%s: %s lies over the %s of a bolt", jointName(f.Joint), called(p.Part), c.what),
				Fix:  fmt.Sprintf("keep it %s from the bolt's center, or sink the %s", s.long(c.r), c.what)}, p.Part)
		}
	}
}
