package inspect

import (
	"math"

	"planset/model/geom"
)

// A Quad is a rectangle that may be turned: the ink box of a text. U is the
// unit vector along the text, W its length that way and H its height, in mm.
type Quad struct {
	C, U geom.Pt
	W, H float64
}

// QuadOf returns b as a Quad.
func QuadOf(b geom.Box) Quad {
	return Quad{C: b.Min.Add(b.Max).Mul(0.5), U: geom.Pt{X: 1}, W: b.W(), H: b.H()}
}

// Corners returns the corners, anticlockwise from the start of the baseline.
func (q Quad) Corners() [4]geom.Pt {
	u, v := q.U.Mul(q.W/2), q.U.Left().Mul(q.H/2)
	return [4]geom.Pt{
		q.C.Sub(u).Sub(v), q.C.Add(u).Sub(v), q.C.Add(u).Add(v), q.C.Sub(u).Add(v),
	}
}

// Box returns the upright box round q.
func (q Quad) Box() geom.Box {
	w := math.Abs(q.U.X)*q.W + math.Abs(q.U.Y)*q.H
	h := math.Abs(q.U.Y)*q.W + math.Abs(q.U.X)*q.H
	half := geom.Pt{X: w / 2, Y: h / 2}
	return geom.Box{Min: q.C.Sub(half), Max: q.C.Add(half)}
}

// Has reports whether p lies in q.
func (q Quad) Has(p geom.Pt) bool {
	l := q.local(p)
	return math.Abs(l.X) <= q.W/2 && math.Abs(l.Y) <= q.H/2
}

// local returns p seen from the centre of q, along and square to its text.
func (q Quad) local(p geom.Pt) geom.Pt {
	d := p.Sub(q.C)
	return geom.Pt{X: d.Dot(q.U), Y: d.Dot(q.U.Left())}
}

// Gap returns the distance from q to the line from a to b, 0 when they meet.
func (q Quad) Gap(a, b geom.Pt) float64 {
	a, b = q.local(a), q.local(b)
	x, y := q.W/2, q.H/2
	if crosses(a, b, x, y) {
		return 0
	}
	gap := min(boxDist2(a, x, y), boxDist2(b, x, y))
	for _, c := range [4]geom.Pt{{X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}, {X: x, Y: -y}} {
		gap = min(gap, distance2(c, a, b))
	}
	return math.Sqrt(gap)
}

// Apart returns the distance between q and r, 0 when they meet.
func (q Quad) Apart(r Quad) float64 {
	if r.Has(q.C) || q.Has(r.C) {
		return 0
	}
	gap := math.Inf(1)
	c := r.Corners()
	for i := range c {
		gap = math.Min(gap, q.Gap(c[i], c[(i+1)%4]))
	}
	return gap
}

// crosses reports whether the line from a to b meets the box of half sizes x
// and y round the origin (the clipping of Liang and Barsky, 1984).
func crosses(a, b geom.Pt, x, y float64) bool {
	lo, hi := 0.0, 1.0
	d := b.Sub(a)
	for _, e := range [4][2]float64{{-d.X, a.X + x}, {d.X, x - a.X}, {-d.Y, a.Y + y}, {d.Y, y - a.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			lo = max(lo, e[1]/e[0])
		default:
			hi = min(hi, e[1]/e[0])
		}
	}
	return lo <= hi
}

// boxDist2 is the square of the distance from p to the box of half sizes x and
// y round the origin.
func boxDist2(p geom.Pt, x, y float64) float64 {
	dx, dy := max(math.Abs(p.X)-x, 0), max(math.Abs(p.Y)-y, 0)
	return dx*dx + dy*dy
}

// Distance returns how far p is from the line from a to b.
func Distance(p, a, b geom.Pt) float64 { return math.Sqrt(distance2(p, a, b)) }

// distance2 is the square of the distance: to compare distances it does, and
// pages are compared line by line.
func distance2(p, a, b geom.Pt) float64 {
	d := b.Sub(a)
	t := 0.0
	if l := d.Dot(d); l > 0 {
		t = max(0, min(1, p.Sub(a).Dot(d)/l))
	}
	v := p.Sub(a.Add(d.Mul(t)))
	return v.Dot(v)
}

// Cross reports whether the lines ab and cd cross inside both; lines that only
// touch at an end, and lines that lie on each other, do not.
func Cross(a, b, c, d geom.Pt) bool {
	const eps = 1e-9
	side := func(p, q, r geom.Pt) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	s, t := side(a, b, c), side(a, b, d)
	u, v := side(c, d, a), side(c, d, b)
	return (s > eps && t < -eps || s < -eps && t > eps) && (u > eps && v < -eps || u < -eps && v > eps)
}

// Chords returns points along s, both ends included, no farther than 0.02 mm
// from it.
func Chords(s geom.Seg) []geom.Pt {
	if s.Turn == geom.Straight || s.R <= 0 {
		return []geom.Pt{s.A, s.B}
	}
	from := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X)
	sweep := math.Atan2(s.B.Y-s.C.Y, s.B.X-s.C.X) - from
	if s.Turn == geom.CCW && sweep <= 0 {
		sweep += 2 * math.Pi
	}
	if s.Turn == geom.CW && sweep >= 0 {
		sweep -= 2 * math.Pi
	}
	const sag = 0.02
	step := 2 * math.Acos(math.Max(1-sag/s.R, 0.5))
	n := 1
	if pieces := math.Abs(sweep) / step; pieces < 1e5 {
		n = max(1, int(math.Ceil(pieces)))
	}
	pts := make([]geom.Pt, n+1)
	for i := range pts {
		a := from + sweep*float64(i)/float64(n)
		pts[i] = geom.Pt{X: s.C.X + s.R*math.Cos(a), Y: s.C.Y + s.R*math.Sin(a)}
	}
	pts[0], pts[n] = s.A, s.B
	return pts
}
