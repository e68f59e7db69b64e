package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// clashRoom is the wood there must be between two fasteners, mm: 1/8 in.
const clashRoom = 3

// fastenerClash finds fasteners that would be drilled into each other.
func fastenerClash(s *shop) []Finding {
	var all []model.Fastener
	for _, j := range s.Joints {
		all = append(all, j.Fasteners...)
	}
	var w worst
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.Head.Sub(b.Head).Len() > a.Length+b.Length+20 {
				continue
			}
			gap := between(a, b) - a.Hardware.Diam/2 - b.Hardware.Diam/2
			if gap >= clashRoom {
				continue
			}
			w.add(Finding{Severity: Error, Parts: []string{s.Placed[a.Pieces[0]].Part.Code, s.Placed[b.Pieces[0]].Part.Code}, Value: gap, Limit: clashRoom, Unit: "mm",
				Text: fmt.Sprintf("fasteners of %q and %q pass %s apart; %s is needed", a.Joint.Name, b.Joint.Name, s.Unit.LongTo(math.Max(0, gap), expr.Fine), s.Unit.LongTo(clashRoom, expr.Fine)),
				Fix:  fmt.Sprintf("move one by %s", s.Unit.LongTo(clashRoom-gap, expr.Fine))})
		}
	}
	return w.list()
}

// between is the least distance of the axes of two fasteners.
func between(a, b model.Fastener) float64 {
	p, u := a.Head, a.Dir.Mul(a.Length)
	q, v := b.Head, b.Dir.Mul(b.Length)
	best := math.Inf(1)
	try := func(x, y float64) {
		x, y = math.Max(0, math.Min(1, x)), math.Max(0, math.Min(1, y))
		best = math.Min(best, p.Add(u.Mul(x)).Sub(q.Add(v.Mul(y))).Len())
	}
	w := p.Sub(q)
	uu, uv, vv, uw, vw := u.Dot(u), u.Dot(v), v.Dot(v), u.Dot(w), v.Dot(w)
	if den := uu*vv - uv*uv; den > 1e-9*uu*vv {
		x, y := (uv*vw-vv*uw)/den, (uu*vw-uv*uw)/den
		if x >= 0 && x <= 1 && y >= 0 && y <= 1 {
			try(x, y)
		}
	}
	near := func(pt, from geom.V3, along geom.V3) float64 { return pt.Sub(from).Dot(along) / along.Dot(along) }
	for _, e := range []float64{0, 1} {
		try(e, near(p.Add(u.Mul(e)), q, v))
		try(near(q.Add(v.Mul(e)), p, u), e)
	}
	return best
}
