package cutting

import (
	"cmp"
	"slices"
)

// An answer is what was found for one stock: boards for the pieces of a job,
// and pieces that lie on bad stretches of boards on hand already.
type answer struct {
	job   Job
	t     *task
	s     *search
	rough []roughSpot
	runs  []OnHand // boards on hand, with the places of the rough pieces as bad stretches
	low   float64  // money, or mm of an unpriced stock, that no plan beats
	sure  bool     // low comes from elsewhere: boards without bad stretches, or all ways of pairing

	asked Job   // with the blanks for two that were settled on, rough pieces included
	picks []int // its pieces of this stock
}

// A roughSpot is a bad stretch with the pieces that take it, side by side.
type roughSpot struct {
	hand         int
	from, length float64
	pieces       []int // index into the job
	spare        []bool
}

// answer plans one stock. Where boards on hand have bad stretches that not every
// piece may lie on it plans more than once, first keeping clear of them and then
// with pieces over them that may lie there, and takes the cheapest plan. What
// all are measured by is the bound for the same boards without a flaw.
func (job Job) answer(stock Stock, picks []int) answer {
	stock.OnHand = job.flawed(stock.OnHand, picks)
	best := answer{job: job, runs: stock.OnHand}
	best.t, best.s = solve(job, stock, picks)
	flawed := slices.ContainsFunc(stock.OnHand, func(b OnHand) bool { return len(b.Bad) > 0 })
	if !flawed || best.s.found && best.s.bestCost <= int64(len(best.s.best)) {
		return best
	}
	sound := stock
	sound.OnHand = slices.Clone(stock.OnHand)
	for i := range sound.OnHand {
		sound.OnHand[i].Bad = nil
	}
	t, s := solve(job, sound, picks)
	low := 0.0
	if s.found {
		low = float64(s.ladder.money(s.low)) * t.unit
	}
	for _, early := range []bool{false, true} {
		over := job.answerOver(stock, picks, early)
		if len(over.rough) > 0 && over.s.found && (!best.s.found || over.cost() < best.cost() || !early && over.cost() == best.cost()) {
			best = over
		}
	}
	best.low, best.sure = low, true
	return best
}

// answerOver plans one stock with pieces over the bad stretches.
func (job Job) answerOver(stock Stock, picks []int, early bool) (a answer) {
	var cut Stock
	a.job, cut, a.rough = job.overRough(stock, picks, early)
	a.runs = cut.OnHand
	a.t, a.s = solve(a.job, cut, slices.DeleteFunc(slices.Clone(picks), func(i int) bool {
		return a.job.Pieces[i].Count+a.job.Pieces[i].Spare == 0
	}))
	return a
}

// flawed returns the boards with those bad stretches that matter: a knot in one
// face is none where no piece needs clear wood.
func (job Job) flawed(boards []OnHand, picks []int) []OnHand {
	out := slices.Clone(boards)
	for i := range out {
		out[i].Bad = slices.DeleteFunc(slices.Clone(out[i].Bad), func(s Stretch) bool {
			return !slices.ContainsFunc(picks, func(p int) bool { return !s.takes(job.Pieces[p].Face) })
		})
	}
	return out
}

// cost is what the boards cost that are bought, or their length.
func (a answer) cost() float64 { return float64(a.s.bestCost/a.t.weight) * a.t.unit }

// overRough puts pieces over the bad stretches of boards on hand: on each the
// shortest that covers it, as many as lie side by side, beginning where it begins
// or as early as they can. Pieces that match stay with their like. It returns the
// job and the stock for the rest, where the pieces' places count as bad.
func (job Job) overRough(stock Stock, picks []int, early bool) (Job, Stock, []roughSpot) {
	job.Pieces, stock.OnHand = slices.Clone(job.Pieces), slices.Clone(stock.OnHand)
	var spots []roughSpot
	for h := range stock.OnHand {
		board := &stock.OnHand[h]
		if board.Width <= 0 {
			board.Width = stock.Width
		}
		bad := slices.Clone(board.Bad)
		slices.SortFunc(bad, func(a, b Stretch) int { return cmp.Compare(a.From, b.From) })
		board.Bad = slices.Clone(bad)
		start := job.Rules.EndTrim
		for i, stretch := range bad {
			end := board.Length - job.Rules.EndTrim
			if i+1 < len(bad) {
				end = min(end, bad[i+1].From-job.Rules.Kerf)
			}
			spot, ok := job.over(stretch, picks, window{start, end, board.Width, early})
			start = max(start, stretch.To)
			if !ok {
				continue
			}
			spot.hand = h
			board.Bad[i] = Stretch{From: spot.from - job.Rules.Kerf, To: spot.from + spot.length + job.Rules.Kerf}
			start = max(start, board.Bad[i].To)
			spots = append(spots, spot)
		}
	}
	return job, stock, spots
}

// A window is the part of a board that a piece over a bad stretch may take.
type window struct {
	from, to, width float64
	early           bool // it lies as far to the left as it can
}

