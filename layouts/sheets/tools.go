package sheets

import (
	"slices"
	"strings"

	"planset/layouts/tables"
	"planset/model/expr"
	"planset/model/shop"
)

// tools lists what must be at hand, and the drills by size.
func tools(d *desk, s sheet) {
	all := shop.Tools(d.plan)
	if len(all) == 0 {
		return
	}
	l := d.leaf(s, s.title, "Lay everything out before the first cut.")
	for _, t := range all {
		if t.Uncommon {
			text := "You may not own this one: " + lowerFirst(t.Name) + ", for " + t.For + "."
			if t.Instead != "" {
				text += " Instead: " + t.Instead + "."
			}
			l.para(0, bodyW, text, strong)
			l.skip(4)
		}
	}
	l = l.list(toolTable(d, all))
	bits := shop.Bits(d.plan)
	if len(bits) == 0 {
		return
	}
	l.skip(5)
	table := bitTable(d, bits)
	l = l.need(15 + 6*float64(len(table.Rows)))
	l.under("Drills")
	l.list(table)
}

func toolTable(d *desk, all []shop.Tool) *tables.Table {
	t := &tables.Table{Narrow: true, Gap: 3.4, Pad: 1.4, Columns: []tables.Column{
		{Title: "Tool", Share: 46}, {Title: "Needed for", Share: 46}, {Title: "Parts", Width: 22},
		{Title: "Steps", Width: 20}, {Title: "Size, setting", Share: 34}, {Title: "Or instead", Share: 44},
	}}
	for _, a := range all {
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(a.Name), cell(a.For), cell(codes(d, a.Parts)), cell(shop.Numbers(a.Steps)), cell(a.Size), cell(a.Instead),
		}})
	}
	return t
}

// codes writes part letters; when every part is among them, "all".
func codes(d *desk, parts []string) string {
	all := map[string]bool{}
	for _, p := range d.plan.Parts {
		all[shop.FamilyCode(p)] = true
	}
	if len(parts) == len(all) {
		return "all"
	}
	return strings.Join(parts, ", ")
}

// bitTable lists the drills, thickest first, with where to set the stop: one row
// for a drill, its depths one after the other with the parts they are for.
func bitTable(d *desk, bits []shop.Bit) *tables.Table {
	t := &tables.Table{Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Drill", Width: 22, Align: tables.OnFraction}, {Title: "For", Share: 34},
		{Title: "In parts", Share: 26}, {Title: "Depth stop at", Share: 60}, {Title: "At hand", Width: 16, Align: tables.Middle},
	}}
	for i := 0; i < len(bits); {
		n := i + 1
		for n < len(bits) && bits[n].Size == bits[i].Size && bits[n].What == bits[i].What {
			n++
		}
		parts, depth := d.depths(bits[i:n])
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(bits[i].Size), cell(bits[i].What), cell(parts), cell(depth), tick(),
		}})
		i = n
	}
	return t
}

// depths are the parts that one drill is for, and how deep it goes in each.
func (d *desk) depths(bits []shop.Bit) (parts, depth string) {
	var all, deep []string
	for _, b := range bits {
		for _, code := range b.For {
			if !slices.Contains(all, code) {
				all = append(all, code)
			}
		}
		s := "right through"
		if b.Depth > 0 {
			s = d.plan.Unit.LongTo(b.Depth, expr.Coarse)
		}
		if len(bits) > 1 {
			s += " in " + strings.Join(b.For, ", ")
		}
		deep = append(deep, s)
	}
	slices.Sort(all)
	return strings.Join(all, ", "), strings.Join(deep, "; ")
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
