package check

import (
	"fmt"
	"math"

	"planset/model/expr"
	"planset/model/marks"
	"planset/model/people"
)

// markUsual is how much an angle of the seat or an arm may change that the author
// does not limit, degrees (common practice).
const markUsual = 1.0

// allowed is how much a value may change: what the author allows, else what an
// angle usually may; 0 for a length that the author does not limit.
func allowed(v marks.Value) float64 {
	if v.Limit <= 0 && v.Angle {
		return markUsual
	}
	return v.Limit
}

// reclines reports whether the piece has a seat that is measured.
func (s *shop) reclines() bool {
	_, ok := people.SitOf(s.Plan)
	return ok
}

// markMatters finds marks that, a sixteenth or a millimetre off, push a value
// past what the author allows, and values that all marks together make unsure.
// The plan says of each how it is drilled.
func markMatters(s *shop) []Finding {
	if len(s.Critical) == 0 && !s.reclines() {
		return nil
	}
	table := marks.Rank(s.Plan)
	var out []Finding
	for k, v := range table.Values {
		if v.Limit = allowed(v); v.Limit <= 0 {
			continue
		}
		single := false
		for _, r := range table.Rows {
			change := math.Abs(r.Change[k])
			if r.Matched || r.Harmless != "" || change <= v.Limit+1e-9 {
				continue
			}
			single = true
			has, wants := s.byBoth(v, change)
			out = append(out, Finding{Severity: Warning, Parts: r.Parts, Value: change, Limit: v.Limit, Unit: unitOf(v),
				Text: fmt.Sprintf("%s: %s, %s off, changes %s by %s; %s is allowed", called(r.Part), r.What, s.long(table.Step), v.Title, has, wants),
				Fix:  howTo(r) + s.tolerance(table.Step*v.Limit/change)})
		}
		if v.RSS > v.Limit+1e-9 && !single {
			has, wants := s.byBoth(v, v.RSS)
			out = append(out, Finding{Severity: Warning, Value: v.RSS, Limit: v.Limit, Unit: unitOf(v),
				Text: fmt.Sprintf("with every mark %s off one way or the other %s comes out within %s; %s is allowed", s.long(table.Step), v.Title, has, wants),
				Fix:  "hold the worst marks to " + s.tolerance(table.Step*v.Limit/v.RSS) + ", or allow " + has})
		}
	}
	return out
}

func unitOf(v marks.Value) string {
	if v.Angle {
		return "deg"
	}
	return "mm"
}

// howTo is what keeps a mark true.
func howTo(r marks.Row) string {
	if r.Hole != "" {
		return "drill one part through the other, or lay the hole out with a jig to "
	}
	return "set it with a jig or against a template, to "
}

// tolerance is a length as finely as it can be marked, rounded down.
func (s *shop) tolerance(mm float64) string {
	step := 0.1
	if s.Unit == expr.Inch {
		step = 25.4 / 64
	}
	return s.drill(math.Max(step, step*math.Floor(mm/step+1e-6)))
}

// byBoth are a change of a value and its limit, as finely as it takes to tell
// them apart.
func (s *shop) byBoth(v marks.Value, x float64) (got, limit string) {
	if !v.Angle {
		return s.against(x, v.Limit)
	}
	got, limit = degrees(x), degrees(v.Limit)
	if got == limit {
		return fmt.Sprintf("%.2f°", x), fmt.Sprintf("%.2f°", v.Limit)
	}
	return got, limit
}
