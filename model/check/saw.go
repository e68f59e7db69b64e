package check

import (
	"fmt"
	"math"
)

// What a saw and a taper jig can do, degrees (common practice): blades tilt to
// 45, and a jig pushes the wood along the fence up to 15.
const (
	sawTilt  = 45
	jigTaper = 15
	angleTol = 0.05
)

// saw finds cuts that a home saw cannot make.
func saw(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		tilt := 0.0
		for _, e := range p.Ends {
			tilt = math.Max(tilt, math.Abs(e.Bevel))
		}
		for _, e := range p.Edges {
			tilt = math.Max(tilt, math.Abs(e.Bevel))
		}
		if deg := tilt * 180 / math.Pi; deg > sawTilt+angleTol {
			t.add(p.Key+"tilt", deg, Finding{Severity: Error, Value: deg, Limit: sawTilt, Unit: "deg",
				Text: fmt.Sprintf("a bevel of %s; blades tilt to %d°", degrees(deg), sawTilt),
				Fix:  fmt.Sprintf("take %s off the angle at which it meets its neighbor", degrees(deg-sawTilt))}, p)
		}
		for _, c := range p.Tapers {
			if deg := math.Abs(c.Angle) * 180 / math.Pi; deg > jigTaper+angleTol {
				t.add(p.Key+"taper", deg, Finding{Severity: Warning, Value: deg, Limit: jigTaper, Unit: "deg",
					Text: fmt.Sprintf("a taper of %s against the grain; a jig runs true up to %d°", degrees(deg), jigTaper),
					Fix:  fmt.Sprintf("start it %s sooner", s.long(sooner(c.OffsetEdge, deg)))}, p)
			}
		}
	}
	return t.named()
}

// sooner is how much longer a taper must run to come in as far at 15 degrees.
func sooner(in, deg float64) float64 {
	cot := func(d float64) float64 { return 1 / math.Tan(d*math.Pi/180) }
	return math.Abs(in) * (cot(jigTaper) - cot(deg))
}
