package check

import (
	"fmt"
	"math"

	"planset/model/geom"
	"planset/model/wood"
)

// Distances of a bolt in diameters: 1.5 from any edge, 4 from one that the load
// pushes it to, 4 from an end, 7 from one that is pulled off it, 5 in hardwood
// (NDS chapter 12, from memory), 4 from another bolt (the spacing in a row for
// full value of NDS chapter 12). Under half of that it tears out.
const (
	boltEdgeLeast  = 1.5
	boltEdgeLoaded = 4
	boltEndLeast   = 4
	boltEndPulled  = 7
	boltEndHard    = 5
	boltApart      = 4
)

// boltEdge finds bolts too near an edge, an end or each other.
func boltEdge(s *shop) []Finding {
	var t tally
	in := make([][]bore, len(s.Placed))
	for _, f := range s.fasteners() {
		if !isBolt(f) {
			continue
		}
		for _, b := range s.bores(f) {
			s.boltSides(&t, b)
			for _, a := range in[b.piece.Index] {
				s.boltPair(&t, a, b)
			}
			in[b.piece.Index] = append(in[b.piece.Index], b)
		}
	}
	return t.named()
}

// boltSides holds a bolt against the edges and ends of one of its pieces, the
// sterner rule on the side where the load bears.
func (s *shop) boltSides(t *tally, b bore) {
	d := b.Hardware.Diam
	s.boltAcross(t, b, b.piece.Pose.Across, [2]sideRoom{{0, boltEdgeLeast * d, "edge", "edge"}, {0, boltEdgeLoaded * d, "edge that the load pushes it to", "loaded"}})
	s.boltAcross(t, b, b.piece.Pose.Along, [2]sideRoom{{0, boltEndLeast * d, "end", "end"}, {0, s.pulledRoom(b) * d, "end that the load pulls off it", "pulled"}})
}

// boltAcross looks both ways along a direction of the piece: rooms are that of a
// side without load and of one with it.
func (s *shop) boltAcross(t *tally, b bore, dir geom.V3, rooms [2]sideRoom) {
	near, far, ok := b.both(dir)
	if !ok {
		return
	}
	plain, loaded := rooms[0], rooms[1]
	plain.got = near
	if up, ok := s.above(b, dir); ok {
		loaded.got, plain.got = up, near+far-up
		s.boltSide(t, b, loaded)
	}
	s.boltSide(t, b, plain)
}

// sideRoom is how far a fastener is from a side, how far it should be, and what the
// side is called.
type sideRoom struct {
	got, least float64
	side, key  string
}

func (s *shop) boltSide(t *tally, b bore, r sideRoom) {
	if r.got >= r.least-endMarked {
		return
	}
	level := Warning
	if r.got < r.least/2 {
		level = Error
	}
	has, wants := s.against(r.got, r.least)
	t.add(b.joint(r.key), r.least-r.got, Finding{Severity: level, Value: r.got, Limit: r.least, Unit: "mm",
		Text: fmt.Sprintf("a bolt of %q sits %s from the %s; %s is the least", jointName(b.Joint), has, r.side, wants),
		Fix:  fmt.Sprintf("move it in by %s", s.more(r.least-r.got))}, b.piece.Part)
}

// boltPair holds two bolts in one piece against each other.
func (s *shop) boltPair(t *tally, a, b bore) {
	if math.Abs(a.Dir.Dot(b.Dir)) < 0.9 {
		return // fastener-clash has those that cross
	}
	way := b.mouth.Sub(a.mouth)
	got := way.Sub(a.Dir.Mul(way.Dot(a.Dir))).Len()
	least := boltApart * math.Max(a.Hardware.Diam, b.Hardware.Diam)
	if got >= least-slack {
		return
	}
	level := Warning
	if got < least/2 {
		level = Error
	}
	has, wants := s.against(got, least)
	t.add("apart\x00"+a.Joint.Key+"\x00"+b.Joint.Key, least-got, Finding{Severity: level, Value: got, Limit: least, Unit: "mm",
		Text: fmt.Sprintf("two bolts%s sit %s apart; %s is the least", ofJoints(a.Joint, b.Joint), has, wants),
		Fix:  fmt.Sprintf("move one %s away from the other", s.more(least-got))}, a.piece.Part)
}

// above is how far it is from a bolt to the upper side of its piece along a
// direction of it: what stands on nothing hangs on its bolts, and they press up
// into it. Not ok where that direction is more level than upright, or the piece
// stands on the floor or on another piece.
func (s *shop) above(b bore, dir geom.V3) (mm float64, ok bool) {
	if math.Abs(dir.Z) < 0.7 || s.onFloor(b.piece.Solid) || s.onOther(b.piece.Index) {
		return 0, false
	}
	if dir.Z < 0 {
		dir = dir.Neg()
	}
	return leaves(b.piece.Solid, b.mouth.Add(b.Dir.Mul(b.deep/4)), dir)
}

// pulledRoom is the distance from a pulled end in diameters, by the wood.
func (s *shop) pulledRoom(b bore) float64 {
	if w, ok := wood.Species(b.piece.Part.Stock.Species); ok && w.Hardwood {
		return boltEndHard
	}
	return boltEndPulled
}

// onOther reports whether a piece stands on another.
func (s *shop) onOther(piece int) bool {
	for k := range s.Placed {
		if k == piece {
			continue
		}
		for _, p := range s.contact(piece, k) {
			if p.N.Z < -0.7 && p.Area >= touchLeast {
				return true
			}
		}
	}
	return false
}

// onFloor reports whether a solid stands on the floor.
func (s *shop) onFloor(solid *geom.Solid) bool {
	down, _ := solid.MaxAlong(geom.V3{Z: -1}, nil)
	return down > -hangsAny-slack // one that hangs was meant to stand, and stands has it
}
