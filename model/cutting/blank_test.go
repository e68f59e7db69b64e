package cutting

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// blankwise returns a board as it is before the slanted cuts: each pair is one
// piece as large as its blank.
func blankwise(b Board) Board {
	b.Cuts = slices.DeleteFunc(slices.Clone(b.Cuts), func(c Cut) bool { return c.Kind == Slant })
	b.Pieces = slices.DeleteFunc(slices.Clone(b.Pieces), func(p Placed) bool { return p.Pair > 0 })
	for _, blank := range b.Blanks {
		b.Pieces = append(b.Pieces, Placed{Code: "blank", Along: blank.Along, Across: blank.Across, Length: blank.Length, Width: blank.Width, Sawn: blank.Sawn})
	}
	return b
}

// tapered is a piece whose edge falls from its width to a narrow end; two of
// them lie in a blank of both ends and the kerf.
func tapered(code string, length, wide, narrow, kerf float64, count int) Piece {
	return Piece{Code: code, Name: code, Stock: "pine", Length: length, Width: wide, Count: count,
		Nest: Nest{Key: fmt.Sprint(length, wide, narrow), Width: wide + narrow + kerf, Start: wide, Stop: narrow}}
}

// TestPairsAgainstEveryNumber plans random jobs and compares with the cheapest
// of all numbers of pairs, each planned by itself as plain blanks.
func TestPairsAgainstEveryNumber(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	helped := 0
	for range 60 {
		rules := Rules{Kerf: 3, EndTrim: 5}
		wide := float64(60 + rng.IntN(40))
		narrow := wide / 2
		count := 1 + rng.IntN(7)
		length := float64(400 + 100*rng.IntN(5))
		stock := Stock{Key: "pine", Thick: 20, Width: wide*1.5 + 3 + float64(rng.IntN(80)), Lengths: []Sold{{Length: 1000, Price: 5}, {Length: 1600, Price: 7.5}}}
		other := Piece{Code: "B", Stock: "pine", Length: float64(200 + rng.IntN(500)), Width: 50, Count: rng.IntN(4)}
		piece := tapered("A", length, wide, narrow, 3, count)
		plan := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{piece, other}, Rules: rules})

		best := 0.0
		for pairs := range count/2 + 1 {
			single := piece
			single.Count, single.Nest = count-2*pairs, Nest{}
			blank := Piece{Code: "P", Stock: "pine", Length: length, Width: piece.Nest.Width, Count: pairs}
			ref := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{single, blank, other}, Rules: rules})
			if len(ref.Left) == 0 && (pairs == 0 || ref.Cost < best) {
				best = ref.Cost
			}
			if pairs == 0 && plan.Cost < ref.Cost {
				helped++
			}
		}
		require.InDelta(t, best, plan.Cost, 1e-9, "%+v in %+v", piece, stock)
		a := Job{Pieces: []Piece{piece, other}, Rules: rules}.best(stock, []int{0, 1})
		require.LessOrEqual(t, a.least(), best+1e-9, "the bound holds for every number of pairs")
		require.LessOrEqual(t, plan.Bound.Cost, plan.Cost+1e-9)
		got := 0
		for _, b := range plan.Boards {
			requireBoard(t, Job{Rules: rules}, blankwise(b))
			for _, p := range b.Pieces {
				if p.Code == "A" {
					got++
				}
			}
			requirePairs(t, b)
		}
		require.Equal(t, count, got)
	}
	assert.Greater(t, helped, 5, "pairs were worth it now and then")
}

// requirePairs checks that each blank has two pieces, one of them turned, and
// that its slanted cut is the last of its work.
func requirePairs(t *testing.T, b Board) {
	for i, blank := range b.Blanks {
		var turned []bool
		for _, p := range b.Pieces {
			if p.Pair != i+1 {
				continue
			}
			turned = append(turned, p.Turned)
			require.Equal(t, blank.Cut, p.Cut)
			require.Equal(t, blank.Along, p.Along)
			require.GreaterOrEqual(t, p.Across, blank.Across-near)
			require.LessOrEqual(t, p.Across+p.Width, blank.Across+blank.Width+near)
		}
		require.ElementsMatch(t, []bool{true, false}, turned)
		c := b.Cuts[blank.Cut-1]
		require.Equal(t, Slant, c.Kind)
		require.Equal(t, [2]float64{blank.Along, blank.Along + blank.Length}, [2]float64{c.From, c.To})
		for _, later := range b.Cuts[blank.Cut:] {
			require.Equal(t, Slant, later.Kind, "tapers are cut last")
		}
	}
}

