package assembly

import (
	"math"
	"slices"

	"planset/model/expr"
	"planset/model/geom"
	"planset/model/source"
)

// A frame is a pose whose Along is right, Across rear and Thick up.

// frame works out where a group's frame stands in the world. "" is the world.
func (s *solver) frame(key string, at source.Span) (geom.Pose, bool) {
	if key == "" {
		return geom.Home(), true
	}
	g := s.groups[key]
	if g == nil {
		s.problems.Errorf(at, "unknown-group", "there is no group %q", key).Suggest(key, s.groupNames())
		return geom.Pose{}, false
	}
	ok := s.once("group "+key, at, func() bool {
		f, ok := s.setFrame(g)
		s.frames[key] = f
		return ok
	})
	return s.frames[key], ok
}

func (s *solver) groupNames() []string {
	var out []string
	for k := range s.groups {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// setFrame puts a group at its point, turns it, and lets it find its feet.
func (s *solver) setFrame(g *group) (geom.Pose, bool) {
	parent, ok := s.parentFrame(g)
	if !ok {
		return parent, false
	}
	f := parent
	c := &scope{s: s}
	for _, d := range g.decl.Set {
		mm, ok := s.length(s.main(d.By), c)
		if !ok {
			return f, false
		}
		f.Origin = f.Origin.Add(parent.Dir(way(d.Side.Text)).Mul(mm))
	}
	if len(g.decl.Turns) > 0 {
		if f, ok = s.turned(g, f); !ok {
			return f, false
		}
	}
	if len(g.decl.Stands) > 0 {
		return s.stand(g, f)
	}
	return f, true
}

// parentFrame is the frame a group is set in: another group, or a part it rides on.
func (s *solver) parentFrame(g *group) (geom.Pose, bool) {
	if !g.decl.On.Given() {
		return s.frame(g.decl.In.Text, g.decl.In.At)
	}
	return s.ridingFrame(g.decl.On)
}

// turned turns a frame by the group's one named angle. Fall is counted from
// level and lean from plumb in the world, whatever the frame stands in; turn,
// splay and tip are counted from that frame.
func (s *solver) turned(g *group, f geom.Pose) (geom.Pose, bool) {
	t := g.decl.Turns[0]
	zero := map[string]expr.Zero{"fall": expr.Level, "lean": expr.Plumb, "splay": expr.Plumb}[t.Key]
	a, ok := s.angle(s.main(t.By), &scope{s: s}, zero, t.Key)
	if !ok {
		return f, false
	}
	switch t.Key {
	case "turn":
		return spin(f, f.Thick, a), true
	case "splay":
		return spin(f, f.Across, -a), true
	case "tip":
		return spin(f, f.Along, -a), true
	}
	if math.Abs(f.Along.Z) > 1e-9 {
		s.problems.Errorf(t.By.At, "group-turn", "group %q stands in a frame that leans sideways, so %q has no meaning in it", g.decl.Key, t.Key).
			Fix("use tip, which counts from the frame it stands in")
		return f, false
	}
	right := f.Along
	level := geom.V3{Z: 1}.Cross(right).Unit()
	flat := geom.Pose{Origin: f.Origin, Along: right, Across: level, Thick: geom.V3{Z: 1}}
	return spin(flat, right, -a), true
}

// spin turns a frame about one of its own directions.
func spin(f geom.Pose, axis geom.V3, a float64) geom.Pose {
	f.Along, f.Across, f.Thick = f.Along.Spin(axis, a), f.Across.Spin(axis, a), f.Thick.Spin(axis, a)
	return f
}

// way is a direction word in a frame; in and out are those of a right piece.
func way(word string) geom.V3 {
	switch word {
	case "right", "out":
		return geom.V3{X: 1}
	case "left", "in":
		return geom.V3{X: -1}
	case "rear":
		return geom.V3{Y: 1}
	case "front":
		return geom.V3{Y: -1}
	case "up":
		return geom.V3{Z: 1}
	}
	return geom.V3{Z: -1}
}

// ofGroup answers group.fall and group.lean: how the frame really stands.
func (s *solver) ofGroup(g *group, what string, at source.Span) (expr.Value, bool) {
	f, ok := s.frame(g.decl.Key, at)
	if !ok {
		return expr.Value{}, false
	}
	switch what {
	case "fall":
		return expr.Radians(math.Asin(-f.Across.Z), expr.Level), true
	case "lean":
		level := math.Hypot(f.Thick.X, f.Thick.Y)
		return expr.Radians(math.Atan2(level, f.Thick.Z), expr.Plumb), true
	}
	s.problems.Errorf(at, "unknown-name", "group %q has no %q", g.decl.Key, what).Fix("write %s.fall or %s.lean", g.decl.Key, g.decl.Key)
	return expr.Value{}, false
}
