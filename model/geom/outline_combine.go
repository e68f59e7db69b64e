package geom

import (
	"math"
	"slices"
)

// How the parts of two shapes are put together: each side is cut where it meets
// the other shape, a part is kept or dropped by where its middle lies, and the
// kept parts are joined up again. Lines stay lines and arcs arcs. Sides that
// run along each other are kept once, when both shapes lie on the same side
// (And) or on opposite sides (Minus).

// And returns what o and p have in common, in as many pieces as it falls into.
// A hole comes back as a clockwise outline.
func (o Outline) And(p Outline) []Outline {
	return heal(join(common(o, p), loose))
}

// common returns the sides of what is inside both of two sets of loops.
func common(p, q []Seg) []Seg {
	kept := sift(p, q, func(in bool, along int) bool { return along > 0 || along == 0 && in })
	return append(kept, sift(q, p, func(in bool, along int) bool { return along == 0 && in })...)
}

// Minus returns what is left of o when tool is cut away, in as many pieces as
// it falls into. A hole comes back as a clockwise outline.
func (o Outline) Minus(tool Outline) []Outline {
	kept := sift(o, tool, func(in bool, along int) bool { return along < 0 || along == 0 && !in })
	inner := sift(tool, o, func(in bool, along int) bool { return along == 0 && in })
	return heal(join(append(kept, Outline(inner).Reverse()...), loose))
}

// ClipLine returns the pieces of o on the side of the line through p that n
// points away from.
func (o Outline) ClipLine(p, n Pt) []Outline {
	n = n.Unit()
	b := o.Box()
	if b.Empty() {
		return nil
	}
	centre := b.Min.Add(b.Max).Mul(0.5)
	far := b.Max.Sub(b.Min).Len() + 1
	d := centre.Sub(p).Dot(n)
	switch {
	case d < -far:
		return []Outline{o}
	case d > far:
		return nil
	}
	foot := centre.Sub(n.Mul(d))
	along, down := n.Left().Mul(far), n.Mul(-3*far)
	c, e := foot.Sub(along), foot.Add(along)
	keep := Outline{Line(c, e), Line(e, e.Add(down)), Line(e.Add(down), c.Add(down)), Line(c.Add(down), c)}
	return o.And(keep)
}

// sift returns the parts of list, cut where it meets other, that keep accepts.
// It is told whether the part lies inside other and, for a part that runs along
// a side of other, whether with it (1) or against it (-1).
func sift(list, other []Seg, keep func(in bool, along int) bool) []Seg {
	var out []Seg
	boxes := boxesOf(other)
	for _, s := range cutWhere(list, other, boxes) {
		m := s.Mid()
		along := 0
		for i, t := range other {
			if !boxes[i].Grow(reach).Has(m) {
				continue
			}
			if a := runsAlong(s, t); a != 0 {
				along = a
			}
		}
		if keep(along == 0 && inside(other, m), along) {
			out = append(out, s)
		}
	}
	return out
}

// runsAlong returns 1 or -1 when the part s lies on t and points the same or the
// opposite way, else 0. Parts are cut at every meeting, so one on t has all of
// itself there.
func runsAlong(s, t Seg) int {
	m := s.Mid()
	if t.Distance(m) > reach {
		return 0
	}
	q := s.At(0.25)
	if t.Distance(q) > reach {
		return 0
	}
	if s.Tangent(0.5).Dot(t.Tangent(t.Param(m))) > 0 {
		return 1
	}
	return -1
}

// Gaps that join closes: tight where points were computed once, loose where
// nearly parallel sides meet and a crossing may be placed less exactly.
const (
	tight = 2.5 * reach
	loose = 1e-3
)

// join strings segments together into closed loops. Where several leave a
// point, the one most to the left goes on, so that shapes touching at a point
// come out apart. What cannot be closed is dropped.
func join(segs []Seg, gap float64) []Outline {
	left := slices.Clone(segs)
	var loops []Outline
	for len(left) > 0 {
		loop := Outline{left[0]}
		left = left[1:]
		for len(loop) > 0 {
			last := loop[len(loop)-1]
			i, closes := nextSeg(left, last, loop[0], gap)
			if closes {
				loop[len(loop)-1].B = loop[0].A
				loops = append(loops, loop)
				break
			}
			if i < 0 {
				// A dead end is a scrap that a crossing placed a hair off left
				// behind: without it the path may still close.
				loop = loop[:len(loop)-1]
				continue
			}
			left[i].A = last.B
			loop = append(loop, left[i])
			left = slices.Delete(left, i, i+1)
		}
	}
	return loops
}

// nextSeg returns the number of the segment in left that goes on from the end
// of last, or -1, and whether the loop rather closes there on its first.
func nextSeg(left []Seg, last, first Seg, gap float64) (i int, closes bool) {
	home := last.B.Sub(first.A).Len()
	near := home
	for _, s := range left {
		near = min(near, s.A.Sub(last.B).Len())
	}
	if near > gap {
		return -1, false
	}
	limit := max(tight, near)
	best, turn := -1, math.Inf(-1)
	if home <= limit {
		turn, closes = bend(last, first), true
	}
	for i, s := range left {
		if s.A.Sub(last.B).Len() > limit {
			continue
		}
		if b := bend(last, s); b > turn {
			best, turn, closes = i, b, false
		}
	}
	return best, closes
}

// bend returns how far t turns left from the end of s, with the curvature of
// both deciding between directions that are equal.
func bend(s, t Seg) float64 {
	u, v := s.Tangent(1), t.Tangent(0)
	a := math.Atan2(u.Cross(v), u.Dot(v))
	// A path straight back is the sharpest right turn there is.
	if a > math.Pi-1e-7 {
		a -= 2 * math.Pi
	}
	if t.Turn != Straight {
		a += 1e-7 * float64(t.Turn) / max(t.R, 1)
	}
	return a
}

// heal drops slivers and makes one segment again of neighbours that continue
// each other.
func heal(loops []Outline) []Outline {
	var out []Outline
	for _, o := range loops {
		o = o.withoutSpecks().merged()
		if len(o) < 2 || math.Abs(o.Area()) <= reach*o.Length() {
			continue
		}
		out = append(out, o)
	}
	return out
}

// withoutSpecks returns o without segments of no length.
func (o Outline) withoutSpecks() Outline {
	var r Outline
	for _, s := range o {
		if Same(s.A, s.B) && s.Length() <= 2*reach {
			if len(r) > 0 {
				r[len(r)-1].B = s.B
			}
			continue
		}
		r = append(r, s)
	}
	if len(r) > 0 {
		r[len(r)-1].B = r[0].A
	}
	return r
}

// merged returns o with neighbours that continue each other made one.
func (o Outline) merged() Outline {
	var r Outline
	for _, s := range o {
		if len(r) > 0 && continues(r[len(r)-1], s) {
			r[len(r)-1].B = s.B
			continue
		}
		r = append(r, s)
	}
	for len(r) > 2 && continues(r[len(r)-1], r[0]) {
		r[0].A = r[len(r)-1].A
		r = r[:len(r)-1]
	}
	return r
}

// continues reports whether s and t, which follow each other, are parts of one
// line or one circle that make up less than a full turn.
func continues(s, t Seg) bool {
	if s.Turn != t.Turn || s.Tangent(1).Dot(t.Tangent(0)) < 0 {
		return false
	}
	if s.Turn == Straight {
		return Line(s.A, t.B).Distance(s.B) <= reach/2
	}
	return Same(s.C, t.C) && math.Abs(s.R-t.R) <= reach && math.Abs(s.Sweep()+t.Sweep()) < 1.9*math.Pi
}
