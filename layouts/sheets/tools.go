package sheets

import (
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
			l.para(0, 132, text, strong)
			l.skip(4)
		}
	}
	l = l.list(toolTable(d, all))
	bits := shop.Bits(d.plan)
	if len(bits) == 0 {
		return
	}
	l.skip(5)
	l = l.need(15 + 6*float64(len(bits)))
	l.under("Drills")
	l.list(bitTable(d, bits))
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

// bitTable lists the drills, thickest first, with where to set the stop.
func bitTable(d *desk, bits []shop.Bit) *tables.Table {
	t := &tables.Table{Narrow: true, Pad: 1.5, Columns: []tables.Column{
		{Title: "Drill", Width: 22, Align: tables.OnFraction}, {Title: "For", Share: 40},
		{Title: "In parts", Share: 40}, {Title: "Depth stop at", Share: 30}, {Title: "At hand", Width: 16, Align: tables.Middle},
	}}
	for _, b := range bits {
		depth := "right through"
		if b.Depth > 0 {
			depth = d.plan.Unit.LongTo(b.Depth, expr.Coarse)
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(b.Size), cell(b.What), cell(strings.Join(b.For, ", ")), cell(depth), tick(),
		}})
	}
	return t
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
