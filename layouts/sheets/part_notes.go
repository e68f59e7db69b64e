package sheets

import (
	"slices"
	"strconv"
	"strings"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
)

// noteW is how wide each of two columns of notes is, and noteGap what parts them.
const (
	noteGap = 10.0
	noteW   = (bodyW - noteGap) / 2
)

// notes are the sentences under a drawing: at the left what is worth knowing, at
// the right what hangs on the marks. Beside an end view there is one column.
func (b *partPage) notes() {
	know, marks := b.knowing(), b.consequences()
	left := &noteColumn{b: b, x: 0, y: b.y, width: noteW}
	right := &noteColumn{b: b, x: noteW + noteGap, y: b.y, width: noteW}
	switch {
	case b.side != nil:
		left = &noteColumn{b: b, x: b.side.x, y: b.side.top - 3, width: b.side.width}
		right = left
	case len(know) == 0 || len(marks) == 0:
		left.width = lineW
		right = left
	}
	for _, s := range know {
		left.put(s)
	}
	for _, m := range marks {
		right.mark(m)
	}
	b.y = min(b.y, left.y, right.y) - 2
}

// lineW is a line of about as many letters as are read with ease.
const lineW = 124.0

// knowing are the notes of a part that hang on no mark, each a paragraph.
func (b *partPage) knowing() []said {
	p := b.p
	var texts []string
	if p.Hand == model.Pair {
		texts = append(texts, "Left is the mirror of this right one: lay the two face to face to check.")
	}
	if p.TrimLater != "" {
		texts = append(texts, "Cut all alike at the rough length; trim the "+p.TrimLater+" last.")
	}
	if s := b.curveWords(); s != "" {
		texts = append(texts, s)
	}
	if p.Note != "" {
		texts = append(texts, sentence(p.Note))
	}
	var out []said
	if len(texts) > 0 {
		out = append(out, said{strings.Join(texts, " "), plain})
	}
	if s := b.checks(); s != "" {
		out = append(out, said{s, soft})
	}
	return out
}

// A said is a paragraph with its style.
type said struct {
	text  string
	style lettering.Style
}

// A noteColumn is a column of notes being set; y runs down.
type noteColumn struct {
	b           *partPage
	x, y, width float64
}

// put sets a paragraph.
func (c *noteColumn) put(s said) {
	items, h := lettering.Paragraph(pt(c.x, c.y), s.text, evened(s.text, c.width, s.style), s.style)
	c.b.add(items...)
	c.y -= h + 1
}

// mark sets the line of a critical mark behind the diamonds with its numbers,
// which are those on the sizes themselves.
func (c *noteColumn) mark(m consequence) {
	const step = 6.2
	x := c.x
	for _, n := range m.numbers {
		c.b.add(dims.Key(pt(x+dims.KeyReach, c.y-lettering.Cap(strong)/2), n)...)
		x += step
	}
	width := c.width - (x - c.x)
	items, h := lettering.Paragraph(pt(x+0.4, c.y), m.text, evened(m.text, width, strong), strong)
	c.b.add(items...)
	c.y -= max(h+1.4, 2*dims.KeyReach+0.8) // a diamond is higher than one line
}

// evened is a width at which a paragraph has no more lines than at the given one
// and no last line that is a word or two: those are read twice or not at all.
func evened(s string, width float64, st lettering.Style) float64 {
	lines := lettering.Wrap(s, width, st)
	n := len(lines)
	for w := width; n > 1 && lettering.Width(lines[n-1], st) < 0.35*width; {
		w -= 1.5
		if lines = lettering.Wrap(s, w, st); len(lines) != n {
			break
		}
		width = w
	}
	return width
}

// A consequence is what hangs on one mark of a part, or on several alike.
type consequence struct {
	numbers []int
	what    string // "upper and lower bolt hole, across"
	effect  string // "each 1⁄16″ off changes the recline by 1.1°."
	text    string // both, as they are printed
}

