package check

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// Where a curve runs into a side, the eye sees a shoulder of more than 2 degrees;
// over kinkMeant it is a corner that was meant. A half round is as wide as the
// part there to 1/32 in (common practice).
const (
	kinkSeen  = 2
	kinkMeant = 30
	roundTrue = 0.8
	arcSmall  = 6 // mm; smaller rounds are eased corners
)

// roundEnd finds curves that do not run smoothly into the sides beside them, and
// half rounds of another width than the part.
func roundEnd(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		o := p.Board.Outline
		for i, a := range o {
			b := o[(i+1)%len(o)]
			arc := a
			if b.Turn != geom.Straight {
				arc = b
			}
			if arc.Turn == geom.Straight || arc.R < arcSmall {
				continue
			}
			u, v := a.Tangent(1), b.Tangent(0)
			kink := math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) * 180 / math.Pi
			if kink <= kinkSeen+angleTol || kink >= kinkMeant {
				continue
			}
			t.add(p.Key+"kink", kink, Finding{Severity: Warning, Value: kink, Limit: kinkSeen, Unit: "deg",
				Text: fmt.Sprintf("a shoulder of %s shows where the round of %s meets the side", degrees(kink), s.long(arc.R)),
				// A side that slants by the kink touches a round of the same radius
				// whose center lies R·tan(kink/2) farther up where it widens.
				Fix: fmt.Sprintf("move the round's center by %s along the part to where it is wider, so that the side touches it", s.long(arc.R*math.Tan(kink*math.Pi/360)))}, p)
		}
		for _, e := range p.Ends {
			if e.Shape != "half round" || e.Radius == 0 {
				continue
			}
			if wide, ok := halfAt(o, e.Radius); ok && math.Abs(wide-e.Radius) > roundTrue {
				t.add(p.Key+"half", math.Abs(wide-e.Radius), Finding{Severity: Warning, Value: e.Radius, Limit: wide, Unit: "mm",
					Text: fmt.Sprintf("the half round has a radius of %s, and half the width there is %s", s.long(e.Radius), s.long(wide)),
					Fix:  fmt.Sprintf("make it %s", s.long(wide))}, p)
			}
		}
	}
	return t.named()
}

// halfAt is half the width of an outline where the arc of a radius begins.
func halfAt(o geom.Outline, r float64) (float64, bool) {
	for _, g := range o {
		if g.Turn != geom.Straight && math.Abs(g.R-r) < 1e-6 {
			if ys := o.Across(g.C.X); len(ys) > 1 {
				return (ys[len(ys)-1] - ys[0]) / 2, true
			}
		}
	}
	return 0, false
}
