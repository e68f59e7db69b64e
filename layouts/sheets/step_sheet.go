package sheets

import (
	"slices"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// Measures of a step, mm. The picture stands at the left, the words at the
// right of it.
const (
	pictureW    = 91.0
	pictureH    = 90.0 // at least
	pictureMost = 150.0
	makeH       = 48.0 // at least, of parts by themselves
	wordsGap    = 5.0
	wordsW      = bodyW - pictureW - wordsGap
	stepHead    = 11.0
	stepGap     = 7.0
	panelH      = 6.6 // of the signal word before a step
)

// stepText is the type of what to do, read at arm's length.
var stepText = lettering.Style{Face: fonts.Sans, Size: render.Step, Lead: 1.27}

// stepSheets sets the building steps, two to a page where they fit.
func stepSheets(d *desk, s sheet) {
	var all []stepPage
	for _, st := range d.plan.Steps {
		all = append(all, d.stepPage(st))
	}
	stage := ""
	for _, page := range sharePages(all) {
		first := page[0].step
		title, purpose := d.stagesWords(page)
		l := d.leaf(s, title, purpose)
		if first.Stage != stage {
			d.markStage(l, first.Stage)
		}
		stage = page[len(page)-1].step.Stage
		if len(page) == 1 {
			d.stepAlone(l, first)
		} else {
			d.stepsOn(l, page)
		}
	}
}

// onlyMakes reports whether a step cuts parts and puts nothing together.
func onlyMakes(st *model.Step) bool {
	return len(st.Make) > 0 && len(st.Add) == 0 && len(st.Fasten) == 0
}

// scratch is a column of text that is set round the origin and put somewhere
// later.
func (d *desk) scratch(width float64) *leaf {
	return &leaf{d: d, body: geom.Box{Min: pt(0, -1000), Max: pt(width, 0)}}
}

// colW is the width of a scratch column.
func (l *leaf) colW() float64 { return l.body.W() }

// stepAlone gives one step a whole page: a wide picture, and under it what is
// needed at the left and what to do at the right.
func (d *desk) stepAlone(l *leaf, st *model.Step) {
	const gap = 8.0
	wide := (bodyW - gap) / 2
	gear, do := d.scratch(wide), d.scratch(wide)
	gear.stepGear(st)
	gear.stepCautions(st)
	do.stepDo(st)
	if gear.y == 0 {
		gear, do = do, gear
	}
	words := max(-gear.y, -do.y)
	d.name("step " + digits(st.Number))
	l.stepHead(st)
	high := l.room() - words - 8
	if onlyMakes(st) {
		n := len(d.madeOnce(st))
		if n > 2 {
			n = (n + 1) / 2
		}
		high = min(high, 62*float64(n))
	}
	box := geom.Box{Min: pt(l.left(), l.y-high), Max: pt(l.left()+bodyW, l.y)}
	l.stepPicture(st, box)
	l.skip(high + 2)
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(4)
	l.addStep(st, Moved(gear.items, pt(l.left(), l.y)))
	l.addStep(st, Moved(do.items, pt(l.left()+wide+gap, l.y)))
	l.skip(words)
}

// stageWords heads a page of steps.
func (d *desk) stageWords(key string) (title, purpose string) {
	for i, st := range d.plan.Stages {
		if st.Key != key {
			continue
		}
		purpose = st.Text
		if purpose == "" {
			purpose = "Stage " + digits(i+1) + " of " + digits(len(d.plan.Stages)) + ". Do not go on until the check of a step is met."
		}
		return orElse(strings.TrimSpace(st.Title), "Building"), purpose
	}
	return "Building", "Step by step. Do not go on until the check of a step is met."
}

// stepHead is the number and the title of a step, the people and the time.
func (l *leaf) stepHead(st *model.Step) {
	number := lettering.Style{Face: fonts.CondBold, Size: render.Head}
	title := lettering.Style{Face: fonts.CondBold, Size: 17}
	base := l.y - lettering.Cap(number)
	l.line(pt(l.left(), base), digits(st.Number), number, toLeft)
	x := lettering.Width(digits(st.Number), number) + 4
	var right []string
	if st.People > 1 {
		right = append(right, digits(st.People)+" people")
	}
	if st.Minutes > 0 {
		right = append(right, "about "+minutes(st.Minutes))
	}
	end := strings.Join(right, "  ·  ")
	l.line(pt(l.left()+bodyW, base), end, narrow, toRight)
	words, style := squeezed(st.Title, bodyW-x-lettering.Width(end, narrow)-6, title)
	l.line(pt(l.left()+x, base), words, style, toLeft)
	l.skip(stepHead)
}

func minutes(n int) string {
	switch {
	case n < 60 || n%30 != 0:
		return digits(n) + " min"
	case n == 60:
		return "1 hour"
	case n%60 == 0:
		return digits(n/60) + " hours"
	}
	return digits(n/60) + " 1⁄2 hours"
}

// stepGear is what a step needs: parts, hardware, tools.
func (l *leaf) stepGear(st *model.Step) {
	l.stepParts(st)
	l.stepHardware(st)
	l.stepTools(st)
}

// stepDo is what to do, and how to know that it is right.
func (l *leaf) stepDo(st *model.Step) {
	if st.Turned != "" {
		l.para(0, l.colW(), "Turn the work: "+st.Turned, strong)
		l.skip(2)
	}
	l.para(0, l.colW(), st.Do, stepText)
	l.skip(2.6)
	for _, n := range st.Notes {
		l.para(0, l.colW(), n, plain)
		l.skip(1.6)
	}
	if st.Loose {
		l.stepLine("", "Leave the bolts finger tight. They are tightened in a later step.", strong)
	}
	if st.Watch != "" {
		l.stepLine("!", st.Watch, plain)
	}
	if st.Mistake != "" {
		l.stepMistake(st)
	}
	if st.Test != "" {
		l.skip(0.6)
		l.rule(0, l.colW(), l.y, render.Rule)
		l.skip(2.4)
		l.stepLine("☐", st.Test+l.d.gaugeWords(st.Gauge), strong)
	}
}

// gaugeWords adds the value of a measure to a check.
func (d *desk) gaugeWords(name string) string {
	for _, m := range d.plan.Measures {
		if m.Name != name || name == "" {
			continue
		}
		text := ""
		switch {
		case m.Value.Dim.Angle == 1:
			text = expr.Angle(m.Value.V, 0.5)
		case m.Value.Dim.Length == 1:
			text = d.plan.Unit.Long(m.Value.V)
		}
		if text == "" || m.Note == "" {
			return ""
		}
		return " (" + m.Note + ": " + text + ".)"
	}
	return ""
}

// lower writes a sentence on with a small first letter.
func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// stepLine is a sentence with a sign before it.
func (l *leaf) stepLine(sign, s string, st lettering.Style) {
	in := 0.0
	if sign != "" {
		in = 6
		l.line(pt(l.left(), l.y-lettering.Cap(strong)), sign, lettering.Style{Face: fonts.SansBold, Size: render.Measure}, toLeft)
	}
	l.para(in, l.colW()-in, s, st)
	l.skip(2)
}

// cautionsOf are the messages before a step.
func (d *desk) cautionsOf(st *model.Step) []model.Caution {
	if len(st.Alerts) > 0 {
		return st.Alerts
	}
	return d.store.alerts[st.Number]
}

// An added is the pieces of one part and hand that a step adds.
type added struct {
	part  *model.Part
	hand  string
	count int
}

// addedIn counts the pieces a step adds.
func (d *desk) addedIn(st *model.Step) []added {
	var out []added
	for _, i := range st.Add {
		p := d.plan.Placed[i]
		hand := handLetter(p.Hand)
		at := slices.IndexFunc(out, func(a added) bool { return a.part == p.Part && a.hand == hand })
		if at < 0 {
			out = append(out, added{p.Part, hand, 1})
			continue
		}
		out[at].count++
	}
	return out
}

func handLetter(h model.Hand) string {
	switch h {
	case model.LeftHand:
		return "L"
	case model.RightHand:
		return "R"
	}
	return ""
}

// stepParts is the row of tabs of what is added or made, with counts.
func (l *leaf) stepParts(st *model.Step) {
	list := l.d.addedIn(st)
	for _, p := range st.Make {
		list = append(list, added{p, "", p.Quantity})
	}
	if len(list) == 0 {
		return
	}
	const high, gap = 7.0, 4.0
	x := 0.0
	l.skip(high)
	for _, a := range list {
		n := digits(a.count) + " ×"
		w := lettering.TabWidth(a.part.Code, a.hand, high)
		all := w
		if a.count > 1 || len(st.Make) > 0 {
			all += lettering.Width(n, plain) + 1.4
		}
		if x > 0 && x+all > l.colW() {
			x = 0
			l.skip(high + 2)
		}
		if all > w {
			l.line(pt(l.left()+x, l.y+(high-lettering.Cap(plain))/2), n, plain, toLeft)
			x += all - w
		}
		l.tab(pt(l.left()+x, l.y), a.part, a.hand, high)
		x += w + gap
	}
	l.skip(4)
}
