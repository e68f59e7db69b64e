package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plank is a board told by its corners and bores alone; it knows by itself which
// points are wood, without any solid.
type plank struct {
	corners []Pt
	bores   []Bore // square to the face, right through
	thick   float64
	pose    Pose
}

// randomPlank is a rectangle, a taper or an L, with up to two bores.
func randomPlank(rng *rand.Rand) plank {
	l, w := 150+200*rng.Float64(), 40+80*rng.Float64()
	k := plank{thick: 15 + 25*rng.Float64(), pose: Home()}
	switch in := w * (0.2 + 0.5*rng.Float64()); rng.IntN(3) {
	case 0:
		k.corners = []Pt{{0, 0}, {l, 0}, {l, w}, {0, w}}
	case 1:
		k.corners = []Pt{{0, 0}, {l, 0}, {l, w - in}, {l / 3, w}, {0, w}}
	default:
		k.corners = []Pt{{0, 0}, {l, 0}, {l, w}, {l / 2, w}, {l / 2, in}, {0, in}}
	}
	for i := range rng.IntN(3) {
		k.bores = append(k.bores, Bore{V3{l * (0.6 + 0.25*float64(i)), w * 0.12, 0}, V3{0, 0, 1}, 6 + 4*rng.Float64(), 0})
	}
	return k
}

func (k plank) solid(t *testing.T) *Solid {
	return solidOf(t, Board{Outline: Polygon(k.corners...), Thick: k.thick, Bores: k.bores}, 0.02).Transform(k.pose)
}

// flatHas reports whether a point of the face is wood: an even number of sides
// lies to the right of a point outside, and it lies in no bore.
func (k plank) flatHas(x, y float64) bool {
	in := false
	for i, a := range k.corners {
		b := k.corners[(i+1)%len(k.corners)]
		if (a.Y > y) != (b.Y > y) && x < a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	for _, h := range k.bores {
		in = in && math.Hypot(x-h.At.X, y-h.At.Y) > h.Diam/2
	}
	return in
}

func (k plank) has(p V3) bool {
	q := k.pose.Local(p)
	return q.Z > 0 && q.Z < k.thick && k.flatHas(q.X, q.Y)
}

// well reports whether a point and those round it at a distance are wood.
func (k plank) well(p V3, by float64) bool {
	for _, d := range []V3{{}, {by, 0, 0}, {-by, 0, 0}, {0, by, 0}, {0, -by, 0}, {0, 0, by}, {0, 0, -by}} {
		if !k.has(p.Add(d)) {
			return false
		}
	}
	return true
}

// points are those of a grid in the wood, step apart, in some layers from the
// first face on.
func (k plank) points(step float64, layers ...float64) (out []V3) {
	var far Pt
	for _, c := range k.corners {
		far = Pt{math.Max(far.X, c.X), math.Max(far.Y, c.Y)}
	}
	for x := step / 2; x < far.X; x += step {
		for y := step / 2; y < far.Y; y += step {
			if !k.flatHas(x, y) {
				continue
			}
			for _, z := range layers {
				out = append(out, k.pose.Point(V3{x, y, z * k.thick}))
			}
		}
	}
	return out
}

// TestOverlapAgainstSampling throws 500 pairs of boards together and asks a grid
// of points in the one whether they are in the other. What the grid finds deep in
// both, Overlap must tell; what Overlap tells to be deeper than the grid is
// coarse, the grid must find.
func TestOverlapAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	const step, by = 6.0, 0.3
	overlaps, apart := 0, 0
	for i := range 500 {
		a, b := randomPlank(rng), randomPlank(rng)
		a.pose = tilted(rng)
		b.pose = tilted(rng)
		// Somewhere on the one meets somewhere near the other, so that about half
		// of them strike.
		pa, pb := a.points(20, 0.5), b.points(20, 0.5)
		at, from := pa[rng.IntN(len(pa))], pb[rng.IntN(len(pb))]
		off := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit().Mul(160 * rng.Float64())
		b.pose.Origin = b.pose.Origin.Add(at.Add(off).Sub(from))
		deep := Overlap(a.solid(t), b.solid(t), 0.01)
		found, sure := false, false
		for _, p := range b.points(step, 0.1, 0.3, 0.5, 0.7, 0.9) {
			found = found || a.has(p)
			if sure = found && a.well(p, by) && b.well(p, by); sure {
				break
			}
		}
		if sure {
			overlaps++
			require.Positive(t, deep, "pair %d: points lie in both", i)
		}
		if !found {
			apart++
			require.Less(t, deep, step*math.Sqrt(3), "pair %d: no point lies in both", i)
		}
	}
	assert.Greater(t, overlaps, 150)
	assert.Greater(t, apart, 100)
}

