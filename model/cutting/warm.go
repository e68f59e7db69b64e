package cutting

import "math"

// warm starts the program from the columns that the answer of a larger program
// stood on, best first: as many as are independent go straight into the basis.
// What they make negative is mended with uncovered pieces; if that does not
// come to an end the program starts from nothing, as it was.
func (l *master) warm(basis []pattern) {
	if len(basis) == 0 || len(l.rows) < l.m {
		return
	}
	open := make([]bool, l.m)
	for i := range open {
		open[i] = true
	}
	for _, p := range basis {
		member, ok := l.find(p)
		if !ok {
			continue
		}
		u := l.along(member)
		at := -1
		for i, v := range u {
			if open[i] && math.Abs(v) > 1e-3 && (at < 0 || math.Abs(v) > math.Abs(u[at])) {
				at = i
			}
		}
		if at >= 0 {
			open[at] = false
			l.basis[at] = member
			l.pivot(u, at)
		}
	}
	if !l.mend() {
		l.cold()
	}
}

// find returns the column of a pattern of another program of the same task.
func (l *master) find(p pattern) (int, bool) {
	if p.size != swapped {
		n := len(l.cols)
		l.add(p)
		return n, len(l.cols) > n
	}
	for j, c := range l.cols {
		if c.size == swapped && c.counts[0].kind == p.counts[0].kind {
			return j, true
		}
	}
	return 0, false
}

// along returns a column in terms of the basis.
func (l *master) along(member int) []float64 {
	u := make([]float64, l.m)
	l.each(member, func(row int, a float64) {
		for i := range u {
			u[i] += float64(a * l.inv[i*l.m+row])
		}
	})
	return u
}

// mend makes the values of the basis positive: a negative one leaves for an
// uncovered piece, or for one piece too many.
func (l *master) mend() bool {
	for range 2 * l.m {
		l.values()
		worst := -1
		for i, x := range l.x {
			if x < -1e-9 && (worst < 0 || x < l.x[worst]) {
				worst = i
			}
		}
		if worst < 0 {
			return true
		}
		row := l.inv[worst*l.m : (worst+1)*l.m]
		at := -1
		for r, v := range row {
			if v < -1e-6 && (at < 0 || v < row[at]) {
				at = r
			}
		}
		if at < 0 {
			return false
		}
		u := l.along(l.artificial(at))
		l.basis[worst] = l.artificial(at)
		l.pivot(u, worst)
	}
	return false
}

// values works the values of the basis out from the right-hand side.
func (l *master) values() {
	for i := range l.m {
		l.x[i] = 0
		for j, v := range l.right {
			l.x[i] += float64(l.inv[i*l.m+j] * v)
		}
	}
}

// cold puts the program on uncovered pieces alone.
func (l *master) cold() {
	clear(l.inv)
	for r := range l.m {
		l.inv[r*l.m+r] = 1
		l.basis[r] = l.artificial(r)
		if r >= len(l.rows) {
			l.basis[r] = l.slack(r)
		}
	}
	l.x = append(l.x[:0], l.right...)
}
