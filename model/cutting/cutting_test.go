package cutting

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const foot = 12 * inch

// chair is the timber of a deck chair: three stocks, few ripped pieces.
func chair() Job {
	return Job{
		Rules: InchRules(),
		Stocks: []Stock{
			{Key: "frame", Thick: inch, Width: 5.5 * inch, Lengths: []Sold{{8 * foot, 18.5, 0}, {10 * foot, 23.75, 0}}},
			{Key: "wide", Thick: inch, Width: 7.25 * inch, Lengths: []Sold{{6 * foot, 31, 0}}},
			{Key: "thin", Thick: 0.75 * inch, Width: 3.5 * inch, Lengths: []Sold{{6 * foot, 7.2, 0}, {8 * foot, 9.1, 0}}},
		},
		Pieces: []Piece{
			{Code: "A", Name: "stringer", Stock: "frame", Length: 41.5 * inch, Width: 5.5 * inch, Count: 2},
			{Code: "B", Name: "leg", Stock: "frame", Length: 21.5 * inch, Width: 5.5 * inch, Count: 2},
			{Code: "C", Name: "back rail", Stock: "frame", Length: 25 * inch, Width: 3.5 * inch, Count: 1},
			{Code: "D", Name: "batten", Stock: "frame", Length: 19 * inch, Width: 3.5 * inch, Count: 1, Face: "hidden"},
			{Code: "E", Name: "arm", Stock: "wide", Length: 28 * inch, Width: 6.5 * inch, Count: 2, Face: "clear"},
			{Code: "F", Name: "arm cap", Stock: "wide", Length: 3.5 * inch, Width: 3.5 * inch, Count: 2},
			{Code: "G", Name: "back slat", Stock: "thin", Length: 35.5 * inch, Width: 3.25 * inch, Count: 6, Spare: 1, Face: "clear"},
			{Code: "H", Name: "seat slat", Stock: "thin", Length: 20.875 * inch, Width: 2.5 * inch, Count: 5},
			{Code: "J", Name: "front slat", Stock: "thin", Length: 20.875 * inch, Width: 3.5 * inch, Count: 1},
		},
	}
}

func TestChairIsSawableAndProved(t *testing.T) {
	job := chair()
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	assert.True(t, plan.Bound.Proved)
	assert.InDelta(t, plan.Bound.Cost, plan.Cost, 1e-9)
	// Two 3-1/2 in caps and their kerf are 7-1/8 in: they share one short
	// section of the wide board, which leaves the longer offcut.
	at := slices.IndexFunc(plan.Boards, func(b Board) bool { return b.Stock == "wide" })
	longest := 0.0
	for _, o := range plan.Boards[at].Offcuts {
		if o.Width == 7.25*inch {
			longest = max(longest, o.Length)
		}
	}
	assert.InDelta(t, 72-1-2*28.125-3.625, longest/inch, 1e-6)
}

func TestSamePlanEachTime(t *testing.T) {
	assert.Equal(t, Pack(chair()), Pack(chair()))
}

// one returns a job of one stock with one sold length and a price.
func one(width, length float64, rules Rules, pieces ...Piece) Job {
	for i := range pieces {
		pieces[i].Stock = "s"
		if pieces[i].Code == "" {
			pieces[i].Code = "P" + strconv.Itoa(i)
		}
	}
	return Job{Rules: rules, Pieces: pieces, Stocks: []Stock{{Key: "s", Thick: 19, Width: width, Lengths: []Sold{{Length: length, Price: 10}}}}}
}

