package sheets

import (
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// Measures of a step, mm.
const (
	wordsGap  = 5.0  // from the picture to the words beside it
	underGap  = 6.0  // from the picture to the words under it, a rule in its middle
	columnGap = 8.0  // between two columns of words
	stepHead  = 10.5 // its title
	stepGap   = 5.0  // from a step to the next, at least
	stepWide  = 24.0 // likewise, at most
	panelH    = 6.6  // of the signal word before a step
)

// stepText is the type of what to do, read at arm's length.
var stepText = lettering.Style{Face: fonts.Sans, Size: render.Step, Lead: 1.27}

// stepSheets sets the building steps, as many to a page as it shows well.
func stepSheets(d *desk, s sheet) {
	var all []*stepForms
	for _, st := range d.plan.Steps {
		all = append(all, d.formsOf(st, stepsRoom-stepHead))
	}
	pages, pictures := d.drawnPages(all)
	stage := ""
	for _, page := range pages {
		title, purpose := d.stagesWords(page.steps)
		l := d.leaf(s, title, purpose)
		n := len(page.steps)
		stage = d.stepsOn(l, page, pictures[:n], stage)
		pictures = pictures[n:]
	}
}

// mostShared is how often the steps are shared out anew because a picture had no
// room for its notes.
const mostShared = 12

// drawnPages shares the steps out to pages and draws their pictures. A picture in
// which something finds no place is none: its step gets a larger one.
func (d *desk) drawnPages(all []*stepForms) ([]stepPage, []block) {
	for try := 1; ; try++ {
		pages := sharePages(all)
		jobs := d.pictureJobs(pages)
		aside := *d
		aside.blocks(jobs)
		poor, k := false, 0
		for _, page := range pages {
			for i, s := range page.steps {
				if len(d.store.artworks[jobs[k].key].problems) > 0 && s.without(s.rungs[page.at[i]]) {
					poor = true
				}
				k++
			}
		}
		if !poor || try == mostShared {
			return pages, d.blocks(jobs)
		}
	}
}

// stepsOn sets the steps of a page and leaves what no picture can use between them.
// It returns the stage of the last one; before is that of the page before.
func (d *desk) stepsOn(l *leaf, page stepPage, pictures []block, before string) string {
	gap := stepGap + max(0, min(page.spare/float64(len(page.steps)), stepWide-stepGap))
	for i, s := range page.steps {
		if i > 0 {
			l.skip(0.3 * gap)
			l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
			l.skip(0.7 * gap)
		}
		d.name("step " + digits(s.step.Number))
		if s.step.Stage != before {
			d.markStage(l, s.step.Stage)
			before = s.step.Stage
		}
		l.stepHead(s.step)
		l.putStep(s.step, s.rungs[page.at[i]], pictures[i])
	}
	return before
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

// stepDo is what to do, and how to know that it is right.
func (l *leaf) stepDo(st *model.Step) {
	l.stepSay(st)
	l.stepProof(st)
}

// stepSay is what to do.
func (l *leaf) stepSay(st *model.Step) {
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
}

// stepProof is what goes wrong, and how to know that it did not.
func (l *leaf) stepProof(st *model.Step) {
	if st.Watch != "" {
		l.stepLine("!", st.Watch, plain)
	}
	if st.Mistake != "" {
		l.stepMistake(st)
	}
	if st.Test != "" {
		if l.y < 0 {
			l.skip(0.6)
			l.rule(0, l.colW(), l.y, render.Rule)
			l.skip(2.4)
		}
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
