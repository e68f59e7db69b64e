package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
)

// TestFullPlanterFalls: a slim box whose soil lies high over a foot b wide falls
// where the slope reaches atan(b/2 over the height of the common center).
func TestFullPlanterFalls(t *testing.T) {
	slim := func(wide float64) []Finding {
		p := yard(t, block{"Floor", v3(-300, -wide/2, 0), v3(600, wide, 5)}, block{"Front", v3(-305, -wide/2-5, 0), v3(610, 5, 800)}, block{"Rear", v3(-305, wide/2, 0), v3(610, 5, 800)},
			block{"Left", v3(-305, -wide/2, 0), v3(5, wide, 800)}, block{"Right", v3(300, -wide/2, 0), v3(5, wide, 800)})
		p.Kind = model.Planter
		return planter(newShop(p, nil))
	}
	list := slim(30)
	require.Len(t, list, 3, "its weight, forward and rearward")
	assert.Equal(t, Warning, list[1].Severity)
	assert.Contains(t, list[1].Text, "full of wet soil it falls forward on ground that slopes by 2.9°")
	// Soil: 600·30·795 mm³ at 1.6 kg/l, its center 402.5 up; wood 0.4 kg/l.
	soil, walls, floor, ends := 600*30*795*1.6e-6, 2*610*5*800*4e-7, 600*30*5*4e-7, 2*5*30*800*4e-7
	high := (soil*402.5 + (walls+ends)*400 + floor*2.5) / (soil + walls + floor + ends)
	assert.InDelta(t, math.Atan2(20, high)*180/math.Pi, list[1].Value, 0.01)
	require.Len(t, slim(33), 1)
}
