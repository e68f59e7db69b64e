package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzBoard makes boards of bytes and demands a closed skin and volumes that
// add up when the board is cut anywhere.
func FuzzBoard(f *testing.F) {
	f.Add(uint64(1), []byte{100, 60, 20, 1, 50, 30, 0, 10, 2, 10, 10, 60, 5})
	f.Add(uint64(2), []byte{200, 90, 20, 1, 0, 30, 0, 20, 1, 0, 30, 0, 10, 0, 100, 45, 3, 200})
	f.Add(uint64(3), []byte{90, 90, 10, 2, 0, 0, 90, 10, 2, 40, 0, 10, 90, 2, 0, 40, 90, 10})
	f.Add(uint64(5), []byte{90, 60, 20, 4, 0, 0, 64, 0, 4, 1, 0, 64, 0, 4, 0, 1, 72, 0, 2, 10, 0, 20, 70})
	f.Add(uint64(4), []byte{90, 90, 10, 3, 0, 0, 5, 5, 1, 45, 45, 5, 90, 0, 45, 45, 5, 5})
	f.Fuzz(func(t *testing.T, seed uint64, in []byte) {
		b, ok := boardOf(in)
		if !ok {
			return
		}
		s, err := b.Solid(0.5)
		if err != nil {
			return
		}
		require.NoError(t, s.Closed())
		v := s.Volume()
		require.Greater(t, v, -1e-3)
		require.Less(t, v, b.Outline.Area()*b.Thick+1e-3)
		rng := rand.New(rand.NewPCG(seed, 1))
		n := V3{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Unit()
		sum := 0.
		for _, k := range []float64{1, -1} {
			if h := s.CutBy(Plane{s.Centroid(), n.Mul(k)}, End); h != nil {
				require.NoError(t, h.Closed())
				sum += h.Volume()
			}
		}
		require.InDelta(t, v, sum, 0.05)
		require.NoError(t, s.Transform(Home().Mirror()).Closed())
	})
}

// boardOf reads a board from bytes: its size, then features of five bytes.
// Whole numbers make coinciding planes likely, which is what is hard.
func boardOf(in []byte) (Board, bool) {
	if len(in) < 3 || in[0] < 4 || in[1] < 4 || in[2] < 2 {
		return Board{}, false
	}
	b := box(float64(in[0]), float64(in[1]), float64(in[2]))
	in = in[3:]
	for n := 0; len(in) >= 5 && n < 6; n++ {
		x, y, p, q := float64(in[1]), float64(in[2]), float64(in[3]), float64(in[4])
		switch in[0] % 5 {
		case 0:
			b.Cuts = append(b.Cuts, Plane{V3{x, y, 0}, V3{p - 100, q - 100, x - y + 0.5}.Unit()})
		case 1:
			b.Bores = append(b.Bores, Bore{V3{x, y, 0}, V3{float64(in[0]/4) - 30, 0, 30}.Unit(), p/4 + 1, float64(int(q) % 40)})
		case 2:
			b.Recesses = append(b.Recesses, Recess{Rect(p+1, q+1).Move(Pt{x, y}), in[0] >= 128, b.Thick / 2})
		case 3:
			b.Bores = append(b.Bores, Bore{V3{x, 0, b.Thick / 2}, V3{0, 1, 0}, p/8 + 1, q})
		case 4:
			side := b.Outline[int(in[1])%4]
			b.Rounds = append(b.Rounds, Round{side.A, side.B, in[2]%2 == 0, p/8 + 1})
		}
		in = in[5:]
	}
	return b, true
}
