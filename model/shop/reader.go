package shop

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/wood"
)

// Conversions, exact by definition: the pound of 1959, the foot, the US gallon
// of 231 cubic inches.
const (
	kgPerPound   = 0.45359237
	m2PerSqFoot  = 0.09290304
	litrePerUSGl = 3.785411784
)

func metric(plan *model.Plan) bool { return plan.Unit == expr.MM }

// Mass writes a mass for the reader, whole: "34 lb" or "15 kg".
func Mass(u expr.Unit, kg float64) string {
	if u == expr.MM {
		return fmt.Sprintf("%.0f kg", math.Round(kg))
	}
	return fmt.Sprintf("%.0f lb", math.Round(kg/kgPerPound))
}

// Area writes an area for the reader: "62 sq ft" or "5.8 m²".
func Area(u expr.Unit, m2 float64) string {
	if u == expr.MM {
		return fmt.Sprintf("%.1f m²", m2)
	}
	return fmt.Sprintf("%.0f sq ft", m2/m2PerSqFoot)
}

// Volume writes an amount of finish for the reader, rounded up to what is left
// in no can: quarts and gallons, or tenths of a litre.
func Volume(u expr.Unit, litres float64) string {
	if u == expr.MM {
		return strconv.FormatFloat(math.Ceil(litres*10-1e-6)/10, 'f', 1, 64) + " liters"
	}
	quarts := math.Ceil(litres/(litrePerUSGl/4)*2-1e-6) / 2
	switch {
	case quarts <= 1:
		return plural(quarts, "quart")
	case quarts < 4:
		return plural(quarts, "quart")
	}
	return plural(math.Ceil(quarts/4*2-1e-6)/2, "gallon")
}

// plural writes n things, halves as a fraction.
func plural(n float64, thing string) string {
	whole, half := math.Modf(n)
	text := strconv.FormatFloat(whole, 'f', 0, 64)
	switch {
	case half > 0.25 && whole == 0:
		text = "1⁄2"
	case half > 0.25:
		text += " 1⁄2"
	}
	if n > 1 {
		thing += "s"
	}
	return text + " " + thing
}

// FinishLitres returns how much finish all coats take, in litres; 0 when the
// model does not say how far it goes.
func FinishLitres(plan *model.Plan) float64 {
	f := plan.Finish
	if f.Cover <= 0 {
		return 0
	}
	return f.Area * float64(max(1, f.Coats)) / f.Cover
}

// BoardFeet returns the board feet of one board of the stock: thickness and
// width as the yard names them, in inches, times the length in feet over 12.
// Stock without a nominal size is counted by its actual one.
func BoardFeet(s *model.Stock, length float64) float64 {
	t, w := s.Nominal[0], s.Nominal[1]
	if t <= 0 || w <= 0 {
		t, w = s.Thick, s.Width
	}
	return t / 25.4 * (w / 25.4) * (length / 304.8) / 12
}

// drillGrid puts a diameter on the series drills are sold in: 1/64 in or half
// a millimetre.
func drillGrid(plan *model.Plan, diam float64) float64 {
	if metric(plan) {
		return math.Round(diam*2) / 2
	}
	return plan.Unit.Round(diam, expr.Drill)
}

func drillSize(plan *model.Plan, diam float64) string { return plan.Unit.LongTo(diam, expr.Drill) }

// The kinds of wood a message on dust tells apart.
const (
	plainWood = iota
	sensitiser
	treatedWood
)

// worstWood returns the wood whose dust is worst, and what it is.
func worstWood(plan *model.Plan) (name string, kind int) {
	for _, p := range plan.Parts {
		if p.Stock == nil {
			continue
		}
		if strings.Contains(strings.ToLower(p.Stock.Species+" "+p.Stock.Name), "treated") {
			return p.Stock.Species, treatedWood
		}
		if w, ok := wood.Species(p.Stock.Species); ok && w.Sensitises && kind == plainWood {
			name, kind = w.Name, sensitiser
		}
	}
	return name, kind
}
