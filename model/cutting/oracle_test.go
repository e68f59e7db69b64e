package cutting

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cheapest finds the least cost of a job of one stock by going through every
// grouping of its single pieces into strips, sections and boards. It shares
// nothing with the package but the meaning of the rules.
func cheapest(job Job) float64 {
	type blank struct{ length, width float64 }
	var blanks []blank
	for _, p := range job.Pieces {
		for range p.Count + p.Spare {
			blanks = append(blanks, blank{p.Length, p.Width})
		}
	}
	stock, r := job.Stocks[0], job.Rules
	all := 1 << len(blanks)
	const eps = 1e-6

	// Length of each set as one strip, and its width.
	strip, width := make([]float64, all), make([]float64, all)
	for set := 1; set < all; set++ {
		for i, b := range blanks {
			if set&(1<<i) == 0 {
				continue
			}
			if width[set] != 0 && width[set] != b.width {
				strip[set] = math.Inf(1)
			}
			strip[set] += b.length + r.Kerf
			width[set] = b.width
		}
		strip[set] -= r.Kerf
	}
	// Least length of each set as one section: for each length, the least width.
	lengths := slices.Clone(strip[1:])
	slices.Sort(lengths)
	section := make([]float64, all)
	for i := range section {
		section[i] = math.Inf(1)
	}
	gap := r.Kerf + 2*r.EdgeCleanup
	for _, l := range slices.Compact(lengths) {
		across := make([]float64, all)
		for set := 1; set < all; set++ {
			across[set] = math.Inf(1)
			for sub := set; sub > 0; sub = (sub - 1) & set {
				if strip[sub] <= l+eps {
					across[set] = min(across[set], across[set&^sub]+width[sub]+gap)
				}
			}
			if across[set] <= stock.Width+gap+eps {
				section[set] = min(section[set], l)
			}
		}
	}
	// Least length of each set on one board, and least cost of each set.
	board, cost := make([]float64, all), make([]float64, all)
	for set := 1; set < all; set++ {
		board[set], cost[set] = math.Inf(1), math.Inf(1)
		for sub := set; sub > 0; sub = (sub - 1) & set {
			board[set] = min(board[set], board[set&^sub]+section[sub]+r.Kerf)
		}
		for sub := set; sub > 0; sub = (sub - 1) & set {
			for _, sold := range stock.Lengths {
				if board[sub] <= sold.Length-2*r.EndTrim+r.Kerf+eps {
					cost[set] = min(cost[set], cost[set&^sub]+sold.Price)
				}
			}
		}
	}
	return cost[all-1]
}

// TestAgainstEveryGrouping compares small jobs with an exhaustive search: no
// plan is cheaper than it, no bound is above it, and nearly all plans meet it.
func TestAgainstEveryGrouping(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const jobs = 150
	met, proved := 0, 0
	for range jobs {
		rules := Rules{Kerf: 3, EndTrim: 10, EdgeCleanup: float64(r.IntN(2))}
		job := one(140, 1200, rules)
		job.Stocks[0].Lengths = []Sold{{1200, 10, 0}, {1500, 13, 0}, {2000, 15, 0}}
		widths := []float64{140, 90, 65, 40}
		for left := 8; left > 0; {
			n := min(left, 1+r.IntN(3))
			left -= n
			job.Pieces = append(job.Pieces, Piece{
				Code: string(rune('A' + left)), Stock: "s", Count: n,
				Length: float64(150 + 10*r.IntN(60)), Width: widths[r.IntN(len(widths))],
			})
		}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		best := cheapest(job)
		require.GreaterOrEqual(t, plan.Cost, best-1e-9, "%+v", job.Pieces)
		require.LessOrEqual(t, plan.Bound.Cost, best+1e-9, "%+v", job.Pieces)
		if plan.Cost <= best+1e-9 {
			met++
		}
		if plan.Bound.Proved {
			require.InDelta(t, best, plan.Cost, 1e-9)
			proved++
		}
	}
	t.Logf("%d of %d met, %d proved", met, jobs, proved)
	assert.GreaterOrEqual(t, met, jobs-1)
	assert.GreaterOrEqual(t, proved, jobs*9/10)
}
