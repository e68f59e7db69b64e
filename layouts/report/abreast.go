package report

import (
	"strings"

	"planset/layouts/tables"
	"planset/model"
)

func cell(s string) tables.Cell { return tables.Cell{Text: s} }

func tabs(p *model.Part) tables.Cell { return tables.Cell{Tabs: []tables.Tab{{Code: p.Code}}} }

// list is a table in the look of the report.
func list(columns ...tables.Column) *tables.Table {
	return &tables.Table{Size: 8.6, Narrow: true, Gap: 2.2, Columns: columns}
}

// columns are one for each size under a common title, or that one alone.
func (g sizes) columns(title string, width float64) []tables.Column {
	if len(g) == 1 {
		return []tables.Column{{Title: title, Width: width, Align: tables.Right}}
	}
	var out []tables.Column
	for _, s := range g {
		out = append(out, tables.Column{Title: titleOf(s.Plan), Group: title, Width: width, Align: tables.Right})
	}
	return out
}

// cells are one for each size.
func (g sizes) cells(text func(i int) string) []tables.Cell {
	var out []tables.Cell
	for i := range g {
		out = append(out, cell(text(i)))
	}
	return out
}

// dash stands where a size has nothing to tell.
const dash = "–"

// said is the texts in order, each once.
func said(texts []string) string {
	var out []string
	seen := map[string]bool{"": true}
	for _, t := range texts {
		if !seen[t] {
			seen[t] = true
			out = append(out, t)
		}
	}
	return strings.Join(out, ", ")
}
