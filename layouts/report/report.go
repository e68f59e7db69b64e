// Package report sets the author's report on a plan: what the checks found, each
// with a picture of the parts it is about, which marks matter, and the forces.
//
// It is for the author alone and is a file of its own; nothing of it goes into a
// plan set. It judges nothing: what is found is model/check, what is worked out
// is model/marks and model/strength.
package report

import (
	"fmt"

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
	sections []Section
	total    int // pages, from the pass before
	leaves   []*leaf
	marks    []render.Mark
}

func made(sections []Section, total int) *book {
	r := &book{sections: sections, total: total}
	for _, s := range sections {
		r.section(s)
	}
	return r
}

// section sets one size.
func (r *book) section(s Section) {
	l := r.leaf(s, "Report on "+s.Plan.Title, sizeOf(s.Plan)+". For the author; nothing of it is printed in the plan set.")
	r.mark(sizeOf(s.Plan), 0)
	l = r.summary(l, s)
	l = r.findings(l, s)
	if s.Marks != nil && len(s.Marks.Rows) > 0 && len(s.Marks.Values) > 0 {
		r.sensitivity(s)
	}
	if s.Forces != nil {
		r.forces(s)
	}
}

// sizeOf names a size and its units.
func sizeOf(p *model.Plan) string {
	unit := "inches"
	if p.Unit == expr.MM {
		unit = "millimeters"
	}
	title := p.Variant.Title
	if title == "" {
		title = "Standard"
	}
	return fmt.Sprintf("%s size, %s", title, unit)
}

// mark adds a bookmark to the newest page.
func (r *book) mark(title string, level int) {
	l := r.leaves[len(r.leaves)-1]
	r.marks = append(r.marks, render.Mark{Title: title, Level: level, Page: len(r.leaves) - 1, Y: min(l.top, l.y+6)})
}
