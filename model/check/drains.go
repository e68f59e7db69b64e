package check

import (
	"fmt"
	"math"

	"planset/model/strength"
)

// A floor on which rain or soil stands has a drain of 1/2 in for every 12 in of
// its length, or boards 1/8 in apart (common practice).
const (
	drainEvery = 304.8
	drainGap   = 3.175
)

// drains finds boxes whose floor lets no water out.
func drains(s *shop) []Finding {
	var t tally
	for _, v := range strength.Vessels(s.Plan) {
		need := int(math.Ceil((v.Long - slack) / drainEvery))
		got, floor := s.drainsOf(v)
		if got >= need {
			continue
		}
		first := s.Placed[floor[0]].Part
		t.add(first.Key, float64(need-got), Finding{Severity: Warning, Value: float64(got), Limit: float64(need),
			Text: fmt.Sprintf("a floor %s long with walls round it has %s of %s; one for every %s keeps it from rotting", s.long(v.Long), plural(got, "drain"), s.drill(drainWide), s.long(drainEvery)),
			Fix:  fmt.Sprintf("drill %d of %s right through it, %s apart, or leave %s between its boards", need, s.drill(drainWide), s.long(v.Long/float64(need)), s.long(drainGap))}, s.partsAt(floor)...)
	}
	return t.named()
}

// drainsOf counts the drains of a floor; gaps between its boards are as good as
// all of them. It also gives the pieces of the floor.
func (s *shop) drainsOf(v strength.Vessel) (n int, floor []int) {
	floor = v.Floor
	for _, i := range floor {
		p := s.Placed[i]
		for _, h := range p.Part.Holes {
			if h.Into == "face" && h.Depth == 0 && h.Diam >= drainWide-slack && v.Has(p.Pose.Point(h.InPart)) {
				n++
			}
		}
		if o, ok := s.nextOf(i, floor, slatSeatFar); ok && o.mid() >= drainGap-slack {
			return math.MaxInt, floor
		}
	}
	return n, floor
}