func TestKerfDecidesHowManyFit(t *testing.T) {
	// n pieces and n-1 kerfs fill a board exactly; a hair more needs another board.
	const kerf, n = 3.2, 4
	for _, c := range []struct {
		extra  float64
		boards int
	}{{0, 1}, {0.01, 2}} {
		job := one(100, n*500+(n-1)*kerf, Rules{Kerf: kerf}, Piece{Length: 500 + c.extra/n, Width: 100, Count: n})
		plan := Pack(job)
		requireSawable(t, job, plan)
		assert.Len(t, plan.Boards, c.boards)
	}
	// The same across: 2w + kerf <= width.
	for _, c := range []struct {
		width  float64
		boards int
	}{{48.4, 1}, {48.41, 2}} {
		job := one(100, 500, Rules{Kerf: kerf}, Piece{Length: 500, Width: c.width, Count: 2})
		plan := Pack(job)
		requireSawable(t, job, plan)
		assert.Len(t, plan.Boards, c.boards)
	}
}

func TestEachRippedEdgeNeedsItsCleanUp(t *testing.T) {
	// Two strips have two ripped edges between them.
	for _, c := range []struct {
		cleanup float64
		boards  int
	}{{1.5, 1}, {1.51, 2}} {
		job := one(100, 500, Rules{Kerf: 3, EdgeCleanup: c.cleanup}, Piece{Length: 500, Width: 47, Count: 2})
		plan := Pack(job)
		requireSawable(t, job, plan)
		assert.Len(t, plan.Boards, c.boards)
	}
}

func TestEndTrimIsLostAtBothEnds(t *testing.T) {
	for _, c := range []struct {
		trim float64
		left int
	}{{10, 0}, {10.1, 1}} {
		job := one(100, 520, Rules{Kerf: 3, EndTrim: c.trim}, Piece{Length: 500, Width: 100, Count: 1})
		plan := Pack(job)
		requireSawable(t, job, plan)
		assert.Len(t, plan.Left, c.left)
	}
}

func TestMisfitsSayNumbersAndFix(t *testing.T) {
	rules := Rules{Kerf: inch / 8, EndTrim: inch / 2, EdgeCleanup: inch / 8}
	job := one(5.5*inch, 8*foot, rules,
		Piece{Name: "arm", Length: 700, Width: 5.45 * inch, Count: 2},
		Piece{Name: "beam", Length: 8 * foot, Width: 5.5 * inch, Count: 1},
		Piece{Name: "shelf", Length: 700, Width: 8 * inch, Count: 1},
		Piece{Name: "ghost", Length: 0, Width: 5, Count: 1},
		Piece{Name: "leg", Length: 700, Width: 5.5 * inch, Count: 1},
	)
	job.Pieces = append(job.Pieces, Piece{Code: "Z", Name: "lost", Stock: "oak", Length: 1, Width: 1, Count: 1})
	plan := Pack(job)
	require.Len(t, plan.Left, 5)
	requireSawable(t, job, plan)
	assert.Len(t, plan.Boards, 1, "what fits is still planned")
	want := []struct {
		why        Why
		asked, has float64
	}{
		{NoCleanup, 5.575 * inch, 5.5 * inch}, {TooLong, 8 * foot, 8*foot - inch}, {TooWide, 8 * inch, 5.5 * inch},
		{BadSize, 0, 0}, {NoStock, 0, 0},
	}
	for i, w := range want {
		m := plan.Left[i]
		assert.Equal(t, w.why, m.Why)
		assert.InDelta(t, w.asked, m.Asked, 1e-9)
		assert.InDelta(t, w.has, m.Has, 1e-9)
		assert.Contains(t, m.Error(), m.Piece.Name)
		assert.NotEmpty(t, m.Fix())
	}
	assert.Contains(t, plan.Left[0].Error(), "139.7")
	assert.Contains(t, plan.Left[1].Fix(), "25.4")
}

func TestLimitedBoardsThatDoNotSuffice(t *testing.T) {
	job := one(100, 1000, Rules{Kerf: 3}, Piece{Length: 400, Width: 100, Count: 7}, Piece{Length: 300, Width: 100, Count: 1})
	job.Stocks[0].Lengths[0].Limit = 3
	plan := Pack(job)
	requireSawable(t, job, plan)
	lost := 0
	for _, m := range plan.Left {
		assert.Equal(t, SoldOut, m.Why)
		lost += m.Count
	}
	// Three boards take two pieces each.
	assert.Equal(t, 2, lost)
	assert.Len(t, plan.Boards, 3)
}

