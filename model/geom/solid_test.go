package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func solidOf(t testing.TB, b Board, chord float64) *Solid {
	s, err := b.Solid(chord)
	require.NoError(t, err)
	require.NoError(t, s.Closed())
	return s
}

func box(l, w, th float64) Board { return Board{Outline: Rect(l, w), Thick: th} }

// euler returns corners - edges + faces - holes in faces: 2 for a lump, 0 for
// a ring, 2(1-g) for a lump with g tunnels.
func euler(s *Solid) int {
	edges, holes := 0, 0
	for _, f := range s.Faces {
		holes += len(f.Loops) - 1
		for _, l := range f.Loops {
			edges += len(l)
		}
	}
	return len(s.Points()) - edges/2 + len(s.Faces) - holes
}

func kinds(s *Solid) map[FaceKind]int {
	k := map[FaceKind]int{}
	for _, f := range s.Faces {
		k[f.Kind]++
	}
	return k
}

func TestPlainBoard(t *testing.T) {
	s := solidOf(t, box(600, 90, 19), 0.1)
	assert.InDelta(t, 600*90*19, s.Volume(), 1e-6)
	assert.InDelta(t, 2*(600*90+90*19+600*19), s.Area(), 1e-6)
	assert.InDelta(t, 0, s.Centroid().Sub(V3{300, 45, 9.5}).Len(), 1e-9)
	assert.Equal(t, map[FaceKind]int{Flat: 2, Side: 2, End: 2}, kinds(s))
	assert.Equal(t, 2, euler(s))
	assert.Len(t, s.Points(), 8)
}

func TestBevelledEndAndEdge(t *testing.T) {
	b := box(600, 90, 20)
	// A 30 degree end: the top is shorter by 20 tan 30.
	n := V3{math.Cos(math.Pi / 6), 0, math.Sin(math.Pi / 6)}
	b.Cuts = []Plane{{V3{600, 0, 0}, n}}
	s := solidOf(t, b, 0.1)
	wedge := 20 * 20 * math.Tan(math.Pi/6) / 2 * 90
	assert.InDelta(t, 600*90*20-wedge, s.Volume(), 1e-6)
	assert.Equal(t, map[FaceKind]int{Flat: 2, Side: 2, End: 2}, kinds(s))

	// A chamfer of 5 along one arris.
	b.Cuts = append(b.Cuts, Plane{V3{0, 5, 0}, V3{0, -1, -1}.Unit()})
	c := solidOf(t, b, 0.1)
	assert.InDelta(t, s.Volume()-12.5*(600-5./3*math.Tan(math.Pi/6)), c.Volume(), 1e-6)
	assert.Equal(t, 3, kinds(c)[Side])

	b.Cuts = []Plane{{V3{-1, 0, 0}, V3{1, 0, 0}}}
	_, err := b.Solid(0.1)
	assert.ErrorContains(t, err, "no wood")
}

func TestCutInAFaceChangesNothing(t *testing.T) {
	b := box(600, 90, 20)
	b.Cuts = []Plane{{V3{600, 0, 0}, V3{1, 0, 0}}, {V3{0, 0, 20}, V3{0, 0, 1}}, {V3{0, 90, 0}, V3{0, 1, 0}}}
	s := solidOf(t, b, 0.1)
	assert.InDelta(t, 600*90*20, s.Volume(), 1e-6)
	assert.Len(t, s.Faces, 6)
}

// A fork cut level with the bottom of its slot: the wood in the slot's floor
// must go with what is cut away, without leaving a skin between the prongs.
func TestCutLevelWithAFloor(t *testing.T) {
	u := Polygon(Pt{0, 0}, Pt{100, 0}, Pt{100, 30}, Pt{60, 30}, Pt{60, 10}, Pt{40, 10}, Pt{40, 30}, Pt{0, 30})
	b := Board{Outline: u, Thick: 20, Cuts: []Plane{{V3{0, 10, 0}, V3{0, -1, 0}}}}
	s := solidOf(t, b, 0.1)
	assert.InDelta(t, 2*40*20*20, s.Volume(), 1e-6)
	assert.InDelta(t, 2*2*(40*20+40*20+20*20), s.Area(), 1e-6)
	b.Cuts[0].N = V3{0, 1, 0}
	s = solidOf(t, b, 0.1)
	assert.InDelta(t, 100*10*20, s.Volume(), 1e-6)
	assert.InDelta(t, 2*(100*10+100*20+10*20), s.Area(), 1e-6)
}

