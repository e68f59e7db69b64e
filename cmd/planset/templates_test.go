package main

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/sheets"
	"planset/layouts/tiles"
	"planset/model"
	"planset/model/buying"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
	"planset/render/pdftest"
)

// eachSize calls f with every size of every example, solved in both units.
func eachSize(t *testing.T, f func(t *testing.T, a *app, d *draft, plan *model.Plan)) {
	for _, name := range examples {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			_, d := reader(t, name)
			for _, variant := range d.variantNames() {
				t.Run(name+" "+variant+" "+unitName(unit), func(t *testing.T) {
					a, d := reader(t, name)
					plan := a.solve(d, variant, unit)
					require.NotNil(t, plan)
					f(t, a, d, plan)
				})
			}
		}
	}
}

// TestTemplatesPrintTrue puts the tiles of every template of every example back
// together by the tile map that facts gives, as PDFium paints them at 600 dpi,
// and measures every line against the exact shape of the part. Then it sees to it
// that a tile shifted by 0.2 mm or printed half a percent too large is told.
func TestTemplatesPrintTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("paints every template at 600 dpi")
	}
	measured := 0
	eachSize(t, func(t *testing.T, _ *app, d *draft, plan *model.Plan) {
		all := sheets.Templates(plan)
		in := sheets.Input{Plan: plan, Cuts: buying.Boards(plan), Seed: d.seed}
		for _, paper := range []tiles.Paper{tiles.Letter(), tiles.A4()} {
			in.Paper = paper.Name
			book, _ := sheets.Compose(in)
			facts := &factSheet{plan: plan}
			facts.addTiles(all, paper, book.Pages)
			require.Len(t, facts.Templates, len(all))
			b := bench{t: t, book: book, ink: map[int]pdftest.Ink{}}
			for n, tpl := range facts.Templates {
				shape := inFrame(t, all[n], tpl)
				for _, tile := range tpl.Tiles {
					b.judge(tpl, tile, shape, all[n])
					measured++
				}
			}
		}
	})
	assert.Greater(t, measured, 20)
}

// inFrame returns the exact outline of a template in the frame of the facts,
// which may be turned a quarter, and checks that the two agree.
func inFrame(t *testing.T, exact tiles.Template, f templateFact) geom.Outline {
	t.Helper()
	turned := exact.Outline.Turn(math.Pi / 2).Move(geom.Pt{X: exact.Blank.H})
	worst := math.Inf(1)
	var best geom.Outline
	for _, o := range []geom.Outline{exact.Outline, turned} {
		far := 0.0
		for _, p := range f.Outline {
			far = math.Max(far, o.Distance(geom.Pt{X: p[0], Y: p[1]}))
		}
		if far < worst {
			worst, best = far, o
		}
	}
	require.Less(t, worst, 1e-5, "the points of %s lie on the outline", f.Code)
	points := make([]geom.Pt, len(f.Outline))
	for i, p := range f.Outline {
		points[i] = geom.Pt{X: p[0], Y: p[1]}
	}
	for i, p := range points {
		chord := geom.Line(p, points[(i+1)%len(points)])
		assert.LessOrEqual(t, best.Distance(chord.Mid()), 0.0201, "a chord of %s", f.Code)
	}
	return best
}

// A bench is a printed book with a scale laid on it.
type bench struct {
	t    *testing.T
	book *render.Book
	ink  map[int]pdftest.Ink
}

// page prints one page of the book, counted from 1, and paints it.
func (b *bench) page(n int) pdftest.Ink {
	k, ok := b.ink[n]
	if !ok {
		one := *b.book
		one.Pages, one.Marks = []render.Page{b.book.Pages[n-1]}, nil
		one.Pages[0].Items = unlinked(one.Pages[0].Items)
		var buf bytes.Buffer
		require.NoError(b.t, pdf.Write(&buf, &one))
		k = pdftest.Open(b.t, buf.Bytes()).Ink(0, 600)
		b.ink[n] = k
	}
	return k
}

// unlinked leaves out links, which lead to pages that are not printed here.
func unlinked(items []render.Item) []render.Item {
	var out []render.Item
	for _, it := range items {
		if _, link := it.(render.Link); !link {
			out = append(out, it)
		}
	}
	return out
}

