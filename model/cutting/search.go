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
	share    int     // work for the last boards of a dive
	loose    float64 // what sequential may miss, as a share of a board's worth
}

// closing is how many equal boards are left when a dive tries to fill them by
// trading.
const closing = 12

// pack finds boards for a task: sequential packing for a first plan, the
// linear program for a bound and good patterns, rounding and then a search
// through whole patterns until the plan meets the bound or the work is spent.
func (t *task) pack(work int) *search {
	s := &search{t: t, pricer: &pricer{t: t}}
	if len(t.kinds) == 0 || !t.possible() {
		s.found, s.ladder = len(t.kinds) == 0, newLadder(t, 0)
		return s
	}
	if t.alike() && s.even(work) {
		return s
	}
	from := progress{wants: t.wants(), left: t.limits()}
	s.first(from, work)
	l := newMaster(t, from.wants, from.left)
	for _, p := range s.pool {
		l.add(p)
	}
	root := s.root(l, work)
	if s.done() || root.short {
		return s
	}
	if t.alike() {
		root = s.follow(l, from, root, work)
	}
	s.wide(from, root, work)
	return s
}

// How the sequential packing is done: rounds, and the share of a board's worth
// that is not searched for. With rips a round gains more, as its boards are
// filled with pieces counted one by one.
const (
	evenRounds, evenLoose     = 12, 0.0002
	rippedRounds, rippedLoose = 40, 0.002
)

// first makes the first plan.
func (s *search) first(from progress, work int) {
	if s.t.alike() {
		s.work, s.loose = work/2, evenLoose
		s.sequential(from, evenRounds)
		return
	}
	s.work, s.loose = work/2, rippedLoose
	s.sequential(from, rippedRounds)
}

// root solves the linear program for the whole task and sets the bound by it.
// The bound is worth more work than anything else, unless it does not count:
// where not all sections are listed, that of breadth does.
func (s *search) root(l *master, work int) relaxed {
	t, even := s.t, s.low
	if s.found {
		l.ladder, l.low = newLadder(t, s.bestCost), s.low
	}
	s.work = 4 * work
	if !t.complete {
		s.work = work / 2
	}
	root := l.solve(s.pricer, &s.work)
	s.pool = l.boards(0)
	s.ladder = l.ladder
	if !s.found {
		s.ladder = newLadder(t, int64(root.bound)*2)
	}
	if t.complete {
		s.low = max(s.low, s.ladder.above(root.bound))
	} else {
		s.low = s.ladder.above(max(t.material(), t.breadth(&work)))
	}
	if t.alike() && s.low > even && !s.done() && !root.short {
		s.trade(s.low/t.sizes[0].cost, work/20)
	}
	return root
}

// follow goes down from a program that was solved only as far as whole boards
// need it, and if that does not do, solves it to its end.
func (s *search) follow(l *master, from progress, root relaxed, work int) relaxed {
	s.work, s.share = 2*work, work/200
	s.dive(from, root, 0, 0)
	if s.done() {
		return root
	}
	l.ladder, s.work = nil, 4*work
	root = l.solve(s.pricer, &s.work)
	s.low = max(s.low, s.ladder.above(root.bound))
	return root
}

// likelyProved is up to how many pieces with rips a plan is likely to be proved
// with more work.
const likelyProved = 64

// wide goes through boards one by one and follows the linear program down, in
// turn, with more and more work: what is short is found before what is long.
func (s *search) wide(from progress, root relaxed, work int) {
	parts := []int{40, 8, 1}
	switch pieces := s.t.weight - 1; {
	case s.t.alike():
		work *= 2
	case len(s.t.sections) > len(s.t.kinds) && pieces > likelyProved:
		parts = parts[:1]
	case len(s.t.sections) > len(s.t.kinds):
		parts = parts[:2]
	}
	for _, part := range parts {
		if s.done() {
			return
		}
		s.work = work / part
		s.exhaust(from.wants, from.left, root)
		if s.done() {
			return
		}
		s.work, s.share = work/part, work/part/200
		s.dives(from, root)
	}
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
		l.ladder, l.low = s.ladder, s.low
		for _, p := range at.done {
			l.spent += s.t.sizes[p.size].cost
		}
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
	atOnce = 8
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
