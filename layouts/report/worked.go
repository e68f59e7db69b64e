package report

import (
	"fmt"
	"math"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/marks"
	"planset/model/strength"
)

// mostRows is how many marks a report shows; the rest change less.
const mostRows = 20

func cell(s string) tables.Cell { return tables.Cell{Text: s} }

func tabs(p *model.Part) tables.Cell { return tables.Cell{Tabs: []tables.Tab{{Code: p.Code}}} }

// sensitivity is the table of the marks that matter.
func (r *book) sensitivity(s Section) {
	t := s.Marks
	l := r.leaf(s, "Which marks matter", fmt.Sprintf("What each value changes by when one mark is %s off. The first rows use up most of what is allowed.", t.Unit.LongTo(t.Step, expr.Fine)))
	r.mark("Which marks matter", 1)
	list := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{{Title: "Part", Width: 11}, {Title: "Mark", Share: 5}}}
	for _, v := range t.Values {
		list.Columns = append(list.Columns, tables.Column{Title: columnName(v), Width: 19, Align: tables.Right})
	}
	list.Columns = append(list.Columns, tables.Column{Title: "Why it may be let be", Share: 6, Apart: 2})
	for i := range t.Rows[:min(mostRows, len(t.Rows))] {
		list.Rows = append(list.Rows, markRow(t, &t.Rows[i]))
	}
	l = l.table(list)
	l = l.head("All marks together", 40)
	l.table(together(t))
}

func columnName(v marks.Value) string {
	name := strings.TrimPrefix(v.Title, "the ")
	return strings.ToUpper(name[:1]) + name[1:]
}

func markRow(t *marks.Table, m *marks.Row) tables.Row {
	row := tables.Row{Cells: []tables.Cell{tabs(m.Part), cell(strings.ReplaceAll(m.What, "_", " "))}}
	for k, v := range t.Values {
		change := m.Change[k]
		if v.Name == "rock" {
			change = m.Single[k]
		}
		row.Cells = append(row.Cells, cell(amount(t.Unit, v, math.Abs(change))))
	}
	return tables.Row{Cells: append(row.Cells, cell(m.Harmless))}
}

// amount is a change of a value, or a dash when there is none.
func amount(u expr.Unit, v marks.Value, x float64) string {
	switch {
	case v.Angle && x < 0.005 || !v.Angle && x < 0.05:
		return "–"
	case v.Angle:
		return fmt.Sprintf("%.2f°", x)
	}
	return u.LongTo(x, expr.Drill)
}

// together has for each value the root of the sum of squares and the worst pair.
func together(t *marks.Table) *tables.Table {
	out := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Value", Share: 4}, {Title: "Allowed", Width: 18, Align: tables.Right},
		{Title: "As drilled", Width: 18, Align: tables.Right}, {Title: "All by tape", Width: 18, Align: tables.Right},
		{Title: "Worst pair", Share: 8, Apart: 3}, {Title: "Both", Width: 18, Align: tables.Right},
	}}
	for k, v := range t.Values {
		limit, pair, both := "–", "–", "–"
		if v.Limit > 0 {
			limit = amount(t.Unit, v, v.Limit)
		}
		for _, p := range t.Pairs {
			if p.Value == k && p.A < len(t.Rows) && p.B < len(t.Rows) {
				a, b := t.Rows[p.A], t.Rows[p.B]
				pair = fmt.Sprintf("%s %s, %s %s", a.Part.Code, a.What, b.Part.Code, b.What)
				pair = strings.ReplaceAll(pair, "_", " ")
				both = amount(t.Unit, v, math.Abs(p.Change))
			}
		}
		out.Rows = append(out.Rows, tables.Row{Cells: []tables.Cell{cell(columnName(v)), cell(limit), cell(amount(t.Unit, v, v.RSS)), cell(amount(t.Unit, v, v.RSSAll)), cell(pair), cell(both)}})
	}
	return out
}

