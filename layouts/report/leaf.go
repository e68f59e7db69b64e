package report

import (
	"fmt"
	"strconv"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// The page, mm.
const (
	side  = 15.0
	above = 15.0
	below = 20.0
)

// The styles of the report.
var (
	titling = lettering.Style{Face: fonts.CondBold, Size: render.Head}
	heading = lettering.Style{Face: fonts.CondBold, Size: 14}
	plain   = lettering.Style{Face: fonts.Sans, Size: 9.4, Lead: 1.32}
	strong  = lettering.Style{Face: fonts.SansBold, Size: 9.4, Lead: 1.32}
	soft    = lettering.Style{Face: fonts.Sans, Size: 9.4, Lead: 1.32, Tone: render.Dark}
	small   = lettering.Style{Face: fonts.Cond, Size: 8.6, Lead: 1.28}
	label   = lettering.Style{Face: fonts.CondBold, Size: 8.6}
)

// A leaf is a page being made; y is the top of what is free.
type leaf struct {
	r     *book
	g     sizes
	size  geom.Size
	title string
	index int
	top   float64
	y     float64
	items []render.Item
}

// leaf starts a page; one with a purpose has a large head.
func (r *book) leaf(g sizes, title, purpose string) *leaf {
	l := &leaf{r: r, g: g, title: title, index: len(r.leaves), size: geom.Size{W: 215.9, H: 279.4}}
	if g.plan().Unit == expr.MM {
		l.size = geom.Size{W: 210, H: 297}
	}
	l.top = l.size.H - above
	l.y = l.top
	r.leaves = append(r.leaves, l)
	l.para(0, l.width(), title, titling)
	l.y -= 1.5
	l.para(0, l.width(), purpose, soft)
	l.y -= 5
	return l
}

// next starts another page of the same matter.
func (l *leaf) next() *leaf {
	return l.r.leaf(l.g, strings.TrimSuffix(l.title, ", continued")+", continued", l.g.name()+".")
}

func (l *leaf) width() float64 { return l.size.W - 2*side }
func (l *leaf) room() float64  { return l.y - below }

func (l *leaf) add(items ...render.Item) { l.items = append(l.items, items...) }

// para sets a paragraph x mm from the left margin and moves down past it.
func (l *leaf) para(x, width float64, s string, st lettering.Style) {
	l.y -= l.paraAt(geom.Pt{X: side + x, Y: l.y}, width, s, st)
}

func (l *leaf) paraAt(top geom.Pt, width float64, s string, st lettering.Style) float64 {
	items, h := lettering.Paragraph(top, s, width, st)
	l.add(items...)
	return h
}

// rule draws a hairline over the width.
func (l *leaf) rule() {
	l.add(render.Stroke{Paths: []render.Path{render.Lines(geom.Pt{X: side, Y: l.y}, geom.Pt{X: l.size.W - side, Y: l.y})}, Pen: render.Rule})
}

// head sets a heading, on a new page when less than h mm would follow it.
func (l *leaf) head(s string, h float64) *leaf {
	if l.room() < h+12 {
		l = l.next()
	}
	if l.y < l.top-24 {
		l.y -= 2
	}
	l.para(0, l.width(), s, heading)
	l.y -= 2
	return l
}

// table sets a table over as many pages as it takes.
func (l *leaf) table(t *tables.Table) *leaf {
	t.Accent = l.accent()
	laid, _ := tables.Lay(t, l.width())
	for from := 0; from < laid.Rows(); {
		to := laid.Balance(from, laid.Fit(from, l.room()))
		if to == from && l.y < l.top-40 {
			l = l.next()
			continue
		}
		if to == from {
			to = laid.Force(from, l.room())
		}
		items, h := laid.Draw(geom.Pt{X: side, Y: l.y}, from, to)
		l.add(items...)
		l.y -= h + 4
		if from = to; from < laid.Rows() {
			l = l.next()
		}
	}
	return l
}

func (l *leaf) accent() render.Tone {
	a := l.g.plan().Brand.Accent
	return render.Tone{R: a[0], G: a[1], B: a[2]}
}

// page is the finished page with its foot.
func (l *leaf) page() render.Page {
	y := below - 6.0
	p := l.g.plan()
	foot := []render.Item{render.Stroke{Paths: []render.Path{render.Lines(geom.Pt{X: side, Y: y}, geom.Pt{X: l.size.W - side, Y: y})}, Pen: render.Rule}}
	words := []string{p.Title, l.g.name()}
	if p.Revision != "" {
		words = append(words, "rev "+p.Revision)
	}
	words = append(words, "for the author only; no rating, no claim of agreement with a standard")
	foot = append(foot, lettering.Line(geom.Pt{X: side, Y: y - 4}, strings.Join(words, "  ·  "), small, render.Left)...)
	count := fmt.Sprintf("page %d of %d", l.index+1, max(l.r.total, l.index+1))
	foot = append(foot, lettering.Line(geom.Pt{X: l.size.W - side, Y: y - 4}, count, small, render.Right)...)
	return render.Page{Name: strconv.Itoa(l.index + 1), Title: l.title, Size: l.size,
		Items: append([]render.Item{render.Group{Name: "foot", Items: foot}}, l.items...)}
}
