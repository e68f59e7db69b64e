package tiles

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestCoverOfSpansThatJustFit: stretches as long as whole windows, give or take
// the last bits of the arithmetic, are covered by those windows.
func TestCoverOfSpansThatJustFit(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		a := axis{w: 100 + 150*r.Float64()}
		n := 1 + r.IntN(5)
		lo := 500 * r.Float64()
		hi := lo + a.reach(n) + (r.Float64()-0.5)*1e-8
		split := lo + (hi-lo)*r.Float64()
		a.needs = []span{{lo, split}, {split + 1, hi}}
		shown := 0
		for _, c := range a.cover() {
			if !c.skip {
				shown++
			}
		}
		assert.LessOrEqual(t, shown, n+1, "window %v, needs %v", a.w, a.needs)
		assert.GreaterOrEqual(t, shown, n)
	}
}
