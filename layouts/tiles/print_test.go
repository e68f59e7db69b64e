package tiles

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
	"planset/render/pdftest"
)

// bow is a crest rail: edges of 3 and 5 m radius, corners of 3 mm, a hole where
// a seam goes.
func bow() Template {
	const l, w = 560.0, 90.0
	sag := func(r float64) float64 { return r - math.Sqrt(r*r-l*l/4) }
	top := geom.ArcThrough(pt(l, w), pt(l/2, w+sag(3000)), pt(0, w))
	low := geom.ArcThrough(pt(0, sag(5000)), pt(l/2, 0), pt(l, sag(5000)))
	o := geom.Outline{low, geom.Line(low.B, top.A), top, geom.Line(top.B, low.A)}
	for _, i := range []int{1, 2} {
		if r, err := o.RoundCorner(i, 3); err == nil {
			o = r
		}
	}
	return Template{Code: "N", Name: "Crest rail", Note: "Cut 1", Outline: o, Blank: geom.Size{W: l, H: w + 15},
		Holes: []Hole{{At: pt(175, 50), Diam: 8, Note: "8 mm"}, {At: pt(40, 30), Diam: 3, Note: "3 mm"}, {At: pt(500, 45), Diam: 30, Note: "30 mm"}}}
}

// notched has inner corners, one sharp and one rounded.
func notched() Template {
	o := geom.Outline{
		geom.Line(pt(0, 0), pt(340, 0)), geom.Line(pt(340, 0), pt(340, 120)), geom.Line(pt(340, 120), pt(225, 120)),
		{A: pt(225, 120), B: pt(200, 145), C: pt(225, 145), R: 25, Turn: geom.CW},
		geom.Line(pt(200, 145), pt(200, 230)), geom.Line(pt(200, 230), pt(90, 260)), geom.Line(pt(90, 260), pt(60, 150)), geom.Line(pt(60, 150), pt(0, 150)),
		geom.Line(pt(0, 150), pt(0, 0)),
	}
	return Template{Code: "L", Name: "Bracket", Note: "Cut 2", Outline: o, Blank: geom.Size{W: 340, H: 260},
		Holes: []Hole{{At: pt(100, 200), Diam: 6}}}
}

// wedge is longer than a sheet and shorter than its diagonal.
func wedge() Template {
	return Template{Code: "W", Name: "Back leg", Note: "Cut 2", Face: "outside up", End: "foot", Blank: geom.Size{W: 258, H: 40},
		Outline: loop(rounded{pt(0, 0), 0}, rounded{pt(258, 10), 12}, rounded{pt(258, 40), 12}, rounded{pt(0, 40), 0}),
		Holes:   []Hole{{At: pt(20, 20), Diam: 6, Note: "6 mm"}, {At: pt(130, 22), Diam: 6, Note: "6 mm"}}}
}

func disc() Template {
	return Template{Code: "T", Name: "Table top", Note: "Cut 1", Outline: geom.Circle(pt(205, 205), 205), Blank: geom.Size{W: 410, H: 410},
		Holes: []Hole{{At: pt(205, 60), Diam: 5}, {At: pt(205, 350), Diam: 5}, {At: pt(60, 205), Diam: 5}, {At: pt(350, 205), Diam: 5}}}
}

// printed is one run of pages as PDFium paints it.
type printedRun struct {
	Run
	doc *pdftest.Doc
	ink map[int]pdftest.Ink
}

// dpi is how finely pages are painted for measuring; a dot is 0.042 mm.
const dpi = 600

func printRun(t *testing.T, p Paper, all ...Template) *printedRun {
	t.Helper()
	var ls []Layout
	for _, tpl := range all {
		ls = append(ls, Lay(tpl, p))
	}
	run := Pages(ls, testLook())
	book := render.Book{Title: "print", Lang: "en-US", Date: "2026-03-01", Seed: "print", Pages: run.Pages}
	var buf bytes.Buffer
	require.NoError(t, pdf.Write(&buf, &book))
	return &printedRun{Run: run, doc: pdftest.Open(t, buf.Bytes()), ink: map[int]pdftest.Ink{}}
}

