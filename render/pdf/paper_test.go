package pdf

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdftest"
)

// A sheet is a painted Letter page that can be asked how dark it is.
type sheet struct {
	img  *image.RGBA
	x, y float64 // dots per millimetre
}

// ink returns the share of ink of one pixel, rows counted from the top.
func (s sheet) ink(x, y int) float64 {
	c := s.img.RGBAAt(x, y)
	return 1 - float64(int(c.R)+int(c.G)+int(c.B))/(3*255)
}

// dark returns the share of ink at a place of the page, between pixels.
func (s sheet) dark(at geom.Pt) float64 {
	x, y := at.X*s.x-0.5, float64(s.img.Rect.Dy())-at.Y*s.y-0.5
	i, j := math.Floor(x), math.Floor(y)
	fx, fy, col, row := x-i, y-j, int(i), int(j)
	return (1-fx)*((1-fy)*s.ink(col, row)+fy*s.ink(col, row+1)) +
		fx*((1-fy)*s.ink(col+1, row)+fy*s.ink(col+1, row+1))
}

// off returns how far the middle of the line that crosses the normal at a
// place lies from that place, in mm, or NaN when there is no line.
func (s sheet) off(at, normal geom.Pt) float64 {
	const reach, step = 0.6, 0.02
	sum, moment := 0.0, 0.0
	for d := -reach; d <= reach; d += step {
		v := s.dark(at.Add(normal.Mul(d)))
		sum += v
		moment += v * d
	}
	if sum*step < 0.1 {
		return math.NaN()
	}
	return moment / sum
}

// darkBoxes returns a function that finds the box of the ink inside a box.
func darkBoxes(img image.Image, dpi float64) func(geom.Box) geom.Box {
	dots := dpi / 25.4
	return func(in geom.Box) geom.Box {
		h := float64(img.Bounds().Dy())
		found := geom.NoBox()
		for x := int(in.Min.X * dots); x < int(in.Max.X*dots); x++ {
			for y := int(h - in.Max.Y*dots); y < int(h-in.Min.Y*dots); y++ {
				if r, _, _, _ := img.At(x, y).RGBA(); r < 0x8000 {
					found = found.With(pt(float64(x)/dots, (h-float64(y))/dots)).
						With(pt(float64(x+1)/dots, (h-float64(y)-1)/dots))
				}
			}
		}
		return found
	}
}

func paint(t *testing.T, dpi int, items ...render.Item) sheet {
	t.Helper()
	d := pdftest.Open(t, write(t, book(letter, items)))
	img, ok := d.Render(0, dpi).(*image.RGBA)
	require.True(t, ok)
	return sheet{img, float64(img.Rect.Dx()) / letter.W, float64(img.Rect.Dy()) / letter.H}
}

// arcOn returns the arc of radius r round c between two angles in degrees.
func arcOn(c geom.Pt, r, from, to float64) geom.Seg {
	at := func(deg float64) geom.Pt { return c.Add(pt(r, 0).Turn(deg * math.Pi / 180)) }
	s := geom.Seg{A: at(from), B: at(to), C: c, R: r, Turn: geom.CCW}
	if to < from {
		s.Turn = geom.CW
	}
	return s
}

// A template is cut along its line, so the line has to be where the model has
// it: every segment is looked for at many places across its normal.
func TestOutlinesOnPaper(t *testing.T) {
	segs := []geom.Seg{
		arcOn(pt(30, 240), 5, 10, 350),
		arcOn(pt(60, 240), 12.7, 0, 359),
		arcOn(pt(100, 230), 25, 200, -30),
		arcOn(pt(160, 230), 30, 90, 97),
		arcOn(pt(-40, 100), 60, -40, 44),
		arcOn(pt(-120, 120), 200, -25, 20),
		arcOn(pt(-480, 130), 600, -8, 9),
		arcOn(pt(160, 900), 780, 268, 273),
		{A: pt(12, 12), B: pt(203, 265)},
		{A: pt(12, 20), B: pt(203, 20)},
		{A: pt(200, 30), B: pt(200, 270)},
	}
	worst := 0.0
	for n, s := range segs {
		sheet := paint(t, 300, render.Stroke{Paths: render.FromSegs(s), Pen: render.CutLine})
		for i := 1; i < 100; i++ {
			share := float64(i) / 100
			if min(share, 1-share)*s.Length() < 1 {
				continue // the end of the line is within reach
			}
			off := sheet.off(s.At(share), s.Tangent(share).Left())
			require.False(t, math.IsNaN(off), "segment %d is not drawn at %g", n, share)
			worst = max(worst, math.Abs(off))
		}
	}
	t.Logf("farthest from its place: %.4f mm", worst)
	assert.Less(t, worst, 0.05, "mm")
}

