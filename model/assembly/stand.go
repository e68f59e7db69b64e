package assembly

import (
	"math"
	"slices"

	"planset/model/geom"
)

// stand lets a bolted frame find its own tilt: it turns about a line from left
// to right until it rests on the floor with the weight of the named parts over
// its feet, seen from the side.
func (s *solver) stand(g *group, f geom.Pose) (geom.Pose, bool) {
	var pts []geom.Pt
	var weight, volume float64
	for _, w := range g.decl.Stands {
		p := s.parts[w.Text]
		if p == nil || p.place == nil || p.place.In.Text != g.decl.Key {
			s.problems.Errorf(w.At, "stands", "part %q does not stand in group %q", w.Text, g.decl.Key).Fix("name parts placed in this group itself")
			return f, false
		}
		list, ok := s.inGroup(p, p.place, w.At)
		if !ok {
			return f, false
		}
		for _, pc := range list {
			sh, ok := s.blank(p, pc.rank)
			if !ok {
				return f, false
			}
			pts = append(pts, sidePoints(sh, pc.pose)...)
			c := sh.board.Outline.Centroid()
			v := sh.board.Outline.Area() * sh.board.Thick
			weight += v * pc.pose.Point(geom.V3{X: c.X, Y: c.Y, Z: sh.board.Thick / 2}).Y
			volume += v
		}
	}
	if volume == 0 {
		return f, false
	}
	a, b, ok := restingEdge(pts, weight/volume)
	if !ok {
		s.problems.Errorf(g.decl.At, "stands", "group %q has no two points to stand on", g.decl.Key)
		return f, false
	}
	return lowered(f, a, b), true
}

// sidePoints are the corners of a piece seen from the side: x rear, y up. Arcs
// give points close enough that a rounded foot rests within a hundredth of a mm.
func sidePoints(sh *shape, pose geom.Pose) []geom.Pt {
	var out []geom.Pt
	for _, p := range sh.board.Outline.Flatten(0.01) {
		for _, z := range []float64{0, sh.board.Thick} {
			w := pose.Point(geom.V3{X: p.X, Y: p.Y, Z: z})
			out = append(out, geom.Pt{X: w.Y, Y: w.Z})
		}
	}
	return out
}

// restingEdge is the edge of the lower hull below the center of weight.
func restingEdge(pts []geom.Pt, at float64) (a, b geom.Pt, ok bool) {
	slices.SortFunc(pts, func(p, q geom.Pt) int {
		switch {
		case p.X < q.X || p.X == q.X && p.Y < q.Y:
			return -1
		case p == q:
			return 0
		}
		return 1
	})
	var hull []geom.Pt
	for _, p := range pts {
		for len(hull) > 1 && hull[len(hull)-1].Sub(hull[len(hull)-2]).Cross(p.Sub(hull[len(hull)-1])) <= 1e-9 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	for i := 0; i+1 < len(hull); i++ {
		if hull[i].X <= at && at <= hull[i+1].X && hull[i+1].X-hull[i].X > 1 {
			return hull[i], hull[i+1], true
		}
	}
	return a, b, false
}

// lowered turns and drops a frame so that the line from a to b lies on the
// floor; the point a keeps its place front to rear.
func lowered(f geom.Pose, a, b geom.Pt) geom.Pose {
	tilt := math.Atan2(b.Y-a.Y, b.X-a.X)
	out := spin(f, f.Along, -tilt)
	foot := out.Dir(geom.V3{Y: a.X, Z: a.Y})
	out.Origin = geom.V3{X: f.Origin.X, Y: f.Origin.Y + a.X - foot.Y, Z: -foot.Z}
	return out
}
