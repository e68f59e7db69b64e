package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// wishes are the dimensions of the face view that the author wants to see.
func (b *partPage) wishes() []dims.Wish { return b.chosen(b.named()) }

// named are all dimensions of the face view.
func (b *partPage) named() []called {
	v := b.view
	w := []called{{Wish: b.datum(), stay: true}}
	if v.broken() {
		x := (v.x(v.gone[0]) + v.x(v.gone[1])) / 2
		w = append(w, called{Wish: dims.Break{A: v.at.Add(pt(x, 0)), B: v.at.Add(pt(x, v.p.Width*v.k)), Gap: breakGap}, stay: true})
	}
	if v.symmetric() {
		w = append(w, called{Wish: dims.Center{A: v.pt(0, v.p.Width/2), B: v.pt(v.p.Length, v.p.Width/2)}, name: "center", stay: true})
	}
	if m, ok := v.middle(); ok {
		w = append(w, called{Wish: dims.Center{A: v.pt(m, 0), B: v.pt(m, v.p.Width)}, name: "center", stay: true})
	}
	w = append(w, called{Wish: b.alongRun(), name: "along"})
	return slices.Concat(w, b.acrossRuns(), b.curveChecks(), b.shapes(), b.pairs(), b.cutNotes(), b.holeNotes())
}

func (b *partPage) datum() dims.Datum {
	if b.view.flip {
		return dims.Datum{At: b.view.pt(0, 0), X: 1, Y: -1}
	}
	return dims.Datum{At: b.view.pt(0, 0), X: 1, Y: 1}
}

// alongRun is the tape hooked on the datum end: holes, corners, the length.
func (b *partPage) alongRun() dims.Run {
	v, u := b.view, b.unit()
	r := dims.Run{Side: dims.Below}
	edge := 0.0
	if v.flip {
		edge = v.p.Width
	}
	r.Stops = append(r.Stops, dims.Stop{At: v.pt(0, edge), Label: dims.Label{Text: "0"}})
	add := func(name string, along, across float64, l dims.Label) {
		for i, s := range r.Stops {
			if math.Abs(s.At.X-v.pt(along, 0).X) < 0.02 || s.Text == l.Text {
				if l.Key > 0 {
					r.Stops[i].Label = l
				}
				return
			}
		}
		r.Stops = append(r.Stops, dims.Stop{At: v.pt(along, across), Label: l, Name: name})
	}
	for _, h := range b.laidOut() {
		if h.Into != "end" {
			add("along "+h.Name, h.Along, h.Across, dims.Label{Text: b.letter("x "+h.Name, u.Length(b.mirrored(h), fine(h.Fine))), Key: b.holeKey(h, "along")})
		}
	}
	for _, g := range v.p.Grooves {
		if !g.AlongRun {
			add("groove", g.Box.Min.X, g.Box.Min.Y, dims.Label{Text: u.Length(g.Box.Min.X, expr.Coarse)})
			add("groove", g.Box.Max.X, g.Box.Min.Y, dims.Label{Text: u.Length(g.Box.Max.X, expr.Coarse)})
		}
	}
	corners := counter{}
	for _, q := range v.corners() {
		if q.X > 0.5 && q.X < v.p.Length-0.5 {
			add(corners.name("along corner"), q.X, q.Y, dims.Label{Text: u.Length(q.X, expr.Coarse)})
		}
	}
	long := u.Length(v.p.Length, expr.Coarse)
	if len(b.set) > 1 {
		long = "L"
	}
	r.Stops = append(r.Stops, dims.Stop{At: v.pt(v.p.Length, v.endAcross()), Label: dims.Label{Text: long, Key: b.sawnKey("length", v.p.Names.Ends[1]+" cut")}, Name: "length"})
	return r
}

