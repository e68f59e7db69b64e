package sheets

import (
	"math"

	"planset/model/geom"
	"planset/render/view"
)

// A pair is two pieces that may come to stand in each other: the directions their
// boards have, and how far apart along each their middles must be and are. In
// cells, in the camera's frame.
type pair struct {
	a, b int
	dirs [6]geom.V3
	need [6]float64
	have [6]float64
}

// mostPaired bounds the pieces that are looked at in pairs.
const mostPaired = 150

// pairs lists the pieces that do not stand in each other when put together, by
// the boxes of their boards.
func (u *undoing) pairs(cam view.Camera, cell float64) []pair {
	const slack = 2.0 // mm that boxes may reach into each other where edges slope
	if len(u.pieces) > mostPaired {
		return nil
	}
	var boxes []boardBox
	for _, i := range u.pieces {
		p := u.d.plan.Placed[i]
		boxes = append(boxes, newBoardBox(p.Solid, [3]geom.V3{p.Pose.Along, p.Pose.Across, p.Pose.Thick}))
	}
	var out []pair
	for b := range boxes {
		for a := range b {
			p := pair{a: a, b: b}
			clear := math.Inf(-1)
			between := boxes[b].middle.Sub(boxes[a].middle)
			for k := range p.dirs {
				dir := boxes[[2]int{a, b}[k/3]].dirs[k%3]
				need, have := boxes[a].half(dir)+boxes[b].half(dir), between.Dot(dir)
				clear = max(clear, math.Abs(have)-need)
				p.dirs[k], p.need[k], p.have[k] = eyed(cam, dir), (need-slack)/cell, have/cell
			}
			if clear > -slack {
				out = append(out, p)
			}
		}
	}
	return out
}

// inEachOther counts the pairs that stand in each other as the pieces are moved.
func (j *judge) inEachOther() int {
	n := 0
	for i := range j.pairs {
		p := &j.pairs[i]
		way := j.move[p.b].Sub(j.move[p.a])
		apart := false
		for k := 0; k < len(p.dirs) && !apart; k++ {
			apart = math.Abs(p.have[k]+way.Dot(p.dirs[k])) > p.need[k]
		}
		if !apart {
			n++
		}
	}
	return n
}

// A boardBox is the box round a solid that lies as its board does.
type boardBox struct {
	middle geom.V3
	dirs   [3]geom.V3
	halves [3]float64
}

func newBoardBox(s *geom.Solid, dirs [3]geom.V3) boardBox {
	b := boardBox{dirs: dirs}
	for k, dir := range dirs {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range s.Points() {
			lo, hi = min(lo, v.Dot(dir)), max(hi, v.Dot(dir))
		}
		b.middle = b.middle.Add(dir.Mul((lo + hi) / 2))
		b.halves[k] = (hi - lo) / 2
	}
	return b
}

// half is how far the box reaches from its middle along a direction.
func (b boardBox) half(dir geom.V3) float64 {
	sum := 0.0
	for k := range b.dirs {
		sum += b.halves[k] * math.Abs(b.dirs[k].Dot(dir))
	}
	return sum
}
