package cutting

import (
	"math"
	"slices"
)

// A master is the linear program over patterns: cover every piece at least
// cost, with no more boards of a size than can be had. Patterns are found when
// they are needed (Gilmore and Gomory 1961). It is a revised simplex with a
// full inverse of the basis; rows are the kinds that are wanted and then the
// sizes with a limit.
type master struct {
	t      *task
	wants  []int
	rows   []int // kind of each demand row
	limits []int // size of each limit row
	rowOf  []int // by kind, -1 if none is wanted
	capOf  []int // by size, -1 if it has no limit
	left   []int // boards left by size

	cols   []pattern
	scale  float64 // cost of the dearest board: the program's costs are up to 1
	m      int
	right  []float64 // the right-hand side, perturbed
	inv    []float64 // m by m
	basis  []int     // a column; or slack(row); or artificial(row)
	x      []float64 // values of the basis
	y      []float64 // duals
	since  int       // pivots since the inverse was made afresh
	strict bool      // exchanges are ruled out
	ladder *ladder   // costs that boards can add up to; nil if not known
	spent  int64     // cost of boards that are taken already
	low    int64     // a bound known from elsewhere, for these boards and those taken
	some   []int32   // columns of a pivot's row that are not zero
	steep  []float64 // by column: how long its edge is, squared (Devex)
	steepS []float64 // the same of the slacks
}

// swapped marks a column that is no board but an exchange: a larger piece cut
// down to a smaller one, at no cost. Exchanges change neither the least cost nor
// any plan, but they keep the value of a piece from falling below that of a
// smaller one, and the program settles in far fewer steps (Valério de Carvalho
// 2005). At the end they are priced out.
const swapped = -1

// Basis members that are not patterns are negative numbers.
func (l *master) slack(row int) int      { return -1 - row }
func (l *master) artificial(row int) int { return -1 - l.m - row }

const (
	pivotTol   = 1e-9
	costTol    = 1e-9
	nudge      = 1e-7 // perturbation of the right-hand side against stalling
	missing    = 1e3  // cost of an uncovered piece, in dearest boards
	refreshed  = 500  // pivots between fresh inverses
	mostPivots = 20_000
)

// newMaster makes the program for what is wanted and left, with a start from
// uncovered pieces.
func newMaster(t *task, wants, left []int) *master {
	l := &master{t: t, wants: wants, left: left, rowOf: make([]int, len(wants)), capOf: make([]int, len(left))}
	for k, n := range wants {
		l.rowOf[k] = -1
		if n > 0 {
			l.rowOf[k] = len(l.rows)
			l.rows = append(l.rows, k)
		}
	}
	l.m = len(l.rows)
	for k, s := range t.sizes {
		l.scale = max(l.scale, float64(s.cost))
		l.capOf[k] = -1
		if left[k] < many/2 {
			l.capOf[k] = l.m
			l.limits = append(l.limits, k)
			l.m++
		}
	}
	l.right = make([]float64, l.m)
	for r := range l.right {
		_, part := math.Modf(float64(r+1) * 0.6180339887)
		l.right[r] = nudge * (1 + part)
		if r < len(l.rows) {
			l.right[r] += float64(wants[l.rows[r]])
			l.basis = append(l.basis, l.artificial(r))
		} else {
			l.right[r] += float64(left[l.limits[r-len(l.rows)]])
			l.basis = append(l.basis, l.slack(r))
		}
	}
	l.inv = make([]float64, l.m*l.m)
	for r := range l.m {
		l.inv[r*l.m+r] = 1
	}
	l.exchange()
	l.x = slices.Clone(l.right)
	l.y = make([]float64, l.m)
	l.steepS = make([]float64, l.m)
	for r := range l.steepS {
		l.steepS[r] = 1
	}
	return l
}

// exchange adds, for each kind, the change into the next smaller one.
func (l *master) exchange() {
	for a, k := range l.rows {
		for _, j := range l.rows[a+1:] { // kinds are sorted long to short
			if l.t.kinds[j].width <= l.t.kinds[k].width {
				l.cols = append(l.cols, pattern{size: swapped, counts: []entry{{k, -1}, {j, 1}}})
				break
			}
		}
	}
}

// add puts a pattern among the columns, with no more of a kind than is wanted.
func (l *master) add(p pattern) {
	q := pattern{size: p.size, sections: p.sections}
	for _, e := range p.counts {
		if n := min(e.n, l.wants[e.kind]); n > 0 {
			q.counts = append(q.counts, entry{e.kind, n})
		}
	}
	if len(q.counts) > 0 {
		l.cols = append(l.cols, q)
	}
}

// cost returns what a member of the basis costs.
func (l *master) cost(member int) float64 {
	switch {
	case member >= 0 && l.cols[member].size == swapped:
		if l.strict {
			return missing
		}
		return 0
	case member >= 0:
		return float64(l.t.sizes[l.cols[member].size].cost) / l.scale
	case member < -l.m:
		return missing
	}
	return 0
}

