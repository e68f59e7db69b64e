package tiles

import (
	"fmt"
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// Measures of a sheet that holds a whole template, in mm.
const (
	rollMargin = 20.0
	rollFoot   = 22.0   // strip under the outline for the words and the bar
	rollBar    = 100.0  // length of the calibration bars
	rollRim    = 14.0   // round the outline for words, half of it in the margin
	rollLong   = 5080.0 // longest page a PDF may have: 14400 points, PDF 1.7 annex C
)

// Rolls returns the widths of roll paper, in mm, narrowest first: 24 in, sold as
// 610 mm, and 36 in, sold as 914 mm. Each is the lesser of the two.
func Rolls() []float64 { return []float64{609.6, 914} }

// Roll draws a whole template at full size on one sheet as wide as the narrowest
// roll that takes it, and as short as turning it allows. The error tells a
// template no roll takes.
func Roll(t Template, look Look) (render.Page, error) {
	if t.Outline.Box().Empty() {
		return render.Page{}, fmt.Errorf("template %s has no outline", t.Code)
	}
	l := Layout{Template: t}
	if len(l.Controls) == 0 {
		b := t.Outline.Box()
		l.Controls = tapes(t, b.H() > b.W())
	}
	turned := l
	turned.Template = turn(blanked(l.Template))
	turned.Turned = true
	for _, wide := range Rolls() {
		var best *Layout
		for _, way := range []*Layout{&l, &turned} {
			b := way.Outline.Box()
			if b.W()+2*rollMargin <= wide && rollLength(b) <= rollLong && (best == nil || b.H() < best.Outline.Box().H()-1e-9) {
				best = way
			}
		}
		if best != nil {
			return best.onRoll(wide, look), nil
		}
	}
	b := t.Outline.Box()
	u := look.Unit
	return render.Page{}, fmt.Errorf("template %s is %s by %s; the widest roll takes %s and a margin: print its tiles",
		t.Code, u.Long(b.W()), u.Long(b.H()), u.Long(Rolls()[1]-2*rollMargin))
}

// rollLength is how long a sheet is for an outline in b.
func rollLength(b geom.Box) float64 {
	return math.Max(b.H()+2*rollMargin+rollFoot, rollBar+2*rollMargin)
}

// blanked returns t with the size of its board, taken from its outline when
// nobody told.
func blanked(t Template) Template {
	if t.Blank.W <= 0 || t.Blank.H <= 0 {
		far := t.Outline.Box().Max
		t.Blank = geom.Size{W: far.X, H: far.Y}
	}
	return t
}

// onRoll draws l, with all its notes, as a single tile on a sheet of a roll.
func (l Layout) onRoll(wide float64, look Look) render.Page {
	b := l.Outline.Box()
	page := geom.Size{W: wide, H: rollLength(b)}
	l.Template = blanked(l.Template)
	at := geom.Pt{X: rollMargin - rollRim, Y: rollMargin + rollFoot - rollRim}
	// The whole width of the roll is free for words.
	window := geom.Box{Min: b.Min.Sub(geom.Pt{X: rollRim, Y: rollRim}), Max: b.Max.Add(geom.Pt{Y: rollRim})}
	window.Max.X = math.Min(b.Max.X+80, window.Min.X+wide-2*at.X-rollMargin)
	l.Tiles = []Tile{{Window: window, At: at}}
	s := &sheet{canvas: &canvas{}, l: l, tile: l.Tiles[0], look: look}
	s.desk = desk.New(s.window())
	s.lines()
	s.notes()
	items := append(s.items, rollWords(l.Template, look)...)
	bar := geom.Pt{X: wide - rollMargin/2, Y: rollMargin}
	items = append(items, calibration(hand{at: bar, angle: math.Pi / 2})...)
	roll := "24 in (610 mm)"
	if wide > Rolls()[0] {
		roll = "36 in (914 mm)"
	}
	plain := lettering.Style{Face: fonts.Cond, Size: render.Note}
	words := "For a roll of " + roll + ". Lay a steel rule on both bars before you cut."
	items = append(items, lettering.Line(geom.Pt{X: rollMargin + rollBar + 60, Y: rollMargin + 1.5}, words, plain, render.Left)...)
	return render.Page{Name: "1", Title: l.Name + " " + l.Code + ", full size", Size: page, Items: items}
}

// Plot draws the outline of a template and its holes at full size on a sheet just
// large enough, for a cutting machine or a drawing program. The lower-left corner
// of the box round the outline lies right of and above the sheet's by 20 and 42
// mm. What is drilled through its mate is left out.
func Plot(t Template, look Look) render.Page {
	box := t.Outline.Box()
	shift := geom.Pt{X: rollMargin - box.Min.X, Y: rollMargin + rollFoot - box.Min.Y}
	size := geom.Size{W: math.Max(box.W(), rollBar) + 2*rollMargin, H: box.H() + 2*rollMargin + rollFoot}
	items := []render.Item{render.Group{Name: "outline", Items: []render.Item{
		render.Stroke{Paths: []render.Path{render.FromOutline(t.Outline.Move(shift))}, Pen: render.CutLine}}}}
	for _, h := range t.Holes {
		if !h.Matched {
			rim := render.FromOutline(geom.Circle(h.At.Add(shift), h.Diam/2))
			items = append(items, render.Group{Name: "hole", Items: []render.Item{
				render.Stroke{Paths: []render.Path{rim}, Pen: render.Pen{Width: 0.25}}}})
		}
	}
	items = append(items, rollWords(t, look)...)
	return render.Page{Name: "1", Title: t.Name + " " + t.Code + ", full size", Size: size, Items: items}
}

// rollWords is the strip under the outline: what it is, and a bar to prove the
// print with.
func rollWords(t Template, look Look) []render.Item {
	strong := lettering.Style{Face: fonts.CondBold, Size: render.Measure}
	plain := lettering.Style{Face: fonts.Cond, Size: render.Note}
	words := t.Code + "  " + t.Name
	if t.Note != "" {
		words += ", " + t.Note
	}
	items := lettering.Line(geom.Pt{X: rollMargin, Y: rollMargin + 9}, words, strong, render.Left)
	bar := geom.Pt{X: rollMargin, Y: rollMargin}
	items = append(items, calibration(hand{at: bar})...)
	items = append(items, lettering.Line(bar.Add(geom.Pt{X: 2, Y: 1.5}), "100 mm. Actual size; the center of the line is the finished edge.", plain, render.Left)...)
	if look.Revision != "" {
		items = append(items, lettering.Line(bar.Add(geom.Pt{Y: -5}), look.Title+", revision "+look.Revision, plain, render.Left)...)
	}
	return items
}

// calibration draws a bar of 100 mm.
func calibration(h hand) []render.Item {
	bar := []render.Path{h.line(0, 0, rollBar, 0), h.line(0, 0, 0, 3), h.line(rollBar, 0, rollBar, 3)}
	return []render.Item{render.Group{Name: "bar", Items: []render.Item{render.Stroke{Paths: bar, Pen: render.Thin}}}}
}
