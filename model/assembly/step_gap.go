package assembly

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// A slit is the space between two faces that look at each other.
type slit struct {
	a, b        int     // pieces
	wide        float64 // mm
	from        geom.V3 // in the middle of what the faces share, on that of a
	out         geom.V3 // unit, from a to b
	along, into geom.V3 // unit, in the face, along the longer way
	long, deep  float64 // of what they share, mm
}

// showGap finds the space between two pieces. Without a second one, or where
// more than one gap is as wide as the narrowest, it is every one of them.
func (s *solver) showGap(a, b *hold) ([]model.Show, bool) {
	if a.floor || b.floor {
		s.problems.Errorf(a.at, "show", "a gap is between two pieces").Fix("measure a distance to the floor: take away as")
		return nil, false
	}
	if a.named() > 1 || b.named() > 1 {
		s.problems.Errorf(a.at, "show", "a spacer stands between pieces, or beside one side of a piece, not at a corner").Fix("name the piece, or one of its sides")
		return nil, false
	}
	if a.named() == 0 && b.named() == 1 {
		a, b = b, a
	}
	if a.named() == 1 {
		return s.gapBeside(a, b)
	}
	if b.p == nil {
		b = a
	}
	var found []slit
	for _, i := range a.many {
		for _, k := range b.many {
			if k == i || a == b && k < i {
				continue
			}
			if g, ok := s.between(i, k); ok {
				found = append(found, g)
			}
		}
	}
	least := math.Inf(1)
	for _, g := range found {
		least = min(least, g.wide)
	}
	var out []model.Show
	for _, g := range found {
		if g.wide < 1.5*least && g.wide > least+sameAs[expr.Dim{Length: 1}] {
			s.problems.Errorf(a.at, "not-same", "the gaps of %q are not the same: %s and %s", a.text, s.opt.Unit.Long(least), s.opt.Unit.Long(g.wide)).Fix("name the two pieces of one gap")
			return nil, false
		}
		if g.wide <= 1.5*least {
			out = append(out, s.gapOf(g))
		}
	}
	if len(out) == 0 {
		s.problems.Errorf(a.at, "no-gap", "no two faces of %s look at each other across a gap", strings.Join(uniq(a.text, b.text), " and ")).Fix("name the side the spacer lies against, as part.side")
		return nil, false
	}
	out[len(out)/2].Text = s.opt.Unit.Long(least)
	return out, true
}

func uniq(a, b string) []string {
	if a == b {
		return []string{a}
	}
	return []string{a, b}
}

// gapOf is a slit as a show. Its spacer stands toward the left or upper end.
func (s *solver) gapOf(g slit) model.Show {
	if g.along.Z-g.along.X < 0 {
		g.along = g.along.Neg()
	}
	at := g.from.Add(g.along.Mul(0.32 * g.long))
	return model.Show{Kind: model.ShowGap, Pieces: [2]int{g.a, g.b}, A: at, B: at.Add(g.out.Mul(g.wide)), Along: g.along, Into: g.into, Value: expr.Length(g.wide)}
}

// between finds the narrowest space between two flat faces of two pieces.
func (s *solver) between(i, k int) (slit, bool) {
	best := slit{a: i, b: k, wide: math.Inf(1)}
	p := s.plan.Placed[i]
	for _, f := range p.Solid.Faces {
		if f.Smooth > 0 {
			continue
		}
		u, v := faceAxes(f.N, p.Pose)
		for _, g := range s.plan.Placed[k].Solid.Faces {
			if g.Smooth > 0 || f.N.Dot(g.N) > -1+1e-6 {
				continue
			}
			wide := g.Loops[0][0].Sub(f.Loops[0][0]).Dot(f.N)
			if wide < flatTol || wide >= best.wide {
				continue
			}
			lu, hu := overlap(f, g, u)
			lv, hv := overlap(f, g, v)
			if hu-lu < 5 || hv-lv < 5 {
				continue
			}
			mid := f.Loops[0][0]
			mid = mid.Add(u.Mul((lu+hu)/2 - mid.Dot(u))).Add(v.Mul((lv+hv)/2 - mid.Dot(v)))
			best.wide, best.from, best.out = wide, mid, f.N
			best.along, best.into, best.long, best.deep = u, v, hu-lu, hv-lv
			if best.long < best.deep {
				best.along, best.into, best.long, best.deep = v, u, best.deep, best.long
			}
		}
	}
	return best, !math.IsInf(best.wide, 1)
}

// faceAxes are two directions in a face with normal n, one along the grain where
// the face runs along it.
func faceAxes(n geom.V3, pose geom.Pose) (u, v geom.V3) {
	u = pose.Along.Sub(n.Mul(n.Dot(pose.Along)))
	if u.Len() < 0.3 {
		u = pose.Across.Sub(n.Mul(n.Dot(pose.Across)))
	}
	u = u.Unit()
	return u, n.Cross(u)
}

// overlap is the stretch along an axis where two faces both are.
func overlap(f, g geom.Face, axis geom.V3) (lo, hi float64) {
	lo, hi = math.Inf(-1), math.Inf(1)
	for _, loop := range [][]geom.V3{f.Loops[0], g.Loops[0]} {
		a, b := math.Inf(1), math.Inf(-1)
		for _, p := range loop {
			a, b = min(a, p.Dot(axis)), max(b, p.Dot(axis))
		}
		lo, hi = max(lo, a), min(hi, b)
	}
	return lo, hi
}

