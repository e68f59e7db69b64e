package marks

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A least-squares solution leaves a residual that is square to every column of
// the rows and of the slack together.
func TestResidualIsSquareToTheColumns(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for _, size := range [][3]int{{3, 3, 1}, {9, 4, 2}, {40, 18, 5}, {6, 12, 2}} {
		m, n, sides := size[0], size[1], size[2]
		eq := newNormal(n, sides)
		var rows [][]float64
		var right [][]float64
		for range m {
			row := make([]float64, n)
			var entries []entry
			for j := range n {
				if r.Float64() < 0.4 {
					row[j] = r.NormFloat64()
					entries = append(entries, entry{j, row[j]})
				}
			}
			b := make([]float64, sides)
			for c := range b {
				b[c] = r.NormFloat64()
			}
			eq.add(entries, b)
			rows, right = append(rows, row), append(right, b)
		}
		x := eq.solve()
		for c := range sides {
			for j := range n {
				sum := -slack * slack * x[j][c]
				for i := range rows {
					res := right[i][c]
					for l, a := range rows[i] {
						res -= a * x[l][c]
					}
					sum += res * rows[i][j]
				}
				assert.InDelta(t, 0, sum, 1e-6)
			}
		}
	}
}
