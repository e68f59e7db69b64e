package marks

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A least-squares solution leaves a residual that is square to every column.
func TestLeastSquaresResidualIsSquare(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, size := range [][3]int{{3, 3, 1}, {9, 4, 2}, {40, 18, 5}} {
		m, n, k := size[0], size[1], size[2]
		grid := func(c int) [][]float64 {
			g := make([][]float64, m)
			for i := range g {
				g[i] = make([]float64, c)
				for j := range g[i] {
					if r.Float64() < 0.6 {
						g[i][j] = r.NormFloat64()
					}
				}
			}
			return g
		}
		copied := func(g [][]float64) [][]float64 {
			out := make([][]float64, len(g))
			for i := range g {
				out[i] = append([]float64(nil), g[i]...)
			}
			return out
		}
		a, b := grid(n), grid(k)
		x := leastSquares(copied(a), copied(b))
		for c := range k {
			for j := range n {
				sum := 0.0
				for i := range m {
					res := b[i][c]
					for l := range n {
						res -= a[i][l] * x[l][c]
					}
					sum += res * a[i][j]
				}
				assert.InDelta(t, 0, sum, 1e-9)
			}
		}
	}
}
