package sheets

import "planset/layouts/tables"

// changes is the log of revisions, newest first as the model has it.
func changes(d *desk, s sheet) {
	if len(d.plan.Changes) == 0 {
		return
	}
	l := d.share(s, "Compare the rev letter in the foot of your pages before you cut.", 36+9*float64(len(d.plan.Changes)))
	t := &tables.Table{Columns: []tables.Column{
		{Title: "Rev", Width: 12}, {Title: "Date", Width: 26}, {Title: "What changed", Share: 1}, {Title: "Parts already cut", Width: 44},
	}}
	for _, c := range d.plan.Changes {
		cut := "not affected"
		if c.Recut {
			cut = "affected: check them"
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{bold(c.Revision), cell(c.Date), cell(c.Text), {Text: cut, Bold: c.Recut}}})
	}
	l.list(t)
}
