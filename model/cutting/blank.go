package cutting

import (
	"math"
	"slices"
)

// A Nest tells how two tapered pieces lie in one blank, head to tail with one
// slanted saw cut between them: the upper one is the lower one turned half
// round about the middle of the blank. Lengths are mm.
type Nest struct {
	Key    string  // pieces with one key have one shape and share a blank; "" for none
	Width  float64 // of the blank for two
	Start  float64 // from the blank's lower edge to the slanted cut, at its left end
	Stop   float64 // the same at its right end
	Turned bool    // it is the lower piece that is turned, not the upper one
	Most   int     // pairs that may be made of pieces with this key; 0 is as many as there are
}

// A member is one of the two pieces of a blank: its place in the job.
type member struct {
	piece int
	spare bool
}

// A Blank is a rectangle that two tapered pieces are cut from.
type Blank struct {
	Along, Across, Length, Width float64
	Sawn                         float64 // width as it comes off the saw
	Cut                          int     // number of the slanted cut
}

// A nestGroup is all pieces of a job that may lie in blanks with each other,
// those that are needed first, and how many pairs of them are tried.
type nestGroup struct {
	members []member
	most    int
}

// nestGroups finds the pieces that a stock has a blank for: a board long and wide
// enough for the two together, and the blank narrower than both side by side.
func (job Job) nestGroups(stock Stock, picks []int) []nestGroup {
	r := job.Rules
	var keys []string
	var groups []nestGroup
	for _, spare := range []bool{false, true} {
		for _, i := range picks {
			p := job.Pieces[i]
			n := p.Nest
			if n.Key == "" || p.Match || n.Width > 2*p.Width+r.Kerf+2*r.EdgeCleanup-fine {
				continue
			}
			both := p
			if both.Width = n.Width; job.longest(stock, both) < p.Length-fine {
				continue
			}
			at := slices.Index(keys, n.Key)
			if at < 0 {
				at = len(keys)
				keys = append(keys, n.Key)
				groups = append(groups, nestGroup{most: n.Most})
			}
			groups[at].members = append(groups[at].members, p.members(i, spare)...)
		}
	}
	for i := range groups {
		g := &groups[i]
		pairs := len(g.members) / 2
		if g.most == 0 || g.most > pairs {
			g.most = pairs
		}
	}
	return slices.DeleteFunc(groups, func(g nestGroup) bool { return g.most == 0 })
}

// members lists the needed pieces of a kind, or its spare ones.
func (p Piece) members(at int, spare bool) []member {
	n := p.Count
	if spare {
		n = p.Spare
	}
	return slices.Repeat([]member{{at, spare}}, n)
}

// paired returns the job with so many pairs of each group in blanks of their
// own, and the pieces that are then to be cut.
func (job Job) paired(groups []nestGroup, picks, pairs []int) (Job, []int) {
	job.Pieces = slices.Clone(job.Pieces)
	whole := slices.Clone(picks)
	for g, n := range pairs {
		for two := range slices.Chunk(groups[g].members[:2*n], 2) {
			blank := job.Pieces[two[0].piece]
			blank.Count, blank.Spare, blank.Width = 1, 0, blank.Nest.Width
			blank.two = slices.Clone(two)
			for _, m := range two {
				if p := &job.Pieces[m.piece]; m.spare {
					p.Spare--
				} else {
					p.Count--
				}
			}
			whole = append(whole, len(job.Pieces))
			job.Pieces = append(job.Pieces, blank)
		}
	}
	return job, slices.DeleteFunc(whole, func(i int) bool { return job.Pieces[i].Count+job.Pieces[i].Spare == 0 })
}

// How far pairing goes: so many ways of so few pieces are all planned; beyond so
// many pieces only those without pairs and with all of them.
const (
	mostWays   = 12
	fewPieces  = 40
	mostPieces = 120
)

// best plans one stock with tapered pieces each by itself and head to tail in
// pairs, and takes what costs least, then has the fewest boards, then the fewest
// pairs: a pair is more work for the builder. What it is measured by is the
// least bound of all the ways, or the wood itself where not all were planned.
func (job Job) best(stock Stock, picks []int) answer {
	plain := job.raised(job.answer(stock, picks), stock, picks)
	plain.asked, plain.picks = job, picks
	groups := job.nestGroups(stock, picks)
	if len(groups) == 0 {
		return plain
	}
	w := pairings{job: job, stock: stock, picks: picks, groups: groups, best: plain, low: plain.least()}
	if w.count() <= mostWays && job.count(picks) <= fewPieces {
		w.tryAll(make([]int, len(groups)), 0)
	} else {
		w.trySome()
		w.low = min(w.low, job.wood(stock, picks))
	}
	w.best.low, w.best.sure = w.low, true
	return w.best
}

// pairings is the search for the pairs that a stock is cut with.
type pairings struct {
	job    Job
	stock  Stock
	picks  []int
	groups []nestGroup
	best   answer
	low    float64
}

