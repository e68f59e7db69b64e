package sheets

import "math"

// mostExact is how many blocks are shared out in the best way; more are taken
// as they come.
const mostExact = 12

// packed shares blocks out to pages of a height. Of the ways with the fewest
// pages it takes one that keeps the order best, and then one whose emptiest
// page is fullest. A block that is too high gets a page to itself.
func packed(blocks []block, high, gap float64) [][]int {
	if len(blocks) > mostExact {
		return packedInOrder(blocks, high, gap)
	}
	p := packer{blocks: blocks, high: high, gap: gap, best: make([]choice, 1<<len(blocks))}
	var pages [][]int
	for left := 1<<len(blocks) - 1; left != 0; {
		page := p.solve(left).page
		pages = append(pages, members(page))
		left &^= page
	}
	return pages
}

// A packer finds the best pages for every set of blocks; sets are bits.
type packer struct {
	blocks    []block
	high, gap float64
	best      []choice
}

// A choice is the page that the first block of a set is on, and what that set
// costs.
type choice struct {
	page int
	cost float64
}

// solve returns the best choice for the blocks left.
func (p *packer) solve(left int) choice {
	if left == 0 || p.best[left].page != 0 {
		return p.best[left]
	}
	first := left & -left
	best := choice{cost: math.Inf(1)}
	for rest := left &^ first; ; rest = (rest - 1) & (left &^ first) {
		page := first | rest
		if cost, ok := p.page(page); ok {
			if cost += p.solve(left &^ page).cost; cost < best.cost {
				best = choice{page, cost}
			}
		}
		if rest == 0 {
			break
		}
	}
	p.best[left] = best
	return best
}

// page is the cost of a page: one, a little for blocks that are not neighbors,
// and less than that for what is blank.
func (p *packer) page(set int) (float64, bool) {
	const apart, blank = 0.001, 0.05
	list := members(set)
	high, jumps := -p.gap, 0
	for k, i := range list {
		high += p.gap + p.blocks[i].height
		if k > 0 {
			jumps += i - list[k-1] - 1
		}
	}
	if len(list) > 1 && high > p.high {
		return 0, false
	}
	free := max(0, 1-high/p.high)
	return 1 + apart*float64(jumps) + blank*free*free, true
}

// members are the numbers of the bits of a set, rising.
func members(set int) []int {
	var list []int
	for i := 0; set>>i != 0; i++ {
		if set>>i&1 == 1 {
			list = append(list, i)
		}
	}
	return list
}

// packedInOrder begins each page with the first block that has no place yet and
// takes the next ones that still fit.
func packedInOrder(blocks []block, high, gap float64) [][]int {
	var pages [][]int
	placed := make([]bool, len(blocks))
	for i := range blocks {
		if placed[i] {
			continue
		}
		page, room := []int{i}, high-blocks[i].height
		placed[i] = true
		for k := i + 1; k < len(blocks); k++ {
			if !placed[k] && blocks[k].height+gap <= room {
				page, room = append(page, k), room-blocks[k].height-gap
				placed[k] = true
			}
		}
		pages = append(pages, page)
	}
	return pages
}