// gapBeside finds how near other pieces come to a side, where they pass it.
func (s *solver) gapBeside(a, b *hold) ([]model.Show, bool) {
	if b.p == nil {
		s.problems.Errorf(a.at, "incomplete", "a gap beside a side needs the piece on its other side").Fix("write to = with the name of a piece")
		return nil, false
	}
	if !s.oneSide(a, "a spacer lies against a side") {
		return nil, false
	}
	i := a.piece()
	u, v := faceAxes(a.out, s.plan.Placed[i].Pose)
	lu, hu := reachOf(s.plan.Placed[i].Solid, u)
	if lv, hv := reachOf(s.plan.Placed[i].Solid, v); hv-lv > hu-lu {
		u, v = v, u
	}
	best := math.Inf(1)
	sh := model.Show{Kind: model.ShowGap, Along: u, Into: v}
	for _, k := range b.many {
		at, ok := nearestBeside(s.plan.Placed[k].Solid, s.plan.Placed[i].Solid, a, u, v)
		if wide := at.Sub(a.point).Dot(a.out); ok && wide > -inAir && wide < best {
			best = wide
			sh.Pieces, sh.B, sh.A = [2]int{i, k}, at, at.Sub(a.out.Mul(wide))
		}
	}
	if math.IsInf(best, 1) || best < flatTol {
		s.problems.Errorf(a.at, "no-gap", "no %q passes %q with a gap between", b.text, a.text)
		return nil, false
	}
	sh.Value, sh.Text = expr.Length(best), s.opt.Unit.Long(best)
	return []model.Show{sh}, true
}

// nearestBeside is the point of other nearest to the side a of own, among those
// that pass it; the middle of them where a whole edge is as near.
func nearestBeside(other, own *geom.Solid, a *hold, u, v geom.V3) (geom.V3, bool) {
	left := other
	for _, axis := range []geom.V3{u, v} {
		lo, hi := reachOf(own, axis)
		for _, pl := range []geom.Plane{{P: axis.Mul(hi), N: axis}, {P: axis.Mul(lo), N: axis.Neg()}} {
			if left = left.CutBy(pl, geom.Flat); left == nil {
				return geom.V3{}, false
			}
		}
	}
	least := math.Inf(1)
	var sum geom.V3
	n := 0.0
	for _, p := range left.Points() {
		switch wide := p.Sub(a.point).Dot(a.out); {
		case wide < least-1e-3:
			least, sum, n = wide, p, 1
		case wide < least+1e-3:
			sum, n = sum.Add(p), n+1
		}
	}
	return sum.Mul(1 / n), true
}

// showFlat proves that two pieces have sides in one plane, where a straightedge
// lies on both without rocking.
func (s *solver) showFlat(a, b *hold) ([]model.Show, bool) {
	if a.floor || b.floor || a.named() > 1 || b.named() > 1 {
		s.problems.Errorf(a.at, "show", "a straightedge lies on sides of two pieces").Fix("name one side of each, or the whole pieces")
		return nil, false
	}
	best, found, step := 0.0, model.Show{}, math.Inf(1)
	for _, f := range s.facesAt(a) {
		for _, g := range s.facesAt(b) {
			if f.N.Dot(g.N) < 1-1e-6 {
				continue
			}
			off := math.Abs(g.Loops[0][0].Sub(f.Loops[0][0]).Dot(f.N))
			step = min(step, off)
			if size := min(f.Area(), g.Area()); off <= flatTol && size > best {
				best = size
				found = model.Show{Kind: model.ShowFlat, Pieces: [2]int{a.piece(), b.piece()}, A: middleOf(f), B: middleOf(g), Out: f.N, Text: "no gap"}
			}
		}
	}
	if best == 0 {
		bad := s.problems.Errorf(a.at, "not-flat", "no sides of %q and %q lie in one plane", a.text, b.text)
		if !math.IsInf(step, 1) {
			bad.Fix("the nearest ones are %s apart", s.opt.Unit.Long(step))
		}
		return nil, false
	}
	way := found.B.Sub(found.A)
	if way.Len() < 1 { // one over the other: along the first piece
		way = s.plan.Placed[a.piece()].Pose.Along
	}
	found.Along = way.Unit()
	return []model.Show{found}, true
}

// facesAt are the flat faces of a piece, those that look the way of the named
// side where there is one.
func (s *solver) facesAt(h *hold) []geom.Face {
	var out []geom.Face
	for _, f := range s.plan.Placed[h.piece()].Solid.Faces {
		if f.Smooth == 0 && (h.named() == 0 || f.N.Dot(h.out) > 0.7) {
			out = append(out, f)
		}
	}
	return out
}

// middleOf is the middle of the box round a face.
func middleOf(f geom.Face) geom.V3 {
	lo := f.Loops[0][0]
	hi := lo
	for _, p := range f.Loops[0] {
		lo = geom.V3{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}
		hi = geom.V3{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
	}
	return lo.Add(hi).Mul(0.5)
}
