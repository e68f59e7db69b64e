// Package sheets composes the pages of a plan set from a solved plan: one sheet
// to a file, in the order of the table in this one.
//
// It knows what each sheet says and where things lie in the field. It does not
// solve, check or cut anything, and it does not paint.
package sheets

import (
	"fmt"
	"maps"
	"slices"

	"planset/model"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/render"
)

// An Input is all that a plan set is made from.
type Input struct {
	Plan     *model.Plan
	Others   []*model.Plan // the other sizes, solved in the same unit
	Cuts     *cutting.Plan // may be nil: then there are no board layouts
	Paper    string        // "letter" or "a4"
	Licensee string        // whose copy it is, may be empty
	Seed     string        // the text of the model, for the file's identity
}

// A section is a run of sheets that share an index mark at the page edge.
type section int

// The sections of a plan set.
const (
	startHere section = iota
	buyAndCut
	partsAndJoints
	build
	afterwards
	fullSize

	sections
)

// A sheet is one or more pages on one matter. Make adds them to the desk, or
// none when the plan has nothing of the kind.
type sheet struct {
	key     string // also the name other sheets refer to it by
	title   string
	section section
	make    func(d *desk, s sheet)
}

// order is the whole plan set. A new sheet is one file and one line here.
func order() []sheet {
	return []sheet{
		{"cover", "Cover", startHere, cover},
		{"use", "How to use this plan", startHere, howToUse},
		{"check", "Print check", startHere, printCheck},
		{"cautions", "Cautions", startHere, cautions},
		{"tools", "Tools", buyAndCut, tools},
		{"shopping", "Shopping list", buyAndCut, shopping},
		{"cutlist", "Cut list", buyAndCut, cutList},
		{"boards", "Board layouts", buyAndCut, boards},
		{"parts", "Part drawings", partsAndJoints, partDrawings},
		{"joints", "Joints", partsAndJoints, jointSheets},
		{"jigs", "Jigs and saw settings", partsAndJoints, jigSheet},
		{"exploded", "Exploded view", build, exploded},
		{"fan", "Fan layout", build, fanSheet},
		{"steps", "Building", build, stepSheets},
		{"finish", "Finishing and care", afterwards, finishing},
		{"changes", "Changes", afterwards, changesIfRoom},
		{"sizes", "Other sizes", afterwards, sizes},
		{"changes", "Changes", afterwards, changesIfRoom},
		{glossaryKey, "Glossary", afterwards, glossary},
		{"changes", "Changes", afterwards, changes},
		{"templates", "Full-size templates", fullSize, templates},
	}
}

// passes is how often a book may be made again until its page numbers and its
// glossary stand still. Two are enough unless a longer number moves a line.
const passes = 6

// Compose makes the book. The sentences say what could not be set well; the
// book is whole all the same.
func Compose(in Input) (*render.Book, []string) { return compose(in, order()) }

// compose makes a book of some of the sheets, passing over them until the page
// numbers that were promised are those that came out.
func compose(in Input, all []sheet) (*render.Book, []string) {
	d := newDesk(in, all)
	for range passes {
		d.makeAll()
		next := d.again()
		if d.settled() {
			return d.book(), d.problems
		}
		d = next
	}
	d.makeAll()
	d.problems = append(d.problems, "the page numbers did not settle")
	return d.book(), d.problems
}

// settled reports whether the pages are as the pass before promised them.
func (d *desk) settled() bool {
	return d.total == len(d.leaves) && maps.Equal(d.refs, d.now) && slices.EqualFunc(d.terms, d.found, sameTerm)
}

// book hands the pages over.
func (d *desk) book() *render.Book {
	p := d.plan
	b := &render.Book{
		Title:    p.Title + ", " + d.edition(),
		Author:   p.Brand.Maker,
		Subject:  p.Purpose,
		Keywords: "plan, outdoor furniture, woodworking",
		Lang:     "en-US",
		Date:     p.Date,
		Seed:     d.in.Seed,
		Marks:    d.marks,
	}
	for _, l := range d.leaves {
		b.Pages = append(b.Pages, l.page())
	}
	return b
}

// unitName is what the sizes of an edition are counted in.
func unitName(u expr.Unit) string {
	if u == expr.MM {
		return "millimeters"
	}
	return "inches"
}

// edition names the size and the unit: "standard size, inches".
func (d *desk) edition() string {
	unit := unitName(d.plan.Unit)
	if d.plan.Variant.Title == "" {
		return unit
	}
	return fmt.Sprintf("%s, %s", d.plan.Variant.Title, unit)
}
