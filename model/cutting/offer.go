package cutting

import (
	"cmp"
	"slices"
)

// load lists the sections for boards of a width that the best boards may need,
// the densest first.
func (p *pricer) load(values []float64, wants []int, width int64) {
	p.offer(values, wants, width)
	dense := p.densest()
	p.slack = better + float64(float64(p.loose*dense)*float64(p.longest(width)))
	p.greedy()
	p.promising(dense)
	p.sift()
	slices.SortFunc(p.items, byDensity)
}

// offer lists the sections for boards of a width that are worth something.
func (p *pricer) offer(values []float64, wants []int, width int64) {
	p.items = p.items[:0]
	for i, s := range p.t.sections {
		if len(p.t.widths) > 1 && !p.t.holds(s, width) {
			continue
		}
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
}

// greedy lifts the floors that are nothing to just under what comes of filling a
// board with the densest item that fits, again and again, so that items without
// promise are known before they are sorted.
func (p *pricer) greedy() {
	for k, s := range p.t.sizes {
		if p.best[k] != 0 {
			continue
		}
		value, room, done := 0.0, s.room, []int(nil)
		for {
			at := -1
			for i, it := range p.items {
				if it.length <= room && (at < 0 || it.density > p.items[at].density) && !slices.Contains(done, i) {
					at = i
				}
			}
			if at < 0 {
				break
			}
			it := p.items[at]
			n := min(it.copies, int(room/it.length))
			value, room = value+float64(float64(n)*it.value), room-int64(n)*it.length
			done = append(done, at)
		}
		p.best[k] = max(0, value-2*p.slack)
	}
}

// densest is the greatest value a length of an item.
func (p *pricer) densest() float64 {
	dense := 0.0
	for _, it := range p.items {
		dense = max(dense, it.density)
	}
	return dense
}

// promising drops the items that lie on no board worth more than its floor:
// not even if the rest of the board were as dense as the densest item.
func (p *pricer) promising(dense float64) {
	kept := p.items[:0]
	for _, it := range p.items {
		for k, s := range p.t.sizes {
			if p.best[k] >= 0 && s.room >= it.length && it.value+float64(float64(s.room-it.length)*dense) > p.best[k] {
				kept = append(kept, it)
				break
			}
		}
	}
	p.items = kept
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
		slices.SortFunc(p.items, func(a, b item) int {
			return cmp.Or(cmp.Compare(a.length, b.length), cmp.Compare(a.section, b.section))
		})
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

// byDensity puts the densest items first, of equal ones the longest.
func byDensity(a, b item) int {
	return cmp.Or(cmp.Compare(b.density, a.density), cmp.Compare(b.length, a.length), cmp.Compare(a.section, b.section))
}
