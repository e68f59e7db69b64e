package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/geom"
)

// summary says in numbers what there is to see.
func (r *book) summary(l *leaf, g sizes) *leaf {
	stops := false
	text := g.alike(g.per(func(s Section) string {
		for _, f := range s.Findings {
			stops = stops || f.Severity == check.Error && !f.Waived
		}
		return counted(s.Findings)
	})) + "."
	if stops {
		text += " Errors stop publication until they are mended or waived with a reason."
	}
	l.para(0, l.width(), sentence(text), strong)
	l.y -= 2
	l.para(0, l.width(), "Findings stand in the order of what they cost the buyer: unsafe, a wasted board, work done twice, ugly. "+
		"The parts a finding is about are toned in its picture.", plain)
	l.y -= 4
	return l
}

// counted says how many findings there are of each severity.
func counted(list []check.Finding) string {
	count, waived := map[check.Severity]int{}, 0
	for _, f := range list {
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
		return "nothing was found"
	case text == "":
		text = "nothing is open"
	}
	if waived > 0 {
		text += fmt.Sprintf(", %d waived", waived)
	}
	return text
}

// told is one finding in the sizes that have it; nil in the others.
type told []*check.Finding

// first is the finding of the first size that has it, and that size.
func (t told) first() (*check.Finding, int) {
	i := slices.IndexFunc(t, func(f *check.Finding) bool { return f != nil })
	return t[i], i
}

// gather puts the findings of all sizes in one list: the same rule about the
// same parts is one finding. Those of one size keep their order.
func gather(g sizes) []told {
	var out []told
	for i := range g {
		at := 0 // behind the last one of this size
		for k := range g[i].Findings {
			f := &g[i].Findings[k]
			n := slices.IndexFunc(out, func(t told) bool {
				has, _ := t.first()
				return t[i] == nil && has.Rule == f.Rule && has.Severity == f.Severity && has.Waived == f.Waived && slices.Equal(has.Parts, f.Parts)
			})
			if n < 0 {
				n = min(at, len(out))
				out = slices.Insert(out, n, make(told, len(g)))
			}
			out[n][i] = f
			at = max(at, n+1)
		}
	}
	return out
}

// The columns of a finding, mm.
const (
	pictureW = 46.0
	pictureH = 34.5
	gutter   = 5.0
	factsW   = 44.0
)

// findings sets them all, open ones first.
func (r *book) findings(l *leaf, g sizes) *leaf {
	list := gather(g)
	albums := make([]*album, len(g))
	for _, waived := range []bool{false, true} {
		for i, t := range list {
			f, size := t.first()
			if f.Waived != waived {
				continue
			}
			if albums[size] == nil {
				albums[size] = newAlbum(g[size].Plan)
			}
			l = l.finding(i+1, t, albums[size])
		}
	}
	return l
}

// finding sets one: its picture, what it says and what would help, and the lines
// that waive it beside them.
func (l *leaf) finding(n int, t told, pictures *album) *leaf {
	f, _ := t.first()
	words := column{x: side + pictureW + gutter, w: l.width() - pictureW - 2*gutter - factsW}
	facts := column{x: l.size.W - side - factsW, w: factsW}
	high := math.Max(pictureH, math.Max(l.says(words, n, t), waiver(facts, t)))
	if l.room() < high+4 {
		l = l.next()
	}
	l.rule()
	l.y -= 2.5
	box := geom.Box{Min: geom.Pt{X: side, Y: l.y - pictureH}, Max: geom.Pt{X: side + pictureW, Y: l.y}}
	l.add(pictures.picture(f.Parts, box, l.accent())...)
	words.on, words.y, facts.on, facts.y = l, l.y, l, l.y
	l.says(words, n, t)
	waiver(facts, t)
	l.y -= high + 3
	return l
}

// column is a stretch of a page that paragraphs are set down; on no page it only
// measures.
type column struct {
	on      *leaf
	x, y, w float64
}

