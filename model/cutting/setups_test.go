package cutting

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSetupsAreChangesOfStopAndFence counts by hand: three whole pieces and two
// halves of 490 mm need one stop and one fence.
func TestSetupsAreChangesOfStopAndFence(t *testing.T) {
	rules := Rules{Kerf: 3, EndTrim: 10}
	plan := Pack(one(100, 2000, rules, Piece{Length: 490, Width: 100, Count: 3}, Piece{Length: 490, Width: 48, Count: 2}))
	require.Len(t, plan.Boards, 1)
	assert.Equal(t, 2, plan.Setups())
	// A shorter piece on a board of its own is one stop more.
	plan = Pack(one(100, 2000, rules, Piece{Length: 490, Width: 100, Count: 4}, Piece{Length: 480, Width: 100, Count: 1}))
	require.Len(t, plan.Boards, 2)
	assert.Equal(t, 2, plan.Setups())
}

// laid solves a job of one stock as far as planks.
func laid(job Job) (*bench, []plank) {
	var picks []int
	for i := range job.Pieces {
		picks = append(picks, i)
	}
	t, s := solve(job, job.Stocks[0], picks)
	b := &bench{job: job, stock: job.Stocks[0], t: t, runs: job.Stocks[0].OnHand}
	return b, t.planks(s.best)
}

// TestAlikeSectionsComeTogether lays halves and thirds of one length in turn, on
// two boards: the fence is set four times. Halves on one board and thirds on the
// other need it twice.
func TestAlikeSectionsComeTogether(t *testing.T) {
	job := one(100, 1003, Rules{Kerf: 3}, Piece{Length: 500, Width: 48, Count: 4}, Piece{Length: 500, Width: 30, Count: 6})
	b, _ := laid(job)
	half := cell{length: whole(500), strips: []strip{{whole(500), []int{0}}, {whole(500), []int{0}}}}
	third := cell{length: whole(500), strips: []strip{{whole(500), []int{1}}, {whole(500), []int{1}}, {whole(500), []int{1}}}}
	mixed := []plank{{size: 0, cells: []cell{half, third}}, {size: 0, cells: []cell{half, third}}}
	kerf := job.Rules.Kerf
	require.Equal(t, 1+4, setups(b.boards(mixed, nil), kerf))
	assert.Equal(t, 1+2, setups(b.steady(mixed, nil), kerf))
}

// TestSteadyChangesNothingElse lays out random jobs with and without a look at
// the settings: the same boards, the same kept offcuts, no more settings; and it
// compares with every order of the same planks.
func TestSteadyChangesNothingElse(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	plain, fewer, met, jobs := 0, 0, 0, 0
	for range 60 {
		job := one(140, 2400, Rules{Kerf: 3, EndTrim: 10, Keep: 250, Short: float64(r.IntN(2) * 450)})
		if r.IntN(3) == 0 {
			job.Stocks[0].OnHand = []OnHand{{Name: "shed", Length: 1800, Bad: []Stretch{{From: 700, To: 760}}}}
		}
		widths := []float64{140, 90, 65, 40}
		for i := range 4 + r.IntN(4) {
			job.Pieces = append(job.Pieces, Piece{
				Code: string(rune('A' + i)), Stock: "s", Count: 1 + r.IntN(4),
				Length: float64(300 + 100*r.IntN(8)), Width: widths[r.IntN(len(widths))],
			})
		}
		b, planks := laid(job)
		before := b.boards(planks, nil)
		after := b.steady(planks, nil)
		kerf := job.Rules.Kerf
		require.LessOrEqual(t, setups(after, kerf), setups(before, kerf))
		require.Equal(t, len(before), len(after))
		for i, length := range keepsakes(before) {
			require.GreaterOrEqual(t, keepsakes(after)[i], length-fine)
		}
		plan := Pack(job)
		requireSawable(t, job, plan)
		plain, fewer = plain+setups(before, kerf), fewer+setups(after, kerf)
		if len(planks) > 5 {
			continue
		}
		jobs++
		least := setups(before, kerf)
		everyOrder(planks, func(p []plank) { least = min(least, setups(b.boards(p, nil), kerf)) })
		if setups(after, kerf) <= least {
			met++
		}
	}
	t.Logf("settings %d, and %d without a look at them; as few as in the best order of the planks in %d of %d jobs", fewer, plain, met, jobs)
	assert.Less(t, fewer, plain)
	assert.GreaterOrEqual(t, met, jobs*9/10)
}

// everyOrder calls f with each order of planks.
func everyOrder(planks []plank, f func([]plank)) {
	var go_ func(done, left []plank)
	go_ = func(done, left []plank) {
		if len(left) == 0 {
			f(done)
		}
		for i := range left {
			go_(append(slices.Clone(done), left[i]), slices.Delete(slices.Clone(left), i, i+1))
		}
	}
	go_(nil, planks)
}
