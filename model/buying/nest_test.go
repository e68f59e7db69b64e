package buying_test

import (
	"fmt"
	"math"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
)

// pickets is a plan of tapered pieces alone: stock as wide as told, and parts.
func pickets(t testing.TB, wide float64, parts string) *model.Plan {
	t.Helper()
	text := fmt.Sprintf(`unit = "mm"
[plan]
title = "Pickets"
[shop]
kerf     = 3
end_trim = 10
[stock.board]
section = [20, %g]
lengths = ["1.1 m", "2.2 m"]
prices  = [5, 9]
cleanup = 1
`, wide) + parts
	return plan(t, fstest.MapFS{"p.toml": {Data: []byte(text)}}, "p.toml", assembly.Options{Unit: expr.MM, Variant: "standard"})
}

const picket = `[part.picket]
stock  = "board"
length = 1000
width  = 80
pieces = %d
%s
`

// oneEdge tapers the rear edge from 80 at the left end to 50 at the right.
const oneEdge = `taper.rear = { edge = "rear", from = [0, 80], to = [1000, 50] }`

// bothEdges takes 15 off each.
const bothEdges = `taper.sides = { edge = "both", from = [0, 80], to = [1000, 50] }`

// TestNestByHand: the blank for two is the wide end, the narrow end and the cut
// measured square to it; with both edges tapered, the wide end and half the sum
// of both ends more, for the grain runs down the middle of each piece.
func TestNestByHand(t *testing.T) {
	const kerf, clean = 3.0, 1.0
	for _, c := range []struct {
		name, taper string
		fall, sum   float64 // of the shared edge over the length; twice its height in the middle
		turned      bool
	}{
		{"rear edge", oneEdge, 30, 80 + 50, false},
		{"front edge", `taper.front = { edge = "front", from = [0, 50], to = [1000, 80] }`, 30, 80 + 50, true},
		{"both edges", bothEdges, 15, 80 + (80+50)/2, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := pickets(t, 200, fmt.Sprintf(picket, 2, c.taper))
			n := buying.Job(p).Pieces[0].Nest
			require.NotEmpty(t, n.Key)
			square := 1 / math.Cos(math.Atan(c.fall/1000))
			assert.InDelta(t, c.sum+(kerf+2*clean)*square, n.Width, 1e-6)
			assert.Equal(t, c.turned, n.Turned)
			assert.InDelta(t, n.Width-kerf*square, n.Start+n.Stop, 1e-6, "the cut passes the middle of the blank")
			assert.InDelta(t, c.fall, math.Abs(n.Start-n.Stop), 1e-6, "and runs as the taper does")
			keepsClear(t, p.Parts[0], n, kerf, clean)
		})
	}
}

// TestNestOfAFreeOutline: a planter's side drawn by its corners, sloping on both
// edges, lies head to tail as a tapered one does. It has a little length over,
// half of it at either end.
func TestNestOfAFreeOutline(t *testing.T) {
	p := pickets(t, 800, "[part.side]\nstock = \"board\"\npieces = 2\n"+
		"outline = [{ from = [0, 0] }, { to = [600, 60] }, { to = [600, 340] }, { to = [0, 400] }]\n")
	part, n := p.Parts[0], buying.Job(p).Pieces[0].Nest
	require.NotEmpty(t, n.Key)
	require.InDelta(t, 613, part.RoughLength, 0.5)
	// The edge falls 60 over 600; the middle of the blank is the middle of the part.
	assert.InDelta(t, 2*370+5*math.Sqrt(1+0.01), n.Width, 1e-6)
	lower := buying.InBlank(part, n.Turned)
	assert.InDelta(t, 370, lower.Across(part.RoughLength / 2)[1], 1e-3)
}

