package tiles

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

// loop closes a path through corners; a corner with r > 0 is rounded, convex
// corners of an anticlockwise outline only.
func loop(corners ...rounded) geom.Outline {
	n := len(corners)
	var ends [][2]geom.Pt
	for i, c := range corners {
		before, after := corners[(i+n-1)%n].pt, corners[(i+1)%n].pt
		in, out := c.pt.Sub(before).Unit(), after.Sub(c.pt).Unit()
		half := math.Acos(math.Max(-1, math.Min(1, in.Dot(out)))) / 2
		cut := c.r * math.Tan(half)
		ends = append(ends, [2]geom.Pt{c.pt.Sub(in.Mul(cut)), c.pt.Add(out.Mul(cut))})
	}
	var o geom.Outline
	for i, c := range corners {
		a, b := ends[i][0], ends[i][1]
		if c.r > 0 {
			in := c.pt.Sub(corners[(i+n-1)%n].pt).Unit()
			centre := a.Add(in.Left().Mul(c.r))
			o = append(o, geom.Seg{A: a, B: b, C: centre, R: c.r, Turn: geom.CCW})
		}
		if next := ends[(i+1)%n][0]; next.Sub(b).Len() > 1e-9 {
			o = append(o, geom.Line(b, next))
		}
	}
	return o
}

type rounded struct {
	pt geom.Pt
	r  float64
}

func at(x, y, r float64) rounded { return rounded{pt(x*inch, y*inch), r * inch} }

func stock(w, h float64) geom.Size { return geom.Size{W: w * inch, H: h * inch} }

// slat is half round at the top and tapers to the foot, 38 by 3 1/2 in.
func slat() Template {
	r := 1.75
	taper := (3.5 - 2.9375) / 2
	o := geom.Outline{
		geom.Line(pt(0, (3.5-taper)*inch), pt(0, taper*inch)),
		geom.Line(pt(0, taper*inch), pt((38-r)*inch, 0)),
		{A: pt((38-r)*inch, 0), B: pt((38-r)*inch, 3.5*inch), C: pt((38-r)*inch, r*inch), R: r * inch, Turn: geom.CCW},
		geom.Line(pt((38-r)*inch, 3.5*inch), pt(0, (3.5-taper)*inch)),
	}
	return Template{
		Code: "F", Name: "Back slat", Note: "cut 6, all alike", End: "foot", Outline: o, Blank: stock(38, 3.5), Face: "good face up",
		Family: [][]string{{"Slat", "Length", "Quantity"}, {"F1", "38", "2"}, {"F2", "36 1⁄4", "2"}, {"F3", "34 1⁄2", "2"}},
		Holes: []Hole{
			{At: pt(3*inch, 1.25*inch), Diam: 3.5, Note: "pilot 9⁄64"}, {At: pt(3*inch, 2.25*inch), Diam: 3.5, Note: "pilot 9⁄64"},
		},
	}
}

// arm is 28 by 6 1/2 in, its outer edge tapers to 3 1/2 at the rear.
func arm() Template {
	return Template{
		Code: "D", Name: "Arm", Note: "cut 2: one each way", End: "front", Edge: "inner edge", Face: "good face up",
		Outline: loop(at(0, 0, 1.5), at(28, 0, 0), at(28, 3.5, 0), at(16, 6.5, 0), at(0, 6.5, 1.5)),
		Blank:   stock(28, 7.25),
		Holes: []Hole{
			{At: pt(3*inch, 5.5*inch), Diam: 4.4, Note: "11⁄64 clearance"}, {At: pt(3*inch, 4*inch), Diam: 4.4, Note: "11⁄64 clearance"},
			{At: pt(25*inch, 1.75*inch), Diam: 4.4, Note: "11⁄64 clearance"},
		},
	}
}

// quarter is a quarter round of 3 1/2 in.
func quarter() Template {
	r := 3.5 * inch
	return Template{
		Code: "K", Name: "Arm cap", Note: "cut 4, all alike", Blank: geom.Size{W: r, H: r},
		Outline: geom.Outline{geom.Line(pt(0, 0), pt(r, 0)), {A: pt(r, 0), B: pt(0, r), C: pt(0, 0), R: r, Turn: geom.CCW}, geom.Line(pt(0, r), pt(0, 0))},
	}
}

// stringer is 41 by 5 1/2 in with a rounded front corner, a sawn heel and two
// bolt holes drilled through the leg.
func stringer() Template {
	return Template{
		Code: "B", Name: "Stringer", Note: "cut 2: one each way", End: "front", Edge: "top edge", Face: "outside up",
		Outline: loop(at(0, 0, 1.5), at(37.5, 0, 0), at(38.8, 5.1, 0), at(38.4, 5.5, 0), at(0, 5.5, 0)),
		Blank:   stock(41, 5.5),
		Holes: []Hole{
			{At: pt(3.2*inch, 4.2*inch), Diam: 9.5, Note: "3⁄8 bolt", Matched: true},
			{At: pt(5.1*inch, 2*inch), Diam: 9.5, Note: "3⁄8 bolt", Matched: true},
		},
		Controls: []Control{{A: pt(0, 5.5*inch), B: pt(38.8*inch, 5.1*inch), Name: "front to heel"}},
	}
}

// sized is a plain board with one corner clipped, so that something is shaped.
func sized(w, h float64) Template {
	return Template{
		Code: "X", Name: "Board", Blank: geom.Size{W: w, H: h},
		Outline: loop(rounded{pt(0, 0), 0}, rounded{pt(w, 0), 0}, rounded{pt(w, h), 30}, rounded{pt(0, h), 0}),
	}
}

// panel needs rows and columns.
func panel() Template {
	return Template{
		Code: "P", Name: "Table apron", Note: "cut 4, all alike", Edge: "top edge",
		Outline: loop(rounded{pt(0, 0), 0}, rounded{pt(520, 0), 0}, rounded{pt(520, 300), 90}, rounded{pt(0, 300), 140}),
		Blank:   geom.Size{W: 520, H: 300},
		Holes:   []Hole{{At: pt(260, 150), Diam: 60, Note: "cable hole"}},
	}
}

func typical() []Template {
	live := Letter().Live()
	return []Template{
		slat(), arm(), quarter(), stringer(), panel(),
		sized(live.W, live.H), sized(live.W+0.01, live.H+0.01),
	}
}

func testLook() Look {
	return Look{
		Title: "Petrel deck chair", Edition: "Standard, inch, Letter", Revision: "rev B", Date: "2026-03-01",
		Accent: render.Tone{R: 20, G: 90, B: 110}, Unit: expr.Inch, First: 31, Total: 60,
	}
}

// TestDemo writes the typical pages for looking at: TILES_DEMO names a folder.
func TestDemo(t *testing.T) {
	dir := os.Getenv("TILES_DEMO")
	if dir == "" {
		t.Skip("TILES_DEMO is not set")
	}
	for _, p := range []Paper{Letter(), A4()} {
		var ls []Layout
		for _, tpl := range append(typical()[:5], samples()[7:]...) {
			ls = append(ls, Lay(tpl, p))
		}
		look := testLook()
		look.Total = 30 + len(Pages(ls, look).Pages)
		book := render.Book{Title: look.Title, Lang: "en-US", Date: look.Date, Seed: "demo", Pages: Pages(ls, look).Pages}
		f, err := os.Create(filepath.Join(dir, p.Name+".pdf"))
		require.NoError(t, err)
		require.NoError(t, pdf.Write(f, &book))
		require.NoError(t, f.Close())
	}
}
