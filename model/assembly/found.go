package assembly

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// finished works out the whole shape of a part: the blank, trimmed by other
// planes and bevelled to bear on other parts.
func (s *solver) finished(p *part, rank int) (*shape, bool) {
	blank, ok := s.blank(p, rank)
	if !ok || rank > 0 || !s.isCut(p) {
		return blank, ok
	}
	key := "shape of " + p.decl.Key
	ok = s.once(key, p.decl.At, func() bool {
		sh := *blank
		sh.board.Outline = append(geom.Outline{}, blank.board.Outline...)
		sh.board.Cuts = append([]geom.Plane{}, blank.board.Cuts...)
		s.shapes[key] = &sh
		return s.trims(p, &sh) && s.bears(p, &sh)
	})
	return s.shapes[key], ok
}

// isCut reports whether other planes cut the part.
func (s *solver) isCut(p *part) bool {
	if len(p.decl.Trims) > 0 {
		return true
	}
	for _, e := range p.decl.Edges {
		if e.Bears.Given() {
			return true
		}
	}
	return false
}

// foundLength is the length of a part that other planes trim.
func (s *solver) foundLength(p *part, rank int) (float64, bool) {
	sh, ok := s.finished(p, rank)
	if !ok {
		return 0, false
	}
	return sh.length, true
}

// trims cuts the ends that other planes find.
func (s *solver) trims(p *part, sh *shape) bool {
	for _, t := range p.decl.Trims {
		f, ok := s.featureAt(p, t.Name.Text, t.Name.At)
		if !ok {
			return false
		}
		if f.axis != 0 {
			s.problems.Errorf(t.Name.At, "unknown-side", "%q is not an end of part %q", t.Name.Text, p.decl.Key).Suggest(t.Name.Text, p.names.Ends[:])
			return false
		}
		if !t.By.Given() {
			s.problems.Errorf(t.Name.At, "trim", "this trim does not say by what").Fix(`write by = "floor", or a side of a part`)
			return false
		}
		pl, ok := s.localPlane(p, t.By)
		if !ok || !s.trim(p, sh, t, f.side, pl) {
			return false
		}
	}
	b := sh.board.Outline.Box()
	sh.length = b.Max.X
	if sh.length > trimRoom-1 {
		s.problems.Errorf(p.decl.At, "trim", "nothing trims part %q within %s", p.decl.Key, s.opt.Unit.Long(trimRoom))
		return false
	}
	return true
}

// localPlane finds a plane named by the author in the part's own frame. Its
// normal points to what is cut away.
func (s *solver) localPlane(p *part, by reading.Word) (geom.Plane, bool) {
	pose, ok := s.worldPose(p, by.At)
	if !ok {
		return geom.Plane{}, false
	}
	world, ok := s.worldPlane(by)
	if !ok {
		return world, false
	}
	return geom.Plane{P: pose.Local(world.P), N: pose.LocalDir(world.N)}, true
}

// worldPose is where the first piece of a part stands.
func (s *solver) worldPose(p *part, at source.Span) (geom.Pose, bool) {
	list, ok := s.instancesIn(p, "", at)
	if !ok || len(list) == 0 {
		return geom.Pose{}, false
	}
	return list[0].pose, true
}

// worldPlane is the floor, a plane of a group, or a side of a placed part; the
// normal points into it, to where no wood of another part may be.
func (s *solver) worldPlane(by reading.Word) (geom.Plane, bool) {
	if by.Text == "floor" {
		return geom.Plane{N: geom.V3{Z: -1}}, true
	}
	head, rest, _ := strings.Cut(by.Text, ".")
	if s.groups[head] != nil {
		return s.groupPlane(head, rest, by)
	}
	p := s.parts[head]
	if p == nil {
		s.problems.Errorf(by.At, "unknown-part", "there is no part or group %q", head).Suggest(head, append(s.partNames(), s.groupNames()...))
		return geom.Plane{}, false
	}
	f, ok := s.featureAt(p, rest, by.At)
	if !ok {
		return geom.Plane{}, false
	}
	pose, ok := s.worldPose(p, by.At)
	if !ok {
		return geom.Plane{}, false
	}
	pt, _, ok := s.spot(p, []string{rest}, 0, by.At)
	n := []geom.V3{pose.Along, pose.Across, pose.Thick}[f.axis]
	if f.side == 1 {
		n = n.Neg()
	}
	return geom.Plane{P: pose.Point(pt), N: n}, ok
}

