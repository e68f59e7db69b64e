package sheets

import (
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/render"
)

// howToUse tells the order of work, what the marks mean and from where
// everything is measured.
func howToUse(d *desk, s sheet) {
	l := d.leaf(s, s.title, "Read this page before you buy or cut anything.")
	l.topic("Order of work")
	l.points("#", []string{
		"Read all pages once, from the cautions to the last step.",
		"Print " + refWords("page ", d.page("check")) + " alone and measure its bars. Then print the rest with the same settings.",
		"Buy the wood and the hardware on the shopping list" + inBrackets(d.onPage("shopping")) + ". Let the boards settle in your shop.",
		"Measure your boards before you cut; see below.",
		"Cut in the order of the board layouts" + inBrackets(d.onPage("boards")) + " and pencil its letter on every part at once.",
		"Build step by step. Do not go on until the check of a step is met.",
	})
	l.skip(3)
	l.topic("Measure first")
	for _, t := range measureFirst(d) {
		l.para(textX, textW, t, plain)
		l.skip(2)
	}
	l.skip(2)
	l.topic("Where to measure from")
	l.para(textX, textW, "Every part has one end and one straight edge from which all its sizes run; a pair of small black triangles marks them. "+
		"Hook the tape there and read every mark off in one go. Length runs with the grain; sizes read thickness × width × length. "+
		handsAre(d.plan)+" "+unitWords(d.plan.Unit), plain)
	l.skip(2)
	notes := d.plan.Notes
	if len(notes) == 0 {
		notes = []string{"Work to " + tolerance(d.plan.Unit) + " unless a size is marked. Two parts that face each other must match each other before they match the tape."}
	}
	for _, n := range notes {
		l.para(textX, textW, n, plain)
		l.skip(1.4)
	}
	l.skip(3)
	marks := shop.Symbols(d.plan)
	cols := 2
	if keyHeight(marks, 3) < keyHeight(marks, cols) && keyHeight(marks, cols) > l.room() {
		cols = 3
	}
	l = l.need(keyHeight(marks, cols))
	l.topic("What the marks mean")
	l.key(marks, cols)
}

// measureFirst is the warning that a board is seldom what it is called.
func measureFirst(d *desk) []string {
	var sizes []string
	for _, st := range d.plan.Stocks {
		if !slices.ContainsFunc(d.plan.Parts, func(p *model.Part) bool { return p.Stock == st }) {
			continue
		}
		sizes = append(sizes, st.Name+" at "+across(d.plan.Unit, st.Thick, st.Width))
	}
	out := []string{}
	if len(sizes) > 0 {
		out = append(out, "This edition counts on "+strings.Join(sizes, "; ")+". Measure every board at the yard with your own tape.")
	}
	return append(out, "If yours are thicker or thinner by more than "+tolerance(d.plan.Unit)+
		", do not cut: joints, bolt lengths and widths between parts all follow from it. Use one tape for the whole job; two tapes differ.")
}

// across writes a thickness and a width that no line parts.
func across(u expr.Unit, thick, width float64) string {
	return strings.ReplaceAll(u.Length(thick, expr.Fine)+" × "+u.Length(width, expr.Fine), " ", "\u00a0")
}

// tolerance is the common limit of the plan, trade practice.
func tolerance(u expr.Unit) string {
	if u == expr.MM {
		return "1.5 mm"
	}
	return "1⁄16″"
}

// handsAre says what right and left mean on a piece.
func handsAre(p *model.Plan) string {
	if shop.SatIn(p) {
		return "Left and right are as you sit in it."
	}
	return "Left and right are as you see them from behind it, looking to its front."
}

// unitWords says once what the numbers are.
func unitWords(u expr.Unit) string {
	if u == expr.MM {
		return "All sizes are in millimeters."
	}
	return "All sizes are in inches."
}

// refWords writes "page 3", or "the print check" when there is no such page yet.
func refWords(word string, n int) string {
	if n == 0 {
		return "the print check"
	}
	return word + digits(n)
}

