package dims

import (
	"math"
	"strconv"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// The parts of a scale bar, mm.
const (
	barHigh  = 1.6
	barLeast = 24.0 // length wanted on paper
	barMost  = 56.0
)

// ScaleBar draws a bar of round length with its lower-left corner at at: four
// fields by turns black and white, with figures above. Scale is millimetres on
// paper for one of the real thing. It returns the items, in a group
// "scale bar", and their size.
func ScaleBar(at geom.Pt, scale float64, unit expr.Unit) ([]render.Item, geom.Size) {
	step := barStep(scale, unit)
	wide := step * scale
	if !(wide > 0) || math.IsInf(wide, 0) {
		return nil, geom.Size{}
	}
	st := lettering.Style{Face: fonts.Cond, Size: render.Small}
	x := func(i int) float64 { return at.X + float64(i)*wide }
	var solid []render.Path
	for i := range 4 {
		if i%2 == 0 {
			solid = append(solid, render.Rect(geom.Box{
				Min: geom.Pt{X: x(i), Y: at.Y}, Max: geom.Pt{X: x(i + 1), Y: at.Y + barHigh},
			}))
		}
	}
	frame := render.Rect(geom.Box{Min: at, Max: geom.Pt{X: x(4), Y: at.Y + barHigh}})
	items := []render.Item{black(solid...), render.Stroke{Paths: []render.Path{frame}, Pen: render.Hairline}}
	base := at.Y + barHigh + clear + render.Hairline.Width
	text := func(i int, s string, align render.Align) {
		line := lettering.Line(geom.Pt{X: x(i), Y: base}, s, st, align)
		items = append(items, render.Group{Name: "text", Items: line})
	}
	text(0, "0", render.Left)
	text(2, unit.Bare(2*step, expr.Coarse), render.Middle)
	// The last figure stands over the end of the bar, its unit beyond it.
	last := unit.Bare(4*step, expr.Coarse)
	whole := unit.LongTo(4*step, expr.Coarse)
	left := x(4) - lettering.Width(last, st)/2
	items = append(items, render.Group{Name: "text", Items: lettering.Line(geom.Pt{X: left, Y: base}, whole, st, render.Left)})
	size := geom.Size{W: left + lettering.Width(whole, st) - at.X, H: base + lettering.Cap(st) - at.Y}
	return []render.Item{render.Group{Name: "scale bar", Items: items}}, size
}

// barStep returns the length of one field of a bar, real millimetres: a round
// number of the unit for which the bar is about 24 to 56 mm on paper.
func barStep(scale float64, unit expr.Unit) float64 {
	steps, one := []float64{0.25, 0.5, 1, 2, 3, 6, 12, 24, 48}, 25.4
	if unit == expr.MM {
		steps, one = []float64{1, 2, 5, 10, 25, 50, 100, 250, 500, 1000}, 1
	}
	for _, s := range steps {
		if l := 4 * s * one * scale; l >= barLeast && l <= barMost+1e-9 {
			return s * one
		}
	}
	return barLeast * 1.2 / 4 / scale
}

// Ratio prints a scale: "1 : 8", "full size", "2 : 1". Scale is millimetres on
// paper for one of the real thing.
func Ratio(scale float64) string {
	num := func(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }
	switch {
	case math.Abs(scale-1) < 1e-9:
		return "full size"
	case scale > 1:
		return num(scale) + " : 1"
	}
	return "1 : " + num(1/scale)
}

// Caption sets the name of a view and its scale under it: the name bold, the
// scale after it in the size of notes. At is the left end of the baseline. It
// returns the items, in a group "caption", and the width.
func Caption(at geom.Pt, name string, scale float64) ([]render.Item, float64) {
	bold := lettering.Style{Face: fonts.CondBold, Size: render.Measure}
	plain := lettering.Style{Face: fonts.Cond, Size: render.Note}
	const space = 2.6
	w := lettering.Width(name, bold)
	if w > 0 {
		w += space
	}
	ratio := Ratio(scale)
	items := []render.Item{
		render.Group{Name: "text", Items: lettering.Line(at, name, bold, render.Left)},
		render.Group{Name: "text", Items: lettering.Line(geom.Pt{X: at.X + w, Y: at.Y}, ratio, plain, render.Left)},
	}
	return []render.Item{render.Group{Name: "caption", Items: items}}, w + lettering.Width(ratio, plain)
}
