package assembly

import (
	"math"

	"planset/model/geom"
	"planset/model/reading"
)

// slat is one piece of a fan in the flat of the fan: x to the right, y along
// the home direction, the origin at the middle of its foot.
type slat struct {
	turn  float64 // its top leans to the right by this
	half  float64 // half its width at the foot
	taper float64 // how far each edge leans outward from the piece's own axis
	mid   float64 // of the part's width, from its reference edge
	x     float64 // of the middle of its foot
}

// edge is a point on the right edge of the slat at its foot and the direction
// square to that edge, outward.
func (sl slat) edge() (at, out geom.Pt) {
	a := sl.turn + sl.taper
	return geom.Pt{X: sl.x + sl.half*math.Cos(sl.turn), Y: -sl.half * math.Sin(sl.turn)}, geom.Pt{X: math.Cos(a), Y: -math.Sin(a)}
}

// beside moves the slat so that its left foot corner is gap away from an edge.
func (sl slat) beside(at, out geom.Pt, gap float64) slat {
	corner := geom.Pt{X: -sl.half * math.Cos(sl.turn), Y: sl.half * math.Sin(sl.turn)}
	sl.x = (gap - corner.Sub(at).Dot(out)) / out.X
	return sl
}

// fan spreads a part about the center line from its first end: each piece is
// turned by one step from its neighbor, the gap between their edges is measured
// square to the edge at the foot, and all feet stand at one level. With a step
// of twice the taper of one edge the gaps stay parallel up to the top.
func (s *solver) fan(p *part, pl *reading.Place, lie geom.Pose) ([]piece, bool) {
	c := &scope{s: s, part: p}
	f := pl.Fan
	if !f.Count.Given() || !f.Gap.Given() || !f.Turn.Given() {
		s.problems.Errorf(f.At, "fan", "a fan needs count, gap and turn")
		return nil, false
	}
	n, ok1 := s.count(s.main(f.Count), c, 2, "the count of a fan")
	gap, ok2 := s.length(s.main(f.Gap), c)
	step, ok3 := s.angle(s.main(f.Turn), c, 0, "the turn of a fan")
	foot, ok4 := s.fanFoot(p, pl, lie)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return nil, false
	}
	if p.family {
		p.ranks = (n + 1) / 2
		if !s.roomForRanks(p, pl) {
			return nil, false
		}
	}
	s.sizes[p.decl.Key+".gap"] = gap
	at, out := geom.Pt{X: -gap / 2}, geom.Pt{X: 1}
	var list []piece
	for k := range (n + 1) / 2 {
		rank := min(k, p.ranks-1)
		sl, ok := s.fanSlat(p, rank)
		if !ok {
			return nil, false
		}
		sl.turn = (float64(k) + 0.5*float64(1-n%2)) * step
		if middle := n%2 == 1 && k == 0; !middle {
			sl = sl.beside(at, out, gap)
			list = append(list, piece{pose: sl.pose(foot, lie, 1), rank: rank}, piece{pose: sl.pose(foot, lie, -1), rank: rank})
		} else {
			list = append(list, piece{pose: sl.pose(foot, lie, 1), rank: rank})
		}
		at, out = sl.edge()
	}
	return list, true
}

// maxRankCuts bounds the sizes of a family times the cuts of each.
const maxRankCuts = 1000

// roomForRanks refuses a family of too many sizes with too many cuts in each.
func (s *solver) roomForRanks(p *part, pl *reading.Place) bool {
	n := p.ranks * (1 + p.decl.Cuts())
	if n > maxRankCuts {
		s.problems.Errorf(pl.Fan.At, "too-many", "the %d sizes of part %q would need %d cuts and holes; there may be at most %d", p.ranks, p.decl.Key, n, maxRankCuts).
			Fix("take fewer pieces in the fan")
	}
	return n <= maxRankCuts
}

// fanFoot is where the middle of a piece's foot stands when it is not turned,
// on the center line.
func (s *solver) fanFoot(p *part, pl *reading.Place, lie geom.Pose) (geom.V3, bool) {
	m := &mover{s: s, p: p, pl: pl, pose: lie}
	if !m.run() {
		return geom.V3{}, false
	}
	w, ok := s.own(p, "width", 0, pl.At)
	foot := m.pose.Point(geom.V3{Y: w / 2})
	foot.X = 0
	return foot, ok
}

// fanSlat measures a piece at its foot: its width there and how its edges run.
func (s *solver) fanSlat(p *part, rank int) (slat, bool) {
	sh, ok := s.blank(p, rank)
	if !ok {
		return slat{}, false
	}
	low, high := sh.board.Outline.Across(sh.length*0.02), sh.board.Outline.Across(sh.length*0.5)
	if len(low) < 2 || len(high) < 2 {
		s.problems.Errorf(p.decl.At, "fan", "part %q has no two edges at its foot to fan it by", p.decl.Key)
		return slat{}, false
	}
	wide := func(ys []float64) float64 { return (ys[len(ys)-1] - ys[0]) / 2 }
	slope := (wide(high) - wide(low)) / (sh.length * 0.48)
	return slat{half: wide(low) - slope*sh.length*0.02, taper: math.Atan(slope), mid: sh.width / 2}, true
}

// pose turns the slat about the middle of its foot, to the right (side 1) or to
// the left (-1).
func (sl slat) pose(foot geom.V3, lie geom.Pose, side float64) geom.Pose {
	right, along := geom.V3{X: 1}, lie.Along
	axis := along.Cross(right)
	p := geom.Pose{Along: along.Spin(axis, side*sl.turn), Across: lie.Across.Spin(axis, side*sl.turn), Thick: lie.Thick}
	p.Origin = foot.Add(right.Mul(side * sl.x)).Sub(p.Across.Mul(sl.mid))
	return p
}
