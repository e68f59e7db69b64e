package cutting

import (
	"math"
	"slices"
)

// Setups counts how often a saw is set while all boards are cut in the order
// they are printed in: each change of the stop that a piece is crosscut against
// and each change of the rip fence, the first setting of either included. A stop
// stands at the length that a crosscut leaves to its left, a fence at the width
// that a rip leaves below it; trimming an end needs no stop. Stop and fence keep
// their place while the other is used, and from board to board.
func (p Plan) Setups() int { return setups(p.Boards, p.Rules.Kerf) }

// sameSetting is how near two settings must be to be one, mm.
const sameSetting = 0.05

// setups counts the settings for boards in their order.
func setups(boards []Board, kerf float64) int {
	lists := make([][]setting, len(boards))
	for i := range boards {
		lists[i] = settings(&boards[i], kerf)
	}
	return changes(lists)
}

// changes counts the changes of stop and fence along lists of settings.
func changes(lists [][]setting) int {
	count, stop, fence := 0, math.Inf(1), math.Inf(1)
	for _, list := range lists {
		for _, s := range list {
			held := &stop
			if s.fence {
				held = &fence
			}
			if math.Abs(*held-s.at) > sameSetting {
				*held = s.at
				count++
			}
		}
	}
	return count
}

// A setting is where a fence, or else a stop, stands for a cut.
type setting struct {
	fence bool
	at    float64
}

// settings lists those of a board's cuts, in the order of the work.
func settings(b *Board, kerf float64) []setting {
	var out []setting
	for _, c := range b.Cuts {
		if c.Kind != Crosscut && c.Kind != Rip && c.Kind != Recut {
			continue
		}
		begin := 0.0
		for _, o := range b.Cuts {
			if o.At < c.At-fine && o.At+kerf > begin && c.measures(o) {
				begin = o.At + kerf
			}
		}
		out = append(out, setting{c.Kind == Rip, c.At - begin})
	}
	return out
}

// measures reports whether what a cut takes off may begin at another cut.
func (c Cut) measures(o Cut) bool {
	across := o.From < c.To-fine && o.To > c.From+fine
	switch c.Kind {
	case Rip:
		return o.Kind == Rip && across
	case Recut:
		return o.Kind <= Crosscut || o.Kind == Recut && across
	}
	return o.Kind <= Crosscut
}

// steadyWork is the steps at most to find a layout with fewer settings: a piece
// that is laid out is one, and so are a few settings that are looked at.
const steadyWork = 20_000

// steady lays planks out as boards, as boards does, but with fewer settings of
// the saw where that changes nothing else: sections and strips of one length
// change places between planks, and planks that are alike follow each other.
// What is bought stays, and no offcut that is kept gets shorter.
func (b *bench) steady(planks []plank, rough []roughSpot) []Board {
	s := steadying{b: b, planks: planks, work: steadyWork}
	for _, p := range planks {
		list, keeps := s.lay(p)
		s.lists, s.keeps = append(s.lists, list), append(s.keeps, keeps)
	}
	s.count = changes(s.lists)
	first := s.count
	s.chain()
	for before := s.count + 1; s.count < before && s.work > 0; {
		before = s.count
		s.lineUp()
		s.swapCells()
		s.swapStrips()
	}
	plain := b.boards(planks, rough)
	if s.count >= first {
		return plain
	}
	// Boards of several runs were counted run by run: the whole is the proof.
	kerf, better := b.job.Rules.Kerf, b.boards(s.planks, rough)
	if setups(better, kerf) > setups(plain, kerf) || !holdsUp(keepsakes(plain), keepsakes(better)) {
		return b.boards(planks, rough)
	}
	return better
}

// A steadying is a layout on the way to fewer settings.
type steadying struct {
	b      *bench
	planks []plank
	lists  [][]setting // by plank
	keeps  [][]float64 // by plank: the offcuts that are kept
	count  int         // changes of setting
	work   int
}

// lay returns the settings that one plank needs and the offcuts it leaves.
func (s *steadying) lay(p plank) ([]setting, []float64) {
	boards := s.b.boards([]plank{p}, nil)
	for _, b := range boards {
		s.work -= len(b.Pieces)
	}
	return settings(&boards[0], s.b.job.Rules.Kerf), keepsakes(boards)
}

// keepsakes lists the lengths of the offcuts that are kept, longest first.
func keepsakes(boards []Board) []float64 {
	var out []float64
	for _, b := range boards {
		for _, o := range b.Offcuts {
			if o.Keep {
				out = append(out, o.Length)
			}
		}
	}
	slices.Sort(out)
	slices.Reverse(out)
	return out
}

// holdsUp reports whether as many offcuts are kept, and each is as long.
func holdsUp(before, after []float64) bool {
	return slices.EqualFunc(before, after, func(a, b float64) bool { return a <= b+fine })
}

// swapCells tries sections of one length in each other's place.
func (s *steadying) swapCells() {
	t := s.b.t
	s.pairs(func(a, b *plank, x, y int) bool {
		c, d := a.cells[x], b.cells[y]
		if c.length != d.length || alikeCells(c, d) || !t.lies(c, b) || !t.lies(d, a) {
			return false
		}
		a.cells[x], b.cells[y] = d, c
		return true
	})
}

// alikeCells reports whether two sections have the same strips.
func alikeCells(c, d cell) bool {
	return slices.EqualFunc(c.strips, d.strips, func(p, q strip) bool { return slices.Equal(p.pieces, q.pieces) })
}

