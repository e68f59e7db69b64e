package tables

import (
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// titleRule is the line under the column titles, the one heavier line of a table.
var titleRule = render.Pen{Width: 0.35}

// drawTitles sets the column titles, their feet on one line.
func (l *Laid) drawTitles(top geom.Pt) []render.Item {
	if l.head == 0 {
		return nil
	}
	st := l.t.title()
	var items []render.Item
	foot := top.Y - l.head + headGap
	for i, c := range l.t.Columns {
		if c.Title == "" {
			continue
		}
		lines := lettering.Wrap(c.Title, l.cols[i], st)
		for j, line := range lines {
			base := foot + descent(st) + float64(len(lines)-1-j)*lettering.Pitch(st)
			x, align := l.edge(i)
			items = append(items, lettering.Line(geom.Pt{X: top.X + x, Y: base}, line, st, align)...)
		}
	}
	items = append(items, l.drawGroups(top)...)
	return append(items, rule(top.X, top.X+l.width, top.Y-l.head, titleRule))
}

// descent is how far letters hang below the baseline.
func descent(st lettering.Style) float64 { return lettering.Height(1, st) - lettering.Cap(st) }

// edge returns where the texts of column i hang, and how.
func (l *Laid) edge(i int) (float64, render.Align) {
	switch l.t.Columns[i].Align {
	case Middle:
		return l.at[i] + l.cols[i]/2, render.Middle
	case Right, OnFraction:
		return l.at[i] + l.cols[i], render.Right
	}
	return l.at[i], render.Left
}

// drawGroups sets the titles that stand over several columns, each with a rule.
func (l *Laid) drawGroups(top geom.Pt) []render.Item {
	var items []render.Item
	st := l.t.title()
	for i := 0; i < len(l.cols); {
		j := i
		for j+1 < len(l.cols) && l.t.Columns[j+1].Group == l.t.Columns[i].Group {
			j++
		}
		if name := l.t.Columns[i].Group; name != "" {
			x0, x1 := top.X+l.at[i], top.X+l.at[j]+l.cols[j]
			items = append(items, lettering.Line(geom.Pt{X: (x0 + x1) / 2, Y: top.Y - lettering.Cap(st)}, name, st, render.Middle)...)
			items = append(items, rule(x0, x1, top.Y-lettering.Height(1, st)-groupDrop, render.Rule))
		}
		i = j + 1
	}
	return items
}

// drawRow sets one row with its upper left corner at top.
func (l *Laid) drawRow(top geom.Pt, r Row, height float64) []render.Item {
	if r.Head {
		st := l.t.title()
		items, _ := lettering.Paragraph(geom.Pt{X: top.X, Y: top.Y - rowPad - 2.5}, r.Cells[0].Text, l.width, st)
		return items
	}
	tallest := 0.0
	blocks := make([]block, len(r.Cells))
	for i, c := range r.Cells {
		blocks[i] = l.block(c, l.cols[i])
		tallest = max(tallest, blocks[i].height)
	}
	var items []render.Item
	y := top.Y - (height-tallest+rise)/2
	for i, c := range r.Cells {
		if c.Text == "" && len(c.Tabs) == 0 && !c.Tick {
			continue
		}
		items = append(items, l.drawCell(geom.Pt{X: top.X, Y: y}, i, c, blocks[i])...)
		if c.Page > 0 {
			box := geom.Box{
				Min: geom.Pt{X: top.X + l.at[i], Y: top.Y - height},
				Max: geom.Pt{X: top.X + l.at[i] + l.cols[i], Y: top.Y},
			}
			items = append(items, render.Link{Box: box, Page: c.Page - 1})
		}
	}
	return items
}

// drawCell sets cell c of column i; the row's content begins at top. A first
// line beside tabs stands in the middle of their height, and so do the first
// lines of the other cells of such a row.
func (l *Laid) drawCell(top geom.Pt, i int, c Cell, b block) []render.Item {
	var items []render.Item
	x0 := top.X + l.at[i]
	for n, row := range b.tabRows {
		x, y := x0, top.Y-float64(n)*(tabHigh+tabGap)-tabHigh
		for _, tab := range row {
			drawn, w := lettering.Tab(geom.Pt{X: x, Y: y}, tab.Code, tab.Hand, tabHigh, l.t.Accent)
			items = append(items, drawn...)
			x += w + tabGap
		}
	}
	st := l.t.style(c)
	first := top.Y - b.drop - l.lower(b, st)
	if c.Tick {
		items = append(items, l.tick(i, x0, first-lettering.Cap(st)/2))
	}
	for n, line := range b.lines {
		base := first - lettering.Cap(st) - float64(n)*lettering.Pitch(st)
		x, align := l.edge(i)
		if b.indent > 0 {
			x, align = l.at[i]+b.indent, render.Left
		}
		if l.t.Columns[i].Align == OnFraction {
			x = l.at[i] + l.cols[i] - l.t.tail(i) - lettering.Width(whole(line), st)
			if lone(line) {
				x += lettering.Width(" ", st)
			}
			align = render.Left
		}
		items = append(items, lettering.Line(geom.Pt{X: top.X + x, Y: base}, line, st, align)...)
	}
	return items
}

// tick is an empty box to tick with a pencil, its middle at height y.
func (l *Laid) tick(i int, x0, y float64) render.Item {
	x := x0
	if l.t.Columns[i].Align == Middle {
		x += (l.cols[i] - tickSide) / 2
	}
	return render.Stroke{Paths: []render.Path{render.Loop(
		geom.Pt{X: x, Y: y - tickSide/2}, geom.Pt{X: x + tickSide, Y: y - tickSide/2},
		geom.Pt{X: x + tickSide, Y: y + tickSide/2}, geom.Pt{X: x, Y: y + tickSide/2},
	)}, Pen: render.Thin}
}
