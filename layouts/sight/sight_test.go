package sight_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/sight"
	"planset/model/geom"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func rect(x0, y0, x1, y1 float64) []geom.Pt {
	return []geom.Pt{pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1)}
}

var field = geom.Box{Min: pt(-10, 5), Max: pt(90, 65)}

// What was filled last is seen, a hole shows what is behind, and outside nothing
// is seen.
func TestLaterCoversEarlier(t *testing.T) {
	m := sight.New(field, 0.5)
	m.Fill([][]geom.Pt{rect(0, 10, 50, 40)}, 0)
	m.Fill([][]geom.Pt{rect(20, 20, 70, 60), rect(30, 25, 40, 35)}, 1)
	for p, want := range map[geom.Pt]int{
		pt(5, 15): 0, pt(25, 22): 1, pt(35, 30): 0, pt(60, 50): 1, pt(80, 50): sight.Nobody, pt(-500, 0): sight.Nobody, pt(0, math.Inf(1)): sight.Nobody,
	} {
		assert.Equal(t, want, m.At(p), "%v", p)
	}
}

// The cells filled are those whose middles lie inside, for any loop.
func TestFillAgreesWithHas(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	for range 40 {
		var loop []geom.Pt
		for range 3 + dice.IntN(6) {
			loop = append(loop, pt(dice.Float64()*120-20, dice.Float64()*80))
		}
		m := sight.New(field, 1)
		m.Fill([][]geom.Pt{loop}, 7)
		for x := field.Min.X + 0.5; x < field.Max.X; x++ {
			for y := field.Min.Y + 0.5; y < field.Max.Y; y++ {
				assert.Equal(t, sight.Has([][]geom.Pt{loop}, pt(x, y)), m.At(pt(x, y)) == 7, "%g %g", x, y)
			}
		}
	}
}

// What is met along a line adds up to its length, and to the width of what it
// crosses.
func TestAlongAddsUp(t *testing.T) {
	m := sight.New(field, 0.5)
	m.Fill([][]geom.Pt{rect(20, 0, 50, 100)}, 3)
	a, b := pt(0, 10), pt(80, 60)
	long := map[int]float64{}
	m.Along(a, b, func(id int, l float64) bool { long[id] += l; return false })
	all := b.Sub(a).Len()
	assert.InDelta(t, all, long[3]+long[sight.Nobody], 1e-9)
	assert.InDelta(t, all*30/80, long[3], 1)
	n := 0
	m.Along(a, b, func(int, float64) bool { n++; return n == 5 })
	assert.Equal(t, 5, n, "it stops when told to")
}

// Any finds what a look at every cell finds.
func TestAnyAgreesWithAt(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 4))
	m := sight.New(field, 1)
	m.Fill([][]geom.Pt{rect(10, 20, 13, 50)}, 0)
	m.Fill([][]geom.Pt{rect(40, 30, 70, 32)}, 1)
	for range 300 {
		low := pt(dice.Float64()*110-15, dice.Float64()*70)
		b := geom.Box{Min: low, Max: low.Add(pt(dice.Float64()*20, dice.Float64()*20))}
		want := false
		for x := math.Floor(b.Min.X) + 0.5; x < math.Floor(b.Max.X)+1; x++ {
			for y := math.Floor(b.Min.Y) + 0.5; y < math.Floor(b.Max.Y)+1; y++ {
				want = want || m.At(pt(x, y)) != sight.Nobody
			}
		}
		assert.Equal(t, want, m.Any(b), "%v", b)
	}
}

// Spots lie on what they are spots of, off its edges where it is broad, and apart;
// what is covered has none.
func TestSpots(t *testing.T) {
	m := sight.New(field, 0.5)
	m.Fill([][]geom.Pt{rect(0, 10, 60, 30)}, 0)
	m.Fill([][]geom.Pt{rect(30, 12, 32, 14)}, 2)
	m.Fill([][]geom.Pt{rect(25, 5, 35, 60)}, 1)
	all := m.Spots(3, 8, 4)
	require.Len(t, all, 3)
	assert.Empty(t, all[2])
	require.Len(t, all[0], 8)
	for id, spots := range all {
		for i, p := range spots {
			assert.Equal(t, id, m.At(p))
			for _, d := range []geom.Pt{pt(0.8, 0), pt(-0.8, 0), pt(0, 0.8), pt(0, -0.8)} {
				assert.Equal(t, id, m.At(p.Add(d)), "%v is on the edge", p)
			}
			for _, q := range spots[:i] {
				assert.GreaterOrEqual(t, q.Sub(p).Len(), 4.0-1e-9)
			}
		}
	}
}

// A box that has no size, or is not a number, gives a map in which nothing is seen.
func TestEmptyMaps(t *testing.T) {
	for _, b := range []geom.Box{geom.NoBox(), {}, {Max: pt(math.Inf(1), 4)}, {Max: pt(math.NaN(), 4)}} {
		m := sight.New(b, 0.5)
		m.Fill([][]geom.Pt{rect(-1, -1, 1, 1)}, 0)
		assert.Equal(t, sight.Nobody, m.At(pt(0, 0)))
		assert.False(t, m.Any(geom.Box{Min: pt(-9, -9), Max: pt(9, 9)}))
		assert.Empty(t, m.Spots(1, 4, 1)[0])
	}
}

func BenchmarkFill(b *testing.B) {
	m := sight.New(geom.Box{Max: pt(180, 180)}, 0.5)
	loop := [][]geom.Pt{{pt(10, 12), pt(150, 40), pt(160, 170), pt(25, 120)}}
	for b.Loop() {
		m.Fill(loop, 1)
	}
}
