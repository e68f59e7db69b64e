package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model/geom"
)

// A piece stays where it is put while it is fixed if its mass lies this far over
// what it rests on, mm: 1 in (common practice).
const (
	restIn     = 25.4
	restDown   = 0.3 // a face that looks down by this carries
	floorClose = 0.5
)

// steady are the words by which a step's text sees to it that a piece stays up: a
// helper, or what clamps and props it.
var steady = []string{"clamp", "helper", "second person", "prop ", "props ", "strap", "vise", "wedge", "bench", "stick", "spacer"}

// heldUp finds pieces that fall before they are fixed: nothing carries them, and
// the step names no clamp, no bench and no second person.
func heldUp(s *shop) []Finding {
	var t tally
	for _, m := range s.meetings() {
		st := s.Steps[m.step]
		if st.People > 1 || says(st, steady...) || s.layFlat(m) {
			continue
		}
		over, some := s.over(m, s.downAt(m.step))
		if some && over >= restIn-slack {
			continue
		}
		parts := s.partsAt(m.mover)
		text := fmt.Sprintf("in step %d nothing carries it while it is fixed, and the text names neither clamp nor helper", st.Number)
		fix := "name a clamp or write people = 2, or let it rest on what stands there already"
		if some {
			fix = fmt.Sprintf("name a clamp or write people = 2, or let it rest on %s more", s.more(restIn-over))
			where := s.long(over) + " inside"
			if over < 0 {
				where = s.long(-over) + " outside"
			}
			text = fmt.Sprintf("in step %d its weight lies %s what carries it; it tips over before it is fixed", st.Number, where)
		}
		t.add(fmt.Sprint(parts[0].Key, m.step), -over, Finding{Severity: Warning, Value: over, Limit: restIn, Unit: "mm", Text: text, Fix: fix}, parts[:1]...)
	}
	return t.named()
}

// layFlat reports whether all that meets is one flat frame of boards: it is put
// together lying on the bench, whichever way it stands later.
func (s *shop) layFlat(m meeting) bool {
	thick := s.Placed[m.mover[0]].Pose.Thick
	for _, i := range slices.Concat(m.mover, m.rest) {
		if math.Abs(s.Placed[i].Pose.Thick.Dot(thick)) < 1-1e-6 {
			return false
		}
	}
	return true
}

// downAt is which way is down at a step: the plan's, unless the work was turned
// onto its head.
func (s *shop) downAt(step int) geom.V3 {
	down := geom.V3{Z: -1}
	for _, st := range s.Steps[:step+1] {
		if st.Turned != "" {
			down = geom.V3{Z: -1}
			if hasWord(st.Turned, "upside", "on its head", "top down") {
				down = geom.V3{Z: 1}
			}
		}
	}
	return down
}

// over is how far inside its support the mass of what is brought in lies; not ok
// when nothing is under it.
func (s *shop) over(m meeting, down geom.V3) (in float64, ok bool) {
	var pts []geom.Pt
	var sum geom.V3
	mass := 0.0
	for _, i := range m.mover {
		p := s.Placed[i]
		sum, mass = sum.Add(p.Center.Mul(p.Part.Mass)), mass+p.Part.Mass
		for _, v := range p.Solid.Points() {
			if down.Z < 0 && math.Abs(v.Z) < floorClose {
				pts = append(pts, geom.Pt{X: v.X, Y: v.Y})
			}
		}
		for k := range s.Placed {
			if added := s.addedIn(k); added >= 0 && added <= m.step && s.site.lumps[m.step][k] != s.site.lumps[m.step][i] {
				pts = append(pts, carried(s.contact(i, k), down)...)
			}
		}
	}
	ring := hull(pts)
	if mass == 0 || len(ring) < 3 {
		return 0, false
	}
	c := geom.Pt{X: sum.X / mass, Y: sum.Y / mass}
	in = math.Inf(1)
	for i, a := range ring {
		in = math.Min(in, ring[(i+1)%len(ring)].Sub(a).Unit().Cross(c.Sub(a)))
	}
	return in, true
}

// carried are the corners of the patches that look down.
func carried(list []geom.Patch, down geom.V3) []geom.Pt {
	var out []geom.Pt
	for _, p := range list {
		if p.N.Dot(down) < restDown {
			continue
		}
		for _, v := range p.Loops[0] {
			out = append(out, geom.Pt{X: v.X, Y: v.Y})
		}
	}
	return out
}
