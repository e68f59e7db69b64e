package woodwork_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/woodwork"
	"planset/model/geom"
	"planset/render"
)

// cutBoard is a board of 400 by 90 by 20 cut along its length, at full size, in
// a window of 60 by 40 round its middle.
func cutBoard(t *testing.T) (*geom.Solid, woodwork.Cut) {
	t.Helper()
	solid, err := geom.Board{Outline: geom.Rect(400, 90), Thick: 20}.Solid(0.1)
	require.NoError(t, err)
	return solid, woodwork.Cut{At: geom.V3{X: 200, Y: 45, Z: 10}, Right: geom.V3{X: 1}, Up: geom.V3{Z: 1}, Scale: 1,
		Window: geom.Box{Min: geom.Pt{X: -30, Y: -20}, Max: geom.Pt{X: 30, Y: 20}}}
}

// parts are the four layers of a cut: its fill, its grain, its edges and its
// break lines.
func parts(t *testing.T, items []render.Item) (fill, grain, edges, breaks []render.Path) {
	t.Helper()
	require.Len(t, items, 1)
	g := items[0].(render.Group)
	require.Len(t, g.Items, 4)
	assert.Equal(t, render.Break, g.Items[3].(render.Stroke).Pen)
	return g.Items[0].(render.Fill).Paths, g.Items[1].(render.Stroke).Paths, g.Items[2].(render.Stroke).Paths, g.Items[3].(render.Stroke).Paths
}

// A piece that goes on beyond the window ends in a break line there and has no
// edge; where it truly ends it has one.
func TestCutEndsInBreakLines(t *testing.T) {
	solid, c := cutBoard(t)
	fill, _, edges, breaks := parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
	require.Len(t, breaks, 2, "left and right")
	for _, p := range breaks {
		first, last := p.Segs[0].A, p.Segs[len(p.Segs)-1].B
		assert.InDelta(t, 30, math.Abs(first.X), 1e-6)
		assert.InDelta(t, first.X, last.X, 1e-6)
		assert.InDelta(t, 20, math.Abs(last.Y-first.Y), 1e-6, "over the whole thickness")
	}
	long := 0.0
	for _, p := range edges {
		for _, g := range p.Segs {
			assert.InDelta(t, 10, math.Abs(g.A.Y), 1e-6, "only the faces are edges")
			long += g.Length()
		}
	}
	assert.InDelta(t, 2*60, long, 1e-6)
	area := 0.0
	for _, p := range fill {
		area += geom.Outline(p.Segs).Area()
	}
	assert.InDelta(t, 60*20, area, 1e-6, "zigzags take as much as they give")

	c.Window = c.Window.Grow(300)
	_, _, edges, breaks = parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
	assert.Empty(t, breaks)
	require.Len(t, edges, 1)
	assert.InDelta(t, 2*(400+20), geom.Outline(edges[0].Segs).Length(), 1e-6)
}

// A cut along the fibers shows them, one across them shows rings: the lines of
// the first are straight along the board, those of the second bend and curve
// about a point off a broad face.
func TestGrainOfCuts(t *testing.T) {
	solid, c := cutBoard(t)
	_, grain, _, _ := parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
	require.NotEmpty(t, grain)
	for _, p := range grain {
		for _, g := range p.Segs {
			assert.InDelta(t, g.A.Y, g.B.Y, 1e-9)
		}
	}
	for name, up := range map[string]geom.V3{"flat": {Z: 1}, "on edge": {Y: 1}} {
		c.Right, c.Up = up.Cross(geom.V3{X: 1}), up
		c.Window = geom.Box{Min: geom.Pt{X: -60, Y: -60}, Max: geom.Pt{X: 60, Y: 60}}
		_, rings, _, _ := parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
		require.NotEmpty(t, rings)
		broad := geom.Pt{X: 1}
		if name == "on edge" {
			broad = geom.Pt{Y: 1}
		}
		run := geom.Pt{}
		for _, p := range rings {
			for _, g := range p.Segs {
				d := g.B.Sub(g.A)
				run = run.Add(geom.Pt{X: math.Abs(d.X), Y: math.Abs(d.Y)})
			}
		}
		assert.Greater(t, run.Dot(broad)/(run.X+run.Y), 0.5, name)
	}
}

// A denser hatch has more lines, in proportion.
func TestHatchPitch(t *testing.T) {
	solid, c := cutBoard(t)
	c.Window = geom.Box{Min: geom.Pt{X: -190, Y: -20}, Max: geom.Pt{X: 190, Y: 20}}
	long := func(pitch float64) float64 {
		c.Hatch.Pitch = pitch
		_, grain, _, _ := parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
		sum := 0.0
		for _, p := range grain {
			for _, g := range p.Segs {
				sum += g.Length()
			}
		}
		return sum
	}
	assert.InDelta(t, 2, long(1)/long(2), 0.5)
}

// The hatch stays out of what is kept free, and what is elsewhere stays.
func TestHatchKeepsFree(t *testing.T) {
	solid, c := cutBoard(t)
	keep := geom.Box{Min: geom.Pt{X: -12, Y: -4}, Max: geom.Pt{X: 5, Y: 6}}
	length := func() (in, out float64) {
		_, grain, _, _ := parts(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
		for _, p := range grain {
			for _, g := range p.Segs {
				for i := range 1000 {
					q := g.A.Add(g.B.Sub(g.A).Mul((float64(i) + 0.5) / 1000))
					if keep.Grow(-1e-6).Has(q) {
						in += g.Length() / 1000
					} else {
						out += g.Length() / 1000
					}
				}
			}
		}
		return in, out
	}
	in, out := length()
	require.Positive(t, in)
	c.Hatch.Keep = [][]geom.Pt{{keep.Min, {X: keep.Max.X, Y: keep.Min.Y}, keep.Max, {X: keep.Min.X, Y: keep.Max.Y}}}
	in2, out2 := length()
	assert.Zero(t, in2)
	assert.InDelta(t, out, out2, 0.2)
}

// Stretches of a line inside a square with a square hole, by hand.
func TestStretches(t *testing.T) {
	square := func(r float64) []geom.Pt {
		return []geom.Pt{{X: -r, Y: -r}, {X: r, Y: -r}, {X: r, Y: r}, {X: -r, Y: r}}
	}
	loops := [][]geom.Pt{square(10), square(3)}
	got := woodwork.Stretches(loops, geom.Pt{X: 1, Y: 1}, geom.Pt{X: 1})
	assert.Equal(t, [][2]float64{{-11, -4}, {2, 9}}, got)
	assert.Len(t, woodwork.Stretches(loops, geom.Pt{Y: 5}, geom.Pt{X: 1}), 1)
	assert.Empty(t, woodwork.Stretches(loops, geom.Pt{Y: 11}, geom.Pt{X: 1}))
}

// A break line ends where it is told to, and leaves as much on one side as on
// the other.
func TestBreakLine(t *testing.T) {
	for _, b := range []geom.Pt{{X: 30}, {Y: -4}, {X: 3, Y: 4}} {
		l := woodwork.BreakLine(geom.Pt{}, b)
		assert.Equal(t, geom.Pt{}, l[0])
		assert.Equal(t, b, l[len(l)-1])
		assert.InDelta(t, 0, geom.Polygon(l...).Area(), 1e-9)
		assert.Greater(t, geom.Polygon(l...).Length(), 2*b.Len())
	}
}
