package check

import (
	"fmt"
	"math"
	"slices"

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
	for i := range s.Placed {
		s.heldBetween(&t, i)
	}
	return t.named()
}

// heldBetween looks at a piece that is held by two others which a third keeps
// apart along its grain: the two then stand still while the piece moves.
func (s *shop) heldBetween(t *tally, i int) {
	p := s.Placed[i]
	spans := s.acrossOf(i)
	for a, sa := range spans {
		for b, sb := range spans {
			if a >= b || math.IsInf(sa.a, 1) || math.IsInf(sb.a, 1) || !s.keptApart(i, a, b, p.Pose.Across) {
				continue
			}
			wide := math.Max(sa.b-sb.a, sb.b-sa.a)
			s.splits(t, "between\x00"+p.Part.Key, p.Part, wide, math.Abs(swell(p, p.Pose.Across.Mul(wide))))
		}
	}
}

// acrossOf is where the fasteners of a piece lie across it, by the other piece
// they hold.
func (s *shop) acrossOf(i int) []run {
	out := make([]run, len(s.Placed))
	for k := range out {
		out[k] = run{math.Inf(1), math.Inf(-1)}
	}
	for _, f := range s.fasteners() {
		in := slices.Index(f.Pieces[:], i)
		if in < 0 {
			continue
		}
		other := f.Pieces[1-in]
		y := s.Placed[i].Pose.Local(s.bores(f)[in].mouth).Y
		out[other] = run{math.Min(out[other].a, y), math.Max(out[other].b, y)}
	}
	return out
}

// keptApart reports whether a piece other than i holds a and b apart, its grain
// running along a direction.
func (s *shop) keptApart(i, a, b int, way geom.V3) bool {
	const along = 0.9
	for k, q := range s.Placed {
		if k != i && math.Abs(q.Pose.Along.Dot(way)) > along && s.ties[[2]int{k, a}] && s.ties[[2]int{k, b}] {
			return true
		}
	}
	return false
}

// held looks at one of two pieces between two fasteners.
func (s *shop) held(t *tally, f, g model.Fastener, which int) {
	p, q := s.Placed[f.Pieces[which]], s.Placed[f.Pieces[1-which]]
	apart := p.Pose.Across.Mul(g.Head.Sub(f.Head).Dot(p.Pose.Across))
	wide := apart.Len()
	s.splits(t, f.Joint.Key+"\x00"+p.Part.Key, p.Part, wide, math.Abs(swell(p, apart)-swell(q, apart)))
}

// splits enters a part that moves more than it may between two fasteners.
func (s *shop) splits(t *tally, key string, p *model.Part, wide, move float64) {
	if move <= moveStrains {
		return
	}
	level := Warning
	if move > moveSplits {
		level = Error
	}
	moves, most := s.against(move, moveStrains)
	t.add(key, move, Finding{Severity: level, Value: move, Limit: moveStrains, Unit: "mm",
		Text: fmt.Sprintf("held across the grain over %s, where it moves %s in a year; %s is the most", s.long(wide), moves, most),
		Fix:  fmt.Sprintf("bring the outer fasteners within %s, or make slots for one of them", s.long(wide*moveStrains/move))}, p)
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
