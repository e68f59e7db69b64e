package sheets

import "planset/layouts/tables"

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
