package buying_test

import (
	"io/fs"
	"os"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// plan reads and solves a model.
func plan(t testing.TB, fsys fs.FS, path string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(fsys, path, "", &problems)
	require.False(t, problems.Failed(), "%v", problems)
	p := assembly.Solve(d, opt, &problems)
	require.False(t, problems.Failed(), "%v", problems)
	return p
}

// eachExample calls f for every example in every size and unit.
func eachExample(t *testing.T, f func(t *testing.T, p *model.Plan)) {
	fsys := os.DirFS("../../examples")
	dirs, err := fs.ReadDir(fsys, ".")
	require.NoError(t, err)
	for _, dir := range dirs {
		if !dir.IsDir() {
			continue
		}
		path := dir.Name() + "/plan.toml"
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			standard := plan(t, fsys, path, assembly.Options{Unit: unit, Variant: "standard"})
			for _, v := range standard.Variants {
				t.Run(dir.Name()+" "+v.Key+" "+unit.String(), func(t *testing.T) {
					f(t, plan(t, fsys, path, assembly.Options{Unit: unit, Variant: v.Key}))
				})
			}
		}
	}
}

// TestExamplesAreSawable checks every layout of every example.
func TestExamplesAreSawable(t *testing.T) {
	n := 0
	eachExample(t, func(t *testing.T, p *model.Plan) {
		c := buying.Boards(p)
		validate(t, p, c)
		assert.True(t, c.Bound.Proved, "no cheaper purchase exists")
		t.Logf("%d boards, cost %.2f, bound %.2f, waste %.0f %%", len(c.Boards), c.Cost, c.Bound.Cost, 100*c.Waste)
		n++
	})
	assert.GreaterOrEqual(t, n, 6)
}

const shed = `unit = "mm"
[plan]
title = "Shed shelf"
[shop]
kerf     = 3
end_trim = 10
[stock.pine]
section = [18, 140]
lengths = ["1.2 m", "2.4 m"]
prices  = [6, 11]
most    = [1, 0]
cleanup = 1
[[on_hand]]
stock  = "pine"
name   = "shed 1"
length = 1400
bad    = [{ from = 600, to = 650 }, { from = 1300, to = 1330, edge = "far", face = "down" }]
[[on_hand]]
stock  = "pine"
length = 700
width  = 130
[part.shelf]
stock  = "pine"
length = 580
need   = "clear"
pieces = 4
as_bought = true
[part.batten]
stock  = "pine"
length = 200
width  = 60
need   = "hidden"
pieces = 2
`

// TestBoardsOnHandFromAPlan: parts and stock alone, with boards on hand.
func TestBoardsOnHandFromAPlan(t *testing.T) {
	fsys := fstest.MapFS{"p.toml": {Data: []byte(shed)}}
	p := plan(t, fsys, "p.toml", assembly.Options{Unit: expr.MM, Variant: "standard"})
	require.Len(t, p.Stocks[0].OnHand, 2)
	assert.Equal(t, model.OnHand{Name: "shed 1", Length: 1400, Width: 140, Bad: []model.Stretch{{From: 600, To: 650}, {From: 1300, To: 1330, Edge: "far", Face: "down"}}}, p.Stocks[0].OnHand[0])
	c := buying.Boards(p)
	validate(t, p, c)
	// Two shelves from the shed board, before and after the knot and clear of the
	// bad edge; the narrow board takes no shelf as bought but the battens; the
	// other two shelves fill the one short board that the yard has.
	assert.Equal(t, 6.0, c.Cost)
	assert.True(t, c.Bound.Proved)
}

// TestLimitedStockFromAPlan: one short board is left, so the third part needs a
// long one.
func TestLimitedStockFromAPlan(t *testing.T) {
	const text = `unit = "mm"
[plan]
title = "Rails"
[stock.pine]
section = [18, 140]
lengths = ["1.2 m", "2.4 m"]
prices  = [5, 11]
most    = [1, 0]
[part.rail]
stock  = "pine"
length = 1100
pieces = 2
as_bought = true
`
	p := plan(t, fstest.MapFS{"p.toml": {Data: []byte(text)}}, "p.toml", assembly.Options{Unit: expr.MM, Variant: "standard"})
	c := buying.Boards(p)
	validate(t, p, c)
	assert.Equal(t, 11.0, c.Cost, "one long board is less than a short and a long one")
}
