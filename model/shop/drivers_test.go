package shop_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
	"planset/model/shop/shoptest"
)

// TestDriversThatStepsAskFor: a step that needs a long bit or a right-angle
// driver brings it into the list of tools, and nothing else does.
func TestDriversThatStepsAskFor(t *testing.T) {
	find := func(p *model.Plan, name string) (shop.Tool, bool) {
		all := shop.Tools(p)
		i := slices.IndexFunc(all, func(t shop.Tool) bool { return t.Name == name })
		if i < 0 {
			return shop.Tool{}, false
		}
		return all[i], true
	}
	p := shoptest.Chair(expr.Inch, shoptest.Standard())
	_, had := find(p, "Right-angle driver")
	assert.False(t, had)
	d, had := find(p, "Drill and driver")
	require.True(t, had)
	assert.Empty(t, d.Size)

	i := slices.IndexFunc(p.Steps, func(s *model.Step) bool { return len(s.Fasten) > 0 })
	require.GreaterOrEqual(t, i, 0)
	p.Steps[i].Angled = true
	p.Steps[i].Bit = 6 * 25.4
	d, _ = find(p, "Drill and driver")
	assert.Equal(t, "one bit 6″ long", d.Size)
	a, had := find(p, "Right-angle driver")
	require.True(t, had)
	assert.Equal(t, []int{p.Steps[i].Number}, a.Steps)
	assert.NotEmpty(t, a.Parts)
}
