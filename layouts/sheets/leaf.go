package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// The paper and the field, mm. The field fits both papers with margins of
// 10 mm and more, so that both editions break at the same places.
const (
	fieldW = 190.0
	fieldH = 254.0
	// edgeW is the strip at the right of the field for the index mark, and
	// bodyW what it leaves for everything else.
	edgeW = 6.0
	bodyW = fieldW - edgeW
	// headH and footH are what the head and the foot take of the field.
	headH = 21.5
	footH = 11.0
)

// paperSize returns the size of a paper; anything but a4 is letter.
func paperSize(paper string) geom.Size {
	if paper == "a4" {
		return geom.Size{W: 210, H: 297}
	}
	return geom.Size{W: 8.5 * 25.4, H: 11 * 25.4}
}

// scalesMarked stands in the foot of pages whose views each give their scale.
const scalesMarked = "Scales as marked"

// A leaf is a page being made. Its body is the box below the head and above
// the foot; y is the top of what is still free in it.
type leaf struct {
	d       *desk
	sheet   sheet
	index   int // from 0
	title   string
	purpose string
	state   string       // "not to scale" or "full size", in the foot
	bare    bool         // no head, no index mark: the cover and templates
	ready   *render.Page // finished elsewhere: a full-size sheet
	size    geom.Size
	field   geom.Box
	body    geom.Box
	y       float64
	items   []render.Item
}

func newLeaf(d *desk, s sheet, title, purpose string) *leaf {
	l := &leaf{d: d, sheet: s, index: len(d.leaves), title: title, purpose: purpose, state: "Not to scale"}
	l.size = paperSize(d.in.Paper)
	corner := geom.Pt{X: (l.size.W - fieldW) / 2, Y: (l.size.H - fieldH) / 2}
	l.field = geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: fieldW, Y: fieldH})}
	l.body = geom.Box{
		Min: corner.Add(geom.Pt{Y: footH}),
		Max: corner.Add(geom.Pt{X: bodyW, Y: fieldH - headH}),
	}
	l.y = l.body.Max.Y
	d.now[sectionRef(s.section, l.index)] = l.index + 1
	return l
}

// The styles of a plan set, few on purpose.
var (
	plain   = lettering.Style{Face: fonts.Sans, Size: render.Body, Lead: 1.32}
	strong  = lettering.Style{Face: fonts.SansBold, Size: render.Body, Lead: 1.32}
	soft    = lettering.Style{Face: fonts.Sans, Size: render.Body, Lead: 1.32, Tone: render.Dark}
	narrow  = lettering.Style{Face: fonts.Cond, Size: render.Body, Lead: 1.3}
	caption = lettering.Style{Face: fonts.CondBold, Size: render.Measure, Lead: 1.25}
	small   = lettering.Style{Face: fonts.Cond, Size: render.Small, Lead: 1.3}
	footing = lettering.Style{Face: fonts.Cond, Size: render.Small, Tone: render.Dark}
	titling = lettering.Style{Face: fonts.CondBold, Size: render.Head}
)

// Widths of the text grid, mm: headings hang in a column of their own at the
// left, texts stand in one of at most 75 letters.
const (
	headingW = 44.0
	textX    = 50.0
	textW    = 124.0
)

// add puts finished items on the page.
func (l *leaf) add(items ...render.Item) { l.items = append(l.items, items...) }

// room returns how much height is free, in mm.
func (l *leaf) room() float64 { return l.y - l.body.Min.Y }

// left is the x of the body's left edge.
func (l *leaf) left() float64 { return l.body.Min.X }

// skip leaves h mm free.
func (l *leaf) skip(h float64) { l.y -= h }

// line sets one line of text.
func (l *leaf) line(at geom.Pt, s string, st lettering.Style, align render.Align) {
	l.add(lettering.Line(at, s, st, align)...)
}

// para sets a paragraph x mm from the left, width wide, at the top of what is
// free, and moves down past it.
func (l *leaf) para(x, width float64, s string, st lettering.Style) {
	l.y -= l.paraAt(geom.Pt{X: l.left() + x, Y: l.y}, width, s, st)
}

// longestLine is how many letters a line of running text may have: common
// practice, for the eye to find the next line.
const longestLine = 75

// paraAt sets a paragraph somewhere and returns its height. It is set narrower
// than width when a line would get too long to read.
func (l *leaf) paraAt(top geom.Pt, width float64, s string, st lettering.Style) float64 {
	s = fractions(s)
	for tooLong(lettering.Wrap(s, width, st)) {
		width -= 2
	}
	items, h := lettering.Paragraph(top, s, width, st)
	l.add(items...)
	return h
}

