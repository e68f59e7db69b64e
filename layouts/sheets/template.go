package sheets

import (
	"planset/layouts/tiles"
)

// templates prints the full-size range at the back: a map of every template,
// then their sheets.
func templates(d *desk, s sheet) {
	all := Templates(d.plan)
	if len(all) == 0 {
		return
	}
	var layouts []tiles.Layout
	for _, t := range all {
		layouts = append(layouts, tiles.Lay(t, d.paper()))
	}
	p := d.plan
	run := tiles.Pages(layouts, tiles.Look{
		Title: p.Title, Edition: d.edition(), Revision: p.Revision, Date: p.Date, Accent: d.accent, Unit: p.Unit,
		First: len(d.leaves) + 1, Total: max(d.total, len(d.leaves)+1),
	})
	for i := range run.Pages {
		page := run.Pages[i]
		l := d.leaf(s, page.Title, "")
		l.bare, l.ready, l.items = true, &page, page.Items
		for k, start := range run.Starts {
			if i == start {
				d.mark("Template "+all[k].Code+", "+all[k].Name, 1)
				d.nameTemplate(all[k].Code)
			}
		}
	}
}

// nameTemplate lets other sheets refer to a template by the code of a part or
// of any member of its family.
func (d *desk) nameTemplate(code string) {
	d.name("template " + code)
	for _, q := range d.plan.Parts {
		if q.Family == code {
			d.name("template " + q.Code)
		}
	}
}

func (d *desk) paper() tiles.Paper {
	if d.in.Paper == "a4" {
		return tiles.A4()
	}
	return tiles.Letter()
}