// A closed outline of lines and arcs, as a template has it, in one path.
func TestClosedOutlineOnPaper(t *testing.T) {
	path := render.Path{Closed: true, Segs: []geom.Seg{
		{A: pt(40, 40), B: pt(160, 40)},
		arcOn(pt(160, 60), 20, -90, 90),
		{A: pt(160, 80), B: pt(100, 80)},
		arcOn(pt(100, 110), 30, 270, 180),
		{A: pt(70, 110), B: pt(40, 110)},
		{A: pt(40, 110), B: pt(40, 40)},
	}}
	s := paint(t, 300, render.Stroke{Paths: []render.Path{path}, Pen: render.CutLine})
	for n, seg := range path.Segs {
		for i := 1; i < 20; i++ {
			share := float64(i) / 20
			at := seg.At(share)
			if at.Sub(seg.A).Len() < 2 || at.Sub(seg.B).Len() < 2 {
				continue // the neighbour is within reach
			}
			assert.InDelta(t, 0, s.off(at, seg.Tangent(share).Left()), 0.05, "segment %d at %g", n, share)
		}
	}
}

func TestPenWidthsOnPaper(t *testing.T) {
	for _, width := range []float64{0.18, 0.25, 0.35, 0.5, 0.7, 2} {
		s := paint(t, 600, render.Stroke{Paths: []render.Path{render.Lines(pt(20, 30), pt(60, 50))}, Pen: render.Pen{Width: width}})
		normal := pt(40, 20).Unit().Left()
		ink := 0.0
		for d := -2.0; d <= 2; d += 0.005 {
			ink += 0.005 * s.dark(pt(40, 40).Add(normal.Mul(d)))
		}
		assert.InDelta(t, width, ink, 0.02, "mm")
	}
}

func TestDashesOnPaper(t *testing.T) {
	pen := render.Pen{Width: 0.5, Dash: []float64{6, 2, 1, 2}}
	s := paint(t, 300, render.Stroke{Paths: []render.Path{render.Lines(pt(20, 50), pt(75, 50))}, Pen: pen})
	for x := 0.25; x < 55; x += 0.5 {
		inside := math.Mod(x, 11)
		on := inside < 6 || inside > 8 && inside < 9
		assert.Equal(t, on, s.dark(pt(20+x, 50)) > 0.5, "%g mm along", x)
	}
}

func TestFillsOnPaper(t *testing.T) {
	rings := []render.Path{render.Circle(pt(60, 60), 30), render.Circle(pt(60, 60), 20), render.Circle(pt(60, 60), 10)}
	s := paint(t, 150,
		render.Fill{Paths: rings, Tone: render.Grain},
		render.Fill{Paths: []render.Path{render.Rect(box(120, 20, 160, 40))}, Tone: render.Dark},
	)
	gray := func(tone render.Tone) float64 { return 1 - float64(tone.R)/255 }
	assert.InDelta(t, gray(render.Grain), s.dark(pt(60, 60)), 0.01)
	assert.InDelta(t, 0, s.dark(pt(75, 60)), 0.01, "a hole")
	assert.InDelta(t, gray(render.Grain), s.dark(pt(60, 85)), 0.01)
	assert.InDelta(t, 0, s.dark(pt(95, 60)), 0.01)
	assert.InDelta(t, gray(render.Dark), s.dark(pt(140, 30)), 0.01)
}

