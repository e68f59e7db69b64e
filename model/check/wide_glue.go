package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// An edge-glued panel outdoors opens when it is wider than 6 in, or when its glue
// is not made for wet: Type I of ANSI/HPVA HP-1, D4 of EN 204 (from memory).
const panelMost = 152.4

// wetGlue are the words for a glue that stands rain.
var wetGlue = []string{"exterior glue", "exterior wood glue", "waterproof", "type i ", "d4", "epoxy", "polyurethane", "resorcinol"}

// wideGlue finds panels glued edge to edge that are too wide for outdoors, and
// glue that is not named as fit for rain.
func wideGlue(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if !j.Glue {
			continue
		}
		if !s.told(wetGlue...) && !hasWord(j.Note, wetGlue...) && len(s.Steps) > 0 {
			t.add("glue", 1, Finding{Severity: Warning, Text: "glue is used outdoors and no text says that it stands rain",
				Fix: "name an exterior glue, Type I or D4, in the step that spreads it"}, partsOf(j)...)
		}
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
