package check

import (
	"math"

	"planset/model"
)

// The least distance of a screw from the end of the grain: 3/4 in (common
// practice). A thread in a pilot hole splits the wood under 3 diameters and 1/2
// in; a shank that turns freely in its clearance hole does it much later.
const (
	endLeast     = 19.05
	endSplits    = 12.7
	endDiams     = 3
	endUndrilled = 15 // diameters, without a pilot hole (NDS commentary, from memory)
	middleShare  = 0.38
	endMarked    = 0.8 // mm: a screw is marked out to 1/32 in, and 3/4 in is no finer a figure
)

// screwEnd finds screws too near the end of the grain of either part.
func screwEnd(s *shop) []Finding {
	var t tally
	s.eachScrew(func(b bore) {
		got, ok := b.beside(b.piece.Pose.Along)
		if !ok {
			return
		}
		least, splits := s.endRoom(b)
		if got >= least-endMarked {
			return
		}
		level := Warning
		if got < splits-slack {
			level = Error
		}
		t.add(b.joint("end"), least-got, s.tooNear(b, level, sideRoom{got, least, "end", "end"}), b.piece.Part)
	})
	return t.named()
}

// endRoom is how far from the end a screw should be and where the wood splits.
// A part that ends on what it lies on has only half of that to spare: in the
// middle of it, and with a clearance hole, the distance of an edge will do.
func (s *shop) endRoom(b bore) (least, splits float64) {
	d := b.Hardware.Diam
	switch {
	case b.second && b.Hardware.Kind == model.WoodScrew && b.Joint.Pilot == 0:
		return endUndrilled * d, math.Max(endDiams*d, endSplits)
	case b.second:
		return endLeast, math.Max(endDiams*d, endSplits)
	}
	under := s.bores(b.Fastener)[1]
	lean := b.piece.Pose.Along.Sub(b.Dir.Mul(b.piece.Pose.Along.Dot(b.Dir))).Unit()
	at := under.mouth.Add(b.Dir.Mul(inside))
	one, ok1 := leaves(under.piece.Solid, at, lean)
	two, ok2 := leaves(under.piece.Solid, at, lean.Neg())
	if ok1 && ok2 && math.Min(one, two) >= middleShare*(one+two) {
		return math.Min(endLeast, edgeRoom(d)), edgeSplits * d
	}
	return endLeast, edgeSplits * d
}
