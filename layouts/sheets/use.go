package sheets

import (
	"strings"

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
	l.skip(4)
	l.topic("Measure first")
	for _, t := range measureFirst(d) {
		l.para(textX, textW, t, plain)
		l.skip(2)
	}
	l.skip(2)
	l.topic("Where to measure from")
	l.para(textX, textW, "Every part has one squared end and one straight edge from which all its sizes run; a pair of small black triangles marks them. "+
		"Hook the tape there and read every mark off in one go. Length runs with the grain; sizes read thickness × width × length. "+
		"Left and right are as you sit in it. "+unitWords(d.plan.Unit), plain)
	l.skip(2)
	notes := d.plan.Notes
	if len(notes) == 0 {
		notes = []string{"Work to " + tolerance(d.plan.Unit) + " unless a size is marked. Two parts that face each other must match each other before they match the tape."}
	}
	for _, n := range notes {
		l.para(textX, textW, n, plain)
		l.skip(1.4)
	}
	l.skip(4)
	marks := shop.Symbols(d.plan)
	l = l.need(float64((len(marks)+1)/2)*keyHigh + 9)
	l.topic("What the marks mean")
	l.key(marks)
}

// measureFirst is the warning that a board is seldom what it is called.
func measureFirst(d *desk) []string {
	var sizes []string
	for _, st := range d.plan.Stocks {
		sizes = append(sizes, st.Name+" at "+across(d.plan.Unit, st.Thick, st.Width))
	}
	out := []string{}
	if len(sizes) > 0 {
		out = append(out, "This edition counts on "+strings.Join(sizes, "; ")+". Measure ten boards at the yard with your own tape.")
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

// keyHigh is the height of one mark of the key.
const keyHigh = 11.6

// key draws the marks with their meaning in two columns.
func (l *leaf) key(all []shop.Symbol) {
	const colW, art = 88.0, 22.0
	top := l.y - 10
	half := (len(all) + 1) / 2
	for i, s := range all {
		x := l.left() + float64(i/half)*(colW+8)
		y := top - float64(i%half)*keyHigh
		l.add(l.d.sample(s.Key, geom.Pt{X: x + art/2 - 2, Y: y})...)
		l.line(geom.Pt{X: x + art, Y: y + 0.6}, s.Name, strong, toLeft)
		l.paraAt(geom.Pt{X: x + art, Y: y - 1.4}, colW-art, s.Text, narrow)
	}
	l.skip(float64(half)*keyHigh + 8)
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
	}
	return nil
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
