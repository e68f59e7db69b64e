package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func box(x0, y0, x1, y1 float64) geom.Box { return geom.Box{Min: pt(x0, y0), Max: pt(x1, y1)} }

func near(t *testing.T, want, got geom.Box) {
	t.Helper()
	assert.InDelta(t, 0, want.Min.Sub(got.Min).Len(), 1e-9, "%v %v", want, got)
	assert.InDelta(t, 0, want.Max.Sub(got.Max).Len(), 1e-9, "%v %v", want, got)
}

func TestPathsAreWhole(t *testing.T) {
	for name, p := range map[string]Path{
		"rect":   Rect(box(1, 2, 5, 4)),
		"loop":   Loop(pt(0, 0), pt(4, 0), pt(0, 3)),
		"circle": Circle(pt(3, 4), 2),
	} {
		require.NoError(t, p.fault(), name)
		assert.True(t, p.Closed)
		area := 0.0
		for _, s := range p.Segs {
			area += s.A.Cross(s.B) / 2
			area += s.R * s.R / 2 * (s.Sweep() - math.Sin(s.Sweep()))
		}
		assert.InDelta(t, map[string]float64{"rect": 8, "loop": 6, "circle": 4 * math.Pi}[name], area, 1e-9, "anticlockwise")
	}
	assert.Len(t, Lines(pt(0, 0), pt(1, 0), pt(1, 1)).Segs, 2)
	assert.Empty(t, Lines(pt(0, 0)).Segs)
	assert.Empty(t, Loop(pt(0, 0)).Segs)
	marks := FromSegs(Lines(pt(0, 0), pt(1, 0), pt(1, 1)).Segs...)
	assert.Len(t, marks, 2)
	region := geom.Region{Outer: Rect(box(0, 0, 9, 9)).Segs, Holes: []geom.Outline{Circle(pt(4, 4), 1).Segs}}
	assert.Len(t, FromRegion(region), 2)
}

func TestBounds(t *testing.T) {
	pen := Pen{Width: 0.5}
	near(t, box(0.75, 1.75, 5.25, 4.25), Bounds(Stroke{Paths: []Path{Rect(box(1, 2, 5, 4))}, Pen: pen}))
	near(t, box(1, 2, 5, 6), Bounds(Fill{Paths: []Path{Circle(pt(3, 4), 2)}}))
	near(t, box(0, 0, 5, 6), Bounds(Fill{Paths: []Path{Circle(pt(3, 4), 2)}}, Image{Box: box(0, 0, 1, 1)}))
	clipped := Group{Clip: box(2, 3, 4, 9), Items: []Item{Fill{Paths: []Path{Circle(pt(3, 4), 2)}}}}
	near(t, box(2, 3, 4, 6), Bounds(clipped))
	clipped.Clip = box(20, 20, 30, 30)
	assert.True(t, Bounds(clipped).Empty())
	assert.True(t, Bounds().Empty())
	assert.True(t, Bounds(Link{Box: box(0, 0, 1, 1)}, Text{Text: " ", Size: 10}, Stroke{Pen: pen}).Empty())
}

func TestTextInk(t *testing.T) {
	text := Text{At: pt(10, 20), Text: "Hx", Face: fonts.Cond, Size: 10}
	ink := text.Ink()
	assert.InDelta(t, 20, ink.Min.Y, 1e-9)
	assert.InDelta(t, 20+fonts.CapHeight(fonts.Cond, 10), ink.Max.Y, 1e-9)
	w := fonts.Width(fonts.Cond, 10, "Hx")
	text.Align = Right
	near(t, geom.Box{Min: ink.Min.Sub(pt(w, 0)), Max: ink.Max.Sub(pt(w, 0))}, text.Ink())
	text.Align = Middle
	assert.InDelta(t, 10-w/2, text.Start().X, 1e-9)
	text.Angle = math.Pi / 2
	assert.InDelta(t, 0, text.Start().Sub(pt(10, 20-w/2)).Len(), 1e-9)
	assert.InDelta(t, ink.W(), text.Ink().H(), 1e-9)
	assert.InDelta(t, 10, text.Ink().Max.X, 1e-9, "turned left, letters rise to the left of the baseline")
}

func TestClipped(t *testing.T) {
	assert.False(t, Group{}.Clipped(), "the zero group clips nothing")
	assert.False(t, Group{Clip: geom.NoBox()}.Clipped())
	assert.True(t, Group{Clip: box(0, 0, 1, 1)}.Clipped())
}

func TestFaultless(t *testing.T) {
	for _, item := range []Item{
		Stroke{Pen: Hidden}, Stroke{Pen: Outline, Paths: []Path{{}, Circle(pt(0, 0), 1)}},
		Fill{}, Text{Size: 8}, Text{Text: "35 1⁄2″", Size: 8}, Link{Box: box(0, 0, 0, 0)},
		Image{Box: box(0, 0, 1, 1)}, Group{}, Group{Clip: geom.NoBox()},
	} {
		assert.NoError(t, Fault(item), "%#v", item)
	}
	for _, pen := range []Pen{Outline, Thin, Hairline, Heavy, Hidden, Center, Break, Ghost, CutLine, Rule} {
		assert.NoError(t, pen.fault())
		assert.GreaterOrEqual(t, pen.Width, 0.18, "nothing is finer than 0.18 mm")
	}
}

// All that is wrong with an item is named, not the first fault only.
func TestFaultsAreCollected(t *testing.T) {
	broken := Path{Segs: []geom.Seg{{A: pt(0, 0), B: pt(1, 0)}, {A: pt(1.02, 0), B: pt(2, 0)}}}
	err := Fault(Stroke{Paths: []Path{broken, broken}, Pen: Pen{Width: -1}})
	assert.ErrorContains(t, err, "a pen cannot be -1 mm wide")
	assert.ErrorContains(t, err, "a path is broken between {1 0} and {1.02 0} mm")
	err = Fault(Text{Text: "☃☂", Size: 9})
	assert.ErrorContains(t, err, "U+2603")
	assert.ErrorContains(t, err, "U+2602")
}

func TestGray(t *testing.T) {
	assert.Equal(t, White, Gray(0))
	assert.Equal(t, Tone{}, Gray(1))
	for want, tone := range map[float64]Tone{0: Paper, 0.15: Edge, 0.40: Grain, 0.70: Dark} {
		assert.InDelta(t, want, 1-float64(tone.R)/255, 0.003)
		assert.True(t, tone.R == tone.G && tone.G == tone.B)
	}
}
