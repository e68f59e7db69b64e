package check

import (
	"fmt"
	"slices"

	"planset/model"
	doing "planset/model/shop"
)

// smallPart points out parts too short to be held by hand at a saw, where the
// plan set does not warn of it by itself: its message on kickback names short
// pieces wherever there are any. The limit is that of the message.
func smallPart(s *shop) []Finding {
	warned := slices.ContainsFunc(doing.Cautions(s.Plan), func(c model.Caution) bool { return c.Key == "kickback" })
	if warned {
		return nil
	}
	var out []Finding
	for _, p := range s.Parts {
		if p.Length < doing.ShortEnd-slack {
			out = append(out, Finding{Severity: Note, Parts: []string{p.Code}, Value: p.Length, Limit: doing.ShortEnd, Unit: "mm",
				Text: fmt.Sprintf("%s is %s long, too short to be held by hand at a saw", called(p), s.long(p.Length)),
				Fix:  fmt.Sprintf("let a step shape it on a piece at least %s long", s.long(doing.ShortEnd))})
		}
	}
	return out
}
