package geom

import "math"

// Grid is the finest difference that exists between points of a flat outline:
// a millionth of a millimetre. A coarser grid would move an area by more than
// the 1e-6 mm² that closed forms are checked to; a finer one would come near
// what float64 leaves of coordinates of a few metres after a turn or two.
//
// Outlines are snapped when they are made (Rect, Trace). Shapes worked out from
// them are not; there, and in solids, Same is the one judge of "touching".
const Grid = 1e-6

const perMM = 1 / Grid

// reach is how far apart two points may be and still be the same: a point that
// was computed twice may be snapped to either neighbour on the grid.
const reach = 2 * Grid

// Snap puts x on the grid.
func Snap(x float64) float64 { return math.Round(x*perMM) / perMM }

// Snap puts p on the grid.
func (p Pt) Snap() Pt { return Pt{Snap(p.X), Snap(p.Y)} }

// Same reports whether p and q are one point as far as any shape is concerned.
func Same(p, q Pt) bool { return p.Sub(q).Len() <= reach }

// Line returns the straight segment from a to b.
func Line(a, b Pt) Seg { return Seg{A: a, B: b} }

// ArcBy returns the arc from a to b about the given centre, turning as told.
// The radius is taken from a; the caller sees to it that b has the same.
func ArcBy(a, b, centre Pt, turn Turn) Seg {
	return Seg{A: a, B: b, C: centre, R: a.Sub(centre).Len(), Turn: turn}
}

// ArcThrough returns the arc from a through mid to b, or the straight segment
// when the three points are in line to within the grid.
func ArcThrough(a, mid, b Pt) Seg {
	chord := b.Sub(a)
	u, v := mid.Sub(a), mid.Sub(b)
	area := u.Cross(chord)
	if l := chord.Len(); l <= reach || math.Abs(area)/l <= Grid {
		return Line(a, b)
	}
	// Circle through three points, seen from a.
	k := 1 / (2 * area)
	uu, cc := u.Dot(u), chord.Dot(chord)
	c := Pt{(chord.Y*uu - u.Y*cc) * k, (u.X*cc - chord.X*uu) * k}
	turn := CCW
	if u.Cross(v) > 0 {
		turn = CW
	}
	return ArcBy(a, b, a.Add(c), turn)
}

// Sweep returns the angle through which s turns: positive anticlockwise, zero
// for a straight segment, always less than a full turn.
func (s Seg) Sweep() float64 {
	if s.Turn == Straight {
		return 0
	}
	u, v := s.A.Sub(s.C), s.B.Sub(s.C)
	a := math.Atan2(u.Cross(v), u.Dot(v))
	switch {
	case s.Turn == CCW && a < 0:
		a += 2 * math.Pi
	case s.Turn == CW && a > 0:
		a -= 2 * math.Pi
	}
	return a
}

// Length returns the length of s along itself.
func (s Seg) Length() float64 {
	if s.Turn == Straight {
		return s.B.Sub(s.A).Len()
	}
	return s.R * math.Abs(s.Sweep())
}

// At returns the point a share t of the way along s, 0 at A and 1 at B.
func (s Seg) At(t float64) Pt {
	switch {
	case t == 0:
		return s.A
	case t == 1:
		return s.B
	case s.Turn == Straight:
		return s.A.Add(s.B.Sub(s.A).Mul(t))
	}
	// R, not the distance of A: after a cut A may be a grid step off the circle.
	return s.C.Add(s.A.Sub(s.C).Unit().Mul(s.R).Turn(t * s.Sweep()))
}

// Mid returns the point half way along s.
func (s Seg) Mid() Pt { return s.At(0.5) }

// Tangent returns the unit direction of travel a share t of the way along s.
func (s Seg) Tangent(t float64) Pt {
	if s.Turn == Straight {
		return s.B.Sub(s.A).Unit()
	}
	return s.At(t).Sub(s.C).Unit().Left().Mul(float64(s.Turn))
}

// Split returns the two parts of s before and after a share t of the way.
func (s Seg) Split(t float64) (before, after Seg) {
	before, after = s, s
	before.B = s.At(t)
	after.A = before.B
	return before, after
}

// Reverse returns s walked from B to A.
func (s Seg) Reverse() Seg {
	s.A, s.B, s.Turn = s.B, s.A, -s.Turn
	return s
}

// Box returns the upright box round s, exact for arcs.
func (s Seg) Box() Box {
	b := NoBox().With(s.A).With(s.B)
	if s.Turn == Straight {
		return b
	}
	for _, d := range []Pt{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		if s.faces(d) {
			b = b.With(s.C.Add(d.Mul(s.R)))
		}
	}
	return b
}

// faces reports whether the ray from the centre of the arc s in direction d
// meets s.
func (s Seg) faces(d Pt) bool {
	return s.angleTo(d) <= math.Abs(s.Sweep())
}

// angleTo returns how far the arc s has to turn from A, in its own sense, to
// look in direction d from its centre: 0 up to a full turn.
func (s Seg) angleTo(d Pt) float64 {
	u := s.A.Sub(s.C)
	a := math.Atan2(u.Cross(d), u.Dot(d)) * float64(s.Turn)
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// Param returns the share of the way along s of the point of s nearest to p.
func (s Seg) Param(p Pt) float64 {
	if s.Turn == Straight {
		d := s.B.Sub(s.A)
		if l := d.Dot(d); l > 0 {
			return min(1, max(0, p.Sub(s.A).Dot(d)/l))
		}
		return 0
	}
	sweep := math.Abs(s.Sweep())
	if a := s.angleTo(p.Sub(s.C)); a <= sweep && sweep > 0 {
		return a / sweep
	}
	if p.Sub(s.A).Len() <= p.Sub(s.B).Len() {
		return 0
	}
	return 1
}

// Nearest returns the point of s nearest to p.
func (s Seg) Nearest(p Pt) Pt { return s.At(s.Param(p)) }

// Distance returns how far p is from s.
func (s Seg) Distance(p Pt) float64 { return s.Nearest(p).Sub(p).Len() }

// shift returns s moved d to the right of its direction of travel. It is not
// ok when an arc would shrink to nothing.
func (s Seg) shift(d float64) (moved Seg, ok bool) {
	if s.Turn == Straight {
		off := s.B.Sub(s.A).Unit().Left().Mul(-d)
		return Line(s.A.Add(off), s.B.Add(off)), true
	}
	r := s.R + d*float64(s.Turn)
	if r <= reach {
		return s, false
	}
	k := r / s.R
	at := func(p Pt) Pt { return s.C.Add(p.Sub(s.C).Mul(k)) }
	return Seg{A: at(s.A), B: at(s.B), C: s.C, R: r, Turn: s.Turn}, true
}

// move returns s moved by d.
func (s Seg) move(d Pt) Seg {
	s.A, s.B = s.A.Add(d), s.B.Add(d)
	if s.Turn != Straight {
		s.C = s.C.Add(d)
	}
	return s
}
