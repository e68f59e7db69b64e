package geom

import "math"

// meet returns the points that s and t have in common; where they run along
// each other, the ends of the common stretch. A point at an end of s or t is
// given as exactly that end.
func meet(s, t Seg) []Pt {
	if !s.Box().Grow(reach).Meets(t.Box()) {
		return nil
	}
	return meetNear(s, t)
}

// meetNear is meet for segments whose boxes are known to come near each other.
func meetNear(s, t Seg) []Pt {
	var found []Pt
	add := func(p Pt) {
		for _, e := range [4]Pt{s.A, s.B, t.A, t.B} {
			if Same(p, e) {
				p = e
				break
			}
		}
		for _, q := range found {
			if Same(p, q) {
				return
			}
		}
		found = append(found, p)
	}
	for _, p := range [2]Pt{s.A, s.B} {
		if t.Distance(p) <= reach {
			add(p)
		}
	}
	for _, p := range [2]Pt{t.A, t.B} {
		if s.Distance(p) <= reach {
			add(p)
		}
	}
	for _, p := range cross(s, t) {
		if s.Distance(p) <= reach && t.Distance(p) <= reach {
			add(p)
		}
	}
	return found
}

// cross returns where the endless line or full circle of s crosses that of t.
func cross(s, t Seg) []Pt {
	switch {
	case s.Turn == Straight && t.Turn == Straight:
		return crossLines(s, t)
	case s.Turn == Straight:
		return crossCircle(s, t)
	case t.Turn == Straight:
		return crossCircle(t, s)
	}
	return crossCircles(s, t)
}

func crossLines(s, t Seg) []Pt {
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	k := d.Cross(e)
	// Straights nearer to parallel than this drift apart by less than the grid
	// over ten metres.
	if math.Abs(k) <= 1e-10*d.Len()*e.Len() {
		return nil
	}
	return []Pt{s.A.Add(d.Mul(t.A.Sub(s.A).Cross(e) / k))}
}

func crossCircle(line, arc Seg) []Pt {
	d := line.B.Sub(line.A).Unit()
	foot := line.A.Add(d.Mul(arc.C.Sub(line.A).Dot(d)))
	h := arc.C.Sub(foot).Len()
	switch {
	case h > arc.R+reach:
		return nil
	case h >= arc.R:
		return []Pt{foot}
	}
	w := d.Mul(math.Sqrt((arc.R - h) * (arc.R + h)))
	return []Pt{foot.Sub(w), foot.Add(w)}
}

func crossCircles(s, t Seg) []Pt {
	between := t.C.Sub(s.C)
	d := between.Len()
	if d <= Grid || d > s.R+t.R+reach || d < math.Abs(s.R-t.R)-reach {
		return nil
	}
	u := between.Mul(1 / d)
	a := (d*d + (s.R-t.R)*(s.R+t.R)) / (2 * d)
	foot := s.C.Add(u.Mul(a))
	hh := (s.R - a) * (s.R + a)
	if hh <= 0 {
		return []Pt{foot}
	}
	w := u.Left().Mul(math.Sqrt(hh))
	return []Pt{foot.Sub(w), foot.Add(w)}
}

// cutAt returns the segments of list cut wherever they meet one of the tools.
func cutAt(list, tools []Seg) []Seg { return cutWhere(list, tools, boxesOf(tools)) }

// cutWhere is cutAt with the boxes round the tools.
func cutWhere(list, tools []Seg, boxes []Box) []Seg {
	out := make([]Seg, 0, len(list)+8)
	var at []Pt
	for _, s := range list {
		at = at[:0]
		near := s.Box().Grow(reach)
		for i, t := range tools {
			if near.Meets(boxes[i]) && t != s {
				at = append(at, meetNear(s, t)...)
			}
		}
		if len(at) == 0 {
			out = append(out, s)
			continue
		}
		out = append(out, s.cut(at)...)
	}
	return out
}

// boxesOf returns the upright box round each of some segments.
func boxesOf(list []Seg) []Box {
	out := make([]Box, len(list))
	for i, s := range list {
		out[i] = s.Box()
	}
	return out
}

// cut returns s cut at the given points, which lie on it, in order.
func (s Seg) cut(at []Pt) []Seg {
	type mark struct {
		t float64
		p Pt
	}
	var marks []mark
	for _, p := range at {
		if Same(p, s.A) || Same(p, s.B) {
			continue
		}
		m := mark{s.Param(p), p}
		i := 0
		for i < len(marks) && marks[i].t < m.t {
			i++
		}
		marks = append(marks[:i], append([]mark{m}, marks[i:]...)...)
	}
	var out []Seg
	rest := s
	for _, m := range marks {
		if Same(rest.A, m.p) {
			continue
		}
		part := rest
		part.B, rest.A = m.p, m.p
		out = append(out, part)
	}
	return append(out, rest)
}
