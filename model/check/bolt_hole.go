package check

import (
	"fmt"
	"math"

	"planset/model"
)

// A bolt's hole is 1/32 to 1/16 in wider than the bolt (NDS, from memory); half
// a millimetre does for metric drills.
const (
	holeTight = 0.5
	holeLoose = 1.5875
	drillTol  = 0.06
)

// boltHole finds bolt holes that are too tight to push the bolt in, or so wide
// that the joint turns in them.
func boltHole(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if j.Hardware == nil || len(j.Fasteners) == 0 || !isBolt(j.Fasteners[0]) {
			continue
		}
		d := j.Hardware.Diam
		for _, p := range partsOf(j) {
			holes := holesOf(p, j)
			for _, h := range holes {
				play := h.Diam - d
				switch {
				case play < holeTight-drillTol:
					t.add(j.Key+p.Key+"tight", -play, Finding{Severity: boltTight(play), Value: play, Limit: holeTight, Unit: "mm",
						Text: fmt.Sprintf("%s: a hole of %s for a bolt of %s; it does not push in", jointName(j), s.drill(h.Diam), s.drill(d)),
						Fix:  fmt.Sprintf("drill %s", s.drill(d+2*holeTight))}, p)
				case play > holeLoose+drillTol:
					t.add(j.Key+p.Key+"loose", play, Finding{Severity: Warning, Value: play, Limit: holeLoose, Unit: "mm",
						Text: fmt.Sprintf("%s: a hole of %s for a bolt of %s%s", jointName(j), s.drill(h.Diam), s.drill(d), turns(holes, play)),
						Fix:  fmt.Sprintf("drill %s at most", s.drill(d+holeLoose))}, p)
				}
			}
		}
	}
	return t.list()
}

func boltTight(play float64) Severity {
	if play < 0 {
		return Error
	}
	return Warning
}

// turns tells how far the joint can turn in its holes: twice the play over the
// way between the bolts.
func turns(holes []model.Hole, play float64) string {
	most := 0.0
	for _, a := range holes {
		for _, b := range holes {
			most = math.Max(most, a.InPart.Sub(b.InPart).Len())
		}
	}
	if most < 1 {
		return ": one bolt alone lets it turn"
	}
	return fmt.Sprintf(": until the bolts bite, the joint turns by %s", degrees(2*play/most*180/math.Pi))
}
