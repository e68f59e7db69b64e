package marks

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// What is off on the left does what is off on the right does, seen in a mirror,
// and both together do their sum where the floor does not tip the feet over:
// none of the two sides is treated as the one that stays.
func TestLeftAndRightErrAlike(t *testing.T) {
	for _, opt := range []assembly.Options{{}, {Variant: "tall"}, {Unit: expr.MM}} {
		var problems source.List
		d := reading.Load(os.DirFS("../../examples"), "petrel-chair/plan.toml", "", &problems)
		p := assembly.Solve(d, opt, &problems)
		require.False(t, problems.Failed())
		f := newFrame(p)
		f.settle()
		watches, _ := watched(f)
		checked := 0
		for _, r := range f.rows {
			if len(r.slips) != 2 || r.Part.Hand != model.Pair {
				continue
			}
			right, left := f.both(watches, f.field(r.slips[:1], 1)), f.both(watches, f.field(r.slips[1:], 1))
			for k, w := range watches {
				checked++
				assert.InDelta(t, math.Abs(right[k]), math.Abs(left[k]), 0.03*w.limit(), "%s %s", r.What, w.Name)
			}
		}
		assert.Greater(t, checked, 30)
	}
}
