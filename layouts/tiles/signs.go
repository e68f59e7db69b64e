package tiles

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// The type of the sheets.
var (
	noteType  = lettering.Style{Face: fonts.Cond, Size: render.Note}
	boldNote  = lettering.Style{Face: fonts.CondBold, Size: render.Note}
	smallType = lettering.Style{Face: fonts.Cond, Size: render.Small}
	boldSmall = lettering.Style{Face: fonts.CondBold, Size: render.Small}
	codeType  = lettering.Style{Face: fonts.CondBold, Size: 16}
)

const inch = 25.4

// A hand draws with its own origin and direction: every sign is described once,
// running to the right from zero.
type hand struct {
	at    geom.Pt
	angle float64
}

func (h hand) pt(x, y float64) geom.Pt {
	p := geom.Pt{X: x, Y: y}
	if h.angle != 0 {
		p = p.Turn(h.angle)
	}
	return h.at.Add(p)
}

func (h hand) line(x0, y0, x1, y1 float64) render.Path {
	return render.Lines(h.pt(x0, y0), h.pt(x1, y1))
}

func (h hand) text(x, y float64, s string, st lettering.Style, align render.Align) []render.Item {
	return lettering.Turned(h.pt(x, y), s, st, align, h.angle)
}

// rulerSize is the room a ruler takes, its words included.
func rulerSize() geom.Size {
	return geom.Size{W: 2*inch + 1.5 + lettering.Width("50 mm", boldSmall), H: 5.6}
}

// ruler draws two inches above and fifty millimetres below one line.
func ruler(h hand) []render.Item {
	const mid = 2.8
	paths := []render.Path{h.line(0, mid, 2*inch, mid)}
	for i := range 9 {
		tick := []float64{2.6, 1.0, 1.6, 1.0}[i%4]
		x := float64(i) * inch / 4
		paths = append(paths, h.line(x, mid, x, mid+tick))
	}
	for i := range 11 {
		tick := []float64{2.6, 1.3}[i%2]
		x := float64(i) * 5
		paths = append(paths, h.line(x, mid, x, mid-tick))
	}
	items := []render.Item{render.Stroke{Paths: paths, Pen: render.Pen{Width: 0.25}}}
	items = append(items, h.text(2*inch+1.5, mid+0.6, "2 in", boldSmall, render.Left)...)
	return append(items, h.text(2*inch+1.5, mid-0.6-lettering.Cap(boldSmall), "50 mm", boldSmall, render.Left)...)
}

// scissors draws a pair cutting to the right along the line y = 0, 8 mm long.
func scissors(h hand) []render.Item {
	up, down := render.Circle(h.pt(1.1, 1.2), 0.95), render.Circle(h.pt(1.1, -1.2), 0.95)
	blades := []render.Path{h.line(1.9, 0.75, 8, -0.9), h.line(1.9, -0.75, 8, 0.9)}
	return []render.Item{
		render.Stroke{Paths: append(blades, up, down), Pen: render.Pen{Width: 0.35, Round: true}},
	}
}

// cross draws a registration circle with its hairlines.
func cross(at geom.Pt) []render.Item {
	h := hand{at: at}
	return []render.Item{
		render.Fill{Paths: []render.Path{render.Circle(at, ring)}, Tone: render.White},
		render.Stroke{
			Paths: []render.Path{render.Circle(at, ring), h.line(-hairs, 0, hairs, 0), h.line(0, -hairs, 0, hairs)},
			Pen:   render.Hairline,
		},
	}
}

// pointer fills a slim triangle with its tip at the origin, pointing left.
func pointer(h hand, long float64, tone render.Tone) render.Item {
	return render.Fill{Paths: []render.Path{render.Loop(h.pt(0, 0), h.pt(long, -long/3), h.pt(long, long/3))}, Tone: tone}
}

// grainArrow draws a double arrow of the given length with words over it.
func grainArrow(h hand, long float64, words string) []render.Item {
	back := hand{at: h.pt(long, 0), angle: h.angle + math.Pi}
	items := []render.Item{
		render.Stroke{Paths: []render.Path{h.line(2, 0, long-2, 0)}, Pen: render.Thin},
		pointer(h, 3, render.Tone{}),
		pointer(back, 3, render.Tone{}),
	}
	if words == "" {
		return items
	}
	return append(items, h.text(long/2, 2.6, words, noteType, render.Middle)...)
}

