package tables

import (
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// A Laid is a table whose rows are measured. It is drawn in pieces, one for
// each page.
type Laid struct {
	t      *Table
	width  float64
	cols   []float64 // widths
	at     []float64 // left edges
	rows   []float64 // heights
	head   float64   // height of the titles with their rule
	groups bool
	tabbed bool // some cell has tabs: first lines are centred on them
}

// Lay measures a table for a width in mm. The sentences say what cannot be set
// in that width; the table can be drawn all the same.
func Lay(t *Table, width float64) (*Laid, []string) {
	l := &Laid{t: t, width: width}
	var faults []string
	l.cols, faults = t.widths(width)
	x := 0.0
	for i, w := range l.cols {
		x += t.Columns[i].Apart
		l.at = append(l.at, x)
		x += w + t.gap()
		l.groups = l.groups || t.Columns[i].Group != ""
	}
	for _, r := range t.Rows {
		for _, c := range r.Cells {
			l.tabbed = l.tabbed || len(c.Tabs) > 0
		}
	}
	for _, r := range t.Rows {
		l.rows = append(l.rows, l.tall(r))
	}
	l.head = l.titles()
	return l, faults
}

// Rows returns the number of rows.
func (l *Laid) Rows() int { return len(l.rows) }

// Height returns how high rows from up to, not with, to are with the titles.
func (l *Laid) Height(from, to int) float64 {
	h := l.head
	for _, r := range l.rows[from:to] {
		h += r
	}
	return h
}

// Fit returns how many rows counted from from go into height mm with the
// titles, as the index of the first row that does not. It breaks neither before
// a row that Keeps nor behind a Head. When not even what must stay together
// fits, it returns from; a caller with an empty page then uses Force.
func (l *Laid) Fit(from int, height float64) int {
	to := l.Force(from, height)
	if to == len(l.rows) {
		return to
	}
	for to > from && (l.t.Rows[to].Keep || l.t.Rows[to-1].Head) {
		to--
	}
	return to
}

// fewest is how few rows may stand alone on a last page.
const fewest = 3

// Balance moves a break forward so that no last page has less than three rows,
// when enough stay before it.
func (l *Laid) Balance(from, to int) int {
	n := len(l.rows)
	if to == n || n-to >= fewest || to-from < 2*fewest {
		return to
	}
	back := n - fewest
	for back > from && (l.t.Rows[back].Keep || l.t.Rows[back-1].Head) {
		back--
	}
	if back == from {
		return to
	}
	return back
}

// Force is Fit that may part a family. It takes one row at least.
func (l *Laid) Force(from int, height float64) int {
	used := l.head
	for i := from; i < len(l.rows); i++ {
		if used += l.rows[i]; used > height+1e-6 {
			return max(i, from+1)
		}
	}
	return len(l.rows)
}

// tall returns the height of a row.
func (l *Laid) tall(r Row) float64 {
	h := 0.0
	if r.Head {
		st := l.t.title()
		lines := lettering.Wrap(r.Cells[0].Text, l.width, st)
		return lettering.Height(len(lines), st) + 2*rowPad + 2.5
	}
	for i, c := range r.Cells {
		h = max(h, l.block(c, l.cols[i]).height)
	}
	return max(l.t.Least, h+2*l.t.pad()-rise)
}

// titles returns the height of the column titles: two lines when a title needs
// them, and a line more when columns are grouped.
func (l *Laid) titles() float64 {
	h, st := 0.0, l.t.title()
	any := false
	for i, c := range l.t.Columns {
		any = any || c.Title != "" || c.Group != ""
		h = max(h, lettering.Height(len(lettering.Wrap(c.Title, l.cols[i], st)), st))
	}
	if !any {
		return 0
	}
	if l.groups {
		h += lettering.Height(1, st) + groupRise + groupDrop
	}
	return h + headGap
}

// A block is a cell broken into lines.
type block struct {
	tabRows [][]Tab
	lines   []string
	height  float64
	indent  float64 // of the text, beside a single row of tabs or a tick box
	drop    float64 // of the text, under several rows of tabs
}

// block breaks a cell to a width.
func (l *Laid) block(c Cell, width float64) block {
	b, st := block{}, l.t.style(c)
	used := 0.0
	for _, tab := range c.Tabs {
		w := lettering.TabWidth(tab.Code, tab.Hand, tabHigh)
		if n := len(b.tabRows); n > 0 && used+tabGap+w <= width+1e-6 {
			b.tabRows[n-1] = append(b.tabRows[n-1], tab)
			used += tabGap + w
			continue
		}
		b.tabRows = append(b.tabRows, []Tab{tab})
		used = w
	}
	if n := len(b.tabRows); n > 0 {
		b.height = float64(n)*(tabHigh+tabGap) - tabGap
		b.indent = used + 2*tabGap
		if n > 1 || c.Text != "" && lettering.Width(c.Text, st) > width-b.indent {
			b.indent, b.drop = 0, b.height+tabGap
		}
	}
	if c.Tick {
		b.indent += tickSide + tabGap
		b.height = max(b.height, tickSide)
	}
	if c.Text != "" {
		b.lines = lettering.Wrap(c.Text, width-b.indent, st)
		if l.oneLine(c, width) {
			b.lines = []string{c.Text}
		}
		b.height = max(b.height, b.drop+l.lower(b, st)+lettering.Height(len(b.lines), st))
	}
	return b
}

// lower is how far the first line of a cell stands below the row's content, to
// be in the middle of the tabs of its row. Tables carry tabs in all rows or in
// none, so a row without them stands alike.
func (l *Laid) lower(b block, st lettering.Style) float64 {
	if !l.tabbed || b.drop > 0 {
		return 0
	}
	return (tabHigh - lettering.Cap(st)) / 2
}

// oneLine keeps numbers that were measured whole from being wrapped by a hair.
func (l *Laid) oneLine(c Cell, width float64) bool {
	return lettering.Width(c.Text, l.t.style(c)) <= width+1e-6
}

// Draw sets rows from up to, not with, to, with the titles above them and the
// upper left corner at top. It returns the items and the height used.
func (l *Laid) Draw(top geom.Pt, from, to int) ([]render.Item, float64) {
	items := l.drawTitles(top)
	y := top.Y - l.head
	for i := from; i < to; i++ {
		r := l.t.Rows[i]
		items = append(items, l.drawRow(geom.Pt{X: top.X, Y: y}, r, l.rows[i])...)
		y -= l.rows[i]
		if i+1 < to && !l.t.Rows[i+1].Head || i+1 == to {
			items = append(items, rule(top.X, top.X+l.width, y, render.Rule))
		}
	}
	return items, top.Y - y
}

// rule is a level line.
func rule(x0, x1, y float64, pen render.Pen) render.Item {
	return render.Stroke{Paths: []render.Path{render.Lines(geom.Pt{X: x0, Y: y}, geom.Pt{X: x1, Y: y})}, Pen: pen}
}
