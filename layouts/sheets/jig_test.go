package sheets

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/layouts/tables"
	"planset/model/expr"
)

// jigsAfter makes the jig sheet after a page on which room mm are free, and
// returns the desk.
func jigsAfter(t *testing.T, in Input, room float64) *desk {
	t.Helper()
	d := newDesk(in, nil)
	s := sheet{key: "jigs", title: "Jigs and saw settings", section: partsAndJoints}
	l := d.leaf(sheet{key: "before", title: "Before", section: partsAndJoints}, "Before", "")
	l.y = l.body.Min.Y + room
	jigSheet(d, s)
	assert.Empty(t, d.problems)
	return d
}

// The jig sheet goes on a page of its own, or under what is short, whole.
func TestJigSheetSharesAPageWhenItFits(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		own := jigsAfter(t, in, 20)
		require.Len(t, own.leaves, 2)
		assert.Equal(t, 1, own.now["jigs"])
		used := own.leaves[1].body.Max.Y - own.leaves[1].y
		tight := jigsAfter(t, in, used+20)
		assert.Len(t, tight.leaves, 2, "without room for its heading it does not fit")
		shared := jigsAfter(t, in, used+36)
		require.Len(t, shared.leaves, 1)
		assert.Equal(t, 0, shared.now["jigs"])
		for _, d := range []*desk{own, shared} {
			for _, l := range d.leaves {
				assert.Empty(t, inspect.Collisions(l.items))
				assert.GreaterOrEqual(t, inspect.Bounds(l.items).Min.Y, l.body.Min.Y-0.5)
			}
		}
	})
}

// A list too long for a page goes on, with every row once.
func TestLongListsOfTheBenchGoOn(t *testing.T) {
	d := newDesk(drawn(t, "", expr.Inch), nil)
	list := &tables.Table{Least: 5.6, Columns: []tables.Column{{Title: "Part", Width: 12}, {Title: "Name", Share: 1}}}
	for i := range 90 {
		list.Rows = append(list.Rows, tables.Row{Cells: []tables.Cell{cell("A"), cell(fmt.Sprintf("row %d", i))}})
	}
	blocks := d.ruled("Stop block", list)
	require.Greater(t, len(blocks), 1)
	l := d.leaf(sheet{key: "jigs", title: "Jigs"}, "Jigs", "")
	l.inColumns(blocks)
	var b strings.Builder
	for _, l := range d.leaves {
		gather(&b, l.items)
		assert.GreaterOrEqual(t, inspect.Bounds(l.items).Min.Y, l.body.Min.Y-0.5)
	}
	for i := range 90 {
		assert.Equal(t, 1, strings.Count(b.String(), fmt.Sprintf("row %d ", i)))
	}
	assert.Nil(t, d.ruled("Nothing", &tables.Table{}))
}
