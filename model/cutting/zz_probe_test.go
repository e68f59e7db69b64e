package cutting

import (
	"os"
	"testing"
	"time"
)

func probeSets(t *testing.T) map[string][]instance {
	dir := dataDir(t)
	known := optima(t, dir)
	return map[string][]instance{
		"ms": multistock(t, dir), "u120": orLibrary(t, dir, "orlibrary/binpack1.txt", known),
		"t60": orLibrary(t, dir, "orlibrary/binpack5.txt", known), "s1": orLibrary(t, dir, "scholl/scholl1.txt", known),
		"s2": orLibrary(t, dir, "scholl/scholl2.txt", known), "s3": orLibrary(t, dir, "scholl/scholl3.txt", known),
		"w": waescher(t, dir, known),
	}
}

func TestProbe(t *testing.T) {
	only := os.Getenv("SET")
	if only == "" {
		t.Skip()
	}
	total, worst := time.Duration(0), time.Duration(0)
	met, proved := 0, 0
	for _, in := range probeSets(t)[only] {
		if n := os.Getenv("NAME"); n != "" && n != in.name {
			continue
		}
		in.job.Rules.Alternatives = false
		start := time.Now()
		plan := Pack(in.job)
		d := time.Since(start)
		total += d
		worst = max(worst, d)
		if plan.Cost < in.optimum+1e-6 {
			met++
		}
		if plan.Bound.Proved {
			proved++
		}
		if d > 200*time.Millisecond || plan.Cost > in.optimum+1e-6 || !plan.Bound.Proved {
			t.Logf("%-12s %3d kinds %6.3fs cost %g opt %g bound %g %v", in.name, len(in.job.Pieces), d.Seconds(), plan.Cost, in.optimum, plan.Bound.Cost, plan.Bound.Proved)
		}
	}
	t.Logf("%s: met %d proved %d total %.2fs worst %.2fs", only, met, proved, total.Seconds(), worst.Seconds())
}
