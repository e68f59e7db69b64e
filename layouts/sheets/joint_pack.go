package sheets

import (
	"cmp"
	"slices"
)

// mostHalved is how many joints may be drawn at half size to save a page.
const mostHalved = 3

// jointColumns makes the joints and packs them into columns, two to a page. When
// the last page would hold a single column, the longest joints are drawn at half
// size, one after the other, until that page is saved; if none saves it, all
// stay at full size.
func (d *desk) jointColumns(types []jointType) ([]block, [][]int) {
	full := d.jointBlocks(types, nil)
	columns := packed(full, fieldH-headH-footH, jointRow)
	if len(columns) < 3 || len(columns)%2 == 0 {
		return full, columns
	}
	order := make([]int, len(types))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(full[b].height, full[a].height) })
	for n := 1; n <= min(mostHalved, len(order)); n++ {
		blocks := d.jointBlocks(types, order[:n])
		if fewer := packed(blocks, fieldH-headH-footH, jointRow); len(fewer) < len(columns) {
			return blocks, fewer
		}
	}
	return full, columns
}

// jointBlocks draws each type, those in half at half size.
func (d *desk) jointBlocks(types []jointType, half []int) []block {
	var jobs []job
	for i, t := range types {
		small := slices.Contains(half, i)
		key := "joint " + t.first.Key
		if small {
			key += " half"
		}
		jobs = append(jobs, job{key, func(d *desk) block { return d.jointBlock(t, small) }})
	}
	return d.blocks(jobs)
}
