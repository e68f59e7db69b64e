package sheets

import (
	"slices"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/shop"
)

// changesHigh is how much room the log needs under another sheet, in mm.
func changesHigh(d *desk) float64 { return 38 + 9*float64(len(d.plan.Changes)) }

// changesIfRoom puts the log at the foot of a page that has room for it. It is
// short, and a page of its own would be almost empty.
func changesIfRoom(d *desk, s sheet) {
	if d.roomFor(s, changesHigh(d)) {
		changes(d, s)
	}
}

// changes is the log of revisions, in the order of the model, unless it stands
// on a page already.
func changes(d *desk, s sheet) {
	if _, had := d.now[s.key]; had || len(d.plan.Changes) == 0 {
		return
	}
	l := d.share(s, "Compare the rev letter in the foot of your pages before you cut.", changesHigh(d))
	told := slices.ContainsFunc(d.plan.Changes, func(c model.Change) bool { return len(c.Parts) > 0 })
	t := &tables.Table{Columns: []tables.Column{{Title: "Rev", Width: 12}, {Title: "Date", Width: 26}, {Title: "What changed", Share: 1}}}
	if told {
		t.Columns = append(t.Columns, tables.Column{Title: "Pages", Width: 22})
	}
	t.Columns = append(t.Columns, tables.Column{Title: "Parts already cut", Width: 44})
	for _, c := range d.plan.Changes {
		row := tables.Row{Cells: []tables.Cell{bold(c.Revision), cell(c.Date), cell(c.Text)}}
		if told {
			row.Cells = append(row.Cells, d.changedPages(c))
		}
		cut := "not affected"
		if c.Recut {
			cut = "affected: check them"
		}
		row.Cells = append(row.Cells, tables.Cell{Text: cut, Bold: c.Recut})
		t.Rows = append(t.Rows, row)
	}
	l.list(t)
}

// changedPages are the drawings and the templates of the parts that changed.
func (d *desk) changedPages(c model.Change) tables.Cell {
	var pages []int
	for _, p := range c.Parts {
		for _, n := range append(d.templatePages(p.Code), d.tabPage(p)) {
			if n > 0 && !slices.Contains(pages, n) {
				pages = append(pages, n)
			}
		}
	}
	if len(pages) == 0 {
		return cell("–")
	}
	slices.Sort(pages)
	return tables.Cell{Text: shop.Numbers(pages), Page: pages[0]}
}
