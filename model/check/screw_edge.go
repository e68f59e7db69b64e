package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
)

// The least distance of a screw from a long edge or a face, with a drilled hole:
// 2.5 diameters and 3/8 in (common practice; NDS commentary from memory). Under
// edgeSplits diameters the wood breaks out. In the middle of a board's edge 2
// diameters do, for no place is better: a #8 in 3/4 in stock.
const (
	edgeMiddle = 2
	edgeDiams  = 2.5
	edgeLeast  = 9.525
	edgeSplits = 1.5
	edgeGrace  = 0.94 // of what is remembered to be the least: a #8 keeps whole at 3/8 in
)

func edgeRoom(d float64) float64 { return math.Max(edgeDiams*d, edgeLeast) }

// screwEdge finds screws too near an edge or face of either part.
func screwEdge(s *shop) []Finding {
	var t tally
	s.eachScrew(func(b bore) {
		for side, dir := range b.sides() {
			got, far, ok := b.both(dir)
			least := edgeRoom(b.Hardware.Diam)
			enough := edgeGrace * least
			// One that leans goes in in the middle and drifts to one side.
			middle := far-got < 1+math.Abs(dir.Dot(b.Dir))*b.deep/2
			if middle {
				least = edgeMiddle * b.Hardware.Diam
				enough = least
			}
			if !ok || got >= enough-slack {
				continue
			}
			level := Warning
			if got < edgeSplits*b.Hardware.Diam {
				level = Error
			}
			f := s.tooNear(b, level, sideRoom{got, least, side, side})
			if middle {
				f.Fix = fmt.Sprintf("it is in the middle: take a screw no thicker than %s", s.Unit.LongTo(got/edgeMiddle, expr.Drill))
			}
			t.add(b.joint(side), least-got, f, b.piece.Part)
		}
	})
	s.pocketEdge(&t)
	return t.named()
}

// A pocket is 3/8 in wide: its middle stays as far from the edge of its board, and
// the bore breaks out of it under 6 mm (common practice).
const (
	pocketLeast  = 9.525
	pocketOpens  = 6.0
	pocketMarked = 0.8 // mm: the jig is set by a pencil line
)

// pocketEdge finds pockets that open, or all but open, an edge of their own board.
func (s *shop) pocketEdge(t *tally) {
	for _, f := range s.fasteners() {
		if f.Hardware.Kind != model.PocketScrew {
			continue
		}
		b := s.bores(f)[0]
		got, ok := b.beside(b.piece.Pose.Across)
		if !ok || got >= pocketLeast-pocketMarked {
			continue
		}
		level := Warning
		if got < pocketOpens {
			level = Error
		}
		has, wants := s.against(got, pocketLeast)
		t.add(b.joint("pocket"), pocketLeast-got, Finding{Severity: level, Value: got, Limit: pocketLeast, Unit: "mm",
			Text: fmt.Sprintf("a pocket of %q is bored %s from the edge; %s keeps its bore in the wood", jointName(b.Joint), has, wants),
			Fix:  fmt.Sprintf("move it in by %s", s.more(pocketLeast-got))}, b.piece.Part)
	}
}

// eachScrew looks at every screw in both its parts. A pocket is put where its
// jig puts it along the board, so only what its screw bites into is looked at.
func (s *shop) eachScrew(look func(bore)) {
	for _, f := range s.fasteners() {
		if !isScrew(f) {
			continue
		}
		for _, b := range s.bores(f) {
			if b.second || f.Hardware.Kind != model.PocketScrew {
				look(b)
			}
		}
	}
}

// tooNear is the finding for a fastener too near a side.
func (s *shop) tooNear(b bore, level Severity, r sideRoom) Finding {
	has, wants := s.against(r.got, r.least)
	return Finding{Severity: level, Value: r.got, Limit: r.least, Unit: "mm",
		Text: fmt.Sprintf("a screw of %q sits %s from the %s; %s keeps the wood from splitting", jointName(b.Joint), has, r.side, wants),
		Fix:  fmt.Sprintf("move it in by %s", s.more(r.least-r.got))}
}