// consequences tell what hangs on the marks of this part. Marks with the same
// consequence share a line.
func (b *partPage) consequences() []consequence {
	var out []consequence
	for _, m := range b.marks() {
		i := slices.IndexFunc(out, func(c consequence) bool { return c.effect == m.effect && m.what != "" })
		if i < 0 {
			out = append(out, m)
			continue
		}
		out[i].numbers = append(out[i].numbers, m.numbers...)
		out[i].what = both(out[i].what, m.what)
	}
	for i, c := range out {
		out[i].text = c.effect
		if c.what != "" {
			out[i].text = upper(c.what) + ": " + c.effect
		}
	}
	return out
}

// marks are the critical marks of this part one by one.
func (b *partPage) marks() []consequence {
	var out []consequence
	for _, s := range b.p.Critical {
		number, rest, _ := strings.Cut(s, ": ")
		what, effect, ok := strings.Cut(rest, ": ")
		if !ok {
			what, effect = "", rest
		}
		if n, err := strconv.Atoi(number); err == nil {
			out = append(out, consequence{numbers: []int{n}, what: what, effect: effect})
		} else {
			out = append(out, consequence{effect: s})
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, h := range b.p.Holes {
		if h.Critical == 0 || h.Critical > len(b.d.plan.Critical) || h.Matched {
			continue
		}
		c := b.d.plan.Critical[h.Critical-1]
		told := slices.ContainsFunc(out, func(m consequence) bool { return m.numbers[0] == h.Critical })
		if c.Note != "" && !told {
			out = append(out, consequence{numbers: []int{h.Critical}, effect: upper(c.Note) + " hangs on these marks."})
		}
	}
	return out
}

// key is the number of the critical mark that goes by what, 0 for none.
func (b *partPage) key(what string) int {
	for _, m := range b.marks() {
		if m.what == what {
			return m.numbers[0]
		}
	}
	return 0
}

// sawnKey is the number of the critical mark that goes by the first of some names
// that any does.
func (b *partPage) sawnKey(names ...string) int {
	for _, what := range names {
		if n := b.key(what); n > 0 {
			return n
		}
	}
	return 0
}

// holeKey is the number of the critical mark of a hole in one direction, "along"
// or "across". A mark that no direction is told of counts in both.
func (b *partPage) holeKey(h model.Hole, way string) int {
	if h.Critical == 0 {
		return 0
	}
	name := model.Spoken(h.Name) + " bolt hole, "
	if n := b.key(name + way); n > 0 {
		return n
	}
	if b.key(name+"along")+b.key(name+"across") > 0 {
		return 0
	}
	return h.Critical
}

// both says two things of one kind in one: "upper bolt hole, across" and "lower
// bolt hole, across" are the "upper and lower bolt hole, across", "foot cut" and
// "foot cut, its angle" the "foot cut and its angle".
func both(a, b string) string {
	split := func(s string) []string { return strings.Fields(strings.ReplaceAll(s, ",", " ,")) }
	x, y := split(a), split(b)
	from := 0
	for from < min(len(x), len(y)) && x[from] == y[from] {
		from++
	}
	end := 0
	for end < min(len(x), len(y))-from && x[len(x)-1-end] == y[len(y)-1-end] {
		end++
	}
	second := y[from : len(y)-end]
	if len(second) > 0 && second[0] == "," {
		second = second[1:]
	}
	tail := slices.Clone(x[len(x)-end:])
	if i := slices.Index(tail, "its"); i >= 0 {
		tail[i] = "their"
	}
	words := slices.Concat(x[:len(x)-end], []string{"and"}, second, tail)
	return strings.ReplaceAll(strings.Join(words, " "), " ,", ",")
}

// checks are the places of bolt holes that are drilled through another part,
// for proving only.
func (b *partPage) checks() string {
	u := b.unit()
	var out []string
	for _, h := range b.p.Holes {
		if h.Matched && h.Kind == model.BoltHole {
			out = append(out, u.Length(h.Along, expr.Coarse)+" along, "+u.Length(h.Across, expr.Coarse)+" across")
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "[For checking only, after drilling: " + strings.Join(out, "; ") + "]"
}
