package cutting

import (
	"cmp"
	"slices"
)

// A search looks for whole boards. It holds the best plan so far and the bound
// that it is measured by.
type search struct {
	t      *task
	pricer *pricer
	ladder *ladder
	work   int

	best     []pattern
	bestCost int64 // weighted
	found    bool
	low      int64 // no plan is cheaper
	pool     []pattern
	share    int // work for the last boards of a dive
}

// closing is how many equal boards are left when a dive tries to fill them by
// trading.
const closing = 12

// pack finds boards for a task: sequential packing for a first plan, the
// linear program for a bound and good patterns, rounding and then a search
// through whole patterns until the plan meets the bound or the work is spent.
func (t *task) pack(work int) *search {
	s := &search{t: t, pricer: &pricer{t: t}}
	wants, left := t.wants(), t.limits()
	if len(t.kinds) == 0 {
		s.found, s.ladder = true, newLadder(t, 0)
		return s
	}
	if t.alike() && s.even(work) {
		return s
	}
	s.work = work / 8
	s.sequential(progress{wants: wants, left: left}, 6)
	l := newMaster(t, wants, left)
	for _, p := range s.pool {
		l.add(p)
	}
	// The bound is worth more work than anything else.
	s.work = 4 * work
	root := l.solve(s.pricer, &s.work)
	s.pool = l.boards(0)
	top := s.bestCost
	if !s.found {
		top = int64(root.bound) * 2
	}
	s.ladder = newLadder(t, top)
	if t.complete {
		s.low = max(s.low, s.ladder.above(root.bound))
	} else {
		s.low = s.ladder.above(max(t.material(), t.breadth(&work)))
	}
	if s.done() || root.short {
		return s
	}
	if t.alike() && s.trade(s.low/t.sizes[0].cost, work/4) {
		return s
	}
	s.work, s.share = work, work/200
	if t.alike() {
		s.work = 2 * work
	}
	s.dives(progress{wants: wants, left: left}, root)
	s.work = work
	if !s.done() {
		s.exhaust(wants, left, root)
	}
	return s
}

// even tries to reach, on boards of one length, a bound that needs no linear
// program, and reports whether the plan is proved.
func (s *search) even(work int) bool {
	low := s.t.dualFeasible()
	s.low = low * s.t.sizes[0].cost
	s.ladder = newLadder(s.t, 2*s.low)
	return s.trade(low, work/20)
}

// trade looks for a plan of n equal boards, and reports whether it is the best
// there can be.
func (s *search) trade(n int64, work int) bool {
	s.finish(progress{wants: s.t.wants()}, n, work)
	return s.done()
}

// finish looks for a plan of n equal boards for what is still wanted, and
// keeps it with the boards that are taken. It returns the work it spent.
func (s *search) finish(at progress, n int64, work int) int {
	left := work
	tr := newTrade(s.t, at.wants, int(n), &left)
	if tr.run() {
		s.keep(append(slices.Clone(at.done), tr.patterns(s.t)...))
	}
	return work - left
}

// done reports whether the plan in hand is the best there can be.
func (s *search) done() bool { return s.found && s.bestCost <= s.low }

// material is the cost of the wood alone: a bound for every way of cutting.
func (t *task) material() float64 {
	area, rate := 0.0, 0.0
	for _, k := range t.kinds {
		area += float64(k.want) * float64(k.length) * float64(k.width)
	}
	for _, s := range t.sizes {
		rate = max(rate, float64(s.room)*float64(t.width)/float64(s.cost))
	}
	return area / rate
}

// keep takes a plan if it is the best so far.
func (s *search) keep(plan []pattern) {
	var cost int64
	for _, p := range plan {
		cost += s.t.sizes[p.size].cost
	}
	if !s.found || cost < s.bestCost {
		s.best, s.bestCost, s.found = slices.Clone(plan), cost, true
	}
}

// A progress is a plan on the way: what is wanted, boards left, boards taken.
type progress struct {
	wants, left []int
	done        []pattern
}

