package sheets

import (
	"math/bits"
	"slices"
)

// mostWeighed is how many joints are tried at half size in every combination;
// of more the lowest savings are not looked for.
const mostWeighed = 8

// jointPages makes the joints and packs them into pages. Joints are drawn at
// half size where that saves a page, and then as few as can be.
func (d *desk) jointPages(types []jointType) ([]block, [][]int) {
	told := len(d.problems)
	full, half := d.jointBlocks(types, 0), 0
	if len(packed(full, bodyH, jointRow)) > 1 {
		half = d.halved(full, d.jointBlocks(types, -1))
	}
	d.problems = d.problems[:told] // of drawings that are not used
	blocks := d.jointBlocks(types, half)
	return blocks, packed(blocks, bodyH, jointRow)
}

// bodyH is the height of a page's body.
const bodyH = fieldH - headH - footH

// halved chooses the joints that are drawn at half size, a set of bits.
func (d *desk) halved(full, small []block) int {
	n := len(full)
	least := len(packed(small, bodyH, jointRow))
	if n > mostWeighed {
		if len(packed(full, bodyH, jointRow)) > least {
			return -1
		}
		return 0
	}
	sets := make([]int, 1<<n)
	for i := range sets {
		sets[i] = i
	}
	slices.SortStableFunc(sets, func(a, b int) int { return bits.OnesCount(uint(a)) - bits.OnesCount(uint(b)) })
	mixed := make([]block, n)
	best, bestBlank, pages := 0, 2.0, least+1
	for _, set := range sets {
		if pages == least && bits.OnesCount(uint(set)) > bits.OnesCount(uint(best)) {
			break
		}
		for i := range mixed {
			mixed[i] = full[i]
			if set>>i&1 == 1 {
				mixed[i] = small[i]
			}
		}
		list := packed(mixed, bodyH, jointRow)
		if blank := emptiest(mixed, list); len(list) < pages || len(list) == pages && blank < bestBlank {
			best, bestBlank, pages = set, blank, len(list)
		}
	}
	return best
}

// emptiest is the share of the emptiest page that is left blank.
func emptiest(blocks []block, pages [][]int) float64 {
	most := 0.0
	for _, page := range pages {
		free := bodyH
		for _, i := range page {
			free -= blocks[i].height
		}
		most = max(most, free/bodyH)
	}
	return most
}

// jointBlocks draws each type, those in the set at half size.
func (d *desk) jointBlocks(types []jointType, half int) []block {
	var jobs []job
	for i, t := range types {
		small := half>>i&1 == 1
		key := "joint " + t.first.Key
		if small {
			key += " half"
		}
		jobs = append(jobs, job{key, func(d *desk) block { return d.jointBlock(t, small) }})
	}
	return d.blocks(jobs)
}
