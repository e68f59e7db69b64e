package report

import (
	"fmt"
	"math"

	"planset/layouts/tables"
	"planset/model/expr"
	"planset/model/people"
)

// fits sets how the seat of each size suits people, and what a larger size of it
// would measure. Pieces that nobody leans back in have none: a footstool is not
// held to a chair's measures.
func (r *book) fits(l *leaf, g sizes) {
	for _, s := range g {
		if seat, ok := people.SeatOf(s.Plan); !ok || seat.Back == 0 {
			return
		}
	}
	l = l.fitTable(g)
	l.largerTable(g)
}

// fitTable holds each measure of the seat against what is usual and against the
// men and women of the table.
func (l *leaf) fitTable(g sizes) *leaf {
	t := list(tables.Column{Title: "Measure", Share: 6})
	t.Columns = append(t.Columns, g.columns("Has", 16)...)
	t.Columns = append(t.Columns, tables.Column{Title: "Usual", Share: 5, Apart: 4})
	t.Columns = append(t.Columns, g.columns("Suits men, women", 22)...)
	all := make([][]people.Fit, len(g))
	for i, s := range g {
		seat, _ := people.SeatOf(s.Plan)
		all[i] = people.Compare(seat)
	}
	u := g.plan().Unit
	for _, f := range all[0] {
		of := func(i int, say func(people.Fit) string) string {
			for _, o := range all[i] {
				if o.Name == f.Name {
					return say(o)
				}
			}
			return dash
		}
		cells := []tables.Cell{cell(f.Name)}
		cells = append(cells, g.cells(func(i int) string { return of(i, func(o people.Fit) string { return fitting(u, o, o.Has) }) })...)
		cells = append(cells, cell(usual(u, f)))
		cells = append(cells, g.cells(func(i int) string { return of(i, suits) })...)
		t.Rows = append(t.Rows, tables.Row{Cells: cells})
	}
	l = l.head("How it sits", 48)
	l.para(0, l.width(), "Men and women of ANSUR II, spread normally; usual is what lounge chairs have (common practice).", small)
	l.y -= 2
	return l.table(t)
}

// largerTable proposes the sizes of a larger variant of the first size.
func (l *leaf) largerTable(g sizes) {
	seat, _ := people.SeatOf(g.plan())
	u, step := g.plan().Unit, 6.35
	if u == expr.MM {
		step = 5
	}
	t := list(tables.Column{Title: "Size", Share: 5}, tables.Column{Title: titleOf(g.plan()), Width: 22, Align: tables.Right},
		tables.Column{Title: "Proposed", Width: 22, Align: tables.Right}, tables.Column{Title: "It follows", Share: 8, Apart: 4})
	for _, s := range people.Larger(seat, step) {
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{cell(s.Name), cell(u.Long(s.Has)), cell(u.Long(s.Wants)), cell(s.From)}})
	}
	l.head("A larger size, for men of the 95th percentile of stature", 36).table(t)
}

// fitting writes a length or an angle of a seat.
func fitting(u expr.Unit, f people.Fit, v float64) string {
	if f.Angle {
		return expr.Angle(v, 0.5)
	}
	return u.Long(v)
}

// usual is the range that lounge chairs have.
func usual(u expr.Unit, f people.Fit) string {
	if math.IsInf(f.High, 1) {
		return fitting(u, f, f.Low) + " and more"
	}
	return fitting(u, f, f.Low) + " to " + fitting(u, f, f.High)
}

// suits is the part of men and of women whom a measure suits.
func suits(f people.Fit) string {
	if math.IsNaN(f.Men) {
		return dash
	}
	return fmt.Sprintf("%.0f %%, %.0f %%", 100*f.Men, 100*f.Women)
}
