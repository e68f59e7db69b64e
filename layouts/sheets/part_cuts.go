package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// shapes are the rounds and cuts of the outline.
func (b *partPage) shapes() []called {
	v, u := b.view, b.unit()
	var out []called
	names := counter{}
	count := map[string]int{}
	for _, s := range v.p.Board.Outline {
		if s.Turn != geom.Straight {
			count[u.Length(s.R, expr.Coarse)]++
		}
	}
	done := map[string]bool{}
	for _, s := range v.p.Board.Outline {
		r := u.Length(s.R, expr.Coarse)
		if s.Turn == geom.Straight || done[r] {
			continue
		}
		done[r] = true
		text := "R " + r
		if s.Sweep() > 3 || s.Sweep() < -3 {
			text += ", half round"
		} else if v.p.Free && onCorner(v.p.Board.Outline, s.C) {
			text += ", center on the corner"
		}
		if count[r] > 1 {
			text = digits(count[r]) + " × " + text
		}
		out = append(out, called{Wish: b.radius(s, text), name: names.name("radius")})
	}
	return out
}

// onCorner reports whether a point is a corner of an outline.
func onCorner(o geom.Outline, q geom.Pt) bool {
	i := o.Corner(q)
	return i >= 0 && o[i].A.Sub(q).Len() < 0.05
}

// radius dimensions one arc of the outline.
func (b *partPage) radius(s geom.Seg, text string) dims.Wish {
	v := b.view
	c, a, e := v.pt(s.C.X, s.C.Y), v.pt(s.A.X, s.A.Y), v.pt(s.B.X, s.B.Y)
	if v.broken() && s.C.X < v.gone[0] == (s.A.X > v.gone[1]) {
		return dims.Callout{At: v.pt(s.Mid().X, s.Mid().Y), Text: []string{text}}
	}
	ccw := (s.Turn == geom.CCW) != v.flip
	from, to := a.Sub(c), e.Sub(c)
	if !ccw {
		from, to = to, from
	}
	return dims.Radius{C: c, R: s.R * v.k, From: math.Atan2(from.Y, from.X), To: math.Atan2(to.Y, to.X), Text: text}
}

// cutNotes are the saw cuts off square at the ends, and worked arrises.
func (b *partPage) cutNotes() []called {
	v, u := b.view, b.unit()
	var out []called
	names := counter{}
	for _, s := range v.p.Board.Outline {
		d := s.B.Sub(s.A)
		if s.Turn != geom.Straight || math.Abs(d.X) < 0.5 || math.Abs(d.Y) < 0.5 || b.tapered(s) {
			continue
		}
		off := math.Atan2(math.Abs(d.X), math.Abs(d.Y))
		at := v.pt(s.Mid().X, s.Mid().Y)
		end := v.nearer(s.Mid().X)
		e, key := v.p.Ends[end], b.key(v.p.Names.Ends[end]+" cut, its angle")
		flat := e.Flat > 0 && math.Abs(d.Len()-e.Flat) < 1
		if e.Flat > 0 && !flat {
			key = 0 // the mark is the flat's
		}
		if off <= math.Pi/4 {
			gauge := dims.Gauge{At: at, Off: math.Copysign(off, -d.X*d.Y*sign(v.flip)), Text: []string{offSquare(off)}, Prefer: pt(1, 0.4), Key: key}
			out = append(out, called{Wish: gauge, name: names.name("cut")})
			continue
		}
		text := []string{expr.Angle(math.Pi/2-off, 0.5) + " off the edge"}
		if flat {
			text = []string{"flat of " + u.Length(e.Flat, expr.Coarse) + " on the " + orElse(e.By, "floor"), text[0]}
		}
		out = append(out, called{Wish: dims.Callout{At: at, Text: text, Prefer: pt(1, 1), Key: key}, name: names.name("cut")})
	}
	for _, m := range b.miters() {
		out = append(out, called{Wish: m, name: names.name("cut")})
	}
	return append(out, b.recessNotes()...)
}

func sign(flip bool) float64 {
	if flip {
		return -1
	}
	return 1
}