// tapingPicture shows in three small pictures how two sheets become one, with a
// line of words under each, and returns the height used.
func tapingPicture(top geom.Pt, wide float64) ([]render.Item, float64) {
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	items := lettering.Line(geom.Pt{X: top.X, Y: top.Y - lettering.Cap(bold)}, "How sheets go together", bold, render.Left)
	y := top.Y - 8.8
	steps := []struct {
		draw  func(geom.Pt) []render.Item
		words string
	}{
		{trimPicture, "Trim along the dash-dot line, only on the right and the top, only where scissors are drawn."},
		{layPicture, "Lay the trimmed sheet over the tinted strip of its neighbor."},
		{tapePicture, "Shift until both circles with the same letter agree, hairline on hairline. Tape the middle first, then the ends."},
	}
	const art = 30.0
	for _, s := range steps {
		items = append(items, s.draw(geom.Pt{X: top.X, Y: y - 22})...)
		text, used := lettering.Paragraph(geom.Pt{X: top.X + art, Y: y - 1}, s.words, wide-art, body)
		items = append(items, text...)
		y -= math.Max(24, used) + 4
	}
	return items, top.Y - y
}

// page draws a small sheet of paper.
func page(at geom.Pt, w, h float64) []render.Item {
	b := geom.Box{Min: at, Max: at.Add(geom.Pt{X: w, Y: h})}
	return []render.Item{
		render.Fill{Paths: []render.Path{render.Rect(b)}, Tone: render.White},
		render.Stroke{Paths: []render.Path{render.Rect(b)}, Pen: render.Thin},
	}
}

// curve is a bit of a part's edge across a small sheet.
func curve(at geom.Pt, from, to float64) render.Item {
	h := hand{at: at}
	return render.Stroke{Paths: []render.Path{h.line(from, 4+from*0.12, to, 4+to*0.12), h.line(from, 12+from*0.12, to, 12+to*0.12)}, Pen: render.CutLine}
}

func strip(at geom.Pt, x0, x1, h float64) render.Item {
	b := geom.Box{Min: at.Add(geom.Pt{X: x0}), Max: at.Add(geom.Pt{X: x1, Y: h})}
	return render.Fill{Paths: []render.Path{render.Rect(b)}, Tone: render.Edge}
}

// target is the registration circle, small.
func target(at geom.Pt) render.Item {
	h := hand{at: at}
	return render.Stroke{Paths: []render.Path{render.Circle(at, 0.9), h.line(-1.5, 0, 1.5, 0), h.line(0, -1.5, 0, 1.5)}, Pen: render.Hairline}
}

func trimPicture(at geom.Pt) []render.Item {
	items := page(at, 16, 20)
	items = append(items, curve(at, 2, 13))
	h := hand{at: at.Add(geom.Pt{X: 13, Y: 20}), angle: -math.Pi / 2}
	items = append(items, render.Stroke{Paths: []render.Path{h.line(0, 0, 20, 0)}, Pen: render.Pen{Width: 0.25, Dash: []float64{2, 0.6, 0.5, 0.6}}})
	snip := hand{at: at.Add(geom.Pt{X: 13, Y: 26}), angle: -math.Pi / 2}
	return append(items, scissors(snip)...)
}

func layPicture(at geom.Pt) []render.Item {
	right := at.Add(geom.Pt{X: 11, Y: 2})
	items := page(right, 15, 18)
	items = append(items, strip(right, 0.2, 3, 18), curve(right, 0.5, 13), target(right.Add(geom.Pt{X: 1.6, Y: 2})))
	items = append(items, page(at, 9, 18)...)
	return append(items, curve(at, 1, 9), target(at.Add(geom.Pt{X: 7, Y: 2})))
}

func tapePicture(at geom.Pt) []render.Item {
	right := at.Add(geom.Pt{X: 10})
	items := page(right, 15, 18)
	items = append(items, curve(at, 1, 24))
	items = append(items, page(at, 12, 18)...)
	items = append(items, curve(at, 1, 24), target(at.Add(geom.Pt{X: 11, Y: 2})), target(at.Add(geom.Pt{X: 11, Y: 16.4})))
	tape := geom.Box{Min: at.Add(geom.Pt{X: 9, Y: 8.5}), Max: at.Add(geom.Pt{X: 15, Y: 11})}
	return append(items,
		render.Fill{Paths: []render.Path{render.Rect(tape)}, Tone: render.Edge},
		render.Stroke{Paths: []render.Path{render.Rect(tape)}, Pen: render.Hairline})
}
