package sheets

import (
	"planset/layouts/tables"
	"planset/model/geom"
	"planset/render"
)

// list sets a table from the cursor down, going on to new pages of the same
// sheet as it must, and returns the page it ends on.
func (l *leaf) list(t *tables.Table) *leaf {
	t.Accent = l.d.accent
	laid, faults := tables.Lay(t, bodyW)
	l.d.problems = append(l.d.problems, faults...)
	fresh := false
	for from := 0; from < laid.Rows(); {
		to := laid.Fit(from, l.room())
		if to == from && fresh {
			to = laid.Force(from, l.room())
		}
		to = laid.Balance(from, to)
		if to > from {
			items, h := laid.Draw(geom.Pt{X: l.left(), Y: l.y}, from, to)
			l.add(items...)
			l.skip(h)
			from = to
		}
		if from < laid.Rows() {
			l = l.d.leaf(l.sheet, l.sheet.title, "Continued from the page before.")
			fresh = true
		}
	}
	return l
}

// shortest makes the rows of a table lower, least mm high at the least, when that
// saves a page: a page for a row or two is one to turn for nothing.
func (l *leaf) shortest(t *tables.Table, least float64) *tables.Table {
	low := *t
	low.Least = least
	if l.pagesOf(&low) < l.pagesOf(t) {
		return &low
	}
	return t
}

// pagesOf is how many pages a table takes from the cursor on.
func (l *leaf) pagesOf(t *tables.Table) int {
	laid, _ := tables.Lay(t, bodyW)
	room, n := l.room(), 1
	for from := 0; from < laid.Rows(); n++ {
		to := laid.Fit(from, room)
		if to == from && room == l.body.H() {
			to = laid.Force(from, room)
		}
		from, room = to, l.body.H()
	}
	return n
}

// under sets a bold caption over what follows it.
func (l *leaf) under(s string) {
	l.para(0, bodyW, s, caption)
	l.skip(2.2)
}

// need starts a new page of the sheet unless h mm are free.
func (l *leaf) need(h float64) *leaf {
	if l.room() >= h {
		return l
	}
	return l.d.leaf(l.sheet, l.sheet.title, "Continued from the page before.")
}

// cell and tabCell are short ways to write a row.
func cell(s string) tables.Cell { return tables.Cell{Text: fractions(s)} }

func bold(s string) tables.Cell { return tables.Cell{Text: fractions(s), Bold: true} }

func tick() tables.Cell { return tables.Cell{Tick: true} }

// Alignments of the painter, short.
const (
	toLeft   = render.Left
	toMiddle = render.Middle
	toRight  = render.Right
)
