package sheets

import (
	"planset/layouts/tiles"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// templates prints the full-size range: a map of every template, then their
// sheets. A family has one template, that of its longest member.
func templates(d *desk, s sheet) {
	var layouts []tiles.Layout
	var parts []*model.Part
	for _, set := range families(d.plan) {
		if !set[0].Template || len(set[0].Board.Outline) == 0 {
			continue
		}
		layouts = append(layouts, tiles.Lay(d.template(set), d.paper()))
		parts = append(parts, set[0])
	}
	if len(layouts) == 0 {
		return
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
				d.mark("Template "+familyOr(parts[k])+", "+parts[k].Name, 1)
				d.nameTemplate(parts[k])
			}
		}
	}
}

// nameTemplate lets other sheets refer to the template of a part or its family.
func (d *desk) nameTemplate(p *model.Part) {
	for _, q := range d.plan.Parts {
		if q == p || q.Family != "" && q.Family == p.Family {
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

// template is a part's shape, ready to be laid out. It is printed as the part
// lies with its first face up, whichever face its drawing shows.
func (d *desk) template(set []*model.Part) tiles.Template {
	p := set[0]
	u := d.plan.Unit
	t := tiles.Template{
		Code: familyOr(p), Name: p.Name, Outline: p.Board.Outline, Blank: geom.Size{W: p.Length, H: p.Width},
		End: p.Names.Ends[0], Edge: p.Names.Edges[0],
	}
	face := p.Names.Faces[0]
	if face != "" {
		t.Face = face + " face up"
	}
	n := 0
	for _, q := range set {
		n += q.Quantity
	}
	t.Note = "cut " + digits(n)
	if p.Hand == model.Pair {
		t.Hand = "R"
		t.Note = "cut " + digits(n) + ": " + count(n/2) + " this way up, " + count(n/2) + " turned over"
	}
	for _, h := range p.Holes {
		if h.Into != "face" || h.Kind == model.PilotHole {
			continue
		}
		note := u.Length(h.Diam, expr.Drill)
		t.Holes = append(t.Holes, tiles.Hole{At: geom.Pt{X: h.Along, Y: h.Across}, Diam: h.Diam, Note: note, Matched: h.Matched})
	}
	if len(set) > 1 {
		t.Family = append(t.Family, []string{"part", "make", "length"})
		for _, q := range set {
			t.Family = append(t.Family, []string{q.Code, digits(q.Quantity), u.Length(q.Length, expr.Coarse)})
		}
	}
	return t
}
