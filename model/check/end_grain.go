package check

import (
	"fmt"
	"math"

	"planset/model/expr"
)

// A screw along the grain pulls out: withdrawal from end grain is not permitted
// (NDS 12.2, from memory; tests in the Wood Handbook, ch. 8, give it 75 % of side
// grain at best). None may be all that holds a piece. What holds it otherwise as
// well may have some.
const alongGrain = 0.7

// endGrain finds pieces that nothing but screws in their end grain holds.
func endGrain(s *shop) []Finding {
	type hold struct{ end, side int }
	holds := make([]hold, len(s.Placed))
	for _, f := range s.fasteners() {
		for _, b := range s.bores(f) {
			if isScrew(f) && b.second && b.alongGrain() {
				holds[b.piece.Index].end++
			} else {
				holds[b.piece.Index].side++
			}
		}
	}
	for _, j := range s.Joints {
		if j.Bond {
			for _, pair := range s.gripped(j) {
				holds[pair[0]].side += s.gluedAcross(pair[0], pair[1])
				holds[pair[1]].side += s.gluedAcross(pair[1], pair[0])
			}
		}
	}
	var t tally
	for _, f := range s.fasteners() {
		b := s.bores(f)[1]
		h := holds[b.piece.Index]
		if !isScrew(f) || !b.alongGrain() || h.side > 0 {
			continue
		}
		t.add(f.Joint.Key+"\x00"+b.piece.Part.Key, float64(h.end), Finding{Severity: Warning, Value: float64(h.end),
			Text: fmt.Sprintf("%s: nothing holds it but %s in its end grain, and 0 may be all; they pull out", jointName(f.Joint), plural(h.end, "screw")),
			Fix:  fmt.Sprintf("hold it with 2 pocket screws from its own face, or set a cleat of %s into the corner", s.cleat())}, b.piece.Part)
	}
	return t.named()
}

// cleat is a cleat as thick as one is made.
func (s *shop) cleat() string {
	if s.Unit == expr.MM {
		return s.long(25)
	}
	return s.long(25.4)
}

// gluedAcross is 1 when a piece is glued to another by a face of its long grain,
// which holds, and 0 when only its end grain is.
func (s *shop) gluedAcross(piece, other int) int {
	for _, p := range s.contact(piece, other) {
		if math.Abs(p.N.Dot(s.Placed[piece].Pose.Along)) < alongGrain {
			return 1
		}
	}
	return 0
}

// alongGrain reports whether a bore runs along the grain of its piece.
func (b bore) alongGrain() bool { return math.Abs(b.Dir.Dot(b.piece.Pose.Along)) > alongGrain }
