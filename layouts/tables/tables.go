// Package tables sets ruled lists: columns, wrapping cells, part tabs, tick
// boxes and links, split over pages without parting a family.
//
// It knows rows and where they break. What a row says is the sheets' business.
package tables

import (
	"planset/fonts"
	"planset/layouts/lettering"
	"planset/render"
)

// An Align says how the texts of a column line up.
type Align int8

// The alignments. OnFraction lines whole numbers up at their last figure and
// lets fractions, decimals and inch marks stand out to the right of it.
const (
	Left Align = iota
	Middle
	Right
	OnFraction
)

// A Column is one column of a table.
type Column struct {
	Title string
	Group string  // printed once over neighbours that share it
	Share float64 // of the width that fixed columns leave
	Width float64 // mm; when more than 0 the column is fixed
	Align Align
	Apart float64 // mm more than the table's gap before the column
}

// A Tab is a part's letter in a cell.
type Tab struct{ Code, Hand string }

// A Cell is one field: tabs first, then a tick box, then the text. Page is the
// number of the page, counted from 1, to which the cell leads; 0 is none.
type Cell struct {
	Text string
	Bold bool
	Soft bool // gray
	Tabs []Tab
	Tick bool
	Page int
}

// A Row is one line of a table. A Head spans the table with its first cell and
// stays with the row after it. A row that Keeps stays with the row before it.
type Row struct {
	Cells []Cell
	Head  bool
	Keep  bool
}

// A Table is a list to be set. Zero sizes have defaults.
type Table struct {
	Columns []Column
	Rows    []Row
	Least   float64 // least height of a row, mm
	Size    float64 // points; 0 is render.Body
	Narrow  bool    // set in the condensed face
	Gap     float64 // between columns, mm; 0 is 3
	Pad     float64 // above and below the text of a row, mm; 0 is 1.5
	Accent  render.Tone
}

// Measures of a table in mm.
const (
	gutter    = 3.0  // between columns, unless the table says
	rowPad    = 1.5  // above and below the text of a row, unless the table says
	rise      = 0.45 // what letters rise over capitals: so much less is left under a row than over it
	tabHigh   = 5.0
	tabGap    = 1.2
	tickSide  = 3.4
	headGap   = 1.6 // under the titles, to the rule
	groupDrop = 1.0 // between the title of a group and its rule
	groupRise = 1.4 // between a group's rule and the titles under it
)

// style returns the look of a cell of the table.
func (t *Table) style(c Cell) lettering.Style {
	st := lettering.Style{Face: fonts.Sans, Size: t.Size, Lead: 1.28}
	if st.Size == 0 {
		st.Size = render.Body
	}
	switch {
	case t.Narrow && c.Bold:
		st.Face = fonts.CondBold
	case t.Narrow:
		st.Face = fonts.Cond
	case c.Bold:
		st.Face = fonts.SansBold
	}
	if c.Soft {
		st.Tone = render.Dark
	}
	return st
}

// title returns the look of the column titles.
func (t *Table) title() lettering.Style {
	return lettering.Style{Face: fonts.CondBold, Size: render.Body, Lead: 1.15}
}

// pad returns the space above and below the text of a row.
func (t *Table) pad() float64 {
	if t.Pad > 0 {
		return t.Pad
	}
	return rowPad
}

// gap returns the space between columns.
func (t *Table) gap() float64 {
	if t.Gap > 0 {
		return t.Gap
	}
	return gutter
}
