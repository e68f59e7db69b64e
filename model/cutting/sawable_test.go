package cutting

import (
	"cmp"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A rect is a part of a board: x along, y across.
type rect struct{ x0, x1, y0, y1 float64 }

const near = 0.02 // mm

// requireSawable checks a plan with nothing but its boards and the job: it
// really makes the cuts in their order and looks at what falls apart.
func requireSawable(t require.TestingT, job Job, plan Plan) {
	for i := range plan.Boards {
		own := slices.IndexFunc(job.Stocks, func(s Stock) bool { return s.Key == plan.Boards[i].Stock })
		requireBoard(t, job.with(own), plan.Boards[i])
	}
	requireDemand(t, job, plan)
	requireShopping(t, job, plan)
}

// requireBoard saws one board and finds every piece whole among the parts.
func requireBoard(t require.TestingT, job Job, b Board) {
	kerf := job.Rules.Kerf
	parts := []rect{{0, b.Length, 0, b.Width}}
	for i, c := range b.Cuts {
		require.Equal(t, i+1, c.N, "cuts are numbered in order")
		rest := slices.ContainsFunc(b.Rests, func(r Rest) bool { return c.At > r.Along && c.At < r.Along+r.Length })
		if i > 0 && c.Kind <= Crosscut && !rest {
			require.LessOrEqual(t, b.Cuts[i-1].Kind, Crosscut, "crosscuts come before rips")
		}
		var cut int
		parts, cut = saw(parts, c, kerf)
		require.Equal(t, 1, cut, "cut %d (%v at %g) goes through exactly one part of %v", c.N, c.Kind, c.At, b)
	}
	for _, p := range b.Pieces {
		at := slices.IndexFunc(parts, func(r rect) bool {
			return r.x0 > p.Along-near && r.x1 < p.Along+p.Length+near+job.Rules.EdgeCleanup &&
				r.y0 < p.Across+near && r.y1 > p.Across+p.Width-near
		})
		require.GreaterOrEqual(t, at, 0, "piece %s at %g,%g does not come free", p.Code, p.Along, p.Across)
		r := parts[at]
		require.InDelta(t, p.Length, r.x1-r.x0, near, "piece %s is sawn to length", p.Code)
		over := (r.y1 - r.y0) - p.Width
		require.Less(t, over, 2*job.Rules.EdgeCleanup+near, "piece %s is sawn to width", p.Code)
		require.GreaterOrEqual(t, p.Along, b.Trim-near, "piece %s is in the end trim", p.Code)
		require.LessOrEqual(t, p.Along+p.Length, b.Length-b.Trim+near, "piece %s is in the end trim", p.Code)
		for _, bad := range b.Bad {
			require.False(t, p.Along < bad.To-near && p.Along+p.Length > bad.From+near && !(p.Face == "hidden" || p.Face == "" && bad.Face != ""),
				"piece %s is in a bad stretch", p.Code)
		}
		parts = slices.Delete(parts, at, at+1) // no part serves two pieces
	}
	for i, p := range b.Pieces {
		for _, q := range b.Pieces[i+1:] {
			along := max(p.Along, q.Along) - min(p.Along+p.Length, q.Along+q.Length)
			across := max(p.Across, q.Across) - min(p.Across+p.Width, q.Across+q.Width)
			require.GreaterOrEqual(t, max(along, across), kerf-near, "kerf between %s and %s", p.Code, q.Code)
		}
	}
}

// saw makes one cut through the part it is meant for, from edge to edge.
func saw(parts []rect, c Cut, kerf float64) ([]rect, int) {
	var out []rect
	cut := 0
	for _, r := range parts {
		lo, hi, from, to := r.x0, r.x1, r.y0, r.y1
		if c.Kind == Rip {
			lo, hi, from, to = r.y0, r.y1, r.x0, r.x1
		}
		inside := c.At > lo-near && c.At < hi-near && c.From < to-near && c.To > from+near
		if !inside {
			out = append(out, r)
			continue
		}
		cut++
		a, b := r, r
		if c.Kind == Rip {
			a.y1, b.y0 = c.At, c.At+kerf
		} else {
			a.x1, b.x0 = c.At, c.At+kerf
		}
		for _, part := range []rect{a, b} {
			if part.x1 > part.x0 && part.y1 > part.y0 {
				out = append(out, part)
			}
		}
	}
	return out, cut
}

// requireDemand counts the pieces of each code, spare ones apart.
func requireDemand(t require.TestingT, job Job, plan Plan) {
	type tally struct{ count, spare int }
	got := map[string]tally{}
	for _, b := range plan.Boards {
		for _, p := range b.Pieces {
			n := got[p.Code]
			if p.Spare {
				n.spare++
			} else {
				n.count++
			}
			got[p.Code] = n
		}
	}
	left := map[string]int{}
	for _, m := range plan.Left {
		left[m.Piece.Code] += m.Count
	}
	for _, p := range job.Pieces {
		n := got[p.Code]
		require.Equal(t, p.Count+p.Spare, n.count+n.spare+left[p.Code], "pieces of %s", p.Code)
		if left[p.Code] == 0 {
			require.Equal(t, p.Spare, n.spare, "spare pieces of %s", p.Code)
		}
		delete(got, p.Code)
	}
	require.Empty(t, got, "pieces that nobody asked for")
}

// requireShopping compares the shopping list with the boards.
func requireShopping(t require.TestingT, job Job, plan Plan) {
	type row struct {
		stock  string
		length float64
	}
	bought := map[row]int{}
	for _, b := range plan.Boards {
		if !b.OnHand {
			bought[row{b.Stock, b.Length}]++
		}
	}
	total := 0.0
	for _, r := range plan.Buying {
		require.Equal(t, bought[row{r.Stock, r.Length}], r.Quantity-r.Spare, "%s %g", r.Stock, r.Length)
		delete(bought, row{r.Stock, r.Length})
		total += r.Cost
		for _, s := range job.Stocks {
			for _, sold := range s.Lengths {
				if s.Key == r.Stock && sold.Length == r.Length && sold.Limit > 0 {
					require.LessOrEqual(t, r.Quantity-r.Spare, sold.Limit)
				}
			}
		}
	}
	require.Empty(t, bought, "boards that are not on the shopping list")
	require.InDelta(t, plan.Cost, total, 1e-6)
	require.True(t, slices.IsSortedFunc(plan.Stocks, func(a, b Result) int {
		at := func(key string) int { return slices.IndexFunc(job.Stocks, func(s Stock) bool { return s.Key == key }) }
		return cmp.Compare(at(a.Stock), at(b.Stock))
	}))
}

// recorder is a test that only remembers whether it failed.
type recorder struct{ failed bool }

func (r *recorder) Errorf(string, ...any) { r.failed = true }
func (r *recorder) FailNow()              { r.failed = true; runtime.Goexit() }

// caught reports whether the checker rejects a plan.
func caught(job Job, plan Plan) bool {
	r := &recorder{}
	done := make(chan struct{})
	go func() {
		defer close(done)
		requireSawable(r, job, plan)
	}()
	<-done
	return r.failed
}

// TestCheckerHasTeeth spoils a good plan in many ways; the checker that the
// other tests rely on must reject each.
func TestCheckerHasTeeth(t *testing.T) {
	job := chair()
	ripped := func(plan *Plan) *Board {
		return &plan.Boards[slices.IndexFunc(plan.Boards, func(b Board) bool {
			return slices.ContainsFunc(b.Cuts, func(c Cut) bool { return c.Kind == Rip })
		})]
	}
	spoil := map[string]func(plan *Plan){
		"piece moved":      func(p *Plan) { p.Boards[0].Pieces[0].Along += 1 },
		"piece longer":     func(p *Plan) { p.Boards[0].Pieces[0].Length += 1 },
		"piece wider":      func(p *Plan) { ripped(p).Pieces[0].Width += 20 },
		"piece lost":       func(p *Plan) { p.Boards[0].Pieces = p.Boards[0].Pieces[1:] },
		"piece twice":      func(p *Plan) { b := &p.Boards[0]; b.Pieces = append(b.Pieces, b.Pieces[0]) },
		"piece renamed":    func(p *Plan) { p.Boards[0].Pieces[0].Code = "Q" },
		"cut lost":         func(p *Plan) { b := ripped(p); b.Cuts = b.Cuts[:len(b.Cuts)-1] },
		"cut misplaced":    func(p *Plan) { p.Boards[0].Cuts[1].At += 1 },
		"cut stops inside": func(p *Plan) { b := ripped(p); slices.Reverse(b.Cuts) },
		"board not bought": func(p *Plan) { p.Buying = p.Buying[1:] },
		"price wrong":      func(p *Plan) { p.Cost++ },
		"kerf forgotten":   func(p *Plan) { p.Boards[0].Pieces[1].Along -= job.Rules.Kerf },
	}
	require.False(t, caught(job, Pack(job)))
	for what, f := range spoil {
		plan := Pack(job)
		f(&plan)
		require.True(t, caught(job, plan), what)
	}
}
