package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
)

// TestRounding: two holes laid out in both parts whose printed distances differ.
func TestRounding(t *testing.T) {
	holes := func(shift float64, matched bool) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)}, block{"Rail", v3(0, 0, 20), v3(400, 80, 20)})
		j := drive(p, testBolt, 0, 1, v3(100, 40, 0), v3(0, 0, 1), 40)
		at := func(x float64, m bool) []model.Hole {
			return []model.Hole{{Joint: j, Along: x, Across: 40, Matched: m}, {Joint: j, Along: x + 100.3, Across: 40, Matched: m}}
		}
		p.Parts[0].Holes, p.Parts[1].Holes = at(100, false), at(100+shift, matched)
		return rounding(newShop(p, nil))
	}
	assert.Empty(t, holes(0, false), "both print as 100 and 200")
	// 100.3 and 200.6 print as 100 and 201.
	told1(t, holes(0.3, false), Error, "Joint: laid out by the printed numbers, the holes of Leg A and Rail B miss each other by 1 mm",
		"put the holes on multiples of 0.5 mm, or drill one through the other", 1, "A", "B")
	assert.Empty(t, holes(0.3, true), "drilled through")

	row := func(wide float64) []Finding {
		var list []block
		for i := range 5 {
			list = append(list, block{"Slat", v3(0, float64(i)*(wide+10), 0), v3(400, wide, 20)})
		}
		return rounding(newShop(yard(t, list...), nil))
	}
	assert.Empty(t, row(80.16), "five times 0.16 are 0.8")
	list := row(80.17)
	require.Len(t, list, 1)
	assert.Equal(t, "made to the printed widths and gaps the row of Slat A runs 1 mm off", list[0].Text)
	assert.Equal(t, "put widths on multiples of 1 mm and gaps on those of 0.5 mm, as round_to does; each is 0.2 mm off now", list[0].Fix)

	angles := func(deg float64) []Finding {
		const d = math.Pi / 180
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)})
		p.Measures = []model.Measure{{Name: "recline", Value: expr.Value{V: 27 * d, Dim: expr.Dim{Angle: 1}}}}
		p.Critical = []model.Critical{{Name: "recline", Within: 1 * d}}
		p.Proof = &model.Proof{Recline: deg * d}
		return rounding(newShop(p, nil))
	}
	assert.Empty(t, angles(27.49))
	told1(t, angles(27.51), Error, "built from the printed numbers the back leans by 27.51°, not 27.00°", "move the bolt holes onto multiples of 0.5 mm", 0.51)
}
