package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// An edge-glued panel outdoors opens when it is wider than 6 in (common practice).
// That its glue stands rain the plan set says by itself, in the shopping list and
// at each glued joint.
const panelMost = 152.4

// wideGlue finds panels glued edge to edge that are too wide for outdoors.
func wideGlue(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if !j.Bond {
			continue
		}
		wide, parts := s.panel(j)
		if wide > panelMost+slack {
			t.add(j.Key, wide, Finding{Severity: Warning, Value: wide, Limit: panelMost, Unit: "mm",
				Text: fmt.Sprintf("%s: a panel %s wide glued edge to edge; outdoors it opens beyond %s", jointName(j), s.long(wide), s.long(panelMost)),
				Fix:  fmt.Sprintf("leave gaps between boards of %s at most", s.long(panelMost))}, parts...)
		}
	}
	return t.list()
}

// panel is the width of the widest run of boards that a joint glues edge to edge.
func (s *shop) panel(j *model.Joint) (wide float64, parts []*model.Part) {
	lumps := make([]int, len(s.Placed))
	for i := range lumps {
		lumps[i] = i
	}
	for _, pair := range s.gripped(j) {
		a, b := s.Placed[pair[0]], s.Placed[pair[1]]
		for _, c := range s.contact(pair[0], pair[1]) {
			if a.Solid.Faces[c.FaceA].Kind == geom.Side && b.Solid.Faces[c.FaceB].Kind == geom.Side && math.Abs(a.Pose.Along.Dot(b.Pose.Along)) > 0.99 {
				merge(lumps, pair[0], pair[1])
				break
			}
		}
	}
	for i := range lumps {
		sum, list := 0.0, []*model.Part(nil)
		for k, l := range lumps {
			if l == lumps[i] {
				sum, list = sum+s.Placed[k].Part.Width, append(list, s.Placed[k].Part)
			}
		}
		if len(list) > 1 && sum > wide {
			wide, parts = sum, list
		}
	}
	return wide, parts
}