// judge measures one tile, then the same one lying wrong.
func (b *bench) judge(f templateFact, tile tileFact, shape geom.Outline, exact tiles.Template) {
	ink := b.page(tile.Page)
	v := look(ink, f, tile, shape)
	b.t.Logf("%s on %s page %d: %d places, worst %.4f mm, %d hidden", f.Code, tile.Paper, tile.Page, v.seen, v.worst, v.hidden)
	assert.True(b.t, v.good(), "%s %s page %d: %+v", exact.Name, tile.Paper, tile.Page, v)
	for _, wrong := range []pdftest.Ink{
		ink.Moved(geom.Pt{X: 0.2}, 1), ink.Moved(geom.Pt{Y: 0.2}, 1), ink.Moved(geom.Pt{}, 1.005), ink.Moved(geom.Pt{}, 0.995),
	} {
		assert.False(b.t, look(wrong, f, tile, shape).good(), "%s page %d lies wrong and nothing tells", exact.Name, tile.Page)
	}
}

// seen is what measuring came to.
type seen struct {
	seen, hidden, missing int
	worst                 float64 // mm
}

func (v seen) good() bool {
	return v.missing == 0 && v.worst <= 0.05 && v.seen > 20 && v.hidden*4 < v.seen
}

// look measures the outline and the holes in a tile's window.
func look(ink pdftest.Ink, f templateFact, tile tileFact, shape geom.Outline) seen {
	w := geom.Box{Min: geom.Pt{X: tile.Window[0], Y: tile.Window[1]}, Max: geom.Pt{X: tile.Window[2], Y: tile.Window[3]}}
	at := geom.Pt{X: tile.At[0], Y: tile.At[1]}
	var v seen
	measure := func(p, across geom.Pt, widths ...float64) {
		line, ok := ink.Across(p.Sub(w.Min).Add(at), across, 1.2)
		if !ok {
			v.missing++
			return
		}
		for _, pen := range widths {
			if math.Abs(line.Width-pen) < 0.04 {
				v.seen++
				v.worst = math.Max(v.worst, math.Abs(line.Off))
				return
			}
		}
		v.hidden++ // something else crosses it here
	}
	for _, s := range shape {
		widths := []float64{0.35}
		if s.Turn == geom.Straight {
			widths = append(widths, 0.7) // edges of the board are bold
		}
		steps := int(s.Length()) + 2
		for i := range steps {
			u := (float64(i) + 0.5) / float64(steps)
			if p := s.At(u); w.Grow(-0.6).Has(p) {
				measure(p, s.Tangent(u).Left(), widths...)
			}
		}
	}
	for _, h := range f.Holes {
		c, r := geom.Pt{X: h.X, Y: h.Y}, h.Diameter/2
		if !w.Grow(-r - 5).Has(c) {
			continue
		}
		for i := range 8 {
			out := geom.Pt{X: 1}.Turn((float64(i) + 0.5) * math.Pi / 4)
			measure(c.Add(out.Mul(r)), out, 0.25)
		}
		for i := range 4 {
			out := geom.Pt{X: 1}.Turn(float64(i) * math.Pi / 2)
			measure(c.Add(out.Mul(math.Max(r, 1.5)+1.6)), out.Left(), 0.18)
		}
	}
	return v
}

// TestOutlinesReadBack reads the drawings for other programs as their own
// standards tell, and finds the exact outline and holes in them.
func TestOutlinesReadBack(t *testing.T) {
	found := 0
	eachSize(t, func(t *testing.T, _ *app, _ *draft, plan *model.Plan) {
		for _, tpl := range sheets.Templates(plan) {
			found++
			b := tpl.Outline.Box()
			data, err := oneTemplate(plan, tpl, "svg")
			require.NoError(t, err)
			// The outline stands 20 mm from the left and 42 mm from the bottom.
			d := readSVG(t, data)
			d.move(geom.Pt{X: b.Min.X - 20, Y: b.Min.Y - 42})
			d.agrees(t, tpl)
			data, err = oneTemplate(plan, tpl, "dxf")
			require.NoError(t, err)
			d = readDXF(t, data)
			d.agrees(t, tpl)
			off := tpl
			off.Outline = tpl.Outline.Move(geom.Pt{X: 0.012})
			assert.Greater(t, d.far(off), 0.01, "a drawing that is off would be told")
		}
	})
	assert.Greater(t, found, 10)
}

