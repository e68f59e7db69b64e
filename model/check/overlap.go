package check

import (
	"fmt"

	"planset/model/geom"
)

// overlapDepth is how far two pieces may reach into each other, mm: 0.005 in, a
// saw's own error (common practice).
const overlapDepth = 0.127

// overlap finds pieces that would fill the same space.
func overlap(s *shop) []Finding {
	var t tally
	for i, a := range s.Placed {
		for _, b := range s.Placed[i+1:] {
			deep := geom.Overlap(a.Solid, b.Solid, 0.01)
			if deep <= overlapDepth {
				continue
			}
			t.add(a.Part.Key+"\x00"+b.Part.Key, deep, Finding{Severity: Error, Value: deep, Limit: overlapDepth, Unit: "mm",
				Text: fmt.Sprintf("%s fill the same space, %s deep", bothOf(a.Part, b.Part), s.atLeast(deep)),
				Fix:  fmt.Sprintf("move one of them %s, or cut it back by that", s.more(deep))}, a.Part, b.Part)
		}
	}
	return t.list()
}
