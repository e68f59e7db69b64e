package cutting

import (
	"cmp"
	"slices"
)

// A trade looks for a plan of a given number of equal boards, for pieces that
// are as wide as their stock. Pieces that do not fit yet lie on a pile; one or
// two of a board change places with one or two of the pile so that the pile
// gets smaller, and a piece that was just moved stays where it is for a while.
// When that leads no further the boards trade among themselves until the free
// length is together on few of them (consistent neighbourhood search, Buljubašić
// and Vasquez 2016). Its chances come from a counter, so it always goes one way.
type trade struct {
	length []int64 // by piece, kerf included
	kind   []int
	room   int64
	boards [][]int
	load   []int64
	pile   []int
	waits  []int // by piece: the turn from which it may move again
	turn   int
	seed   uint64
	work   *int
}

// chance returns a number from 0 up to n (xorshift, Marsaglia 2003).
func (t *trade) chance(n int) int {
	t.seed ^= t.seed << 13
	t.seed ^= t.seed >> 7
	t.seed ^= t.seed << 17
	return int(t.seed>>33) % n
}

// newTrade puts the pieces on n boards, each where it leaves the least, and
// the rest on the pile.
func newTrade(tk *task, wants []int, n int, work *int) *trade {
	t := &trade{room: tk.sizes[0].room, boards: make([][]int, n), load: make([]int64, n), seed: 0x9E3779B97F4A7C15, work: work}
	for k, kind := range tk.kinds { // long to short
		for range wants[k] {
			t.length, t.kind = append(t.length, kind.length+tk.kerf), append(t.kind, k)
		}
	}
	t.waits = make([]int, len(t.length))
	for i, l := range t.length {
		best := -1
		for b := range t.boards {
			if t.load[b]+l <= t.room && (best < 0 || t.load[b] > t.load[best]) {
				best = b
			}
		}
		if best < 0 {
			t.pile = append(t.pile, i)
			continue
		}
		t.boards[best] = append(t.boards[best], i)
		t.load[best] += l
	}
	return t
}

// Turns without a smaller pile before the boards trade among themselves, and
// the most turns that a piece waits.
const (
	mostTurns = 400
	mostWait  = 12
)

// run trades until the pile is gone, or the work is spent.
func (t *trade) run() bool {
	for *t.work > 0 {
		best, since := t.heap(), 0
		for ; since < mostTurns && len(t.pile) > 0 && *t.work > 0; since++ {
			if !t.step() {
				break
			}
			if t.close() {
				return true
			}
			if h := t.heap(); h < best {
				best, since = h, 0
			}
		}
		if len(t.pile) == 0 {
			return true
		}
		t.settle()
	}
	return false
}

// heap is the length of the pile.
func (t *trade) heap() int64 {
	var sum int64
	for _, i := range t.pile {
		sum += t.length[i]
	}
	return sum
}

// A swap takes pieces out of a board and others from the pile in: places in
// their lists, -1 for none.
type swap struct {
	board, a, b, p, q int
	gain              int64
}

// step makes the best swap that is not forbidden, and reports whether there was one.
func (t *trade) step() bool {
	t.turn++
	best, alike := swap{board: -1}, 0
	ins := t.pairs(t.pile)
	*t.work -= len(ins)
	for b, board := range t.boards {
		free := t.room - t.load[b]
		for _, out := range append(t.pairs(board), pair{-1, -1, 0}) {
			*t.work -= 4
			// ins are sorted by length: the longest that fits gains most.
			at, _ := slices.BinarySearchFunc(ins, free+out.length+1, func(p pair, l int64) int { return cmp.Compare(p.length, l) })
			if at == 0 {
				continue
			}
			in := ins[at-1]
			s := swap{b, out.a, out.b, in.a, in.b, in.length - out.length}
			switch {
			case best.board >= 0 && s.gain < best.gain:
			case best.board < 0 || s.gain > best.gain:
				best, alike = s, 1
			default:
				if alike++; t.chance(alike) == 0 {
					best = s
				}
			}
		}
	}
	if best.board < 0 {
		return false
	}
	t.swap(best)
	return true
}

// A pair is one or two places in a list with the length of their pieces.
type pair struct {
	a, b   int
	length int64
}