// clone returns a copy that can go another way.
func (p progress) clone() progress {
	return progress{slices.Clone(p.wants), slices.Clone(p.left), slices.Clone(p.done)}
}

// open reports whether pieces are still wanted.
func (p *progress) open() bool {
	return slices.ContainsFunc(p.wants, func(n int) bool { return n > 0 })
}

// can reports whether a board is left for a pattern and all its pieces are wanted.
func (p *progress) can(q pattern) bool { return p.left[q.size] > 0 && fits(q, p.wants) }

// take adds a board.
func (p *progress) take(q pattern) {
	p.done = append(p.done, q)
	take(q, p.wants, p.left)
}

// take removes a pattern's pieces and board from what is wanted and left.
func take(p pattern, wants, left []int) {
	for _, e := range p.counts {
		wants[e.kind] = max(0, wants[e.kind]-e.n)
	}
	left[p.size]--
}

// sequential packs board after board, each the best for values that start as
// the wood in a piece. After each round the pieces that ended on wasteful
// boards are valued higher (Belov and Scheithauer 2007, value correction).
func (s *search) sequential(from progress, rounds int) {
	values := make([]float64, len(s.t.kinds))
	for i, k := range s.t.kinds {
		values[i] = float64(k.length+s.t.kerf) / 1e9 * float64(k.width) / float64(s.t.width)
	}
	for range rounds {
		if s.done() || s.work <= 0 && s.found {
			return
		}
		s.round(from.clone(), values)
	}
}

// round is one pass of sequential; it corrects the values as it goes.
func (s *search) round(at progress, values []float64) {
	floors := make([]float64, len(at.left))
	for at.open() {
		for k := range floors {
			floors[k] = 0
			if at.left[k] <= 0 {
				floors[k] = -1
			}
		}
		before := s.pricer.steps
		found, _ := s.pricer.find(values, at.wants, floors)
		s.work -= s.pricer.steps - before
		p, ok := s.choose(found, at.wants, values)
		if !ok {
			return // the boards that can be had do not suffice
		}
		s.pool = append(s.pool, p)
		s.correct(p, values)
		for at.can(p) {
			at.take(p)
		}
	}
	s.keep(at.done)
}

// fits reports whether all pieces of a pattern are still wanted.
func fits(p pattern, wants []int) bool {
	return !slices.ContainsFunc(p.counts, func(e entry) bool { return wants[e.kind] < e.n })
}

// choose returns the pattern with the most value for its cost; one that ends
// the job is chosen if no other could be cheaper.
func (s *search) choose(found []pattern, wants []int, values []float64) (pattern, bool) {
	total := 0
	for _, n := range wants {
		total += n
	}
	worth := func(p pattern) float64 {
		v := 0.0
		for _, e := range p.counts {
			v += float64(values[e.kind] * float64(min(e.n, wants[e.kind])))
		}
		return v / float64(s.t.sizes[p.size].cost)
	}
	ends := func(p pattern) bool {
		n := 0
		for _, e := range p.counts {
			n += min(e.n, wants[e.kind])
		}
		return n == total
	}
	at, last := -1, -1
	for i, p := range found {
		if ends(p) && (last < 0 || s.t.sizes[p.size].cost < s.t.sizes[found[last].size].cost) {
			last = i
		}
		if at < 0 || worth(p) > worth(found[at]) {
			at = i
		}
	}
	if last >= 0 && (ends(found[at]) || s.t.sizes[found[last].size].cost <= s.t.sizes[found[at].size].cost) {
		at = last
	}
	if at < 0 {
		return pattern{}, false
	}
	p := found[at]
	for i, e := range p.counts {
		p.counts[i].n = min(e.n, wants[e.kind])
	}
	return p, true
}

