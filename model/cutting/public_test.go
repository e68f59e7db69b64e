package cutting

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPublicInstances packs the one-dimensional public instances and compares
// with their published optima (sources in the README beside the data). No plan
// may be cheaper than the optimum, nor any bound above it; how many plans meet
// it is logged, and a family must not fall below what it has reached. These sets
// are made to be hard, so they get more work than a job from the yard.
func TestPublicInstances(t *testing.T) {
	dir := dataDir(t)
	known := optima(t, dir)
	families := []struct {
		name      string
		instances []instance
		least     int  // plans that meet the optimum
		long      bool // left out of a short run
	}{
		{"textbook", textbook(t, dir), 3, false},
		{"multistock", multistock(t, dir), 9, false},
		{"OR-Library u120", orLibrary(t, dir, "orlibrary/binpack1.txt", known), 20, false},
		{"OR-Library t60", orLibrary(t, dir, "orlibrary/binpack5.txt", known), 19, true},
		{"Scholl 1", orLibrary(t, dir, "scholl/scholl1.txt", known), 60, false},
		{"Scholl 2", orLibrary(t, dir, "scholl/scholl2.txt", known), 38, true},
		{"Scholl 3", orLibrary(t, dir, "scholl/scholl3.txt", known), 1, true},
		{"Waescher", waescher(t, dir, known), 17, true},
	}
	for _, family := range families {
		t.Run(family.name, func(t *testing.T) {
			if family.long && testing.Short() {
				t.Skip("a long family in a short run")
			}
			t.Parallel()
			met, proved := 0, 0
			for _, in := range family.instances {
				in.job.Rules.Work = 4 * defaultWork
				plan := Pack(in.job)
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
			t.Logf("%s: %d of %d met, %d proved", family.name, met, len(family.instances), proved)
			require.GreaterOrEqual(t, met, family.least)
		})
	}
}
