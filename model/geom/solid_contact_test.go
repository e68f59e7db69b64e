package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func at(x, y, z float64) Pose {
	h := Home()
	h.Origin = V3{x, y, z}
	return h
}

func patchArea(ps []Patch) float64 {
	sum := 0.
	for _, p := range ps {
		sum += p.Area
	}
	return sum
}

// tilted is a pose with nothing square about it.
func tilted(rng *rand.Rand) Pose {
	axis := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
	h, a := Home(), rng.Float64()*6
	return Pose{V3{rng.Float64() * 1000, -200, 300}, h.Along.Spin(axis, a), h.Across.Spin(axis, a), h.Thick.Spin(axis, a)}
}

func TestContactOfBoards(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	hole := box(600, 90, 20)
	hole.Bores = []Bore{{V3{100, 45, 0}, V3{0, 0, 1}, 30, 0}}
	fork := Board{Outline: Polygon(Pt{0, 0}, Pt{100, 0}, Pt{100, 30}, Pt{60, 30}, Pt{60, 10}, Pt{40, 10}, Pt{40, 30}, Pt{0, 30}), Thick: 20}
	for _, c := range []struct {
		name   string
		a, b   Board
		pose   Pose
		pieces int
		area   float64
	}{
		{"flat, shifted", box(600, 90, 20), box(600, 90, 20), at(100, 50, 20), 1, 500 * 40},
		{"flat, flush", box(600, 90, 20), box(600, 90, 20), at(0, 0, 20), 1, 600 * 90},
		{"end to end", box(600, 90, 20), box(600, 90, 20), at(600, 0, 0), 1, 90 * 20},
		{"edge on face", box(600, 90, 20), Board{Outline: Rect(50, 300), Thick: 20}, at(20, -300, 0), 1, 50 * 20},
		{"only an edge", box(600, 90, 20), box(600, 90, 20), at(600, 90, 0), 0, 0},
		{"apart", box(600, 90, 20), box(600, 90, 20), at(0, 0, 21), 0, 0},
		{"over a hole", hole, box(200, 90, 20), at(0, 0, 20), 1, 200*90 - holeArea(30, 0.05)},
		{"within a hole's face", box(200, 90, 20), hole, at(0, 0, 20), 1, 200*90 - holeArea(30, 0.05)},
		{"hole on hole", hole, hole, at(0, 0, 20), 1, 600*90 - holeArea(30, 0.05)},
		{"two prongs", fork, box(200, 10, 20), at(-50, 15, 20), 2, 2 * 40 * 10},
		{"fork on fork", fork, fork, at(0, 0, 20), 1, fork.Outline.Area()},
		{"fork in fork", fork, fork, at(10, 5, 20), 1, 1000},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b := solidOf(t, c.a, 0.05), solidOf(t, c.b, 0.05)
			if c.name == "fork in fork" {
				c.area = areas(c.a.Outline.And(c.b.Outline.Move(Pt{10, 5})))
			}
			for _, world := range []Pose{Home(), tilted(rng), tilted(rng).Mirror()} {
				wa, wb := a.Transform(world), b.Transform(c.pose.Then(world))
				ps := Contact(wa, wb, 0.01)
				require.Len(t, ps, c.pieces)
				assert.InDelta(t, c.area, patchArea(ps), 1e-3)
				assert.InDelta(t, c.area, patchArea(Contact(wb, wa, 0.01)), 1e-3)
				for _, p := range ps {
					assert.InDelta(t, 1, p.N.Dot(wa.Faces[p.FaceA].N), 1e-9)
					assert.InDelta(t, -1, p.N.Dot(wb.Faces[p.FaceB].N), 1e-9)
					assert.InDelta(t, 0, p.Gap, 1e-6)
					assert.Positive(t, loopArea(p.Loops[0]).Dot(p.N))
				}
				assert.Zero(t, Overlap(wa, wb, 0.01))
			}
		})
	}
}

