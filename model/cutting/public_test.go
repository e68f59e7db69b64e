package cutting

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// firstFit is the cost of first fit decreasing: longest piece first, each on
// the first board that has room, a new board of the best price a length if none has.
func firstFit(job Job) float64 {
	var lengths []float64
	for _, p := range job.Pieces {
		for range p.Count {
			lengths = append(lengths, p.Length)
		}
	}
	slices.Sort(lengths)
	slices.Reverse(lengths)
	type board struct{ room float64 }
	var boards []board
	cost, left := 0.0, map[float64]int{}
	for _, sold := range job.Stocks[0].Lengths {
		left[sold.Length] = sold.Limit
	}
	for _, l := range lengths {
		at := slices.IndexFunc(boards, func(b board) bool { return l <= b.room+1e-6 })
		if at < 0 {
			best := -1
			for i, sold := range job.Stocks[0].Lengths {
				rate := func(s Sold) float64 { return s.Price / s.Length }
				free := sold.Limit == 0 || left[sold.Length] > 0
				if free && sold.Length >= l-1e-6 && (best < 0 || rate(sold) < rate(job.Stocks[0].Lengths[best])) {
					best = i
				}
			}
			sold := job.Stocks[0].Lengths[best]
			left[sold.Length]--
			cost += sold.Price
			boards = append(boards, board{sold.Length})
			at = len(boards) - 1
		}
		boards[at].room -= l + job.Rules.Kerf
	}
	return cost
}

// TestPublicInstances packs the one-dimensional public instances and compares
// with their published optima (sources in the README beside the data): every
// plan must meet its optimum and prove it, with the work of any job from the
// yard. First fit decreasing on the same instances is logged beside it.
func TestPublicInstances(t *testing.T) {
	dir := dataDir(t)
	known := optima(t, dir)
	families := []struct {
		name      string
		instances []instance
		long      bool // left out of a short run
	}{
		{"textbook", textbook(t, dir), false},
		{"multistock", multistock(t, dir), false},
		{"OR-Library u120", orLibrary(t, dir, "orlibrary/binpack1.txt", known), false},
		{"OR-Library t60", orLibrary(t, dir, "orlibrary/binpack5.txt", known), true},
		{"Scholl 1", orLibrary(t, dir, "scholl/scholl1.txt", known), false},
		{"Scholl 2", orLibrary(t, dir, "scholl/scholl2.txt", known), true},
		{"Scholl 3", orLibrary(t, dir, "scholl/scholl3.txt", known), true},
		{"Waescher", waescher(t, dir, known), true},
	}
	for _, family := range families {
		t.Run(family.name, func(t *testing.T) {
			if family.long && testing.Short() {
				t.Skip("a long family in a short run")
			}
			met, proved, simple, worst := 0, 0, 0, time.Duration(0)
			for _, in := range family.instances {
				start := time.Now()
				plan := Pack(in.job)
				worst = max(worst, time.Since(start))
				if firstFit(in.job) < in.optimum+1e-6 {
					simple++
				}
				require.Empty(t, plan.Left, in.name)
				requireSawable(t, in.job, plan)
				require.GreaterOrEqual(t, plan.Cost, in.optimum-1e-6, "%s: cheaper than the optimum", in.name)
				require.LessOrEqual(t, plan.Bound.Cost, in.optimum+1e-6, "%s: bound above the optimum", in.name)
				if plan.Cost < in.optimum+1e-6 {
					met++
				} else {
					t.Logf("%s: %g, optimum %g, bound %g", in.name, plan.Cost, in.optimum, plan.Bound.Cost)
				}
				if plan.Bound.Proved {
					require.InDelta(t, in.optimum, plan.Cost, 1e-6, "%s: proved something else", in.name)
					proved++
				}
			}
			t.Logf("%s: %d of %d met, %d proved, slowest %.2f s; first fit decreasing meets %d",
				family.name, met, len(family.instances), proved, worst.Seconds(), simple)
			require.Equal(t, len(family.instances), met, "plans that meet the optimum")
			require.Equal(t, len(family.instances), proved, "plans that prove it")
		})
	}
}
