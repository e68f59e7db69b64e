package geom

import (
	"errors"
	"fmt"
	"math"
)

// RoundCorner returns o with corner i, where segment i begins, replaced by an
// arc of radius r that runs smoothly into both neighbours, whether they are
// lines or arcs, outward or inward corner. The arc is the new segment i.
func (o Outline) RoundCorner(i int, r float64) (Outline, error) {
	s, t, err := o.corner(i)
	if err != nil {
		return nil, err
	}
	if !(r > reach) {
		return nil, fmt.Errorf("a corner can not be rounded to a radius of %g", r)
	}
	u, v := s.Tangent(1), t.Tangent(0)
	turn := u.Cross(v)
	if math.Abs(turn) < 1e-7 && u.Dot(v) < 0 {
		return nil, errors.New("the sides meet in a cusp, which can not be rounded")
	}
	if math.Abs(turn) < 1e-7 {
		return nil, errors.New("there is no corner to round: the sides run smoothly into each other")
	}
	side := CCW
	if turn < 0 {
		side = CW
	}
	arc, ok := fillet(s, t, r*float64(side))
	if !ok {
		return nil, fmt.Errorf("the sides at the corner are too short for a radius of %.3f", r)
	}
	s.B, t.A = arc.A, arc.B
	return o.replaceCorner(i, s, arc, t), nil
}

// fillet returns the arc of radius |r| smooth to s and the following t, to the
// left of them when r is positive.
func fillet(s, t Seg, r float64) (arc Seg, ok bool) {
	turn := CCW
	if r < 0 {
		turn = CW
	}
	ms, oks := s.shift(-r)
	mt, okt := t.shift(-r)
	if !oks || !okt {
		return Seg{}, false
	}
	best := math.Inf(1)
	for _, c := range cross(ms, mt) {
		a, b := s.Nearest(c), t.Nearest(c)
		far := c.Sub(t.A).Len()
		// The touching points must lie on both sides, not past their ends.
		if math.Abs(a.Sub(c).Len()-math.Abs(r)) > reach || math.Abs(b.Sub(c).Len()-math.Abs(r)) > reach || far >= best {
			continue
		}
		if Same(a, s.A) && !touches(s, c, 0) || Same(b, t.B) && !touches(t, c, 1) {
			continue
		}
		best = far
		arc = Seg{A: a, B: b, C: c, R: math.Abs(r), Turn: turn}
		ok = true
	}
	return arc, ok
}

// touches reports whether the circle about c through the given end of s is
// smooth to s there.
func touches(s Seg, c Pt, end float64) bool {
	d := c.Sub(s.At(end)).Unit()
	return math.Abs(d.Dot(s.Tangent(end))) < 1e-6
}

// ClipCorner returns o with corner i cut off straight, from a along the segment
// before it to b along segment i, both measured from the corner.
func (o Outline) ClipCorner(i int, a, b float64) (Outline, error) {
	s, t, err := o.corner(i)
	if err != nil {
		return nil, err
	}
	ls, lt := s.Length(), t.Length()
	switch {
	case !(a > reach) || !(b > reach):
		return nil, errors.New("a corner is clipped by some length along both its sides")
	case a > ls+reach:
		return nil, fmt.Errorf("the corner can not be clipped by %.3f: the side before it is %.3f long", a, ls)
	case b > lt+reach:
		return nil, fmt.Errorf("the corner can not be clipped by %.3f: the side after it is %.3f long", b, lt)
	}
	s, _ = s.Split(max(0, 1-a/ls))
	_, t = t.Split(min(1, b/lt))
	return o.replaceCorner(i, s, Line(s.B, t.A), t), nil
}

// corner returns the segments before and after corner i.
func (o Outline) corner(i int) (before, after Seg, err error) {
	if i < 0 || i >= len(o) || len(o) < 2 {
		return before, after, fmt.Errorf("there is no corner %d", i)
	}
	return o[(i+len(o)-1)%len(o)], o[i], nil
}

// replaceCorner returns o with the segments s, mid, t in place of those that
// met at corner i, leaving out what has no length left.
func (o Outline) replaceCorner(i int, s, mid, t Seg) Outline {
	var r Outline
	add := func(s Seg) {
		if !Same(s.A, s.B) {
			r = append(r, s)
		}
	}
	n := len(o)
	if i == 0 {
		add(mid)
		add(t)
		r = append(r, o[1:n-1]...)
		add(s)
		return r
	}
	r = append(r, o[:i-1]...)
	add(s)
	add(mid)
	add(t)
	return append(r, o[i+1:]...)
}