// TestContactAgainstSampling lays 500 pairs of boards face to face, shifted and
// turned, and counts the points of a grid that lie on both faces. A coin's
// thickness apart they touch nowhere.
func TestContactAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 44))
	const step = 1.5
	touching := 0
	for i := range 500 {
		a, b := randomPlank(rng), randomPlank(rng)
		turn := Home()
		s, c := math.Sincos(2 * math.Pi * rng.Float64())
		turn.Along, turn.Across = V3{c, s, 0}, V3{-s, c, 0}
		turn.Origin = V3{300*rng.Float64() - 100, 200*rng.Float64() - 100, a.thick}
		a.pose = tilted(rng)
		b.pose = turn.Then(a.pose)
		n := 0
		for _, p := range b.points(step, 0) {
			if q := a.pose.Local(p); a.flatHas(q.X, q.Y) {
				n++
			}
		}
		want := float64(n) * step * step
		sa, sb := a.solid(t), b.solid(t)
		got := patchArea(Contact(sa, sb, 0.01))
		// Each bit of the edge of what they share is off by half a step at most;
		// it runs over the edges of both at most.
		slack := 0.5*step*math.Sqrt(want) + 60
		require.InDelta(t, want, got, slack, "pair %d", i)
		require.InDelta(t, got, patchArea(Contact(sb, sa, 0.01)), 1e-3)
		if want > 100 {
			touching++
			require.Zero(t, Overlap(sa, sb, 0.01), "pair %d only touches", i)
		}
		lift := Home()
		lift.Origin = a.pose.Thick.Mul(0.5)
		require.Empty(t, Contact(sa, sb.Transform(lift), 0.4), "pair %d", i)
	}
	assert.Greater(t, touching, 200)
}

// TestOverlapDepthOfBoxes: how deep the skin of one box lies in another is, for a
// point in a box, the least way to its six sides. A fine grid on both skins finds
// the deepest to within its mesh; Overlap, a lower bound, is never deeper, and not
// less than half as deep.
func TestOverlapDepthOfBoxes(t *testing.T) {
	rng := rand.New(rand.NewPCG(45, 46))
	const step = 3.0
	depth := func(k plank, p V3) float64 {
		q, far := k.pose.Local(p), k.corners[2]
		return min(q.X, far.X-q.X, q.Y, far.Y-q.Y, q.Z, k.thick-q.Z)
	}
	struck, share := 0, 0.0
	for i := range 200 {
		a, b := randomPlank(rng), randomPlank(rng)
		for _, k := range []*plank{&a, &b} {
			k.corners, k.bores, k.pose = []Pt{{0, 0}, {120, 0}, {120, 60}, {0, 60}}, nil, tilted(rng)
		}
		b.pose.Origin = a.pose.Point(V3{120 * rng.Float64(), 60 * rng.Float64(), a.thick * rng.Float64()})
		found := 0.0
		for _, pair := range [][2]plank{{a, b}, {b, a}} {
			for _, p := range skinOf(pair[1], step) {
				found = math.Max(found, depth(pair[0], p))
			}
		}
		deep := Overlap(a.solid(t), b.solid(t), 0.01)
		require.LessOrEqual(t, deep, found+step, "pair %d", i)
		if found > 1 {
			struck++
			share += deep / found
			require.GreaterOrEqual(t, deep, 0.5*found, "pair %d", i)
		}
	}
	require.Greater(t, struck, 100)
	assert.Greater(t, share/float64(struck), 0.85, "on the whole it is nearly exact")
}

// skinOf is a grid of points on the six sides of a box.
func skinOf(k plank, step float64) (out []V3) {
	far := k.corners[2]
	for x := 0.0; x <= far.X; x += step {
		for y := 0.0; y <= far.Y; y += step {
			out = append(out, k.pose.Point(V3{x, y, 0}), k.pose.Point(V3{x, y, k.thick}))
		}
		for z := 0.0; z <= k.thick; z += step {
			out = append(out, k.pose.Point(V3{x, 0, z}), k.pose.Point(V3{x, far.Y, z}))
		}
	}
	for y := 0.0; y <= far.Y; y += step {
		for z := 0.0; z <= k.thick; z += step {
			out = append(out, k.pose.Point(V3{0, y, z}), k.pose.Point(V3{far.X, y, z}))
		}
	}
	return out
}
