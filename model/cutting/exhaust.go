package cutting

import (
	"cmp"
	"slices"
)

// A hunt goes through whole patterns. At each step it takes the first kind
// that is still wanted and tries every board that holds one of it, as far as
// the waste of the boards (their cost less what the duals say their pieces are
// worth) stays within what a better plan could afford. If it comes to its end
// within its work, there is no better plan.
type hunt struct {
	s      *search
	values []float64
	caps   []float64
	wants  []int
	left   []int
	path   []pattern
	cost   int64
	order  []int // sections, densest first
	dense  []float64
	share  int              // steps for one board
	whole  bool             // nothing was cut short
	seen   map[string]int64 // by what was wanted and left: the cost when it was so
}

// exhaust searches until the plan meets the bound, the work is spent, or all
// is tried, which proves the plan.
func (s *search) exhaust(wants, left []int, root relaxed) {
	h := &hunt{s: s, values: root.values, caps: root.caps, wants: slices.Clone(wants), left: slices.Clone(left), share: s.work / 20, whole: true}
	worth := func(i int) float64 {
		v := 0.0
		for _, e := range s.t.sections[i].counts {
			v += float64(root.values[e.kind] * float64(e.n))
		}
		return v / float64(s.t.sections[i].length+s.t.kerf)
	}
	for i := range s.t.sections {
		h.order = append(h.order, i)
	}
	slices.SortStableFunc(h.order, func(a, b int) int { return cmp.Compare(worth(b), worth(a)) })
	for _, i := range h.order {
		h.dense = append(h.dense, worth(i))
	}
	if !h.cover() {
		h.step()
	}
	if h.whole && s.t.complete && s.found {
		s.low = s.bestCost
	}
}

// rest is the least that what is still wanted costs, by the duals.
func (h *hunt) rest() float64 {
	sum := 0.0
	for k, n := range h.wants {
		sum += float64(h.values[k] * float64(n))
	}
	for k, v := range h.caps {
		if v < 0 {
			sum += float64(v * float64(h.left[k]))
		}
	}
	return sum - 4*better*float64(h.s.bestCost)
}

// spare is what the boards still to come may waste in a plan that is better
// than the best so far.
func (h *hunt) spare() float64 {
	if !h.s.found {
		return float64(h.s.t.sizes[0].cost) * float64(h.s.t.weight)
	}
	return float64(h.s.ladder.below(h.s.bestCost)-h.cost) - h.rest()
}

// step tries every next board.
func (h *hunt) step() {
	if !h.goOn() {
		return
	}
	first := slices.IndexFunc(h.wants, func(n int) bool { return n > 0 })
	for _, c := range h.boards(first) {
		if h.s.done() {
			return
		}
		if c.waste > h.spare() {
			break // sorted: the others waste more
		}
		h.with(c.pattern, h.step)
	}
}

// with takes one board, goes on, and puts it back.
func (h *hunt) with(p pattern, then func()) {
	wants := slices.Clone(h.wants)
	h.path = append(h.path, p)
	h.cost += h.s.t.sizes[p.size].cost
	take(p, h.wants, h.left)
	then()
	h.left[p.size]++
	h.cost -= h.s.t.sizes[p.size].cost
	h.path = h.path[:len(h.path)-1]
	copy(h.wants, wants)
}

// A candidate is a board with what it wastes.
type candidate struct {
	pattern
	waste float64
}

// mostBoards bounds the boards that are tried at one step.
const mostBoards = 400

// boards lists the full boards that hold a piece of a kind and waste no more
// than a better plan could afford, the least wasteful first.
func (h *hunt) boards(first int) []candidate {
	var out []candidate
	for size := range h.s.t.sizes {
		if h.left[size] <= 0 {
			continue
		}
		f := filler{h: h, size: size, first: first, wants: slices.Clone(h.wants), work: min(h.s.work, h.share)}
		f.floor = float64(h.s.t.sizes[size].cost) - h.caps[size] - h.spare()
		f.seed()
		out = append(out, f.out...)
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.waste, b.waste), byCost(a.pattern, b.pattern))
	})
	out = slices.CompactFunc(out, func(a, b candidate) bool {
		return a.size == b.size && slices.Equal(a.counts, b.counts)
	})
	if len(out) > mostBoards {
		h.whole, out = false, out[:mostBoards]
	}
	return out
}

// A filler lists the fillings of one board.
type filler struct {
	h        *hunt
	size     int
	first    int
	wants    []int
	sections []int
	floor    float64 // worth that a filling must have
	work     int
	out      []candidate
}

// seed starts with each section that holds the kind that must be there.
func (f *filler) seed() {
	for at, i := range f.h.order {
		s := f.h.s.t.sections[i]
		holds := slices.ContainsFunc(s.counts, func(e entry) bool { return e.kind == f.first })
		if room := f.h.s.t.sizes[f.size].room; holds && f.h.s.t.holds(s, f.h.s.t.sizes[f.size].width) && s.length+f.h.s.t.kerf <= room {
			f.add(i, func(worth float64) { f.fill(0, at, room-s.length-f.h.s.t.kerf, worth) }, 0)
		}
	}
}

// add puts a section in for the time of then.
func (f *filler) add(i int, then func(worth float64), worth float64) {
	s := f.h.s.t.sections[i]
	var taken [16]int
	undo := taken[:0]
	for _, e := range s.counts {
		n := min(e.n, f.wants[e.kind])
		f.wants[e.kind] -= n
		undo = append(undo, n)
		worth += float64(f.h.values[e.kind] * float64(n))
	}
	f.sections = append(f.sections, i)
	then(worth)
	f.sections = f.sections[:len(f.sections)-1]
	for j, e := range s.counts {
		f.wants[e.kind] += undo[j]
	}
}

// fill goes on with sections from a place in the order. Sections before the
// seed that hold the kind too were seeds themselves.
func (f *filler) fill(from, seed int, room int64, worth float64) {
	full := true
	for at := from; at < len(f.h.order); at++ {
		if f.spend(1); f.work <= 0 {
			f.h.whole = false
			return
		}
		if worth+float64(float64(room)*f.h.dense[at]) < f.floor {
			break
		}
		i := f.h.order[at]
		s := f.h.s.t.sections[i]
		if s.length+f.h.s.t.kerf > room || !f.gives(s, at, seed) || !f.h.s.t.holds(s, f.h.s.t.sizes[f.size].width) {
			continue
		}
		full = false
		f.add(i, func(worth float64) { f.fill(at, seed, room-s.length-f.h.s.t.kerf, worth) }, worth)
	}
	if full && worth >= f.floor {
		f.emit(worth)
	}
}

// spend counts steps of this board and of the whole hunt.
func (f *filler) spend(steps int) {
	f.work -= steps
	f.h.s.work -= steps
}

// gives reports whether a section adds a piece that is wanted and was not a
// seed before this one.
func (f *filler) gives(s section, at, seed int) bool {
	any := false
	for _, e := range s.counts {
		if e.kind == f.first && at < seed {
			return false
		}
		any = any || f.wants[e.kind] > 0
	}
	return any
}

// emit keeps a filling. Keeping and sorting one costs far more than a step.
func (f *filler) emit(worth float64) {
	f.spend(50 + len(f.wants))
	counts := make([]int, len(f.wants))
	for k, n := range f.wants {
		counts[k] = f.h.wants[k] - n
	}
	p := pattern{size: f.size, sections: slices.Clone(f.sections), counts: entries(counts)}
	slices.Sort(p.sections)
	f.out = append(f.out, candidate{p, float64(f.h.s.t.sizes[f.size].cost) - f.h.caps[f.size] - worth})
}
