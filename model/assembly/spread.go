package assembly

import (
	"math"

	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// row repeats a piece toward one side, with a gap given or found.
func (s *solver) row(p *part, pl *reading.Place, first piece) ([]piece, bool) {
	r := pl.Row
	c := &scope{s: s, part: p}
	if !r.Toward.Given() || !r.Count.Given() || r.Gap.Given() == r.To.Given() {
		s.problems.Errorf(r.At, "row", "a row needs toward, count, and either gap or to").Fix(`write row = { toward = "rear", count = 5, gap = "3/8" }`)
		return nil, false
	}
	n, ok := s.count(s.main(r.Count), c, 1, "the count of a row")
	if !ok {
		return nil, false
	}
	d := way(r.Toward.Text)
	lo, hi, ok := s.reach(p, first.pose, d)
	if !ok {
		return nil, false
	}
	gap, ok := s.rowGap(p, pl, c, n, d, hi, hi-lo)
	if !ok {
		return nil, false
	}
	var out []piece
	for i := range n {
		pc := first
		pc.pose.Origin = first.pose.Origin.Add(d.Mul(float64(i) * (hi - lo + gap)))
		out = append(out, pc)
	}
	return out, true
}

// reach is how far a blank extends along a direction of its frame.
func (s *solver) reach(p *part, pose geom.Pose, d geom.V3) (lo, hi float64, ok bool) {
	at := pose.Origin.Dot(d)
	lo, hi = at, at
	for k, what := range []string{"length", "width", "thick"} {
		c := []geom.V3{pose.Along, pose.Across, pose.Thick}[k].Dot(d)
		mm, ok := s.own(p, what, 0, p.decl.At)
		if !ok {
			return 0, 0, false
		}
		lo, hi = lo+math.Min(0, c*mm), hi+math.Max(0, c*mm)
	}
	return lo, hi, true
}

// rowGap is the gap given, or the equal gap that fills the row to a place.
func (s *solver) rowGap(p *part, pl *reading.Place, c *scope, n int, d geom.V3, end, size float64) (float64, bool) {
	r := pl.Row
	gap, ok := 0.0, true
	if r.Gap.Given() {
		gap, ok = s.length(s.main(r.Gap), c)
	} else {
		i := 0
		for k := range 3 {
			if math.Abs(coord(d, k)) > 0.5 {
				i = k
			}
		}
		c.axis = &axis{unitAxis(i), pl.In.Text, axisNames[i]}
		var to float64
		if to, ok = s.length(s.main(r.To), c); ok && n > 1 {
			gap = (to*coord(d, i) - end - float64(n-1)*size) / float64(n-1)
		}
	}
	if !ok {
		return 0, false
	}
	if gap < -tol {
		s.problems.Errorf(r.At, "row", "%d pieces of %s do not fit: each would overlap the next by %s", n, s.opt.Unit.Long(size), s.opt.Unit.Long(-gap)).Fix("take fewer, or give them more room")
		return 0, false
	}
	s.sizes[p.decl.Key+".gap"] = gap
	return gap, true
}

// gapValue answers part.gap: the gap of its row or fan.
func (s *solver) gapValue(p *part, at source.Span) (expr.Value, bool) {
	if p.place == nil || p.place.Row == nil && p.place.Fan == nil {
		s.problems.Errorf(at, "unknown-name", "part %q stands in no row or fan, so it has no gap", p.decl.Key)
		return expr.Value{}, false
	}
	_, ok := s.inGroup(p, p.place, at)
	return expr.Length(s.sizes[p.decl.Key+".gap"]), ok
}