// forces are the tables of loads, joints, balance and movement.
func (r *book) forces(s Section) {
	f := s.Forces
	l := r.leaf(s, "Forces and balance", "Trial loads of the author's own, on clear wood of the species named. They find weak places; they rate nothing.")
	r.mark("Forces and balance", 1)
	if f.Skipped != "" {
		l.para(0, l.width(), "Boards and joints are left out: "+f.Skipped+".", plain)
		l.y -= 4
	}
	if len(f.Tips) > 0 {
		l = l.head("What tips it over", 30)
		l = l.table(tipTable(f.Tips))
	}
	if len(f.Boards) > 0 {
		l = l.head("Bending of boards", 40)
		l = l.table(boardTable(s.Plan.Unit, f.Boards))
	}
	if len(f.Joints) > 0 {
		l = l.head("The most loaded fastener of each joint", 40)
		l = l.table(jointTable(f.Joints))
	}
	if len(f.Gaps) > 0 {
		l = l.head("Gaps after a damp season", 30)
		l.table(gapTable(s.Plan.Unit, f.Gaps))
	}
}

func tipTable(list []strength.Tip) *tables.Table {
	out := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Way", Width: 20}, {Title: "Loads", Share: 8}, {Title: "Holding over tipping", Width: 30, Align: tables.Right},
		{Title: "Empty, falls on a slope of", Width: 36, Align: tables.Right}, {Title: "Loads from", Width: 26, Apart: 3}}}
	for _, t := range list {
		margin, from := fmt.Sprintf("%.2f", t.Margin), "second hand"
		if math.IsInf(t.Margin, 0) {
			margin = "nothing tips it"
		}
		if t.Memory {
			from = "memory"
		}
		out.Rows = append(out.Rows, tables.Row{Cells: []tables.Cell{cell(t.Way), cell(t.What), cell(margin), cell(fmt.Sprintf("%.0f°", t.Slope*180/math.Pi)), cell(from)}})
	}
	return out
}

func boardTable(u expr.Unit, list []strength.Board) *tables.Table {
	out := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Part", Width: 11}, {Title: "Name", Share: 4}, {Title: "Worst load", Share: 5}, {Title: "Stress, MPa", Width: 20, Align: tables.Right},
		{Title: "Breaks at, MPa", Width: 24, Align: tables.Right}, {Title: "Used of a third", Width: 24, Align: tables.Right}, {Title: "Sag", Width: 18, Align: tables.Right}}}
	for _, b := range list {
		out.Rows = append(out.Rows, tables.Row{Cells: []tables.Cell{tabs(b.Part), cell(b.Part.Name), cell(b.Case), cell(fmt.Sprintf("%.1f", b.Stress)),
			cell(fmt.Sprintf("%.0f", b.MOR)), cell(percent(b.Used)), cell(u.LongTo(b.Sag, expr.Drill))}})
	}
	return out
}

func jointTable(list []strength.Joint) *tables.Table {
	out := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Joint", Share: 5}, {Title: "Worst load", Share: 5}, {Title: "Across, N", Width: 17, Align: tables.Right}, {Title: "of", Width: 13, Align: tables.Right},
		{Title: "Along, N", Width: 17, Align: tables.Right}, {Title: "of", Width: 13, Align: tables.Right}, {Title: "Mode", Width: 13, Apart: 2}, {Title: "Used", Width: 15, Align: tables.Right}, {Title: "", Width: 22, Apart: 2}}}
	for _, j := range list {
		note, along := "", "nut"
		if j.EndGrain {
			note = "in end grain"
		}
		if j.W > 0 {
			along = fmt.Sprintf("%.0f", j.W)
		}
		out.Rows = append(out.Rows, tables.Row{Cells: []tables.Cell{cell(j.Joint.Name), cell(j.Case), cell(fmt.Sprintf("%.0f", j.Shear)), cell(fmt.Sprintf("%.0f", j.Z)),
			cell(fmt.Sprintf("%.0f", j.Pull)), cell(along), cell(j.Mode), cell(percent(j.Used)), cell(note)}})
	}
	return out
}

func gapTable(u expr.Unit, list []strength.Gap) *tables.Table {
	out := &tables.Table{Size: 8.6, Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Between", Share: 4}, {Title: "As made", Width: 26, Align: tables.Right}, {Title: "Left when damp", Width: 30, Align: tables.Right}, {Title: "", Share: 4}}}
	for _, g := range list {
		out.Rows = append(out.Rows, tables.Row{Cells: []tables.Cell{cell(strings.Join(g.Parts, " and ")), cell(u.LongTo(g.Made, expr.Drill)), cell(u.LongTo(g.Left, expr.Drill)), cell("")}})
	}
	return out
}

func percent(x float64) string {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return "–"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}
