package check

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

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
	f := Finding{Severity: Warning, Fix: "write " + key + ` = "stainless steel" or "hot-dip galvanized steel"`}
	if rusty(h.Material) { // what is not said, or not known, may still be bought right
		f.Severity = Error
	}
	if h.Material == j.Hardware.Material && h.Part {
		return // the bolt says it for its washers too
	}
	stains := len(about) > 0
	if stains {
		f.Text = fmt.Sprintf("%s in %s %s and leaves black streaks", ofMetal(h), about[0].Stock.Species, rusting(h))
	} else {
		f.Text, about = fmt.Sprintf("%s %s outdoors", ofMetal(h), rusting(h)), partsOf(j)
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
	return isStainless(m)
}

// isStainless reports whether a material is named by a grade of stainless steel:
// A2 and A4 of ISO 3506, 304, 305 and 316 of the AISI numbers, with or without
// their letters.
func isStainless(material string) bool {
	words := strings.FieldsFunc(strings.ToLower(material), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.Contains([]string{"stainless", "inox", "a2", "a4", "304", "305", "316", "316l"}, w)
	})
}

// rusty reports whether a material surely rusts outdoors: its author names steel
// or iron, or a coat that is gone in a year.
func rusty(material string) bool {
	m := strings.ToLower(material)
	return !rustproof(m) && slices.ContainsFunc([]string{"steel", "iron", "zinc", "electro", "uncoated"}, func(w string) bool { return strings.Contains(m, w) })
}

// ofMetal names hardware by what it is made of.
func ofMetal(h *model.Hardware) string {
	if h.Material == "" {
		return "nothing says what the " + h.Name + " is made of; plain steel"
	}
	return "the " + h.Name + " of " + h.Material
}

// rusting is what becomes of it.
func rusting(h *model.Hardware) string {
	if h.Material != "" && !rusty(h.Material) {
		return "is not known to last; steel rusts"
	}
	return "rusts"
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