func TestBoardsOnHandAreUsedFirstAndRoundBadStretches(t *testing.T) {
	job := one(100, 2000, Rules{Kerf: 3, EndTrim: 10}, Piece{Length: 450, Width: 100, Count: 5})
	job.Stocks[0].OnHand = []OnHand{{Name: "shed 1", Length: 1500, Bad: []Stretch{{From: 600, To: 700}}}}
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	// The board on hand has 590 mm before the bad stretch and 790 after it:
	// one piece each. The bought one takes four.
	assert.Equal(t, 10.0, plan.Cost)
	require.Len(t, plan.Boards, 2)
	named := 0
	for _, b := range plan.Boards {
		if b.Name == "shed 1" {
			named++
			assert.Zero(t, b.Cost)
			assert.NotEmpty(t, b.Pieces)
		}
	}
	assert.Equal(t, 1, named)
}

func TestFewestBoardsAmongEqualCosts(t *testing.T) {
	job := one(100, 4000, Rules{Kerf: 3}, Piece{Length: 900, Width: 100, Count: 4})
	job.Stocks[0].Lengths = []Sold{{2000, 10, 0}, {4000, 20, 0}}
	plan := Pack(job)
	requireSawable(t, job, plan)
	assert.Equal(t, 20.0, plan.Cost)
	assert.Len(t, plan.Boards, 1, "one long board rather than two short ones")
}

func TestOffcutsComeTogether(t *testing.T) {
	// Three boards are needed, none empty: the longest offcut there can be is a
	// board less one short piece.
	job := one(100, 1000, Rules{Keep: 300}, Piece{Length: 400, Width: 100, Count: 3}, Piece{Length: 290, Width: 100, Count: 3})
	plan := Pack(job)
	requireSawable(t, job, plan)
	longest := 0.0
	for _, b := range plan.Boards {
		for _, o := range b.Offcuts {
			longest = max(longest, o.Length)
		}
	}
	assert.InDelta(t, 1000-290, longest, 1e-9)
}

func TestUnpricedStockIsPlannedByLength(t *testing.T) {
	job := one(100, 3000, Rules{Kerf: 3}, Piece{Length: 950, Width: 100, Count: 3})
	job.Stocks[0].Lengths = []Sold{{Length: 2000}, {Length: 3000}}
	plan := Pack(job)
	requireSawable(t, job, plan)
	assert.Zero(t, plan.Cost)
	require.Len(t, plan.Stocks, 1)
	assert.False(t, plan.Stocks[0].Priced)
	assert.Equal(t, 3000.0, plan.Stocks[0].Length)
	assert.InDelta(t, 3000, plan.Stocks[0].Least, 1e-6)
}

func TestSpareBoardsAndAlternatives(t *testing.T) {
	job := chair()
	job.Stocks[2].Spare = 1
	plan := Pack(job)
	requireSawable(t, job, plan)
	without := Pack(chair())
	assert.InDelta(t, 7.2, plan.Cost-without.Cost, 1e-9, "a spare board of the cheapest length that takes a slat")
	assert.InDelta(t, 7.2, plan.Bound.Cost-without.Bound.Cost, 1e-9)
	require.NotEmpty(t, plan.Alternatives)
	for _, alt := range plan.Alternatives {
		for _, row := range alt.Buying {
			assert.NotEqual(t, alt.Without, row.Length)
		}
		for _, r := range plan.Stocks {
			if r.Stock == alt.Stock {
				assert.GreaterOrEqual(t, alt.Cost, r.Bound.Cost-1e-9, "fewer lengths cannot be cheaper")
			}
		}
	}
}

func TestWasteAndAreasBalance(t *testing.T) {
	plan := Pack(chair())
	bought, pieces := 0.0, 0.0
	for _, b := range plan.Boards {
		area, used := b.Length*b.Width, 0.0
		for _, p := range b.Pieces {
			used += p.Length * p.Width
		}
		bought, pieces = bought+area, pieces+used
		for _, o := range b.Offcuts {
			if o.Keep {
				used += o.Length * o.Width
			}
		}
		assert.InDelta(t, 1-used/area, b.Waste, 1e-9)
	}
	assert.LessOrEqual(t, plan.Waste, 1-pieces/bought+1e-9)
	assert.Greater(t, plan.Waste, 0.0)
}

