package check

import (
	"fmt"
	"strings"

	"planset/model"
	"planset/model/wood"
)

// steelInTannin finds metal that rusts outdoors, and blackens wood that holds
// tannin (common practice). Bright zinc is gone in a year outdoors.
func steelInTannin(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if j.Hardware == nil || rustproof(j.Hardware.Material) {
			continue
		}
		stained := partsOf(j)
		stained = keep(stained, func(p *model.Part) bool {
			w, ok := wood.Species(p.Stock.Species)
			return ok && w.Tannin
		})
		f := Finding{Severity: Warning, Text: fmt.Sprintf("%s %s rusts outdoors", orPlain(j.Hardware.Material), j.Hardware.Name), Fix: `write material = "stainless steel" or "hot-dip galvanized steel"`}
		about := partsOf(j)
		if len(stained) > 0 {
			f.Severity, about = Error, stained
			f.Text = fmt.Sprintf("%s %s in %s rusts and leaves black streaks", orPlain(j.Hardware.Material), j.Hardware.Name, stained[0].Stock.Species)
		}
		t.add(j.Hardware.Key+"\x00"+string(f.Severity), 0, f, about...)
	}
	return t.named()
}

func rustproof(material string) bool {
	m := strings.ToLower(material)
	for _, word := range []string{"stainless", "hot-dip", "hot dip", "bronze", "brass", "coated", "galvanized", "galvanised"} {
		if strings.Contains(m, word) && !strings.Contains(m, "electro") {
			return true
		}
	}
	return false
}

func orPlain(material string) string {
	if material == "" {
		return "plain steel"
	}
	return material
}

func keep(list []*model.Part, good func(*model.Part) bool) []*model.Part {
	var out []*model.Part
	for _, p := range list {
		if good(p) {
			out = append(out, p)
		}
	}
	return out
}
