package sheets

import (
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
)

// sizes lists only what differs between this size and the others.
func sizes(d *desk, s sheet) {
	if len(d.in.Others) == 0 {
		return
	}
	rows := differences(d.plan, d.in.Others)
	if len(rows) == 0 {
		return
	}
	l := d.leaf(s, s.title, "Only what differs, in "+unitName(d.plan.Unit)+"; each size has an edition of its own.")
	t := &tables.Table{Columns: []tables.Column{
		{Title: "Code", Width: 14}, {Title: "What", Share: 1},
		{Title: "This plan: " + orElse(d.plan.Variant.Title, "this size"), Width: 50, Align: tables.OnFraction},
	}}
	for _, o := range d.in.Others {
		t.Columns = append(t.Columns, tables.Column{Title: orElse(o.Variant.Title, "Other"), Width: 26, Align: tables.OnFraction})
	}
	for i, r := range rows {
		row := tables.Row{Cells: []tables.Cell{{}, cell(r.what)}, Keep: i > 0 && r.code != "" && r.code == rows[i-1].code}
		if r.code != "" && !row.Keep {
			row.Cells[0] = tables.Cell{Tabs: []tables.Tab{{Code: r.code}}, Page: d.page("part " + r.code)}
		}
		for _, v := range r.values {
			row.Cells = append(row.Cells, cell(v))
		}
		t.Rows = append(t.Rows, row)
	}
	l = l.list(t)
	notes := variantNotes(d)
	if len(notes) == 0 {
		return
	}
	l.skip(6)
	l = l.need(20)
	l.topic("Which size")
	l.points("–", notes)
}

// variantNotes say who each size is for.
func variantNotes(d *desk) []string {
	var out []string
	for _, p := range append([]*model.Plan{d.plan}, d.in.Others...) {
		if p.Variant.Note != "" {
			out = append(out, p.Variant.Title+": "+p.Variant.Note)
		}
	}
	return out
}

// A difference is one value that is not the same in all sizes, this plan first.
type difference struct {
	code   string // of the part or family; empty for a value of the whole
	what   string
	values []string
}

// differences compares the sizes value by value, as printed: what prints alike
// is alike to a buyer. What differs alike in a whole family is said once.
func differences(plan *model.Plan, others []*model.Plan) []difference {
	var out []difference
	all := append([]*model.Plan{plan}, others...)
	for _, m := range plan.Measures {
		if m.Note == "" || m.Kind == model.DerivedMeasure {
			continue
		}
		d := difference{what: upper(m.Note)}
		for _, p := range all {
			d.values = append(d.values, measured(p, m.Name))
		}
		out = keep(out, d)
	}
	seen := map[string]bool{}
	for _, part := range plan.Parts {
		code := shop.FamilyCode(part)
		if seen[code] {
			continue
		}
		seen[code] = true
		out = append(out, partDifferences(all, code)...)
	}
	return out
}

// partDifferences compares one part, or the members of one family.
func partDifferences(all []*model.Plan, code string) []difference {
	var members []*model.Part
	for _, p := range all[0].Parts {
		if shop.FamilyCode(p) == code {
			members = append(members, p)
		}
	}
	var out []difference
	for _, dim := range dimensions(members[0]) {
		var rows []difference
		for _, m := range members {
			d := difference{code: code, what: m.Name + ", " + dim.name}
			for _, p := range all {
				d.values = append(d.values, dim.of(p, m.Code))
			}
			rows = append(rows, d)
		}
		if alike(rows) {
			rows = rows[:1]
		} else {
			for i, m := range members {
				rows[i].what = m.Name + " " + m.Code + ", " + dim.name
			}
		}
		for _, r := range rows {
			out = keep(out, r)
		}
	}
	return out
}

// alike reports whether all rows have the same values.
func alike(rows []difference) bool {
	return !slices.ContainsFunc(rows, func(d difference) bool { return !slices.Equal(d.values, rows[0].values) })
}

// keep adds d when its values are not all the same.
func keep(out []difference, d difference) []difference {
	if !slices.ContainsFunc(d.values, func(v string) bool { return v != d.values[0] }) {
		return out
	}
	return append(out, d)
}

func measured(p *model.Plan, name string) string {
	for _, m := range p.Measures {
		if m.Name == name {
			if m.Value.Dim == expr.Length(0).Dim {
				return p.Unit.Length(m.Value.V, expr.Coarse)
			}
			return value(p.Unit, m.Value)
		}
	}
	return "–"
}

// A dimension is one number of a part that may differ between sizes.
type dimension struct {
	name string
	get  func(p *model.Part, u expr.Unit) string
}

// of returns the dimension of the part with that code, a dash without one.
func (m dimension) of(plan *model.Plan, code string) string {
	for _, p := range plan.Parts {
		if p.Code == code {
			return m.get(p, plan.Unit)
		}
	}
	return "–"
}

// dimensions are the numbers to compare; p gives its ends their names. The
// rough length is compared only where it is not just the length and a bit.
func dimensions(p *model.Part) []dimension {
	length := func(of func(*model.Part) float64) func(*model.Part, expr.Unit) string {
		return func(p *model.Part, u expr.Unit) string { return u.Length(of(p), expr.Coarse) }
	}
	all := []dimension{
		{"pieces", func(p *model.Part, _ expr.Unit) string { return digits(p.Quantity) }},
		{"length", length(func(p *model.Part) float64 { return p.Length })},
		{"width", length(func(p *model.Part) float64 { return p.Width })},
		{"thickness", length(func(p *model.Part) float64 { return p.Thick })},
		{"taper from", length(func(p *model.Part) float64 { return taper(p).FromWidth })},
		{"taper to", length(func(p *model.Part) float64 { return taper(p).ToWidth })},
	}
	if fitted(p) {
		all = append(all, dimension{"rough length", length(func(p *model.Part) float64 { return p.RoughLength })})
	}
	for i := range p.Ends {
		end := orElse(p.Names.Ends[i], [2]string{"datum end", "far end"}[i])
		all = append(all,
			dimension{end + " radius", length(func(p *model.Part) float64 { return p.Ends[i].Radius })},
			dimension{end + " miter", func(p *model.Part, _ expr.Unit) string { return expr.Angle(abs(p.Ends[i].Miter), 0.5) }},
			dimension{end + " bevel", func(p *model.Part, _ expr.Unit) string { return expr.Angle(abs(p.Ends[i].Bevel), 0.5) }},
		)
	}
	return append(all, holes(p)...)
}

// holes compares where the holes of p are that have a name.
func holes(p *model.Part) []dimension {
	var all []dimension
	for i, h := range p.Holes {
		if h.Name == "" || h.Matched || strings.Contains(h.Name, ".") { // those with a dot follow from a joint
			continue
		}
		get := func(of func(model.Hole) float64) func(*model.Part, expr.Unit) string {
			return func(p *model.Part, u expr.Unit) string {
				if i >= len(p.Holes) {
					return "–"
				}
				return u.Length(of(p.Holes[i]), expr.Fine)
			}
		}
		all = append(all,
			dimension{model.Spoken(h.Name) + " hole, along", get(func(h model.Hole) float64 { return h.Along })},
			dimension{model.Spoken(h.Name) + " hole, across", get(func(h model.Hole) float64 { return h.Across })},
		)
	}
	return all
}

// taper returns the first taper of a part, or none.
func taper(p *model.Part) model.Taper {
	if len(p.Tapers) == 0 {
		return model.Taper{}
	}
	return p.Tapers[0]
}
