package cutting

import (
	"math"
	"slices"
)

// A pattern is one board filled with sections.
type pattern struct {
	size     int
	sections []int   // index into the task, one for each section
	counts   []entry // pieces by kind, rising
}

// A pricer finds, for given values of the pieces, the most valuable pattern of
// each board size. It lists the states (length used, value) that no other
// state beats, section by section (Nemhauser and Ullmann 1969), and drops those
// that even the best remaining value a length could not lift over what is
// already found. It keeps its buffers from call to call.
type pricer struct {
	t     *task
	items []item
	list  []state
	next  []state
	arena []node
	best  []float64 // by size
	tails []tail    // by item: what it and those after it are like
	finds []find    // states that were the best of their size so far
	only  int       // the one size that is priced, -1 if there are several
	steps int       // states looked at since the pricer was made
	loose float64   // share of a board's greatest worth that is not worth searching for
	slack float64   // the same as a value
}

// A find is a state that was the best of a size when it was found.
type find struct {
	size int
	state
}

// mostFinds is how many patterns of one size a call returns at most: the best,
// and those that were the best before it.
const mostFinds = 2

// An item is a section with its value and the most copies of it.
type item struct {
	section int
	length  int64 // with one kerf
	value   float64
	density float64
	copies  int
}

type state struct {
	used  int64
	value float64
	last  int32 // index into the arena, -1 for the empty board
}

type node struct{ before, item int32 }

// better is how much a value must gain to count: duals carry rounding errors.
const better = 1e-9

// find returns the best pattern of each size whose value is over the floor of
// that size, and for each size a value that no pattern beats. wants are the
// pieces still wanted; a section counts only those. A size with a negative
// floor is left out.
func (p *pricer) find(values []float64, wants []int, floors []float64) ([]pattern, []float64) {
	if p.t.grower != nil {
		p.steps += p.t.grower.grow(p.t, values, wants)
	}
	if len(p.t.widths) == 1 {
		return p.fill(values, wants, floors, p.t.width)
	}
	var found []pattern
	tops, own := slices.Clone(floors), make([]float64, len(floors))
	for _, width := range p.t.widths {
		for k, s := range p.t.sizes {
			own[k] = -1
			if s.width == width {
				own[k] = floors[k]
			}
		}
		more, best := p.fill(values, wants, own, width)
		found = append(found, more...)
		for k, s := range p.t.sizes {
			if s.width == width {
				tops[k] = best[k]
			}
		}
	}
	return found, tops
}

// fill is find for the boards of one width; the floors of others are negative.
func (p *pricer) fill(values []float64, wants []int, floors []float64, width int64) ([]pattern, []float64) {
	p.best = append(p.best[:0], floors...)
	p.finds, p.only = p.finds[:0], onlySize(floors)
	p.load(values, wants, width)
	p.arena = p.arena[:0]
	p.list = append(p.list[:0], state{0, 0, -1})
	p.measure()
	for i := range p.items {
		p.drop(int32(i))
		for range p.items[i].copies {
			if !p.extend(int32(i)) {
				break
			}
		}
	}
	p.steps += 6*len(p.t.sections) + 100
	var found []pattern
	for k := range p.t.sizes {
		n := 0
		for i := len(p.finds) - 1; i >= 0 && n < mostFinds; i-- {
			if f := p.finds[i]; f.size == k && f.value > floors[k]+better {
				found = append(found, p.pattern(k, f.state, wants))
				n++
			}
		}
	}
	return found, slices.Clone(p.best)
}

// onlySize returns the size that has a floor, if it is the only one.
func onlySize(floors []float64) int {
	only := -1
	for k, f := range floors {
		if f >= 0 && only >= 0 {
			return -1
		}
		if f >= 0 {
			only = k
		}
	}
	return only
}

// longest returns the room of the longest board of a width that is priced.
func (p *pricer) longest(width int64) int64 {
	room := int64(0)
	for k, s := range p.t.sizes {
		if s.width == width && p.best[k] >= 0 {
			room = max(room, s.room)
		}
	}
	return room
}

// A tail is what the items from one on are like.
type tail struct {
	short   int64   // the shortest
	most    float64 // the most valuable
	density float64 // the densest, which is the first
}

