package check

import (
	"fmt"
	"math"
)

// A screw along the grain pulls out: withdrawal from end grain is not permitted
// (NDS 12.2, from memory). What holds a piece otherwise as well may have some.
const alongGrain = 0.7

// endGrain finds pieces that nothing but screws in their end grain holds.
func endGrain(s *shop) []Finding {
	type hold struct{ end, side int }
	holds := make([]hold, len(s.Placed))
	var t tally
	for _, f := range s.fasteners() {
		for _, b := range s.bores(f) {
			if isScrew(f) && b.second && s.intoEnd(b) {
				holds[b.piece.Index].end++
			} else {
				holds[b.piece.Index].side++
			}
		}
	}
	for _, f := range s.fasteners() {
		b := s.bores(f)[1]
		if h := holds[b.piece.Index]; !isScrew(f) || !s.intoEnd(b) || h.side > 0 {
			continue
		}
		lean := 90 - math.Acos(math.Min(1, math.Abs(b.Dir.Dot(b.piece.Pose.Along))))*180/math.Pi
		t.add(f.Joint.Key+"\x00"+b.piece.Part.Key, 0, Finding{Severity: Warning, Value: lean, Limit: math.Asin(alongGrain) * 180 / math.Pi, Unit: "deg",
			Text: fmt.Sprintf("%s: nothing but screws in its end grain holds it; they pull out", jointName(f.Joint)),
			Fix:  fmt.Sprintf("hold it with 2 pocket screws across the grain, or set a cleat of %s into the corner", s.long(25.4))}, b.piece.Part)
	}
	return t.named()
}

// intoEnd reports whether a bore runs along the grain of its piece.
func (s *shop) intoEnd(b bore) bool { return math.Abs(b.Dir.Dot(b.piece.Pose.Along)) > alongGrain }
