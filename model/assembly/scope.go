package assembly

import (
	"math"
	"slices"
	"strings"

	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// scope answers the names in one formula.
type scope struct {
	s    *solver
	part *part // whose own length, width and thick may be named
	rank int
	axis *axis // the direction positions of other parts are read along
}

// axis is a direction of a frame, with the frame it is read in.
type axis struct {
	dir   geom.V3 // in the frame: right, rear or up
	frame string  // group key, "" is the world
	name  string  // "up"
}

// Lookup implements expr.Scope.
func (c *scope) Lookup(name string, at source.Span) (expr.Value, bool) {
	head, rest, dotted := strings.Cut(name, ".")
	if !dotted {
		return c.plain(name, at)
	}
	s := c.s
	if p, ok := s.parts[head]; ok {
		return c.ofPart(p, rest, at)
	}
	if st, ok := s.stocks[head]; ok {
		switch rest {
		case "thick":
			return expr.Length(st.Thick), true
		case "wide":
			return expr.Length(st.Width), true
		}
		s.problems.Errorf(at, "unknown-name", "stock %q has no %q", head, rest).Fix("write %s.thick or %s.wide", head, head)
		return expr.Value{}, false
	}
	if g, ok := s.groups[head]; ok {
		return s.ofGroup(g, rest, at)
	}
	s.problems.Errorf(at, "unknown-name", "there is no %q", name).Suggest(head, s.heads())
	return expr.Value{}, false
}

// plain answers a name without a dot.
func (c *scope) plain(name string, at source.Span) (expr.Value, bool) {
	s := c.s
	if c.part != nil {
		switch name {
		case "rank":
			return expr.Count(float64(c.rank)), true
		case "length", "width", "thick":
			mm, ok := s.own(c.part, name, c.rank, at)
			return expr.Length(mm), ok
		}
	}
	if _, ok := s.numbers[name]; ok {
		return s.numberValue(name, at)
	}
	if v, ok := s.measured[name]; ok {
		return v, true
	}
	if name == "rank" {
		s.problems.Errorf(at, "unknown-name", "rank is only known inside a part that is placed by a fan")
		return expr.Value{}, false
	}
	if _, ok := s.parts[name]; ok {
		s.problems.Errorf(at, "unknown-name", "%q is a part, not a number", name).Fix("name one of its sizes or features, as %s.length", name)
		return expr.Value{}, false
	}
	if !s.unmeasured(name) {
		s.problems.Errorf(at, "unknown-name", "there is no %q", name).Suggest(name, append(slices.Clone(s.order), s.heads()...))
	}
	return expr.Value{}, false
}

// unmeasured reports whether name stands for a value that is only missing
// because the piece could not be solved, which was told.
func (s *solver) unmeasured(name string) bool {
	if !s.problems.Failed() {
		return false
	}
	always := []string{"overall_width", "overall_depth", "overall_height", "mass", "finish_area_m2"}
	return slices.Contains(always, name) || slices.ContainsFunc(s.d.Measures, func(m reading.Named) bool { return m.Name == name })
}

// heads lists what a dotted name may start with.
func (s *solver) heads() []string {
	var out []string
	for k := range s.parts {
		out = append(out, k)
	}
	for k := range s.stocks {
		out = append(out, k)
	}
	for k := range s.groups {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// ofPart answers part.something.
func (c *scope) ofPart(p *part, rest string, at source.Span) (expr.Value, bool) {
	s := c.s
	words := strings.Split(rest, ".")
	switch {
	case len(words) == 1 && (rest == "length" || rest == "width" || rest == "thick"):
		mm, ok := s.own(p, rest, 0, at)
		return expr.Length(mm), ok
	case words[0] == "hole" && len(words) == 3:
		return s.holeValue(p, words[1], words[2], at)
	case len(words) == 1 && rest == "gap":
		return s.gapValue(p, at)
	case len(words) == 2 && (words[1] == "miter" || words[1] == "bevel"):
		return s.cutAngle(p, words[0], words[1], at)
	}
	which := 0
	if words[0] == "first" || words[0] == "last" {
		if words[0] == "last" {
			which = -1
		}
		words = words[1:]
	}
	ax := c.axis
	if n := len(words); n > 1 {
		if a := worldAxis(words[n-1]); a != nil {
			ax, words = a, words[:n-1]
		}
	}
	if ax == nil {
		s.problems.Errorf(at, "position", "%s.%s is a place, not a number", p.decl.Key, rest).
			Fix("say along which direction, as %s.%s.up, .right or .rear", p.decl.Key, rest)
		return expr.Value{}, false
	}
	mm, ok := s.position(p, words, which, ax, at)
	return expr.Length(mm), ok
}

func worldAxis(word string) *axis {
	switch word {
	case "up":
		return &axis{geom.V3{Z: 1}, "", word}
	case "right":
		return &axis{geom.V3{X: 1}, "", word}
	case "rear":
		return &axis{geom.V3{Y: 1}, "", word}
	}
	return nil
}

// position reads where a feature or point of a placed part is along ax.
func (s *solver) position(p *part, words []string, which int, ax *axis, at source.Span) (float64, bool) {
	list, ok := s.instancesIn(p, ax.frame, at)
	if !ok || len(list) == 0 {
		return 0, false
	}
	inst := list[0]
	if which < 0 {
		inst = list[len(list)-1]
	}
	pt, fixed, ok := s.spot(p, words, inst.rank, at)
	if !ok {
		return 0, false
	}
	for i, dir := range []geom.V3{inst.pose.Along, inst.pose.Across, inst.pose.Thick} {
		if !fixed[i] && math.Abs(dir.Dot(ax.dir)) > 1e-9 {
			s.problems.Errorf(at, "not-square", "%s.%s is not square to the direction %q, so it has no one position along it", p.decl.Key, strings.Join(words, "."), ax.name).
				Fix("name a point: two or three of its features, as %s", s.pointHint(p))
			return 0, false
		}
	}
	return inst.pose.Point(pt).Dot(ax.dir), true
}

func (s *solver) pointHint(p *part) string {
	n := p.names
	return p.decl.Key + "." + n.Ends[0] + "." + n.Edges[0]
}

// length works out a formula that must give a length.
func (s *solver) length(f formulaAt, c *scope) (float64, bool) {
	v, ok := f.eval(s, c)
	if !ok {
		return 0, false
	}
	mm, bad := v.AsLength(f.unit)
	if bad != nil {
		bad.Report(s.problems, f.At)
		return 0, false
	}
	return mm, true
}

// angle works out a formula that must give an angle measured from zero, or a
// plain difference.
func (s *solver) angle(f formulaAt, c *scope, zero expr.Zero, key string) (float64, bool) {
	v, ok := f.eval(s, c)
	if !ok {
		return 0, false
	}
	rad, z, bad := v.AsAngle(f.unit)
	if bad != nil {
		bad.Report(s.problems, f.At)
		return 0, false
	}
	// An angle off square may come from any other; level and plumb never meet.
	if _, bad := v.From(zero, f.unit); bad != nil {
		s.problems.Errorf(f.At, "angle-zero", "%s is measured from %v, but %s = %s is measured from %v", key, zero, f.F, v.Text(f.unit), z).
			Fix("turn it round: write 90 deg - (%s)", f.F)
		return 0, false
	}
	return rad, true
}

// count works out a formula that must give a whole number from least on.
func (s *solver) count(f formulaAt, c *scope, least int, key string) (int, bool) {
	v, ok := f.eval(s, c)
	if !ok {
		return 0, false
	}
	n, bad := v.AsNumber(f.unit)
	if bad != nil {
		bad.Report(s.problems, f.At)
		return 0, false
	}
	if n != math.Round(n) || n < float64(least) || n > 500 {
		s.problems.Errorf(f.At, "count", "%s is %g; it must be a whole number from %d to 500", key, n, least)
		return 0, false
	}
	return int(n), true
}
