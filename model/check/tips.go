package check

import (
	"fmt"
	"math"

	"planset/model/strength"
)

// What holds a piece down over what tips it: under 1 it falls, under 1.3 there is
// little to spare (common practice; the pushes are those of EN 1022, in part
// from memory, and are this program's own trial). Empty it stands on a slope of
// 3 degrees.
const (
	tipFalls  = 1.0
	tipLittle = 1.3
	tipSlope  = 3 // degrees
)

// tips finds pieces that fall over when they are sat in, leaned on or stood on a
// slope.
func tips(s *shop) []Finding {
	var out []Finding
	if len(s.Placed) == 0 {
		return nil
	}
	for _, tip := range strength.Tips(s.Plan) {
		if deg := tip.Slope * 180 / math.Pi; deg < tipSlope {
			out = append(out, Finding{Severity: Warning, Value: deg, Limit: tipSlope, Unit: "deg",
				Text: fmt.Sprintf("empty, it falls %s on ground that slopes by %s", tip.Way, degrees(math.Max(0, deg))),
				Fix:  fmt.Sprintf("move the feet on that side out by %s", s.more(s.outFor(tip)))})
		}
		if tip.Margin >= tipLittle {
			continue
		}
		level, word := Warning, "is little"
		if tip.Margin < tipFalls {
			level, word = Error, "falls"
		}
		out = append(out, Finding{Severity: level, Value: tip.Margin, Limit: tipLittle,
			Text: fmt.Sprintf("%s, with %s, its weight holds %.2f times what tips it; under %.1f %s", tip.Way, tip.What, tip.Margin, limitOf(level), word),
			Fix:  fmt.Sprintf("move the feet on that side out by %s", s.more(s.outBy(tip)))})
	}
	return out
}

func limitOf(level Severity) float64 {
	if level == Error {
		return tipFalls
	}
	return tipLittle
}

// outBy is how far the edge of the feet must go out for the margin wanted: each
// millimetre adds the weight and the loads that press down to what holds.
func (s *shop) outBy(tip strength.Tip) float64 {
	b, ok := strength.BaseOf(s.Plan)
	if !ok {
		return 0
	}
	return math.Max(1, (tipLittle*tip.Tipping-tip.Holding)/(b.Mass*9.80665+600))
}

// outFor is how far it must go out for the slope wanted.
func (s *shop) outFor(tip strength.Tip) float64 {
	b, _ := strength.BaseOf(s.Plan)
	return b.Center.Z * (math.Tan(tipSlope*math.Pi/180) - math.Tan(tip.Slope))
}