// measure works out the tails of the items.
func (p *pricer) measure() {
	p.tails = append(p.tails[:0], make([]tail, len(p.items))...)
	short, most := int64(math.MaxInt64/4), 0.0
	for i := len(p.items) - 1; i >= 0; i-- {
		short, most = min(short, p.items[i].length), max(most, p.items[i].value)
		p.tails[i] = tail{short, most, p.items[i].density}
	}
}

// hope reports whether a state can still beat what is found for some size with
// the items from i on. What is shorter than every item stays empty; for the rest
// the items count by their density, or one by one while only few of them fit.
func (p *pricer) hope(used int64, value float64, i int32) bool {
	if p.only >= 0 {
		return p.reach(p.t.sizes[p.only].room-used, p.best[p.only]-value, &p.tails[i])
	}
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && p.reach(s.room-used, p.best[k]-value, &p.tails[i]) {
			return true
		}
	}
	return false
}

// reach reports whether a tail of the items is worth more than some value on a
// length.
func (p *pricer) reach(rest int64, value float64, t *tail) bool {
	switch {
	case rest < t.short:
		return false
	case rest < 2*t.short:
		return t.most > value+p.slack
	case rest < 3*t.short && float64(2*t.most) <= value+p.slack:
		return false
	}
	return float64(float64(rest)*t.density) > value+p.slack
}

// drop removes the states without hope.
func (p *pricer) drop(item int32) {
	p.steps += len(p.list)
	kept := p.list[:0]
	for i, st := range p.list {
		if i == 0 || p.hope(st.used, st.value, item) {
			kept = append(kept, st)
		}
	}
	p.list = kept
}

// extend merges the list with itself plus one copy of an item, and reports
// whether that made a new state.
func (p *pricer) extend(i int32) bool {
	it, old := p.items[i], p.list
	out, grew, a := p.next[:0], false, 0
	p.steps += 2 * len(old)
	top := -1.0
	for b := range old {
		used, value := old[b].used+it.length, old[b].value+it.value
		keep, record := p.hope(used, value, i), p.improves(used, value)
		if !keep && !record {
			continue
		}
		p.arena = append(p.arena, node{old[b].last, i})
		made := state{used, value, int32(len(p.arena) - 1)}
		if record {
			p.note(made)
		}
		if !keep {
			continue
		}
		for ; a < len(old) && (old[a].used < used || old[a].used == used && old[a].value >= value); a++ {
			if old[a].value > top {
				out, top = append(out, old[a]), old[a].value
			}
		}
		if value > top {
			out, top, grew = append(out, made), value, true
		}
	}
	for ; a < len(old); a++ {
		if old[a].value > top {
			out, top = append(out, old[a]), old[a].value
		}
	}
	p.list, p.next = out, old
	return grew
}

// improves reports whether a state is the best so far for some size.
func (p *pricer) improves(used int64, value float64) bool {
	if p.only >= 0 {
		return used <= p.t.sizes[p.only].room && value > p.best[p.only]
	}
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && used <= s.room && value > p.best[k] {
			return true
		}
	}
	return false
}

// note remembers a new state for the sizes that it is the best of.
func (p *pricer) note(st state) {
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && st.used <= s.room && st.value > p.best[k] {
			p.best[k] = st.value
			p.finds = append(p.finds, find{k, st})
		}
	}
}

// pattern reads a state back into sections.
func (p *pricer) pattern(size int, st state, wants []int) pattern {
	out := pattern{size: size}
	counts := make([]int, len(p.t.kinds))
	for at := st.last; at >= 0; at = p.arena[at].before {
		s := p.items[p.arena[at].item].section
		out.sections = append(out.sections, s)
		for _, e := range p.t.sections[s].counts {
			counts[e.kind] += min(e.n, wants[e.kind])
		}
	}
	slices.Sort(out.sections)
	out.counts = entries(counts)
	return out
}

// entries lists the kinds that are there.
func entries(counts []int) []entry {
	var out []entry
	for k, n := range counts {
		if n > 0 {
			out = append(out, entry{k, n})
		}
	}
	return out
}
