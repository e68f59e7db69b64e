package sheets

import (
	"math"
	"strings"

	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
	"planset/model/wood"
)

// jigSheet gathers every setting of saw, jig and drill on one place, so that a
// set-up is made once for all parts that need it.
func jigSheet(d *desk, s sheet) {
	l := d.leaf(s, s.title, "Set up once, cut all the parts that need it, then change the setting.")
	for _, make := range [...]func(*leaf) *leaf{(*leaf).sawTable, (*leaf).taperJigs, (*leaf).stopBlocks, (*leaf).pocketJigs, (*leaf).drillTable} {
		l = make(l)
	}
}

// section leaves room for a heading and what belongs to it.
func (l *leaf) jig(name string, h float64) *leaf {
	if l.y < l.body.Max.Y {
		l.skip(6)
	}
	l = l.need(h + 8)
	l.under(name)
	return l
}

// A setting is one row of the saw table.
type setting struct {
	part               *model.Part
	where, gauge, tilt string
	note               string
}

// sawTable lists all cuts off square.
func (l *leaf) sawTable() *leaf {
	rows := l.d.settings()
	if len(rows) == 0 {
		return l
	}
	t := &tables.Table{Columns: []tables.Column{
		{Title: "Part", Width: 14}, {Title: "Cut", Share: 1.1}, {Title: "Miter, off square", Share: 0.8}, {Title: "Blade tilt", Share: 0.7}, {Title: "How", Share: 1.6},
	}}
	for _, r := range rows {
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			{Tabs: []tables.Tab{{Code: familyOr(r.part)}}, Page: l.d.tabPage(r.part)}, cell(r.where), bold(r.gauge), bold(r.tilt), cell(r.note),
		}})
	}
	l = l.jig("Saw settings", 30)
	return l.list(t)
}

// settings reads the cuts off square from the parts.
func (d *desk) settings() []setting {
	var out []setting
	for _, set := range families(d.plan) {
		p := set[0]
		for i, e := range p.Ends {
			out = append(out, endSettings(p, i, e, d.plan.Unit)...)
		}
		for i, e := range p.Edges {
			if e.Bevel == 0 {
				continue
			}
			out = append(out, setting{p, orElse(p.Names.Edges[i], "one") + " edge", "–", expr.Angle(math.Abs(e.Bevel), 0.5),
				"rip with the " + orElse(p.Names.Faces[e.LongFace&1], "marked") + " face left wider"})
		}
	}
	return out
}

// endSettings are the one or two cuts of an end.
func endSettings(p *model.Part, i int, e model.EndCut, u expr.Unit) []setting {
	where := orElse(p.Names.Ends[i], [2]string{"datum", "far"}[i]) + " end"
	var out []setting
	if e.Miter != 0 || e.Bevel != 0 {
		s := setting{p, where, "square", "–", ""}
		m := math.Abs(e.Miter)
		switch {
		case m > math.Pi/4:
			s.gauge = "–"
			s.note = "too steep for a miter gauge: saw along a line " + expr.Angle(math.Pi/2-m, 0.5) + " off the edge"
		case m > 0:
			s.gauge = expr.Angle(m, 0.5)
			s.note = "the " + orElse(p.Names.Edges[e.LongEdge&1], "marked") + " edge stays longer"
		}
		if e.Bevel != 0 {
			s.tilt = expr.Angle(math.Abs(e.Bevel), 0.5)
			s.note = strings.TrimPrefix(s.note+"; the "+faceName(p, e.LongFace)+" stays longer", "; ")
		}
		if e.Flat > 0 {
			s.where += ", " + orElse(e.By, "flat") + " cut"
			s.note += ", " + u.Long(e.Flat) + " long"
		}
		out = append(out, s)
	}
	if e.Then != 0 {
		out = append(out, setting{p, where + ", second cut", expr.Angle(math.Abs(e.Then), 0.5), "–", "plumb when the part stands in its place"})
	}
	return out
}

// stopBlocks lists the lengths that are cut more than once.
func (l *leaf) stopBlocks() *leaf {
	u := l.d.plan.Unit
	t := &tables.Table{Columns: []tables.Column{
		{Title: "Part", Width: 14}, {Title: "Name", Share: 1}, {Title: "Pieces", Width: 16, Align: tables.Right}, {Title: "Stop at", Share: 0.7, Align: tables.OnFraction}, {Title: "Note", Share: 1.6},
	}}
	for _, set := range families(l.d.plan) {
		p, n := set[0], 0
		for _, q := range set {
			n += q.Quantity
		}
		if n < 2 || p.Free || p.Found {
			continue
		}
		long, note := p.Length, "both alike"
		if n > 2 {
			note = "all alike"
		}
		if p.RoughLength > p.Length+0.5 || len(set) > 1 {
			long, note = p.RoughLength, "rough length; finish lengths are on the part's drawing"
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			{Tabs: []tables.Tab{{Code: familyOr(p)}}, Page: l.d.tabPage(p)}, cell(p.Name), cell(digits(n)), bold(u.Length(long, expr.Coarse)), cell(note),
		}})
	}
	if len(t.Rows) == 0 {
		return l
	}
	l = l.jig("Stop block for repeated lengths", 30)
	return l.list(t)
}

// pocketJigs gives the setting of the pocket jig.
func (l *leaf) pocketJigs() *leaf {
	u := l.d.plan.Unit
	done := map[string]bool{}
	var texts []string
	for _, p := range l.d.plan.Parts {
		if len(p.Pockets) == 0 {
			continue
		}
		s := "Set jig and drill collar for stock " + u.Long(p.Thick) + " thick: " + familyOr(p) + "."
		if j := p.Pockets[0].Joint; j != nil && j.Hardware != nil {
			s += " Screws " + hardwareName(j.Hardware, u) + "."
		}
		s += " The drill leans " + digits(int(wood.PocketAngle)) + "° to the face."
		if !done[s] {
			done[s] = true
			texts = append(texts, s)
		}
	}
	if len(texts) == 0 {
		return l
	}
	l = l.jig("Pocket jig", 14)
	l.para(0, bodyW, strings.Join(texts, " "), plain)
	return l
}

// drillTable lists the drills with the depth of their stops.
func (l *leaf) drillTable() *leaf {
	bits := shop.Bits(l.d.plan)
	if len(bits) == 0 {
		return l
	}
	u := l.d.plan.Unit
	t := &tables.Table{Columns: []tables.Column{
		{Title: "Drill", Width: 24}, {Title: "For", Share: 1}, {Title: "Stop", Share: 0.7}, {Title: "Parts", Share: 1},
	}}
	for _, b := range bits {
		deep := "right through"
		if b.Depth > 0 {
			deep = u.LongTo(b.Depth, expr.Fine) + " deep"
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{bold(strings.ReplaceAll(b.Size, "/", "⁄")), cell(b.What), cell(deep), cell(strings.Join(b.For, ", "))}})
	}
	l = l.jig("Drills and stops", 30)
	return l.list(t)
}
