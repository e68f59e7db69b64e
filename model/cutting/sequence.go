package cutting

import "slices"

// sequential packs board after board, each the best for values that start as
// the wood in a piece. After each round the pieces that ended on wasteful
// boards are valued higher (Belov and Scheithauer 2007, value correction).
func (s *search) sequential(from progress, rounds int) {
	values := make([]float64, len(s.t.kinds))
	for i, k := range s.t.kinds {
		values[i] = s.wood(k)
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
		p, ok := s.next(at.wants, values, floors)
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

// countedWork is the steps to fill one board with pieces counted one by one.
const countedWork = 60_000

// next returns the board that is worth most for its cost.
func (s *search) next(wants []int, values, floors []float64) (pattern, bool) {
	before := s.pricer.steps
	defer func() { s.work -= s.pricer.steps - before }()
	s.pricer.loose = s.loose
	found, _ := s.pricer.find(values, wants, floors)
	s.pricer.loose = 0
	if !s.t.alike() { // else each section is one piece: they are counted already
		for i, p := range found {
			found[i] = s.recount(p, wants, values)
		}
	}
	return s.choose(found, wants, values)
}

// recount returns the board of the same size that is worth most when its pieces
// are counted one by one, as far as the work goes.
func (s *search) recount(p pattern, wants []int, values []float64) pattern {
	worth := 0.0
	for _, e := range p.counts {
		worth += float64(values[e.kind] * float64(min(e.n, wants[e.kind])))
	}
	if q, _, _ := s.pricer.counted(values, wants, p.size, counting{worth * (1 + s.loose), countedWork}); len(q.counts) > 0 {
		return q
	}
	return p
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

// What value correction goes by: how much more the wood of a piece as long as a
// board is worth than that of a short one, so that long pieces go first, and the
// weight of each new value against the old one.
const (
	lift     = 0.1
	newValue = 0.2
)

// wood is what a kind is worth by its size alone.
func (s *search) wood(k kind) float64 {
	share := float64(k.length) / float64(s.t.sizes[0].room)
	wood := float64(k.length+s.t.kerf) / 1e9 * float64(k.width) / float64(s.t.width)
	return wood * (1 + float64(lift*share))
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
		now := s.wood(s.t.kinds[e.kind]) * full / used
		values[e.kind] = float64((1-newValue)*values[e.kind]) + float64(newValue*now)
	}
}