// page paints a page once.
func (r *printedRun) page(i int) pdftest.Ink {
	k, ok := r.ink[i]
	if !ok {
		k = r.doc.Ink(i, dpi)
		r.ink[i] = k
	}
	return k
}

// A verdict is what measuring one tile came to.
type verdict struct {
	seen, blocked, missing int
	worst                  float64 // mm
	at                     geom.Pt // of the worst, in the layout's frame
}

func (v verdict) good() bool {
	return v.missing == 0 && v.worst <= 0.05 && v.seen > 0 && v.blocked*3 < v.seen
}

// measure looks across one line, drawn with a pen of one of the widths. Ink that
// is wider is crossed by something else and tells nothing.
func (v *verdict) measure(ink pdftest.Ink, m *mapping, p, n geom.Pt, widths ...float64) {
	line, ok := ink.Across(m.page(p), n, 1.2)
	if !ok {
		v.missing++
		return
	}
	for _, w := range widths {
		if math.Abs(line.Width-w) < 0.04 {
			v.seen++
			if off := math.Abs(line.Off); off > v.worst {
				v.worst, v.at = off, p
			}
			return
		}
	}
	v.blocked++
}

// A mapping takes points of the template to the page, by the tile map alone.
type mapping struct {
	window geom.Box
	at     geom.Pt
}

func (m *mapping) page(p geom.Pt) geom.Pt { return p.Sub(m.window.Min).Add(m.at) }

// pinned reports whether the diamond of a tape check hides the line at p.
func (l Layout) pinned(p geom.Pt) bool {
	return slices.ContainsFunc(l.Controls, func(c Control) bool { return math.Min(c.A.Sub(p).Len(), c.B.Sub(p).Len()) < 2.2 })
}

// judge measures everything that is drawn of a template on one tile.
func judge(ink pdftest.Ink, l Layout, tile Tile) verdict {
	var v verdict
	m := &mapping{tile.Window, tile.At}
	inside := tile.Window.Grow(-0.6)
	for _, s := range l.edge() {
		steps := int(s.Length()/1.5) + 2
		for i := range steps {
			t := (float64(i) + 0.5) / float64(steps)
			if p := s.At(t); inside.Has(p) && !l.pinned(p) {
				// Edges of the board itself are drawn bold.
				widths := []float64{0.35}
				if q := l.part(p); s.Turn == geom.Straight && math.Min(math.Abs(q.X), math.Abs(q.Y)) < onEdge {
					widths = append(widths, 0.7)
				}
				v.measure(ink, m, p, s.Tangent(t).Left(), widths...)
			}
		}
	}
	for _, h := range l.Holes {
		if h.Matched || !tile.Window.Grow(-12).Has(h.At) {
			continue
		}
		far := math.Max(h.Diam/2, holeRing) + 1.6
		for i := range 4 {
			out := pt(1, 0).Turn(float64(i) * math.Pi / 2)
			v.measure(ink, m, h.At.Add(out.Mul(far)), out.Left(), 0.18)
		}
		for i := range 12 {
			out := pt(1, 0).Turn((float64(i) + 0.5) * math.Pi / 6)
			v.measure(ink, m, h.At.Add(out.Mul(h.Diam/2)), out, 0.25)
		}
	}
	return v
}

// crossAt measures where the hairlines of a registration mark cross.
func crossAt(ink pdftest.Ink, tile Tile, at geom.Pt) (geom.Pt, bool) {
	m := &mapping{tile.Window, tile.At}
	var off geom.Pt
	n := 0
	for _, d := range []float64{-3.6, -1.4, 1.4, 3.6} {
		x, okX := ink.Across(m.page(at.Add(pt(0, d))), pt(1, 0), 0.6)
		y, okY := ink.Across(m.page(at.Add(pt(d, 0))), pt(0, 1), 0.6)
		if !okX || !okY || math.Abs(x.Width-0.18) > 0.1 || math.Abs(y.Width-0.18) > 0.1 {
			continue
		}
		off = off.Add(pt(x.Off, y.Off))
		n++
	}
	if n == 0 {
		return at, false
	}
	return at.Add(off.Mul(1 / float64(n))), true
}

