package cutting

import (
	"cmp"
	"math"
	"slices"
)

// Lengths are counted in nanometres, so that every sixty-fourth of an inch and
// every micrometre is a whole number and sums are exact.
const (
	perMM = 1e6
	grace = 1000 // nanometres: what a sum of rounded lengths may be over
)

func whole(mm float64) int64      { return int64(math.Round(mm * perMM)) }
func millimetres(n int64) float64 { return float64(n) / perMM }

// A kind is all pieces of one size.
type kind struct {
	length, width int64
	want          int
	pieces        []int // index into the job, one for each piece wanted; spares last
	spareFrom     int   // pieces[spareFrom:] are spare
	run           int   // so many pieces in a row stay on one board, one after the other
	match         int   // of rows: which piece of the job they are of, counted from 1
}

// A size is one length of board that patterns can be made for.
type size struct {
	room  int64 // usable length and one kerf
	cost  int64 // money in whole units times weight, and one for the board
	limit int   // boards that can be had; many if there is no limit
	sold  int   // index into the stock's lengths, -1 for a board on hand
	hand  int   // index into the stock's boards on hand, -1 for a bought one
	width int64
	from  float64
}

const many = math.MaxInt32

// A task is the demand on one stock in whole numbers.
type task struct {
	kinds  []kind
	sizes  []size
	width  int64   // of the widest board
	widths []int64 // of all boards, widest first
	kerf   int64
	clean  int64   // width lost at each ripped edge
	unit   float64 // money or mm in one whole unit of cost
	weight int64   // units of cost that one unit of money is: more than all boards
	priced bool
	short  int64 // pieces below this are short
	keep   int64 // offcuts from this length are kept; many if none is

	sections []section
	complete bool    // sections holds all there are
	grower   *grower // makes more sections, if there are too many to list
}

// newTask puts the pieces of one stock in whole numbers. picks are indices into
// the job of pieces that fit.
func newTask(job Job, stock Stock, picks []int, way rowing) *task {
	r := job.Rules
	t := &task{width: whole(stock.Width), kerf: whole(r.Kerf), clean: whole(r.EdgeCleanup), short: whole(r.Short), keep: whole(r.Keep)}
	sizes := t.sizesOf(stock, r.EndTrim)
	rows := job.rows(sizes, picks, way)
	for at, i := range picks {
		t.add(job.Pieces[i], i, rows[at])
	}
	t.sortKinds()
	t.addSizes(sizes)
	t.addCosts(stock)
	return t
}

// sortKinds puts the longest first, then the widest: what is hard to place is
// placed first.
func (t *task) sortKinds() {
	slices.SortStableFunc(t.kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(b.length, a.length), cmp.Compare(b.width, a.width))
	})
}

// add counts a piece with those of its size, pieces that match in their rows.
func (t *task) add(p Piece, index int, rows []int) {
	one := whole(p.Length) + t.kerf
	for count, spare := p.Count, p.Spare; count+spare > 0; {
		row := kind{width: whole(p.Width), run: 1}
		if len(rows) > 0 {
			row.run, rows = rows[0], rows[1:]
		}
		if row.run > 1 {
			row.match = index + 1 // else a row could get pieces of two parts of one size
		}
		row.length = int64(row.run)*one - t.kerf
		k := t.kindOf(row)
		for range row.run {
			if count > 0 {
				k.pieces = slices.Insert(k.pieces, k.spareFrom, index)
				k.spareFrom++
				count--
			} else {
				k.pieces = append(k.pieces, index)
				spare--
			}
		}
		k.want = len(k.pieces) / row.run
	}
}

// kindOf returns the kind that is like an empty one, a new one if there is none
// yet.
func (t *task) kindOf(like kind) *kind {
	at := slices.IndexFunc(t.kinds, func(k kind) bool {
		return k.length == like.length && k.width == like.width && k.run == like.run && k.match == like.match
	})
	if at < 0 {
		at = len(t.kinds)
		t.kinds = append(t.kinds, like)
	}
	return &t.kinds[at]
}