// swapStrips tries strips of one length in each other's place.
func (s *steadying) swapStrips() {
	t := s.b.t
	s.pairs(func(a, b *plank, x, y int) bool {
		c, d := &a.cells[x], &b.cells[y]
		for i, p := range c.strips {
			for j, q := range d.strips {
				if p.length != q.length || slices.Equal(p.pieces, q.pieces) {
					continue
				}
				c.strips[i], d.strips[j] = q, p
				if t.lies(*c, a) && t.lies(*d, b) {
					return true
				}
				c.strips[i], d.strips[j] = p, q
			}
		}
		return false
	})
}

// pairs changes each pair of sections of two planks by a move, and keeps what
// needs fewer settings and leaves the same offcuts.
func (s *steadying) pairs(move func(a, b *plank, x, y int) bool) {
	for i := range s.planks {
		for j := i + 1; j < len(s.planks); j++ {
			for x := range s.planks[i].cells {
				s.pairsOf(i, j, x, move)
			}
		}
	}
}

// pairsOf does so for one section of the first plank. Sections whose pieces
// match others, or are short and come last, stay where they are.
func (s *steadying) pairsOf(i, j, x int, move func(a, b *plank, x, y int) bool) {
	for y := range s.planks[j].cells {
		if s.work <= 0 || s.fixed(s.planks[i].cells[x]) {
			return
		}
		if s.work--; s.fixed(s.planks[j].cells[y]) {
			continue
		}
		a, b := s.planks[i].copied(), s.planks[j].copied()
		if move(&a, &b, x, y) {
			s.change(i, j, a, b)
		}
	}
}

// fixed reports whether a section stays on its plank.
func (s *steadying) fixed(c cell) bool { return c.stays || s.b.t.small(c) }

// arrange puts the sections of a plank in their order again. Short pieces stay
// as they are, at its end.
func (s *steadying) arrange(p plank) {
	upto := slices.IndexFunc(p.cells, s.b.t.small)
	if upto < 0 {
		upto = len(p.cells)
	}
	s.b.t.arrange(p.cells[:upto])
}

// copied is a plank with cells that may be changed.
func (p plank) copied() plank {
	p.cells = slices.Clone(p.cells)
	for i := range p.cells {
		p.cells[i].strips = slices.Clone(p.cells[i].strips)
	}
	return p
}

// change puts two planks in the place of others if that is better.
func (s *steadying) change(i, j int, a, b plank) {
	s.arrange(a)
	s.arrange(b)
	listA, keepsA := s.lay(a)
	listB, keepsB := s.lay(b)
	both := func(a, b []float64) []float64 {
		out := slices.Concat(a, b)
		slices.Sort(out)
		return out
	}
	if !holdsUp(both(s.keeps[i], s.keeps[j]), both(keepsA, keepsB)) {
		return
	}
	lists := slices.Clone(s.lists)
	lists[i], lists[j] = listA, listB
	if s.better(lists) {
		s.planks = slices.Clone(s.planks)
		s.planks[i], s.planks[j] = a, b
		s.keeps[i], s.keeps[j] = keepsA, keepsB
	}
}

// better keeps lists with fewer changes of setting.
func (s *steadying) better(lists [][]setting) bool {
	for _, list := range lists {
		s.work -= len(list)/8 + 1
	}
	count := changes(lists)
	if count >= s.count {
		return false
	}
	s.lists, s.count = lists, count
	return true
}

// chain puts planks of one size in an order where each is the one, of those
// left, that needs the fewest new settings after the one before it.
func (s *steadying) chain() {
	left := make([]int, len(s.planks))
	for i := range left {
		left[i] = i
	}
	var order []int
	for len(left) > 0 && s.work > 0 {
		at, fewest := 0, math.MaxInt
		for i, p := range left {
			if s.planks[p].size != s.planks[left[0]].size {
				break // sizes stay in their order
			}
			pair := [][]setting{s.lists[p]}
			if len(order) > 0 {
				pair = [][]setting{s.lists[order[len(order)-1]], s.lists[p]}
			}
			s.work--
			if n := changes(pair); n < fewest {
				at, fewest = i, n
			}
		}
		order = append(order, left[at])
		left = slices.Delete(left, at, at+1)
	}
	s.reorder(append(order, left...))
}

// reorder puts planks in an order, if that is better.
func (s *steadying) reorder(order []int) bool {
	planks, lists, keeps := make([]plank, len(order)), make([][]setting, len(order)), make([][]float64, len(order))
	for i, p := range order {
		planks[i], lists[i], keeps[i] = s.planks[p], s.lists[p], s.keeps[p]
	}
	if !s.better(lists) {
		return false
	}
	s.planks, s.keeps = planks, keeps
	return true
}

// lineUp moves planks among those of their size while that is better.
func (s *steadying) lineUp() {
	for moved := true; moved && s.work > 0; {
		moved = false
		for i := range s.planks {
			for j := range s.planks {
				if i == j || s.work <= 0 || s.planks[i].size != s.planks[j].size {
					continue
				}
				order := make([]int, len(s.planks))
				for k := range order {
					order[k] = k
				}
				order = slices.Insert(slices.Delete(order, i, i+1), j, i)
				moved = s.reorder(order) || moved
			}
		}
	}
}
