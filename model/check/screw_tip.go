package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/wood"
)

// The wood that must be left in front of a screw's point, mm: 1/8 in, and 3/16
// in under a face that is sat on or leaned on (common practice).
const (
	tipLeft = 3.175
	tipGood = 4.7625
)

// screwTip finds screws whose points come out, or nearly.
func screwTip(s *shop) []Finding {
	var t tally
	for _, f := range s.fasteners() {
		if !isScrew(f) {
			continue
		}
		b := s.bores(f)[1]
		ahead, ok := leaves(b.piece.Solid, b.mouth.Add(f.Dir.Mul(inside)), f.Dir)
		least := leastAhead(b)
		left := ahead + inside - b.deep - sunk(f)
		if !ok || left >= least-0.1 {
			continue
		}
		has, wants := s.against(left, least)
		text := fmt.Sprintf("%s: the %s screw leaves %s of wood in front of its point; %s is needed", jointName(f.Joint), s.long(f.Length), has, wants)
		if left < 0 {
			text = fmt.Sprintf("%s: the point of the %s screw comes out by %s", jointName(f.Joint), s.long(f.Length), s.long(-left))
		}
		t.add(f.Joint.Key, least-left, Finding{Severity: Error, Value: left, Limit: least, Unit: "mm", Text: text, Fix: s.shorter(f, least-left)},
			s.Placed[f.Pieces[0]].Part, b.piece.Part)
	}
	return t.list()
}

// sunk is how much deeper than flush a screw sits.
func sunk(f model.Fastener) float64 {
	if f.Joint.Plug && f.Hardware.Kind == model.WoodScrew {
		return wood.PlugDeep
	}
	return 0
}

// leastAhead is the wood wanted in front of a point, more where it looks at the
// good face of what it is driven into.
func leastAhead(b bore) float64 {
	p := b.piece.Part
	toward := b.piece.Pose.LocalDir(b.Dir).Z
	good := slices.Index(p.Names.Faces[:], p.Face)
	if p.Face != "" && (good == 1 && toward > 0.7 || good == 0 && toward < -0.7) {
		return tipGood
	}
	return tipLeft
}

// shorter says which screw would not come out: the longest sold that is short
// enough, else by how much.
func (s *shop) shorter(f model.Fastener, by float64) string {
	best := 0.0
	for _, l := range soldLengths(f.Hardware) {
		if l <= f.Length-by+slack {
			best = math.Max(best, l)
		}
	}
	if best == 0 {
		return fmt.Sprintf("take a screw %s shorter", s.long(by))
	}
	return fmt.Sprintf("take one of %s", s.long(best)) + s.eachItsOwn(f.Hardware)
}
