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

// wayShares are the shares of a straight way at which it is tried.
func wayShares() []float64 { return []float64{0.1, 0.4, 1} }

// wayIn finds pieces that cannot be brought to their places past what is fixed
// there already, neither straight nor tilted.
func wayIn(s *shop) []Finding {
	var t tally
	tries := tiltAll
	for _, m := range s.meetings() {
		moving, fixed := s.partsAt(m.mover), s.partsAt(m.rest)
		touch := s.touches(m)
		if len(touch) == 0 {
			continue
		}
		ways := slices.DeleteFunc(s.ways(m), func(d geom.V3) bool { return !opens(touch, d) })
		most := 0.0
		for _, d := range ways {
			if most = max(most, s.drawsOut(m, d)); most >= 1 {
				break
			}
		}
		if most >= 1 || s.tiltsIn(m, &tries) {
			continue
		}
		what := "is shut in on all sides"
		if len(ways) > 0 {
			what = "has no way in, straight or tilted"
		}
		who := called(moving...)
		if len(moving) > 2 {
			who = "the work with " + called(moving[0])
		}
		thick := moving[0].Thick
		t.add(moving[0].Key+"\x00"+fixed[0].Key, 0, Finding{Severity: Error, Value: most * wayOut * thick, Limit: wayOut * thick, Unit: "mm",
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

// contact are the patches where two pieces touch, out of the first. Many rules
// ask, so they are kept; they are for reading.
func (s *shop) contact(a, b int) []geom.Patch {
	if !s.boxes[a].Grow(1).Meets(s.boxes[b]) {
		return nil
	}
	if known, ok := s.lies[[2]int{a, b}]; ok {
		return known
	}
	found := geom.Contact(s.Placed[a].Solid, s.Placed[b].Solid, touchTol)
	s.lies[[2]int{a, b}] = found
	return found
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

// drawsOut is how far the mover comes free along a direction, as a share of the
// way it must come.
func (s *shop) drawsOut(m meeting, d geom.V3) float64 {
	free := 0.0
	for _, share := range wayShares() {
		if !s.clear(m, drawn(geom.Home(), d.Mul(share*wayOut*s.Placed[m.mover[0]].Part.Thick))) {
			break
		}
		free = share
	}
	return free
}

// clear reports whether the mover, moved as a whole, reaches into nothing that is
// fixed.
func (s *shop) clear(m meeting, motion geom.Pose) bool {
	for _, a := range m.mover {
		moved, box := (*geom.Solid)(nil), s.Placed[a].Solid.Box3(motion).Grow(-waySnug)
		for _, b := range m.rest {
			if !box.Meets(s.boxes[b]) {
				continue
			}
			if moved == nil {
				moved = s.Placed[a].Solid.Transform(motion)
			}
			if geom.Overlap(moved, s.Placed[b].Solid, waySnug) > waySnug {
				return false
			}
		}
	}
	return true
}
