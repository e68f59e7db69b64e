package check

import (
	"fmt"

	"planset/model/expr"
)

// The bite of a screw in diameters: below the first it is weak, below the second
// it does not hold (NDS minimum penetration of 6 diameters, from memory).
const (
	biteWeak = 6
	biteNone = 4
)

// screwBite finds screws that hold too little.
func screwBite(s *shop) []Finding {
	var w worst
	for _, j := range s.Joints {
		for _, f := range j.Fasteners {
			if !isScrew(f) {
				continue
			}
			bite := f.Length - f.Grip
			if bite >= biteWeak*f.Hardware.Diam-0.2 {
				continue
			}
			level := Warning
			if bite < biteNone*f.Hardware.Diam {
				level = Error
			}
			w.add(Finding{Severity: level, Parts: s.pairOf(f), Value: bite, Limit: biteWeak * f.Hardware.Diam, Unit: "mm",
				Text: fmt.Sprintf("%s: the screw bites %s, %.1f times its diameter; %d times hold well", j.Name, s.Unit.LongTo(bite, expr.Fine), bite/f.Hardware.Diam, biteWeak),
				Fix:  fmt.Sprintf("take a screw %s longer, or a thinner one", s.Unit.LongTo(biteWeak*f.Hardware.Diam-bite, expr.Fine))})
		}
	}
	return w.list()
}
