package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const degree = math.Pi / 180

// The compound angles of n-sided frames with tilted sides: the side is put in
// the world as it stands, its true end plane is the upright plane that bisects
// the corner, and the board's own view of that plane gives the saw settings.
// Table and closed forms: the reference sheet, section 8.
func TestSawCutOfTiltedFrames(t *testing.T) {
	for _, c := range []struct {
		n                  int
		tilt, miter, bevel float64
	}{
		{4, 0, 0, 45}, {4, 10, 9.851, 44.136}, {4, 15, 14.511, 43.080},
		{4, 45, 35.264, 30.000}, {6, 15, 8.499, 28.879}, {8, 20, 8.063, 21.076},
	} {
		a, tilt := math.Pi/float64(c.n), c.tilt*degree
		// The side runs along world x and leans outward, away from +y, at its top.
		along := V3{1, 0, 0}
		across := V3{0, -math.Sin(tilt), math.Cos(tilt)}
		pose := Pose{V3{}, along, across, along.Cross(across)}
		// The corner's upright plane holds the frame's axis; its normal is a away
		// from the side's length.
		world := V3{math.Cos(a), math.Sin(a), 0}
		n := pose.LocalDir(world)
		miter, bevel := SawCut(n)
		assert.InDelta(t, c.miter, math.Abs(miter)/degree, 0.01)
		assert.InDelta(t, c.bevel, math.Abs(bevel)/degree, 0.01)
		assert.InDelta(t, math.Atan(math.Tan(a)*math.Sin(tilt)), math.Abs(miter), 1e-12)
		assert.InDelta(t, math.Asin(math.Sin(a)*math.Cos(tilt)), math.Abs(bevel), 1e-12)

		// The board cut so shows that very miter on its face: the corners of the
		// end on the face z = 0 lie on a line that far off square.
		b := box(600, 90, 19)
		b.Cuts = []Plane{{V3{500, 45, 9.5}, n}}
		s := solidOf(t, b, 0.1)
		lo, hi := math.Inf(-1), math.Inf(-1)
		for _, p := range s.Points() {
			if p.Z < 1e-9 && p.Y < 1e-9 {
				lo = max(lo, p.X)
			}
			if p.Z < 1e-9 && p.Y > 90-1e-9 {
				hi = max(hi, p.X)
			}
		}
		assert.InDelta(t, math.Atan2(lo-hi, 90), miter, 1e-9, "positive leaves the edge y = 0 longer")

		// Half of what the dihedral of the two faces leaves of a straight angle.
		cosd := -(math.Cos(2*a)*math.Pow(math.Cos(tilt), 2) + math.Pow(math.Sin(tilt), 2))
		assert.InDelta(t, (math.Pi-math.Acos(cosd))/2, math.Abs(bevel), 1e-9)
	}
}

func TestSawSigns(t *testing.T) {
	// The face z = 0 longer at either end: positive bevel.
	for _, x := range []float64{1, -1} {
		_, bevel := SawCut(V3{x, 0, 0.5})
		assert.Positive(t, bevel)
		b := box(600, 90, 20)
		b.Cuts = []Plane{{V3{300 + 300*x, 45, 0}, V3{x, 0, 0.5}}}
		s := solidOf(t, b, 0.1)
		top, bottom := 0., 0.
		for _, f := range s.Faces {
			if f.N.Z > 0.99 {
				top = f.Area()
			}
			if f.N.Z < -0.99 {
				bottom = f.Area()
			}
		}
		require.Greater(t, bottom, top)
	}
	taper, bevel := RipBevel(V3{math.Sin(3 * degree), math.Cos(3 * degree), 0})
	assert.InDelta(t, 3, taper/degree, 1e-9)
	assert.InDelta(t, 0, bevel, 1e-12)
	_, bevel = RipBevel(V3{0, -math.Cos(27 * degree), math.Sin(27 * degree)})
	assert.InDelta(t, 27, bevel/degree, 1e-9)
}
