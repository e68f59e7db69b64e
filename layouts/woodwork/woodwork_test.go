package woodwork_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

var goods = []*model.Hardware{
	{Kind: model.CarriageBolt, Size: "3/8", Diam: 9.525, Length: 69.85},
	{Kind: model.CarriageBolt, Size: "M10", Diam: 10, Length: 80},
	{Kind: model.HexBolt, Size: "1/4", Diam: 6.35, Length: 50.8},
	{Kind: model.WoodScrew, Size: "#8", Diam: 4.166, Length: 50.8},
	{Kind: model.WoodScrew, Size: "4.5", Diam: 4.5, Length: 45},
	{Kind: model.PocketScrew, Size: "#8", Diam: 4.166, Length: 38.1},
	{Kind: model.WoodScrew, Size: "a size no table has", Diam: 7, Length: 60},
}

// A bolt is as long under its head, and a screw from its head, as it is sold.
func TestDrivenIsAsLongAsSold(t *testing.T) {
	for _, h := range goods {
		for _, dir := range []geom.V3{{Z: -1}, {X: 1}, {X: 0.6, Y: 0.8}, geom.V3{X: 1, Y: -2, Z: 0.5}.Unit()} {
			head := geom.V3{X: 3, Y: -7, Z: 11}
			s := woodwork.Driven(h, head, dir)
			far, near, wide := math.Inf(-1), math.Inf(1), 0.0
			for _, f := range s.Faces {
				for _, v := range f.Loops[0] {
					d := v.Sub(head)
					a := d.Dot(dir)
					far, near = max(far, a), min(near, a)
					wide = max(wide, d.Sub(dir.Mul(a)).Len())
				}
			}
			assert.InDelta(t, h.Length, far, 1e-6, "%s %s", h.Kind, h.Size)
			assert.LessOrEqual(t, near, 1e-9)
			assert.InDelta(t, woodwork.SizesOf(h).Head/2, wide, 0.02*wide+1e-6, "its head is the widest of it")
		}
	}
}

// Every face looks out of the metal, so that hidden lines come out right: the
// volume by the divergence theorem is that of a turned body, or near it.
func TestHardwareIsTurnedOutward(t *testing.T) {
	h := goods[0]
	s := woodwork.SizesOf(h)
	w := woodwork.Washer(h, geom.V3{X: 5}, geom.V3{Y: 1})
	disc := math.Pi * s.Washer * s.Washer / 4 * s.WasherThick
	assert.InEpsilon(t, disc, w.Volume(), 0.03)
	n := woodwork.Nut(h, geom.V3{}, geom.V3{Z: 1})
	assert.InEpsilon(t, math.Sqrt(3)/2*s.Flats*s.Flats*s.NutThick, n.Volume(), 1e-6, "a hexagon over its flats")
	for _, g := range goods {
		solid := woodwork.Driven(g, geom.V3{}, geom.V3{X: 1})
		assert.Positive(t, solid.Volume())
		for _, f := range solid.Faces {
			assert.InDelta(t, 1, f.N.Len(), 1e-9)
		}
	}
}

func square(side float64) []geom.Pt {
	return []geom.Pt{{}, {X: side}, {X: side, Y: side}, {Y: side}}
}

func ends(paths []render.Path) []geom.Pt {
	var out []geom.Pt
	for _, p := range paths {
		for _, s := range p.Segs {
			out = append(out, s.A, s.B)
		}
	}
	return out
}

// Grain stays on the wood, off its edges and out of its holes.
func TestFibersStayInside(t *testing.T) {
	hole := []geom.Pt{{X: 30, Y: 30}, {X: 30, Y: 60}, {X: 60, Y: 60}, {X: 60, Y: 30}}
	loops := [][]geom.Pt{square(100), hole}
	for _, dir := range []geom.Pt{{X: 1}, {Y: 1}, geom.Pt{X: 2, Y: 1}.Unit()} {
		paths := woodwork.Fibers(loops, geom.Pt{X: -13, Y: 4}, dir)
		require.NotEmpty(t, paths)
		for _, q := range ends(paths) {
			assert.True(t, q.X >= 0 && q.X <= 100 && q.Y >= 0 && q.Y <= 100, "%v", q)
			assert.False(t, q.X > 30.01 && q.X < 59.99 && q.Y > 30.01 && q.Y < 59.99, "%v in the hole", q)
		}
		for _, p := range paths {
			d := p.Segs[0].B.Sub(p.Segs[0].A)
			assert.InDelta(t, 0, d.Cross(dir), 1e-9, "along the grain")
		}
	}
	for _, q := range ends(woodwork.Rings(loops, geom.Pt{X: 50, Y: -40}, 3)) {
		assert.True(t, q.X >= -1e-9 && q.X <= 100 && q.Y >= -1e-9 && q.Y <= 100)
	}
}

