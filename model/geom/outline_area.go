package geom

import (
	"math"
	"slices"
)

// Area returns the exact area inside o, positive when o runs anticlockwise.
func (o Outline) Area() float64 {
	if len(o) == 0 {
		return 0
	}
	sum, ref := 0.0, o[0].A
	for _, s := range o {
		sum += s.A.Sub(ref).Cross(s.B.Sub(ref)) / 2
		if s.Turn != Straight {
			a := s.Sweep()
			sum += s.R * s.R / 2 * (a - math.Sin(a))
		}
	}
	return sum
}

// Length returns the length of o all round.
func (o Outline) Length() float64 {
	sum := 0.0
	for _, s := range o {
		sum += s.Length()
	}
	return sum
}

// Centroid returns the exact centre of the area inside o.
func (o Outline) Centroid() Pt {
	if len(o) == 0 {
		return Pt{}
	}
	ref := o[0].A
	area, moment := 0.0, Pt{}
	for _, s := range o {
		u, v := s.A.Sub(ref), s.B.Sub(ref)
		k := u.Cross(v) / 2
		area += k
		moment = moment.Add(u.Add(v).Mul(k / 3))
		if s.Turn == Straight {
			continue
		}
		// The sliver between arc and chord: its centre lies on the bisector,
		// its moment about the arc's centre is 2/3 (R sin(a/2))³.
		a := s.Sweep()
		k = s.R * s.R / 2 * (a - math.Sin(a))
		arm := 2. / 3 * math.Pow(s.R*math.Sin(a/2), 3)
		area += k
		moment = moment.Add(s.C.Sub(ref).Mul(k)).Add(s.Mid().Sub(s.C).Unit().Mul(arm))
	}
	if area == 0 {
		return ref
	}
	return ref.Add(moment.Mul(1 / area))
}

// Box returns the upright box round o, exact for arcs.
func (o Outline) Box() Box {
	b := NoBox()
	for _, s := range o {
		b = b.Union(s.Box())
	}
	return b
}

// Contains reports whether p is inside o. A point on the outline itself may
// come out either way; ask Distance about those.
func (o Outline) Contains(p Pt) bool { return inside(o, p) }

// inside reports whether a ray from p to the right meets the closed loops in
// segs an odd number of times.
func inside(segs []Seg, p Pt) bool {
	in := false
	for i := range segs {
		s := &segs[i]
		if s.Turn == Straight {
			// Most sides lie wholly above or below.
			in = in != ((s.A.Y > p.Y) != (s.B.Y > p.Y) && s.xAt(p.Y) > p.X)
			continue
		}
		for _, m := range s.monotone() {
			in = in != m.passes(p)
		}
	}
	return in
}

// passes reports whether the monotone part s crosses the ray from p to the
// right. An end on the ray counts as below it.
func (s Seg) passes(p Pt) bool {
	return (s.A.Y > p.Y) != (s.B.Y > p.Y) && s.xAt(p.Y) > p.X
}

// monotone returns s cut so that each part only climbs or only falls; an arc
// part then stays on one side of its centre.
func (s Seg) monotone() []Seg {
	if s.Turn == Straight {
		return []Seg{s}
	}
	out := make([]Seg, 0, 3)
	first, second := Pt{0, 1}, Pt{0, -1}
	if s.angleTo(second) < s.angleTo(first) {
		first, second = second, first
	}
	sweep := math.Abs(s.Sweep())
	rest := s
	for _, d := range []Pt{first, second} {
		if a := s.angleTo(d); a > 0 && a < sweep {
			part := rest
			part.B = s.C.Add(d.Mul(s.R))
			rest.A = part.B
			out = append(out, part)
		}
	}
	return append(out, rest)
}

// xAt returns where the monotone part s is at height y.
func (s Seg) xAt(y float64) float64 {
	if s.Turn == Straight {
		return s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
	}
	dy := y - s.C.Y
	dx := math.Sqrt(max(0, s.R*s.R-dy*dy))
	// An anticlockwise arc climbs on the right of its centre.
	if (s.B.Y > s.A.Y) != (s.Turn == CCW) {
		dx = -dx
	}
	return s.C.X + dx
}

// Across returns, in rising order, the heights at which the upright line at x
// passes into and out of o: an even number. Where o runs along that line the
// values just to the right of it are given, at the right-hand end of o those
// just to the left.
func (o Outline) Across(x float64) []float64 {
	ys := o.across(x, func(v float64) bool { return v > x })
	if len(ys) == 0 {
		ys = o.across(x, func(v float64) bool { return v >= x })
	}
	return ys
}

func (o Outline) across(x float64, right func(float64) bool) []float64 {
	var ys []float64
	for _, s := range o {
		// Laid on its side, so that "monotone" speaks of x.
		for _, m := range s.swap().monotone() {
			if right(m.A.Y) != right(m.B.Y) {
				ys = append(ys, m.xAt(x))
			}
		}
	}
	slices.Sort(ys)
	return ys
}

// swap returns s with x and y exchanged.
func (s Seg) swap() Seg {
	w := func(p Pt) Pt { return Pt{p.Y, p.X} }
	return Seg{A: w(s.A), B: w(s.B), C: w(s.C), R: s.R, Turn: -s.Turn}
}

// Distance returns how far p is from the outline o itself.
func (o Outline) Distance(p Pt) float64 {
	d := math.Inf(1)
	for _, s := range o {
		d = min(d, s.Distance(p))
	}
	return d
}

// Corner returns the number of the corner of o nearest to p; corner i is where
// segment i begins. It returns -1 for an empty outline.
func (o Outline) Corner(p Pt) int {
	best, d := -1, math.Inf(1)
	for i, s := range o {
		if l := s.A.Sub(p).Len(); l < d {
			best, d = i, l
		}
	}
	return best
}

// Flatten returns the corners of a polygon that follows o with its own corners
// on o and nowhere farther from it than chord.
func (o Outline) Flatten(chord float64) []Pt {
	var pts []Pt
	for _, s := range o {
		n := 1
		if s.Turn != Straight {
			n = facets(s.R, s.Sweep(), chord)
		}
		for i := range n {
			pts = append(pts, s.At(float64(i)/float64(n)))
		}
	}
	return pts
}

// facets returns how many equal chords follow an arc of the radius and sweep to
// within chord; never fewer than eight to the full turn, so that even the
// smallest hole looks round.
func facets(r, sweep, chord float64) int {
	step := math.Pi / 4
	if chord < r {
		step = min(step, 2*math.Acos(1-chord/r))
	}
	return max(1, int(math.Ceil(math.Abs(sweep)/step-1e-9)))
}
