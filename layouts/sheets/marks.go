package sheets

import (
	"strconv"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

func digits(n int) string { return strconv.Itoa(n) }

// DatumMark is the pair of black triangles at the squared end and the straight
// edge of a part, for a part that lies to the right of and above corner. All
// sheets that draw parts use this one.
func DatumMark(corner geom.Pt) []render.Item {
	const from, half, tall = 3.2, 1.4, 2.4
	at := func(x, y float64) geom.Pt { return corner.Add(geom.Pt{X: x, Y: y}) }
	return []render.Item{
		render.Fill{Paths: []render.Path{
			render.Loop(at(from, 0), at(from-half, -tall), at(from+half, -tall)),
			render.Loop(at(0, from), at(-tall, from+half), at(-tall, from-half)),
		}},
		render.Stroke{Pen: render.Outline, Paths: []render.Path{render.Lines(at(0, 7), at(0, 0), at(10, 0))}},
	}
}

// GrainArrow shows which way the grain runs: a thin double arrow of the given
// length with its middle at c.
func GrainArrow(c geom.Pt, length float64) []render.Item {
	const head, half = 2.4, 0.8
	a, b := geom.Pt{X: c.X - length/2, Y: c.Y}, geom.Pt{X: c.X + length/2, Y: c.Y}
	at := func(p geom.Pt, x, y float64) geom.Pt { return p.Add(geom.Pt{X: x, Y: y}) }
	return []render.Item{
		render.Stroke{Pen: render.Thin, Paths: []render.Path{
			render.Lines(a, b),
			render.Lines(at(a, head, half), a, at(a, head, -half)),
			render.Lines(at(b, -head, half), b, at(b, -head, -half)),
		}},
	}
}

// FaceMark is the loop with a tail that is penciled on the good side, with its
// middle at c.
func FaceMark(c geom.Pt) []render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}) }
	m := at(0, 1)
	return []render.Item{render.Stroke{Pen: render.CutLine, Paths: []render.Path{
		{Segs: []geom.Seg{{A: at(-1.8, 1), B: at(1.8, 1), C: m, R: 1.8, Turn: geom.CW}}},
		{Segs: []geom.Seg{{A: at(1.8, 1), B: at(0, -0.8), C: m, R: 1.8, Turn: geom.CW}}},
		render.Lines(at(0, -0.8), at(-3.6, -2.6)),
	}}}
}

// CriticalMark is the diamond with a number that marks a size which must be
// right, with its middle at c.
func CriticalMark(c geom.Pt, number int) []render.Item {
	const r = 3.4
	st := lettering.Style{Face: fonts.CondBold, Size: render.Body}
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}) }
	items := []render.Item{
		render.Stroke{Pen: render.Heavy, Paths: []render.Path{render.Loop(at(-r, 0), at(0, -r), at(r, 0), at(0, r))}},
	}
	items = append(items, lettering.Line(at(0, -lettering.Cap(st)/2), digits(number), st, toMiddle)...)
	return []render.Item{render.Group{Name: "text", Items: items}}
}

// frontArrow is the broad arrow that points to the front of the piece, with its
// middle at c, here to the left.
func frontArrow(c geom.Pt) []render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}) }
	return []render.Item{render.Stroke{Pen: render.CutLine, Paths: []render.Path{render.Loop(
		at(-6, 0), at(-2, 2.6), at(-2, 1.1), at(6, 1.1), at(6, -1.1), at(-2, -1.1), at(-2, -2.6),
	)}}}
}

// newMark is a new part beside one that is done, as step pictures show them.
func newMark(c geom.Pt) []render.Item {
	box := func(x0, x1 float64) render.Path {
		return render.Rect(geom.Box{Min: c.Add(geom.Pt{X: x0, Y: -2}), Max: c.Add(geom.Pt{X: x1, Y: 2})})
	}
	return []render.Item{
		render.Stroke{Pen: render.Thin, Paths: []render.Path{box(1.5, 8)}},
		render.Fill{Tone: render.Edge, Paths: []render.Path{box(-8, -1)}},
		render.Stroke{Pen: render.Heavy, Paths: []render.Path{box(-8, -1)}},
	}
}

// breakMark shows a board with a stretch left out.
func breakMark(c geom.Pt) []render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}) }
	wave := func(x float64) render.Path {
		return render.Lines(at(x-0.6, -2.4), at(x+0.6, -0.6), at(x-0.6, 0.6), at(x+0.6, 2.4))
	}
	return []render.Item{
		render.Stroke{Pen: render.Break, Paths: []render.Path{wave(-1), wave(1)}},
		render.Stroke{Pen: render.Outline, Paths: []render.Path{
			render.Lines(at(-8, -2), at(-1.4, -2)), render.Lines(at(-8, 2), at(-0.6, 2)),
			render.Lines(at(0.6, -2), at(8, -2)), render.Lines(at(1.4, 2), at(8, 2)),
		}},
	}
}

// sampleTab is the tab of the key: the first part, or the first of a pair.
func (d *desk) sampleTab(c geom.Pt, hand string) []render.Item {
	code := "A"
	for _, p := range d.plan.Parts {
		if hand == "" || p.Hand == "pair" {
			code = p.Code
			break
		}
	}
	w := lettering.TabWidth(code, hand, 6)
	items, _ := lettering.Tab(geom.Pt{X: c.X - w/2, Y: c.Y - 3}, code, hand, 6, d.accent)
	return items
}

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