// holeArea is the area of the polygon that stands for a round hole.
func holeArea(d, chord float64) float64 {
	n := facets(d/2, 2*math.Pi, chord)
	n += (4 - n%4) % 4
	return float64(n) * d * d / 8 * math.Sin(2*math.Pi/float64(n))
}

func TestBores(t *testing.T) {
	chord := 0.05
	up, whole := V3{0, 0, 1}, 600.*90*20
	for _, c := range []struct {
		name  string
		bores []Bore
		gone  float64
		euler int
	}{
		{"through", []Bore{{V3{100, 45, 0}, up, 10, 0}}, holeArea(10, chord) * 20, 0},
		{"through from the top", []Bore{{V3{100, 45, 20}, up.Neg(), 10, 0}}, holeArea(10, chord) * 20, 0},
		{"blind", []Bore{{V3{100, 45, 0}, up, 10, 12}}, holeArea(10, chord) * 12, 2},
		{"just through", []Bore{{V3{100, 45, 0}, up, 10, 20}}, holeArea(10, chord) * 20, 0},
		{"counterbored", []Bore{{V3{100, 45, 0}, up, 20, 8}, {V3{100, 45, 0}, up, 10, 0}}, holeArea(20, chord)*8 + holeArea(10, chord)*12, 0},
		{"counterbored after", []Bore{{V3{100, 45, 0}, up, 10, 0}, {V3{100, 45, 0}, up, 20, 8}}, holeArea(20, chord)*8 + holeArea(10, chord)*12, 0},
		{"into an edge", []Bore{{V3{100, 0, 10}, V3{0, 1, 0}, 10, 30}}, holeArea(10, chord) * 30, 2},
		{"into an end", []Bore{{V3{600, 45, 10}, V3{-1, 0, 0}, 10, 30}}, holeArea(10, chord) * 30, 2},
		{"half out of an edge", []Bore{{V3{100, 0, 0}, up, 10, 0}}, holeArea(10, chord) * 10, 2},
		{"twice the same", []Bore{{V3{100, 45, 0}, up, 10, 0}, {V3{100, 45, 0}, up, 10, 0}}, holeArea(10, chord) * 20, 0},
		{"two", []Bore{{V3{100, 45, 0}, up, 10, 0}, {V3{200, 45, 0}, up, 10, 0}}, holeArea(10, chord) * 40, -2},
		{"beside the wood", []Bore{{V3{700, 45, 0}, up, 10, 0}}, 0, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := box(600, 90, 20)
			b.Bores = c.bores
			s := solidOf(t, b, chord)
			assert.InDelta(t, whole-c.gone, s.Volume(), 1e-6)
			assert.Equal(t, c.euler, euler(s))
			for _, f := range s.Faces {
				// Cutting leaves no scraps: faces of the plain board stay whole.
				if f.Kind == Flat {
					assert.LessOrEqual(t, len(f.Loops), 3)
				}
			}
			assert.LessOrEqual(t, kinds(s)[Flat], 2)
		})
	}
}

func TestRoundHoleComesNearTheCircle(t *testing.T) {
	for _, chord := range []float64{0.2, 0.05, 0.01} {
		b := box(600, 90, 20)
		b.Bores = []Bore{{V3{100, 45, 0}, V3{0, 0, 1}, 30, 0}}
		gone := 600*90*20 - solidOf(t, b, chord).Volume()
		want := math.Pi * 225 * 20
		assert.Less(t, gone, want)
		assert.InDelta(t, want, gone, chord*math.Pi*30*20)
	}
}

// A bore square to the face is symmetric about its axis, so the balance of the
// board is that of the plain one less the hole's own.
func TestCentroidOfABoredBoard(t *testing.T) {
	b := box(600, 90, 20)
	b.Bores = []Bore{{V3{100, 30, 0}, V3{0, 0, 1}, 24, 15}}
	s := solidOf(t, b, 0.05)
	hole := holeArea(24, 0.05) * 15
	want := V3{300, 45, 10}.Mul(600 * 90 * 20).Sub(V3{100, 30, 7.5}.Mul(hole)).Mul(1 / s.Volume())
	assert.InDelta(t, 0, s.Centroid().Sub(want).Len(), 1e-8)
}

