package check

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// floorTol is how far from the floor a foot may be and still touch it, mm: 1/32
// in (common practice).
const floorTol = 0.8

// stands finds a piece of furniture that does not stand: fewer than three
// points on the floor, or one through it.
func stands(s *shop) []Finding {
	if len(s.Placed) == 0 {
		return nil
	}
	low := math.Inf(1)
	var feet []geom.V3
	for _, p := range s.Placed {
		for _, f := range p.Solid.Faces {
			for _, v := range f.Loops[0] {
				low = math.Min(low, v.Z)
				if math.Abs(v.Z) < floorTol {
					feet = append(feet, v)
				}
			}
		}
	}
	if low < -floorTol {
		return []Finding{{Severity: Error, Value: low, Limit: -floorTol, Unit: "mm", Text: fmt.Sprintf("something reaches %s through the floor", s.Unit.Long(-low)), Fix: "raise it, or trim it by the floor"}}
	}
	if !spread(feet) {
		return []Finding{{Severity: Error, Value: float64(len(feet)), Limit: 3, Text: "fewer than three points apart touch the floor, so it rocks or falls", Fix: "let the feet meet the floor"}}
	}
	return nil
}

// spread reports whether three of the points do not lie in one line.
func spread(pts []geom.V3) bool {
	for i := 2; i < len(pts); i++ {
		for k := 1; k < i; k++ {
			if pts[i].Sub(pts[0]).Cross(pts[k].Sub(pts[0])).Len() > 1000 {
				return true
			}
		}
	}
	return false
}
