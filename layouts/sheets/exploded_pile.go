package sheets

import (
	"math"
	"math/bits"

	"planset/model/geom"
)

// A pile is masks laid over each other. A cell holds how near what is seen in it
// is, in its upper bits, and 1 + the mask in its lower ones; 0 is an empty one.
type pile struct {
	low, high [2]int // the first and last cells, one round all that is laid down
	pitch     int    // from one row to the next, a power of two
	cells     []uint32
	at        [][]int32 // by mask: its cells, and after them its rim, in a row of pitch
	seen      []int
	crossed   int // cells in which masks of two stages lie over each other
	all       int // cells of all masks
}

const (
	maskBits = 12            // of a cell, for the mask
	nearStep = 8             // steps of nearness to a cell's width
	nearZero = 1 << 19       // the nearness 0
	underRim = math.MaxInt32 // is seen where a mask does not stand clear of a nearer one
	rimCell  = 1<<maskBits - 1
	// mostPile bounds the cells; a larger pile is not laid, and nothing is seen.
	mostPile = 1 << 18
	// rimDepth is how many cells farther a thing must be than the one whose rim it
	// lies under: slats side by side do not count as hidden by each other.
	rimDepth = 3
)

// frame clears a pile for masks inside a box: left, low, right, top.
func (p *pile) frame(box [4]int) {
	p.low, p.high = [2]int{box[0] - 1, box[1] - 1}, [2]int{box[2] + 1, box[3] + 1}
	w, h := p.high[0]-p.low[0]+1, p.high[1]-p.low[1]+1
	if box[2] < box[0] || w > mostPile || h > mostPile || w*h > mostPile {
		p.high = [2]int{p.low[0] - 1, p.low[1] - 1}
		return
	}
	if pitch := 1 << bits.Len(uint(w-1)); pitch != p.pitch {
		p.pitch, p.at = pitch, nil
	}
	n := p.pitch * h
	if len(p.cells) < n {
		p.cells = make([]uint32, n)
		return
	}
	clear(p.cells[:n])
}

// cover lays down the masks, each moved by its shift, and counts what is seen of
// each. The counts hold until the next call.
func (p *pile) cover(masks []mask, shift []geom.V3) []int {
	if p.seen == nil {
		p.seen = make([]int, len(masks))
	}
	clear(p.seen)
	p.crossed, p.all = 0, 0
	if p.high[0] < p.low[0] || len(masks) >= rimCell {
		return p.seen
	}
	if p.at == nil {
		p.place(masks)
	}
	for i := range masks {
		base, z := p.base(shift[i])
		id := uint32(i) + 1
		p.all += len(masks[i].cells)
		where := p.at[i]
		for k, c := range masks[i].cells {
			v := uint32(c.z+z)<<maskBits | id
			at := base + int(where[k])
			old := p.cells[at]
			if old != 0 && masks[old&rimCell-1].stage != masks[i].stage {
				p.crossed++
			}
			if old < v {
				if old != 0 {
					p.seen[old&rimCell-1]--
				}
				p.cells[at] = v
				p.seen[i]++
			}
		}
	}
	for i := range masks {
		base, z := p.base(shift[i])
		rim := p.at[i][len(masks[i].cells):]
		for k, c := range masks[i].rim {
			cell := &p.cells[base+int(rim[k])]
			old := *cell
			if id := old & rimCell; id != 0 && id != rimCell && int32(old>>maskBits) < c.z+z-rimDepth*nearStep {
				p.seen[id-1]--
				*cell = old | rimCell
			}
		}
	}
	return p.seen
}

// base is where a mask that is shifted begins, and what is added to its nearness.
func (p *pile) base(v geom.V3) (int, int32) {
	z := max(-nearZero/2, min(nearZero/2, math.Round(v.Z*nearStep)))
	return (int(v.Y)-p.low[1])*p.pitch + int(v.X) - p.low[0], int32(z) + nearZero
}

// place works out where in a pile the cells of masks are.
func (p *pile) place(masks []mask) {
	p.at = make([][]int32, len(masks))
	for i := range masks {
		p.at[i] = make([]int32, 0, len(masks[i].cells)+len(masks[i].rim))
		for _, cells := range [2][]maskCell{masks[i].cells, masks[i].rim} {
			for _, c := range cells {
				p.at[i] = append(p.at[i], c.y*int32(p.pitch)+c.x)
			}
		}
	}
}

// look returns the mask that is seen in a cell, -1 for none, or underRim.
func (p *pile) look(x, y int) int {
	if x < p.low[0] || y < p.low[1] || x > p.high[0] || y > p.high[1] {
		return -1
	}
	id := p.cells[(y-p.low[1])*p.pitch+x-p.low[0]] & rimCell
	if id == rimCell {
		return underRim
	}
	return int(id) - 1
}
