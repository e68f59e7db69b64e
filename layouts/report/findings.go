package report

import (
	"fmt"
	"math"
	"strings"

	"planset/layouts/lettering"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/geom"
)

// summary says in numbers what there is to see.
func (r *book) summary(l *leaf, s Section) *leaf {
	count := map[check.Severity]int{}
	waived := 0
	for _, f := range s.Findings {
		if f.Waived {
			waived++
		} else {
			count[f.Severity]++
		}
	}
	var words []string
	for _, sev := range []check.Severity{check.Error, check.Warning, check.Note} {
		if n := count[sev]; n > 0 {
			words = append(words, plural(n, string(sev)))
		}
	}
	text := strings.Join(words, ", ")
	switch {
	case text == "" && waived == 0:
		text = "Nothing was found"
	case text == "":
		text = "Nothing is open"
	}
	if waived > 0 {
		text += fmt.Sprintf(", %d waived", waived)
	}
	text += "."
	if count[check.Error] > 0 {
		text += " Errors stop publication until they are mended or waived with a reason."
	}
	l.para(0, l.width(), text, strong)
	l.y -= 2
	l.para(0, l.width(), "Findings stand in the order of what they cost the buyer: unsafe, a wasted board, work done twice, ugly. "+
		"The parts a finding is about are toned in its picture.", plain)
	l.y -= 4
	return l
}

// The columns of a finding, mm.
const (
	pictureW = 56.0
	pictureH = 42.0
	gutter   = 5.0
	factsW   = 42.0
)

// findings sets them all, open ones first.
func (r *book) findings(l *leaf, s Section) *leaf {
	pictures := newAlbum(s.Plan)
	for _, waived := range []bool{false, true} {
		for i, f := range s.Findings {
			if f.Waived == waived {
				l = l.finding(i+1, f, pictures)
			}
		}
	}
	return l
}

// finding sets one: its picture, what it says and what would help, and the
// numbers with the waiver beside them.
func (l *leaf) finding(n int, f check.Finding, pictures *album) *leaf {
	if l.room() < pictureH+4 {
		l = l.next()
	}
	l.rule()
	l.y -= 2.5
	top := l.y
	box := geom.Box{Min: geom.Pt{X: side, Y: top - pictureH}, Max: geom.Pt{X: side + pictureW, Y: top}}
	l.add(pictures.picture(f.Parts, box, l.accent())...)
	x := side + pictureW + gutter
	w := l.width() - pictureW - 2*gutter - factsW
	head := fmt.Sprintf("%d  %s", n, strings.ToUpper(string(f.Severity)))
	if f.Waived {
		head += ", waived"
	}
	y := top - l.paraAt(geom.Pt{X: x, Y: top}, w, head, label) - 1.2
	y -= l.paraAt(geom.Pt{X: x, Y: y}, w, sentence(f.Text), plain) + 1.5
	if f.Fix != "" {
		y -= l.paraAt(geom.Pt{X: x, Y: y}, w, sentence(f.Fix), strong) + 1.5
	}
	if f.Waived {
		y -= l.paraAt(geom.Pt{X: x, Y: y}, w, sentence("It stands because: "+f.Reason), soft) + 1.5
	}
	fx := l.size.W - side - factsW
	fy := l.facts(geom.Pt{X: fx, Y: top}, f)
	l.y = min(top-pictureH, y, fy) - 3
	return l
}

// facts sets the numbers of a finding and the lines that waive it, and returns
// how far down they go.
func (l *leaf) facts(top geom.Pt, f check.Finding) float64 {
	y := top.Y
	put := func(s string, st lettering.Style) { y -= l.paraAt(geom.Pt{X: top.X, Y: y}, factsW, s, st) + 0.8 }
	if f.Value != 0 || f.Limit != 0 {
		put("measured "+l.number(f.Value, f.Unit), small)
		put("limit "+l.number(f.Limit, f.Unit), small)
	}
	if len(f.Parts) > 0 {
		put("parts "+strings.Join(f.Parts, ", "), small)
	}
	if f.Waived {
		return y
	}
	y -= 1.2
	put("[[waive]]", label)
	put(fmt.Sprintf("rule = %q", f.Rule), small)
	if len(f.Parts) > 0 {
		put(`parts = ["`+strings.Join(f.Parts, `", "`)+`"]`, small)
	}
	if f.Value != 0 {
		put(fmt.Sprintf("value = %.4g", f.Value), small)
	}
	put(`reason = "..."`, small)
	return y
}

// number is a value in its unit for the reader.
func (l *leaf) number(v float64, unit string) string {
	u := l.s.Plan.Unit
	switch {
	case math.IsInf(v, 0):
		return "none"
	case unit == "mm":
		return u.LongTo(v, expr.Drill)
	case unit == "deg":
		return fmt.Sprintf("%.2f°", v)
	case unit == "mm2" && u == expr.Inch:
		return fmt.Sprintf("%.2f in²", v/(25.4*25.4))
	case unit == "mm2":
		return fmt.Sprintf("%.0f mm²", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// sentence gives a text its capital and its stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	out := strings.ToUpper(s[:1]) + s[1:]
	if !strings.HasSuffix(out, ".") {
		out += "."
	}
	return out
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
