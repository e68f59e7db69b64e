package dims

import (
	"math"
	"slices"
)

// settle moves places apart, in order, so that each pair keeps its distance
// and all keep their half width inside the limits. It is the mean of pushing
// everything up and pushing everything down: both keep the distances, and so
// does their mean, in which a crowd opens to both sides alike.
func settle(want, half []float64, between func(i, j int) float64, limits [2]float64) ([]float64, bool) {
	n := len(want)
	up, down := slices.Clone(want), slices.Clone(want)
	pushUp := func(x []float64) {
		for i := range n {
			x[i] = math.Max(x[i], limits[0]+half[i])
			for j := max(0, i-2); j < i; j++ {
				x[i] = math.Max(x[i], x[j]+between(j, i))
			}
		}
	}
	pushDown := func(x []float64) {
		for i := n - 1; i >= 0; i-- {
			x[i] = math.Min(x[i], limits[1]-half[i])
			for j := i + 1; j <= min(n-1, i+2); j++ {
				x[i] = math.Min(x[i], x[j]-between(i, j))
			}
		}
	}
	pushUp(up)
	pushDown(down)
	mean := make([]float64, n)
	for i := range n {
		mean[i] = (up[i] + down[i]) / 2
	}
	pushUp(mean)
	pushDown(mean)
	// Then each goes back toward its line as far as its neighbours let it.
	for range 12 {
		for i := range n {
			lo, hi := limits[0]+half[i], limits[1]-half[i]
			for j := max(0, i-2); j < i; j++ {
				lo = math.Max(lo, mean[j]+between(j, i))
			}
			for j := i + 1; j <= min(n-1, i+2); j++ {
				hi = math.Min(hi, mean[j]-between(i, j))
			}
			mean[i] = math.Max(lo, math.Min(hi, want[i]))
		}
	}
	for i := range n {
		if mean[i] < limits[0]+half[i]-1e-6 {
			return mean, false
		}
	}
	return mean, true
}
