package cutting

import (
	"cmp"
	"slices"
)

// Pack plans the boards for a job. Every piece is on exactly one board or
// named, with its number and a fix, in the plan's Left; what is left does not
// keep the others from being planned.
func Pack(job Job) Plan {
	plan := Plan{Rules: job.Rules}
	picks := make([][]int, len(job.Stocks))
	for i, p := range job.Pieces {
		at := slices.IndexFunc(job.Stocks, func(s Stock) bool { return s.Key == p.Stock })
		if bad, misfit := job.with(at).misfit(p, at); misfit {
			plan.Left = append(plan.Left, bad)
			continue
		}
		if p.Count+p.Spare > 0 {
			picks[at] = append(picks[at], i)
		}
	}
	proved := true
	for i, stock := range job.Stocks {
		if len(picks[i]) == 0 {
			continue
		}
		plan.addStock(job.with(i), stock, picks[i])
		result := plan.Stocks[len(plan.Stocks)-1]
		proved = proved && result.Bound.Proved
	}
	for _, row := range plan.Buying {
		plan.Cost += row.Cost
	}
	spare := plan.Cost
	for _, r := range plan.Stocks {
		plan.Bound.Cost += r.Bound.Cost
		spare -= r.Cost
	}
	plan.Bound.Cost += spare // spare boards are bought whatever the layout
	plan.Bound.Proved = proved
	plan.Waste = waste(plan.Boards)
	return plan
}

// with returns the job under the rules of the stock at a place.
func (job Job) with(at int) Job {
	if at >= 0 && job.Stocks[at].Cleanup > 0 {
		job.Rules.EdgeCleanup = job.Stocks[at].Cleanup
	}
	return job
}

// misfit says what is wrong with a piece for the stock at a place.
func (job Job) misfit(p Piece, at int) (Misfit, bool) {
	bad := Misfit{Piece: p, Count: p.Count + p.Spare}
	if at < 0 || len(job.Stocks[at].Lengths)+len(job.Stocks[at].OnHand) == 0 {
		return bad, true
	}
	s, r := job.Stocks[at], job.Rules
	if !(p.Length > 0 && p.Width > 0) || p.Count < 0 || p.Spare < 0 {
		bad.Why = BadSize
		return bad, true
	}
	length, width := whole(p.Length), whole(p.Width)
	if width > whole(s.Width)+grace {
		bad.Why, bad.Asked, bad.Has = TooWide, p.Width, s.Width
		return bad, true
	}
	if width < whole(s.Width)-grace && width+whole(r.EdgeCleanup) > whole(s.Width)+grace {
		bad.Why, bad.Asked, bad.Has = NoCleanup, p.Width+r.EdgeCleanup, s.Width
		return bad, true
	}
	if len(s.Lengths) == 0 && !slices.ContainsFunc(s.OnHand, func(b OnHand) bool { return job.wide(p, b.across(s)) }) {
		bad.Why, bad.Asked = TooWide, p.Width
		for _, b := range s.OnHand {
			bad.Has = max(bad.Has, b.across(s))
		}
		return bad, true
	}
	longest := job.longest(s, p)
	if length > whole(longest)+grace {
		bad.Why, bad.Asked, bad.Has = TooLong, p.Length, longest
		return bad, true
	}
	return bad, false
}

// across is how wide a board on hand is.
func (b OnHand) across(s Stock) float64 {
	if b.Width > 0 {
		return b.Width
	}
	return s.Width
}

// wide reports whether a board is wide enough for a piece.
func (job Job) wide(p Piece, board float64) bool {
	t := task{clean: whole(job.Rules.EdgeCleanup)}
	return t.single(whole(p.Width), whole(board))
}

// longest returns the longest usable length of a stock's boards that are wide
// enough for a piece.
func (job Job) longest(s Stock, p Piece) float64 {
	longest, trim := 0.0, job.Rules.EndTrim
	if job.wide(p, s.Width) {
		for _, sold := range s.Lengths {
			longest = max(longest, sold.Length-2*trim)
		}
	}
	for _, board := range s.OnHand {
		if !job.wide(p, board.across(s)) {
			continue
		}
		for _, run := range clearRuns(board, trim) {
			longest = max(longest, run.To-run.From)
		}
	}
	return longest
}

// addStock plans one stock and adds it to the plan.
func (plan *Plan) addStock(job Job, stock Stock, picks []int) {
	a := job.best(stock, picks)
	if !a.s.found {
		plan.soldOut(job, stock, picks)
		return
	}
	b := bench{job: a.job, stock: stock, t: a.t, runs: a.runs}
	boards := b.steady(a.t.planks(a.s.best), a.rough)
	plan.Boards = append(plan.Boards, boards...)
	plan.Buying = append(plan.Buying, b.buying(boards, true)...)
	plan.Stocks = append(plan.Stocks, b.result(a, boards))
	if job.Rules.Alternatives {
		plan.addAlternatives(a, stock, boards)
	}
}

// solve finds the patterns for one stock. Rows of pieces that match are as long
// as the boards allow.
func solve(job Job, stock Stock, picks []int) (t *task, s *search) {
	work := job.Rules.Work
	if work <= 0 {
		work = defaultWork
	}
	for _, way := range job.rowings(picks) {
		t = newTask(job, stock, picks, way)
		t.listSections()
		if s = t.pack(work); s.found {
			break
		}
	}
	return t, s
}