// count is how many ways there are.
func (w *pairings) count() int {
	n := 1
	for _, g := range w.groups {
		n = min(n*(g.most+1), mostWays+1)
	}
	return n
}

// try plans with so many pairs of each group.
func (w *pairings) try(pairs []int) answer {
	job, picks := w.job.paired(w.groups, w.picks, pairs)
	a := job.raised(job.answer(w.stock, picks), w.stock, picks)
	a.asked, a.picks = job, picks
	if a.s.found {
		w.low = min(w.low, a.least())
	}
	if a.beats(w.best) {
		w.best = a
	}
	return a
}

// count is how many pieces there are, spare ones included.
func (job Job) count(picks []int) int {
	n := 0
	for _, i := range picks {
		n += job.Pieces[i].Count + job.Pieces[i].Spare
	}
	return n
}

// tryAll plans every number of pairs, few before many, so that of equal plans
// the one with fewer stays.
func (w *pairings) tryAll(pairs []int, at int) {
	if at == len(pairs) {
		if slices.Max(pairs) > 0 {
			w.try(slices.Clone(pairs))
		}
		return
	}
	for n := range w.groups[at].most + 1 {
		pairs[at] = n
		w.tryAll(pairs, at+1)
	}
}

// trySome takes one group after the other: all its pairs, and if that is
// better, the fewest that are as good, found by halving.
func (w *pairings) trySome() {
	pieces := w.job.count(w.picks)
	pairs := make([]int, len(w.groups))
	for g, group := range w.groups {
		before := w.best
		pairs[g] = group.most
		all := w.try(pairs)
		if !all.beats(before) {
			pairs[g] = 0
			continue
		}
		few, many := 0, group.most
		for many-few > 1 && pieces <= mostPieces {
			pairs[g] = (few + many) / 2
			if half := w.try(pairs); all.beats(half) {
				few = pairs[g]
			} else {
				many, w.best = pairs[g], half
			}
		}
		pairs[g] = many
	}
}

// beats reports whether a is a plan that costs less than b, or as much on fewer
// boards.
func (a answer) beats(b answer) bool {
	if !a.s.found || !b.s.found {
		return a.s.found && !b.s.found
	}
	const cent = 0.005
	if d := a.cost() - b.cost(); math.Abs(d) > cent {
		return d < 0
	}
	return a.boards() < b.boards()
}

// boards is how many boards, or clear runs of boards on hand, are used.
func (a answer) boards() int64 { return a.s.bestCost % a.t.weight }

// least is the money, or mm of an unpriced stock, that no plan for these pieces
// beats.
func (a answer) least() float64 {
	if a.sure {
		return a.low
	}
	return float64(a.s.ladder.money(a.s.low)) * a.t.unit
}

// wood is a cost that no way of cutting beats, in pairs or not: the area of the
// pieces, of which a pair takes at least half its blank each, from the board
// that has most for its price. Boards on hand come first and cost nothing.
func (job Job) wood(stock Stock, picks []int) float64 {
	area := 0.0
	for _, i := range picks {
		p := job.Pieces[i]
		width := p.Width
		if p.Nest.Key != "" {
			width = min(width, p.Nest.Width/2)
		}
		area += float64(p.Count+p.Spare) * p.Length * width
	}
	for _, b := range stock.OnHand {
		area -= b.Length * max(b.Width, stock.Width)
	}
	rate, priced := math.Inf(1), true
	for _, s := range stock.Lengths {
		priced = priced && s.Price > 0
	}
	for _, s := range stock.Lengths {
		if !priced {
			s.Price = s.Length
		}
		rate = min(rate, s.Price/(s.Length*stock.Width))
	}
	if area <= 0 || math.IsInf(rate, 1) {
		return 0
	}
	return area * rate
}

// unfold puts the two pieces of each blank of a board in its place, with the
// slanted cut between them.
func (b *bench) unfold(board *Board) {
	var pieces []Placed
	for _, q := range board.Pieces {
		if q.blank == 0 {
			pieces = append(pieces, q)
			continue
		}
		bp := b.job.Pieces[q.blank-1]
		board.Blanks = append(board.Blanks, Blank{Along: q.Along, Across: q.Across, Length: q.Length, Width: q.Width, Sawn: q.Sawn})
		board.Cuts = append(board.Cuts, Cut{Kind: Slant, At: q.Across + bp.Nest.Start, Stop: q.Across + bp.Nest.Stop, From: q.Along, To: q.Along + q.Length})
		for i, m := range bp.two {
			one := b.placed(m.piece, m.spare)
			one.Along, one.Across, one.Sawn = q.Along, q.Across, q.Sawn
			one.Pair, one.Turned = len(board.Blanks), bp.Nest.Turned != (i == 1)
			if i == 1 {
				one.Across = q.Across + q.Width - one.Width
			}
			pieces = append(pieces, one)
		}
	}
	board.Pieces = pieces
}