// keepsClear lays both outlines of a pair in their blank and measures from them
// to the kerf.
func keepsClear(t *testing.T, p *model.Part, n cutting.Nest, kerf, clean float64) {
	t.Helper()
	o := p.Board.Outline
	turned := o.MirrorX().MirrorY().Move(geom.Pt{X: p.RoughLength, Y: p.Width})
	lower, upper := o, turned
	if n.Turned {
		lower, upper = turned, o
	}
	upper = upper.Move(geom.Pt{Y: n.Width - p.Width})
	a, b := geom.Pt{Y: n.Start}, geom.Pt{X: p.RoughLength, Y: n.Stop}
	dir := b.Sub(a).Unit()
	up := geom.Pt{X: -dir.Y, Y: dir.X}
	below, above := math.Inf(1), math.Inf(1)
	for i := range lower {
		below = min(below, a.Sub(lower[i].A).Dot(up))
		above = min(above, upper[i].A.Sub(a).Dot(up)-kerf)
	}
	assert.InDelta(t, clean, below, 1e-4, "clean-up of the lower piece")
	assert.InDelta(t, clean, above, 1e-4, "clean-up of the upper piece")
	assert.InDelta(t, 0, lower.Box().Min.Y, 1e-6)
	assert.InDelta(t, n.Width, upper.Box().Max.Y, 1e-6)
}

// TestPairsSaveABoard: two pieces of 80 do not lie side by side in 150, a pair
// of 135 does. Four of them then come out of one long board instead of two.
func TestPairsSaveABoard(t *testing.T) {
	single := pickets(t, 150, fmt.Sprintf(picket, 4, oneEdge+"\nhead_to_tail = \"no\""))
	p := pickets(t, 150, fmt.Sprintf(picket, 4, oneEdge))
	apart, c := buying.Boards(single), buying.Boards(p)
	validate(t, single, apart)
	validate(t, p, c)
	assert.InDelta(t, 18, apart.Cost, 1e-9, "two to each long board")
	assert.InDelta(t, 9, c.Cost, 1e-9, "all four from one")
	assert.True(t, c.Bound.Proved)
	require.Len(t, c.Boards, 1)
	require.Len(t, c.Boards[0].Blanks, 2)
	for _, blank := range c.Boards[0].Blanks {
		assert.InDelta(t, 80+50+(3+2)/math.Cos(math.Atan(0.03)), blank.Width, 1e-6)
		assert.Equal(t, cutting.Slant, c.Boards[0].Cuts[blank.Cut-1].Kind)
	}
}

// TestNoPairsWithoutGain: where the same boards are bought anyway each piece has
// its own blank, for a pair is more work.
func TestNoPairsWithoutGain(t *testing.T) {
	for _, c := range []struct {
		name string
		wide float64
		part string
	}{
		{"the boards are wide enough for two", 180, fmt.Sprintf(picket, 4, oneEdge)},
		{"the blank is wider than the board", 130, fmt.Sprintf(picket, 4, oneEdge)},
		{"one board is bought anyway", 150, fmt.Sprintf(picket, 1, oneEdge)},
		{"the grain is to match", 150, fmt.Sprintf(picket, 4, oneEdge+"\nmatch = true")},
		{"steeper than the jig takes", 150, "[part.picket]\nstock = \"board\"\nlength = 400\nwidth = 140\npieces = 4\n" +
			`taper.rear = { edge = "rear", from = [0, 140], to = [400, 20] }`},
		{"part of the edge is straight", 150, fmt.Sprintf(picket, 4, `taper.rear = { edge = "rear", from = [200, 80], to = [1000, 50] }`)},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := pickets(t, c.wide, c.part)
			b := buying.Boards(p)
			validate(t, p, b)
			for _, board := range b.Boards {
				assert.Empty(t, board.Blanks)
			}
		})
	}
}

// TestOddPieceStandsAlone: of five pieces two pairs are made and one is single.
func TestOddPieceStandsAlone(t *testing.T) {
	p := pickets(t, 150, fmt.Sprintf(picket, 5, oneEdge))
	c := buying.Boards(p)
	validate(t, p, c)
	assert.InDelta(t, 9+5, c.Cost, 1e-9)
	pairs := 0
	for _, b := range c.Boards {
		pairs += len(b.Blanks)
	}
	assert.Equal(t, 2, pairs)
}