// each calls f with the entries of a column.
func (l *master) each(member int, f func(row int, a float64)) {
	switch {
	case member < -l.m:
		f(-1-l.m-member, 1)
	case member < 0:
		if row := -1 - member; row < len(l.rows) {
			f(row, -1)
		} else {
			f(row, 1)
		}
	default:
		c := l.cols[member]
		for _, e := range c.counts {
			if r := l.rowOf[e.kind]; r >= 0 {
				f(r, float64(e.n))
			}
		}
		if c.size == swapped {
			return
		}
		if r := l.capOf[c.size]; r >= 0 {
			f(r, 1)
		}
	}
}

// price returns the reduced cost of a column.
func (l *master) price(member int) float64 {
	d := l.cost(member)
	l.each(member, func(row int, a float64) { d -= float64(a * l.y[row]) })
	return d
}

// duals works out the duals of the basis.
func (l *master) duals() {
	clear(l.y)
	for i, b := range l.basis {
		c := l.cost(b)
		if c == 0 {
			continue
		}
		row := l.inv[i*l.m : (i+1)*l.m]
		for j, v := range row {
			l.y[j] += float64(c * v)
		}
	}
}

// entering returns the known column that gains most, and whether one gains.
func (l *master) entering() (int, bool) {
	best, at := 0.0, 0
	for len(l.steep) < len(l.cols) {
		l.steep = append(l.steep, 1)
	}
	for r := range l.m {
		if d := l.price(l.slack(r)); d < -costTol && d*d > best*l.steepS[r] {
			best, at = d*d/l.steepS[r], l.slack(r)
		}
	}
	for j := range l.cols {
		if d := l.price(j); d < -costTol && d*d > best*l.steep[j] {
			best, at = d*d/l.steep[j], j
		}
	}
	return at, best > 0
}

// enter pivots a column into the basis.
func (l *master) enter(member int) {
	u := l.along(member)
	out, least := -1, math.Inf(1)
	for i, v := range u {
		if v <= pivotTol {
			continue
		}
		ratio := l.x[i] / v
		if ratio < least-pivotTol || ratio < least+pivotTol && v > u[out] {
			out, least = i, ratio
		}
	}
	if out < 0 {
		return // cannot happen: costs are not negative
	}
	l.lengthen(member, out, u[out])
	d := l.price(member) / u[out]
	for j, v := range l.inv[out*l.m : (out+1)*l.m] {
		l.y[j] += float64(d * v)
	}
	l.basis[out] = member
	l.since++
	if l.since >= refreshed && l.refresh() {
		l.duals()
		return
	}
	l.pivot(u, out)
}

// lengthen updates the edges for a pivot (Harris 1973), before it is made.
func (l *master) lengthen(member, out int, pivot float64) {
	row := l.inv[out*l.m : (out+1)*l.m]
	edge := l.edge(member)
	if edge == nil {
		return
	}
	w := *edge / (pivot * pivot)
	along := func(j int) float64 {
		a := 0.0
		l.each(j, func(r int, v float64) { a += float64(v * row[r]) })
		return a
	}
	for r := range l.m {
		a := along(l.slack(r))
		l.steepS[r] = max(l.steepS[r], float64(a*a)*w)
	}
	for j := range l.steep {
		a := along(j)
		l.steep[j] = max(l.steep[j], float64(a*a)*w)
	}
	if e := l.edge(l.basis[out]); e != nil {
		*e = max(w, 1)
	}
}

// edge is where the length of a member's edge is kept; an artificial has none.
func (l *master) edge(member int) *float64 {
	switch {
	case member >= 0:
		return &l.steep[member]
	case member >= -l.m:
		return &l.steepS[-1-member]
	}
	return nil
}

// pivot updates the inverse and the values for a column u entering at a row.
func (l *master) pivot(u []float64, out int) {
	m := l.m
	pivot := l.inv[out*m : (out+1)*m]
	l.some = l.some[:0]
	for j, p := range pivot {
		if p != 0 {
			pivot[j] = p / u[out]
			l.some = append(l.some, int32(j))
		}
	}
	sparse := len(l.some) < m/3
	l.x[out] /= u[out]
	for i, v := range u {
		if i == out || v == 0 {
			continue
		}
		row := l.inv[i*m : (i+1)*m]
		if sparse {
			for _, j := range l.some {
				row[j] -= float64(v * pivot[j])
			}
		} else {
			for j, p := range pivot {
				row[j] -= float64(v * p)
			}
		}
		l.x[i] = max(0, l.x[i]-float64(v*l.x[out]))
	}
}

// refresh makes the inverse anew from the basis, against creeping error. It
// reports false, and changes nothing, if the basis is too near singular.
func (l *master) refresh() bool {
	m := l.m
	a := make([]float64, m*m)
	for j, b := range l.basis {
		l.each(b, func(row int, v float64) { a[row*m+j] += v })
	}
	inv := make([]float64, m*m)
	for i := range m {
		inv[i*m+i] = 1
	}
	if !invert(a, inv, m) {
		return false
	}
	l.inv, l.since = inv, 0
	l.values()
	for i, x := range l.x {
		l.x[i] = max(0, x)
	}
	return true
}

// boards returns the patterns among the columns from a place on.
func (l *master) boards(from int) []pattern {
	return slices.DeleteFunc(slices.Clone(l.cols[from:]), func(p pattern) bool { return p.size == swapped })
}
