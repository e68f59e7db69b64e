package cutting

import "math"

// dualFeasible is a bound for a task of full-width pieces and boards of one
// length, in boards, without a linear program: lengths are exchanged for others
// in such a way that whatever fitted a board still does (dual feasible
// functions: Fekete and Schepers 2001), and the sum of the new lengths, in
// boards, is rounded up. The best of many such exchanges counts.
func (t *task) dualFeasible() int64 {
	room := float64(t.sizes[0].room)
	x := make([]float64, len(t.kinds))
	for i, k := range t.kinds {
		x[i] = float64(k.length+t.kerf) / room
	}
	best := 0.0
	try := func(f func(float64) float64) {
		sum := 0.0
		for i, k := range t.kinds {
			sum += float64(f(x[i]) * float64(k.want))
		}
		best = max(best, sum)
	}
	try(func(x float64) float64 { return x })
	for _, e := range x {
		if e > 0.5 {
			continue
		}
		try(func(x float64) float64 { return coarse(x, e) })
		for k := 1.0; k <= 6; k++ {
			try(func(x float64) float64 { return steps(drop(x, e), k) })
		}
		try(func(x float64) float64 { return drop(x, e) })
	}
	return int64(math.Ceil(best - 1e-6))
}

// drop is the exchange that leaves small pieces out, and takes a whole board
// for one beside which they alone would fit.
func drop(x, e float64) float64 {
	switch {
	case x > 1-e:
		return 1
	case x >= e:
		return x
	}
	return 0
}

// steps is the exchange into k equal steps; a length on a step stays.
func steps(x, k float64) float64 {
	s := x * (k + 1)
	if math.Abs(s-math.Round(s)) < 1e-9 {
		return x
	}
	return math.Floor(s) / k
}

// coarse is the exchange into multiples of a small length, rounded down under
// half a board and up over it.
func coarse(x, e float64) float64 {
	n := math.Floor(1 / e)
	switch {
	case x > 0.5+1e-12:
		return 1 - math.Floor((1-x)/e)/n
	case x < 0.5-1e-12:
		return math.Floor(x/e) / n
	}
	return 0.5
}
