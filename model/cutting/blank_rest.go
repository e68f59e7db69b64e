package cutting

// Short pieces come last, from what is left of a board when everything longer
// has been cut from it: a piece that is too short to hold at a saw is marked out
// on a larger one and sawn off that.

// small reports whether a section holds nothing but short pieces.
func (t *task) small(c cell) bool {
	for _, s := range c.strips {
		for _, k := range s.pieces {
			if t.kinds[k].run > 1 || t.kinds[k].length >= t.short {
				return false
			}
		}
	}
	return true
}

// tuck moves single short pieces from sections of their own into strips of
// their width that have room at the end: one crosscut then frees them, and the
// board is left longer.
func (t *task) tuck(planks []plank) {
	for i := range planks {
		cells := planks[i].cells
		for x := len(cells) - 1; x >= 0 && len(cells) > 1; x-- {
			c := cells[x]
			if len(c.strips) != 1 || len(c.strips[0].pieces) != 1 || !t.small(c) {
				continue
			}
			if t.tuckInto(planks, i, x) {
				cells = append(cells[:x:x], cells[x+1:]...)
				planks[i].cells = cells
			}
		}
	}
}

// tuckInto puts the one piece of a section into a strip of another that has the
// least room that will do, and reports whether there was one.
func (t *task) tuckInto(planks []plank, plank, own int) bool {
	k := planks[plank].cells[own].strips[0].pieces[0]
	var best *strip
	var least int64
	for i := range planks {
		for x := range planks[i].cells {
			c := &planks[i].cells[x]
			if i == plank && x == own || c.stays || t.small(*c) {
				continue
			}
			for j := range c.strips {
				s := &c.strips[j]
				room := c.length - s.length - t.kerf - t.kinds[k].length
				if t.widthOf(*s) == t.kinds[k].width && room >= 0 && (best == nil || room < least) {
					best, least = s, room
				}
			}
		}
	}
	if best != nil {
		*best = t.lengthen(*best, k)
	}
	return best != nil
}

// bunch puts short sections of one strip that are ripped to one width end to
// end in one section, so that one rip serves them all and the wood in the hands
// is longer. They take up the rest of the board where that would not be kept.
func (t *task) bunch(p *plank) {
	var out, small []cell
	for _, c := range p.cells {
		if t.small(c) {
			small = append(small, c)
		} else {
			out = append(out, c)
		}
	}
	if len(out) == 0 {
		return
	}
	first := len(out)
	for _, c := range small {
		if at := t.alikeCell(out[first:], c, t.sizes[p.size].width); at >= 0 {
			s := &out[first+at].strips[0]
			for _, k := range c.strips[0].pieces {
				*s = t.lengthen(*s, k)
			}
			out[first+at].length = s.length
			continue
		}
		out = append(out, c)
	}
	p.cells = out
	last := len(out) - 1
	if rest := t.rest(*p); last == first && len(out[last].strips) == 1 && t.breadthOf(out[last]) < t.sizes[p.size].width && rest > 0 && rest < t.keep {
		out[last].length += rest
	}
}

// alikeCell finds the section with one strip as wide as the only one of c, if
// it has to be ripped.
func (t *task) alikeCell(cells []cell, c cell, board int64) int {
	if len(c.strips) != 1 || t.widthOf(c.strips[0]) >= board {
		return -1
	}
	for i, o := range cells {
		if len(o.strips) == 1 && t.widthOf(o.strips[0]) == t.widthOf(c.strips[0]) {
			return i
		}
	}
	return -1
}

// rested notes the rest of a plank that its short sections are cut from, which
// begin at a place along the board and end with the plank.
func (b *Board) rested(begin, end float64) {
	b.Rests = append(b.Rests, Rest{Along: begin, Length: end - begin, Width: b.Width})
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Along > begin-fine && p.Along < end {
			p.Rest = len(b.Rests)
		}
	}
}

// Offcuts are named from this size up, mm.
const (
	leastOffcut = 1.0
	leastKeep   = 25.0 // width below which a long sliver is not kept
)

// offcut notes what is left over, if it is more than a sliver.
func (b *Board) offcut(o Offcut, keep float64) {
	if o.Length < leastOffcut || o.Width < leastOffcut {
		return
	}
	o.Keep = keep > 0 && o.Length >= keep && o.Width >= leastKeep
	b.Offcuts = append(b.Offcuts, o)
}

// waste returns the share of boards that is neither a piece nor a kept offcut.
func waste(boards []Board) float64 {
	all, used := 0.0, 0.0
	for _, b := range boards {
		all += b.Length * b.Width
		for _, p := range b.Pieces {
			if p.Pair == 0 {
				used += p.Length * p.Width
			}
		}
		for _, p := range b.Blanks {
			used += p.Length * p.Width
		}
		for _, o := range b.Offcuts {
			if o.Keep {
				used += o.Length * o.Width
			}
		}
	}
	if all == 0 {
		return 0
	}
	return 1 - used/all
}
