package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/check"
	"planset/model/marks"
)

// TestMarkMatters allows the chair's recline a little less and a little more
// than its worst mark changes it by; the figures are those of the table itself.
func TestMarkMatters(t *testing.T) {
	table := marks.Rank(chair(t, nil))
	worst, k := 0.0, 0
	for i, v := range table.Values {
		if v.Name == "recline" {
			k = i
		}
	}
	for _, r := range table.Rows {
		if !r.Matched && r.Harmless == "" {
			worst = max(worst, r.Change[k], -r.Change[k])
		}
	}
	require.Greater(t, worst, 0.1)
	allowing := func(limit float64) []check.Finding {
		p := chair(t, nil)
		p.Critical[0].Within = limit * deg
		return of(p, "mark-matters")
	}
	list := allowing(worst * 0.999)
	require.NotEmpty(t, list)
	assert.InDelta(t, worst, list[0].Value, 1e-9)
	assert.Contains(t, list[0].Text, "1⁄16″ off, changes the recline by")
	assert.Contains(t, list[0].Fix, "jig")
	list = allowing(worst * 1.001)
	if table.Values[k].RSS > worst*1.001 {
		require.Len(t, list, 1, "together they still make it unsure")
		assert.Contains(t, list[0].Text, "with every mark 1⁄16″ off one way or the other the recline comes out within")
	}
	assert.Empty(t, allowing(table.Values[k].RSS*1.001))
}
