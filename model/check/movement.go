package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// How much wood may move between two fixed points across its grain, mm: 1/8 in
// strains it, 3/16 in splits it (common practice). Outdoors its moisture changes
// by 8 % in a year.
const (
	moveStrains = 3.175
	moveSplits  = 4.7625
	moistSwing  = 8
)

// movement finds parts held across the grain by fasteners so far apart that the
// wood between them must split when it shrinks. What it is held to moves too, in
// as far as its grain runs the same way.
func movement(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		for i, f := range j.Fasteners {
			for _, g := range j.Fasteners[i+1:] {
				if f.Pieces == g.Pieces {
					s.held(&t, f, g, 0)
					s.held(&t, f, g, 1)
				}
			}
		}
	}
	return t.named()
}

// held looks at one of two pieces between two fasteners.
func (s *shop) held(t *tally, f, g model.Fastener, which int) {
	p, q := s.Placed[f.Pieces[which]], s.Placed[f.Pieces[1-which]]
	apart := p.Pose.Across.Mul(g.Head.Sub(f.Head).Dot(p.Pose.Across))
	wide := apart.Len()
	move := math.Abs(swell(p, apart) - swell(q, apart))
	if move <= moveStrains {
		return
	}
	level := Warning
	if move > moveSplits {
		level = Error
	}
	moves, most := s.against(move, moveStrains)
	t.add(f.Joint.Key+"\x00"+p.Part.Key, move, Finding{Severity: level, Value: move, Limit: moveStrains, Unit: "mm",
		Text: fmt.Sprintf("held across the grain over %s, where it moves %s in a year; %s is the most", s.long(wide), moves, most),
		Fix:  fmt.Sprintf("bring the outer fasteners within %s, or make slots for one of them", s.long(wide*moveStrains/move))}, p.Part)
}

// swell is how much a distance in a piece changes in a year outdoors.
func swell(p *model.Placed, over geom.V3) float64 {
	w, ok := wood.Species(p.Part.Stock.Species)
	if !ok || over.Len() == 0 {
		return 0
	}
	along := over.Unit().Dot(p.Pose.Along)
	return over.Len() * (1 - along*along) * w.CT * moistSwing
}