// correct raises the values of a board's pieces by the wood it wastes.
func (s *search) correct(p pattern, values []float64) {
	used := 0.0
	for _, e := range p.counts {
		k := s.t.kinds[e.kind]
		used += float64(e.n) * float64(k.length+s.t.kerf) * float64(k.width)
	}
	full := float64(s.t.sizes[p.size].room) * float64(s.t.width)
	for _, e := range p.counts {
		k := s.t.kinds[e.kind]
		wood := float64(k.length+s.t.kerf) / 1e9 * float64(k.width) / float64(s.t.width)
		values[e.kind] = float64(0.8*values[e.kind]) + float64(0.2*wood*full/used)
	}
}

// dives follows the linear program down, then turns off at each one of its
// choices, then at each two.
func (s *search) dives(from progress, r relaxed) {
	choices := s.dive(from, r, 0, 0)
	for turn := 1; turn <= choices && s.work > 0 && !s.done(); turn++ {
		s.dive(from, r, turn, turn)
	}
	for second := 2; second <= choices; second++ {
		for first := 1; first < second && s.work > 0 && !s.done(); first++ {
			s.dive(from, r, first, second)
		}
	}
}

// dive rounds the linear program: it takes the whole boards of its answer, or
// else the board it is nearest to, and solves what is left again. At two of
// these choices, counted from 1, it takes the second nearest instead. It returns
// how many there were.
func (s *search) dive(from progress, r relaxed, first, second int) (choices int) {
	at := from.clone()
	for !s.done() && s.work > 0 {
		took := at.roundDown(r.used)
		if !took {
			choices++
			took = at.roundUp(r.used, choices == first || choices == second)
		}
		if !at.open() {
			s.keep(at.done)
			return choices
		}
		if !took {
			return choices
		}
		if n := s.low/s.t.sizes[0].cost - int64(len(at.done)); !s.t.alike() {
			s.sequential(at, 3)
		} else if n > 0 && n <= closing {
			s.work -= s.finish(at, n, s.share)
		}
		l := newMaster(s.t, at.wants, at.left)
		for _, p := range s.pool {
			if fits(p, at.wants) {
				l.add(p)
			}
		}
		l.warm(r.basis)
		known := len(l.cols)
		s.work -= l.m * l.m * l.m / 20
		r = l.solve(s.pricer, &s.work)
		s.pool = append(s.pool, l.boards(known)...)
		if r.short {
			return choices
		}
	}
	return choices
}

// roundDown takes the whole boards of an answer, and reports whether there were any.
func (p *progress) roundDown(used []share) bool {
	took := false
	for _, u := range used {
		for n := int(u.x + 1e-4); n > 0 && p.can(u.pattern); n-- {
			p.take(u.pattern)
			took = true
		}
	}
	return took
}

// roundUp takes the board with the largest part in an answer, or the next, and
// reports whether there was one.
func (p *progress) roundUp(used []share, turn bool) bool {
	at, next := -1, -1
	for i, u := range used {
		switch {
		case p.left[u.size] <= 0:
		case at < 0 || u.x > used[at].x+1e-6:
			at, next = i, at
		case next < 0 || u.x > used[next].x+1e-6:
			next = i
		}
	}
	if turn && next >= 0 {
		at = next
	}
	if at < 0 {
		return false
	}
	p.take(used[at].pattern)
	p.takeLikely(used)
	return true
}

// Of a large plan a dive takes one board in so many at once, as long as they
// make up more than half a board in the answer.
const (
	atOnce = 12
	likely = 0.5
)

// takeLikely takes further boards of an answer, the likeliest first, while much
// is still to be filled.
func (p *progress) takeLikely(used []share) {
	sum := 0.0
	for _, u := range used {
		sum += u.x
	}
	order := slices.Clone(used)
	slices.SortStableFunc(order, func(a, b share) int { return cmp.Compare(b.x, a.x) })
	most := int(sum)/atOnce - 1
	for _, u := range order {
		if most <= 0 || u.x < likely {
			return
		}
		if p.can(u.pattern) {
			p.take(u.pattern)
			most--
		}
	}
}

// byCost orders patterns by size and pieces, for plans that read the same.
func byCost(a, b pattern) int {
	return cmp.Or(cmp.Compare(a.size, b.size), slices.Compare(a.sections, b.sections))
}