// TestHandedPairsKeepTheirFace: a left one turned over is a right one, unless
// its good face would lie below. Four of a handed part with a good face make a
// pair of each hand; two make none.
func TestHandedPairsKeepTheirFace(t *testing.T) {
	const part = "[part.picket]\nstock = \"board\"\nhands = \"pair\"\nlength = 1000\nwidth = 80\npieces = %d\n" + oneEdge + "\n%s"
	most := func(n int, more string) (bool, int) {
		nest := buying.Job(pickets(t, 150, fmt.Sprintf(part, n, more))).Pieces[0].Nest
		return nest.Key != "", nest.Most
	}
	can, n := most(2, "")
	assert.True(t, can && n == 0, "either may be turned over")
	can, _ = most(2, `face = "top"`)
	assert.False(t, can, "one of each hand")
	can, n = most(4, `face = "top"`)
	assert.True(t, can && n == 2, "two of each hand")
}

// TestFanSharesBlanks: a family whose blanks are alike pairs across its ranks,
// half round tops and feet that are trimmed later included. Boards of 160 take
// the pair but not two blanks side by side.
func TestFanSharesBlanks(t *testing.T) {
	const text = `unit = "mm"
[plan]
title = "Fan"
[shop]
kerf     = 3
end_trim = 10
[stock.board]
section = [20, 160]
lengths = ["1 m"]
prices  = [5]
cleanup = 0
[part.slat]
stock  = "board"
width  = 80
length = "900 - rank*40"
rough_length = 900
trim_later = "foot"
ends   = ["foot", "top"]
faces  = ["face", "back"]
end.top = { shape = "half round" }
taper.sides = { edge = "both", from = ["length - 900", 64], to = ["length - 40", 80] }
face   = "face"
spare  = 1
[[place]]
part  = "slat"
lies  = { foot = "down", face = "front" }
meets = { face = 0, foot = 0 }
fan   = { count = 6, gap = 10, turn = "1 deg" }
`
	p := plan(t, fstest.MapFS{"p.toml": {Data: []byte(text)}}, "p.toml", assembly.Options{Unit: expr.MM, Variant: "standard"})
	require.Len(t, p.Parts, 3)
	keys := map[string]bool{}
	for _, piece := range buying.Job(p).Pieces {
		keys[piece.Nest.Key] = true
		// The edge rises 8 over 860 mm; half way up the blank, at 450, it stands at
		// 40 + 32 + 8*450/860.
		m := 8.0 / 860
		assert.InDelta(t, 2*(72+450*m)+3*math.Sqrt(1+m*m), piece.Nest.Width, 1e-3)
	}
	assert.Len(t, keys, 1, "one shape of blank for all ranks")
	assert.Equal(t, [3]int{1, 0, 0}, [3]int{buying.Spare(p, p.Parts[0]), buying.Spare(p, p.Parts[1]), buying.Spare(p, p.Parts[2])},
		"one spare blank that can become any of them")
	c := buying.Boards(p)
	validate(t, p, c)
	assert.InDelta(t, 20, c.Cost, 1e-9, "four boards for six slats and a spare")
	assert.True(t, c.Bound.Proved)
}

// TestSpareOfAFamilyIsItsLargest: where the blanks differ the spare is cut as
// the one that all others can be made of.
func TestSpareOfAFamilyIsItsLargest(t *testing.T) {
	p := &model.Plan{Parts: []*model.Part{
		{Code: "A1", Family: "A", Rank: 0, Spare: 2, RoughLength: 700, RoughWidth: 50},
		{Code: "A2", Family: "A", Rank: 1, Spare: 2, RoughLength: 800, RoughWidth: 50},
		{Code: "A3", Family: "A", Rank: 2, Spare: 2, RoughLength: 800, RoughWidth: 50},
		{Code: "B", Spare: 1, RoughLength: 900, RoughWidth: 50},
	}}
	var got []int
	for _, part := range p.Parts {
		got = append(got, buying.Spare(p, part))
	}
	assert.Equal(t, []int{0, 2, 0, 1}, got)
}
