package tiles

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// familyTable sets the table of a family, figures to the right, and returns the
// height used. A long table goes on beside itself while there is room.
func familyTable(top geom.Pt, rows [][]string, room float64) ([]render.Item, float64) {
	const pitch, shortest = 5.8, 8
	if len(rows) == 0 {
		return nil, 0
	}
	widths := columnWidths(rows)
	total := 0.0
	for _, w := range widths {
		total += w
	}
	body := rows[1:]
	blocks := max(1, min(int((room+gutter)/(total+gutter)), len(body)/shortest))
	each := (len(body) + blocks - 1) / blocks
	var items []render.Item
	for b := range blocks {
		from := min(b*each, len(body))
		part := append([][]string{rows[0]}, body[from:min(from+each, len(body))]...)
		for i, row := range part {
			at := geom.Pt{X: top.X + float64(b)*(total+gutter), Y: top.Y - float64(i+1)*pitch}
			items = append(items, tableRow(at, row, widths, i == 0)...)
		}
	}
	return items, float64(each+1)*pitch + 2
}

// cellStyle is the type of a table, heads and the rest.
func cellStyle(head bool) lettering.Style {
	if head {
		return lettering.Style{Face: fonts.CondBold, Size: render.Body}
	}
	return lettering.Style{Face: fonts.Cond, Size: render.Body}
}

func columnWidths(rows [][]string) []float64 {
	var widths []float64
	for i, row := range rows {
		for c, s := range row {
			if c == len(widths) {
				widths = append(widths, 0)
			}
			widths[c] = math.Max(widths[c], lettering.Width(s, cellStyle(i == 0))+5)
		}
	}
	return widths
}

// tableRow sets one row over its rule, which starts at at.
func tableRow(at geom.Pt, row []string, widths []float64, head bool) []render.Item {
	var items []render.Item
	x := at.X
	for c, w := range widths {
		if c < len(row) && c == 0 {
			items = append(items, lettering.Line(geom.Pt{X: x, Y: at.Y + 1.75}, row[c], cellStyle(head), render.Left)...)
		} else if c < len(row) {
			items = append(items, lettering.Line(geom.Pt{X: x + w, Y: at.Y + 1.75}, row[c], cellStyle(head), render.Right)...)
		}
		x += w
	}
	rule := render.Lines(at, geom.Pt{X: x, Y: at.Y})
	return append(items, render.Stroke{Paths: []render.Path{rule}, Pen: render.Rule})
}
