package sheets

import (
	"strings"

	"planset/model"
	"planset/render"
)

// partDrawings draws every part, a family once, as many to a page as fit.
func partDrawings(d *desk, s sheet) {
	var sets [][]*model.Part
	for _, set := range families(d.plan) {
		if set[0].Thick > 0 && len(set[0].Board.Outline) > 0 {
			sets = append(sets, set)
		}
	}
	blocks, pages := d.partPages(sets)
	for _, page := range pages {
		d.partLeaf(s, sets, blocks, page)
	}
}

// partLeaf makes a page of some of the parts. What is free is shared out between
// them.
func (d *desk) partLeaf(s sheet, sets [][]*model.Part, blocks []block, page []int) {
	var codes []string
	for _, i := range page {
		codes = append(codes, familyOr(sets[i][0]))
	}
	l := d.leaf(s, s.title+" "+strings.Join(codes, ", "), "Measure every mark from the black triangles. "+toleranceWords(d.plan.Unit))
	l.state = scalesMarked
	spare := l.room()
	for _, i := range page {
		spare -= blocks[i].height
	}
	for k, i := range page {
		if k > 0 {
			gap := max(partGap, min(spare/float64(len(page)-1), 14))
			l.skip(gap * 0.35)
			l.rule(l.left(), l.left()+bodyW, l.y, render.Rule)
			l.skip(gap * 0.65)
		}
		l.put(blocks[i])
		d.namePart(sets[i])
	}
}

// partPages draws the parts and shares them out to pages. Where drawing some of
// them lower saves a page they are; on each page those that have the room for it
// are drawn as usual all the same, the first ones first.
func (d *desk) partPages(sets [][]*model.Part) ([]block, [][]int) {
	const high = fieldH - headH - footH
	usual := d.partBlocks(sets, false)
	pages := packed(usual, high, partGap)
	low := d.lowBlocks(sets, usual)
	fewer := packed(low, high, partGap)
	if len(fewer) >= len(pages) {
		return usual, pages
	}
	for _, page := range fewer {
		room := high - partGap*float64(len(page)-1)
		for _, i := range page {
			room -= low[i].height
		}
		for _, i := range page {
			if more := usual[i].height - low[i].height; more <= room {
				low[i] = usual[i]
				room -= more
			}
		}
	}
	return low, fewer
}

// lowBlocks draws the parts anew, as low as can be, and keeps those that come out
// lower than usual.
func (d *desk) lowBlocks(sets [][]*model.Part, usual []block) []block {
	low := d.partBlocks(sets, true)
	for i, b := range low {
		if b.height >= usual[i].height {
			low[i] = usual[i]
		}
	}
	return low
}

// partBlocks draws each of the parts under its heading.
func (d *desk) partBlocks(sets [][]*model.Part, low bool) []block {
	var jobs []job
	for _, set := range sets {
		key := "part " + set[0].Code
		if low {
			key += " low"
		}
		jobs = append(jobs, job{key, func(d *desk) block { return d.partBody(set, low) }})
	}
	blocks := d.blocks(jobs)
	for i, set := range sets {
		blocks[i] = under(d.partHeading(set), blocks[i])
	}
	return blocks
}
