package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/model/shop"
	"planset/render"
)

// A desk is where a book is made. What it knows of page numbers is from the
// pass before; what it notes is for the next.
type desk struct {
	in       Input
	plan     *model.Plan
	sheets   []sheet
	accent   render.Tone
	refs     map[string]int // page indices by name, from the pass before
	terms    []shop.Term    // the shop words of the pages, from the pass before
	total    int            // pages, from the pass before
	now      map[string]int
	found    []shop.Term // the shop words of this pass's pages
	leaves   []*leaf
	marks    []render.Mark
	problems []string
	blanks   []blank // places for pictures, until all pages are laid out
	store    *store  // shared by the passes
	ahead    *templateRun
}

// newDesk lays out a desk for the first pass over the sheets.
func newDesk(in Input, all []sheet) *desk { return clearDesk(in, all, newStore(in.Plan)) }

// clearDesk is a desk for a pass; st is shared by all of them.
func clearDesk(in Input, all []sheet, st *store) *desk {
	a := in.Plan.Brand.Accent
	return &desk{
		in: in, plan: in.Plan, sheets: all, accent: render.Tone{R: a[0], G: a[1], B: a[2]},
		now: map[string]int{}, store: st,
	}
}

// again clears the desk for the next pass, which knows what came out of this one.
func (d *desk) again() *desk {
	next := clearDesk(d.in, d.sheets, d.store)
	next.refs, next.terms, next.total = d.now, d.found, len(d.leaves)
	return next
}

// makeAll makes every sheet in order, then the pictures on them.
func (d *desk) makeAll() {
	d.startTemplates()
	for _, s := range d.sheets {
		if s.key == glossaryKey && d.refs == nil {
			// Of the first pass only the pages so far are known, but those have
			// nearly all the words: the glossary is as long as it will be, and
			// what follows stands where it will stay.
			d.terms = d.shopWords()
		}
		s.make(d, s)
	}
	d.fillBlanks()
	d.found = d.shopWords()
	d.renewGlossary()
}

// leaf starts a page of sheet s. The first one of a sheet gets its bookmark,
// and other sheets can refer to it by the sheet's key.
func (d *desk) leaf(s sheet, title, purpose string) *leaf {
	l := newLeaf(d, s, title, purpose)
	d.leaves = append(d.leaves, l)
	d.now["end "+s.key] = l.index
	if _, had := d.now[s.key]; !had {
		d.name(s.key)
		d.mark(s.title, 0)
	}
	return l
}

// share goes on with another sheet at the foot of the newest page when h mm
// are free there, under a heading, and starts a page for it otherwise.
func (d *desk) share(s sheet, purpose string, h float64) *leaf {
	if !d.roomFor(s, h) {
		return d.leaf(s, s.title, purpose)
	}
	last := d.leaves[len(d.leaves)-1]
	last.skip(9)
	d.name(s.key)
	d.now["end "+s.key] = last.index
	d.mark(s.title, 0)
	d.marks[len(d.marks)-1].Y = last.y
	last.para(0, bodyW, s.title, titling)
	last.skip(1)
	last.para(0, bodyW, purpose, soft)
	last.skip(5)
	return last
}

// roomFor reports whether h mm are free at the foot of the newest page and the
// sheet may stand there.
func (d *desk) roomFor(s sheet, h float64) bool {
	last := d.leaves[len(d.leaves)-1]
	return !last.bare && last.sheet.section == s.section && last.room() >= h
}

// name lets other sheets refer to the newest page: "part A", "template F".
func (d *desk) name(ref string) {
	if _, had := d.now[ref]; !had {
		d.now[ref] = len(d.leaves) - 1
	}
}

// mark adds a bookmark to the newest page; level 0 is the top.
func (d *desk) mark(title string, level int) {
	l := d.leaves[len(d.leaves)-1]
	d.marks = append(d.marks, render.Mark{Title: title, Level: level, Page: len(d.leaves) - 1, Y: l.field.Max.Y})
}

// page returns the number of the page that goes by ref, counted from 1, or 0.
func (d *desk) page(ref string) int {
	if i, ok := d.refs[ref]; ok {
		return i + 1
	}
	return 0
}

// onPage writes "p. 7", or nothing when nothing goes by ref.
func (d *desk) onPage(ref string) string {
	if n := d.page(ref); n > 0 {
		return "p. " + strconv.Itoa(n)
	}
	return ""
}

// pages returns the first and the last page, from 1, whose sheets lie in a
// section; 0, 0 when there is none.
func (d *desk) pages(s section) (first, last int) {
	for i := range d.total {
		if d.refs[sectionRef(s, i)] == i+1 {
			if first == 0 {
				first = i + 1
			}
			last = i + 1
		}
	}
	return first, last
}

// sectionRef is the hidden name by which every page is found by its section.
func sectionRef(s section, page int) string { return fmt.Sprintf("section %d page %d", s, page) }

// problem notes something that could not be set well.
func (d *desk) problem(format string, a ...any) {
	d.problems = append(d.problems, fmt.Sprintf(format, a...))
}

// tabPage returns the page that draws a part, by its code or its family's.
func (d *desk) tabPage(p *model.Part) int {
	if n := d.page("part " + p.Code); n > 0 {
		return n
	}
	return d.page("part " + p.Family)
}

// texts returns what each page says, one string a page, lines joined by spaces.
func (d *desk) texts() []string {
	out := make([]string, len(d.leaves))
	for i, l := range d.leaves {
		var b strings.Builder
		gather(&b, l.items)
		out[i] = b.String()
	}
	return out
}

// gather writes the words of items in their order.
func gather(b *strings.Builder, items []render.Item) {
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			b.WriteString(item.Text)
			b.WriteByte(' ')
		case render.Group:
			gather(b, item.Items)
		}
	}
}

// tab draws the letter of a part with its lower-left corner at at, and makes it
// a link to the part's drawing. It returns the width.
func (l *leaf) tab(at geom.Pt, p *model.Part, hand string, height float64) float64 {
	items, w := lettering.Tab(at, p.Code, hand, height, l.d.accent)
	l.add(items...)
	l.link(geom.Box{Min: at, Max: geom.Pt{X: at.X + w, Y: at.Y + height}}, l.d.tabPage(p))
	return w
}