func TestSlantedPocket(t *testing.T) {
	// A pocket bore at 15 degrees to the face, 9.5 mm, 40 deep along its axis.
	// The volume is that of a prism from its slanted mouth: area times the depth
	// of the axis, as the polygon is symmetric about it.
	b := box(600, 90, 19)
	dir := V3{math.Cos(15 * math.Pi / 180), 0, math.Sin(15 * math.Pi / 180)}
	b.Bores = []Bore{{V3{500, 45, 0}, dir, 9.5, 40}}
	s := solidOf(t, b, 0.05)
	assert.InDelta(t, 600*90*19-holeArea(9.5, 0.05)*40, s.Volume(), 1e-6)
	assert.Equal(t, 2, euler(s))
	// The pilot goes on from the floor and comes out of the end.
	b.Bores = append(b.Bores, Bore{b.Bores[0].At, dir, 4, 0})
	s = solidOf(t, b, 0.05)
	assert.Equal(t, 0, euler(s))
}

func TestRecesses(t *testing.T) {
	for _, c := range []struct {
		name  string
		r     []Recess
		gone  float64
		faces int
	}{
		{"pocket", []Recess{{Rect(40, 20).Move(Pt{100, 30}), true, 6}}, 40 * 20 * 6, 11},
		{"dado right across", []Recess{{Rect(20, 200).Move(Pt{100, -50}), true, 6}}, 20 * 90 * 6, 10},
		{"dado flush", []Recess{{Rect(20, 90).Move(Pt{100, 0}), true, 6}}, 20 * 90 * 6, 10},
		{"rabbet", []Recess{{Rect(700, 10).Move(Pt{-5, 80}), false, 6}}, 600 * 10 * 6, 8},
		{"half lap at the end", []Recess{{Rect(90, 90).Move(Pt{510, 0}), true, 10}}, 90 * 90 * 10, 8},
		{"two crossing", []Recess{{Rect(20, 200).Move(Pt{100, -50}), true, 6}, {Rect(700, 10).Move(Pt{-5, 40}), true, 6}}, 6 * (20*90 + 600*10 - 20*10), 18},
		{"two side by side", []Recess{{Rect(20, 20).Move(Pt{100, 30}), true, 6}, {Rect(20, 20).Move(Pt{120, 30}), true, 6}}, 40 * 20 * 6, 11},
		{"twice", []Recess{{Rect(40, 20).Move(Pt{100, 30}), true, 6}, {Rect(40, 20).Move(Pt{100, 30}), true, 6}}, 40 * 20 * 6, 11},
		{"right through", []Recess{{Rect(40, 20).Move(Pt{100, 30}), true, 20}}, 40 * 20 * 20, 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := box(600, 90, 20)
			b.Recesses = c.r
			s := solidOf(t, b, 0.05)
			assert.InDelta(t, 600*90*20-c.gone, s.Volume(), 1e-6)
			assert.Len(t, s.Faces, c.faces)
		})
	}
	b := box(600, 90, 20)
	b.Recesses = []Recess{{Outline: Polygon(Pt{0, 0}, Pt{50, 0}, Pt{10, 10}, Pt{0, 50}), Depth: 5}}
	_, err := b.Solid(0.1)
	assert.ErrorContains(t, err, "convex")
}

func TestRoundedArris(t *testing.T) {
	b := box(600, 90, 20)
	r := 8.
	b.Rounds = []Round{{Pt{0, 0}, Pt{600, 0}, true, r}}
	for _, chord := range []float64{0.2, 0.02, 0.002} {
		s := solidOf(t, b, chord)
		gone := 600*90*20 - s.Volume()
		want := (1 - math.Pi/4) * r * r * 600
		assert.InDelta(t, want, gone, 600*math.Pi/2*r*chord)
		assert.Less(t, gone, want, "tangent facets leave a little more wood")
		for _, p := range s.Points() {
			if p.Y < r && p.Z > 20-r {
				d := math.Hypot(p.Y-r, p.Z-(20-r))
				assert.LessOrEqual(t, d, r+chord+1e-9)
				assert.GreaterOrEqual(t, d, r-1e-9)
			}
		}
	}
	// Both front arrises of a tapered board, and a reflex corner at one end.
	u := Polygon(Pt{0, 0}, Pt{100, 0}, Pt{100, 30}, Pt{60, 35}, Pt{60, 10}, Pt{40, 10}, Pt{40, 30}, Pt{0, 30})
	c := Board{Outline: u, Thick: 20, Rounds: []Round{{u[5].A, u[5].B, true, 3}, {u[1].A, u[1].B, true, 4}, {u[2].A, u[2].B, false, 4}, {u[4].A, u[4].B, false, 4}}}
	s := solidOf(t, c, 0.02)
	assert.Less(t, s.Volume(), u.Area()*20)
	assert.Equal(t, 2, euler(s))
}

