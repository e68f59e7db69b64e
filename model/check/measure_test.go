package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// box is a block standing at a corner.
func box(t testing.TB, at, size geom.V3) *geom.Solid {
	t.Helper()
	s, err := geom.Board{Outline: geom.Rect(size.X, size.Y), Thick: size.Z}.Solid(0.1)
	require.NoError(t, err)
	home := geom.Home()
	home.Origin = at
	return s.Transform(home)
}

// TestApart: between boxes the way is that of face to face, edge to edge, and
// corner to corner, and the same from either side.
func TestApart(t *testing.T) {
	a := box(t, geom.V3{}, geom.V3{X: 100, Y: 50, Z: 20})
	small := geom.V3{X: 10, Y: 10, Z: 10}
	cases := map[string]struct {
		at   geom.V3
		want geom.V3
	}{
		"face inside a face": {geom.V3{X: 40, Y: 20, Z: 23}, geom.V3{Z: 3}},
		"edge":               {geom.V3{X: 103, Y: 20, Z: 24}, geom.V3{X: 3, Z: 4}},
		"corner":             {geom.V3{X: 102, Y: 53, Z: 26}, geom.V3{X: 2, Y: 3, Z: 6}},
	}
	for name, c := range cases {
		b := box(t, c.at, small)
		way, near := apart(a, b, 10)
		require.True(t, near, name)
		assert.InDelta(t, 0, way.Sub(c.want).Len(), 1e-9, name)
		back, _ := apart(b, a, 10)
		assert.InDelta(t, 0, back.Add(c.want).Len(), 1e-9, name)
		_, near = apart(a, b, c.want.Len()-0.01)
		assert.False(t, near, name)
	}
}

// TestSegments: crossing, parallel and end to end.
func TestSegments(t *testing.T) {
	s := segment{geom.V3{}, geom.V3{X: 10}}
	assert.InDelta(t, 4, s.to(segment{geom.V3{X: 5, Y: -5, Z: 4}, geom.V3{Y: 10}}).Len(), 1e-12)
	assert.InDelta(t, 3, s.to(segment{geom.V3{X: 2, Y: 3}, geom.V3{X: 20}}).Len(), 1e-12)
	assert.InDelta(t, 5, s.to(segment{geom.V3{X: 13, Y: 4}, geom.V3{X: 9}}).Len(), 1e-12)
	assert.InDelta(t, 5, s.to(segment{geom.V3{X: 13, Y: 4}, geom.V3{}}).Len(), 1e-12, "a point")
}

// TestLeaves: a line leaves a bored board at its skin, as if it had no hole.
func TestLeaves(t *testing.T) {
	b := geom.Board{Outline: geom.Rect(100, 50), Thick: 20, Bores: []geom.Bore{{At: geom.V3{X: 40, Y: 20}, Dir: geom.V3{Z: 1}, Diam: 9}}}
	s, err := b.Solid(0.1)
	require.NoError(t, err)
	axis := geom.V3{X: 40, Y: 20, Z: 5}
	for dir, want := range map[geom.V3]float64{{X: 1}: 60, {X: -1}: 40, {Y: 1}: 30, {Y: -1}: 20, {Z: 1}: 15, {Z: -1}: 5, {X: 0.6, Y: 0.8}: 37.5} {
		got, ok := leaves(s, axis, dir)
		require.True(t, ok)
		assert.InDelta(t, want, got, 1e-9, "%v", dir)
	}
	_, ok := leaves(s, geom.V3{X: 140, Y: 20, Z: 5}, geom.V3{X: 1})
	assert.False(t, ok, "a line that starts outside never leaves")
}

// TestHull: points inside and on a side do not belong to the ring.
func TestHull(t *testing.T) {
	ring := hull([]geom.Pt{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 2, Y: 0}, {X: 4, Y: 3}, {X: 1, Y: 1}, {X: 0, Y: 3}, {X: 0, Y: 0}})
	assert.Len(t, ring, 4)
	assert.InDelta(t, 24, twice(ring), 1e-12)
	assert.Less(t, twice(hull([]geom.Pt{{X: 0}, {X: 5}, {X: 9}})), 1e-9, "a line has no area")
}

// TestSay: what a reader of inches is told.
func TestSay(t *testing.T) {
	in, mm := &shop{Plan: &model.Plan{Unit: expr.Inch}}, &shop{Plan: &model.Plan{Unit: expr.MM}}
	assert.Equal(t, "0.47 in²", in.area(300)) // 300 / 25.4²
	assert.Equal(t, "300 mm²", mm.area(300))
	assert.Equal(t, "1⁄32″", in.more(0.1), "what is to be moved is moved")
	assert.Equal(t, "1⁄16″", in.more(25.4/32+0.01))
	assert.Equal(t, "1.5 mm", mm.more(1.01))
	got, limit := mm.against(11.9, 12.1)
	assert.Equal(t, []string{"11.9 mm", "12.1 mm"}, []string{got, limit})
	got, limit = mm.against(11, 12)
	assert.Equal(t, []string{"11 mm", "12 mm"}, []string{got, limit})
	a, b := &model.Part{Name: "Slat", Code: "F2"}, &model.Part{Name: "Slat", Code: "F1"}
	assert.Equal(t, "Slat F1, F2 and Rail A", called(a, b, a, &model.Part{Name: "Rail", Code: "A"}))
}

// TestWorse: bigger or smaller by more than a rounding is worse, on the side
// where the value was.
func TestWorse(t *testing.T) {
	assert.True(t, worse(9.9, 10, 12))
	assert.False(t, worse(9.96, 10, 12), "the author copied it rounded")
	assert.True(t, worse(16.2, 16, 15))
	assert.False(t, worse(math.Nextafter(16, 0), 16, 15))
}
