package view

import (
	"slices"

	"planset/model/geom"
)

// A scan finds where a straight line runs inside a face. Corners that lie on
// the line are taken as beside it, as if the line had been moved a hair to the
// left or to the right; so there are no special cases, and the answer is for
// the strip along that side of the line.
type scan struct {
	off  []float64 // by corner: how far left of the line
	on   []float64 // by corner: how far along it
	ends []int     // where each loop ends
	cuts []float64
	same bool // no corner lies on the line: both sides of it are the same
}

// A span is a stretch of a line, in millimetres from its start.
type span struct{ lo, hi float64 }

func (c *scan) reset() {
	c.off, c.on, c.ends, c.same = c.off[:0], c.on[:0], c.ends[:0], true
}

func (c *scan) corner(off, on float64) {
	if off < Touch && off > -Touch {
		off, c.same = 0, false
	}
	c.off, c.on = append(c.off, off), append(c.on, on)
}

// picture lays the line from a along the unit vector u over f in the picture.
func (c *scan) picture(f *face, a geom.V3, u geom.Pt) {
	c.reset()
	for _, loop := range f.loops {
		for _, p := range loop {
			x, y := p.X-a.X, p.Y-a.Y
			c.corner(u.X*y-u.Y*x, u.X*x+u.Y*y)
		}
		c.ends = append(c.ends, len(c.off))
	}
}

// plane lays the line where g's plane cuts f's over f in space; u is its unit
// direction. Lengths count from the foot of the origin.
func (c *scan) plane(f, g *face, u geom.V3) {
	c.reset()
	for _, loop := range f.loops {
		for _, p := range loop {
			c.corner(g.over(p), u.Dot(p))
		}
		c.ends = append(c.ends, len(c.off))
	}
}

// within lays the line from a along the unit vector u, which lies in f, over f.
func (c *scan) within(f *face, a, u geom.V3) {
	c.reset()
	side := f.n.Cross(u)
	for _, loop := range f.loops {
		for _, p := range loop {
			v := p.Sub(a)
			c.corner(side.Dot(v), u.Dot(v))
		}
		c.ends = append(c.ends, len(c.off))
	}
}

// inside returns the crossings of the line, moved to the left or right, with
// the loops, in order: it is inside from the first to the second, from the
// third to the fourth and so on. The result lasts until the next call.
func (c *scan) inside(left bool) []float64 {
	c.cuts = c.cuts[:0]
	start := 0
	for _, end := range c.ends {
		j := end - 1
		for i := start; i < end; i++ {
			a, b := c.off[j], c.off[i]
			if (a > 0 || a == 0 && !left) != (b > 0 || b == 0 && !left) {
				c.cuts = append(c.cuts, c.on[j]+(c.on[i]-c.on[j])*a/(a-b))
			}
			j = i
		}
		start = end
	}
	if len(c.cuts) == 2 {
		if c.cuts[0] > c.cuts[1] {
			c.cuts[0], c.cuts[1] = c.cuts[1], c.cuts[0]
		}
		return c.cuts
	}
	slices.Sort(c.cuts)
	return c.cuts
}

// union sorts spans and joins those that meet.
func union(s []span) []span {
	if len(s) < 2 {
		return s
	}
	slices.SortFunc(s, func(a, b span) int {
		if c := compare(a.lo, b.lo); c != 0 {
			return c
		}
		return compare(a.hi, b.hi)
	})
	n := 0
	for _, p := range s[1:] {
		if p.lo <= s[n].hi {
			s[n].hi = max(s[n].hi, p.hi)
			continue
		}
		n++
		s[n] = p
	}
	return s[:n+1]
}

// common returns the stretches in both a and b, which are unions.
func common(a, b []span) []span {
	var out []span
	for i, j := 0, 0; i < len(a) && j < len(b); {
		lo, hi := max(a[i].lo, b[j].lo), min(a[i].hi, b[j].hi)
		if lo < hi {
			out = append(out, span{lo, hi})
		}
		if a[i].hi < b[j].hi {
			i++
		} else {
			j++
		}
	}
	return out
}

// without returns the stretches of 0 to long outside s, which is a union.
func without(s []span, long float64) []span {
	var out []span
	at := 0.0
	for _, p := range s {
		if p.lo > at {
			out = append(out, span{at, p.lo})
		}
		at = max(at, p.hi)
	}
	if at < long {
		out = append(out, span{at, long})
	}
	return out
}
