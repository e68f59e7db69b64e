package sheets

import "math"

// What a balloon needs, mm of paper.
const (
	blindTabWide = 7.0 // half its tab and count
	blindTabHigh = 4.5 // half its height
	blindRun     = 6.0 // of its leader in the open
)

// blindRays are the ways a leader may go: within 30 to 75 degrees of the level.
var blindRays = func() (rays [12][2]float64) {
	for i, deg := range [...]float64{34, 50, 68} {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		rays[4*i], rays[4*i+1] = [2]float64{cos, sin}, [2]float64{-cos, sin}
		rays[4*i+2], rays[4*i+3] = [2]float64{cos, -sin}, [2]float64{-cos, -sin}
	}
	return rays
}()

// blindTries is how many cells of a mask are tried.
const blindTries = 24

// blind counts the balloons whose leader can not come to its part without running
// over another one, as the masks lie now. A cell is mm of paper.
func (j *judge) blind(mm float64) int {
	clear(j.reached)
	left := len(j.reached)
	for i := range j.masks {
		m := &j.masks[i]
		if j.reached[m.key] || len(m.cells) == 0 {
			continue
		}
		for k := 0; k < len(m.cells); k += len(m.cells)/blindTries + 1 {
			x, y := int(m.cells[k].x)+int(j.shift[i].X), int(m.cells[k].y)+int(j.shift[i].Y)
			if j.pile.look(x, y) == i && j.wayOut(x, y, m.key, mm) {
				j.reached[m.key] = true
				left--
				break
			}
		}
	}
	return left
}

// wayOut reports whether a leader gets from a cell to a tab in the open, over
// nothing but its own part.
func (j *judge) wayOut(x, y int, key int32, mm float64) bool {
	for _, ray := range blindRays {
		free := 0.0
		for t := 1.0; free < 60/mm; t++ {
			px, py := x+int(math.Round(t*ray[0])), y+int(math.Round(t*ray[1]))
			v := j.pile.look(px, py)
			if v >= 0 && (v == underRim || j.masks[v].key != key) {
				break
			}
			if v >= 0 {
				free = 0
				continue
			}
			if free++; free*mm >= j.roomy*blindRun && j.tabFits(px, py, mm) {
				return true
			}
		}
	}
	return false
}

// tabFits reports whether a tab has room round a cell, in the open and on the
// page.
func (j *judge) tabFits(x, y int, mm float64) bool {
	low, high := j.pile.low, j.pile.high
	beside := int((j.room.W/mm-float64(high[0]-low[0]))/2 + (besideExploded-blindTabWide)/mm)
	over := int((j.room.H/mm-float64(high[1]-low[1]))/2 + (overExploded-blindTabHigh)/mm)
	if x < low[0]-beside || x > high[0]+beside || y < low[1]-over || y > high[1]+over {
		return false
	}
	w, h := int(j.roomy*blindTabWide/mm)+1, int(j.roomy*blindTabHigh/mm)+1
	for dy := -h; dy <= h; dy += max(1, h/2) {
		for dx := -w; dx <= w; dx += max(1, w/3) {
			if j.pile.look(x+dx, y+dy) >= 0 {
				return false
			}
		}
	}
	return true
}