// A picture fits its box, whatever the camera, and points of the world land
// where the picture has them.
func TestPictureFitsItsBox(t *testing.T) {
	b := geom.Board{Outline: geom.Rect(900, 90), Thick: 19}
	solid, err := b.Solid(0.1)
	require.NoError(t, err)
	box := geom.Box{Min: geom.Pt{X: 20, Y: 30}, Max: geom.Pt{X: 120, Y: 90}}
	for _, words := range []string{"front", "top", "front right high", "rear left low"} {
		cam, err := view.Words(words)
		require.NoError(t, err)
		p := woodwork.Fit([]woodwork.Piece{{ID: 7, Solid: solid, Grain: geom.V3{X: 1}, Look: woodwork.Fresh}}, cam, box, 1)
		got := inspect.Bounds(p.Items())
		assert.True(t, box.Grow(0.3).Has(got.Min) && box.Grow(0.3).Has(got.Max), "%s: %v", words, got)
		assert.LessOrEqual(t, p.Scale, 1.0)
		for _, v := range solid.Points() {
			q := p.Point(v)
			assert.True(t, p.Box.Grow(1e-6).Has(q), "%s", words)
		}
	}
}

// A section through a plain board across its length is its thickness by its
// width, to scale.
func TestSectionIsToScale(t *testing.T) {
	b := geom.Board{Outline: geom.Rect(400, 90), Thick: 20}
	solid, err := b.Solid(0.1)
	require.NoError(t, err)
	c := woodwork.Cut{At: geom.V3{X: 200, Y: 45, Z: 10}, Right: geom.V3{Y: 1}, Up: geom.V3{Z: 1}, Page: geom.Pt{X: 50, Y: 50}, Scale: 0.5,
		Window: geom.Box{Max: geom.Pt{X: 100, Y: 100}}}
	loops := c.Loops(solid)
	require.Len(t, loops, 1)
	box := geom.NoBox()
	for _, q := range loops[0] {
		box = box.With(q)
	}
	assert.InDelta(t, 45, box.W(), 1e-6)
	assert.InDelta(t, 10, box.H(), 1e-6)
	assert.NotEmpty(t, c.Wood(solid, geom.V3{X: 1}, render.Edge))
}

// A spot of a piece is on it and not behind another piece; a piece right behind
// another has none.
func TestSpotsAreSeen(t *testing.T) {
	front, err := geom.Board{Outline: geom.Rect(100, 100), Thick: 10}.Solid(0.1)
	require.NoError(t, err)
	at := func(x, y float64, id int) woodwork.Piece {
		home := geom.Home()
		home.Origin = geom.V3{X: x, Y: y}
		return woodwork.Piece{ID: id, Solid: front.Transform(home), Look: woodwork.Natural}
	}
	// Seen from the front, y runs away from the eye: 2 is half behind 1, 3 is
	// wholly behind 4.
	cam := view.Camera{Right: geom.V3{X: 1}, Up: geom.V3{Z: 1}, Toward: geom.V3{Y: -1}}
	p := woodwork.At([]woodwork.Piece{at(0, 0, 1), at(50, 200, 2), at(300, 200, 3), at(300, 0, 4)}, cam, geom.Pt{}, 1)
	for id := 1; id <= 4; id++ {
		spots := p.Spots(id)
		assert.Equal(t, id == 3, len(spots) == 0, "piece %d", id)
		for _, q := range spots {
			assert.True(t, p.Box.Has(q))
			if id == 2 {
				assert.Greater(t, q.X, p.Point(geom.V3{X: 100}).X-1e-6, "beside the piece in front")
			}
		}
	}
}

func BenchmarkPicture(b *testing.B) {
	board, err := geom.Board{Outline: geom.Rect(900, 90), Thick: 19}.Solid(0.1)
	require.NoError(b, err)
	var pieces []woodwork.Piece
	for i := range 30 {
		home := geom.Home()
		home.Origin = geom.V3{Z: float64(i) * 40, Y: float64(i%3) * 100}
		pieces = append(pieces, woodwork.Piece{ID: i, Solid: board.Transform(home), Grain: geom.V3{X: 1}, Look: woodwork.Fresh})
	}
	cam, _ := view.Words("front right high")
	box := geom.Box{Max: geom.Pt{X: 180, Y: 200}}
	for b.Loop() {
		woodwork.Fit(pieces, cam, box, 1).Items()
	}
}