// miters are the angles across the face of ends that the outline does not show,
// for they are cut through the thickness too. Both ends are told in one when
// they are set alike.
func (b *partPage) miters() []dims.Gauge {
	var out []dims.Gauge
	for i, e := range b.p.Ends {
		if e.Bevel == 0 || e.Miter == 0 {
			continue
		}
		low := e.LongEdge != 0
		if !b.view.flip {
			low = !low
		}
		out = append(out, dims.Gauge{
			At: b.endPoint(i), Off: leaning(i, e.Miter, low), Prefer: pt(float64(2*i-1), 0.5), Key: b.key(b.p.Names.Ends[i] + " cut, its angle"),
			Text: []string{offSquare(e.Miter), orElse(b.p.Names.Edges[e.LongEdge&1], "marked") + " edge longer"},
		})
	}
	return setAlike(out)
}

// offSquare says an angle as a saw or a gauge reads it.
func offSquare(a float64) string { return expr.Angle(math.Abs(a), 0.5) + " off square" }

// leaning gives the angle of a cut at the left (0) or right (1) end of a view its
// sign for a gauge on the lower side: positive leans to the left. Low tells that
// the lower side is the longer one.
func leaning(end int, off float64, low bool) float64 {
	if (end == 1) == low {
		return math.Abs(off)
	}
	return -math.Abs(off)
}

// setAlike puts the gauges of two ends that are set alike into one.
func setAlike(g []dims.Gauge) []dims.Gauge {
	if len(g) != 2 || !slices.Equal(g[0].Text, g[1].Text) || (g[0].Key == 0) != (g[1].Key == 0) {
		return g
	}
	one := g[1]
	if one.Key != 0 {
		one.Key, one.Also = min(g[0].Key, g[1].Key), max(g[0].Key, g[1].Key)
	}
	one.Text = slices.Clone(one.Text)
	one.Text[0] = "both ends " + one.Text[0]
	return []dims.Gauge{one}
}

// endPoint is a place on the line of an end as it is seen.
func (b *partPage) endPoint(end int) geom.Pt {
	v := b.view
	y := v.at.Y + 0.62*v.p.Width*v.k
	return farthest(b.seen, pt(v.at.X+float64(end)*v.width(), y), end)
}

// farthest is the leftmost (0) or rightmost (1) point of lines at the height of
// a point, or that point when no line passes there.
func farthest(lines []render.Path, at geom.Pt, end int) geom.Pt {
	best, found := at, false
	for _, l := range lines {
		for _, s := range l.Segs {
			if (s.A.Y < at.Y) == (s.B.Y < at.Y) {
				continue
			}
			x := s.A.X + (at.Y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
			if !found || end == 0 && x < best.X || end == 1 && x > best.X {
				best, found = pt(x, at.Y), true
			}
		}
	}
	return best
}

// recessNotes tell notches and grooves.
func (b *partPage) recessNotes() []called {
	v, u := b.view, b.unit()
	var out []called
	names := counter{}
	for _, n := range v.p.Notches {
		across := n.Deep
		if n.Edge == 1 {
			across = v.p.Width - n.Deep
		}
		note := dims.Callout{At: v.pt(n.Along+n.Long/2, across), Text: []string{"notch " + u.Length(n.Long, expr.Coarse) + " × " + u.Length(n.Deep, expr.Coarse) + " deep"}}
		out = append(out, called{Wish: note, name: names.name("notch")})
	}
	for _, g := range v.p.Grooves {
		wide := min(g.Box.W(), g.Box.H())
		c := g.Box.Min.Add(g.Box.Max).Mul(0.5)
		note := dims.Callout{At: v.pt(c.X, c.Y), Dot: true, Text: []string{"groove " + u.Length(wide, expr.Coarse) + " wide, " + u.Length(g.Deep, expr.Coarse) + " deep", "in the " + faceName(v.p, g.Face)}}
		out = append(out, called{Wish: note, name: names.name("note groove")})
	}
	return out
}

// tapered reports whether a side of the outline is a taper, told by its widths.
func (b *partPage) tapered(s geom.Seg) bool {
	for _, t := range b.p.Tapers {
		lo, hi := min(s.A.X, s.B.X), max(s.A.X, s.B.X)
		if lo >= t.FromAlong-1 && hi <= t.ToAlong+1 || lo >= t.ToAlong-1 && hi <= t.FromAlong+1 {
			return true
		}
	}
	return false
}
