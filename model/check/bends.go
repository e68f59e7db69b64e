package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model/strength"
)

// What part of the strength of clear wood a trial load of minutes may use: a
// third where knots may lie, half of boards that are asked to be clear; at all of
// it they break (common practice; strengths of the Wood Handbook, table 5-3, the
// loads from memory). A fastener may carry its NDS design value.
const (
	bendKnotty = 1.0 / 3
	bendClear  = 1.0 / 2
	usedGrace  = 1.05 // loads and strengths are not known to a twentieth
	placeMost  = 6    // fasteners that find room where two boards cross
	turnDraws  = 1.3  // found by trying: twice the bolts in the legs of a bench
)

// bends finds boards and fasteners that the trial loads ask too much of. The
// loads are this program's own, and so is the verdict: it rates nothing.
func bends(s *shop) []Finding {
	var t tally
	loads, loose := strength.Usual(), s.heldByNone()
	boards, joints, _ := strength.Forces(s.Plan, loads)
	for _, b := range boards {
		share := bendKnotty
		wood := "with knots"
		if b.Part.Need == "clear" {
			share, wood = bendClear, "of clear wood"
		}
		used := b.Stress / b.MOR
		// What nothing holds is told by held-by-none; it carries nothing either.
		if used <= share || slices.ContainsFunc(loose, func(i int) bool { return s.Placed[i].Part == b.Part }) {
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
		over := ""
		f := Finding{Severity: level, Value: used * 100, Limit: share * 100, Unit: "%",
			Fix: fmt.Sprintf("make it %s thick", s.more(b.Part.Thick*b.Thicker(share)))}
		if b.Free > 0 {
			over = fmt.Sprintf(", over %s", s.long(b.Free))
			f.Fix += fmt.Sprintf(", or put its supports %s apart", s.long(b.Free*share/used))
		}
		f.Text = fmt.Sprintf("%s bends it to %.0f %% of what %s breaks at%s; %.0f %% is the most %s", b.Case, used*100, species, over, share*100, wood)
		t.add(b.Part.Key, used, f, b.Part)
	}
	for _, j := range joints {
		// What hardly bites is told by screw-bite, and a hair over is no fault.
		if j.Used <= usedGrace || math.IsInf(j.Used, 0) || slices.ContainsFunc(j.Joint.Fasteners, hardlyBites) {
			continue
		}
		t.add(j.Joint.Key+"\x00joint", j.Used, Finding{Severity: Warning, Value: j.Used * 100, Limit: 100, Unit: "%",
			Text: fmt.Sprintf("%s asks %.0f %% of what one fastener of %q carries", j.Case, j.Used*100, jointName(j.Joint)),
			Fix:  s.stronger(j, loads)}, s.Placed[j.Worst.Pieces[0]].Part, s.Placed[j.Worst.Pieces[1]].Part)
	}
	return t.named()
}

// stronger is what a joint takes to carry its load: more fasteners, a thicker size
// where one carries it, or another part where no number of them would fit.
func (s *shop) stronger(j strength.Joint, l strength.Loads) string {
	more := j.Used
	if j.Turns() { // a stiffer joint also draws more of the turning on itself
		more *= turnDraws
	}
	n := int(math.Ceil(more * float64(max(1, j.Joint.Each))))
	var ways []string
	switch {
	case n > placeMost:
	case j.Turns(): // in between the two they hardly help
		ways = append(ways, fmt.Sprintf("put %d at each place in a ring %s across", n, s.long(j.Spread)))
	default:
		ways = append(ways, fmt.Sprintf("put %d at each place", n))
	}
	if size := j.Stouter(s.Plan, l); size != "" {
		ways = append(ways, "take size "+size)
	}
	if len(ways) == 0 || j.Turns() {
		ways = append(ways, fmt.Sprintf("let a further part, such as a leg or a brace, carry %.0f %% of it", math.Ceil(100-100/j.Used)))
	}
	return strings.Join(ways, ", or ")
}
