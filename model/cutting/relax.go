package cutting

import (
	"cmp"
	"slices"
)

// A relaxed is the answer of the linear program.
type relaxed struct {
	used   []share // patterns in the answer
	values []float64
	caps   []float64 // dual of each size's limit, not positive
	bound  float64   // cost that no plan beats
	short  bool      // pieces cannot all be covered
	basis  []pattern // the columns it stands on, the most used first
}

// stands lists the columns of the basis, the most used first.
func (l *master) stands() []pattern {
	var order []int
	for i, b := range l.basis {
		if b >= 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(l.x[j], l.x[i]) })
	var out []pattern
	for _, i := range order {
		out = append(out, l.cols[l.basis[i]])
	}
	return out
}

// A share is a pattern and how often the answer uses it.
type share struct {
	pattern
	x float64
}

// solve runs the program to its end, until no whole boards lie between its
// bound and its cost, or until the work is spent, which it counts down.
func (l *master) solve(p *pricer, work *int) relaxed {
	floors, values, caps := make([]float64, len(l.t.sizes)), make([]float64, len(l.t.kinds)), make([]float64, len(l.t.sizes))
	var best relaxed // the best proof so far
	l.duals()
	for turns, priced := 0, true; turns < mostPivots; turns++ {
		if at, gains := l.entering(); gains {
			l.enter(at)
			*work -= l.m*l.m/5 + len(l.cols)
			continue
		}
		if !priced {
			break
		}
		l.spread(values, caps, floors)
		before := p.steps
		found, tops := p.find(values, l.wants, floors)
		*work -= p.steps - before
		if proof := l.proof(values, caps, overpriced(tops, floors)); best.values == nil || proof.bound > best.bound {
			best = proof
		}
		settled := len(found) == 0 || *work <= 0 || l.settled(best.bound)
		if settled && l.strict {
			break
		}
		if settled {
			l.strict, priced = true, *work > 0
			l.duals()
		}
		l.cols = append(l.cols, found...)
	}
	return l.answer(best)
}

// settled reports whether the bound, in whole boards, is as high as the
// program's cost: further patterns could not lift it.
func (l *master) settled(bound float64) bool {
	if l.ladder == nil {
		return false
	}
	cost := 0.0
	for i, b := range l.basis {
		cost += float64(l.cost(b) * l.x[i])
	}
	spent := float64(l.spent)
	low := max(l.low, l.ladder.above(spent+bound))
	return low >= l.ladder.above(spent+float64(cost*l.scale)*(1-1e-6))
}

// overpriced returns how far the values are from being a proof: how many times
// its cost the most overpriced pattern is worth, at least 1.
func overpriced(tops, floors []float64) float64 {
	over := 1.0
	for k, top := range tops {
		if floors[k] > 0 {
			over = max(over, top/floors[k])
		}
	}
	return over
}

// spread hands the duals out to kinds and sizes; a floor is what a pattern of
// that size must be worth to gain.
func (l *master) spread(values, caps, floors []float64) {
	clear(values)
	for r, k := range l.rows {
		values[k] = max(0, l.y[r])
	}
	for k, s := range l.t.sizes {
		caps[k] = 0
		if r := l.capOf[k]; r >= 0 {
			caps[k] = min(0, l.y[r])
		}
		floors[k] = float64(s.cost)/l.scale - caps[k]
		if l.left[k] == 0 {
			floors[k] = -1
		}
	}
}

// proof turns values into a bound that holds whatever the state of the program:
// values that overprice some pattern are scaled down until they do not (Farley
// 1990).
func (l *master) proof(values, caps []float64, over float64) relaxed {
	r := relaxed{values: slices.Clone(values), caps: slices.Clone(caps)}
	sum := 0.0
	for k, v := range values {
		sum += float64(v * float64(l.wants[k]))
	}
	for k, v := range caps {
		if v < 0 {
			sum += float64(v * float64(l.left[k]))
		}
	}
	over *= 1 + 1e-12
	for k := range r.values {
		r.values[k] *= l.scale / over
	}
	for k := range r.caps {
		r.caps[k] *= l.scale / over
	}
	// The pricer may miss as much as better a pattern, and better a piece.
	r.bound = max(0, sum*l.scale/over-2*better*l.scale*float64(l.t.weight))
	return r
}

// answer reads the basis, beside a proof.
func (l *master) answer(r relaxed) relaxed {
	if r.values == nil {
		r.values, r.caps = make([]float64, len(l.t.kinds)), make([]float64, len(l.t.sizes))
	}
	r.basis = l.stands()
	for i, b := range l.basis {
		switch {
		case b >= 0 && l.cols[b].size == swapped:
		case b >= 0 && l.x[i] > 1e-5:
			r.used = append(r.used, share{l.cols[b], l.x[i]})
		case b < -l.m && l.x[i] > 1e-3:
			r.short = true
		}
	}
	return r
}