// TestCurvesReadBack does the same with curves of every kind: arcs of 3 mm to 5 m
// radius, turning either way, more than half a circle, and inner corners.
func TestCurvesReadBack(t *testing.T) {
	pt := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	sag := 5000 - math.Sqrt(5000*5000-400*400)
	flat := geom.ArcThrough(pt(0, sag), pt(400, 0), pt(800, sag))
	board := geom.Outline{
		flat, geom.Line(flat.B, pt(800, 97)), geom.ArcBy(pt(800, 97), pt(797, 100), pt(797, 97), geom.CCW),
		geom.Line(pt(797, 100), pt(500, 100)), geom.ArcBy(pt(500, 100), pt(440, 100), pt(470, 100), geom.CW),
		geom.Line(pt(440, 100), pt(300, 100)), geom.Line(pt(300, 100), pt(300, 60)), geom.Line(pt(300, 60), pt(220, 60)),
		geom.Line(pt(220, 60), pt(220, 100)), geom.Line(pt(220, 100), pt(0, 100)), geom.Line(pt(0, 100), pt(0, sag)),
	}
	key := geom.Outline{
		geom.ArcBy(pt(50, -30), pt(50, 30), pt(0, 0), geom.CW), geom.Line(pt(50, 30), pt(160, 30)),
		geom.Line(pt(160, 30), pt(160, -30)), geom.Line(pt(160, -30), pt(50, -30)),
	}
	for i, o := range []geom.Outline{board, key.Reverse(), geom.Circle(pt(40, 50), 300)} {
		tpl := tiles.Template{Code: "X", Name: "Curve " + strconv.Itoa(i), Outline: o,
			Holes: []tiles.Hole{{At: pt(60, 20), Diam: 3}, {At: pt(90, 10), Diam: 10, Matched: true}}}
		for format, read := range map[string]func(*testing.T, []byte) *drawing{"svg": readSVG, "dxf": readDXF} {
			data, err := oneTemplate(&model.Plan{}, tpl, format)
			require.NoError(t, err)
			d := read(t, data)
			if format == "svg" {
				d.move(o.Box().Min.Sub(pt(20, 42)))
			}
			d.agrees(t, tpl)
		}
	}
}

// A drawing is what was read: the outline as segments, the holes as circles.
type drawing struct {
	cut   []geom.Seg
	holes []geom.Seg // circle: centre C, radius R
}

func (d *drawing) move(by geom.Pt) {
	for _, list := range [][]geom.Seg{d.cut, d.holes} {
		for i, s := range list {
			list[i].A, list[i].B, list[i].C = s.A.Add(by), s.B.Add(by), s.C.Add(by)
		}
	}
}

// far is the farthest that the outline read and the exact one are apart, looked
// at from either.
func (d *drawing) far(t tiles.Template) float64 {
	far := 0.0
	for _, pair := range [][2][]geom.Seg{{d.cut, t.Outline}, {t.Outline, d.cut}} {
		for _, s := range pair[0] {
			for i := range 33 {
				far = math.Max(far, geom.Outline(pair[1]).Distance(s.At(float64(i)/32)))
			}
		}
	}
	return far
}

func (d *drawing) agrees(t *testing.T, tpl tiles.Template) {
	t.Helper()
	assert.Less(t, d.far(tpl), 0.01, tpl.Name)
	arcs := 0
	for _, s := range tpl.Outline {
		if s.Turn != geom.Straight {
			arcs++
		}
	}
	got := 0
	for _, s := range d.cut {
		if s.Turn != geom.Straight {
			got++
		}
	}
	assert.GreaterOrEqual(t, got, arcs, "%s: arcs stay arcs", tpl.Name)
	var holes []tiles.Hole
	for _, h := range tpl.Holes {
		if !h.Matched {
			holes = append(holes, h)
		}
	}
	require.Len(t, d.holes, len(holes))
	for i, h := range holes {
		assert.Less(t, d.holes[i].C.Sub(h.At).Len(), 0.01)
		assert.InDelta(t, h.Diam/2, d.holes[i].R, 0.01)
	}
}

