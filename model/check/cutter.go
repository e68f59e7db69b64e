package check

import (
	"fmt"

	"planset/model"
	"planset/model/geom"
)

// A jigsaw's blade turns through an inside curve of 1 in and more; a tighter one
// is drilled first (common practice).
const jigsawTurns = 25.4

// cutter finds inside curves too tight to be sawn, unless a step that makes the
// part names the bit they are drilled with, and grooves that stop short of both
// ends, in whose corners every cutter leaves a round.
func cutter(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		for _, g := range p.Board.Outline {
			if g.Turn != geom.CW || g.R >= jigsawTurns-slack || s.madeWith(p, s.drill(2*g.R)) {
				continue
			}
			t.add(p.Key, -g.R, Finding{Severity: Warning, Value: g.R, Limit: jigsawTurns, Unit: "mm",
				Text: fmt.Sprintf("an inside curve of %s is too tight for a saw blade", s.long(g.R)),
				Fix:  fmt.Sprintf("make it %s, or let the step that makes it drill it with a bit of %s", s.long(jigsawTurns), s.drill(2*g.R))}, p)
		}
		for _, g := range p.Grooves {
			if runsOut(p, g) || s.madeWith(p, "chisel") {
				continue
			}
			t.add(p.Key+"groove", 0, Finding{Severity: Note, Text: "a groove stops with square corners, where a cutter leaves round ones",
				Fix: "let the step that makes it square them with a chisel, or run the groove out at its ends"}, p)
		}
	}
	return t.named()
}

// runsOut reports whether a groove leaves the part at both of its ends.
func runsOut(p *model.Part, g model.Groove) bool {
	along := g.Box.Min.X <= slack && g.Box.Max.X >= p.Length-slack
	across := g.Box.Min.Y <= slack && g.Box.Max.Y >= p.Width-slack
	return along || across
}