// random makes a job with ripped and whole pieces of a few sizes.
func random(r *rand.Rand, pieces int) Job {
	rules := InchRules()
	rules.Alternatives = false
	if r.IntN(2) == 0 {
		rules.EdgeCleanup = inch / 16
	}
	job := Job{Rules: rules, Stocks: []Stock{
		{Key: "frame", Thick: inch, Width: 5.5 * inch, Lengths: []Sold{{8 * foot, 18.5, 0}, {10 * foot, 23.75, 0}, {12 * foot, 30, 0}}},
		{Key: "wide", Thick: inch, Width: 9.25 * inch, Lengths: []Sold{{6 * foot, 31, 0}, {8 * foot, 40, 0}}},
	}}
	widths := [][]float64{{5.5, 3.5, 2.5, 2.25}, {9.25, 6.5, 4.5, 3.5, 2}}
	for left := pieces; left > 0; {
		s := r.IntN(2)
		n := min(left, 1+r.IntN(6))
		left -= n
		job.Pieces = append(job.Pieces, Piece{
			Code: fmt.Sprintf("P%d", len(job.Pieces)), Stock: job.Stocks[s].Key, Count: n,
			Length: float64(64+r.IntN(16*36)) * inch / 16, Width: widths[s][r.IntN(len(widths[s]))] * inch,
		})
	}
	return job
}

func TestRandomJobsAreSawable(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	proved := 0
	for i := range 60 {
		job := random(r, 4+i/2)
		job.Rules.Work = 2_000_000
		if i%3 == 0 {
			job.Stocks[0].OnHand = []OnHand{{Name: "one", Length: 1700, Bad: []Stretch{{From: 400, To: 450}, {From: 1200, To: 1230}}}, {Name: "two", Length: 900}}
			job.Stocks[1].Lengths[0].Limit = 1 + i%4
		}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		require.LessOrEqual(t, plan.Bound.Cost, plan.Cost+1e-9)
		if plan.Bound.Proved {
			proved++
		}
	}
	t.Logf("%d of 60 proved", proved)
}

// TestPublishedSizes are single published instances with their optimum
// (REFERENCE: widely reprinted paper-roll example, the 100-in rolls of Chvátal,
// Linear Programming, 1983, ch. 13, and the 17-ft boards of Winston, Operations
// Research; data from memory, optima proven by two solvers).
func TestPublishedSizes(t *testing.T) {
	cases := []struct {
		name    string
		length  float64
		order   []float64
		counts  []int
		optimum float64
	}{
		{
			"5600 mm rolls", 5600,
			[]float64{1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200},
			[]int{22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20}, 73,
		},
		{"100 in rolls", 100, []float64{45, 36, 31, 14}, []int{97, 610, 395, 211}, 453},
		{"17 ft boards", 17, []float64{9, 5, 3}, []int{15, 20, 25}, 19},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			counts := map[float64]int{}
			for i, l := range c.order {
				counts[l] = c.counts[i]
			}
			job := flat(0, []Sold{{Length: c.length, Price: 1}}, counts, c.order)
			plan := Pack(job)
			requireSawable(t, job, plan)
			assert.Equal(t, c.optimum, plan.Cost)
			assert.Equal(t, Bound{c.optimum, true}, plan.Bound)
		})
	}
}

func BenchmarkPack(b *testing.B) {
	for _, n := range []int{20, 100, 500, 2000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			job := random(rand.New(rand.NewPCG(7, 7)), n)
			var plan Plan
			for b.Loop() {
				plan = Pack(job)
			}
			b.ReportMetric(plan.Cost, "cost")
			b.ReportMetric(plan.Bound.Cost, "bound")
		})
	}
}
