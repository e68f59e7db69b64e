package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"planset/model/geom"
)

// floorTol is how far from the floor a foot may be and still touch it, mm: 1/32
// in (common practice).
const floorTol = 0.8

// feetApart is twice the area, mm², of the least triangle of feet that counts as
// standing and not as balancing on a line.
const feetApart = 1000

// stands finds a piece of furniture that does not stand: one that reaches
// through the floor, touches it in fewer than three points, or has its weight
// beside its feet.
func stands(s *shop) []Finding {
	if len(s.Placed) == 0 {
		return nil
	}
	low := math.Inf(1)
	var feet []geom.Pt
	lowest := s.Placed[0].Part
	for _, p := range s.Placed {
		for _, v := range p.Solid.Points() {
			if v.Z < low-1e-6 {
				low, lowest = v.Z, p.Part
			}
			if math.Abs(v.Z) <= floorTol {
				feet = append(feet, geom.Pt{X: v.X, Y: v.Y})
			}
		}
	}
	ring := hull(feet)
	switch {
	case low < -floorTol:
		return []Finding{{Severity: Error, Value: low, Limit: -floorTol, Unit: "mm", Parts: []string{lowest.Code}, Text: fmt.Sprintf("%s reaches %s through the floor", called(lowest), s.atLeast(-low)),
			Fix: fmt.Sprintf("raise it by %s, or trim it by the floor", s.atLeast(-low))}}
	case low > floorTol:
		return []Finding{{Severity: Error, Value: low, Limit: floorTol, Unit: "mm", Parts: []string{lowest.Code}, Text: fmt.Sprintf("nothing touches the floor; %s comes nearest and is %s above it", called(lowest), s.atLeast(low)),
			Fix: fmt.Sprintf("lower it by %s", s.atLeast(low))}}
	case twice(ring) < feetApart:
		return []Finding{{Severity: Error, Value: float64(len(ring)), Limit: 3, Text: "fewer than three points apart touch the floor, so it rocks or falls", Fix: "let three feet or more meet the floor"}}
	}
	// Where a foot hangs, the whole rocks on to it: its weight is held there.
	if hung := s.hanging(ring); len(hung) > 0 {
		return hung
	}
	return s.overFeet(ring)
}

// A foot that ends lower than this over the floor was meant to touch it, mm: end
// grain that looks down from 1/2 in, anything from 1/8 in (common practice).
const (
	footHangs = 12.7
	hangsAny  = 3.175
)

// hanging finds feet that end above the floor, beyond those that touch it: the
// piece rocks on to them.
func (s *shop) hanging(ring []geom.Pt) []Finding {
	var t tally
	for _, p := range s.Placed {
		for _, f := range p.Solid.Faces {
			most := hangsAny
			if f.Kind == geom.End && f.N.Z < -looksUp {
				most = footHangs
			}
			for _, v := range f.Loops[0] {
				if v.Z <= floorTol || v.Z > most || insideBy(ring, geom.Pt{X: v.X, Y: v.Y}) > -1 {
					continue
				}
				t.add(p.Part.Key, v.Z, Finding{Severity: Error, Value: v.Z, Limit: floorTol, Unit: "mm",
					Text: fmt.Sprintf("it hangs %s above the floor beyond the feet that touch it, so the whole rocks", s.atLeast(v.Z)),
					Fix:  fmt.Sprintf("lengthen it by %s, or trim it by the floor", s.atLeast(v.Z))}, p.Part)
			}
		}
	}
	return t.named()
}

// insideBy is how far inside a ring a point lies, mm; negative outside.
func insideBy(ring []geom.Pt, c geom.Pt) float64 {
	in := math.Inf(1)
	for i, a := range ring {
		in = math.Min(in, ring[(i+1)%len(ring)].Sub(a).Unit().Cross(c.Sub(a)))
	}
	return in
}

// overFeet looks whether the weight lies over the feet.
func (s *shop) overFeet(ring []geom.Pt) []Finding {
	var sum geom.V3
	mass := 0.0
	for _, p := range s.Placed {
		sum = sum.Add(p.Center.Mul(p.Part.Mass))
		mass += p.Part.Mass
	}
	if mass == 0 {
		return nil
	}
	c := geom.Pt{X: sum.X / mass, Y: sum.Y / mass}
	in := insideBy(ring, c)
	if in > 0 {
		return nil
	}
	return []Finding{{Severity: Error, Value: in, Unit: "mm", Text: fmt.Sprintf("its weight lies %s outside its feet, so it falls over by itself", s.atLeast(-in)),
		Fix: fmt.Sprintf("move the feet more than %s that way", s.atLeast(-in))}}
}

// hull is the ring around points, anticlockwise (Andrew's chain).
func hull(pts []geom.Pt) []geom.Pt {
	slices.SortFunc(pts, func(a, b geom.Pt) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	half := func(list []geom.Pt) []geom.Pt {
		var out []geom.Pt
		for _, p := range list {
			for len(out) > 1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out
	}
	if len(pts) < 3 {
		return pts
	}
	lower := half(pts)
	slices.Reverse(pts)
	upper := half(pts)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

// twice is twice the area of a ring.
func twice(ring []geom.Pt) float64 {
	sum := 0.0
	for i, p := range ring {
		sum += p.Cross(ring[(i+1)%len(ring)])
	}
	return sum
}
