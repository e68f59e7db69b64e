package assembly_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

func ptOf(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

// reverse is the side frame of the chair told the other way round: holes and
// heel as numbers, no slope and no recline. The frame stands itself on the
// floor, and the back keeps the angle to the seat that it was built with.
const reverse = `
unit = "mm"
[plan]
title = "Frame"
[stock.board]
section = [%g, %g]
species = "western redcedar"
[hardware.bolt]
kind = "carriage bolt"
size = "3/8"
[part.leg]
stock = "board"
hands = "pair"
length = %.9f
ends = ["foot", "top"]
edges = ["front", "rear"]
faces = ["inside", "outside"]
hole.lower = { at = [%.9f, %.9f], for = "bolt" }
hole.upper = { at = [%.9f, %.9f], for = "bolt" }
[part.stringer]
stock = "board"
hands = "pair"
ends = ["front", "heel"]
edges = ["top", "bottom"]
faces = ["inside", "outside"]
outline = [%s]
hole.lower = { at = [%.9f, %.9f], for = "bolt" }
hole.upper = { at = [%.9f, %.9f], for = "bolt" }
[group.frame]
stands = ["leg", "stringer"]
[group.seat]
on = "stringer.front.top"
[group.back]
in = "seat"
at = { rear = 400 }
tip = "13 deg"
[[place]]
part = "leg"
in = "frame"
lies = { foot = "down", front = "front", inside = "in" }
meets = { foot = "floor", front = 0, inside = 260 }
[[place]]
part = "stringer"
in = "frame"
lies = { front = "front", top = "up", outside = "out" }
meets = { hole.lower = "leg.hole.lower", hole.upper = "leg.hole.upper", outside = "leg.inside" }
[measure]
seat_slope = "seat.fall"
recline = "back.lean"
`

// reversed writes the frame of a solved chair the other way round, its numbers
// taken through round.
func reversed(t *testing.T, p *model.Plan, round func(float64) float64) string {
	leg, str := partOf(t, p, "leg", 0), partOf(t, p, "stringer", 0)
	var moves []string
	for i, seg := range str.Board.Outline {
		if i == 0 {
			moves = append(moves, fmt.Sprintf("{ from = [%.9f, %.9f] }", round(seg.A.X), round(seg.A.Y)))
		}
		// The rounded corner is far from the floor: its chord will do.
		if i+1 < len(str.Board.Outline) {
			moves = append(moves, fmt.Sprintf("{ to = [%.9f, %.9f] }", round(seg.B.X), round(seg.B.Y)))
		}
	}
	ll, lu, sl, su := holeOf(t, leg, "lower"), holeOf(t, leg, "upper"), holeOf(t, str, "lower"), holeOf(t, str, "upper")
	return fmt.Sprintf(reverse, leg.Thick, leg.Width, leg.Length,
		round(ll.Along), round(ll.Across), round(lu.Along), round(lu.Across), strings.Join(moves, ", "),
		round(sl.Along), round(sl.Across), round(su.Along), round(su.Across))
}

func solveText(t *testing.T, text string) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(fstest.MapFS{"plan.toml": {Data: []byte(text)}}, "plan.toml", "", &problems)
	require.NotNil(t, d, told(&problems))
	p := assembly.Solve(d, assembly.Options{Unit: d.Unit}, &problems)
	require.False(t, problems.Failed(), told(&problems))
	return p
}

// TestReverseAgrees: holes and heel found from slope and recline, given back as
// numbers, stand at that slope and recline again.
func TestReverseAgrees(t *testing.T) {
	for _, variant := range []string{"standard", "tall"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			p := solve(t, "petrel-chair/plan.toml", assembly.Options{Unit: unit, Variant: variant})
			back := solveText(t, reversed(t, p, func(x float64) float64 { return x }))
			assert.InDelta(t, slope, measureOf(t, back, "seat_slope"), 1e-6*deg)
			assert.InDelta(t, recline, measureOf(t, back, "recline"), 1e-6*deg)
			for _, q := range back.Placed {
				assert.InDelta(t, 0, q.Solid.Box3(geom.Home()).Min.Z, 1e-5, "stands on the floor")
			}
		}
	}
}

// TestReverseRounded: built to what is printed (holes to 1/32 in, the heel to
// 1/16), the chair leans as asked within a twentieth of a degree.
func TestReverseRounded(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch})
	back := solveText(t, reversed(t, p, func(x float64) float64 { return expr.Inch.Round(x, expr.Fine) }))
	assert.InDelta(t, slope, measureOf(t, back, "seat_slope"), 0.1*deg)
	assert.InDelta(t, recline, measureOf(t, back, "recline"), 0.1*deg)
}

// TestReverseTilts: one foot sawn shorter tips the frame by the angle that
// plane trigonometry gives.
func TestReverseTilts(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch})
	leg := partOf(t, p, "leg", 0)
	const off = 10.0
	text := reversed(t, p, func(x float64) float64 { return x })
	// Both holes nearer the foot: the stringer sinks against the leg by off.
	for _, name := range []string{"lower", "upper"} {
		h := holeOf(t, leg, name)
		text = strings.Replace(text, fmt.Sprintf("at = [%.9f, %.9f]", h.Along, h.Across), fmt.Sprintf("at = [%.9f, %.9f]", h.Along+off, h.Across), 1)
	}
	back := solveText(t, text)
	// The leg's foot reaches from y = 0 to its width; the heel's front corner is
	// off above it, so the frame rests on the leg's rear corner and that corner
	// of the heel which the line from it touches first.
	str := partOf(t, p, "stringer", 0)
	best := math.Inf(1)
	pose := p.Placed[2].Pose
	for _, seg := range str.Board.Outline {
		w := pose.Point(geom.V3{X: seg.A.X, Y: seg.A.Y})
		if w.Y > leg.Width+1 {
			best = math.Min(best, math.Atan2(w.Z+off, w.Y-leg.Width))
		}
	}
	assert.InDelta(t, slope+best, measureOf(t, back, "seat_slope"), 1e-6)
	assert.InDelta(t, recline+best, measureOf(t, back, "recline"), 1e-6)
}