func TestClipOnPaper(t *testing.T) {
	blot := render.Fill{Paths: []render.Path{render.Rect(box(10, 10, 100, 100))}}
	s := paint(t, 150,
		render.Group{Clip: box(40, 50, 60, 80), Items: []render.Item{
			render.Group{Clip: box(50, 20, 90, 70), Items: []render.Item{blot}},
		}},
		render.Fill{Paths: []render.Path{render.Rect(box(120, 20, 130, 30))}},
	)
	for x := 12.5; x < 100; x += 5 {
		for y := 12.5; y < 100; y += 5 {
			assert.Equal(t, box(50, 50, 60, 70).Has(pt(x, y)), s.dark(pt(x, y)) > 0.5, "%g %g", x, y)
		}
	}
	assert.InDelta(t, 1, s.dark(pt(125, 25)), 0.01, "the clip ends with its group")
}

// What one item looks like must not depend on those before it.
func TestNothingLeaksFromItemToItem(t *testing.T) {
	plain := []render.Item{
		render.Stroke{Paths: []render.Path{render.Lines(pt(20, 40), pt(90, 60), pt(20, 60))}, Pen: render.Outline},
		render.Fill{Paths: []render.Path{render.Circle(pt(50, 100), 10)}},
		words(20, 120, "black words"),
		render.Text{At: pt(20, 140), Text: "turned", Face: fonts.CondBold, Size: 14, Angle: 0.5},
	}
	loud := []render.Item{
		render.Stroke{Paths: []render.Path{render.Lines(pt(150, 40), pt(190, 60))}, Pen: render.Pen{Width: 3, Tone: render.Tone{R: 255}, Dash: []float64{4, 1}}},
		render.Fill{Paths: []render.Path{render.Circle(pt(170, 100), 10)}, Tone: render.Tone{G: 200}},
		render.Text{At: pt(150, 140), Text: "loud", Face: fonts.SansBold, Size: 30, Angle: 1, Tone: render.Tone{B: 200}},
		render.Group{Clip: box(140, 150, 200, 200), Items: []render.Item{
			render.Text{At: pt(145, 160), Text: "in a clip", Face: fonts.Cond, Size: 20, Tone: render.Tone{R: 200}},
		}},
	}
	alone := paint(t, 100, plain...)
	var mixed []render.Item
	for i := range plain {
		mixed = append(mixed, loud...)
		mixed = append(mixed, plain[i])
	}
	both := paint(t, 100, mixed...)
	for x := range int(130 * alone.x) {
		for y := range alone.img.Rect.Dy() {
			if alone.img.RGBAAt(x, y) != both.img.RGBAAt(x, y) {
				require.Fail(t, "another colour", "pixel %d %d", x, y)
			}
		}
	}
}

func TestImagesOnPaper(t *testing.T) {
	d := pdftest.Open(t, write(t, rich(t)))
	img := d.Render(0, 100)
	at := func(x, y float64) [3]uint32 {
		r, g, b, _ := img.At(int(x/25.4*100), img.Bounds().Dy()-int(y/25.4*100)).RGBA()
		return [3]uint32{r >> 8, g >> 8, b >> 8}
	}
	assert.Equal(t, [3]uint32{255, 0, 0}, at(130, 130))
	assert.Equal(t, [3]uint32{255, 0, 0}, at(150, 100), "the second image, though as wide as the first, is itself")
	for _, c := range [][3]uint32{at(150, 130), at(130, 100)} {
		assert.InDelta(t, 127, float64(c[0]), 3, "half transparent blue on white")
		assert.Equal(t, uint32(255), c[2])
	}
	for _, c := range [][2]float64{{118, 130}, {162, 130}, {140, 142}, {140, 118}, {162, 100}} {
		assert.Equal(t, [3]uint32{255, 255, 255}, at(c[0], c[1]), "outside the boxes at %v", c)
	}
}