// TestPrintedTrue measures what PDFium paints of curves of every kind against
// their geometry, tile by tile, and then sees to it that the measuring would tell
// a tile that lies wrong.
func TestPrintedTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("paints pages at 600 dpi")
	}
	live := Letter().Live()
	for _, c := range []struct {
		paper Paper
		all   []Template
	}{
		{Letter(), []Template{bow(), slat(), notched(), sized(live.W, live.H), sized(live.W+0.01, live.H+0.01)}},
		{A4(), []Template{bow(), quarter(), disc(), wedge()}},
	} {
		t.Run(c.paper.Name, func(t *testing.T) {
			r := printRun(t, c.paper, c.all...)
			for n, l := range r.Layouts {
				require.NotEmpty(t, l.Tiles)
				for i, tile := range l.Tiles {
					ink := r.page(r.On[n][i])
					v := judge(ink, l, tile)
					t.Logf("%s %s: %d places, worst %.4f mm, %d crossed by other lines", l.Name, tile.Label(), v.seen, v.worst, v.blocked)
					assert.True(t, v.good(), "%s %s: %+v", l.Name, tile.Label(), v)
					for _, wrong := range []pdftest.Ink{
						ink.Moved(pt(0.2, 0), 1), ink.Moved(pt(0, 0.2), 1), ink.Moved(pt(0, 0), 1.005), ink.Moved(pt(0, 0), 0.995),
					} {
						assert.False(t, judge(wrong, l, tile).good(), "%s %s lies wrong and nothing tells", l.Name, tile.Label())
					}
				}
				r.seams(t, n)
			}
			r.bars(t)
		})
	}
}

// seams checks the joints of one layout: marks agree in pairs, and both tiles
// show the whole strip alike.
func (r *printedRun) seams(t *testing.T, n int) {
	l := r.Layouts[n]
	for _, j := range l.Joints {
		for _, m := range j.Marks {
			a, okA := crossAt(r.page(r.On[n][j.On]), l.Tiles[j.On], m.At)
			b, okB := crossAt(r.page(r.On[n][j.Under]), l.Tiles[j.Under], m.At)
			if assert.True(t, okA && okB, "%s mark %s is not found", l.Name, m.Key) {
				assert.Less(t, a.Sub(b).Len(), 0.02, "%s mark %s", l.Name, m.Key)
				assert.Less(t, a.Sub(m.At).Len(), 0.05, "%s mark %s", l.Name, m.Key)
			}
			moved, ok := crossAt(r.page(r.On[n][j.On]).Moved(pt(0.14, 0.14), 1), l.Tiles[j.On], m.At)
			assert.False(t, ok && moved.Sub(b).Len() < 0.02, "a mark that lies wrong is not told")
		}
	}
}

// bars measures both rulers of every page that was painted.
func (r *printedRun) bars(t *testing.T) {
	for i, ink := range r.ink {
		bars := 0
		for _, d := range unpack(r.Pages[i]) {
			s, ok := d.item.(render.Stroke)
			if !ok || d.group != "ruler" {
				continue
			}
			spine := s.Paths[0].Segs[0]
			dir, side := spine.Tangent(0), spine.Tangent(0).Left()
			at := func(mm, up float64) float64 {
				line, ok := ink.Across(spine.A.Add(dir.Mul(mm)).Add(side.Mul(up)), dir, 0.4)
				require.True(t, ok)
				return mm + line.Off
			}
			assert.InDelta(t, 50.8, at(50.8, 2)-at(0, 2), 0.03, "page %d", i)
			assert.InDelta(t, 50, at(50, -2)-at(0, -2), 0.03, "page %d", i)
			bars++
		}
		assert.Equal(t, 2, bars, "page %d", i)
	}
}