// soldOut names the pieces of a stock that cannot all be cut from the boards
// that can be had, by planning for one piece less until the rest fits.
func (plan *Plan) soldOut(job Job, stock Stock, picks []int) {
	asked := job.Pieces
	job.Pieces = slices.Clone(asked)
	lost := make([]int, len(job.Pieces))
	for len(picks) > 0 {
		i := picks[len(picks)-1]
		p := &job.Pieces[i]
		if p.Spare > 0 {
			p.Spare--
		} else {
			p.Count--
		}
		lost[i]++
		if p.Count+p.Spare == 0 {
			picks = picks[:len(picks)-1]
		}
		if len(picks) == 0 {
			break
		}
		if job.best(stock, picks).s.found {
			break
		}
	}
	for i, n := range lost {
		if n > 0 {
			plan.Left = append(plan.Left, Misfit{Piece: asked[i], Why: SoldOut, Count: n})
		}
	}
	if len(picks) == 0 {
		plan.Stocks = append(plan.Stocks, Result{Stock: stock.Key})
		return
	}
	plan.addStock(job, stock, picks)
}

// result sums up one stock.
func (b *bench) result(a answer, boards []Board) Result {
	s := a.s
	r := Result{Stock: b.stock.Key, Priced: b.t.priced, Waste: waste(boards)}
	for _, board := range boards {
		r.Cost += board.Cost
		if !board.OnHand {
			r.Length += board.Length
		}
	}
	low := float64(s.ladder.money(s.low)) * b.t.unit
	r.Bound.Proved = s.ladder.money(s.low) >= s.bestCost/b.t.weight
	if a.sure {
		low = a.low
		r.Bound.Proved = a.cost() <= low+1e-6
	}
	if b.t.priced {
		r.Bound.Cost = min(low, r.Cost)
		if r.Bound.Proved {
			r.Bound.Cost = r.Cost
		}
		return r
	}
	r.Least = min(low, r.Length)
	return r
}

// buying counts the bought boards by length, shortest first, with the spare ones.
func (b *bench) buying(boards []Board, spares bool) []Buy {
	var rows []Buy
	add := func(length, cost float64, spare int) {
		at := slices.IndexFunc(rows, func(r Buy) bool { return r.Length == length })
		if at < 0 {
			at = len(rows)
			rows = append(rows, Buy{Stock: b.stock.Key, Length: length})
		}
		rows[at].Quantity++
		rows[at].Spare += spare
		rows[at].Cost += cost
	}
	for _, board := range boards {
		if !board.OnHand {
			add(board.Length, board.Cost, 0)
		}
	}
	if spares {
		for _, sold := range b.spareBoards(rows) {
			add(sold.Length, sold.Price, 1)
		}
	}
	slices.SortFunc(rows, func(x, y Buy) int { return cmp.Compare(x.Length, y.Length) })
	return rows
}

// spareBoards returns what is bought beyond the layout: the cheapest length that
// takes the longest piece, as far as the yard has more of it than the rows say,
// then other lengths, those that take that piece first.
func (b *bench) spareBoards(rows []Buy) []Sold {
	lengths := slices.Clone(b.stock.Lengths)
	for i := range lengths {
		if !b.t.priced {
			lengths[i].Price = 0
		}
	}
	longest := int64(0)
	for _, k := range b.t.kinds {
		longest = max(longest, (k.length+b.t.kerf)/int64(k.run)-b.t.kerf)
	}
	short := func(s Sold) int {
		if whole(s.Length-2*b.job.Rules.EndTrim)+grace < longest {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(lengths, func(x, y Sold) int {
		return cmp.Or(cmp.Compare(short(x), short(y)), cmp.Compare(x.Price, y.Price), cmp.Compare(x.Length, y.Length))
	})
	var out []Sold
	for _, sold := range lengths {
		left := b.stock.Spare - len(out)
		if sold.Limit > 0 {
			left = min(left, sold.Limit)
			if at := slices.IndexFunc(rows, func(r Buy) bool { return r.Length == sold.Length }); at >= 0 {
				left = min(left, sold.Limit-rows[at].Quantity)
			}
		}
		out = append(out, slices.Repeat([]Sold{sold}, max(0, left))...)
	}
	return out
}

// addAlternatives plans one stock again without each length that was chosen,
// for a yard that lacks it. Pieces lie in pairs as in the plan.
func (plan *Plan) addAlternatives(a answer, stock Stock, boards []Board) {
	job, picks := a.asked, a.picks
	chosen := map[float64]bool{}
	for _, b := range boards {
		chosen[b.Length] = chosen[b.Length] || !b.OnHand
	}
	for i, sold := range stock.Lengths {
		other := stock
		other.Lengths = slices.Delete(slices.Clone(stock.Lengths), i, i+1)
		if !chosen[sold.Length] || len(other.Lengths) == 0 || !job.allFit(other, picks) {
			continue
		}
		o := job.answer(other, picks)
		if !o.s.found {
			continue
		}
		b := bench{job: o.job, stock: other, t: o.t, runs: o.runs}
		boards := b.boards(o.t.planks(o.s.best), o.rough)
		alt := Alternative{Stock: stock.Key, Without: sold.Length, Buying: b.buying(boards, false), Boards: boards}
		for _, row := range alt.Buying {
			alt.Cost += row.Cost
		}
		plan.Alternatives = append(plan.Alternatives, alt)
	}
}

// allFit reports whether each of the pieces fits some length of a stock.
func (job Job) allFit(s Stock, picks []int) bool {
	return !slices.ContainsFunc(picks, func(i int) bool {
		p := job.Pieces[i]
		return whole(p.Length) > whole(job.longest(s, p))+grace
	})
}
