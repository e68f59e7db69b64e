package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/render"
)

// Measures of the cover, mm.
const (
	coverCol = 58.0
	heroX    = 56.0 // of the picture's left edge; the words stand beside it
	coverGap = 8.0
)

var coverTitle = lettering.Style{Face: fonts.CondBold, Size: render.Cover, Lead: 1.02}

// cover is the first page: what it is, how large, what is in the set, and which
// pages to print at full size.
func cover(d *desk, s sheet) {
	l := d.leaf(s, d.plan.Title, "")
	l.bare = true
	p := d.plan
	x, y := l.field.Min.X, l.field.Max.Y
	bar := geom.Box{Min: geom.Pt{X: x, Y: y - 3}, Max: geom.Pt{X: x + 34, Y: y}}
	l.add(render.Fill{Paths: []render.Path{render.Rect(bar)}, Tone: d.accent})
	y -= 10
	y -= l.paraAt(geom.Pt{X: x, Y: y}, fieldW, p.Title, coverTitle) + 2.5
	if p.Purpose != "" {
		y -= l.paraAt(geom.Pt{X: x, Y: y}, 160, p.Purpose, lettering.Style{Face: fonts.Sans, Size: render.Measure}) + 3
	}
	picture := geom.Pt{X: x + heroX, Y: y + 4}
	y -= 2
	y -= l.paraAt(geom.Pt{X: x, Y: y}, heroX-4, upper(d.edition()), caption) + 4
	if p.Intro != "" {
		y -= l.paraAt(geom.Pt{X: x, Y: y}, heroX-4, p.Intro, plain) + 2
	}
	top := l.coverColumns()
	box := geom.Box{Min: geom.Pt{X: picture.X, Y: top + 6}, Max: geom.Pt{X: x + fieldW, Y: picture.Y - 8}}
	if y < top+2 {
		d.problem("the intro is %.0f mm too long for the cover", top+2-y)
	}
	l.later(fmt.Sprintf("cover %.3f", box), func(d *desk) block { return block{items: d.hero(box)} })
}

// coverColumns sets the three columns at the foot of the cover and returns the
// height of their top: the picture gets what they leave.
func (l *leaf) coverColumns() float64 {
	before := len(l.items)
	low := 0.0
	for i, column := range []func(geom.Pt) float64{l.coverFacts, l.coverContents, l.coverPrint} {
		low = min(low, column(geom.Pt{X: l.field.Min.X + float64(i)*(coverCol+coverGap)}))
	}
	top := l.field.Min.Y + footH + 1 - low
	l.items = append(l.items[:before:before], Moved(l.items[before:], geom.Pt{Y: top})...)
	return top
}

// coverHead is the caption of a column of the cover with a hairline over it.
func (l *leaf) coverHead(top geom.Pt, s string) float64 {
	l.rule(top.X, top.X+coverCol, top.Y, render.Rule)
	l.line(geom.Pt{X: top.X, Y: top.Y - 3 - lettering.Cap(caption)}, s, caption, toLeft)
	return top.Y - 3 - lettering.Cap(caption) - 4.4
}

// coverFacts lists sizes and what the work asks for, from the model alone.
func (l *leaf) coverFacts(top geom.Pt) float64 {
	y := l.coverHead(top, "At a glance")
	for _, f := range facts(l.d) {
		if f[1] == "" {
			continue
		}
		lines := lettering.Wrap(f[1], coverCol-24, plain)
		l.line(geom.Pt{X: top.X, Y: y - lettering.Cap(plain)}, f[0], soft, toLeft)
		for i, s := range lines {
			l.line(geom.Pt{X: top.X + 24, Y: y - lettering.Cap(plain) - float64(i)*lettering.Pitch(plain)}, s, plain, toLeft)
		}
		y -= float64(len(lines))*lettering.Pitch(plain) + 1
	}
	return y
}

