package cutting

import "slices"

// A counter fills one board with sections whose pieces are counted over the
// whole board, where find counts them section by section: it goes through the
// sections, densest first, and turns back where even the rest of the board at
// the density of the next would not be worth more than the best so far.
type counter struct {
	p      *pricer
	values []float64
	wants  []int // still wanted
	items  []item
	chosen []int // items on the board
	best   []int
	worth  float64 // of the best
	work   int
}

// counted returns the board of a size that is worth most with no more of a kind
// than is wanted, if it is worth more than a floor, what it is worth, and whether
// the work did for all of them.
func (p *pricer) counted(values []float64, wants []int, size int, c counting) (pattern, float64, bool) {
	p.best = append(p.best[:0], make([]float64, len(p.t.sizes))...)
	for k := range p.best {
		p.best[k] = -1
	}
	p.best[size] = c.floor
	p.offer(values, wants, p.t.sizes[size].width)
	p.promising(p.densest())
	slices.SortFunc(p.items, byDensity)
	d := counter{p: p, values: values, wants: slices.Clone(wants), items: p.items, worth: c.floor, work: c.work}
	d.fill(0, p.t.sizes[size].room, 0)
	p.steps += 6*len(p.t.sections) + c.work - d.work
	if d.best == nil {
		return pattern{}, c.floor, d.work > 0
	}
	return d.pattern(size, wants), d.worth, d.work > 0
}

// A counting is how much a board must be worth, and the steps to look for it.
type counting struct {
	floor float64
	work  int
}

// fill goes on with the items from a place on.
func (d *counter) fill(from int, room int64, worth float64) {
	if worth > d.worth+better {
		d.worth, d.best = worth, slices.Clone(d.chosen)
	}
	for i := from; i < len(d.items); i++ {
		it := &d.items[i]
		if d.work--; d.work <= 0 || worth+float64(float64(room)*it.density) <= d.worth+better {
			return
		}
		if it.length > room {
			continue
		}
		value := d.value(it.section)
		if value <= better || worth+value+float64(float64(room-it.length)*it.density) <= d.worth+better {
			continue
		}
		taken := d.take(it.section)
		d.chosen = append(d.chosen, i)
		d.fill(i, room-it.length, worth+value)
		d.chosen = d.chosen[:len(d.chosen)-1]
		d.back(it.section, taken)
	}
}

// value is what a section adds with the pieces that are still wanted.
func (d *counter) value(section int) float64 {
	v := 0.0
	for _, e := range d.p.t.sections[section].counts {
		v += float64(d.values[e.kind] * float64(min(e.n, d.wants[e.kind])))
	}
	return v
}

// take takes a section's pieces and returns how many of each kind there were.
func (d *counter) take(section int) [16]int {
	var taken [16]int
	for j, e := range d.p.t.sections[section].counts {
		n := min(e.n, d.wants[e.kind])
		taken[j] = n
		d.wants[e.kind] -= n
	}
	return taken
}

// back puts a section's pieces back.
func (d *counter) back(section int, taken [16]int) {
	for j, e := range d.p.t.sections[section].counts {
		d.wants[e.kind] += taken[j]
	}
}

// pattern reads the best board.
func (d *counter) pattern(size int, wants []int) pattern {
	out, counts := pattern{size: size}, make([]int, len(wants))
	for _, i := range d.best {
		s := d.items[i].section
		out.sections = append(out.sections, s)
		for _, e := range d.p.t.sections[s].counts {
			counts[e.kind] = min(wants[e.kind], counts[e.kind]+e.n)
		}
	}
	slices.Sort(out.sections)
	out.counts = entries(counts)
	return out
}
