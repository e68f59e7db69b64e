package dims_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

// tape is running dimensions of three marks along the board of board.
func tape(side dims.Side) dims.Run {
	at := func(x float64, text string) dims.Stop {
		return dims.Stop{At: pt(x, 65), Name: text, Label: dims.Label{Text: text}}
	}
	return dims.Run{Side: side, Stops: []dims.Stop{at(50, "0"), at(80, "30"), at(110, "60"), at(150, "100")}}
}

// saying returns where each text of a drawing begins.
func saying(items []render.Item) map[string]geom.Pt {
	out := map[string]geom.Pt{}
	walk(items, nil, func(item render.Item, _ []string) {
		if t, ok := item.(render.Text); ok {
			out[t.Text] = t.At
		}
	})
	return out
}

func placed(t *testing.T, wishes ...dims.Wish) []render.Item {
	t.Helper()
	items, _, problems := dims.Place(board(), wishes...)
	require.Empty(t, problems)
	require.Empty(t, inspect.Collisions(items))
	return items
}

// A row that is moved outward has its line and every text that much farther out,
// and nothing moves along.
func TestRowMovesOutward(t *testing.T) {
	for _, c := range []struct {
		side dims.Side
		by   geom.Pt
	}{{dims.Below, pt(0, -7)}, {dims.Above, pt(0, 5)}, {dims.Below, pt(3, -7)}} {
		before := placed(t, tape(c.side))
		after := placed(t, dims.Shifted{Wish: tape(c.side), By: c.by})
		for text, at := range saying(before) {
			assert.InDelta(t, 0, saying(after)[text].Sub(at).Sub(pt(0, c.by.Y)).Len(), 1e-6, "%q", text)
		}
		assert.InDelta(t, c.by.Y, longest(after).A.Y-longest(before).A.Y, 1e-6)
	}
}

// A row that is moved over the middle of the part stands on the other side, no
// nearer than a first dimension line does, and reads the same.
func TestRowMovesToTheOtherSide(t *testing.T) {
	for _, by := range []float64{25, 45} {
		items := placed(t, dims.Shifted{Wish: tape(dims.Below), By: pt(0, by)})
		said := saying(items)
		assert.Len(t, said, 4)
		for text, at := range said {
			assert.Greater(t, at.Y, 80.0, "%q is above the board", text)
		}
		// 60 - 9 is where the line was; 80 + 9 is the first line on the other side.
		assert.InDelta(t, max(89, 51+by), longest(items).A.Y, 1e-6)
	}
	left := placed(t, dims.Shifted{Wish: dims.Run{Side: dims.LeftOf, Stops: []dims.Stop{
		{At: pt(50, 60), Label: dims.Label{Text: "0"}}, {At: pt(70, 80), Label: dims.Label{Text: "20"}},
	}}, By: pt(110, 0)})
	for text, at := range saying(left) {
		assert.Greater(t, at.X, 150.0, "%q is at the right", text)
	}
}

// A row that is moved off the paper on the other side stops at its border.
func TestRowStaysOnThePaper(t *testing.T) {
	items := placed(t, dims.Shifted{Wish: tape(dims.Below), By: pt(0, 500)})
	box := inspect.Bounds(items)
	assert.LessOrEqual(t, box.Max.Y, 150.0)
	assert.Greater(t, box.Max.Y, 147.0)
}

// The text of one mark goes where it is asked to; its neighbours stay on their
// lines, and the line still begins at what it measures.
func TestOneTextOfARowMoves(t *testing.T) {
	before := saying(placed(t, tape(dims.Below)))
	run := tape(dims.Below)
	run.Stops[2].By = pt(8, -4)
	items := placed(t, run)
	after := saying(items)
	assert.InDelta(t, 8, after["60"].X-before["60"].X, 1e-6)
	for _, text := range []string{"0", "30", "100"} {
		assert.InDelta(t, before[text].X, after[text].X, 1e-6)
		assert.InDelta(t, 4, after[text].Y-after["60"].Y, 1e-6)
	}
	found := false
	walk(items, nil, func(item render.Item, _ []string) {
		if s, ok := item.(render.Stroke); ok {
			for _, p := range s.Paths {
				found = found || p.Segs[0].A == pt(110, 64)
			}
		}
	})
	assert.True(t, found, "a line begins 1 mm below the mark")
}

// What lies in the way of a row that was moved is told.
func TestRowMovedIntoTheWayIsTold(t *testing.T) {
	_, _, problems := dims.Place(board(), dims.Shifted{Wish: tape(dims.Below), By: pt(0, 15)})
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0], "in the way")
}
