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
	for _, make := range [...]func(*leaf) *leaf{(*leaf).sawTable, (*leaf).taperJigs, (*leaf).pocketJigs, (*leaf).stopsAndDrills} {
		l = make(l)
	}
}

// section leaves room for a heading and what belongs to it.
func (l *leaf) jig(name string, h float64) *leaf {
	if l.y < l.body.Max.Y {
		l.skip(4.5)
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

// like reports whether both are cut with one set-up.
func (s setting) like(t setting) bool {
	return s.part == t.part && s.gauge == t.gauge && s.tilt == t.tilt && s.note == t.note
}

// sawTable lists all cuts off square.
func (l *leaf) sawTable() *leaf {
	rows := l.d.settings()
	if len(rows) == 0 {
		return l
	}
	t := &tables.Table{Least: 5.6, Columns: []tables.Column{
		{Title: "Part", Width: 12}, {Title: "Cut", Share: 0.9}, {Title: "Miter, off square", Width: 27}, {Title: "Blade tilt", Width: 17}, {Title: "How", Share: 1.8},
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
			rows := endSettings(p, i, e, d.plan.Unit)
			if i == 1 && len(rows) == 1 && len(out) > 0 && rows[0].like(out[len(out)-1]) {
				out[len(out)-1].where = "both ends"
				continue
			}
			out = append(out, rows...)
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

// stopsAndDrills sets two lists side by side.
func (l *leaf) stopsAndDrills() *leaf {
	type list struct {
		name string
		laid *tables.Laid
	}
	var lists []list
	for _, t := range [...]struct {
		name  string
		table *tables.Table
	}{{"Stop block for repeated lengths", l.d.stopBlocks()}, {"Drills and stops", l.d.drillTable()}} {
		if len(t.table.Rows) == 0 {
			continue
		}
		t.table.Accent = l.d.accent
		laid, faults := tables.Lay(t.table, jointW)
		l.d.problems = append(l.d.problems, faults...)
		lists = append(lists, list{t.name, laid})
	}
	high := 0.0
	for _, t := range lists {
		high = max(high, t.laid.Height(0, t.laid.Rows())+6)
	}
	if high == 0 {
		return l
	}
	l.skip(5)
	l = l.need(high)
	for i, t := range lists {
		x := l.left() + float64(i)*(jointW+jointGap)
		h := l.paraAt(pt(x, l.y), jointW, t.name, caption)
		items, _ := t.laid.Draw(pt(x, l.y-h-2.2), 0, t.laid.Rows())
		l.add(items...)
	}
	l.skip(high)
	return l
}

// stopBlocks lists the lengths that are cut more than once.
func (d *desk) stopBlocks() *tables.Table {
	u := d.plan.Unit
	t := &tables.Table{Least: 5.6, Columns: []tables.Column{
		{Title: "Part", Width: 12}, {Title: "Name", Share: 1}, {Title: "Pieces", Width: 13, Align: tables.Right}, {Title: "Stop at", Width: 24, Align: tables.OnFraction},
	}}
	for _, set := range families(d.plan) {
		p, n := set[0], 0
		for _, q := range set {
			n += q.Quantity
		}
		if n < 2 || p.Free || p.Ends[0].Shape == "cut" || p.Ends[1].Shape == "cut" {
			continue
		}
		name := p.Name
		if p.RoughLength > p.Length+0.5 || len(set) > 1 {
			name += ", rough"
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			{Tabs: []tables.Tab{{Code: familyOr(p)}}, Page: d.tabPage(p)}, cell(name), cell(digits(n)), bold(u.Length(max(p.RoughLength, p.Length), expr.Coarse)),
		}})
	}
	return t
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
func (d *desk) drillTable() *tables.Table {
	u := d.plan.Unit
	t := &tables.Table{Least: 5.6, Columns: []tables.Column{
		{Title: "Drill", Width: 15}, {Title: "For", Share: 1}, {Title: "Stop", Width: 22}, {Title: "Parts", Width: 18},
	}}
	for _, b := range shop.Bits(d.plan) {
		deep := "through"
		if b.Depth > 0 {
			deep = u.LongTo(b.Depth, expr.Fine)
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{bold(strings.ReplaceAll(b.Size, "/", "⁄")), cell(b.What), cell(deep), cell(strings.Join(b.For, ", "))}})
	}
	return t
}
