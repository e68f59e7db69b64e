package tiles

import (
	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// Measures of a roll sheet, in mm.
const (
	rollMargin = 20.0
	rollFoot   = 22.0  // strip under the outline for the words and the bar
	rollBar    = 100.0 // length of the calibration bar
)

// Roll draws a whole template at full size on one sheet as large as it needs,
// for a roll printer or a cutting machine. The datum corner of the part lies
// above and right of the sheet's lower-left corner by the margin.
func Roll(t Template, look Look) render.Page {
	box := t.Outline.Box()
	shift := geom.Pt{X: rollMargin - box.Min.X, Y: rollMargin + rollFoot - box.Min.Y}
	size := geom.Size{W: max(box.W(), rollBar) + 2*rollMargin, H: box.H() + 2*rollMargin + rollFoot}
	items := []render.Item{render.Group{Name: "outline", Items: []render.Item{
		render.Stroke{Paths: []render.Path{render.FromOutline(t.Outline.Move(shift))}, Pen: render.CutLine}}}}
	for _, h := range t.Holes {
		at := h.At.Add(shift)
		rim := render.FromOutline(geom.Circle(at, h.Diam/2)).Segs
		if h.Matched {
			items = append(items, render.Group{Name: "matched hole", Items: []render.Item{
				render.Stroke{Paths: strung(rim), Pen: render.Pen{Width: 0.18, Dash: []float64{1, 0.7}}}}})
			continue
		}
		items = append(items, render.Group{Name: "hole", Items: prick(at, h.Diam/2, rim)})
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
	y := rollMargin + 9
	items := lettering.Line(geom.Pt{X: rollMargin, Y: y}, words, strong, render.Left)
	bar := geom.Pt{X: rollMargin, Y: rollMargin}
	hand := []render.Path{
		render.Lines(bar, bar.Add(geom.Pt{X: rollBar})),
		render.Lines(bar, bar.Add(geom.Pt{Y: 3})),
		render.Lines(bar.Add(geom.Pt{X: rollBar}), bar.Add(geom.Pt{X: rollBar, Y: 3})),
	}
	items = append(items, render.Group{Name: "bar", Items: []render.Item{render.Stroke{Paths: hand, Pen: render.Thin}}})
	items = append(items, lettering.Line(bar.Add(geom.Pt{X: 2, Y: 1.5}), "100 mm. Actual size; the center of the line is the finished edge.", plain, render.Left)...)
	if look.Revision != "" {
		items = append(items, lettering.Line(bar.Add(geom.Pt{Y: -5}), look.Title+", revision "+look.Revision, plain, render.Left)...)
	}
	return items
}
