package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/model/expr"
	"planset/model/geom"
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
		}
		if count[r] > 1 {
			text = digits(count[r]) + " × " + text
		}
		out = append(out, called{Wish: b.radius(s, text), name: names.name("radius")})
	}
	return out
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
		if off <= math.Pi/4 {
			gauge := dims.Gauge{At: at, Off: math.Copysign(off, -d.X*d.Y*sign(v.flip)), Text: []string{expr.Angle(off, 0.5) + " off square"}, Prefer: pt(1, 0.4)}
			out = append(out, called{Wish: gauge, name: names.name("cut")})
			continue
		}
		text := []string{expr.Angle(math.Pi/2-off, 0.5) + " off the edge"}
		if e := v.p.Ends[v.nearer(s.Mid().X)]; e.Flat > 0 && math.Abs(d.Len()-e.Flat) < 1 {
			text = []string{"flat of " + u.Length(e.Flat, expr.Coarse) + " on the " + orElse(e.By, "floor"), text[0]}
		}
		out = append(out, called{Wish: dims.Callout{At: at, Text: text, Prefer: pt(1, 1)}, name: names.name("cut")})
	}
	for i, e := range v.p.Ends {
		if e.Bevel == 0 {
			continue
		}
		text := "tilt the blade " + expr.Angle(math.Abs(e.Bevel), 0.5)
		if e.Miter != 0 {
			text = "miter " + expr.Angle(math.Abs(e.Miter), 0.5) + ", tilt " + expr.Angle(math.Abs(e.Bevel), 0.5)
		}
		gauge := dims.Gauge{At: b.endPoint(i), Off: e.Bevel, Text: []string{text, faceName(v.p, e.LongFace) + " longer"}, Prefer: pt(float64(2*i-1), 0.5)}
		out = append(out, called{Wish: gauge, name: names.name("bevel")})
	}
	return append(out, b.recessNotes()...)
}

func sign(flip bool) float64 {
	if flip {
		return -1
	}
	return 1
}

// endPoint is a place on the line of an end as it is seen.
func (b *partPage) endPoint(end int) geom.Pt {
	v := b.view
	y := v.at.Y + 0.62*v.p.Width*v.k
	best := pt(v.at.X+float64(end)*v.width(), y)
	found := false
	for _, l := range b.seen {
		for _, s := range l.Segs {
			if (s.A.Y < y) == (s.B.Y < y) {
				continue
			}
			x := s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
			if !found || end == 0 && x < best.X || end == 1 && x > best.X {
				best, found = pt(x, y), true
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