func tooLong(lines []string) bool {
	return slices.ContainsFunc(lines, func(s string) bool { return utf8.RuneCountInString(s) > longestLine })
}

// rule draws a level hairline.
func (l *leaf) rule(x0, x1, y float64, pen render.Pen) {
	l.add(render.Stroke{Paths: []render.Path{render.Lines(geom.Pt{X: x0, Y: y}, geom.Pt{X: x1, Y: y})}, Pen: pen})
}

// link makes a box lead to a page, counted from 1; 0 is no link.
func (l *leaf) link(box geom.Box, page int) {
	if page > 0 {
		l.add(render.Link{Box: box, Page: page - 1})
	}
}

// topic hangs a heading at the left, with a hairline over it, and leaves the
// cursor where the text beside it begins.
func (l *leaf) topic(name string) {
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(3)
	l.paraAt(geom.Pt{X: l.left(), Y: l.y}, headingW, name, caption)
}

// points sets numbered or dotted paragraphs in the text column. A mark of "#"
// counts, any other stands before every one.
func (l *leaf) points(mark string, texts []string) {
	for i, s := range texts {
		m := mark
		if mark == "#" {
			m = strconv.Itoa(i + 1)
		}
		l.line(geom.Pt{X: l.left() + textX, Y: l.y - lettering.Cap(plain)}, m, strong, render.Left)
		l.para(textX+6, textW-6, s, plain)
		l.skip(1.6)
	}
}

// page returns the finished page with its head and foot.
func (l *leaf) page() render.Page {
	if l.ready != nil {
		return *l.ready
	}
	var items []render.Item
	if !l.bare {
		items = append(items, render.Group{Name: "head", Items: l.head()})
		items = append(items, render.Group{Name: "edge", Items: l.edge()})
	}
	items = append(items, l.items...)
	items = append(items, render.Group{Name: "foot", Items: l.foot()})
	return render.Page{Name: strconv.Itoa(l.index + 1), Title: l.title, Size: l.size, Items: items}
}

// head is the sheet's title and its one line of purpose.
func (l *leaf) head() []render.Item {
	x, y := l.field.Min.X, l.field.Max.Y-lettering.Cap(titling)-1.2 // letters rise over capitals
	items := lettering.Line(geom.Pt{X: x, Y: y}, l.title, titling, render.Left)
	return append(items, lettering.Line(geom.Pt{X: x, Y: y - 6.4}, l.purpose, soft, render.Left)...)
}

// edge is the index mark of the section, so that a printed set can be opened at
// the right place.
func (l *leaf) edge() []render.Item {
	const wide, high, step = 2.0, 14.0, 17.0
	top := l.field.Max.Y - float64(l.sheet.section)*step
	box := geom.Box{
		Min: geom.Pt{X: l.field.Max.X - wide, Y: top - high},
		Max: geom.Pt{X: l.field.Max.X, Y: top},
	}
	return []render.Item{render.Fill{Paths: []render.Path{render.Rect(box)}, Tone: l.d.accent}}
}

// foot is one hairline, the edition at the left, the state in the middle and
// the page at the right; whose copy it is stands in a second line.
func (l *leaf) foot() []render.Item {
	p := l.d.plan
	x0, x1, y := l.field.Min.X, l.field.Max.X, l.field.Min.Y+7
	items := []render.Item{render.Stroke{
		Paths: []render.Path{render.Lines(geom.Pt{X: x0, Y: y}, geom.Pt{X: x1, Y: y})}, Pen: render.Rule,
	}}
	base := y - 1.4 - lettering.Cap(footing)
	name := []string{p.Title, l.d.edition(), paperName(l.d.in.Paper)}
	if p.Revision != "" {
		name = append(name, "rev "+p.Revision)
	}
	if p.Date != "" {
		name = append(name, p.Date)
	}
	count := fmt.Sprintf("page %d of %d", l.index+1, max(l.d.total, l.index+1))
	items = append(items, lettering.Line(geom.Pt{X: x0, Y: base}, strings.Join(name, "  ·  "), footing, render.Left)...)
	items = append(items, lettering.Line(geom.Pt{X: x1 - 26, Y: base}, l.state, footing, render.Right)...)
	items = append(items, lettering.Line(geom.Pt{X: x1, Y: base}, count, footing, render.Right)...)
	if l.d.in.Licensee != "" {
		items = append(items, lettering.Line(geom.Pt{X: x0, Y: base - 3.2}, "This copy belongs to "+l.d.in.Licensee, footing, render.Left)...)
	}
	return items
}

func paperName(paper string) string {
	if paper == "a4" {
		return "A4"
	}
	return "Letter"
}
