package buying_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/buying"
	"planset/model/cutting"
)

// TestSetupsByHand: two boards by hand. On each a section is ripped at 60, on
// the second another strip of 40 lies beside it.
func TestSetupsByHand(t *testing.T) {
	c := cutting.Plan{Rules: cutting.Rules{Kerf: 3}, Boards: []cutting.Board{
		{Length: 1000, Width: 140, Cuts: []cutting.Cut{
			{N: 1, Kind: cutting.Crosscut, At: 500, To: 140}, {N: 2, Kind: cutting.Rip, At: 60, To: 500},
		}, Pieces: []cutting.Placed{{Code: "A", Length: 500, Width: 60, Sawn: 60}, {Code: "B", Along: 503, Length: 200, Width: 140, Sawn: 140}}},
		{Length: 1000, Width: 140, Cuts: []cutting.Cut{
			{N: 1, Kind: cutting.Crosscut, At: 500, To: 140}, {N: 2, Kind: cutting.Rip, At: 60, To: 500}, {N: 3, Kind: cutting.Rip, At: 103, To: 500},
		}, Pieces: []cutting.Placed{{Code: "C", Length: 500, Width: 60, Sawn: 60}, {Code: "D", Across: 63, Length: 500, Width: 40, Sawn: 40}}},
	}}
	assert.Equal(t, []buying.Setup{
		{Kind: buying.Stop, At: 500, Boards: []int{1, 2}, Codes: []string{"A", "C", "D"}, Cuts: 3},
		{Kind: buying.Fence, At: 60, Boards: []int{1, 2}, Codes: []string{"A", "C"}, Cuts: 2},
		{Kind: buying.Fence, At: 40, Boards: []int{2}, Codes: []string{"D"}, Cuts: 1},
	}, buying.Setups(&c))
}

// TestSetupsOfPairs: the jig is set once for all pairs of a taper.
func TestSetupsOfPairs(t *testing.T) {
	c := buying.Boards(pickets(t, 150, fmt.Sprintf(picket, 4, oneEdge)))
	var jigs []buying.Setup
	for _, s := range buying.Setups(c) {
		if s.Kind == buying.Jig {
			jigs = append(jigs, s)
		}
		if s.Kind == buying.Stop {
			assert.Equal(t, 2, s.Cuts, "a pair is crosscut as one")
		}
	}
	require.Len(t, jigs, 1)
	assert.Equal(t, 2, jigs[0].Cuts)
	assert.InDelta(t, 30, jigs[0].At, 1e-6)
	assert.InDelta(t, 1000, jigs[0].Over, 1e-6)
}

// TestSetupsOfExamples: every rip of every layout is made with one of the
// settings, no setting is listed twice, and each board's rips go from wide to
// narrow.
func TestSetupsOfExamples(t *testing.T) {
	eachExample(t, func(t *testing.T, p *model.Plan) {
		c := buying.Boards(p)
		fences := slices.DeleteFunc(buying.Setups(c), func(s buying.Setup) bool { return s.Kind != buying.Fence })
		rips := 0
		for _, b := range c.Boards {
			for _, cut := range b.Cuts {
				if cut.Kind == cutting.Rip && cut.To-cut.From >= c.Rules.Short {
					rips++
				}
			}
		}
		for i, f := range fences {
			rips -= f.Cuts
			if i > 0 {
				assert.Greater(t, fences[i-1].At-f.At, 0.05)
			}
			assert.NotEmpty(t, f.Codes, "a rip frees something")
		}
		assert.Zero(t, rips)
	})
}
