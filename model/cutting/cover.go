package cutting

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// mostPool is how many boards a cover is looked for among.
const mostPool = 12_000

// cover searches like step, among all boards that a better plan could hold at
// all, listed once: it goes on with the kind that the fewest of them have, which
// soon shows when a choice leads nowhere. It reports whether it was tried; too
// many boards are left to step.
func (h *hunt) cover() bool {
	pool, ok := h.pool()
	switch {
	case ok && len(h.wants) <= fewKinds:
		h.seen = map[string]int64{}
		h.through(pool)
	case ok:
		h.among(pool)
	}
	return ok
}

// fewKinds is up to how many kinds what is still wanted is remembered: with few
// kinds many ways lead to the same rest, and only the cheapest is gone on with.
const fewKinds = 14

// through tries the boards of a pool that hold the first kind that is wanted.
func (h *hunt) through(pool []candidate) {
	if !h.goOn() {
		return
	}
	key := h.key()
	if cost, known := h.seen[key]; known && cost <= h.cost {
		h.s.work -= 40
		return
	}
	h.seen[key] = h.cost
	h.s.work -= 100
	active, kind := h.narrow(pool, h.spare())
	if kind < 0 {
		return
	}
	first := slices.IndexFunc(h.wants, func(n int) bool { return n > 0 })
	tries := slices.DeleteFunc(slices.Clone(active), func(c candidate) bool { return !holds(c.pattern, first) })
	slices.SortStableFunc(tries, func(a, b candidate) int { return cmp.Compare(a.waste, b.waste) })
	for _, c := range tries {
		if h.s.done() {
			return
		}
		h.with(c.pattern, func() { h.through(active) })
	}
}

// key writes what is wanted and left.
func (h *hunt) key() string {
	var out []byte
	for _, n := range h.wants {
		out = binary.AppendUvarint(out, uint64(n))
	}
	for _, n := range h.left {
		if n < many/2 {
			out = binary.AppendUvarint(out, uint64(n))
		}
	}
	return string(out)
}

// goOn keeps the plan if nothing is wanted any more, and reports whether a
// better plan can still come of it.
func (h *hunt) goOn() bool {
	if !slices.ContainsFunc(h.wants, func(n int) bool { return n > 0 }) {
		h.s.keep(h.path)
		return false
	}
	if h.s.work <= 0 {
		h.whole = false
		return false
	}
	return h.spare() >= 0 && !(h.s.found && h.s.ladder.above(float64(h.cost)+h.rest()) >= h.s.bestCost)
}

// pool lists the boards that a plan better than the best so far could hold: by
// the first kind on them, those that waste no more than all boards may together.
func (h *hunt) pool() ([]candidate, bool) {
	spare, work := h.spare(), h.s.work
	wants, asked := h.wants, slices.Clone(h.wants)
	h.wants = asked
	defer func() { h.wants = wants }()
	var out []candidate
	for first, n := range wants {
		if n == 0 {
			continue
		}
		for size, s := range h.s.t.sizes {
			if h.left[size] <= 0 {
				continue
			}
			f := filler{h: h, size: size, first: first, wants: slices.Clone(asked), work: work/4 - (work - h.s.work)}
			f.floor = float64(s.cost) - h.caps[size] - spare
			f.seed()
			out = append(out, f.out...)
			if !h.whole || len(out) > mostPool {
				h.whole = true
				return nil, false
			}
		}
		asked[first] = 0
	}
	return out, true
}

// among tries the boards of a pool for the kind that the fewest of them have.
func (h *hunt) among(pool []candidate) {
	if !h.goOn() {
		return
	}
	active, kind := h.narrow(pool, h.spare())
	if kind < 0 {
		return
	}
	var tries []candidate
	var others []candidate
	for _, c := range active {
		if holds(c.pattern, kind) {
			tries = append(tries, c)
		} else {
			others = append(others, c)
		}
	}
	slices.SortStableFunc(tries, func(a, b candidate) int { return cmp.Compare(a.waste, b.waste) })
	// A board that was tried is not needed again: any plan with it was found.
	for i, c := range tries {
		if h.s.done() {
			return
		}
		h.with(c.pattern, func() { h.among(slices.Concat(tries[i:], others)) })
	}
}

// narrow leaves the boards that still waste little enough, with what they waste
// now, and says which kind has the fewest of them; -1 if some kind has none.
func (h *hunt) narrow(pool []candidate, spare float64) ([]candidate, int) {
	have := make([]int, len(h.wants))
	var out []candidate
	for _, c := range pool {
		c.waste = float64(h.s.t.sizes[c.size].cost) - h.caps[c.size]
		for _, e := range c.counts {
			c.waste -= float64(h.values[e.kind] * float64(min(e.n, h.wants[e.kind])))
		}
		if h.left[c.size] <= 0 || c.waste > spare {
			continue
		}
		out = append(out, c)
		for _, e := range c.counts {
			have[e.kind]++
		}
	}
	h.s.work -= 4*len(pool) + 8*len(out)
	best := -1
	for k, n := range h.wants {
		if n > 0 && (best < 0 || have[k] < have[best]) {
			best = k
		}
	}
	if have[best] == 0 {
		return nil, -1
	}
	return out, best
}

// holds reports whether a pattern has a piece of a kind.
func holds(p pattern, kind int) bool {
	return slices.ContainsFunc(p.counts, func(e entry) bool { return e.kind == kind })
}
