package check

import (
	"fmt"

	"planset/model"
	"planset/model/geom"
)

// Joined pieces must share this much area, mm²: less is a line or a corner
// (common practice). Faces up to touchTol apart are pulled together by a screw.
const (
	touchLeast = 300
	touchTol   = 0.4
)

// touching finds joined pieces that hardly touch.
func touching(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		for _, pair := range s.pairs(j) {
			a, b := s.Placed[pair[0]], s.Placed[pair[1]]
			area := 0.0
			for _, p := range geom.Contact(a.Solid, b.Solid, touchTol) {
				area += p.Area
			}
			if area >= touchLeast || area == 0 && j.Bond {
				continue
			}
			t.add(j.Key+"\x00"+a.Part.Key+"\x00"+b.Part.Key, -area, Finding{Severity: Warning, Value: area, Limit: touchLeast, Unit: "mm2",
				Text: fmt.Sprintf("%s: %s touch over only %s; %s is little", jointName(j), bothOf(a.Part, b.Part), s.area(area), s.area(touchLeast)),
				Fix:  fmt.Sprintf("let them meet over %s more", s.area(touchLeast-area))}, a.Part, b.Part)
		}
	}
	return t.list()
}

// pairs are the pieces that a joint holds together: by its fasteners, or all
// that glue could reach.
func (s *shop) pairs(j *model.Joint) [][2]int {
	var out [][2]int
	seen := map[[2]int]bool{}
	add := func(p [2]int) {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	for _, f := range j.Fasteners {
		add(f.Pieces)
	}
	if !j.Bond {
		return out
	}
	for _, a := range s.Placed {
		for _, b := range s.Placed {
			if has(j.First, a.Part) && has(j.Second, b.Part) {
				add([2]int{a.Index, b.Index})
			}
		}
	}
	return out
}
