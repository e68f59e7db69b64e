package assembly

import (
	"fmt"
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// hole finds the declaration of a hole.
func (s *solver) hole(p *part, name string, at source.Span) *reading.Hole {
	var known []string
	for _, h := range p.decl.Holes {
		if h.Name == name {
			return h
		}
		known = append(known, h.Name)
	}
	s.problems.Errorf(at, "unknown-hole", "part %q has no hole %q", p.decl.Key, name).Suggest(name, known)
	return nil
}

// holePlace works out where a hole is on its part: given, or found by drilling
// through another part.
func (s *solver) holePlace(p *part, name string, rank int, at source.Span) (along, across float64, ok bool) {
	h := s.hole(p, name, at)
	if h == nil {
		return 0, 0, false
	}
	key := p.decl.Key + ".hole." + name
	if rank > 0 {
		key = fmt.Sprintf("%s of rank %d", key, rank)
	}
	ok = s.once(key, at, func() bool {
		var a, b float64
		ok := false
		switch {
		case h.Through.Given():
			a, b, ok = s.matched(p, h)
		case h.Place[0].Given() && h.Place[1].Given():
			a, b, ok = s.pairOf(h.Place, &scope{s: s, part: p, rank: rank})
		case !h.Place[0].At.Valid():
			s.problems.Errorf(h.At, "hole", "hole %q says neither where it is nor through what it is drilled", name).Fix("write at = [along, across], or through = \"part.hole.name\"")
		}
		s.sizes[key+".along"], s.sizes[key+".across"] = a, b
		return ok
	})
	return s.sizes[key+".along"], s.sizes[key+".across"], ok
}

// matched finds a hole that is drilled through another part's hole with the two
// clamped together: where that hole's axis passes the face of this one.
func (s *solver) matched(p *part, h *reading.Hole) (along, across float64, ok bool) {
	q, name := s.partHole(h.Through)
	if q == nil {
		return 0, 0, false
	}
	own, ok1 := s.worldPose(p, h.At)
	other, ok2 := s.worldPose(q, h.Through.At)
	a, b, ok3 := s.holePlace(q, name, 0, h.Through.At)
	if !ok1 || !ok2 || !ok3 {
		return 0, 0, false
	}
	mouth, dir := own.Local(other.Point(geom.V3{X: a, Y: b})), own.LocalDir(other.Thick)
	if math.Abs(dir.Z) < 1-1e-9 {
		s.problems.Errorf(h.Through.At, "hole", "the hole of %q does not run square through part %q", h.Through.Text, p.decl.Key).Fix("only parts that lie face to face can be drilled through each other")
		return 0, 0, false
	}
	return mouth.X, mouth.Y, true
}

// partHole reads "part.hole.name".
func (s *solver) partHole(w reading.Word) (*part, string) {
	words := strings.Split(w.Text, ".")
	if len(words) != 3 || words[1] != "hole" {
		s.problems.Errorf(w.At, "hole", "%q is not a hole of a part", w.Text).Fix(`write it as "part.hole.name"`)
		return nil, ""
	}
	p := s.parts[words[0]]
	if p == nil {
		s.problems.Errorf(w.At, "unknown-part", "there is no part %q", words[0]).Suggest(words[0], s.partNames())
		return nil, ""
	}
	if s.hole(p, words[2], w.At) == nil {
		return nil, ""
	}
	return p, words[2]
}

// holeValue answers part.hole.name.along and .across.
func (s *solver) holeValue(p *part, name, what string, at source.Span) (expr.Value, bool) {
	along, across, ok := s.holePlace(p, name, 0, at)
	switch what {
	case "along":
		return expr.Length(along), ok
	case "across":
		return expr.Length(across), ok
	}
	s.problems.Errorf(at, "unknown-name", "a hole has no %q", what).Fix("write %s.hole.%s.along or .across", p.decl.Key, name)
	return expr.Value{}, false
}

// holes lets a part's own holes meet holes of another: one fixes where it is in
// the plane of its face, two also how it is turned there.
func (m *mover) holes() {
	var own, where []geom.V3
	var first reading.Meet
	for _, meet := range m.pl.Meets {
		if !meet.Hole.Given() {
			continue
		}
		if len(own) == 0 {
			first = meet
		}
		a, b, ok := m.holePair(meet)
		if !ok {
			m.ok = false
			return
		}
		own, where = append(own, a), append(where, b)
	}
	if len(own) == 0 {
		return
	}
	if len(own) > 2 {
		m.s.problems.Errorf(first.Feature.At, "held-twice", "part %q hangs on %d holes; two hold it", m.p.decl.Key, len(own))
		m.ok = false
		return
	}
	if len(own) == 2 && !m.turnToHoles(own, where, first) {
		m.ok = false
		return
	}
	at := where[0].Sub(m.pose.Dir(own[0]))
	for i := range 3 {
		if math.Abs(coord(m.pose.Thick, i)) < 1e-6 {
			m.got[i], m.val[i], m.by[i] = true, coord(at, i), first.Feature.Text
		}
	}
}

// holePair is a hole of the part in its own frame and the one it meets, in the
// frame of the part's group.
func (m *mover) holePair(meet reading.Meet) (own, where geom.V3, ok bool) {
	s := m.s
	own, _, ok = s.spot(m.p, strings.Split(meet.Feature.Text, "."), 0, meet.Feature.At)
	q, name := s.partHole(meet.Hole)
	if !ok || q == nil {
		return own, where, false
	}
	list, ok := s.instancesIn(q, m.pl.In.Text, meet.Hole.At)
	a, b, ok2 := s.holePlace(q, name, 0, meet.Hole.At)
	if !ok || !ok2 || len(list) == 0 {
		return own, where, false
	}
	return own, list[0].pose.Point(geom.V3{X: a, Y: b}), true
}

// turnToHoles turns the part in the plane of its face until both holes lie in
// line, and tells when their spacings differ.
func (m *mover) turnToHoles(own, where []geom.V3, first reading.Meet) bool {
	n := m.pose.Thick
	flat := func(v geom.V3) geom.V3 { return v.Sub(n.Mul(v.Dot(n))) }
	a, b := m.pose.Dir(own[1].Sub(own[0])), flat(where[1].Sub(where[0]))
	if d := math.Abs(a.Len() - b.Len()); d > 0.5 {
		m.s.problems.Errorf(first.Feature.At, "held-twice", "the two holes of part %q are %s apart, those they meet %s", m.p.decl.Key, m.s.opt.Unit.Long(a.Len()), m.s.opt.Unit.Long(b.Len())).
			Fix("give both pairs the same spacing")
		return false
	}
	turn := math.Atan2(a.Cross(b).Dot(n), a.Dot(b))
	m.pose.Along, m.pose.Across = m.pose.Along.Spin(n, turn), m.pose.Across.Spin(n, turn)
	return true
}

// holeSize settles a hole's diameter: given, that of the hardware it is for, or
// that of the hole it is drilled through.
func (s *solver) holeSize(p *part, h *reading.Hole, mh *model.Hole, c *scope) bool {
	switch {
	case h.Diameter.Given():
		d, ok := s.length(s.main(h.Diameter), c)
		mh.Diam = d
		return ok && s.positive(h.Diameter.At, d, "a hole's diameter")
	case h.For.Given():
		g := s.goods[h.For.Text]
		if g == nil {
			s.problems.Errorf(h.For.At, "unknown-hardware", "there is no hardware %q", h.For.Text).Suggest(h.For.Text, s.goodsNames())
			return false
		}
		mh.Kind, mh.Diam = model.ClearanceHole, g.screw.Clearance
		if g.isBolt() {
			mh.Kind, mh.Diam = model.BoltHole, g.bolt.Hole
		}
		return true
	case h.Through.Given():
		q, name := s.partHole(h.Through)
		if q == nil {
			return false
		}
		for _, other := range q.decl.Holes {
			if other.Name == name && !other.Through.Given() {
				mh.Kind = model.BoltHole
				return s.holeSize(q, other, mh, &scope{s: s, part: q})
			}
		}
	}
	s.problems.Errorf(h.At, "hole", "hole %q of part %q has no diameter", h.Name, p.decl.Key).Fix(`write diameter = ..., or for = "a hardware"`)
	return false
}

// codeOf is the letter of the part a hole is drilled through.
func (s *solver) codeOf(w reading.Word) string {
	key, _, _ := strings.Cut(w.Text, ".")
	return s.codes()[key]
}
