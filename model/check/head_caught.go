package check

import (
	"fmt"
	"math"
)

// A child's body goes through an opening of 3 1/2 in, and the head does not go
// through one of less than 9 in (openings of play equipment, ASTM F1487, from
// memory).
const (
	headLow  = 88.9
	headHigh = 228.6
)

// headCaught finds openings between boards in which a child's head is caught, in
// a piece that children use.
func headCaught(s *shop) []Finding {
	if !s.Children {
		return nil
	}
	all := make([]int, len(s.Placed))
	for i := range all {
		all[i] = i
	}
	var t tally
	for _, i := range all {
		o, ok := s.nextOf(i, all, 2*headHigh)
		if !ok {
			continue
		}
		wide := math.Max(o.low, o.far)
		if wide <= headLow+slack || math.Min(o.low, o.far) >= headHigh-slack {
			continue
		}
		t.add(o.a.Part.Key+"\x00"+o.b.Part.Key, wide, Finding{Severity: Warning, Value: wide, Limit: headLow, Unit: "mm",
			Text: fmt.Sprintf("the opening between %s is %s; from %s to %s a child's head is caught", bothOf(o.a.Part, o.b.Part), s.long(wide), s.long(headLow), s.long(headHigh)),
			Fix:  fmt.Sprintf("close it by %s, or open it by %s", s.more(wide-headLow), s.more(headHigh-math.Min(o.low, o.far)))}, o.a.Part, o.b.Part)
	}
	return t.list()
}
