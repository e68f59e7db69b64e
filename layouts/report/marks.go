package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model/expr"
	"planset/model/marks"
)

// mostRows is how many marks a report shows; the rest change less.
const mostRows = 20

// mark is one mark in the sizes that have it; nil in the others.
type mark []*marks.Row

func (m mark) first() *marks.Row {
	return m[slices.IndexFunc(m, func(r *marks.Row) bool { return r != nil })]
}

// sensitivity is the table of the marks that matter.
func (r *book) sensitivity(l *leaf, g sizes) *leaf {
	t := g[0].Marks
	if t == nil || len(t.Rows) == 0 || len(t.Values) == 0 {
		return l
	}
	l = r.leaf(g, "Which marks matter", fmt.Sprintf("What each value changes by when one mark is %s off. The first rows use up most of what is allowed.", t.Unit.LongTo(t.Step, expr.Fine)))
	r.mark("Which marks matter", 1)
	table := list(tables.Column{Title: "Part", Width: 11}, tables.Column{Title: "Mark", Share: 5})
	for _, v := range t.Values {
		table.Columns = append(table.Columns, g.columns(columnName(v), valueWide(g))...)
	}
	table.Columns = append(table.Columns, tables.Column{Width: 4, Align: tables.Middle})
	var why []string
	var idle []string
	for _, m := range gatherMarks(g) {
		row, note, moves := g.markRow(t, m)
		switch {
		case !moves:
			idle = append(idle, m.first().Part.Code+" "+m.first().What)
			continue
		case len(table.Rows) == mostRows:
			continue
		case note != "" && !slices.Contains(why, note):
			why = append(why, note)
		}
		if note != "" {
			row.Cells[len(row.Cells)-1].Text = letter(slices.Index(why, note))
		}
		table.Rows = append(table.Rows, row)
	}
	l = l.table(table)
	for i, w := range why {
		l.para(0, l.width(), letter(i)+"  It may be let be: "+w+".", small)
		l.y -= 0.8
	}
	if len(idle) > 0 {
		l.para(0, l.width(), "Nothing that is measured depends on "+plural(len(idle), "further mark")+".", small)
	}
	l.y -= 3
	l = l.head("All marks together", 40)
	r.mark("All marks together", 1)
	return l.table(g.together())
}

func letter(i int) string { return string(rune('a' + i)) }

// valueWide is how wide a column of changes is, mm.
func valueWide(g sizes) float64 {
	if len(g) == 1 {
		return 19
	}
	return 12
}

// gatherMarks puts the marks of all sizes in one list, in the order of the size
// in which each comes first.
func gatherMarks(g sizes) []mark {
	var out []mark
	for i, s := range g {
		if s.Marks == nil {
			continue
		}
		for k := range s.Marks.Rows {
			row := &s.Marks.Rows[k]
			n := slices.IndexFunc(out, func(m mark) bool {
				has := m.first()
				return m[i] == nil && has.Part.Code == row.Part.Code && has.What == row.What
			})
			if n < 0 {
				n = len(out)
				out = append(out, make(mark, len(g)))
			}
			out[n][i] = row
		}
	}
	return out
}

func columnName(v marks.Value) string {
	name := strings.TrimPrefix(v.Title, "the ")
	return strings.ToUpper(name[:1]) + name[1:]
}

// markRow is the row of a mark, why it may be let be in the first size, and
// whether it moves anything at all.
func (g sizes) markRow(t *marks.Table, m mark) (row tables.Row, why string, moves bool) {
	first := m.first()
	row.Cells = []tables.Cell{tabs(first.Part), cell(first.What)}
	for k, v := range t.Values {
		for _, r := range m {
			text := dash
			if r != nil && k < len(r.Change) {
				change := r.Change[k]
				if v.Name == "rock" {
					change = r.Single[k]
				}
				text = amount(t.Unit, v, math.Abs(change))
			}
			moves = moves || text != dash
			row.Cells = append(row.Cells, cell(text))
		}
	}
	row.Cells = append(row.Cells, cell(""))
	return row, first.Harmless, moves
}

// amount is a change of a value, or a dash when none can be read off a rule.
func amount(u expr.Unit, v marks.Value, x float64) string {
	switch {
	case v.Angle && x < 0.005 || !v.Angle && (x < 0.05 || u.Round(x, expr.Drill) == 0):
		return dash
	case v.Angle:
		return fmt.Sprintf("%.2f°", x)
	}
	return u.LongTo(x, expr.Drill)
}

// together has for each value the root of the sum of squares and the worst pair.
func (g sizes) together() *tables.Table {
	wide := 18.0
	if len(g) > 1 {
		wide = 13
	}
	out := list(tables.Column{Title: "Value", Share: 4}, tables.Column{Title: "Allowed", Width: 13, Align: tables.Right})
	for _, title := range []string{"As drilled", "All by tape"} {
		out.Columns = append(out.Columns, g.columns(title, wide)...)
	}
	out.Columns = append(out.Columns, tables.Column{Title: "Worst pair", Share: 8, Apart: 2})
	out.Columns = append(out.Columns, g.columns("Both", wide)...)
	for k, v := range g[0].Marks.Values {
		out.Rows = append(out.Rows, g.togetherRow(k, v))
	}
	return out
}

func (g sizes) togetherRow(k int, v marks.Value) tables.Row {
	u := g[0].Marks.Unit
	limit, pair, worst := dash, dash, 0.0
	if v.Limit > 0 {
		limit = amount(u, v, v.Limit)
	}
	both := make([]string, len(g))
	of := func(i int, read func(marks.Value) float64) string {
		t := g[i].Marks
		if t == nil || k >= len(t.Values) {
			return dash
		}
		return amount(u, v, read(t.Values[k]))
	}
	for i, s := range g {
		both[i] = dash
		if s.Marks == nil {
			continue
		}
		for _, p := range s.Marks.Pairs {
			if p.Value != k || p.A >= len(s.Marks.Rows) || p.B >= len(s.Marks.Rows) {
				continue
			}
			both[i] = amount(u, v, math.Abs(p.Change))
			if math.Abs(p.Change) > worst {
				a, b := s.Marks.Rows[p.A], s.Marks.Rows[p.B]
				worst, pair = math.Abs(p.Change), fmt.Sprintf("%s %s, %s %s", a.Part.Code, a.What, b.Part.Code, b.What)
			}
		}
	}
	cells := []tables.Cell{cell(columnName(v)), cell(limit)}
	cells = append(cells, g.cells(func(i int) string { return of(i, func(v marks.Value) float64 { return v.RSS }) })...)
	cells = append(cells, g.cells(func(i int) string { return of(i, func(v marks.Value) float64 { return v.RSSAll }) })...)
	cells = append(cells, cell(pair))
	return tables.Row{Cells: append(cells, g.cells(func(i int) string { return both[i] })...)}
}
