package cutting

import (
	"cmp"
	"slices"
)

// An entry is a number of pieces of one kind.
type entry struct{ kind, n int }

// A section is a length of board between two crosscuts: one piece, or strips
// side by side with pieces end to end.
type section struct {
	length int64 // of its longest strip
	width  int64 // that its strips need
	strips [][]int
	counts []entry // by kind, rising
}

// The most strips of one width, and sections, that are listed. Furniture stays
// far below; beyond, the bound no longer covers every layout and says so.
const (
	mostStrips   = 600
	mostSections = 6000
	mostTries    = 400_000
)

// listSections finds every section that can be worth sawing, shortest first:
// it has as many strips as its widths allow, and no strip has room for one more
// piece.
func (t *task) listSections() {
	t.complete = true
	for i, k := range t.kinds {
		t.sections = append(t.sections, section{k.length, k.width, [][]int{{i}}, []entry{{i, 1}}})
	}
	widths := t.narrowWidths()
	strips := make([][]strip, len(widths))
	for i, w := range widths {
		strips[i] = t.listStrips(w)
	}
	tries := mostTries
	singles, mixes := len(t.sections), t.widthMixes(widths)
	for _, mix := range mixes {
		tries = t.combine(mix, strips, tries)
	}
	if !t.complete {
		t.sections, t.grower = t.sections[:singles], newGrower(strips, mixes)
	}
	t.dropDominated()
	t.sortSections()
}

// sortSections puts the shortest first.
func (t *task) sortSections() {
	slices.SortStableFunc(t.sections, func(a, b section) int { return cmp.Compare(a.length, b.length) })
}

// need is the width that strips of these widths take side by side.
func (t *task) need(widths []int64) int64 {
	used := int64(len(widths)-1) * (t.kerf + 2*t.clean)
	for _, w := range widths {
		used += w
	}
	return used
}

// single reports whether one piece of a width comes out of a board: as bought,
// or with its ripped edge cleaned.
func (t *task) single(width, board int64) bool {
	return width+t.clean <= board+grace || width <= board+grace && width >= board-grace
}

// holds reports whether a section lies in boards of a width.
func (t *task) holds(s section, board int64) bool {
	if len(s.strips) == 1 {
		return t.single(s.width, board)
	}
	return s.width <= board+grace
}

// narrowWidths returns the widths that share the board with another, widest first.
func (t *task) narrowWidths() []int64 {
	var all []int64
	for _, k := range t.kinds {
		all = append(all, k.width)
	}
	slices.Sort(all)
	all = slices.Compact(all)
	if len(all) == 0 {
		return nil
	}
	narrow := slices.DeleteFunc(slices.Clone(all), func(w int64) bool { return t.need([]int64{w, all[0]}) > t.width+grace })
	slices.Reverse(narrow)
	return narrow
}

// widthMixes returns the sets of two or more widths (as indices, rising) that
// lie side by side in some board and leave no room there for one more of any
// width.
func (t *task) widthMixes(widths []int64) [][]int {
	var mixes [][]int
	for _, board := range t.widths {
		mixes = append(mixes, t.mixesOf(board, widths)...)
	}
	slices.SortFunc(mixes, slices.Compare)
	return slices.CompactFunc(mixes, slices.Equal)
}

// mixesOf are the mixes for boards of one width.
func (t *task) mixesOf(board int64, widths []int64) [][]int {
	var mixes [][]int
	var grow func(mix []int, used []int64)
	grow = func(mix []int, used []int64) {
		full := true
		for i, w := range widths {
			if t.need(append(used, w)) > board+grace {
				continue
			}
			full = false
			if len(mix) == 0 || i >= mix[len(mix)-1] {
				grow(append(slices.Clone(mix), i), append(slices.Clone(used), w))
			}
		}
		if full && len(mix) > 1 {
			mixes = append(mixes, mix)
		}
	}
	grow(nil, nil)
	return mixes
}

// A strip is pieces of one width end to end, longest first.
type strip struct {
	length int64
	pieces []int
}

// across is the width that strips need side by side.
func (t *task) across(strips [][]int) int64 {
	var widths []int64
	for _, pieces := range strips {
		widths = append(widths, t.kinds[pieces[0]].width)
	}
	return t.need(widths)
}

