package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
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
	assert.Equal(t, "make each width or gap 0.2 mm other, so that it prints whole", list[0].Fix)

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

// TestRest: a seat 400 deep with a back square to it.
func TestRest(t *testing.T) {
	chair := func(deep, high, round float64) []Finding {
		p := yard(t, block{"Seat", v3(-250, 0, 380), v3(500, deep+20, 20)}, block{"Back", v3(-50, deep, 400), v3(high, 100, 20)})
		// The back board stands: its grain goes up and its face looks forward.
		up := geom.Pose{Origin: v3(50, deep, 400), Along: v3(0, 0, 1), Across: v3(-1, 0, 0), Thick: v3(0, 1, 0)}
		s, err := p.Parts[1].Board.Solid(0.1)
		require.NoError(t, err)
		p.Placed[1].Pose, p.Placed[1].Solid = up, s.Transform(up)
		p.Parts[0].Arrises = []model.Arris{{Side: "front", Size: round}}
		flat := expr.Value{Dim: expr.Dim{Angle: 1}}
		p.Measures = []model.Measure{{Name: "seat_slope", Value: flat}, {Name: "recline", Value: flat}}
		return rest(newShop(p, nil))
	}
	assert.Empty(t, chair(400, 610, 8), "with the round of 8 the seat is 408 deep")
	told1(t, chair(396, 610, 8), Warning, "the seat's depth to the back is 404 mm; adults want at least 405 mm", "change it by 1 mm", 404)
	told1(t, chair(503, 610, 8), Warning, "the seat's depth to the back is 511 mm; adults want at most 510 mm", "change it by 1 mm", 511)
	told1(t, chair(450, 609, 8), Warning, "the back's height over the seat is 609 mm; adults want at least 610 mm", "change it by 1 mm", 609)
	told1(t, chair(450, 610, 6), Warning, "the round of the seat's front edge is 6 mm; adults want at least 6 mm", "change it by 0.5 mm", 6, "A")
	assert.Empty(t, chair(450, 610, 6.35))
}
