package sheets

import (
	"math"

	"planset/model/geom"
)

// crowdStep is the side of a cell of a crowd, mm of paper.
const crowdStep = 0.5

// A crowd answers at once whether anything is drawn in a box: its sums hold how
// many cells with something in them lie below and to the left of each corner
// (a summed-area table: Crow, 1984).
type crowd struct {
	at     geom.Pt // lower-left corner
	nx, ny int
	sums   []int32
}

// crowdOf gathers what a picture shows in a box: pieces and lines.
func crowdOf(box geom.Box, g *ground, lines [][2]geom.Pt) *crowd {
	c := &crowd{at: box.Min, nx: int(box.W()/crowdStep) + 1, ny: int(box.H()/crowdStep) + 1}
	full := make([]bool, c.nx*c.ny)
	for y := range c.ny {
		for x := range c.nx {
			full[y*c.nx+x] = g.at(c.at.Add(pt((float64(x)+0.5)*crowdStep, (float64(y)+0.5)*crowdStep))) != bare
		}
	}
	for _, l := range lines {
		d := l[1].Sub(l[0])
		n := int(d.Len()/(crowdStep*0.8)) + 1
		for i := range n + 1 {
			x, y := c.cell(l[0].Add(d.Mul(float64(i) / float64(n))))
			if x >= 0 && y >= 0 && x < c.nx && y < c.ny {
				full[y*c.nx+x] = true
			}
		}
	}
	c.sums = make([]int32, (c.nx+1)*(c.ny+1))
	for y := range c.ny {
		row := int32(0)
		for x := range c.nx {
			if full[y*c.nx+x] {
				row++
			}
			c.sums[(y+1)*(c.nx+1)+x+1] = row + c.sums[y*(c.nx+1)+x+1]
		}
	}
	return c
}

func (c *crowd) cell(p geom.Pt) (x, y int) {
	return int(math.Floor((p.X - c.at.X) / crowdStep)), int(math.Floor((p.Y - c.at.Y) / crowdStep))
}

// clear reports whether nothing is drawn in a box, and the box lies inside.
func (c *crowd) clear(b geom.Box) bool {
	x0, y0 := c.cell(b.Min)
	x1, y1 := c.cell(b.Max)
	if x0 < 0 || y0 < 0 || x1 >= c.nx || y1 >= c.ny {
		return false
	}
	w := c.nx + 1
	return c.sums[(y1+1)*w+x1+1]-c.sums[y0*w+x1+1]-c.sums[(y1+1)*w+x0]+c.sums[y0*w+x0] == 0
}
