package check

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// Distances of a bolt in diameters, NDS chapter 12 from memory: 1.5 from any
// edge, 4 from one that the load pushes it to, 4 from an end.
const (
	boltEdgeLeast  = 1.5
	boltEdgeLoaded = 4
	boltEndLeast   = 4
)

// boltEdge finds bolts too near an edge or end.
func boltEdge(s *shop) []Finding {
	var t, loaded tally
	for _, f := range s.fasteners() {
		if !isBolt(f) {
			continue
		}
		d := f.Hardware.Diam
		for _, b := range s.bores(f) {
			edge, ok := b.beside(b.piece.Pose.Across)
			if ok {
				s.boltSide(&t, b, edge, boltEdgeLeast*d, "edge")
			}
			if end, ok := b.beside(b.piece.Pose.Along); ok {
				s.boltSide(&t, b, end, boltEndLeast*d, "end")
			}
			if up, ok := s.pushed(b); ok && edge >= boltEdgeLeast*d-slack && up < boltEdgeLoaded*d-slack {
				loaded.add(b.joint("loaded"), -up, Finding{Severity: Note, Value: up, Limit: boltEdgeLoaded * d, Unit: "mm",
					Text: fmt.Sprintf("the load pushes a bolt toward an edge %s away; %s is the rule there", s.long(up), s.long(boltEdgeLoaded*d)),
					Fix:  fmt.Sprintf("move it in by %s", s.more(boltEdgeLoaded*d-up))}, b.piece.Part)
			}
		}
	}
	return append(t.named(), loaded.named()...)
}

func (s *shop) boltSide(t *tally, b bore, got, least float64, side string) {
	if got >= least-slack {
		return
	}
	level := Warning
	if got < least/2 {
		level = Error
	}
	has, wants := s.against(got, least)
	t.add(b.joint(side), least-got, Finding{Severity: level, Value: got, Limit: least, Unit: "mm",
		Text: fmt.Sprintf("a bolt sits %s from the %s; %s is the least", has, side, wants),
		Fix:  fmt.Sprintf("move it in by %s", s.more(least-got))}, b.piece.Part)
}

// pushed is how far it is from a bolt to the edge that weight pushes it to. A
// piece whose grain lies level and that does not reach the floor hangs on its
// bolts: they press up into it. Wood whose grain stands up is pressed along it.
func (s *shop) pushed(b bore) (mm float64, ok bool) {
	across := b.piece.Pose.Across
	if math.Abs(across.Z) < 0.7 || s.onFloor(b.piece.Solid) {
		return 0, false
	}
	if across.Z < 0 {
		across = across.Neg()
	}
	return leaves(b.piece.Solid, b.mouth.Add(b.Dir.Mul(b.deep/4)), across)
}

// onFloor reports whether a solid stands on the floor.
func (s *shop) onFloor(solid *geom.Solid) bool {
	down, _ := solid.MaxAlong(geom.V3{Z: -1}, nil)
	return down > -floorTol
}