// groupPlane is the plane through a group's origin; the wood on the named side
// is cut away.
func (s *solver) groupPlane(key, side string, by reading.Word) (geom.Plane, bool) {
	fr, ok := s.frame(key, by.At)
	if !ok {
		return geom.Plane{}, false
	}
	for _, w := range []string{"left", "right", "front", "rear", "up", "down"} {
		if w == side {
			return geom.Plane{P: fr.Origin, N: fr.Dir(way(side))}, true
		}
	}
	s.problems.Errorf(by.At, "unknown-side", "a group has no side %q", side).Fix("write %s.left, .right, .front, .rear, .up or .down: the wood on that side is cut away", key)
	return geom.Plane{}, false
}

// trim cuts one end by a plane: right across, or for a flat of a given length
// and then plumb or square.
func (s *solver) trim(p *part, sh *shape, t reading.Trim, side int, pl geom.Plane) bool {
	cut := &sh.ends[side]
	cut.By, cut.Shape = t.By.Text, "cut"
	if t.Flat.Given() {
		return s.trimFlat(p, sh, t, side, pl)
	}
	if math.Abs(pl.N.X) < 0.2 {
		s.problems.Errorf(t.By.At, "trim", "%q runs almost along part %q and cannot trim its end", t.By.Text, p.decl.Key)
		return false
	}
	if (pl.N.X > 0) != (side == 1) {
		pl.N = pl.N.Neg()
	}
	s.describe(cut, pl.N)
	if math.Abs(pl.N.Z) > 1e-9 {
		s.shorten(sh, side, pl)
		sh.board.Cuts = append(sh.board.Cuts, pl)
		return true
	}
	return s.sawBy(p, sh, pl)
}

// shorten crosscuts the blank square where a compound cut leaves it longest, so
// that the outline ends where the board does.
func (s *solver) shorten(sh *shape, side int, pl geom.Plane) {
	long := math.Inf(-1)
	sign := float64(2*side - 1)
	for _, y := range []float64{0, sh.width} {
		for _, z := range []float64{0, sh.board.Thick} {
			x := pl.P.X - (pl.N.Y*(y-pl.P.Y)+pl.N.Z*(z-pl.P.Z))/pl.N.X
			long = math.Max(long, sign*x)
		}
	}
	if left := sh.board.Outline.ClipLine(geom.Pt{X: sign * long}, geom.Pt{X: sign}); len(left) == 1 {
		sh.board.Outline = left[0]
	}
}

// describe turns a cut's normal into saw settings: miter in the face, bevel of
// the blade, and the sides they leave longer.
func (s *solver) describe(cut *model.EndCut, n geom.V3) {
	miter, bevel := geom.SawCut(n)
	edge, face := 0, 0
	if n.Y < 0 {
		edge = 1
	}
	if n.Z < 0 {
		face = 1
	}
	cut.Miter, cut.Bevel, cut.LongEdge, cut.LongFace = math.Abs(miter), math.Abs(bevel), edge, face
}

