package check

import (
	"fmt"
	"strings"

	"planset/model/wood"
)

// steel finds plain steel in a wood that blackens it (common practice).
func steel(s *shop) []Finding {
	var out []Finding
	for _, j := range s.Joints {
		if j.Hardware == nil || rustproof(j.Hardware.Material) {
			continue
		}
		for _, p := range append(j.First[:len(j.First):len(j.First)], j.Second...) {
			if w, ok := wood.Species(p.Stock.Species); ok && w.Tannin {
				out = append(out, Finding{Severity: Error, Parts: []string{p.Code},
					Text: fmt.Sprintf("%s: %s in %s leaves black streaks and rusts", j.Name, orPlain(j.Hardware.Material), p.Stock.Species),
					Fix:  "take stainless steel or hot-dip galvanized"})
				break
			}
		}
	}
	return out
}

func rustproof(material string) bool {
	m := strings.ToLower(material)
	return strings.Contains(m, "stainless") || strings.Contains(m, "galvanized") || strings.Contains(m, "bronze") || strings.Contains(m, "brass") || strings.Contains(m, "coated")
}

func orPlain(material string) string {
	if material == "" {
		return "plain steel"
	}
	return material
}