// pairs lists one and two pieces that may move, short to long.
func (t *trade) pairs(list []int) []pair {
	var out []pair
	for a, i := range list {
		if t.waits[i] > t.turn {
			continue
		}
		out = append(out, pair{a, -1, t.length[i]})
		for b := a + 1; b < len(list); b++ {
			if t.waits[list[b]] <= t.turn {
				out = append(out, pair{a, b, t.length[i] + t.length[list[b]]})
			}
		}
	}
	slices.SortStableFunc(out, func(x, y pair) int { return cmp.Compare(x.length, y.length) })
	return out
}

// swap carries a swap out.
func (t *trade) swap(s swap) {
	out, in := pick(t.boards[s.board], s.a, s.b), pick(t.pile, s.p, s.q)
	t.boards[s.board] = append(without(t.boards[s.board], s.a, s.b), in...)
	t.pile = append(without(t.pile, s.p, s.q), out...)
	t.load[s.board] += s.gain
	for _, i := range out {
		t.waits[i] = t.turn + 1 + t.chance(mostWait)
	}
	for _, i := range in {
		t.waits[i] = t.turn + 1 + t.chance(mostWait)
	}
}

// pick returns the entries at two places.
func pick(list []int, a, b int) []int {
	var out []int
	if a >= 0 {
		out = append(out, list[a])
	}
	if b >= 0 {
		out = append(out, list[b])
	}
	return out
}

// without returns the list less the entries at two places.
func without(list []int, a, b int) []int {
	out := make([]int, 0, len(list)+2)
	for i, v := range list {
		if i != a && i != b {
			out = append(out, v)
		}
	}
	return out
}

// close puts pieces of the pile where they fit, and reports whether it is gone.
func (t *trade) close() bool {
	kept := t.pile[:0]
	for _, i := range t.pile {
		at := slices.IndexFunc(t.load, func(l int64) bool { return l+t.length[i] <= t.room })
		if at < 0 {
			kept = append(kept, i)
			continue
		}
		t.boards[at] = append(t.boards[at], i)
		t.load[at] += t.length[i]
	}
	t.pile = kept
	return len(t.pile) == 0
}

// settle trades single pieces between boards from the emptier to the fuller,
// in an order that changes each time, until none gains.
func (t *trade) settle() {
	n := len(t.boards)
	for moved := true; moved && *t.work > 0; {
		moved = false
		from := t.chance(n)
		for x := range n {
			for y := range n {
				a, b := (from+x)%n, (from+x*7+y)%n
				if a != b && t.load[a] >= t.load[b] && t.lean(a, b) {
					moved = true
				}
			}
		}
	}
	clear(t.waits)
}

// lean makes a fuller board fuller from another: it takes the first piece, or
// exchange, that fits.
func (t *trade) lean(a, b int) bool {
	free := t.room - t.load[a]
	*t.work--
	if free == 0 {
		return false
	}
	for y, j := range t.boards[b] {
		for x := -1; x < len(t.boards[a]); x++ {
			gain := t.length[j]
			if x >= 0 {
				gain -= t.length[t.boards[a][x]]
			}
			*t.work--
			if gain <= 0 || gain > free {
				continue
			}
			back := pick(t.boards[a], x, -1)
			t.boards[a] = append(without(t.boards[a], x, -1), j)
			t.boards[b] = append(without(t.boards[b], y, -1), back...)
			t.load[a] += gain
			t.load[b] -= gain
			return true
		}
	}
	return false
}

// patterns reads the boards.
func (t *trade) patterns(tk *task) []pattern {
	at := make([]int, len(tk.kinds))
	for i, s := range tk.sections {
		at[s.counts[0].kind] = i
	}
	var out []pattern
	for _, board := range t.boards {
		p, counts := pattern{}, make([]int, len(tk.kinds))
		for _, i := range board {
			p.sections = append(p.sections, at[t.kind[i]])
			counts[t.kind[i]]++
		}
		slices.Sort(p.sections)
		p.counts = entries(counts)
		if len(board) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// alike reports whether a task is to cut pieces of full width from boards of
// one length.
func (t *task) alike() bool {
	return len(t.sizes) == 1 && t.sizes[0].limit >= many && len(t.sections) == len(t.kinds)
}
