// Package report sets the author's report on a plan: what the checks found, each
// with a picture of the parts it is about, which marks matter, and the forces.
// Sizes of one plan stand side by side, so that only what differs is told twice.
//
// It is for the author alone and is a file of its own; nothing of it goes into a
// plan set. It judges nothing: what is found is model/check, what is worked out
// is model/marks and model/strength.
package report

import (
	"strings"

	"planset/model"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/marks"
	"planset/model/strength"
	"planset/render"
)

// A Section is one size of the plan with all that is known of it.
type Section struct {
	Plan     *model.Plan
	Findings []check.Finding  // in the order of check.All
	Marks    *marks.Table     // nil leaves its table out
	Forces   *strength.Report // likewise
}

// Compose sets the report on one or more sizes of a plan, on Letter for readers
// of inches and on A4 for others. Seed is the text the plan was made from; the
// file's identity is hashed from it. The same input gives the same book.
func Compose(sections []Section, seed string) *render.Book {
	if len(sections) == 0 {
		return &render.Book{Title: "Report", Lang: "en-US", Seed: seed}
	}
	// The number of pages is only known when they are made; a second pass
	// prints it.
	first := made(sections, 0)
	r := made(sections, len(first.leaves))
	p := sections[0].Plan
	b := &render.Book{Title: "Report on " + p.Title, Author: p.Brand.Maker, Lang: "en-US", Subject: "for the author", Date: p.Date, Seed: seed + "\x00report", Marks: r.marks}
	for _, l := range r.leaves {
		b.Pages = append(b.Pages, l.page())
	}
	return b
}

// book is a report being made.
type book struct {
	total  int // pages, from the pass before
	leaves []*leaf
	marks  []render.Mark
}

// abreast is how many sizes stand side by side in one table.
const abreast = 3

func made(sections []Section, total int) *book {
	r := &book{total: total}
	for len(sections) > 0 {
		n := 1
		for n < len(sections) && n < abreast && sections[n].Plan.Unit == sections[0].Plan.Unit {
			n++
		}
		r.sizes(sizes(sections[:n]))
		sections = sections[n:]
	}
	return r
}

// sizes are sections in one unit system that stand side by side.
type sizes []Section

// plan is the first size, whose looks all share.
func (g sizes) plan() *model.Plan { return g[0].Plan }

// name names the sizes and their units.
func (g sizes) name() string {
	unit := "inches"
	if g.plan().Unit == expr.MM {
		unit = "millimeters"
	}
	return g.titles(func(Section) bool { return true }) + ", " + unit
}

// titles are the names of some of the sizes: "Standard and Tall".
func (g sizes) titles(in func(Section) bool) string {
	var list []string
	for _, s := range g {
		if in(s) {
			list = append(list, titleOf(s.Plan))
		}
	}
	if len(list) < 2 {
		return strings.Join(list, "") + " size"
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

func titleOf(p *model.Plan) string {
	if p.Variant.Title == "" {
		return "Standard"
	}
	return p.Variant.Title
}

// sizes sets what is known of some sizes.
func (r *book) sizes(g sizes) {
	l := r.leaf(g, "Report on "+g.plan().Title, g.name()+". For the author; nothing of it is printed in the plan set.")
	r.mark(g.name(), 0)
	l = r.summary(l, g)
	l = r.findings(l, g)
	l = r.sensitivity(l, g)
	l = r.forces(l, g)
	r.fits(l, g)
}

// mark adds a bookmark to the newest page.
func (r *book) mark(title string, level int) {
	l := r.leaves[len(r.leaves)-1]
	r.marks = append(r.marks, render.Mark{Title: title, Level: level, Page: len(r.leaves) - 1, Y: min(l.top, l.y+6)})
}

// per has a cell for each size.
func (g sizes) per(text func(Section) string) []string {
	out := make([]string, len(g))
	for i, s := range g {
		out[i] = text(s)
	}
	return out
}

// alike is one text when all are the same, else each behind the size it is of.
func (g sizes) alike(list []string) string {
	same := true
	for _, t := range list {
		same = same && t == list[0]
	}
	if same {
		return list[0]
	}
	var out []string
	for i, s := range g {
		out = append(out, titleOf(s.Plan)+": "+list[i])
	}
	return strings.Join(out, ". ")
}