// put sets a paragraph and leaves some space behind it.
func (c *column) put(s string, st lettering.Style, after float64) {
	items, h := lettering.Paragraph(geom.Pt{X: c.x, Y: c.y}, s, c.w, st)
	if c.on != nil {
		c.on.add(items...)
	}
	c.y -= h + after
}

// says sets the words of a finding and returns how high they are.
func (l *leaf) says(c column, n int, t told) float64 {
	top := c.y
	f, _ := t.first()
	head := fmt.Sprintf("%d  %s", n, strings.ToUpper(string(f.Severity)))
	if f.Waived {
		head += ", waived"
	}
	if slices.Contains(t, nil) {
		head += ", only in the " + l.g.titlesOf(t)
	}
	c.put(head, label, 1.2)
	c.put(sentence(f.Text), plain, 1)
	if f.Fix != "" {
		c.put(sentence(f.Fix), strong, 1)
	}
	if f.Waived {
		c.put(sentence("It stands because: "+f.Reason), soft, 1)
	}
	if line := l.measured(t); line != "" {
		c.put(line, small, 0)
	}
	return top - c.y
}

// titlesOf are the sizes that have a finding.
func (g sizes) titlesOf(t told) string {
	i := -1
	return g.titles(func(Section) bool { i++; return t[i] != nil })
}

// measured is what was measured in each size, and the limit.
func (l *leaf) measured(t told) string {
	f, _ := t.first()
	if f.Value == 0 && f.Limit == 0 {
		return ""
	}
	var list []string
	same := true
	for i := range l.g {
		if t[i] != nil {
			list = append(list, l.number(t[i].Value, t[i].Unit))
			same = same && list[len(list)-1] == list[0]
		}
	}
	if same {
		list = list[:1]
	}
	for i, k := 0, 0; !same && i < len(l.g); i++ {
		if t[i] != nil {
			list[k] = titleOf(l.g[i].Plan) + " " + list[k]
			k++
		}
	}
	return "measured " + strings.Join(list, ", ") + " · limit " + l.number(f.Limit, f.Unit)
}

// waiver sets the lines that waive a finding, the rule alone when it is waived,
// and returns how high they are.
func waiver(c column, t told) float64 {
	const apart = 0.5
	top := c.y
	f, _ := t.first()
	if f.Waived {
		c.put("["+f.Rule+"]", small, apart)
		return top - c.y
	}
	c.put("[[waive]]", label, apart)
	c.put(fmt.Sprintf("rule = %q", f.Rule), small, apart)
	if len(f.Parts) > 0 {
		c.put(`parts = ["`+strings.Join(f.Parts, `", "`)+`"]`, small, apart)
	}
	if v := worst(t); v != 0 {
		c.put(fmt.Sprintf("value = %.4g", v), small, apart)
	}
	c.put(`reason = "..."`, small, apart)
	return top - c.y
}

// worst is the value farthest from its limit.
func worst(t told) float64 {
	v, off := 0.0, -1.0
	for _, f := range t {
		if f != nil && math.Abs(f.Value-f.Limit) > off {
			v, off = f.Value, math.Abs(f.Value-f.Limit)
		}
	}
	return v
}

// number is a value in its unit for the reader.
func (l *leaf) number(v float64, unit string) string {
	u := l.g.plan().Unit
	switch {
	case math.IsInf(v, 0):
		return "none"
	case unit == "mm" && v != 0 && u.Round(v, expr.Drill) == 0 && u == expr.Inch:
		return fmt.Sprintf("%.3f″", v/25.4)
	case unit == "mm" && v != 0 && u.Round(v, expr.Drill) == 0:
		return fmt.Sprintf("%.2f mm", v)
	case unit == "mm":
		return u.LongTo(v, expr.Drill)
	case unit == "deg":
		return fmt.Sprintf("%.2f°", v)
	case unit == "mm2" && u == expr.Inch:
		return fmt.Sprintf("%.2f in²", v/(25.4*25.4))
	case unit == "mm2":
		return fmt.Sprintf("%.0f mm²", v)
	case unit == "%":
		return fmt.Sprintf("%.0f %%", v)
	case unit == "kg":
		return fmt.Sprintf("%.0f kg", v)
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