// listStrips returns the strips of one width, short to long; the empty strip
// is the first, for a section that has no use for it.
func (t *task) listStrips(width int64) []strip {
	var kinds []int
	for i, k := range t.kinds {
		if k.width == width {
			kinds = append(kinds, i)
		}
	}
	var longest int64
	for _, s := range t.sizes {
		longest = max(longest, s.room)
	}
	strips := []strip{{}}
	// One piece more each round, so that the cap keeps the simplest ones.
	for round := []strip{{}}; len(round) > 0; {
		var next []strip
		for _, s := range round {
			for _, k := range kinds {
				grown := t.lengthen(s, k)
				if len(s.pieces) > 0 && k < s.pieces[len(s.pieces)-1] || grown.length+t.kerf > longest || t.tooMany(grown.pieces, k) {
					continue
				}
				next = append(next, grown)
			}
		}
		if len(strips)+len(next) > mostStrips {
			t.complete = false
			next = next[:mostStrips-len(strips)]
		}
		strips = append(strips, next...)
		round = next
	}
	slices.SortStableFunc(strips, func(a, b strip) int { return cmp.Compare(a.length, b.length) })
	return strips
}

// lengthen returns the strip with one more piece.
func (t *task) lengthen(s strip, k int) strip {
	length := s.length + t.kinds[k].length
	if len(s.pieces) > 0 {
		length += t.kerf
	}
	return strip{length, append(slices.Clone(s.pieces), k)}
}

// tooMany reports whether there are more of a kind than are wanted.
func (t *task) tooMany(pieces []int, k int) bool {
	n := 0
	for _, p := range pieces {
		if p == k {
			n++
		}
	}
	return n > t.kinds[k].want
}

// combine adds the sections of one mix of widths, and returns how many tries are left.
func (t *task) combine(mix []int, strips [][]strip, tries int) int {
	chosen := make([]int, len(mix))
	var pick func(at int)
	pick = func(at int) {
		if len(t.sections) >= mostSections || tries <= 0 {
			t.complete = false
			return
		}
		if at == len(mix) {
			tries--
			t.addSection(mix, chosen, strips)
			return
		}
		from := 0
		if at > 0 && mix[at] == mix[at-1] {
			from = chosen[at-1] // strips of one width in one order only
		}
		for i := from; i < len(strips[mix[at]]); i++ {
			chosen[at] = i
			pick(at + 1)
		}
	}
	pick(0)
	return tries
}

// addSection adds the section of the chosen strips, unless it asks for more
// than is wanted or has room for one more piece in a strip.
func (t *task) addSection(mix, chosen []int, strips [][]strip) {
	var s section
	counts := make([]int, len(t.kinds))
	for i, m := range mix {
		one := strips[m][chosen[i]]
		if len(one.pieces) == 0 {
			continue
		}
		s.length = max(s.length, one.length)
		s.strips = append(s.strips, one.pieces)
		for _, k := range one.pieces {
			counts[k]++
		}
	}
	if len(s.strips) < 2 {
		return
	}
	s.width = t.across(s.strips)
	for k, n := range counts {
		if n > t.kinds[k].want {
			return
		}
		if n > 0 {
			s.counts = append(s.counts, entry{k, n})
		}
	}
	for i, m := range mix {
		if t.roomFor(strips[m][chosen[i]], strips[m], s.length, counts) {
			return
		}
	}
	t.sections = append(t.sections, s)
}

// roomFor reports whether a strip takes one more piece that is still wanted
// without making the section longer.
func (t *task) roomFor(one strip, alike []strip, length int64, counts []int) bool {
	for _, s := range alike {
		if len(s.pieces) != 1 {
			continue
		}
		k := s.pieces[0]
		if counts[k] < t.kinds[k].want && t.lengthen(one, k).length <= length {
			return true
		}
	}
	return false
}

// dropDominated keeps, of sections with the same pieces, the shortest, and a
// longer one if it is narrower.
func (t *task) dropDominated() {
	better := func(a, b section) int {
		return cmp.Or(slices.CompareFunc(a.counts, b.counts, func(x, y entry) int {
			return cmp.Or(cmp.Compare(x.kind, y.kind), cmp.Compare(x.n, y.n))
		}), cmp.Compare(a.length, b.length), cmp.Compare(a.width, b.width), cmp.Compare(len(a.strips), len(b.strips)))
	}
	slices.SortStableFunc(t.sections, better)
	kept := t.sections[:0]
	for _, s := range t.sections {
		last := len(kept) - 1
		if last < 0 || !slices.Equal(kept[last].counts, s.counts) || s.width < kept[last].width && len(t.widths) > 1 {
			kept = append(kept, s)
		}
	}
	t.sections = kept
}
