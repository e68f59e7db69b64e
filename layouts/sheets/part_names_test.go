package sheets

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// partNamed returns the part with a key, and the set it is drawn with.
func partNamed(t *testing.T, plan *model.Plan, key string) (*model.Part, []*model.Part) {
	t.Helper()
	for _, set := range families(plan) {
		if set[0].Key == key {
			return set[0], set
		}
	}
	require.Fail(t, "no such part", key)
	return nil, nil
}

// noteWith returns the place of the text of a drawing that contains s.
func noteWith(t *testing.T, items []render.Item, s string) geom.Pt {
	t.Helper()
	at, n := geom.Pt{}, 0
	each(items, func(item render.Item) {
		if text, ok := item.(render.Text); ok && text.Text == s {
			at, n = text.At, n+1
		}
	})
	require.Equal(t, 1, n, "%q is on the drawing once", s)
	return at
}

// Every name that can be hidden takes something away, and nothing else.
func TestHiddenDimensionsAreGone(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	for _, set := range families(in.Plan) {
		p := set[0]
		names, _ := DimensionNames(in.Plan, p)
		require.NotEmpty(t, names, p.Code)
		whole := stopsAndWishes(allWishes(in, set))
		for _, name := range names {
			p.Drawing = model.Drawing{Hide: []string{name}}
			assert.Less(t, stopsAndWishes(allWishes(in, set)), whole, "part %s without %q", p.Code, name)
		}
		p.Drawing = model.Drawing{Hide: []string{"no such thing"}}
		assert.Equal(t, whole, stopsAndWishes(allWishes(in, set)), p.Code)
		p.Drawing = model.Drawing{}
	}
}

// allWishes are the dimensions of all views of a part that its author wants.
func allWishes(in Input, set []*model.Part) []dims.Wish {
	b := newDesk(in, nil).partPage(set)
	b.setView(plateW)
	b.seen, _ = b.view.lines()
	return slices.Concat(b.wishes(), b.chosen(b.smallNamed()))
}

func stopsAndWishes(all []dims.Wish) int {
	n := 0
	for _, w := range all {
		n++
		if r, ok := w.(dims.Run); ok {
			n += len(r.Stops)
		}
	}
	return n
}

// A note that is moved stands where it would have stood and as far from there as
// was asked; what it points at stays, and the page stays clean.
func TestMovedNotesMove(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	p, set := partNamed(t, in.Plan, "leg")
	_, names := DimensionNames(in.Plan, p)
	require.Contains(t, names, "note lower")
	const says = "countersink from the inside face"
	note := names[slices.IndexFunc(names, func(s string) bool { return s != "note lower" && strings.HasPrefix(s, "note ") })]
	before := faceOf(in, set)
	by := geom.Pt{X: 5, Y: 4}
	p.Drawing.Move = []model.Shift{{Name: note, By: by}}
	after := faceOf(in, set)
	// Blocks hang from their upper edge, so places are compared with the datum's.
	rise := after.view.at.Sub(before.view.at)
	corner := func(b *partPage) geom.Pt {
		c := geom.NoBox()
		each(b.items, func(item render.Item) {
			if f, ok := item.(render.Fill); ok && f.Tone == render.Paper {
				c = c.Union(inspect.Bounds([]render.Item{f}))
			}
		})
		return c.Min
	}
	moved := noteWith(t, after.items, says).Sub(corner(after)).Sub(noteWith(t, before.items, says).Sub(corner(before)))
	assert.InDelta(t, 0, moved.Sub(by).Len(), 1e-6, "%v, the view moved by %v", moved, rise)
	assert.Empty(t, inspect.Collisions(after.items))
	p.Drawing = model.Drawing{}
}

// Every dimension can be moved, the marks of a row and the row itself too; only
// the center line stays where the center is.
func TestAllDimensionsMove(t *testing.T) {
	for _, piece := range []string{"chair", "side-table"} {
		in := drawnPiece(t, piece, "", expr.Inch)
		for _, set := range families(in.Plan) {
			p := set[0]
			hide, move := DimensionNames(in.Plan, p)
			assert.ElementsMatch(t, slices.DeleteFunc(slices.Clone(hide), func(s string) bool { return s == "center" }), move, p.Code)
			for _, name := range move {
				p.Drawing = model.Drawing{Move: []model.Shift{{Name: name, By: geom.Pt{X: 1.5, Y: -1.5}}}}
				assert.Positive(t, shifted(allWishes(in, set)), "part %s, %q", p.Code, name)
			}
			p.Drawing = model.Drawing{}
		}
	}
}

// shifted counts the dimensions that are to stand away from their places.
func shifted(all []dims.Wish) int {
	n := 0
	for _, w := range all {
		switch w := w.(type) {
		case dims.Shifted:
			n++
		case dims.Run:
			n += len(slices.DeleteFunc(slices.Clone(w.Stops), func(s dims.Stop) bool { return s.By == geom.Pt{} }))
		}
	}
	return n
}

// The author's face and scale are the ones that are drawn.
func TestFaceAndScaleAreChosen(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	p, set := partNamed(t, in.Plan, "leg")
	usual := facing(p).shown()
	p.Drawing.Face = p.Names.Faces[1-usual]
	assert.Equal(t, 1-usual, facing(p).shown())
	p.Drawing.Face = p.Names.Faces[usual]
	assert.Equal(t, usual, facing(p).shown())
	for _, scale := range []float64{4, 8} {
		p.Drawing.Scale = scale
		b := faceOf(in, set)
		assert.InDelta(t, 1/scale, b.view.k, 1e-12)
		assert.Empty(t, inspect.Collisions(b.items), "1:%g", scale)
	}
	p.Drawing = model.Drawing{}
}

// Joints that are opened farther stand farther apart.
func TestExplodedDistance(t *testing.T) {
	d := newDesk(drawn(t, "", expr.Inch), nil)
	var all []int
	for i := range d.plan.Placed {
		all = append(all, i)
	}
	far := func(apart float64) float64 {
		most := 0.0
		for _, v := range d.spread(all, apart) {
			most = math.Max(most, v.Len())
		}
		return most
	}
	assert.InDelta(t, 2*far(100), far(200), 1e-6)
	assert.InDelta(t, far(d.apart(all)), far(0), 1e-9, "0 is what is usual")
}

// Blocks are shared out to as few pages as can be, whatever their heights, and
// each is on one page.
func TestPackedIsWholeAndTight(t *testing.T) {
	high := func(h ...float64) []block {
		var out []block
		for _, x := range h {
			out = append(out, block{height: x})
		}
		return out
	}
	for _, c := range []struct {
		heights []float64
		pages   int
	}{
		{[]float64{60, 60, 40, 40}, 2}, // as they come: 60; 60 and 40; 40 would be three
		{[]float64{50, 50, 50, 50}, 2}, {[]float64{101, 10}, 2}, {[]float64{30, 30, 30}, 1}, {nil, 0},
	} {
		pages := packed(high(c.heights...), 100, 0)
		assert.Len(t, pages, c.pages, "%v", c.heights)
		var all []int
		for _, page := range pages {
			sum := 0.0
			for _, i := range page {
				sum += c.heights[i]
			}
			assert.True(t, sum <= 100 || len(page) == 1)
			all = append(all, page...)
		}
		slices.Sort(all)
		for i := range c.heights {
			assert.Equal(t, i, all[i])
		}
	}
	many := make([]float64, 40)
	for i := range many {
		many[i] = 30
	}
	assert.Len(t, packed(high(many...), 100, 0), 14, "more than are shared out in the best way")
}
