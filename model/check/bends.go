package check

import (
	"fmt"
	"math"

	"planset/model/strength"
)

// What part of the strength of clear wood a trial load of minutes may use: a
// third where knots may lie, half of boards that are asked to be clear; at all of
// it they break (common practice; strengths of the Wood Handbook, table 5-3, the
// loads from memory). A fastener may carry its NDS design value.
const (
	bendKnotty = 1.0 / 3
	bendClear  = 1.0 / 2
)

// bends finds boards and fasteners that the trial loads ask too much of. The
// loads are this program's own, and so is the verdict: it rates nothing.
func bends(s *shop) []Finding {
	var t tally
	boards, joints, _ := strength.Forces(s.Plan, strength.Usual())
	for _, b := range boards {
		share := bendKnotty
		wood := "with knots"
		if b.Part.Need == "clear" {
			share, wood = bendClear, "of clear wood"
		}
		used := b.Stress / b.MOR
		if used <= share {
			continue
		}
		species := "its wood"
		if b.Part.Stock != nil && b.Part.Stock.Species != "" {
			species = b.Part.Stock.Species
		}
		level := Warning
		if used >= 1 {
			level = Error
		}
		f := Finding{Severity: level, Value: used * 100, Limit: share * 100, Unit: "%",
			Text: fmt.Sprintf("%s bends it to %.0f %% of what %s breaks at, over %s; %.0f %% is the most %s", b.Case, used*100, species, s.long(b.Span), share*100, wood),
			Fix:  fmt.Sprintf("make it %s thick", s.more(b.Part.Thick*b.Thicker(share)))}
		if near := b.Span * share / used; b.Span > 0 {
			f.Fix += fmt.Sprintf(", or put its supports %s apart", s.long(near))
		}
		t.add(b.Part.Key, used, f, b.Part)
	}
	for _, j := range joints {
		if j.Used <= 1 || math.IsInf(j.Used, 0) {
			continue
		}
		t.add(j.Joint.Key+"\x00joint", j.Used, Finding{Severity: Warning, Value: j.Used * 100, Limit: 100, Unit: "%",
			Text: fmt.Sprintf("%s asks %.0f %% of what one fastener of %q carries", j.Case, j.Used*100, jointName(j.Joint)),
			Fix:  fmt.Sprintf("put %d at each place, or a thicker size", int(math.Ceil(j.Used*float64(max(1, j.Joint.Each)))))}, partsOf(j.Joint)...)
	}
	return t.named()
}
