package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/model/wood"
)

// jigSheet gathers every setting of saw, jig and drill on one place, so that a
// set-up is made once for all parts that need it.
func jigSheet(d *desk, s sheet) {
	const purpose, head = "Set up once, cut all the parts that need it, then change the setting.", 34.0
	// Below the joints or the part drawings when it fits there whole.
	if least := head + 50; len(d.leaves) > 0 && d.roomFor(s, least) {
		aside := clearDesk(d.in, d.sheets, d.store)
		aside.refs, aside.total = d.refs, d.total
		if first := aside.leaf(s, s.title, purpose); first.jigs() == first {
			d.share(s, purpose, head+first.body.Max.Y-first.y).jigs()
			return
		}
	}
	d.leaf(s, s.title, purpose).jigs()
}

// jigs fills the sheet and returns its last page.
func (l *leaf) jigs() *leaf {
	return l.sawTable().inColumns(slices.Concat(l.d.sketches(), l.d.pocketJigs(), l.d.stopsAndDrills()))
}

// How wide a column of the sheet is, and the room between the two, mm.
const (
	sketchW   = 88.0
	sketchGap = 8.0
)

// inColumns sets blocks in two columns, each one where there is more room, and
// returns the last page.
func (l *leaf) inColumns(blocks []block) *leaf {
	const apart = 5.0
	if l.y < l.body.Max.Y {
		l.skip(apart)
	}
	y := [2]float64{l.y, l.y}
	for _, b := range blocks {
		i := 0
		if y[1] > y[0]+0.5 {
			i = 1
		}
		if y[i]-b.height < l.body.Min.Y {
			l = l.d.leaf(l.sheet, l.sheet.title, "Continued from the page before.")
			y, i = [2]float64{l.y, l.y}, 0
		}
		l.add(Moved(b.items, pt(l.left()+float64(i)*(sketchW+sketchGap), y[i]))...)
		y[i] -= b.height + apart
		l.y = min(y[0], y[1])
	}
	return l
}

// named is the heading of a block in a column.
func named(s string) block {
	items, h := lettering.Paragraph(geom.Pt{}, s, sketchW, caption)
	return block{items, h + 2.2}
}

// ruled is a table under its heading, or nothing when it has no rows.
func (d *desk) ruled(name string, t *tables.Table) []block {
	if len(t.Rows) == 0 {
		return nil
	}
	t.Accent = d.accent
	laid, faults := tables.Lay(t, sketchW)
	d.problems = append(d.problems, faults...)
	const most = fieldH - headH - footH - 10 // below a heading on a page of its own
	var out []block
	for from := 0; from < laid.Rows(); {
		to := max(from+1, laid.Fit(from, most))
		items, h := laid.Draw(geom.Pt{}, from, to)
		out = append(out, under(named(name), block{items, h}))
		from = to
	}
	return out
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
	l.under("Saw settings")
	l = l.list(t)
	if slices.ContainsFunc(rows, func(r setting) bool { return strings.Contains(r.gauge, "(") }) {
		l.skip(1.6)
		l.para(0, bodyW, "In brackets: what a gauge reads that says 90° where this plan says square.", plain)
	}
	return l
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
			s.gauge = gaugeWords(m)
			s.note = orElse(p.Names.Edges[e.LongEdge&1], "marked") + " edge"
		}
		if e.Bevel != 0 {
			s.tilt = expr.Angle(math.Abs(e.Bevel), 0.5)
			s.note = strings.TrimPrefix(s.note+" and "+faceName(p, e.LongFace), " and ")
		}
		if s.note != "" && m <= math.Pi/4 {
			s.note += " longer"
		}
		if e.Flat > 0 {
			s.where += ", " + orElse(e.By, "flat") + " cut"
			s.note += ", " + u.Long(e.Flat) + " long"
		}
		out = append(out, s)
	}
	if e.Then != 0 {
		out = append(out, setting{p, where + ", second cut", gaugeWords(math.Abs(e.Then)), "–", "plumb when the part stands in its place"})
	}
	return out
}

// gaugeWords is an angle off square, and in brackets as a gauge reads it that says
// 90 for square.
func gaugeWords(off float64) string {
	said := math.Round(off*180/math.Pi*2) / 2 // to half a degree, so that both add up
	return expr.Angle(off, 0.5) + " (" + expr.Angle((90-said)*math.Pi/180, 0.5) + ")"
}

// stopsAndDrills are the two lists for the bench.
func (d *desk) stopsAndDrills() []block {
	return slices.Concat(d.ruled("Drills and stops", d.drillTable()), d.ruled("Stop block for repeated lengths", d.stopBlocks()))
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

// pocketJigs give the setting of the pocket jig.
func (d *desk) pocketJigs() []block {
	u := d.plan.Unit
	var texts []string
	for _, p := range d.plan.Parts {
		if len(p.Pockets) == 0 {
			continue
		}
		s := "Set jig and drill collar for stock " + u.Long(p.Thick) + " thick: " + familyOr(p) + "."
		if j := p.Pockets[0].Joint; j != nil && j.Hardware != nil {
			s += " Screws " + hardwareName(j.Hardware, u) + "."
		}
		texts = appendNew(texts, s+" The drill leans "+digits(int(wood.PocketAngle))+"° to the face.")
	}
	if len(texts) == 0 {
		return nil
	}
	words := strings.Join(texts, " ")
	items, h := lettering.Paragraph(geom.Pt{}, words, evened(words, sketchW, plain), plain)
	return []block{under(named("Pocket jig"), block{items, h})}
}

// drillTable lists the drills with the depth of their stops.
func (d *desk) drillTable() *tables.Table {
	u := d.plan.Unit
	t := &tables.Table{Least: 5.6, Columns: []tables.Column{
		{Title: "Drill", Width: 13}, {Title: "For", Share: 1}, {Title: "Stop", Width: 17}, {Title: "Parts", Width: 20},
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
