package strength

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/geom"
)

// crate is a box of five boards, open above: long by wide by deep inside, walls
// and floor 20 thick.
func crate(t *testing.T, long, wide, deep float64) *model.Plan {
	t.Helper()
	p := &model.Plan{}
	for _, b := range [][2]geom.V3{
		{{X: -long / 2, Y: -wide / 2}, {X: long, Y: wide, Z: 20}},
		{{X: -long/2 - 20, Y: -wide/2 - 20}, {X: long + 40, Y: 20, Z: deep + 20}}, {{X: -long/2 - 20, Y: wide / 2}, {X: long + 40, Y: 20, Z: deep + 20}},
		{{X: -long/2 - 20, Y: -wide / 2}, {X: 20, Y: wide, Z: deep + 20}}, {{X: long / 2, Y: -wide / 2}, {X: 20, Y: wide, Z: deep + 20}},
	} {
		part := &model.Part{Length: b[1].X, Width: b[1].Y, Thick: b[1].Z, Board: geom.Board{Outline: geom.Rect(b[1].X, b[1].Y), Thick: b[1].Z}}
		s, err := part.Board.Solid(0.1)
		require.NoError(t, err)
		pose := geom.Home()
		pose.Origin = b[0]
		p.Parts = append(p.Parts, part)
		p.Placed = append(p.Placed, &model.Placed{Part: part, Pose: pose, Solid: s.Transform(pose), Index: len(p.Placed)})
	}
	return p
}

// TestVesselOfABox: its volume, its floor, its rim, by hand.
func TestVesselOfABox(t *testing.T) {
	for _, c := range [][3]float64{{600, 200, 300}, {300, 300, 120}, {400, 150, 60}} {
		list := Vessels(crate(t, c[0], c[1], c[2]))
		require.Len(t, list, 1)
		v := list[0]
		assert.InEpsilon(t, c[0]*c[1]*c[2], v.Volume, 2e-3)
		assert.InDelta(t, c[2], v.Deep, 2*rimTol)
		assert.InDelta(t, c[0], v.Long, 1e-6)
		assert.InDelta(t, 0, v.Center.Sub(geom.V3{Z: 20 + c[2]/2}).Len(), 0.2)
		assert.True(t, v.Has(geom.V3{X: c[0]/2 - 10, Y: c[1]/2 - 10}))
		assert.False(t, v.Has(geom.V3{X: c[0]/2 + 1}))
	}
	open := crate(t, 600, 200, 300)
	open.Placed = open.Placed[:4]
	assert.Empty(t, Vessels(open), "a wall is missing")
}

// TestSoilLies: the loads on the floor are the weight of what fills the box, and
// only what is for soil is filled.
func TestSoilLies(t *testing.T) {
	p := crate(t, 600, 200, 300)
	sum := geom.V3{}
	for _, l := range filled(p) {
		assert.Equal(t, 0, l.piece)
		sum = sum.Add(l.Push)
	}
	assert.InEpsilon(t, -0.6*0.2*0.3*1000*WetSoil*gravity, sum.Z, 2e-3)
	assert.Zero(t, math.Hypot(sum.X, sum.Y))
	p.Kind = model.Table
	assert.Empty(t, filled(p))
	shallow := crate(t, 600, 200, 101)
	assert.Empty(t, filled(shallow), "under 4 in and no kind")
	shallow.Kind = model.Planter
	assert.NotEmpty(t, filled(shallow))
}

// TestThicker: as many times as thick, the board works at the share asked for.
func TestThicker(t *testing.T) {
	for _, b := range []Board{{Stress: 10, MOR: 20}, {Stress: 10, Edge: 4, MOR: 12}, {Stress: 6, Edge: 6, MOR: 9}} {
		k := b.Thicker(1.0 / 3)
		assert.InEpsilon(t, b.MOR/3, (b.Stress-b.Edge)/(k*k)+b.Edge/k, 1e-9)
	}
}
