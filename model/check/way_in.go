package check

import (
	"fmt"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// A piece comes in if it can be drawn out straight by twice its thickness.
const (
	wayOut   = 2
	waySnug  = 0.5  // mm that pieces may rub each other
	wayAlong = 2e-3 // how much of a direction may point into a face it slides on
)

// wayIn finds pieces that cannot be brought to their places straight, past what
// is fixed there already. A way with a tilt is not looked for.
func wayIn(s *shop) []Finding {
	var t tally
	for _, m := range s.meetings() {
		moving, fixed := s.partsAt(m.mover), s.partsAt(m.rest)
		touch := s.touches(m)
		if len(touch) == 0 {
			continue
		}
		starts, out := false, false
		for _, d := range s.ways(m) {
			if !opens(touch, d) {
				continue
			}
			starts = true
			if out = s.clears(m, d); out {
				break
			}
		}
		if out {
			continue
		}
		level, what := Error, "is shut in on all sides"
		if starts {
			level, what = Warning, "has no straight way in; it must be tilted past"
		}
		who := called(moving...)
		if len(moving) > 2 {
			who = "the work with " + called(moving[0])
		}
		thick := moving[0].Thick
		t.add(moving[0].Key+"\x00"+fixed[0].Key, 0, Finding{Severity: level, Value: 0, Limit: wayOut * thick, Unit: "mm",
			Text: fmt.Sprintf("in step %d %s %s", s.Steps[m.step].Number, who, what),
			Fix:  fmt.Sprintf("leave it %s to one side, or add it in an earlier step", s.long(wayOut*thick))}, slices.Concat(moving[:1], s.shutters(m))...)
	}
	return t.list()
}

// shutters are the parts that what comes in lies against.
func (s *shop) shutters(m meeting) []*model.Part {
	var out []*model.Part
	for _, i := range m.rest {
		for _, k := range m.mover {
			if len(s.contact(k, i)) > 0 && !has(out, s.Placed[i].Part) {
				out = append(out, s.Placed[i].Part)
			}
		}
	}
	return out
}

// contact are the patches where two pieces touch, out of the first.
func (s *shop) contact(a, b int) []geom.Patch {
	if !s.boxes[a].Grow(1).Meets(s.boxes[b]) {
		return nil
	}
	return geom.Contact(s.Placed[a].Solid, s.Placed[b].Solid, touchTol)
}

// touches are the normals, into what is fixed, where the mover lies against it.
func (s *shop) touches(m meeting) []geom.V3 {
	var out []geom.V3
	for _, a := range m.mover {
		for _, b := range m.rest {
			for _, p := range s.contact(a, b) {
				out = append(out, p.N)
			}
		}
	}
	return out
}

// opens reports whether a direction leads into none of the faces.
func opens(into []geom.V3, d geom.V3) bool {
	for _, n := range into {
		if d.Dot(n) > wayAlong {
			return false
		}
	}
	return true
}

// ways are the directions that are tried: along the axes of the pieces and of
// the world, between any two of those, and away from all that is touched.
func (s *shop) ways(m meeting) []geom.V3 {
	var axes []geom.V3
	add := func(list []geom.V3, v geom.V3) []geom.V3 {
		if v.Len() < 1e-6 || slices.ContainsFunc(list, func(w geom.V3) bool { return w.Sub(v.Unit()).Len() < 1e-3 }) {
			return list
		}
		return append(list, v.Unit())
	}
	both := func(v geom.V3) { axes = add(add(axes, v), v.Neg()) }
	for _, pose := range append([]geom.Pose{geom.Home()}, s.Placed[m.mover[0]].Pose) {
		both(pose.Along)
		both(pose.Across)
		both(pose.Thick)
	}
	var away geom.V3
	for _, n := range s.touches(m) {
		away = away.Sub(n)
		both(n)
	}
	out := add(nil, away)
	for _, a := range axes {
		out = add(out, a)
	}
	for i, a := range axes {
		for _, b := range axes[i+1:] {
			out = add(out, a.Add(b))
		}
	}
	return out
}

// clears reports whether the mover comes free along a direction.
func (s *shop) clears(m meeting, d geom.V3) bool {
	for _, share := range []float64{0.1, 0.4, 1} {
		for _, a := range m.mover {
			p := s.Placed[a]
			home := geom.Home()
			home.Origin = d.Mul(share * wayOut * s.Placed[m.mover[0]].Part.Thick)
			moved, box := (*geom.Solid)(nil), geom.Box3{Min: s.boxes[a].Min.Add(home.Origin), Max: s.boxes[a].Max.Add(home.Origin)}
			for _, b := range m.rest {
				if !box.Grow(-waySnug).Meets(s.boxes[b]) {
					continue
				}
				if moved == nil {
					moved = p.Solid.Transform(home)
				}
				if geom.Overlap(moved, s.Placed[b].Solid, waySnug) > waySnug {
					return false
				}
			}
		}
	}
	return true
}