// readSVG reads groups named outline and hole of an SVG 1.1 file: absolute M, L,
// A and Z, as the standard's appendix on arcs tells. Its unit must be mm.
func readSVG(t *testing.T, data []byte) *drawing {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(data))
	d := &drawing{}
	var names []string
	height := 0.0
	for {
		tok, _ := dec.Token()
		if tok == nil {
			return d
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			attr := map[string]string{}
			for _, a := range tok.Attr {
				attr[a.Name.Local] = a.Value
			}
			switch tok.Name.Local {
			case "svg":
				box := strings.Fields(attr["viewBox"])
				require.Equal(t, []string{"0", "0", strings.TrimSuffix(attr["width"], "mm"), strings.TrimSuffix(attr["height"], "mm")}, box, "one unit is one millimetre")
				height = num(t, box[3])
			case "path":
				segs := svgPath(t, attr["d"], height)
				switch names[len(names)-1] {
				case "outline":
					d.cut = append(d.cut, segs...)
				case "hole":
					d.holes = append(d.holes, segs[0])
				}
			}
			names = append(names, attr["data-name"])
		case xml.EndElement:
			names = names[:len(names)-1]
		}
	}
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	require.NoError(t, err)
	return v
}

// svgPath reads path data; y is turned up.
func svgPath(t *testing.T, data string, height float64) []geom.Seg {
	t.Helper()
	for _, c := range "MLAZ" {
		data = strings.ReplaceAll(data, string(c), " "+string(c)+" ")
	}
	words := strings.Fields(data)
	next := func() string { w := words[0]; words = words[1:]; return w }
	point := func() geom.Pt { x := num(t, next()); return geom.Pt{X: x, Y: height - num(t, next())} }
	var out []geom.Seg
	var start, at geom.Pt
	for len(words) > 0 {
		switch c := next(); c {
		case "M":
			at = point()
			start = at
		case "L":
			to := point()
			out, at = append(out, geom.Line(at, to)), to
		case "A":
			r := num(t, next())
			require.Equal(t, r, num(t, next()), "a circle, no ellipse")
			next()
			large, sweep := next() == "1", next() == "1"
			to := point()
			out, at = append(out, svgArc(at, to, r, large, sweep)), to
		case "Z":
			if at.Sub(start).Len() > 1e-3 {
				out = append(out, geom.Line(at, start))
			}
			at = start
		default:
			require.Fail(t, "a command the reader does not know: "+c)
		}
	}
	return out
}

// svgArc finds the centre of an arc given by its ends, SVG 1.1 appendix F.6.5. A
// sweep is clockwise here, where y is up.
func svgArc(a, b geom.Pt, r float64, large, sweep bool) geom.Seg {
	half := b.Sub(a).Mul(0.5)
	r = math.Max(r, half.Len()) // F.6.6: too small a radius grows
	off := math.Sqrt(math.Max(0, r*r-half.Dot(half)))
	turn, side := geom.CCW, 1.0
	if sweep {
		turn, side = geom.CW, -1
	}
	if large {
		side = -side
	}
	return geom.Seg{A: a, B: b, C: a.Add(half).Add(half.Unit().Left().Mul(side * off)), R: r, Turn: turn}
}

// readDXF reads the entities of an ASCII DXF file: pairs of a group code and a
// value; codes 10, 20 a point, 11, 21 its end, 40 a radius, 50, 51 angles in
// degrees, anticlockwise; 8 the layer. The header must say millimetres.
func readDXF(t *testing.T, data []byte) *drawing {
	t.Helper()
	lines := strings.Split(strings.ReplaceAll(string(data), "\r", ""), "\n")
	require.Contains(t, string(data), "$INSUNITS\n 70\n4\n")
	d := &drawing{}
	var kind string
	v := map[int]string{}
	flush := func() {
		at := func(code int) geom.Pt { return geom.Pt{X: num(t, v[code]), Y: num(t, v[code+10])} }
		switch kind {
		case "LINE":
			if v[8] == "cut" {
				d.cut = append(d.cut, geom.Line(at(10), at(11)))
			}
		case "ARC":
			c, r := at(10), num(t, v[40])
			end := func(code int) geom.Pt { return c.Add(geom.Pt{X: r}.Turn(num(t, v[code]) * math.Pi / 180)) }
			require.Equal(t, "cut", v[8])
			d.cut = append(d.cut, geom.Seg{A: end(50), B: end(51), C: c, R: r, Turn: geom.CCW})
		case "CIRCLE":
			require.Equal(t, "hole", v[8])
			d.holes = append(d.holes, geom.Seg{C: at(10), R: num(t, v[40])})
		case "TEXT":
			require.Equal(t, "text", v[8])
		}
	}
	for i := 0; i+1 < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		require.NoError(t, err)
		if code == 0 {
			flush()
			kind, v = lines[i+1], map[int]string{}
			continue
		}
		v[code] = lines[i+1]
	}
	return d
}