// A rail with its edge bevelled to 27 degrees bears fully on a level arm.
func TestContactOfABevelledEdge(t *testing.T) {
	lean := 27 * degree
	rail := box(500, 90, 25)
	n := V3{0, math.Cos(lean), math.Sin(lean)}
	rail.Cuts = []Plane{{V3{0, 90, 0}, n}}
	s := solidOf(t, rail, 0.1)
	// Turned about its length until the bevel looks up.
	h := Home()
	x := V3{1, 0, 0}
	pose := Pose{V3{}, x, h.Across.Spin(x, math.Pi/2-lean), h.Thick.Spin(x, math.Pi/2-lean)}
	up := pose.Dir(n)
	require.InDelta(t, 0, up.Sub(V3{0, 0, 1}).Len(), 1e-12)
	s = s.Transform(pose)
	top, ok := s.MaxAlong(V3{0, 0, 1}, nil)
	require.True(t, ok)
	arm := solidOf(t, box(160, 700, 27), 0.1).Transform(at(100, -400, top))
	ps := Contact(s, arm, 0.01)
	require.Len(t, ps, 1)
	assert.InDelta(t, 160*25/math.Cos(lean), ps[0].Area, 1e-6)
	// A degree more and it no longer lies flat.
	tip := Pose{pose.Origin, x, pose.Across.Spin(x, degree), pose.Thick.Spin(x, degree)}
	off := solidOf(t, rail, 0.1).Transform(tip)
	top, _ = off.MaxAlong(V3{0, 0, 1}, nil)
	assert.Empty(t, Contact(off, solidOf(t, box(160, 700, 27), 0.1).Transform(at(100, -400, top)), 0.01))
}

func TestContactGap(t *testing.T) {
	a, b := solidOf(t, box(600, 90, 20), 0.1), solidOf(t, box(600, 90, 20), 0.1)
	ps := Contact(a, b.Transform(at(0, 0, 20.3)), 0.5)
	require.Len(t, ps, 1)
	assert.InDelta(t, 0.3, ps[0].Gap, 1e-9)
	ps = Contact(a, b.Transform(at(0, 0, 19.8)), 0.5)
	require.Len(t, ps, 1)
	assert.InDelta(t, -0.2, ps[0].Gap, 1e-9)
	assert.InDelta(t, 0.2, Overlap(a, b.Transform(at(0, 0, 19.8)), 0.1), 1e-9)
	assert.Zero(t, Overlap(a, b.Transform(at(0, 0, 19.8)), 0.5))
}

func TestOverlapDepth(t *testing.T) {
	rng := rand.New(rand.NewPCG(23, 24))
	plain := box(600, 90, 20)
	hole := plain
	hole.Bores = []Bore{{V3{300, 45, 0}, V3{0, 0, 1}, 30, 0}}
	peg := Board{Outline: Circle(Pt{300, 45}, 14), Thick: 100}
	fat := Board{Outline: Circle(Pt{300, 45}, 17), Thick: 100}
	h := Home()
	cross := Pose{V3{310, 0, -300}, h.Thick, h.Across, h.Along.Neg()}
	for _, c := range []struct {
		name string
		a, b Board
		pose Pose
		deep float64
	}{
		{"a corner in", plain, plain, at(599, 85, 17), 1},
		{"an end in a face", plain, Board{Outline: Rect(20, 20), Thick: 300}, at(100, 30, 18), 2},
		{"shifted along itself", plain, plain, at(300, 0, 0), 10},
		{"in one place", plain, plain, at(0, 0, 0), 10},
		{"right through", plain, plain, cross, 10},
		{"a peg in its hole", hole, peg, at(0, 0, -50), 0},
		{"a peg too fat", hole, fat, at(0, 0, -50), 2},
		{"swallowed", plain, box(10, 10, 4), at(50, 40, 8), 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b := solidOf(t, c.a, 0.05), solidOf(t, c.b, 0.05)
			for _, world := range []Pose{Home(), tilted(rng)} {
				wa, wb := a.Transform(world), b.Transform(c.pose.Then(world))
				d := Overlap(wa, wb, 0.1)
				assert.InDelta(t, d, Overlap(wb, wa, 0.1), 1e-9)
				assert.InDelta(t, c.deep, d, 0.06)
			}
		})
	}
}

