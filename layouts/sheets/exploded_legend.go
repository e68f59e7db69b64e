package sheets

import (
	"slices"

	"planset/layouts/tables"
)

// A legendLine is one line of a legend.
type legendLine struct {
	tabs []tables.Tab
	name string
	n    int
}

// legend lists the parts and the hardware of a view in so many groups of
// columns.
func (d *desk) legend(pieces []int, groups int) *tables.Table {
	lines := append(d.legendParts(pieces), d.legendHardware(pieces)...)
	t := &tables.Table{Accent: d.accent, Narrow: true}
	for range groups {
		t.Columns = append(t.Columns, tables.Column{Width: 9}, tables.Column{Title: "What", Share: 1}, tables.Column{Title: "Pieces", Width: 13, Align: tables.Right})
	}
	rows := (len(lines) + groups - 1) / groups
	for i := range rows {
		var row tables.Row
		for k := i; k < rows*groups; k += rows {
			if k < len(lines) {
				l := lines[k]
				row.Cells = append(row.Cells, tables.Cell{Tabs: l.tabs, Page: d.page("part " + firstCode(l.tabs))}, cell(l.name), cell(digits(l.n)))
			} else {
				row.Cells = append(row.Cells, cell(""), cell(""), cell(""))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// legendParts counts the pieces of each part, a family as one.
func (d *desk) legendParts(pieces []int) []legendLine {
	var lines []legendLine
	at := map[string]int{}
	for _, p := range d.plan.Parts {
		n := 0
		for _, i := range pieces {
			if d.plan.Placed[i].Part == p {
				n++
			}
		}
		code := familyOr(p)
		switch k, had := at[code]; {
		case n == 0:
		case had:
			lines[k].n += n
		default:
			at[code] = len(lines)
			lines = append(lines, legendLine{[]tables.Tab{{Code: code}}, p.Name, n})
		}
	}
	return lines
}

// legendHardware counts what holds pieces together, washers and nuts too.
func (d *desk) legendHardware(pieces []int) []legendLine {
	var lines []legendLine
	for _, h := range d.plan.Hardware {
		n := 0
		for _, j := range d.plan.Joints {
			if j.Hardware != h && !slices.Contains(j.With, h) {
				continue
			}
			for _, f := range j.Fasteners {
				if slices.Contains(pieces, f.Pieces[0]) && slices.Contains(pieces, f.Pieces[1]) {
					n++
				}
			}
		}
		if n > 0 {
			lines = append(lines, legendLine{nil, hardwareName(h, d.plan.Unit), n})
		}
	}
	return lines
}

func firstCode(tabs []tables.Tab) string {
	if len(tabs) == 0 {
		return ""
	}
	return tabs[0].Code
}