// mirrored is how far along a hole is, rounded so that one whose mate stands as
// far from the other end reads as far from it: 1/2 at the left and 20 3/8 of
// 20 7/8 at the right. Where that is farther off than plain rounding may be, the
// true place stands.
func (b *partPage) mirrored(h model.Hole) float64 {
	u, f, long := b.unit(), fine(h.Fine), b.view.p.Length
	mate := slices.ContainsFunc(b.laidOut(), func(o model.Hole) bool {
		return o.Into != "end" && o.Fine == h.Fine && math.Abs(o.Along+h.Along-long) < 0.02
	})
	if !mate || h.Along <= long/2 {
		return h.Along
	}
	at := u.Round(long, expr.Coarse) - u.Round(long-h.Along, f)
	if math.Abs(at-h.Along) > u.Step(f)/2+0.01 {
		return h.Along
	}
	return at
}

// endAcross is where across the part its far end is reached.
func (v *plate) endAcross() float64 {
	best, at := -1.0, 0.0
	for _, s := range v.p.Board.Outline {
		for _, q := range [...]geom.Pt{s.A, s.Mid()} {
			if q.X > best+1e-6 {
				best, at = q.X, q.Y
			}
		}
	}
	return at
}

// corners are the true corners of the outline: where two straight sides meet.
func (v *plate) corners() []geom.Pt {
	o := v.p.Board.Outline
	var out []geom.Pt
	for i, s := range o {
		before := o[(i+len(o)-1)%len(o)]
		if s.Turn == geom.Straight && before.Turn == geom.Straight {
			out = append(out, s.A)
		}
	}
	return out
}

// laidOut are the holes that are marked out on this part by itself.
func (b *partPage) laidOut() []model.Hole {
	var out []model.Hole
	for _, h := range b.p.Holes {
		if !h.Matched {
			out = append(out, h)
		}
	}
	return out
}

func fine(f bool) expr.Fineness {
	if f {
		return expr.Fine
	}
	return expr.Coarse
}

// acrossRuns are the distances from the reference edge: of what lies near the
// datum end at the left with the width, of the rest at the right.
func (b *partPage) acrossRuns() []called {
	v, u := b.view, b.unit()
	if v.symmetric() {
		return b.taperWidths()
	}
	runs := [2]dims.Run{{Side: dims.LeftOf}, {Side: dims.RightOf}}
	for i, x := range [...]float64{0, v.p.Length} {
		runs[i].Stops = append(runs[i].Stops, dims.Stop{At: v.pt(x, 0), Label: dims.Label{Text: "0"}})
	}
	add := func(name string, side int, along, across float64, l dims.Label) {
		for i, s := range runs[side].Stops {
			if s.Text == l.Text {
				if l.Key > 0 {
					runs[side].Stops[i].Label = l
				}
				return
			}
		}
		runs[side].Stops = append(runs[side].Stops, dims.Stop{At: v.pt(along, across), Label: l, Name: name})
	}
	for _, h := range b.laidOut() {
		if h.Into == "face" {
			add("across "+h.Name, v.nearer(h.Along), h.Along, h.Across, dims.Label{Text: u.Length(h.Across, fine(h.Fine)), Key: b.holeKey(h, "across")})
		}
	}
	for _, q := range b.p.Pockets {
		add("across pocket", v.nearer(q.Along), q.Along, q.Across, dims.Label{Text: u.Length(q.Across, expr.Coarse)})
	}
	for _, g := range v.p.Grooves {
		if g.AlongRun {
			add("across groove", 0, g.Box.Min.X, g.Box.Min.Y, dims.Label{Text: u.Length(g.Box.Min.Y, expr.Coarse)})
			add("across groove", 0, g.Box.Min.X, g.Box.Max.Y, dims.Label{Text: u.Length(g.Box.Max.Y, expr.Coarse)})
		}
	}
	add("width", 0, 0, v.p.Width, dims.Label{Text: u.Length(v.p.Width, expr.Coarse), Key: b.key("width")})
	if w := v.endWidth(); w < v.p.Width-0.5 && w > 0.5 {
		add("far width", 1, v.p.Length, w, dims.Label{Text: u.Length(w, expr.Coarse)})
	}
	if !v.twoSided() {
		for _, st := range runs[1].Stops[1:] { // they join the others
			if n := len(runs[0].Stops); !sameTexts(runs[0].Stops, []dims.Stop{st}) {
				runs[0].Stops = slices.Insert(runs[0].Stops, n-1, st)
			}
		}
		runs[1].Stops = runs[1].Stops[:1]
	}
	out := []called{{Wish: runs[0], name: "across"}}
	if len(runs[1].Stops) > 1 && !sameTexts(runs[0].Stops, runs[1].Stops) {
		out = append(out, called{Wish: runs[1], name: "far across"})
	}
	return out
}

