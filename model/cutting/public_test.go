package cutting

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPublicInstances packs the one-dimensional public instances and compares
// with their published optima (sources in the README beside the data). No plan
// may be cheaper than the optimum, nor any bound above it; how many plans meet
// it is logged, and a family must not fall below what it has reached.
func TestPublicInstances(t *testing.T) {
	dir := dataDir(t)
	known := optima(t, dir)
	families := []struct {
		name      string
		instances []instance
		least     int // plans that meet the optimum
	}{
		{"textbook", textbook(t, dir), 3},
		{"multistock", multistock(t, dir), 9},
		{"OR-Library u120", orLibrary(t, dir, "orlibrary/binpack1.txt", known), 20},
		{"OR-Library t60", orLibrary(t, dir, "orlibrary/binpack5.txt", known), 20},
		{"Scholl 1", orLibrary(t, dir, "scholl/scholl1.txt", known), 60},
		{"Scholl 2", orLibrary(t, dir, "scholl/scholl2.txt", known), 40},
		{"Scholl 3", orLibrary(t, dir, "scholl/scholl3.txt", known), 3},
		{"Waescher", waescher(t, dir, known), 17},
	}
	for _, family := range families {
		t.Run(family.name, func(t *testing.T) {
			t.Parallel()
			met, proved := 0, 0
			for _, in := range family.instances {
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
