package tables_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model/geom"
	"planset/render"
)

const width = 120.0

func table(rows ...tables.Row) *tables.Table {
	return &tables.Table{
		Columns: []tables.Column{
			{Title: "Code", Width: 10}, {Title: "What it is", Share: 3}, {Title: "Length", Share: 1, Align: tables.OnFraction},
			{Title: "Done", Width: 12, Align: tables.Middle},
		},
		Rows: rows,
	}
}

func row(code, what, length string) tables.Row {
	return tables.Row{Cells: []tables.Cell{{Tabs: []tables.Tab{{Code: code}}}, {Text: what}, {Text: length}, {Tick: true}}}
}

// texts returns every text drawn, groups opened.
func texts(items []render.Item) []render.Text {
	var out []render.Text
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			out = append(out, item)
		case render.Group:
			out = append(out, texts(item.Items)...)
		}
	}
	return out
}

func draw(t *testing.T, tab *tables.Table) ([]render.Item, float64) {
	l, faults := tables.Lay(tab, width)
	require.Empty(t, faults)
	items, h := l.Draw(geom.Pt{X: 20, Y: 200}, 0, l.Rows())
	assert.InDelta(t, h, l.Height(0, l.Rows()), 1e-9)
	return items, h
}

func TestEverythingLiesInTheTable(t *testing.T) {
	tab := table(row("A", "A long name that has to be broken over several lines of the column", "35 1⁄2″"), row("B", "short", "7⁄8″"), row("C", "x", "4″"))
	items, h := draw(t, tab)
	box := geom.Box{Min: geom.Pt{X: 20, Y: 200 - h}, Max: geom.Pt{X: 20 + width, Y: 200}}
	assert.Empty(t, inspect.Outside(items, box.Grow(0.25)))
	assert.Empty(t, inspect.Collisions(items))
}

// No word may be lost or cut in two by a column.
func TestNoWordIsBroken(t *testing.T) {
	long := "unreasonably extraordinarily longwinded descriptions"
	items, _ := draw(t, table(row("A", long, "1″")))
	said := map[string]bool{}
	for _, text := range texts(items) {
		for _, w := range strings.Fields(text.Text) {
			said[w] = true
		}
	}
	for _, w := range strings.Fields(long) {
		assert.True(t, said[w], w)
	}
}

func TestImpossibleWidthIsReported(t *testing.T) {
	_, faults := tables.Lay(table(row("A", strings.Repeat("x", 90), "1″")), width)
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0], "mm more than the page has")
}

// Whole numbers end at one line, so that fractions stand beside them like in a
// column of sums.
func TestNumbersLineUpOnTheFraction(t *testing.T) {
	tab := table(row("A", "a", "35 1⁄2″"), row("B", "b", "4″"), row("C", "c", "120 3⁄16″"))
	items, _ := draw(t, tab)
	var ends []float64
	for _, text := range texts(items) {
		whole := strings.TrimRight(text.Text, "″ ")
		switch whole {
		case "35", "4", "120":
			ends = append(ends, text.At.X+fonts.Width(text.Face, text.Size, whole))
		}
	}
	require.Len(t, ends, 3)
	assert.InDelta(t, ends[0], ends[1], 1e-6)
	assert.InDelta(t, ends[0], ends[2], 1e-6)
}

func many(n int) *tables.Table {
	tab := table()
	for i := range n {
		tab.Rows = append(tab.Rows, row("A", fmt.Sprintf("row %d", i), "1″"))
	}
	return tab
}

// Cut into pages of any height, every row comes once and in order.
func TestPagesHoldEveryRowOnce(t *testing.T) {
	tab := many(23)
	for i := range tab.Rows {
		tab.Rows[i].Keep = i%4 != 0
	}
	l, _ := tables.Lay(tab, width)
	for _, page := range []float64{20, 45, 70, 400} {
		var got []string
		for from := 0; from < l.Rows(); {
			to := l.Fit(from, page)
			if to == from {
				to = l.Force(from, page)
			}
			to = l.Balance(from, to)
			require.Greater(t, to, from)
			items, _ := l.Draw(geom.Pt{}, from, to)
			for _, text := range texts(items) {
				if strings.HasPrefix(text.Text, "row ") {
					got = append(got, text.Text)
				}
			}
			from = to
		}
		require.Len(t, got, 23)
		for i, s := range got {
			assert.Equal(t, fmt.Sprintf("row %d", i), s)
		}
	}
}

func TestFamilyStaysTogether(t *testing.T) {
	tab := many(10)
	tab.Rows[6].Keep, tab.Rows[7].Keep = true, true // 5, 6, 7 are one family
	l, _ := tables.Lay(tab, width)
	for rows := 1; rows < 10; rows++ {
		to := l.Fit(0, l.Height(0, rows)+0.1)
		if rows == 6 || rows == 7 {
			assert.Equal(t, 5, to, "%d rows of room", rows)
		} else {
			assert.Equal(t, rows, to)
		}
	}
}

func TestHeadStaysWithItsRows(t *testing.T) {
	tab := many(4)
	tab.Rows[2] = tables.Row{Head: true, Cells: []tables.Cell{{Text: "Group"}}}
	l, _ := tables.Lay(tab, width)
	assert.Equal(t, 2, l.Fit(0, l.Height(0, 3)+0.1))
	assert.Equal(t, 4, l.Fit(0, l.Height(0, 4)+0.1))
}

func TestNoLonelyLastRow(t *testing.T) {
	l, _ := tables.Lay(many(10), width)
	assert.Equal(t, 7, l.Balance(0, 9))
	assert.Equal(t, 7, l.Balance(0, 7))
	assert.Equal(t, 10, l.Balance(0, 10))
	assert.Equal(t, 9, l.Balance(6, 9), "too few would stay")
}

func TestLinksCoverTheirCell(t *testing.T) {
	tab := table(row("A", "a", "1″"), row("B", "b", "2″"))
	tab.Rows[1].Cells[0].Page = 7
	l, _ := tables.Lay(tab, width)
	items, _ := l.Draw(geom.Pt{}, 0, 2)
	var links []render.Link
	for _, item := range items {
		if link, ok := item.(render.Link); ok {
			links = append(links, link)
		}
	}
	require.Len(t, links, 1)
	assert.Equal(t, 6, links[0].Page, "pages of a book are counted from 0")
	assert.InDelta(t, -l.Height(0, 2), links[0].Box.Min.Y, 1e-9)
	assert.GreaterOrEqual(t, links[0].Box.H(), lettering.Cap(lettering.Style{Face: fonts.Sans, Size: render.Body}))
}

func TestGroupStandsOverItsColumns(t *testing.T) {
	tab := table(row("A", "a", "1″"))
	tab.Columns[1].Group, tab.Columns[2].Group = "Both", "Both"
	items, h := draw(t, tab)
	plain, _ := tables.Lay(table(row("A", "a", "1″")), width)
	assert.Greater(t, h, plain.Height(0, 1)+3)
	n := 0
	for _, text := range texts(items) {
		if text.Text == "Both" {
			n++
		}
	}
	assert.Equal(t, 1, n)
}

func BenchmarkTable(b *testing.B) {
	tab := many(60)
	for b.Loop() {
		l, _ := tables.Lay(tab, width)
		l.Draw(geom.Pt{}, 0, l.Rows())
	}
}
