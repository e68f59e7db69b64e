package cutting

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// leastLengths finds, for each set of the single pieces of a job of one stock,
// the shortest board that holds it, one kerf included, by going through every
// grouping into strips and sections. It shares nothing with the package but the
// meaning of the rules.
func leastLengths(job Job) []float64 {
	type blank struct{ length, width float64 }
	var blanks []blank
	for _, p := range job.Pieces {
		for range p.Count + p.Spare {
			blanks = append(blanks, blank{p.Length, p.Width})
		}
	}
	stock, r := job.Stocks[0], job.Rules
	all := 1 << len(blanks)

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
	board := make([]float64, all)
	for set := 1; set < all; set++ {
		board[set] = math.Inf(1)
		for sub := set; sub > 0; sub = (sub - 1) & set {
			board[set] = min(board[set], board[set&^sub]+section[sub]+r.Kerf)
		}
	}
	return board
}

// eps is what sums of lengths may be off, mm.
const eps = 1e-6

// cheapest finds the least cost of a job of one stock from the shortest boards
// of all sets of its pieces.
func cheapest(job Job) float64 {
	board, r := leastLengths(job), job.Rules
	cost := make([]float64, len(board))
	for set := 1; set < len(board); set++ {
		cost[set] = math.Inf(1)
		for sub := set; sub > 0; sub = (sub - 1) & set {
			for _, sold := range job.Stocks[0].Lengths {
				if board[sub] <= sold.Length-2*r.EndTrim+r.Kerf+eps {
					cost[set] = min(cost[set], cost[set&^sub]+sold.Price)
				}
			}
		}
	}
	return cost[len(cost)-1]
}

// TestCountedAgainstEverySet compares the search that counts pieces over a whole
// board with the most valuable of all sets of pieces that fit on it.
func TestCountedAgainstEverySet(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	missed := 0
	for range 150 {
		job := one(140, 1200, Rules{Kerf: 3, EndTrim: 10, EdgeCleanup: float64(r.IntN(2))})
		widths := []float64{140, 90, 65, 40}
		var picks []int
		for left := 8; left > 0; {
			n := min(left, 1+r.IntN(3))
			left -= n
			picks = append(picks, len(job.Pieces))
			job.Pieces = append(job.Pieces, Piece{Stock: "s", Count: n, Length: float64(150 + r.IntN(600)), Width: widths[r.IntN(len(widths))]})
		}
		tk := newTask(job, job.Stocks[0], picks, longRows)
		tk.listSections()
		require.True(t, tk.complete)
		values := make([]float64, len(tk.kinds))
		for k := range values {
			values[k] = float64(1 + r.IntN(50))
		}
		var single []float64 // value of each single piece, in the job's order
		for i, p := range job.Pieces {
			k := slices.IndexFunc(tk.kinds, func(k kind) bool { return slices.Contains(k.pieces, i) })
			for range p.Count {
				single = append(single, values[k])
			}
		}
		best := 0.0
		for set, length := range leastLengths(job) {
			worth := 0.0
			for i, v := range single {
				if set&(1<<i) != 0 {
					worth += v
				}
			}
			if length <= 1200-2*job.Rules.EndTrim+job.Rules.Kerf+eps {
				best = max(best, worth)
			}
		}
		p := &pricer{t: tk}
		found, worth, all := p.counted(values, tk.wants(), 0, counting{floor: 0, work: 1_000_000})
		require.True(t, all)
		require.InDelta(t, best, worth, 1e-6, "%+v", job.Pieces)
		sum := 0.0
		for _, e := range found.counts {
			require.LessOrEqual(t, e.n, tk.kinds[e.kind].want)
			sum += values[e.kind] * float64(e.n)
		}
		require.InDelta(t, worth, sum, 1e-6)
		// Counted section by section a board seems to be worth more, never less.
		_, tops := p.find(values, tk.wants(), []float64{0})
		require.GreaterOrEqual(t, tops[0], best-1e-6)
		if tops[0] > best+1e-6 {
			missed++
		}
	}
	t.Logf("in %d of 150 boards copies are counted twice when they are counted section by section", missed)
	assert.Positive(t, missed)
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
