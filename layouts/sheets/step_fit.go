package sheets

import (
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render/view"
)

// Room round the picture of a step, mm.
const (
	tuck     = 6.0  // how far tabs may come in over a picture's empty corners
	beside   = 5.0  // at either side, at least
	oneRow   = 10.0 // above, for a row of tabs or notes
	nextRow  = 6.5  // from one row of notes to the next
	tabSides = 17.0 // at either side, where tabs stand there
	wide     = 16.0 // above, with room for everything
)

// viewFoot is how high the words at the foot of a picture stand.
func viewFoot(lines int) float64 { return 2.5 + float64(lines)*lettering.Pitch(viewStyle) }

// roomIn is the part of a box that the picture itself gets. Close, 1, it is as
// large as it can be with tabs above and below it or at its sides, whichever
// leaves more; at 0 there is room for tabs and notes all round.
// B is how far the picture reaches in mm of wood, kinds how many kinds of hardware
// it shows, lines those of the words at its foot.
func roomIn(b geom.Box, kinds int, box geom.Box, lines int, close float64) geom.Box {
	foot := viewFoot(lines)
	grown := func(side, top, bottom float64) geom.Box {
		return geom.Box{Min: box.Min.Add(pt(side, bottom)), Max: box.Max.Sub(pt(side, top))}
	}
	rows := float64(min(2, kinds))
	top := 3.0 + rows*nextRow
	best := grown(beside, max(top, oneRow), foot+oneRow-2)
	if sides := grown(tabSides, top, foot+1); scaleIn(b, sides) > scaleIn(b, best) {
		best = sides
	}
	roomy := grown(beside, wide, max(foot+8, wide+2))
	mix := func(p, q geom.Pt) geom.Pt { return p.Mul(close).Add(q.Mul(1 - close)) }
	return geom.Box{Min: mix(best.Min, roomy.Min), Max: mix(best.Max, roomy.Max)}
}

// kinds is how many kinds of hardware a scene shows.
func (s *scene) kinds() int {
	seen := map[*model.Hardware]bool{}
	for _, v := range s.drives {
		seen[v.f.Hardware] = true
	}
	return len(seen)
}

func scaleIn(b, room geom.Box) float64 { return min(room.W()/b.W(), room.H()/b.H()) }

// flatBox is the box round a scene as a camera sees it, in mm of wood.
func (s *scene) flatBox(cam view.Camera) geom.Box {
	b := geom.NoBox()
	for _, p := range s.pieces {
		for _, f := range p.Solid.Faces {
			for _, v := range f.Loops[0] {
				b = b.With(cam.Flat(v))
			}
		}
	}
	return b
}
