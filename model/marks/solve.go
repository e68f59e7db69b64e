package marks

import "math"

// leastSquares returns the x for which a·x comes nearest to each column of b,
// by Householder reflections. a has at least as many rows as columns and is
// overwritten, as is b; every row of b has one number for each right-hand side.
// The result has a row for each column of a.
func leastSquares(a, b [][]float64) [][]float64 {
	m, n := len(a), len(a[0])
	for k := range n {
		reflect(a, b, k, m)
	}
	x := make([][]float64, n)
	for i := n - 1; i >= 0; i-- {
		x[i] = b[i]
		for j := i + 1; j < n; j++ {
			if r := a[i][j]; r != 0 {
				for c := range x[i] {
					x[i][c] -= r * x[j][c]
				}
			}
		}
		for c := range x[i] {
			x[i][c] /= a[i][i]
		}
	}
	return x
}

// reflect clears column k below the diagonal.
func reflect(a, b [][]float64, k, m int) {
	norm := 0.0
	for i := k; i < m; i++ {
		norm += a[i][k] * a[i][k]
	}
	norm = math.Sqrt(norm)
	if norm == 0 {
		return
	}
	if a[k][k] > 0 {
		norm = -norm
	}
	v := make([]float64, m-k)
	for i := k; i < m; i++ {
		v[i-k] = a[i][k]
	}
	v[0] -= norm
	vv := 0.0
	for _, x := range v {
		vv += x * x
	}
	mirror := func(rows [][]float64, from, to int) {
		dot := make([]float64, to-from)
		for i, x := range v {
			if x == 0 {
				continue
			}
			for c, y := range rows[k+i][from:to] {
				dot[c] += x * y
			}
		}
		for i, x := range v {
			if x == 0 {
				continue
			}
			row := rows[k+i][from:to]
			for c := range row {
				row[c] -= 2 * x / vv * dot[c]
			}
		}
	}
	mirror(a, k, len(a[k]))
	mirror(b, 0, len(b[k]))
}
