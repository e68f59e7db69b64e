package check

import (
	"fmt"

	"planset/model"
	"planset/model/geom"
)

// overlapDepth is how far two pieces may reach into each other, mm: 0.005 in, a
// saw's own error (common practice).
const overlapDepth = 0.127

// overlap finds pieces that would fill the same space.
func overlap(s *shop) []Finding {
	var out []Finding
	seen := map[[2]string]bool{}
	for i, a := range s.Placed {
		for _, b := range s.Placed[i+1:] {
			deep := geom.Overlap(a.Solid, b.Solid, 0.01)
			pair := [2]string{a.Part.Code, b.Part.Code}
			if deep <= overlapDepth || seen[pair] {
				continue
			}
			seen[pair] = true
			out = append(out, Finding{Severity: Error, Parts: pair[:], Value: deep, Limit: overlapDepth, Unit: "mm",
				Text: fmt.Sprintf("%s and %s fill the same space, %s deep", called(a.Part), called(b.Part), s.Unit.LongTo(deep, 1)),
				Fix:  fmt.Sprintf("move one of them %s, or cut it back by that", s.Unit.LongTo(deep, 1))})
		}
	}
	return out
}

// called is a part by name and letter.
func called(p *model.Part) string { return p.Name + " " + p.Code }
