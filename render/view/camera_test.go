package view

import (
	"math"
	"testing"

	"planset/model/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sides lists where the sitter's right, the rear and the top go in a picture.
func sides(c Camera) [3]geom.Pt {
	return [3]geom.Pt{c.Flat(geom.V3{X: 1}), c.Flat(geom.V3{Y: 1}), c.Flat(geom.V3{Z: 1})}
}

func TestStraightCameras(t *testing.T) {
	left, right, up, down := geom.Pt{X: -1}, geom.Pt{X: 1}, geom.Pt{Y: 1}, geom.Pt{Y: -1}
	for name, want := range map[string][3]geom.Pt{
		"front":  {left, {}, up},
		"rear":   {right, {}, up},
		"right":  {{}, left, up}, // the front is at the right
		"left":   {{}, right, up},
		"top":    {left, up, {}},
		"bottom": {left, down, {}},
	} {
		c, err := Words(name)
		require.NoError(t, err)
		assert.Equal(t, want, sides(c), name)
	}
	assert.InDeltaSlice(t, flatten(Front()), flatten(Iso(0, 0)), 1e-12)
	assert.InDeltaSlice(t, flatten(Right()), flatten(Iso(math.Pi/2, 0)), 1e-12)
	assert.InDeltaSlice(t, flatten(Rear()), flatten(Iso(math.Pi, 0)), 1e-12)
	assert.InDeltaSlice(t, flatten(Top()), flatten(Iso(0, math.Pi/2)), 1e-12)
}

func flatten(c Camera) []float64 {
	var out []float64
	for _, v := range []geom.V3{c.Right, c.Up, c.Toward} {
		out = append(out, v.X, v.Y, v.Z)
	}
	return out
}

// Every camera is unit, square and of one hand, and sees what its words say.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		words       string
		right, rear float64 // the sign of what is nearer to the eye
		above       float64
	}{
		{"front right", 1, -1, 1}, {"front left high", -1, -1, 1}, {"rear right low", 1, 1, -1},
		{"Left rear level", -1, 1, 0}, {"front high", 0, -1, 1}, {"right low", 1, 0, -1},
		{"low front right", 1, -1, -1}, {"right inside", -1, 0, 0}, {"inside left", 1, 0, 0},
	} {
		cam, err := Words(c.words)
		require.NoError(t, err, c.words)
		sign := func(v float64) float64 {
			if math.Abs(v) < 1e-9 {
				return 0
			}
			return math.Copysign(1, v)
		}
		assert.Equal(t, [3]float64{c.right, c.rear, c.above},
			[3]float64{sign(cam.Toward.X), sign(cam.Toward.Y), sign(cam.Toward.Z)}, c.words)
		assert.InDelta(t, -1, cam.Right.Cross(cam.Up).Dot(cam.Toward), 1e-12, c.words)
		assert.InDelta(t, 0, cam.Right.Z, 1e-12, "uprights stay upright")
	}
	a, _ := Words("front right")
	b, _ := Words("right front")
	assert.Greater(t, -a.Toward.Y, a.Toward.X, "the side named first is looked at more squarely")
	assert.Greater(t, b.Toward.X, -b.Toward.Y)
}

func TestWordsRefused(t *testing.T) {
	for _, s := range []string{"", "front rear", "left right", "top front", "high", "front high low", "sideways",
		"inside", "front inside", "top bottom", "front right left", "right inside high", "top inside", "top high"} {
		_, err := Words(s)
		require.Error(t, err, s)
		assert.Contains(t, err.Error(), "front, rear, left, right", s)
	}
}
