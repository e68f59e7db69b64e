package check

import (
	"fmt"
	"math"

	"planset/model/expr"
)

// comfort is a range that a lounge chair's measure should lie in for adults
// (5th to 95th percentile and common practice).
type comfort struct {
	what   string
	of     func(measures) (float64, bool)
	lo, hi float64 // mm or degrees
	angle  bool
}

// measures are a plan's measures by name: mm and degrees.
type measures map[string]float64

// one is a measure as it is.
func one(name string) func(measures) (float64, bool) {
	return func(m measures) (float64, bool) {
		v, ok := m[name]
		return v, ok
	}
}

// less is the difference of two measures and a constant.
func less(a, b string, plus float64) func(measures) (float64, bool) {
	return func(m measures) (float64, bool) {
		x, ok1 := m[a]
		y, ok2 := m[b]
		return x - y + plus, ok1 && ok2
	}
}

// lounge are the ranges; a plan is held against those whose measures it has.
func lounge() []comfort {
	return []comfort{
		{"the seat's front height", one("seat_height_front"), 330, 432, false},
		{"the seat's fall", one("seat_slope"), 8, 16, true},
		{"the back's lean", one("recline"), 18, 32, true},
		{"the angle between seat and back", less("recline", "seat_slope", 90), 98, 112, true},
		{"the arm's height over the seat's front", less("arm_height", "seat_height_front", 0), 178, 254, false},
	}
}

// seat compares a reclining chair's measures with what adults find comfortable.
func seat(s *shop) []Finding {
	got := measures{}
	for _, m := range s.Measures {
		got[m.Name] = m.Value.V
		if m.Value.Dim == (expr.Dim{Angle: 1}) {
			got[m.Name] *= 180 / math.Pi
		}
	}
	if _, reclines := got["recline"]; !reclines {
		return nil
	}
	var out []Finding
	for _, c := range lounge() {
		v, ok := c.of(got)
		if !ok || v >= c.lo-0.05 && v <= c.hi+0.05 {
			continue
		}
		unit, show := "mm", func(x float64) string { return s.Unit.LongTo(x, expr.Coarse) }
		if c.angle {
			unit, show = "deg", degrees
		}
		limit := c.lo
		if v > c.hi {
			limit = c.hi
		}
		out = append(out, Finding{Severity: Warning, Value: v, Limit: limit, Unit: unit,
			Text: fmt.Sprintf("%s is %s; most adults sit well from %s to %s", c.what, show(v), show(c.lo), show(c.hi)), Fix: fmt.Sprintf("change it by %s", show(math.Abs(v-limit)))})
	}
	return out
}
