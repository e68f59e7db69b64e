package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A board sawn in two touches itself along the whole cut and nowhere else
// overlaps: contact, section and overlap are held to each other on boards
// that are bent, holed and slanting.
func TestHalvesTouchAlongTheCut(t *testing.T) {
	rng := rand.New(rand.NewPCG(27, 28))
	for range 8 {
		s := solidOf(t, wildBoard(rng), 0.5).Transform(tilted(rng))
		n := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
		pl := Plane{s.Centroid(), n}
		a, b := s.CutBy(pl, End), s.CutBy(Plane{pl.P, n.Neg()}, End)
		if a == nil || b == nil {
			continue
		}
		section := 0.
		for _, l := range s.Section(pl) {
			section += loopArea(l).Dot(n)
		}
		ps := Contact(a, b, 0.01)
		assert.InDelta(t, section, patchArea(ps), 1e-2)
		for _, p := range ps {
			assert.InDelta(t, 1, p.N.Dot(n), 1e-9)
		}
		assert.Zero(t, Overlap(a, b, 1e-3))
		assert.Positive(t, Overlap(s, a, 1e-3))
		assert.Positive(t, Overlap(s, s, 1e-3))
	}
}

// Moving the halves into each other by a little overlaps them by that little,
// apart by a little not at all, for cuts far from any skin.
func TestOverlapGrowsFromTouching(t *testing.T) {
	rng := rand.New(rand.NewPCG(29, 30))
	for range 10 {
		s := solidOf(t, box(600, 90, 20), 0.5).Transform(tilted(rng))
		n := s.Faces[rng.IntN(len(s.Faces))].N.Add(V3{rng.Float64(), rng.Float64(), rng.Float64()}.Mul(0.1)).Unit()
		pl := Plane{s.Centroid(), n}
		a, b := s.CutBy(pl, End), s.CutBy(Plane{pl.P, n.Neg()}, End)
		require.NotNil(t, a)
		require.NotNil(t, b)
		for _, d := range []float64{0.5, 2} {
			shift := Home()
			shift.Origin = n.Mul(-d)
			assert.InDelta(t, d, Overlap(a, b.Transform(shift), 0.1), 0.05*d)
			shift.Origin = n.Mul(d)
			assert.Zero(t, Overlap(a, b.Transform(shift), 0.1))
			assert.Empty(t, Contact(a, b.Transform(shift), 0.1))
		}
	}
}

func TestInsideAndDistance(t *testing.T) {
	b := box(600, 90, 20)
	b.Bores = []Bore{{V3{300, 45, 0}, V3{0, 0, 1}, 30, 0}}
	s := solidOf(t, b, 0.05)
	for _, c := range []struct {
		p  V3
		in bool
		d  float64
	}{
		{V3{100, 45, 8}, true, 8}, {V3{100, 45, -3}, false, 3}, {V3{603, 94, 10}, false, 5},
		{V3{300, 45, 0}, false, 15}, {V3{300, 45, 10}, false, 15}, {V3{319, 45, 10}, true, 4},
		{V3{300, 45, 20}, false, 15}, {V3{700, 45, 20}, false, 100},
	} {
		assert.Equal(t, c.in, s.Inside(c.p), "%v", c.p)
		assert.InDelta(t, c.d, s.Distance(c.p), 0.06, "%v", c.p)
	}
}

// wood tells by the recipe of b, not by its solid, whether p is in the wood.
func (b Board) wood(p V3) bool {
	flat := Pt{p.X, p.Y}
	if p.Z < 0 || p.Z > b.Thick || !b.Outline.Contains(flat) {
		return false
	}
	for _, c := range b.Cuts {
		if p.Sub(c.P).Dot(c.N) > 0 {
			return false
		}
	}
	for _, r := range b.Recesses {
		deep := p.Z < r.Depth
		if r.Top {
			deep = p.Z > b.Thick-r.Depth
		}
		if deep && r.Outline.Contains(flat) {
			return false
		}
	}
	for _, d := range b.Bores {
		q := p.Sub(d.At)
		along := q.Dot(d.Dir)
		if q.Sub(d.Dir.Mul(along)).Len() < d.Diam/2 && along > -behindMouth*d.Diam && (d.Depth == 0 || along < d.Depth) {
			return false
		}
	}
	return true
}

func TestSolidIsWhatItsRecipeSays(t *testing.T) {
	rng := rand.New(rand.NewPCG(33, 34))
	in, out := 0, 0
	for range 40 {
		b := wildBoard(rng)
		s := solidOf(t, b, 0.2)
		k := s.skin()
		size := s.Box3(Home()).Grow(3)
		for range 150 {
			f := V3{rng.Float64(), rng.Float64(), rng.Float64()}
			d := size.Size()
			p := size.Min.Add(V3{f.X * d.X, f.Y * d.Y, f.Z * d.Z})
			if k.distance(p) < 0.25 {
				continue // between facet and true curve
			}
			want := b.wood(p)
			require.Equal(t, want, k.inside(p), "%v in %+v", p, b)
			if want {
				in++
			} else {
				out++
			}
		}
	}
	assert.Greater(t, in, 1000)
	assert.Greater(t, out, 1000)
}
