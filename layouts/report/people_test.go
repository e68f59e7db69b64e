package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
	"planset/model/people"
)

// TestSeatIsHeldToPeople: the report of a chair tells whom its seat suits and
// what a larger size would measure, as worked out; a footstool's does not.
func TestSeatIsHeldToPeople(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		s := whole(t, "petrel-chair", unit)
		all := ""
		for _, p := range Compose([]Section{s}, "seed").Pages {
			all += words(p.Items)
		}
		seat, ok := people.SeatOf(s.Plan)
		require.True(t, ok)
		assert.Contains(t, all, "How it sits")
		for _, f := range people.Compare(seat) {
			assert.Contains(t, all, f.Name)
		}
		step := 6.35
		if unit == expr.MM {
			step = 5
		}
		for _, o := range people.Larger(seat, step) {
			assert.Contains(t, flat(all), flat(unit.Long(o.Wants)), o.Name)
		}
		for _, p := range Compose([]Section{whole(t, "petrel-footstool", unit)}, "seed").Pages {
			assert.NotContains(t, words(p.Items), "How it sits")
		}
	}
}

// flat leaves out the spaces that fractions are set with.
func flat(s string) string {
	return strings.NewReplacer(" ", "", "\u00a0", "", "\n", "").Replace(s)
}
