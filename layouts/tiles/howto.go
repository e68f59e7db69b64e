package tiles

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// A hint is a small picture with a line of words beside it.
type hint struct {
	draw  func(geom.Pt) []render.Item
	words string
}

// art is the width of a hint's picture with the room beside it, and picture its
// height, in mm.
const (
	art     = 30.0
	picture = 22.0
)

// howTo shows what is done with the sheets of these templates: how two that are
// taped become one, and how pieces that are not taped lie on the board. It
// returns the height used, which is none when every template is on one sheet.
func (k packing) howTo(top geom.Pt, wide float64) ([]render.Item, float64) {
	var items []render.Item
	y := top.Y
	if k.any(func(l Layout) bool { return len(l.Joints) > 0 }) {
		set, used := hints(geom.Pt{X: top.X, Y: y}, wide, "How sheets go together", []hint{
			{trimPicture, "Trim along the dash-dot line, only on the right and the top, only where scissors are drawn."},
			{layPicture, "Lay the trimmed sheet over the tinted strip of its neighbor."},
			{tapePicture, "Shift until both circles with the same letter agree, hairline on hairline. Tape the middle first, then the ends."},
		})
		items = append(items, set...)
		y -= used
	}
	if k.any(func(l Layout) bool { return len(l.Breaks) > 0 }) {
		if y < top.Y {
			y -= gutter
		}
		set, used := hints(geom.Pt{X: top.X, Y: y}, wide, "How pieces go on the board", []hint{
			{apartPicture, "Lay each piece on the board by " + k.alignedBy() + ". Set the break lines as far apart by tape as " +
				"the sheets say, and join the outline between with a straightedge."},
		})
		items = append(items, set...)
		y -= used
	}
	return items, top.Y - y
}

// alignedBy names what pieces laid out with a tape are lined up by.
func (k packing) alignedBy() string {
	across := k.any(func(l Layout) bool {
		for _, b := range l.Breaks {
			if b.Upright == l.Turned {
				return true
			}
		}
		return false
	})
	if across {
		return "its reference edge or datum end"
	}
	return "its reference edge"
}

// hints sets small pictures under each other below a heading, and returns the
// height used.
func hints(top geom.Pt, wide float64, heading string, all []hint) ([]render.Item, float64) {
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	items := lettering.Line(geom.Pt{X: top.X, Y: top.Y - lettering.Cap(bold)}, heading, bold, render.Left)
	y := top.Y - 8.8
	for i, h := range all {
		if i > 0 {
			y -= 4
		}
		items = append(items, h.draw(geom.Pt{X: top.X, Y: y - picture})...)
		text, used := lettering.Paragraph(geom.Pt{X: top.X + art, Y: y - 1}, h.words, wide-art, body)
		items = append(items, text...)
		y -= math.Max(picture, used+1)
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

// apartPicture is a board from above with a piece of paper at each end, and the
// tape's length between their break lines.
func apartPicture(at geom.Pt) []render.Item {
	board := geom.Box{Min: at.Add(geom.Pt{Y: 9}), Max: at.Add(geom.Pt{X: 26, Y: 18})}
	items := []render.Item{
		render.Fill{Paths: []render.Path{render.Rect(board)}, Tone: render.Edge},
		render.Stroke{Paths: []render.Path{render.Rect(board)}, Pen: render.Hairline},
	}
	const wide, high = 8.0, 12.0
	for _, x := range []float64{0.6, 25.4 - wide} {
		items = append(items, page(at.Add(geom.Pt{X: x, Y: 9}), wide, high)...)
	}
	h := hand{at: at}
	from, to := 6.5, 19.5
	dash := render.Pen{Width: 0.25, Dash: []float64{2, 0.6, 0.5, 0.6}}
	back := hand{at: h.pt(to, 3), angle: math.Pi}
	return append(items,
		// The part: a foot with a round corner, a head cut on the slant, plain between.
		render.Stroke{Paths: []render.Path{
			{Segs: []geom.Seg{geom.Line(h.pt(8.6, 16), h.pt(4, 16)), {A: h.pt(4, 16), B: h.pt(2, 14), C: h.pt(4, 14), R: 2, Turn: geom.CCW},
				geom.Line(h.pt(2, 14), h.pt(2, 9)), geom.Line(h.pt(2, 9), h.pt(8.6, 9))}},
			{Segs: []geom.Seg{geom.Line(h.pt(17.4, 9), h.pt(24.4, 9)), geom.Line(h.pt(24.4, 9), h.pt(22.4, 16)), geom.Line(h.pt(22.4, 16), h.pt(17.4, 16))}},
		}, Pen: render.CutLine},
		render.Stroke{Paths: []render.Path{h.line(from, 7.6, from, 19.8), h.line(to, 7.6, to, 19.8)}, Pen: dash},
		render.Stroke{Paths: []render.Path{h.line(from, 1.6, from, 6.6), h.line(to, 1.6, to, 6.6), h.line(from+2, 3, to-2, 3)}, Pen: render.Thin},
		pointer(hand{at: h.pt(from, 3)}, 3, render.Tone{}), pointer(back, 3, render.Tone{}))
}