// twoSided reports whether sizes across stand at both ends of the view.
func (v *plate) twoSided() bool { return v.endWidth() > 0 || v.broken() || v.symmetric() }

// sameTexts reports whether every stop of b is said by a already.
func sameTexts(a, b []dims.Stop) bool {
	said := map[string]bool{}
	for _, s := range a {
		said[s.Text] = true
	}
	for _, s := range b {
		if !said[s.Text] {
			return false
		}
	}
	return true
}

// nearer tells which end a place is nearer to.
func (v *plate) nearer(along float64) int {
	if along > v.p.Length/2 {
		return 1
	}
	return 0
}

// endWidth is how far from the reference edge a tapered far end reaches; 0 when
// nothing tapers.
func (v *plate) endWidth() float64 {
	for _, t := range v.p.Tapers {
		if t.Edge == 1 && math.Abs(t.ToAlong-v.p.Length) < 1 {
			return t.ToWidth
		}
	}
	return 0
}

// taperWidths are the widths of a part that tapers on both edges: at its datum
// end and where the taper ends.
func (b *partPage) taperWidths() []called {
	v, u := b.view, b.unit()
	var out []called
	for _, t := range v.p.Tapers {
		if t.Edge != 2 {
			continue
		}
		share := (0 - t.FromAlong) / (t.ToAlong - t.FromAlong)
		w := t.FromWidth + share*(t.ToWidth-t.FromWidth)
		m := v.p.Width / 2
		out = append(out,
			called{Wish: dims.Span{Side: dims.LeftOf, A: v.pt(0, m-w/2), B: v.pt(0, m+w/2), Label: dims.Label{Text: b.letter("width", u.Length(w, expr.Coarse))}}, name: "width"},
			called{Wish: dims.Span{Side: dims.RightOf, A: v.pt(t.ToAlong, m-t.ToWidth/2), B: v.pt(t.ToAlong, m+t.ToWidth/2), Label: dims.Label{Text: u.Length(t.ToWidth, expr.Coarse)}}, name: "far width"},
		)
	}
	return out
}

// pairs are the distances between two holes on either side of the middle of a
// part that is the same on both sides.
func (b *partPage) pairs() []called {
	v, u := b.view, b.unit()
	if !v.symmetric() {
		return nil
	}
	var out []called
	apart := counter{}
	holes := b.laidOut()
	for i, h := range holes {
		for _, g := range holes[i+1:] {
			if h.Into == "face" && math.Abs(h.Along-g.Along) < 0.5 && math.Abs(h.Across+g.Across-v.p.Width) < 0.5 {
				text := b.letter("pair "+h.Name, u.Length(math.Abs(g.Across-h.Across), expr.Coarse))
				note := dims.Callout{At: v.pt(h.Along, h.Across).Add(v.pt(g.Along, g.Across)).Mul(0.5), Dot: true,
					Text: []string{text + " apart, same both sides of the middle"}, Prefer: pt(0.5, 1)}
				out = append(out, called{Wish: note, name: apart.name("apart " + holeBase(h))})
			}
		}
	}
	return out
}
