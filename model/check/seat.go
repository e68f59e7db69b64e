package check

import (
	"fmt"
	"math"

	"planset/model/expr"
)

// comfort is a range that a lounge chair's measure should lie in for adults
// (5th to 95th percentile and common practice).
type comfort struct {
	name, what string
	lo, hi     float64 // mm or degrees
	angle      bool
}

var lounge = []comfort{
	{"seat_height_front", "the seat's front height", 330, 430, false},
	{"seat_slope", "the seat's fall", 8, 16, true},
	{"recline", "the back's lean", 18, 32, true},
}

// seat compares a reclining chair's measures with what adults find comfortable.
func seat(s *shop) []Finding {
	got := map[string]float64{}
	for _, m := range s.Measures {
		got[m.Name] = m.Value.V
	}
	if _, reclines := got["recline"]; !reclines {
		return nil
	}
	var out []Finding
	for _, c := range lounge {
		v, ok := got[c.name]
		if !ok {
			continue
		}
		unit, show := "mm", func(x float64) string { return s.Unit.LongTo(x, expr.Coarse) }
		if c.angle {
			v *= 180 / math.Pi
			unit, show = "deg", func(x float64) string { return fmt.Sprintf("%.1f°", x) }
		}
		if v >= c.lo-0.05 && v <= c.hi+0.05 {
			continue
		}
		limit := c.lo
		if v > c.hi {
			limit = c.hi
		}
		out = append(out, Finding{Severity: Warning, Value: v, Limit: limit, Unit: unit,
			Text: fmt.Sprintf("%s is %s; most adults sit well from %s to %s", c.what, show(v), show(c.lo), show(c.hi)), Fix: fmt.Sprintf("bring it to %s", show(limit))})
	}
	return out
}
