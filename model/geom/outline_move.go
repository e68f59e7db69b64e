package geom

import "slices"

// Reverse returns o walked the other way; its corner 0 stays corner 0.
func (o Outline) Reverse() Outline {
	r := make(Outline, 0, len(o))
	for _, s := range slices.Backward(o) {
		r = append(r, s.Reverse())
	}
	return r
}

// Move returns o moved by d.
func (o Outline) Move(d Pt) Outline {
	return o.each(func(s Seg) Seg { return s.move(d) })
}

// Turn returns o turned anticlockwise about the origin by a radians.
func (o Outline) Turn(a float64) Outline {
	return o.each(func(s Seg) Seg {
		s.A, s.B = s.A.Turn(a), s.B.Turn(a)
		if s.Turn != Straight {
			s.C = s.C.Turn(a)
		}
		return s
	})
}

// MirrorX returns o reflected in the y axis, x for -x, walked the same way
// round as before.
func (o Outline) MirrorX() Outline { return o.mirror(Pt{-1, 1}) }

// MirrorY returns o reflected in the x axis, y for -y, walked the same way
// round as before.
func (o Outline) MirrorY() Outline { return o.mirror(Pt{1, -1}) }

func (o Outline) mirror(k Pt) Outline {
	m := func(p Pt) Pt { return Pt{p.X * k.X, p.Y * k.Y} }
	return o.each(func(s Seg) Seg {
		s.A, s.B, s.Turn = m(s.A), m(s.B), -s.Turn
		if s.Turn != Straight {
			s.C = m(s.C)
		}
		return s
	}).Reverse()
}

func (o Outline) each(f func(Seg) Seg) Outline {
	r := make(Outline, len(o))
	for i, s := range o {
		r[i] = f(s)
	}
	return r
}
