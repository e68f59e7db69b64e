package sheets

import (
	"strings"

	"planset/layouts/tables"
	"planset/model/buying"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop"
	"planset/render"
)

// setupPair is the two tables of settings, side by side: crosscuts at the left,
// rips and tapers at the right.
type setupPair struct {
	left, right *tables.Laid
	height      float64 // with the heading over them, mm; 0 when there is nothing to set
}

// Measures of the tables of settings, mm.
const (
	setupHead  = 11.0 // the rule, the caption over the tables
	setupGap   = 8.0  // between the two
	setupBelow = 4.0
)

// setupTables lists the settings that serve several pieces, with the boards
// they are wanted on, so that each is set once.
func setupTables(d *desk) setupPair {
	stops := &tables.Table{Narrow: true, Least: 5.8, Pad: 1.2, Columns: setupColumns("Crosscut, stop at", "Pieces")}
	fences := &tables.Table{Narrow: true, Least: 5.8, Pad: 1.2, Columns: setupColumns("Then rip, fence at", "Rips")}
	for _, s := range buying.Setups(d.in.Cuts) {
		t, at := fences, d.plan.Unit.LongTo(s.At, expr.Fine)
		switch s.Kind {
		case buying.Stop:
			t, at = stops, d.plan.Unit.LongTo(s.At, expr.Coarse) // as in the cut list
		case buying.Jig:
			at = "taper " + at + " in " + d.plan.Unit.LongTo(s.Over, expr.Coarse)
		}
		t.Rows = append(t.Rows, tables.Row{Cells: []tables.Cell{
			bold(at), cell(strings.Join(s.Codes, ", ")), cell(shop.Numbers(s.Boards)), cell(digits(s.Cuts)),
		}})
	}
	var pair setupPair
	const half = (bodyW - setupGap) / 2
	for _, one := range []struct {
		t    *tables.Table
		laid **tables.Laid
	}{{stops, &pair.left}, {fences, &pair.right}} {
		if len(one.t.Rows) == 0 {
			continue
		}
		one.t.Accent = d.accent
		laid, faults := tables.Lay(one.t, half)
		d.problems = append(d.problems, faults...)
		*one.laid = laid
		pair.height = max(pair.height, setupHead+laid.Height(0, laid.Rows())+setupBelow)
	}
	return pair
}

func setupColumns(what, count string) []tables.Column {
	return []tables.Column{
		{Title: what, Share: 40}, {Title: "Parts", Share: 30}, {Title: "Boards", Share: 20}, {Title: count, Width: 12, Align: tables.Right},
	}
}

// setups sets the two tables.
func (l *leaf) setups(p setupPair) *leaf {
	if p.height == 0 {
		return l
	}
	l = l.need(p.height)
	l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
	l.skip(4)
	l.under("Set each once, for all boards")
	low := 0.0
	x := l.left()
	for _, laid := range []*tables.Laid{p.left, p.right} {
		if laid == nil {
			continue
		}
		items, h := laid.Draw(geom.Pt{X: x, Y: l.y}, 0, laid.Rows())
		l.add(items...)
		low = max(low, h)
		x += (bodyW + setupGap) / 2
	}
	l.skip(low + setupBelow)
	return l
}