// TestPairsSpareABoardOnHand: at one cost the plan with fewer boards wins.
func TestPairsSpareABoardOnHand(t *testing.T) {
	stock := Stock{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1010, Price: 5}}, OnHand: []OnHand{{Length: 1010}, {Length: 1010}}}
	plan := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{tapered("A", 1000, 80, 50, 3, 2)}, Rules: Rules{Kerf: 3, EndTrim: 5}})
	assert.Zero(t, plan.Cost)
	assert.Len(t, plan.Boards, 1)
}

// TestManyPairs: too many ways to plan each; the search by halving still finds
// what the eye sees: boards that take one piece or one pair, so 40 pieces come
// out of 20 boards.
func TestManyPairs(t *testing.T) {
	stock := Stock{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1010, Price: 5}}}
	plan := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{tapered("A", 1000, 80, 50, 3, 40)}, Rules: Rules{Kerf: 3, EndTrim: 5}})
	require.Empty(t, plan.Left)
	assert.InDelta(t, 100, plan.Cost, 1e-9)
	assert.InDelta(t, 40*1000*66.5/(1010*140)*5, plan.Bound.Cost, 1e-6, "the wood in half a blank for each piece")
	assert.False(t, plan.Bound.Proved)
	again := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{tapered("A", 1000, 80, 50, 3, 40)}, Rules: Rules{Kerf: 3, EndTrim: 5}})
	assert.Equal(t, plan, again, "the same job gives the same plan")
}

// TestSparePiecesPairToo: a spare piece lies in the blank of a needed one and is
// still told as spare.
func TestSparePiecesPairToo(t *testing.T) {
	p := tapered("A", 1000, 80, 50, 3, 3)
	p.Spare = 1
	stock := Stock{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1010, Price: 5}}}
	plan := Pack(Job{Stocks: []Stock{stock}, Pieces: []Piece{p}, Rules: Rules{Kerf: 3, EndTrim: 5}})
	assert.InDelta(t, 10, plan.Cost, 1e-9)
	spare := 0
	for _, b := range plan.Boards {
		requirePairs(t, b)
		for _, q := range b.Pieces {
			if q.Spare {
				spare++
			}
		}
	}
	assert.Equal(t, 1, spare)
}

// TestShortPiecesComeFromTheRest: three short pieces of one width are cut from
// what is left when the long ones are off: one rip for all, no crosscut between
// them before it, and nothing of the board lies beside.
func TestShortPiecesComeFromTheRest(t *testing.T) {
	job := Job{Stocks: []Stock{{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 2000, Price: 5}}}},
		Pieces: []Piece{
			{Code: "A", Stock: "pine", Length: 700, Width: 140, Count: 2},
			{Code: "B", Stock: "pine", Length: 100, Width: 90, Count: 3},
		}, Rules: Rules{Kerf: 3, EndTrim: 10, Keep: 300, Short: 300}}
	plan := Pack(job)
	requireSawable(t, job, plan)
	require.Len(t, plan.Boards, 1)
	b := plan.Boards[0]
	begin := 10 + 2*(700+3.0)
	require.Equal(t, []Rest{{Along: begin, Length: 2000 - 10 - begin, Width: 140}}, b.Rests)
	kinds := map[CutKind]int{}
	for _, c := range b.Cuts {
		kinds[c.Kind]++
		if c.Kind == Rip {
			assert.InDelta(t, begin, c.From, near)
			assert.InDelta(t, 2000-10-begin, c.To-c.From, near, "the rip runs through the whole rest")
		}
	}
	assert.Equal(t, map[CutKind]int{Trim: 1, Crosscut: 3, Rip: 1, Recut: 3}, kinds)
	for _, p := range b.Pieces {
		assert.Equal(t, p.Code == "B", p.Rest == 1, "%s", p.Code)
	}
}