// facts are the rows of the cover's first column; empty ones are left out.
func facts(d *desk) [][2]string {
	p, u := d.plan, d.plan.Unit
	out := [][2]string{
		{"Height", measure(d, "overall_height")},
		{"Width", measure(d, "overall_width")},
		{"Depth", measure(d, "overall_depth")},
		{"Seat height", measure(d, "seat_height_front")},
		{"Recline", measure(d, "recline")},
	}
	if m := shop.Weight(p); m > 0 {
		out = append(out, [2]string{"Weight", "about " + shop.Mass(u, m)})
	}
	return append(out,
		[2]string{"Skill", p.Skill},
		[2]string{"Time", p.Hours},
		[2]string{"Revision", strings.Trim(p.Revision+", "+p.Date, ", ")},
	)
}

// measure writes a named value of the plan for prose, or nothing.
func measure(d *desk, name string) string {
	for _, m := range d.plan.Measures {
		if m.Name == name {
			return value(d.plan.Unit, m.Value)
		}
	}
	return ""
}

// value writes a value for prose: angles to half a degree.
func value(u expr.Unit, v expr.Value) string {
	switch v.Dim {
	case expr.Length(0).Dim:
		return u.Long(v.V)
	case expr.Radians(0, expr.None).Dim:
		return expr.Angle(v.V, 0.5)
	}
	return strconv.FormatFloat(v.V, 'f', -1, 64)
}

// coverContents lists the sheets with their pages; each line is a link.
func (l *leaf) coverContents(top geom.Pt) float64 {
	y := l.coverHead(top, "In this set")
	for _, e := range contents(l.d) {
		base := y - lettering.Cap(narrow)
		l.line(geom.Pt{X: top.X, Y: base}, e.title, narrow, toLeft)
		l.line(geom.Pt{X: top.X + coverCol, Y: base}, e.pages(), narrow, toRight)
		l.link(geom.Box{Min: geom.Pt{X: top.X, Y: base - 1}, Max: geom.Pt{X: top.X + coverCol, Y: base + 3.6}}, e.first)
		y -= lettering.Pitch(narrow)
	}
	return y
}

// An entry is one line of the contents; pages are counted from 1.
type entry struct {
	title       string
	first, last int
}

func (e entry) pages() string {
	if e.last > e.first {
		return fmt.Sprintf("%d–%d", e.first, e.last)
	}
	return strconv.Itoa(e.first)
}

// contents are the sheets that the pass before made, but for the cover.
func contents(d *desk) []entry {
	var out []entry
	for _, s := range d.sheets[1:] {
		listed := slices.ContainsFunc(out, func(e entry) bool { return e.title == s.title })
		if n := d.page(s.key); n > 0 && !listed {
			out = append(out, entry{title: s.title, first: n, last: d.page("end " + s.key)})
		}
	}
	slices.SortStableFunc(out, func(a, b entry) int { return a.first - b.first })
	return out
}

// coverPrint is the third column: what to print how, whose plan it is and what
// a buyer may do with it.
func (l *leaf) coverPrint(top geom.Pt) float64 {
	y := l.coverHead(top, "Before you print")
	text := fmt.Sprintf("Print page %d first and check its bars.", l.d.page("check"))
	if a, b := l.d.pages(fullSize); a > 0 {
		text += fmt.Sprintf(" Print pages %d–%d at 100 %%, actual size.", a, b)
	} else {
		text += " Print every page at 100 %, actual size."
	}
	y -= l.paraAt(geom.Pt{X: top.X, Y: y}, coverCol, text, strong) + 5
	b := l.d.plan.Brand
	if b.Maker == "" {
		return y
	}
	y = l.coverHead(geom.Pt{X: top.X, Y: y}, b.Maker)
	if b.Logo != nil {
		l.add(render.Image{Box: geom.Box{Min: geom.Pt{X: top.X, Y: y - 14}, Max: geom.Pt{X: top.X + 14, Y: y}}, PNG: b.Logo})
		y -= 17
	}
	if b.Contact != "" {
		y -= l.paraAt(geom.Pt{X: top.X, Y: y}, coverCol, b.Contact, plain) + 2.4
	}
	if b.Licence != "" {
		y -= l.paraAt(geom.Pt{X: top.X, Y: y}, coverCol, b.Licence, soft)
	}
	return y
}

func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
