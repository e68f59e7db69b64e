package check

import (
	"fmt"

	"planset/model/geom"
)

// A jigsaw's blade turns through an inside curve of 1 in and more; a tighter one
// is drilled first (common practice).
const jigsawTurns = 25.4

// cutter finds inside curves too tight to be sawn.
func cutter(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		for _, g := range p.Board.Outline {
			if g.Turn != geom.CW || g.R >= jigsawTurns-slack || s.madeWith(p, "drill", "bore", "hole saw", "forstner") {
				continue
			}
			t.add(p.Key, -g.R, Finding{Severity: Warning, Value: g.R, Limit: jigsawTurns, Unit: "mm",
				Text: fmt.Sprintf("an inside curve of %s is too tight for a saw blade", s.long(g.R)),
				Fix:  fmt.Sprintf("make it %s, or let a step drill it with a bit of %s", s.long(jigsawTurns), s.drill(2*g.R))}, p)
		}
	}
	return t.named()
}