// TestShortPieceTuckedIntoAStrip: beside the long piece lies a strip of the
// short one's width that the saw makes anyway.
func TestShortPieceTuckedIntoAStrip(t *testing.T) {
	job := Job{Stocks: []Stock{{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1800, Price: 5}}}},
		Pieces: []Piece{
			{Code: "A", Stock: "pine", Length: 900, Width: 70, Count: 1},
			{Code: "B", Stock: "pine", Length: 600, Width: 60, Count: 1},
			{Code: "C", Stock: "pine", Length: 150, Width: 60, Count: 1},
		}, Rules: Rules{Kerf: 3, EndTrim: 10, Keep: 300, Short: 300}}
	plan := Pack(job)
	requireSawable(t, job, plan)
	b := plan.Boards[0]
	assert.Empty(t, b.Rests)
	last := 0.0
	for _, p := range b.Pieces {
		last = max(last, p.Along+p.Length)
	}
	assert.InDelta(t, 910, last, near, "everything lies beside the long piece")
}

// TestRipsByFence: the fence is set once for each width of a board, the widest
// first, though the sections lie in another order.
func TestRipsByFence(t *testing.T) {
	job := Job{Stocks: []Stock{{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 2400, Price: 5}}}},
		Pieces: []Piece{
			{Code: "A", Stock: "pine", Length: 900, Width: 80, Count: 1},
			{Code: "B", Stock: "pine", Length: 700, Width: 120, Count: 1},
			{Code: "C", Stock: "pine", Length: 600, Width: 80, Count: 1},
		}, Rules: Rules{Kerf: 3, EndTrim: 10, Keep: 300, Short: 300}}
	plan := Pack(job)
	requireSawable(t, job, plan)
	var rips []float64
	for _, c := range plan.Boards[0].Cuts {
		if c.Kind == Rip {
			rips = append(rips, c.At)
		}
	}
	assert.Equal(t, []float64{120, 80, 80}, rips)
}

// TestShortPiecesOfRandomJobs: whatever is moved, tucked in or bunched, the cuts
// still free every piece, and what is cut from a rest is short and lies in it,
// after everything that is not.
func TestShortPiecesOfRandomJobs(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	rested := 0
	for range 150 {
		job := Job{Rules: Rules{Kerf: 3, EndTrim: 10, EdgeCleanup: float64(rng.IntN(3)), Keep: 300, Short: 300}, Stocks: []Stock{{
			Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1800, Price: 5}, {Length: 2400, Price: 6.5}}}}}
		if rng.IntN(3) == 0 {
			job.Stocks[0].OnHand = []OnHand{{Length: 1500, Bad: []Stretch{{From: 700, To: 740}}}}
		}
		for i := range 2 + rng.IntN(5) {
			p := Piece{Code: string(rune('A' + i)), Stock: "pine", Length: float64(60 + rng.IntN(240)), Width: float64(40 + 20*rng.IntN(6)), Count: 1 + rng.IntN(3)}
			if i < 2 {
				p.Length += 400
			}
			if p.Width > 130 {
				p.Width = 140
			}
			job.Pieces = append(job.Pieces, p)
		}
		plan := Pack(job)
		requireSawable(t, job, plan)
		for _, b := range plan.Boards {
			rested += len(b.Rests)
			for _, p := range b.Pieces {
				if p.Rest == 0 {
					continue
				}
				r := b.Rests[p.Rest-1]
				require.Less(t, p.Length, 300.0)
				require.GreaterOrEqual(t, p.Along, r.Along-near)
				require.LessOrEqual(t, p.Along+p.Length, r.Along+r.Length+near)
				for _, q := range b.Pieces {
					require.False(t, q.Rest == 0 && q.Cut > p.Cut && p.Cut > 0, "%s is freed after %s of the rest", q.Code, p.Code)
				}
			}
		}
	}
	require.Greater(t, rested, 30)
}

// BenchmarkPairs plans eight tapered slats that lie in pairs, with every number
// of pairs tried.
func BenchmarkPairs(b *testing.B) {
	job := Job{Stocks: []Stock{{Key: "pine", Thick: 20, Width: 140, Lengths: []Sold{{Length: 1830, Price: 9}, {Length: 2440, Price: 12}}}},
		Pieces: []Piece{tapered("A", 880, 80, 50, 3, 8), {Code: "B", Stock: "pine", Length: 530, Width: 65, Count: 5}}, Rules: MetricRules()}
	for b.Loop() {
		Pack(job)
	}
}
