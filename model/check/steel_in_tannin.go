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
		if j.Hardware == nil {
			continue
		}
		for _, h := range append([]*model.Hardware{j.Hardware}, j.With...) {
			if !rustproof(h.Material) {
				s.rusts(&t, j, h)
			}
		}
	}
	return t.named()
}

func (s *shop) rusts(t *tally, j *model.Joint, h *model.Hardware) {
	about := keep(partsOf(j), func(p *model.Part) bool {
		w, ok := wood.Species(p.Stock.Species)
		return ok && w.Tannin
	})
	key, once := "material", h.Key
	if h.Part { // its washers and nuts are one finding
		key, once = "with_material", j.Hardware.Key+" with"
	}
	f := Finding{Severity: Error, Fix: "write " + key + ` = "stainless steel" or "hot-dip galvanized steel"`}
	if h.Material == j.Hardware.Material && h.Part {
		return // the bolt says it for its washers too
	}
	stains := len(about) > 0
	if stains {
		f.Text = fmt.Sprintf("%s %s in %s rusts and leaves black streaks", orPlain(h.Material), h.Name, about[0].Stock.Species)
	} else {
		f.Text, about = fmt.Sprintf("%s %s rusts outdoors", orPlain(h.Material), h.Name), partsOf(j)
		if h.Material == "" { // what is not said may still be bought right
			f.Severity = Warning
		}
	}
	t.add(fmt.Sprint(once, stains), 0, f, about...)
}

// rustproof reports whether a material lasts outdoors. Of "stainless steel or
// hot-dip galvanized" each does; "uncoated" and "electro-galvanized" do not.
func rustproof(material string) bool {
	m := strings.ToLower(material)
	for _, not := range []string{"electro", "uncoated", "not coated"} {
		if strings.Contains(m, not) {
			return false
		}
	}
	for _, word := range []string{"stainless", "hot-dip", "hot dip", "bronze", "brass", "copper", "coated", "galvanized", "galvanised"} {
		if strings.Contains(m, word) {
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