// sizesOf lists the boards: those on hand, cut at their bad stretches, and
// those that are sold.
func (t *task) sizesOf(stock Stock, trim float64) []size {
	var out []size
	add := func(s size, usable float64) {
		s.room = whole(usable) + t.kerf + grace
		out = append(out, s)
	}
	for h, board := range stock.OnHand {
		width := t.width
		if board.Width > 0 {
			width = whole(board.Width)
		}
		for _, clear := range clearRuns(board, trim) {
			add(size{limit: 1, sold: -1, hand: h, width: width, from: clear.From}, clear.To-clear.From)
		}
	}
	for i, sold := range stock.Lengths {
		limit := sold.Limit
		if limit <= 0 {
			limit = many
		}
		add(size{limit: limit, sold: i, hand: -1, width: t.width, from: trim}, sold.Length-2*trim)
	}
	return out
}

// addSizes keeps the boards in which at least one piece fits.
func (t *task) addSizes(all []size) {
	for _, s := range all {
		if slices.ContainsFunc(t.kinds, func(k kind) bool { return t.fits(k, s) }) {
			t.sizes = append(t.sizes, s)
		}
	}
	for _, s := range t.sizes {
		t.widths = append(t.widths, s.width)
	}
	slices.Sort(t.widths)
	slices.Reverse(t.widths)
	if t.widths = slices.Compact(t.widths); len(t.widths) > 0 {
		t.width = t.widths[0]
	}
}

// possible reports whether each piece fits in some board.
func (t *task) possible() bool {
	return !slices.ContainsFunc(t.kinds, func(k kind) bool {
		return !slices.ContainsFunc(t.sizes, func(s size) bool { return t.fits(k, s) })
	})
}

// fits reports whether a board is long and wide enough for a piece.
func (t *task) fits(k kind, s size) bool {
	return k.length+t.kerf <= s.room && t.single(k.width, s.width)
}

// clearRuns returns the stretches of a board between its trimmed ends and its
// bad stretches.
func clearRuns(b OnHand, trim float64) []Stretch {
	bad := slices.DeleteFunc(slices.Clone(b.Bad), func(s Stretch) bool { return s.To <= s.From })
	slices.SortFunc(bad, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
	bad = append(bad, Stretch{From: b.Length - trim, To: b.Length})
	var runs []Stretch
	at := trim
	for _, s := range bad {
		if s.From > at {
			runs = append(runs, Stretch{From: at, To: min(s.From, b.Length-trim)})
		}
		at = max(at, s.To)
	}
	return runs
}

// addCosts puts the prices in whole units. Each board adds one to the weighted
// cost, so that of two plans at one price the one with fewer boards wins.
func (t *task) addCosts(stock Stock) {
	t.priced = !slices.ContainsFunc(stock.Lengths, func(s Sold) bool { return s.Price <= 0 })
	const tenths = 10 // lengths are kept to 0.1 mm
	cents := t.cents(stock)
	var step int64
	for i := range t.sizes {
		s := &t.sizes[i]
		switch {
		case s.sold < 0:
			s.cost = 0
		case t.priced:
			s.cost = int64(math.Round(stock.Lengths[s.sold].Price * cents))
		default:
			s.cost = int64(math.Round(stock.Lengths[s.sold].Length * tenths))
		}
		step = gcd(step, s.cost)
	}
	step = max(step, 1)
	t.unit = float64(step) / cents
	if !t.priced {
		t.unit = float64(step) / tenths
	}
	// There are never more boards than pieces.
	t.weight = 1
	for _, k := range t.kinds {
		t.weight += int64(k.want)
	}
	for i := range t.sizes {
		t.sizes[i].cost = t.sizes[i].cost/step*t.weight + 1
	}
}

// cents is how many parts of one unit of money prices are kept to: a cent, and
// coarser where prices are so high that their sums would not be whole numbers.
func (t *task) cents(stock Stock) float64 {
	const cent, highest = 100, 1e11 // times pieces and boards, below what an int64 holds
	dearest := 1.0
	for _, s := range stock.Lengths {
		dearest = max(dearest, s.Price)
	}
	return min(cent, highest/dearest)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// wants returns how many of each kind are wanted.
func (t *task) wants() []int {
	d := make([]int, len(t.kinds))
	for i, k := range t.kinds {
		d[i] = k.want
	}
	return d
}

// limits returns how many boards of each size can be had.
func (t *task) limits() []int {
	l := make([]int, len(t.sizes))
	for i, s := range t.sizes {
		l[i] = s.limit
	}
	return l
}
