package cutting

import "math"

// invert turns a into the unit matrix and inv, which starts as the unit
// matrix, into its inverse; it reports false if a pivot is too small.
func invert(a, inv []float64, m int) bool {
	for c := range m {
		best := c
		for r := c + 1; r < m; r++ {
			if math.Abs(a[r*m+c]) > math.Abs(a[best*m+c]) {
				best = r
			}
		}
		if math.Abs(a[best*m+c]) < 1e-11 {
			return false
		}
		swapRows(a, c, best, m)
		swapRows(inv, c, best, m)
		scale := 1 / a[c*m+c]
		for j := range m {
			a[c*m+j] *= scale
			inv[c*m+j] *= scale
		}
		for r := range m {
			if f := a[r*m+c]; r != c && f != 0 {
				addRow(a, r, c, -f, m)
				addRow(inv, r, c, -f, m)
			}
		}
	}
	return true
}

func swapRows(a []float64, r, s, m int) {
	if r == s {
		return
	}
	for j := range m {
		a[r*m+j], a[s*m+j] = a[s*m+j], a[r*m+j]
	}
}

func addRow(a []float64, to, from int, f float64, m int) {
	x, y := a[to*m:(to+1)*m], a[from*m:(from+1)*m]
	for j, v := range y {
		x[j] += float64(f * v)
	}
}
