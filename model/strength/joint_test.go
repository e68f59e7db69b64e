package strength_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/strength"
)

// TestCombined: across and along the axis it is Z and W; between them, by the
// formula as NDS 12.4.1 prints it, and never less than the shares added up.
func TestCombined(t *testing.T) {
	const z, w = 240.0, 298.0
	assert.InDelta(t, z, strength.Combined(z, w, 0), 1e-9)
	assert.InDelta(t, w, strength.Combined(z, w, math.Pi/2), 1e-9)
	for deg := 5.0; deg < 90; deg += 5 {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		got := strength.Combined(z, w, deg*math.Pi/180)
		assert.InEpsilon(t, z*w/(w*cos*cos+z*sin*sin), got, 1e-12)
		assert.Less(t, 1/got, cos/z+sin/w)
	}
}

// TestWorstFastener: what is told of the most loaded fastener of each joint of a
// chair agrees with itself.
func TestWorstFastener(t *testing.T) {
	p := solve(t, chair, assembly.Options{Unit: expr.Inch})
	l := strength.Usual()
	_, joints, _ := strength.Forces(p, l)
	require.NotEmpty(t, joints)
	for _, j := range joints {
		name := j.Joint.Key
		assert.Equal(t, j.Joint, j.Worst.Joint, name)
		assert.Equal(t, max(1, j.Joint.Each), j.Together, name)
		if j.W == 0 {
			assert.InEpsilon(t, j.Shear/j.Z, j.Used, 1e-12, name)
			assert.LessOrEqual(t, j.Even, j.Shear, "%s: no even share is more than the greatest", name)
		} else {
			assert.LessOrEqual(t, j.Used, j.Shear/j.Z+j.Pull/j.W+1e-12, name)
		}
	}
	// The leg's two bolts, by their holes in the plan.
	legs := joints[0]
	require.Equal(t, "frame_bolts", legs.Joint.Key)
	assert.InDelta(t, math.Hypot(2.5, 2)*25.4, legs.Spread, 0.01)
}

// TestStouter: a thicker size is named only where it carries the force, and twice
// the load asks for one that is no thinner.
func TestStouter(t *testing.T) {
	p := solve(t, chair, assembly.Options{Unit: expr.Inch})
	at := func(times float64) strength.Joint {
		l := strength.Usual()
		l.Seat, l.Back, l.Arm = l.Seat*times, l.Back*times, l.Arm*times
		_, joints, _ := strength.Forces(p, l)
		for _, j := range joints {
			if j.Joint.Key == "arm_rail_screws" {
				return j
			}
		}
		require.Fail(t, "no arm_rail_screws")
		return strength.Joint{}
	}
	l := strength.Usual()
	some, much := at(1.6), at(20)
	require.Greater(t, some.Used, 1.0)
	assert.Contains(t, []string{"#9", "#10", "#12", "#14"}, some.Stouter(p, l))
	assert.Empty(t, much.Stouter(p, l), "no screw carries twenty times the load")
}
