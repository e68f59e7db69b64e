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
