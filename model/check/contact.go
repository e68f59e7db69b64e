package check

import (
	"fmt"

	"planset/model/geom"
)

// contactLeast is the area two joined pieces must share, mm²: less is a line or
// a corner (common practice).
const contactLeast = 300

// contact finds joined pieces that hardly touch.
func contact(s *shop) []Finding {
	var w worst
	seen := map[[2]int]bool{}
	for _, j := range s.Joints {
		for _, f := range j.Fasteners {
			if seen[f.Pieces] {
				continue
			}
			seen[f.Pieces] = true
			a, b := s.Placed[f.Pieces[0]], s.Placed[f.Pieces[1]]
			area := 0.0
			for _, p := range geom.Contact(a.Solid, b.Solid, 0.4) {
				area += p.Area
			}
			if area >= contactLeast {
				continue
			}
			w.add(Finding{Severity: Warning, Parts: s.pairOf(f), Value: area, Limit: contactLeast, Unit: "mm2",
				Text: fmt.Sprintf("%s: %s and %s touch over only %.0f mm²", j.Name, called(a.Part), called(b.Part), area), Fix: "let them meet over more of their faces"})
		}
	}
	return w.list()
}
