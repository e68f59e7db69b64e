package tiles

import (
	"math"

	"planset/model/geom"
)

// under is the room between two maps in a column, in mm.
const under = 7.0

// A column is room for maps on a page: its upper left corner, its width, and how
// far down it goes.
type column struct {
	at   geom.Pt
	wide float64
	foot float64 // y on the page
}

// A placed block stands at the top of a column cut down to it.
type placed struct {
	block
	in column
}

// divided returns the ways to divide a page's room below a point on its left: whole, or
// in two columns.
func divided(at geom.Pt, foot float64) [][]column {
	half := (field - gutter) / 2
	return [][]column{
		{{at, field, foot}},
		{{at, half, foot}, {at.Add(geom.Pt{X: half + gutter}), half, foot}},
	}
}

// fillPage sets as many of the blocks as it can on one page, always the first ones.
// Of what holds most the largest thumbnails are taken, then the first way to divide
// the room; in several columns one reads down and then on to the right.
func fillPage(all []block, choices [][]column) []placed {
	var best []placed
	for _, high := range pictureHeights {
		sized := make([]block, len(all))
		for i, b := range all {
			b.high = high
			sized[i] = b
		}
		for _, columns := range choices {
			for _, way := range []func([]block, []column) []placed{even, down, anywhere} {
				if set := way(sized, columns); len(set) > len(best) {
					best = set
				}
				if len(best) == len(all) {
					return best
				}
			}
		}
	}
	return best
}

// even parts the blocks between two columns so that the longer is shortest, reading down. It
// sets none unless it can set all.
func even(all []block, columns []column) []placed {
	if len(columns) != 2 {
		return nil
	}
	var best []placed
	lowest := math.Inf(-1)
	for n := range len(all) + 1 {
		first, a := filled(all[:n], columns[0])
		second, b := filled(all[n:], columns[1])
		if low := math.Min(a, b); len(first)+len(second) == len(all) && low > lowest+1e-6 {
			best, lowest = append(first, second...), low
		}
	}
	return best
}

// down fills one column after the other.
func down(all []block, columns []column) []placed {
	var out []placed
	for _, c := range columns {
		set, _ := filled(all[len(out):], c)
		out = append(out, set...)
	}
	return out
}

// filled sets the first blocks, as many as fit, into a column, and returns with them how far
// down they reach.
func filled(all []block, c column) ([]placed, float64) {
	var out []placed
	low := c.at.Y
	for _, b := range all {
		end := c.at.Y - b.height(c.wide)
		if end < c.foot-1e-6 {
			break
		}
		out, low = append(out, placed{b, c}), end
		c.at.Y = end - under
	}
	return out, low
}

// anywhere sets each block into the first column with room, until one has none.
func anywhere(all []block, columns []column) []placed {
	columns = append([]column(nil), columns...)
	var out []placed
	for _, b := range all {
		done := false
		for i := range columns {
			if set, low := filled([]block{b}, columns[i]); len(set) > 0 {
				out, done = append(out, set...), true
				columns[i].at.Y = low - under
				break
			}
		}
		if !done {
			break
		}
	}
	return out
}
