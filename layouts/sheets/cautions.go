package sheets

import (
	"slices"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/model/shop"
	"planset/render"
)

// cautions groups the messages under their signal words, gravest first.
func cautions(d *desk, s sheet) {
	all := shop.Cautions(d.plan)
	if len(all) == 0 {
		return
	}
	l := d.leaf(s, s.title, "Read them first; each stands again before the steps it is about.")
	at := d.store.alerts
	width := d.messageWidth(all, at)
	for from := 0; from < len(all); {
		to := from
		for to < len(all) && all[to].Signal == all[from].Signal {
			to++
		}
		l = l.signal(all[from:to], at, width)
		from = to
	}
	l = l.need(20)
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(3.4)
	l.para(textX, textW, "These messages go with the manuals of your tools and the labels of your finish; they do not replace them. "+
		"Where a local rule or a licensed trade says otherwise, follow that. No load was tested and none is stated.", soft)
}

// signal sets the messages of one signal word beside its panel, width wide.
func (l *leaf) signal(group []model.Caution, at map[int][]model.Caution, width float64) *leaf {
	l = l.need(30)
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(3.4)
	top := geom.Pt{X: l.left(), Y: l.y}
	h := l.panel(top, group[0].Signal, headingW, 11)
	h += 2.4 + l.paraAt(geom.Pt{X: top.X, Y: top.Y - h - 2.4}, headingW, upper(shop.Meaning(group[0].Signal)), narrow)
	first := l
	for _, c := range group {
		l = l.need(18)
		if n := l.d.alertSteps(at, c); n != "" {
			l.line(geom.Pt{X: l.left() + bodyW, Y: l.y - lettering.Cap(strong)}, stepWord(n), narrow, toRight)
		}
		l.message(textX, width, c)
		l.skip(4)
	}
	if l == first { // the panel may be taller than its messages
		l.y = min(l.y, top.Y-h-4)
	}
	return l
}

// messageWidth is what the widest row of steps leaves for the messages.
func (d *desk) messageWidth(all []model.Caution, at map[int][]model.Caution) float64 {
	wide := 0.0
	for _, c := range all {
		wide = max(wide, lettering.Width(stepWord(d.alertSteps(at, c)), narrow))
	}
	return bodyW - textX - wide - 4
}

// stepWord says step or steps.
func stepWord(numbers string) string {
	if strings.ContainsAny(numbers, ",–") {
		return "steps " + numbers
	}
	return "step " + numbers
}

// alertSteps lists the steps before which a message stands again.
func (d *desk) alertSteps(at map[int][]model.Caution, c model.Caution) string {
	var n []int
	for _, step := range d.plan.Steps {
		if slices.Contains(at[step.Number], c) {
			n = append(n, step.Number)
		}
	}
	return shop.Numbers(n)
}

// message sets one caution: hazard and consequence in bold, the way out plain.
// The step sheets set theirs with it too.
func (l *leaf) message(x, width float64, c model.Caution) {
	l.para(x, width, c.Hazard+" "+c.Consequence, strong)
	l.skip(1)
	l.para(x, width, c.Avoid, plain)
}

// panel draws a signal word panel with its upper left corner at top, high mm
// high, and returns its height. The word's weight is told by tone: white letters on dark
// for the grave ones, black on light for CAUTION, a plain frame and no triangle
// for NOTICE.
func (l *leaf) panel(top geom.Pt, s model.Signal, width, high float64) float64 {
	box := geom.Box{Min: geom.Pt{X: top.X, Y: top.Y - high}, Max: geom.Pt{X: top.X + width, Y: top.Y}}
	ground, ink := render.Paper, render.Tone{}
	switch s {
	case model.Danger:
		ground, ink = render.Tone{}, render.White
	case model.Warn:
		ground, ink = render.Dark, render.White
	case model.Careful:
		ground = render.Edge
	}
	items := []render.Item{
		render.Fill{Paths: []render.Path{render.Rect(box)}, Tone: ground},
		render.Stroke{Paths: []render.Path{render.Rect(box)}, Pen: render.Thin},
	}
	st := lettering.Style{Face: fonts.CondBold, Size: 17 * high / 11, Tone: ink}
	x := top.X + 3*high/11
	if s != model.NoticeOf {
		k := high / 11
		items = append(items, triangle(geom.Pt{X: x + 3.6*k, Y: top.Y - high/2}, k, ground, ink)...)
		x += 10 * k
	}
	base := top.Y - high/2 - lettering.Cap(st)/2
	items = append(items, lettering.Line(geom.Pt{X: x, Y: base}, string(s), st, toLeft)...)
	l.add(render.Group{Name: "signal " + string(s), Items: items})
	return high
}

// triangle is the safety alert sign, middle at c: a triangle of ink with an
// exclamation mark of the ground, k times the size it has in a grouped message.
func triangle(c geom.Pt, k float64, ground, ink render.Tone) []render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: k * x, Y: k * y}) }
	const half, up, down = 3.8, 3.6, -2.9
	body := render.Loop(at(-half, down), at(half, down), at(0, up))
	return []render.Item{
		render.Fill{Paths: []render.Path{body}, Tone: ink},
		render.Stroke{Paths: []render.Path{body}, Pen: render.Pen{Width: 0.5, Tone: ink, Round: true}},
		render.Fill{Paths: []render.Path{
			render.Loop(at(-0.3, -0.9), at(0.3, -0.9), at(0.5, 1.5), at(-0.5, 1.5)),
			render.Circle(at(0, -1.85), 0.5*k),
		}, Tone: ground},
	}
}