// wildBoard is a random board: bent outline, slanting cuts, bores anywhere.
func wildBoard(rng *rand.Rand) Board {
	b := Board{Outline: wobbly(rng), Thick: 10 + 20*rng.Float64()}
	dir := func() V3 { return V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit() }
	for range rng.IntN(3) {
		n := dir()
		b.Cuts = append(b.Cuts, Plane{n.Mul(20 + 40*rng.Float64()), n})
	}
	for range rng.IntN(3) {
		b.Recesses = append(b.Recesses, Recess{Rect(10+50*rng.Float64(), 10+50*rng.Float64()).Turn(rng.Float64()).Move(Pt{100*rng.Float64() - 50, 100*rng.Float64() - 50}), rng.IntN(2) == 0, b.Thick * rng.Float64()})
	}
	for range rng.IntN(4) {
		d := V3{0, 0, 1}
		if rng.IntN(2) == 0 {
			d = dir()
		}
		b.Bores = append(b.Bores, Bore{V3{120*rng.Float64() - 60, 120*rng.Float64() - 60, 0}, d, 3 + 20*rng.Float64(), float64(rng.IntN(2)) * 15})
	}
	return b
}

func TestCutAndComplementShareOutTheVolume(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	for i := range 60 {
		s := solidOf(t, wildBoard(rng), 0.5)
		n := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
		pl := Plane{s.Centroid().Add(n.Mul(rng.NormFloat64() * 10)), n}
		if i%3 == 0 {
			// Through a corner, or along a face.
			f := s.Faces[rng.IntN(len(s.Faces))]
			pl.P = f.Loops[0][0]
			if i%2 == 0 {
				pl.N = f.N
			}
		}
		sum := 0.
		for _, k := range []float64{1, -1} {
			if half := s.CutBy(Plane{pl.P, pl.N.Mul(k)}, End); half != nil {
				require.NoError(t, half.Closed())
				sum += half.Volume()
			}
		}
		require.InDelta(t, s.Volume(), sum, 1e-2)
	}
}

func TestSameBoardSameSolid(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	for range 20 {
		b := wildBoard(rng)
		require.Equal(t, solidOf(t, b, 0.5), solidOf(t, b, 0.5))
	}
}

func TestTransform(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	for range 20 {
		s := solidOf(t, wildBoard(rng), 0.5)
		axis := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
		h := Home()
		a := rng.Float64() * 6
		pose := Pose{V3{rng.Float64() * 1000, 50, -300}, h.Along.Spin(axis, a), h.Across.Spin(axis, a), h.Thick.Spin(axis, a)}
		for _, p := range []Pose{pose, pose.Mirror()} {
			m := s.Transform(p)
			require.NoError(t, m.Closed())
			assert.InDelta(t, s.Volume(), m.Volume(), 1e-4)
			assert.InDelta(t, s.Area(), m.Area(), 1e-4)
			assert.InDelta(t, 0, m.Centroid().Sub(p.Point(s.Centroid())).Len(), 1e-6)
			assert.Equal(t, m.Box3(Home()), s.Box3(p))
		}
	}
}

// stringer is a chair's stringer: ten sides, two of them arcs, four bores.
func stringer(t testing.TB) Board {
	o, err := From(Pt{0, 40}).ArcTo(Pt{40, 0}, 40, CCW, false).LineTo(Pt{500, 0}).LineTo(Pt{560, 20}).LineTo(Pt{900, 20}).
		LineTo(Pt{930, 60}).LineTo(Pt{860, 138}).LineTo(Pt{600, 138}).ArcTo(Pt{500, 138}, 300, CW, false).LineTo(Pt{0, 138}).Close()
	require.NoError(t, err)
	require.Len(t, o, 10)
	up := V3{0, 0, 1}
	return Board{Outline: o, Thick: 25, Bores: []Bore{
		{V3{100, 60, 0}, up, 10, 0}, {V3{160, 90, 0}, up, 10, 0}, {V3{700, 60, 0}, up, 8, 12}, {V3{750, 60, 0}, up, 8, 12},
	}}
}

func TestStringer(t *testing.T) {
	b := stringer(t)
	s := solidOf(t, b, 0.1)
	flat := Polygon(b.Outline.Flatten(0.1)...).Area()
	assert.InDelta(t, flat*25-2*holeArea(10, 0.1)*25-2*holeArea(8, 0.1)*12, s.Volume(), 1e-2) // Polygon snaps, the solid does not
	assert.Equal(t, -2, euler(s))
}

func BenchmarkSolidOfAStringer(b *testing.B) {
	board := stringer(b)
	for b.Loop() {
		if _, err := board.Solid(0.1); err != nil {
			b.Fatal(err)
		}
	}
}