func inBrackets(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// Measures of the key, mm: a mark takes one line of its name and one or more of
// what it means.
const (
	keyArt  = 20.0
	keyGap  = 6.0
	keyHigh = 6.0 // without the lines of what it means
	keyTop  = 9.0
)

// keyColumn is the width of a column of the key.
func keyColumn(cols int) float64 { return (bodyW - keyGap*float64(cols-1)) / float64(cols) }

// keyRows are the heights of the rows of the key when it stands in so many
// columns: what the longest of the marks beside each other takes.
func keyRows(all []shop.Symbol, cols int) []float64 {
	rows := make([]float64, (len(all)+cols-1)/cols)
	for i, s := range all {
		lines := len(lettering.Wrap(fractions(s.Text), keyColumn(cols)-keyArt, narrow))
		rows[i%len(rows)] = max(rows[i%len(rows)], keyHigh+float64(lines)*lettering.Pitch(narrow))
	}
	return rows
}

// keyHeight is the height of the key in so many columns.
func keyHeight(all []shop.Symbol, cols int) float64 {
	high := keyTop - 4.5 // nothing stands under the last row
	for _, h := range keyRows(all, cols) {
		high += h
	}
	return high
}

// key draws the marks with their meaning in columns.
func (l *leaf) key(all []shop.Symbol, cols int) {
	wide, rows := keyColumn(cols), keyRows(all, cols)
	y := l.y - keyTop
	for i, s := range all {
		if i%len(rows) == 0 {
			y = l.y - keyTop
		} else {
			y -= rows[i%len(rows)-1]
		}
		x := l.left() + float64(i/len(rows))*(wide+keyGap)
		l.add(l.d.sample(s.Key, geom.Pt{X: x + keyArt/2 - 1, Y: y})...)
		l.line(geom.Pt{X: x + keyArt, Y: y + 0.6}, s.Name, strong, toLeft)
		l.paraAt(geom.Pt{X: x + keyArt, Y: y - 1.4}, wide-keyArt, s.Text, narrow)
	}
	l.skip(keyHeight(all, cols))
}

// sample draws one mark of the key with its middle at c.
func (d *desk) sample(key string, c geom.Pt) []render.Item {
	if pen, ok := keyPen(key); ok {
		a, b := geom.Pt{X: c.X - 8, Y: c.Y}, geom.Pt{X: c.X + 8, Y: c.Y}
		return []render.Item{render.Stroke{Paths: []render.Path{render.Lines(a, b)}, Pen: pen}}
	}
	switch key {
	case "break":
		return breakMark(c)
	case "tab":
		return d.sampleTab(c, "")
	case "hand":
		return d.sampleTab(c, "R")
	case "datum":
		return DatumMark(geom.Pt{X: c.X - 3, Y: c.Y - 2})
	case "grain":
		return GrainArrow(c, 16)
	case "face":
		return FaceMark(c)
	case "front":
		return frontArrow(c)
	case "new":
		return newMark(c)
	case "critical":
		return CriticalMark(c, 1)
	case "gauge":
		return gaugeMark(c)
	case "wrong":
		return wrongMark(c)
	}
	return nil
}

// gaugeMark is a short bar in the tone of what is measured with.
func gaugeMark(c geom.Pt) []render.Item {
	bar := render.Rect(geom.Box{Min: c.Add(geom.Pt{X: -7, Y: -1.2}), Max: c.Add(geom.Pt{X: 7, Y: 1.2})})
	return []render.Item{
		render.Fill{Paths: []render.Path{bar}, Tone: render.Gray(0.6)},
		render.Stroke{Paths: []render.Path{bar}, Pen: render.Thin},
	}
}

// wrongMark is a small board under a cross.
func wrongMark(c geom.Pt) []render.Item {
	board := render.Rect(geom.Box{Min: c.Add(geom.Pt{X: -5, Y: -2}), Max: c.Add(geom.Pt{X: 5, Y: 2})})
	cross := []render.Path{
		render.Lines(c.Add(geom.Pt{X: -4, Y: -2.6}), c.Add(geom.Pt{X: 4, Y: 2.6})),
		render.Lines(c.Add(geom.Pt{X: -4, Y: 2.6}), c.Add(geom.Pt{X: 4, Y: -2.6})),
	}
	return []render.Item{render.Stroke{Paths: []render.Path{board}, Pen: render.Thin}, render.Stroke{Paths: cross, Pen: render.Heavy}}
}

// keyPen returns the pen of a line type.
func keyPen(key string) (render.Pen, bool) {
	switch key {
	case "outline":
		return render.Outline, true
	case "hidden":
		return render.Hidden, true
	case "center":
		return render.Center, true
	case "cut":
		return render.CutLine, true
	case "ghost":
		return render.Ghost, true
	}
	return render.Pen{}, false
}