// trimFlat cuts a foot: along the plane for a given length from the edge it
// reaches first, then plumb or square.
func (s *solver) trimFlat(p *part, sh *shape, t reading.Trim, side int, pl geom.Plane) bool {
	c := &scope{s: s, part: p}
	flat, ok := s.length(s.main(t.Flat), c)
	if !ok {
		return false
	}
	if math.Abs(pl.N.Z) > 1e-9 || side == 0 {
		s.problems.Errorf(t.Name.At, "trim", "a flat can only be cut at the second end of a part, by a plane square to its face")
		return false
	}
	n := geom.Pt{X: pl.N.X, Y: pl.N.Y}
	at := geom.Pt{X: pl.P.X, Y: pl.P.Y}
	edge := 0.0
	if n.Y > 0 {
		edge = sh.width
	}
	if math.Abs(n.X) < 1e-6 || math.Abs(n.Y) < 1e-6 {
		s.problems.Errorf(t.By.At, "trim", "%q runs along or square across part %q: there is no flat to find", t.By.Text, p.decl.Key)
		return false
	}
	start := geom.Pt{X: at.X - n.Y*(edge-at.Y)/n.X, Y: edge}
	along := n.Left()
	if along.X < 0 {
		along = along.Mul(-1)
	}
	second := start.Add(along.Mul(flat))
	out := geom.Pt{X: 1}
	if t.Then.Text != "square" {
		pose, ok := s.worldPose(p, t.Name.At)
		if !ok {
			return false
		}
		up := pose.LocalDir(geom.V3{Z: 1})
		out = geom.Pt{X: -up.Y, Y: up.X}
		if out.X < 0 {
			out = out.Mul(-1)
		}
	}
	cut := &sh.ends[side]
	cut.Flat = flat
	cut.Miter = math.Atan2(math.Abs(n.Y), math.Abs(n.X))
	cut.Then = math.Atan2(math.Abs(out.Y), out.X)
	return s.sawBy(p, sh, geom.Plane{P: geom.V3{X: start.X, Y: start.Y}, N: geom.V3{X: n.X, Y: n.Y}}) &&
		s.sawBy(p, sh, geom.Plane{P: geom.V3{X: second.X, Y: second.Y}, N: geom.V3{X: out.X, Y: out.Y}})
}

// bears bevels the edges that must lie flat against another part.
func (s *solver) bears(p *part, sh *shape) bool {
	for _, e := range p.decl.Edges {
		if !e.Bears.Given() {
			continue
		}
		f, ok := s.featureAt(p, e.Name.Text, e.Name.At)
		if !ok {
			return false
		}
		pl, ok := s.localPlane(p, e.Bears)
		if !ok {
			return false
		}
		if math.Abs(pl.N.X) > 1e-6 || math.Abs(pl.N.Y) < 0.3 {
			s.problems.Errorf(e.Bears.At, "bears", "edge %q of part %q cannot be bevelled to bear on %s: the two do not run along each other", e.Name.Text, p.decl.Key, e.Bears.Text)
			return false
		}
		if (pl.N.Y > 0) != (f.side == 1) {
			pl.N = pl.N.Neg()
		}
		cut := &sh.edges[f.side]
		cut.By = e.Bears.Text
		cut.Bevel = math.Atan2(math.Abs(pl.N.Z), math.Abs(pl.N.Y))
		if pl.N.Z < 0 {
			cut.LongFace = 1
		}
		sh.board.Cuts = append(sh.board.Cuts, pl)
	}
	return true
}

// cutAngle answers part.side.miter and part.side.bevel.
func (s *solver) cutAngle(p *part, side, what string, at source.Span) (expr.Value, bool) {
	f, ok := s.featureAt(p, side, at)
	if !ok {
		return expr.Value{}, false
	}
	sh, ok := s.finished(p, 0)
	if !ok {
		return expr.Value{}, false
	}
	switch {
	case f.axis == 0 && what == "miter":
		return expr.Radians(sh.ends[f.side].Miter, expr.Square), true
	case f.axis == 0:
		return expr.Radians(sh.ends[f.side].Bevel, expr.Square), true
	case f.axis == 1 && what == "bevel":
		return expr.Radians(sh.edges[f.side].Bevel, expr.Square), true
	}
	s.problems.Errorf(at, "unknown-name", "%s.%s has no %s", p.decl.Key, side, what)
	return expr.Value{}, false
}