func TestMaxAlongASlab(t *testing.T) {
	// A board leaning at 27 degrees: how far forward does it reach below a height?
	s := solidOf(t, box(900, 90, 20), 0.1)
	lean := 27 * degree
	h := Home()
	y := V3{0, 1, 0}
	s = s.Transform(Pose{V3{}, V3{math.Sin(lean), 0, math.Cos(lean)}, y, h.Thick.Spin(y, lean-math.Pi/2)})
	for _, height := range []float64{100, 300, 700} {
		slab := []Plane{{V3{0, 0, height}, V3{0, 0, 1}}, {V3{0, 0, height - 50}, V3{0, 0, -1}}}
		far, ok := s.MaxAlong(V3{1, 0, 0}, slab)
		require.True(t, ok)
		want := height * math.Tan(lean)
		if s.Box3(Home()).Min.X > -1 {
			want += 20 / math.Cos(lean)
		}
		assert.InDelta(t, want, far, 1e-9)
	}
	_, ok := s.MaxAlong(V3{1, 0, 0}, []Plane{{V3{0, 0, -500}, V3{0, 0, 1}}})
	assert.False(t, ok)
}

func TestSection(t *testing.T) {
	b := box(600, 90, 20)
	b.Bores = []Bore{{V3{300, 45, 0}, V3{0, 0, 1}, 30, 0}}
	s := solidOf(t, b, 0.05)
	n := V3{0, 0, 1}
	loops := s.Section(Plane{V3{0, 0, 7}, n})
	require.Len(t, loops, 2)
	sum := 0.
	for _, l := range loops {
		sum += loopArea(l).Dot(n)
	}
	assert.InDelta(t, 600*90-holeArea(30, 0.05), sum, 1e-6)
	across := s.Section(Plane{V3{300, 0, 0}, V3{1, 0, 0}})
	assert.Len(t, across, 2)
	assert.Empty(t, s.Section(Plane{V3{700, 0, 0}, V3{1, 0, 0}}))
	assert.Empty(t, s.Section(Plane{V3{0, 0, 0}, V3{0, 0, 1}}))
}

// The volume is the sum of the sections: Simpson's rule is exact for flat
// faces between heights where no corner lies.
func TestSectionsSumToTheVolume(t *testing.T) {
	rng := rand.New(rand.NewPCG(25, 26))
	for range 10 {
		s := solidOf(t, wildBoard(rng), 1)
		n := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
		lo, _ := s.MaxAlong(n.Neg(), nil)
		hi, _ := s.MaxAlong(n, nil)
		const steps = 200
		step, sum := (hi+lo)/steps, 0.
		for i := range steps {
			d := -lo + (float64(i)+0.5)*step
			for _, l := range s.Section(Plane{n.Mul(d), n}) {
				sum += loopArea(l).Dot(n) * step
			}
		}
		assert.InDelta(t, 1, sum/s.Volume(), 2e-3)
	}
}

func BenchmarkContact(b *testing.B) {
	s := solidOf(b, stringer(b), 0.1)
	r := s.Transform(at(30, 10, 25))
	for b.Loop() {
		if len(Contact(s, r, 0.01)) == 0 {
			b.Fatal("no contact")
		}
	}
}

// The hard case: two leaning stringers that cross each other.
func BenchmarkOverlap(b *testing.B) {
	s := solidOf(b, stringer(b), 0.1)
	r := s.Transform(tilted(rand.New(rand.NewPCG(1, 1))))
	q := r.Transform(Pose{V3{}, V3{0.6, 0.8, 0}, V3{-0.8, 0.6, 0}, V3{0, 0, 1}})
	to := Home()
	to.Origin = r.Centroid().Sub(q.Centroid())
	q = q.Transform(to)
	for b.Loop() {
		if Overlap(r, q, 0.01) == 0 {
			b.Fatal("no overlap")
		}
	}
}
