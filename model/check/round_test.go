package check_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/check"
)

// paling is a board whose edges spread by an angle up to a half-round end.
const paling = `
unit = "mm"
[plan]
title = "Paling"
[size]
edge_taper = "2.1 deg"
[stock.board]
section = [20, 120]
lengths = ["2.4 m"]
[part.paling]
name   = "Paling"
stock  = "board"
width  = 80
length = "400 + width/2"
ends   = ["foot", "top"]
faces  = ["face", "back"]
end.top     = { shape = "round", radius = 40 }
taper.sides = { edge = "both", from = [0, "80 - 800*tan(edge_taper)"], to = ["400", 80] }
`

// TestShoulder: a half round on edges that spread by 2 degrees shows no shoulder,
// on 2.1 it does; with its center moved up as the finding says, the edges touch
// it. By hand: the center of a round of radius r lies r·tan(a/2) above the place
// where the board is 2r wide, for there the edge is r from it.
func TestShoulder(t *testing.T) {
	spread := func(deg float64) []check.Finding {
		return of(written(t, paling, "2.1 deg", fmt.Sprintf("%g deg", deg)), "round-end")
	}
	list := spread(2.1)
	require.Len(t, list, 1)
	assert.Equal(t, check.Warning, list[0].Severity)
	assert.Equal(t, "Paling A: a shoulder of 2.1° shows where the round of 40 mm meets the side", list[0].Text)
	assert.Equal(t, "move the round's center by 0.5 mm along the part to where it is wider, so that the side touches it", list[0].Fix)
	assert.InDelta(t, 2.1, list[0].Value, 1e-6)
	assert.Empty(t, spread(2))
	a, r := 2.1*math.Pi/180, 40.0
	up := r * math.Tan(a/2)
	assert.InDelta(t, r, (r+up*math.Tan(a))*math.Cos(a), 1e-9, "the moved center is r from the edge")
}
