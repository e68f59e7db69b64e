package sheets

import (
	"planset/layouts/lettering"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// The printed gauges, mm. Both systems stand on every copy, so that any rule at
// hand will do.
const (
	barIn = 6 * 25.4
	barMM = 150.0
	sqIn  = 4 * 25.4
	sqMM  = 100.0
)

// printCheck has bars along both axes and squares of both systems: the page to
// print before all others.
func printCheck(d *desk, s sheet) {
	l := d.leaf(s, s.title, "Print this page first and lay a steel rule on it.")
	l.state = "Full size"
	// The bars stand in a corner of their own at the lower left.
	corner := geom.Pt{X: l.left() + 2, Y: l.body.Min.Y + 3}
	l.bar(corner, geom.Pt{X: 1}, barIn, 25.4, "6 in")
	l.bar(corner.Add(geom.Pt{Y: 13}), geom.Pt{X: 1}, barMM, 10, "150 mm")
	up := corner.Add(geom.Pt{X: 4, Y: 30})
	l.bar(up, geom.Pt{Y: 1}, barIn, 25.4, "6 in")
	l.bar(up.Add(geom.Pt{X: 13}), geom.Pt{Y: 1}, barMM, 10, "150 mm")
	l.squares(up.Add(geom.Pt{X: 30}))
	l.verdict(geom.Pt{X: up.X + 30, Y: up.Y + barIn})
	l.settings()
}

// bar draws a scale from at in direction dir: long ticks at its ends, short
// ones each step, its length in words along it.
func (l *leaf) bar(at, dir geom.Pt, length, step float64, words string) {
	side := geom.Pt{X: -dir.Y, Y: dir.X}
	if dir.Y != 0 {
		side = geom.Pt{X: 1}
	}
	tickAt := func(t, h float64) render.Path {
		p := at.Add(dir.Mul(t))
		return render.Lines(p, p.Add(side.Mul(h)))
	}
	paths := []render.Path{render.Lines(at, at.Add(dir.Mul(length)))}
	for t := step; t < length-step/2; t += step {
		paths = append(paths, tickAt(t, 2))
	}
	paths = append(paths, tickAt(0, 5), tickAt(length, 5))
	l.add(render.Group{Name: "bar " + words, Items: []render.Item{render.Stroke{Pen: render.Pen{Width: 0.25}, Paths: paths}}})
	mid := at.Add(dir.Mul(length / 2))
	if dir.Y == 0 {
		l.line(mid.Add(geom.Pt{Y: 3.6}), words, strong, toMiddle)
		return
	}
	l.add(lettering.Turned(mid.Add(geom.Pt{X: 3.6 + lettering.Cap(strong)}), words, strong, toMiddle, quarter)...)
}

// quarter is a quarter of a turn, for lines read from the right.
const quarter = 1.5707963267948966

// squares draws 4 in and 100 mm from one corner.
func (l *leaf) squares(at geom.Pt) {
	box := func(side float64) render.Path {
		return render.Rect(geom.Box{Min: at, Max: at.Add(geom.Pt{X: side, Y: side})})
	}
	l.add(
		render.Group{Name: "square 4 in", Items: []render.Item{render.Stroke{Pen: render.Pen{Width: 0.25}, Paths: []render.Path{box(sqIn)}}}},
		render.Group{Name: "square 100 mm", Items: []render.Item{render.Stroke{Pen: render.Hidden, Paths: []render.Path{box(sqMM)}}}},
	)
	x := at.X + sqIn + 3
	l.line(geom.Pt{X: x, Y: at.Y + sqIn - lettering.Cap(strong)}, "4 in", strong, toLeft)
	l.paraAt(geom.Pt{X: x, Y: at.Y + sqIn - 6}, 24, "solid, outside", narrow)
	l.line(geom.Pt{X: x, Y: at.Y + sqIn - 18 - lettering.Cap(strong)}, "100 mm", strong, toLeft)
	l.paraAt(geom.Pt{X: x, Y: at.Y + sqIn - 24}, 24, "dashed, inside", narrow)
	inner := geom.Pt{X: at.X + 8, Y: at.Y + sqMM - 10}
	inner.Y -= l.paraAt(inner, 84, "Both squares start in the lower left corner.", plain) + 4
	inner.Y -= l.paraAt(inner, 84, "Measure the sides, then the two diagonals of one square. Diagonals that differ mean that the paper was pulled askew: feed it again.", plain) + 4
	for _, p := range l.budget() {
		inner.Y -= l.paraAt(inner, 88, p, narrow) + 1.6
	}
}

// budget tells what an error of the printer costs on this plan's templates. What
// is said of match-drilled holes stands on the templates themselves.
func (l *leaf) budget() []string {
	list := ErrorBudget(l.d.plan)
	return list[:min(len(list), budgetShown)]
}

// budgetShown is how many paragraphs the square has room for.
const budgetShown = 4

// verdict says when to go on, beside the upper end of the upright bars.
func (l *leaf) verdict(top geom.Pt) {
	limit := "1⁄32″ (0.8 mm)"
	if l.d.plan.Unit == expr.MM {
		limit = "0.8 mm (1⁄32″)"
	}
	top.Y -= l.paraAt(top, 112, "Go on if all four bars are right", caption) + 2.4
	l.paraAt(top, 112, "Lay the rule along each bar, its zero on the first long tick. If any bar is off by more than "+limit+
		", stop: change the settings above and print this page again. One bar right and one wrong means a worn feed: use another printer.", plain)
}

// settings are the words to look for in a printer's own window.
func (l *leaf) settings() {
	l.topic("In the print window")
	l.para(textX, textW, "Scale: “Actual size” or “100 %”. Never “Fit”, “Shrink” or “Fill page”. Paper: "+paperName(l.d.in.Paper)+
		", and the same in the printer’s own settings. Both sides: off.", plain)
}
