package cutting

import (
	"cmp"
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
	steps int       // states looked at since the pricer was made
}

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
	p.load(values, wants)
	p.arena = p.arena[:0]
	p.list = append(p.list[:0], state{0, 0, -1})
	p.best = append(p.best[:0], floors...)
	for i := range p.items {
		p.drop(p.items[i].density)
		for range p.items[i].copies {
			if !p.extend(int32(i)) {
				break
			}
		}
	}
	p.steps += len(p.t.sections) + 100
	var found []pattern
	for k, s := range p.t.sizes {
		if floors[k] < 0 {
			continue
		}
		at, _ := slices.BinarySearchFunc(p.list, s.room+1, func(st state, room int64) int { return cmp.Compare(st.used, room) })
		if st := p.list[at-1]; st.value > floors[k]+better {
			found = append(found, p.pattern(k, st, wants))
		}
	}
	return found, slices.Clone(p.best)
}

// load lists the sections that are worth something, the densest first.
func (p *pricer) load(values []float64, wants []int) {
	p.items = p.items[:0]
	for i, s := range p.t.sections {
		it := item{section: i, length: s.length + p.t.kerf, copies: many}
		for _, e := range s.counts {
			n := min(e.n, wants[e.kind])
			it.value += float64(values[e.kind] * float64(n))
			it.copies = min(it.copies, wants[e.kind]/e.n)
		}
		if it.value <= better {
			continue
		}
		it.copies = max(it.copies, 1)
		it.density = it.value / float64(it.length)
		p.items = append(p.items, it)
	}
	p.sift()
	slices.SortStableFunc(p.items, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.density, a.density), cmp.Compare(b.length, a.length))
	})
}

// sift drops the items that no best board needs. Where a section could be
// changed for one that is no longer and worth no less, it is not needed; so an
// item stays only if all copies of all such sections fit beside it.
func (p *pricer) sift() {
	var longest int64
	for _, s := range p.t.sizes {
		longest = max(longest, s.room)
	}
	if p.t.grower != nil { // else the sections are shortest first already
		slices.SortStableFunc(p.items, func(a, b item) int { return cmp.Compare(a.length, b.length) })
	}
	kept := p.items[:0]
	for _, it := range p.items {
		room := longest - it.length
		for _, other := range kept {
			if other.value >= it.value {
				room -= other.length * int64(min(other.copies, int(longest/other.length)+1))
			}
			if room < 0 {
				break
			}
		}
		p.steps += len(kept)/4 + 1
		if room >= 0 {
			kept = append(kept, it)
		}
	}
	p.items = kept
}

// hope reports whether a state can still beat what is found for some size, if
// the rest of the board is filled at a density.
func (p *pricer) hope(used int64, value, density float64) bool {
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && used <= s.room && value+float64(float64(s.room-used)*density) > p.best[k]+better {
			return true
		}
	}
	return false
}

// drop removes the states without hope. The best state of each size stays: it
// is the answer.
func (p *pricer) drop(density float64) {
	p.steps += len(p.list)
	kept := p.list[:0]
	for i, st := range p.list {
		if i == 0 || p.hope(st.used, st.value, density) || p.isBest(st) {
			kept = append(kept, st)
		}
	}
	p.list = kept
}

func (p *pricer) isBest(st state) bool {
	for k, s := range p.t.sizes {
		if st.used <= s.room && st.value == p.best[k] {
			return true
		}
	}
	return false
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
		if !p.hope(used, value, it.density) && !p.improves(used, value) {
			continue
		}
		for ; a < len(old) && (old[a].used < used || old[a].used == used && old[a].value >= value); a++ {
			if old[a].value > top {
				out, top = append(out, old[a]), old[a].value
			}
		}
		if value <= top {
			continue
		}
		p.note(used, value)
		p.arena = append(p.arena, node{old[b].last, i})
		out, top, grew = append(out, state{used, value, int32(len(p.arena) - 1)}), value, true
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
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && used <= s.room && value > p.best[k] {
			return true
		}
	}
	return false
}

// note remembers the value of a new state for the sizes it fits.
func (p *pricer) note(used int64, value float64) {
	for k, s := range p.t.sizes {
		if p.best[k] >= 0 && used <= s.room {
			p.best[k] = max(p.best[k], value)
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
