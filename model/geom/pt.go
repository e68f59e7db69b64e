// Package geom has flat outlines of exact lines and arcs, the boards cut to
// them, the flat-faced solids of those boards, and poses in space.
//
// Lengths are millimetres, angles radians. It does not know what a part is for.
package geom

import "math"

// A Pt is a point or a vector on a flat face in millimetres, x right and y up.
type Pt struct{ X, Y float64 }

// Add returns p moved by q.
func (p Pt) Add(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Sub returns the way from q to p.
func (p Pt) Sub(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Mul returns p stretched by k.
func (p Pt) Mul(k float64) Pt { return Pt{p.X * k, p.Y * k} }

// Dot returns the inner product of p and q.
func (p Pt) Dot(q Pt) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z of the cross product: positive when q turns left from p.
func (p Pt) Cross(q Pt) float64 { return p.X*q.Y - p.Y*q.X }

// Len returns the length of p.
func (p Pt) Len() float64 { return math.Hypot(p.X, p.Y) }

// Unit returns p at length one; the zero vector stays zero.
func (p Pt) Unit() Pt {
	if l := p.Len(); l > 0 {
		return p.Mul(1 / l)
	}
	return p
}

// Left returns p turned a quarter to the left.
func (p Pt) Left() Pt { return Pt{-p.Y, p.X} }

// Turn returns p turned anticlockwise about the origin by a radians.
func (p Pt) Turn(a float64) Pt {
	s, c := math.Sincos(a)
	return Pt{c*p.X - s*p.Y, s*p.X + c*p.Y}
}

// A Size is a width and a height in millimetres.
type Size struct{ W, H float64 }

// A Box is an upright rectangle; Min is its lower-left corner.
type Box struct{ Min, Max Pt }

// W returns the width of b.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height of b.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Empty reports whether b holds no point.
func (b Box) Empty() bool { return b.Max.X < b.Min.X || b.Max.Y < b.Min.Y }

// NoBox is the empty box, ready to grow.
func NoBox() Box {
	inf := math.Inf(1)
	return Box{Pt{inf, inf}, Pt{-inf, -inf}}
}

// With returns b grown to hold p.
func (b Box) With(p Pt) Box {
	return Box{
		Pt{min(b.Min.X, p.X), min(b.Min.Y, p.Y)},
		Pt{max(b.Max.X, p.X), max(b.Max.Y, p.Y)},
	}
}

// Union returns the box round b and c.
func (b Box) Union(c Box) Box {
	if c.Empty() {
		return b
	}
	return b.With(c.Min).With(c.Max)
}

// Grow returns b with d more on every side.
func (b Box) Grow(d float64) Box {
	return Box{Pt{b.Min.X - d, b.Min.Y - d}, Pt{b.Max.X + d, b.Max.Y + d}}
}

// Meets reports whether b and c share a point.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Has reports whether p lies in b or on its border.
func (b Box) Has(p Pt) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}