// over takes the pieces for one bad stretch out of the job.
func (job *Job) over(bad Stretch, picks []int, w window) (roughSpot, bool) {
	from, to := max(bad.From, w.from), min(bad.To, w.to)
	best := -1
	for _, i := range picks {
		p := job.Pieces[i]
		if p.Count+p.Spare == 0 || p.Match || !bad.takes(p.Face) || p.Length < to-from || p.Length > w.to-w.from || job.abreast(p, w.width) == 0 {
			continue
		}
		if best < 0 || p.Length < job.Pieces[best].Length {
			best = i
		}
	}
	if best < 0 || bad.To > w.to+fine || bad.From < w.from-fine {
		return roughSpot{}, false
	}
	p := &job.Pieces[best]
	spot := roughSpot{from: min(from, w.to-p.Length), length: p.Length}
	if w.early {
		spot.from = max(w.from, to-p.Length)
	}
	for n := job.abreast(*p, w.width); n > 0 && p.Count+p.Spare > 0; n-- {
		spot.pieces, spot.spare = append(spot.pieces, best), append(spot.spare, p.Count == 0)
		if p.Count > 0 {
			p.Count--
		} else {
			p.Spare--
		}
	}
	return spot, true
}

// abreast is how many pieces lie side by side on a width.
func (job *Job) abreast(p Piece, width float64) int {
	t := task{kerf: whole(job.Rules.Kerf), clean: whole(job.Rules.EdgeCleanup)}
	if !t.single(whole(p.Width), whole(width)) {
		return 0
	}
	n := 1
	for widths := []int64{whole(p.Width), whole(p.Width)}; t.need(widths) <= whole(width)+grace; n++ {
		widths = append(widths, whole(p.Width))
	}
	return n
}

// onRough lays the pieces over bad stretches on their boards.
func (b *bench) onRough(spots []roughSpot, boards []Board, hand map[int]int) []Board {
	for _, s := range spots {
		at, known := hand[s.hand]
		if !known {
			at = len(boards)
			hand[s.hand] = at
			boards = append(boards, b.board(size{hand: s.hand, sold: -1}))
		}
		b.laySpot(&boards[at], s)
	}
	return boards
}

// laySpot puts the pieces of one bad stretch on a board, with a cut before and
// after them.
func (b *bench) laySpot(board *Board, s roughSpot) {
	r := b.job.Rules
	if s.from > 0 {
		board.Cuts = append(board.Cuts, Cut{Kind: Crosscut, At: max(0, s.from-r.Kerf), To: board.Width})
	}
	if end := s.from + s.length; end < board.Length-fine {
		board.Cuts = append(board.Cuts, Cut{Kind: Crosscut, At: end, To: board.Width})
	}
	across, first := 0.0, 0.0
	all := float64(len(s.pieces))*(b.job.Pieces[s.pieces[0]].Width+r.Kerf+2*r.EdgeCleanup) - r.Kerf
	if all < board.Width+fine {
		first = r.EdgeCleanup // as wide as the others
	}
	for i, at := range s.pieces {
		p := b.job.Pieces[at]
		low, rip := max(0, across-r.EdgeCleanup), min(across+p.Width+r.EdgeCleanup, board.Width)
		if i == 0 {
			rip = min(rip+first, board.Width)
		}
		placed := b.placed(at, s.spare[i])
		placed.Along, placed.Across, placed.Sawn = s.from, across, rip-low
		board.Pieces = append(board.Pieces, placed)
		if rip < board.Width-fine {
			board.Cuts = append(board.Cuts, Cut{Kind: Rip, At: rip, From: s.from, To: s.from + s.length})
		}
		across = rip + r.Kerf + r.EdgeCleanup
	}
	across -= r.EdgeCleanup
	board.offcut(Offcut{Along: s.from, Across: across, Length: s.length, Width: board.Width - across}, r.Keep)
}

// leftRuns notes the clear runs of boards on hand that no section was cut from:
// they are offcuts as a whole.
func (b *bench) leftRuns(planks []plank, boards []Board, hand map[int]int) {
	for h, on := range b.runs {
		at, used := hand[h]
		if !used {
			continue
		}
		for _, run := range clearRuns(on, b.job.Rules.EndTrim) {
			cut := slices.ContainsFunc(planks, func(p plank) bool {
				s := b.t.sizes[p.size]
				return s.hand == h && s.from > run.From-fine && s.from < run.From+fine
			})
			if !cut {
				boards[at].offcut(Offcut{Along: run.From, Length: run.To - run.From, Width: boards[at].Width}, b.job.Rules.Keep)
			}
		}
	}
}

// tidy drops a cut that is made already: where two runs of a board meet, the
// end of the one is the beginning of the other.
func tidy(b *Board) {
	var kept []Cut
	for _, c := range b.Cuts {
		same := func(o Cut) bool {
			return (o.Kind == Rip) == (c.Kind == Rip) && o.From <= c.From+fine && o.To >= c.To-fine && o.At > c.At-fine && o.At < c.At+fine
		}
		if !slices.ContainsFunc(kept, same) {
			kept = append(kept, c)
		}
	}
	b.Cuts = kept
}
