package sheets

import (
	"fmt"
	"slices"

	"planset/layouts/tiles"
	"planset/model/shop"
)

// templates prints the full-size range at the back: a map of every template,
// then their sheets.
func templates(d *desk, s sheet) {
	all := Templates(d.plan)
	if len(all) == 0 {
		return
	}
	first := len(d.leaves) + 1
	total := max(d.total, first)
	run, made := d.ahead.run(first, total)
	if !made {
		run = d.tiled(all, first, total)
	}
	d.nameTemplates(all, run)
	for i := range run.Pages {
		page := run.Pages[i]
		l := d.leaf(s, page.Title, "")
		l.bare, l.ready, l.items = true, &page, page.Items
		for k, start := range run.Starts {
			if i == start {
				d.mark("Template "+all[k].Code+", "+all[k].Name, 1)
			}
		}
	}
}

// tiled lays the templates out, the first of their pages being number first of
// total.
func (d *desk) tiled(all []tiles.Template, first, total int) tiles.Run {
	var layouts []tiles.Layout
	for _, t := range all {
		layouts = append(layouts, tiles.Lay(t, d.paper()))
	}
	p := d.plan
	return tiles.Pages(layouts, tiles.Look{
		Title: p.Title, Edition: d.edition(), Revision: p.Revision, Date: p.Date, Accent: d.accent, Unit: p.Unit,
		First: first, Total: total,
	})
}

// A templateRun is the run of templates made beside the other sheets, for the
// page numbers of the pass before.
type templateRun struct {
	first, total int
	done         chan tiles.Run
}

// startTemplates begins the templates of a pass that knows from the one before
// which numbers their pages should get: nothing else on the desk bears on them.
func (d *desk) startTemplates() {
	i, known := d.refs["templates"]
	if !known {
		return
	}
	a := &templateRun{first: i + 1, total: max(d.total, i+1), done: make(chan tiles.Run, 1)}
	d.ahead = a
	go func() { a.done <- d.tiled(Templates(d.plan), a.first, a.total) }()
}

// run returns the templates when they were begun with these numbers.
func (a *templateRun) run(first, total int) (tiles.Run, bool) {
	if a == nil || a.first != first || a.total != total {
		return tiles.Run{}, false
	}
	return <-a.done, true
}

// nameTemplates lets other sheets refer to every page of a template by the code
// of a part or of any member of its family; the run begins on the next page.
func (d *desk) nameTemplates(all []tiles.Template, run tiles.Run) {
	for k, t := range all {
		pages := slices.Compact(slices.Sorted(slices.Values(run.On[k])))
		for n, i := range pages {
			d.now[templateRef(t.Code, n)] = len(d.leaves) + i
			for _, q := range d.plan.Parts {
				if q.Family == t.Code {
					d.now[templateRef(q.Code, n)] = len(d.leaves) + i
				}
			}
		}
	}
}

// templateRef is the name of the n-th page of a template, from 0.
func templateRef(code string, n int) string {
	if n == 0 {
		return "template " + code
	}
	return fmt.Sprintf("template %s, page %d", code, n+1)
}

// templatePages are the numbers of the pages of a part's template, from 1.
func (d *desk) templatePages(code string) []int {
	var out []int
	for n := 0; d.page(templateRef(code, n)) > 0; n++ {
		out = append(out, d.page(templateRef(code, n)))
	}
	return out
}

// onTemplate writes "p. 36, 38", or nothing when there is no template.
func (d *desk) onTemplate(code string) string {
	if pages := d.templatePages(code); len(pages) > 0 {
		return "p. " + shop.Numbers(pages)
	}
	return ""
}

func (d *desk) paper() tiles.Paper {
	if d.in.Paper == "a4" {
		return tiles.A4()
	}
	return tiles.Letter()
}
