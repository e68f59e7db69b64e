package check

import (
	"fmt"

	"planset/model/expr"
)

// smallLeast is the shortest piece that may be held by hand at a saw, mm: 12 in
// (common practice).
const smallLeast = 304.8

// smallPart points out parts too short to be held at the saw.
func smallPart(s *shop) []Finding {
	var out []Finding
	for _, p := range s.Parts {
		if p.RoughLength < smallLeast {
			out = append(out, Finding{Severity: Note, Parts: []string{p.Code}, Value: p.RoughLength, Limit: smallLeast, Unit: "mm",
				Text: fmt.Sprintf("%s is %s long, too short to be held by hand at a saw", called(p), s.Unit.LongTo(p.RoughLength, expr.Coarse)),
				Fix:  fmt.Sprintf("let a step cut it from a piece at least %s long", s.Unit.LongTo(smallLeast, expr.Coarse))})
		}
	}
	return out
}
