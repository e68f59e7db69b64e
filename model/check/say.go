package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model"
	"planset/model/expr"
)

// slack is how far a measured length may miss its limit, mm: less than a pencil
// line.
const slack = 0.3

// long is a length as the reader has it.
func (s *shop) long(mm float64) string { return s.Unit.LongTo(mm, expr.Fine) }

// more is a length to move something by, rounded up to what can be marked.
func (s *shop) more(mm float64) string {
	step := 0.5
	if s.Unit == expr.Inch {
		step = 25.4 / 32
	}
	return s.long(step * math.Max(1, math.Ceil(mm/step-1e-6)))
}

// against are a measured length and its limit, as finely as it takes to tell
// them apart.
func (s *shop) against(got, limit float64) (g, l string) {
	g, l = s.long(got), s.long(limit)
	if g == l {
		return s.Unit.LongTo(got, expr.Drill), s.Unit.LongTo(limit, expr.Drill)
	}
	return g, l
}

// area is an area as the reader has it.
func (s *shop) area(mm2 float64) string {
	if s.Unit == expr.Inch {
		return fmt.Sprintf("%.2f in²", mm2/(25.4*25.4))
	}
	return fmt.Sprintf("%.0f mm²", mm2)
}

// degrees is an angle in words, from degrees.
func degrees(deg float64) string { return fmt.Sprintf("%.1f°", deg) }

// called names parts with their letters: "Back slat F1, F2 and Batten H", "Leg A,
// Rail B and Batten H".
func called(parts ...*model.Part) string {
	var names []string
	letters := map[string][]string{}
	for _, p := range parts {
		if letters[p.Name] == nil {
			names = append(names, p.Name)
		}
		if !slices.Contains(letters[p.Name], p.Code) {
			letters[p.Name] = append(letters[p.Name], p.Code)
		}
	}
	for i, n := range names {
		slices.Sort(letters[n])
		names[i] = n + " " + strings.Join(letters[n], ", ")
	}
	return listed(names)
}

// listed joins names as a sentence does.
func listed(names []string) string {
	if len(names) < 3 {
		return strings.Join(names, " and ")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// jointName is what the author calls a joint, else what it joins.
func jointName(j *model.Joint) string {
	if j.Name != j.Key {
		return j.Name
	}
	if len(j.First) == 0 || len(j.Second) == 0 {
		return "a joint"
	}
	return j.First[0].Name + " to " + strings.ToLower(j.Second[0].Name)
}

// lettersOf are the letters of all parts of a joint.
func lettersOf(j *model.Joint) []string {
	var out []string
	for _, p := range partsOf(j) {
		out = append(out, p.Code)
	}
	return out
}

// partsOf are all parts of a joint.
func partsOf(j *model.Joint) []*model.Part { return slices.Concat(j.First, j.Second) }

// plural is a number and a noun.
func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// bothOf names two parts, or two pieces of one.
func bothOf(a, b *model.Part) string {
	if a == b {
		return "two pieces of " + called(a)
	}
	return called(a, b)
}

// atLeast is a length that does not round to nothing.
func (s *shop) atLeast(mm float64) string {
	if s.Unit.Round(mm, expr.Fine) == 0 {
		return s.Unit.LongTo(mm, expr.Drill)
	}
	return s.long(mm)
}

func has(list []*model.Part, p *model.Part) bool { return slices.Contains(list, p) }

// drill is a drill's size as the reader has it; in decimals of an inch where it
// is not one that is sold.
func (s *shop) drill(mm float64) string {
	if s.Unit == expr.Inch && math.Abs(s.Unit.Round(mm, expr.Drill)-mm) > drillTol {
		return fmt.Sprintf("%.3f″", mm/25.4)
	}
	return s.Unit.LongTo(mm, expr.Drill)
}

// ofJoints names the joint or the two joints that two fasteners belong to.
func ofJoints(a, b *model.Joint) string {
	if a == b {
		return fmt.Sprintf(" of %q", jointName(a))
	}
	return fmt.Sprintf(" of %q and %q", jointName(a), jointName(b))
}
