package check

import (
	"math"

	"planset/model/geom"
)

// A piece that has no straight way in may be tilted past: drawn a little, then
// turned about one of its own edges or ends, then drawn out straight. Turning is
// tried in steps so small that no corner moves farther than half a thickness.
const (
	tiltMost   = 45 * math.Pi / 180
	tiltCoarse = 3 * math.Pi / 180
	tiltFine   = 0.3 * math.Pi / 180
	tiltTries  = 4000  // exact tests for one piece; what is not found by then is not found
	tiltAll    = 20000 // and for all pieces of a plan
)

// tilt looks for a way to draw a mover out, turned.
type tilt struct {
	*shop
	meeting
	frame geom.Pose // of the mover's first piece
	box   geom.Box3 // of the mover, in that frame
	thick float64
	tries int  // left for this piece
	all   *int // left for the plan
}

// tiltsIn reports whether the mover of a meeting comes free with a turn, and
// takes the tests it made from those left for the plan.
func (s *shop) tiltsIn(m meeting, left *int) bool {
	first := s.Placed[m.mover[0]]
	t := &tilt{shop: s, meeting: m, frame: first.Pose, box: geom.NoBox3(), thick: first.Part.Thick, tries: tiltTries, all: left}
	for _, i := range m.mover {
		for _, p := range s.Placed[i].Solid.Points() {
			t.box = t.box.With(t.frame.Local(p))
		}
	}
	for _, start := range t.starts() {
		for _, turn := range t.turns() {
			if t.follow(start, turn) {
				return true
			}
		}
	}
	return false
}

// starts are where a turn may begin: in place, or drawn as far as it goes along
// one of the directions that nothing touches.
func (t *tilt) starts() []geom.Pose {
	out := []geom.Pose{geom.Home()}
	touch := t.touches(t.meeting)
	for _, d := range t.ways(t.meeting) {
		if !opens(touch, d) {
			continue
		}
		best := 0.0
		for share := 1.0 / 8; share <= 1 && t.fits(drawn(geom.Home(), d.Mul(share*wayOut*t.thick))); share += 1.0 / 8 {
			best = share
		}
		if best > 0 {
			out = append(out, drawn(geom.Home(), d.Mul(best*wayOut*t.thick)))
		}
	}
	return out
}

// turning is an edge of the mover's box, in its own frame, and which way round.
type turning struct {
	at, axis geom.V3
	reach    float64 // how far the farthest corner is from the edge
}

// turns are the twelve edges of the box, either way round.
func (t *tilt) turns() []turning {
	lo, size := t.box.Min, t.box.Size()
	var out []turning
	for _, a := range []struct{ axis, u, v geom.V3 }{
		{geom.V3{X: 1}, geom.V3{Y: size.Y}, geom.V3{Z: size.Z}},
		{geom.V3{Y: 1}, geom.V3{X: size.X}, geom.V3{Z: size.Z}},
		{geom.V3{Z: 1}, geom.V3{X: size.X}, geom.V3{Y: size.Y}},
	} {
		for _, at := range []geom.V3{lo, lo.Add(a.u), lo.Add(a.v), lo.Add(a.u).Add(a.v)} {
			reach := math.Hypot(a.u.Len(), a.v.Len())
			out = append(out, turning{at, a.axis, reach}, turning{at, a.axis.Neg(), reach})
		}
	}
	return out
}

// follow turns the mover step by step until something stops it, and looks after
// each step whether it now comes out straight.
func (t *tilt) follow(start geom.Pose, turn turning) bool {
	step := math.Max(tiltFine, math.Min(tiltCoarse, t.thick/2/turn.reach))
	at, axis := start.Point(t.frame.Point(turn.at)), start.Dir(t.frame.Dir(turn.axis)).Unit()
	for angle := step; angle <= tiltMost; angle += step {
		now := start.Then(spun(at, axis, angle))
		if !t.fits(now) {
			return false
		}
		if t.leaves(now) {
			return true
		}
	}
	return false
}

// leaves reports whether the mover, turned, comes out along one of its own
// directions or one of the world's.
func (t *tilt) leaves(now geom.Pose) bool {
	own := t.frame.Then(now)
	for _, d := range []geom.V3{own.Along, own.Across, own.Thick, {X: 1}, {Y: 1}, {Z: 1}} {
		for _, way := range []geom.V3{d, d.Neg()} {
			if t.out(now, way) {
				return true
			}
		}
	}
	return false
}

func (t *tilt) out(now geom.Pose, way geom.V3) bool {
	for _, share := range wayShares() {
		if !t.fits(drawn(now, way.Mul(share*wayOut*t.thick))) {
			return false
		}
	}
	return true
}

// fits reports whether the mover, moved, reaches into nothing that is fixed.
func (t *tilt) fits(motion geom.Pose) bool {
	t.tries, *t.all = t.tries-1, *t.all-1
	return t.tries >= 0 && *t.all >= 0 && t.clear(t.meeting, motion)
}

// drawn is a motion and then a shift.
func drawn(motion geom.Pose, by geom.V3) geom.Pose {
	motion.Origin = motion.Origin.Add(by)
	return motion
}

// spun is a turn about a line through a point.
func spun(at, axis geom.V3, angle float64) geom.Pose {
	out := geom.Pose{Along: geom.V3{X: 1}.Spin(axis, angle), Across: geom.V3{Y: 1}.Spin(axis, angle), Thick: geom.V3{Z: 1}.Spin(axis, angle)}
	out.Origin = at.Sub(out.Dir(at))
	return out
}
