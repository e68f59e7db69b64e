package sheets

import (
	"math"
	"strings"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// face draws the part on its face with its dimensions and moves down past it.
func (b *partPage) face() {
	v := facing(b.p)
	v.size(b.unit())
	v.at = pt((bodyW-v.width())/2, 0)
	b.view = v
	b.wordLetters()
	seen, hidden := v.lines()
	blank := v.blank()
	art := []render.Item{render.Fill{Paths: []render.Path{v.outlineBroken()}, Tone: render.Paper}}
	if len(blank) > 0 {
		art = append(art, render.Stroke{Paths: blank, Pen: render.Ghost})
	}
	art = append(art, render.Stroke{Paths: hidden, Pen: render.Hidden}, render.Stroke{Paths: seen, Pen: render.Outline})
	holes, ink := b.holeArt()
	art = append(art, holes...)
	f := dims.Field{Box: geom.Box{Min: pt(0, -80), Max: pt(bodyW, 80+v.p.Width*v.k)}}
	f.Ink = append(append(append(f.Ink, seen...), hidden...), ink...)
	f.Body = geom.Box{Min: v.at, Max: v.at.Add(pt(v.width(), v.p.Width*v.k))}
	marks, keep := b.inner()
	f.Keep = append(f.Keep, keep...)
	placed, used, lost := dims.Place(f, b.wishes()...)
	for _, s := range lost {
		b.d.problem("part %s: %s", b.p.Code, s)
	}
	b.drop(append(append(art, marks...), placed...), used)
	b.caption(b.faceWords(), v.k)
}

// drop puts a drawing made round the origin under what is there already.
func (b *partPage) drop(items []render.Item, used geom.Box) {
	b.add(Moved(items, pt(0, b.y-2-used.Max.Y))...)
	b.y -= 2 + used.H() + 3
}

// caption names a view, with its scale and a bar.
func (b *partPage) caption(name string, k float64) {
	b.y -= 4
	items, w := dims.Caption(pt(0, b.y), name, k)
	b.add(items...)
	bar, _ := dims.ScaleBar(pt(max(w+8, 128), b.y), k, b.unit())
	b.add(bar...)
	b.y -= 3.5
}

// faceWords says which face, end and edge the reader is looking at.
func (b *partPage) faceWords() string {
	n := b.p.Names
	i := b.view.shown()
	s := "Face view"
	if n.Faces[i] != "" {
		s = upper(faceName(b.p, i))
	}
	if b.p.Hand == model.Pair {
		s += " of the right one"
	}
	if n.Ends[0] != "" {
		s += ", " + n.Ends[0] + " end at the left"
	}
	if n.Edges[0] != "" {
		where := "below"
		if b.view.flip {
			where = "above"
		}
		s += ", " + n.Edges[0] + " edge " + where
	}
	return s
}

// outlineBroken is the outline as the view shows it, for a white ground.
func (v *plate) outlineBroken() render.Path {
	var pts []geom.Pt
	for _, q := range v.p.Board.Outline.Flatten(0.2) {
		pts = append(pts, v.pt(q.X, q.Y))
	}
	return render.Loop(pts...)
}

// inner puts the grain arrow and the face mark on the wood where nothing is.
func (b *partPage) inner() (items []render.Item, keep []geom.Box) {
	v := b.view
	high := v.p.Width * v.k
	if high < 7 {
		return nil, nil
	}
	lo, hi := v.plain()
	x0, x1 := v.x(lo), v.x(hi)
	if v.broken() { // the longer side of the break
		x1 = v.x(v.gone[0]) - 2
		if v.width()-v.x(v.gone[1]) > x1 {
			x0, x1 = v.x(v.gone[1])+2, v.x(hi)
		}
	}
	if x1-x0 < 16 {
		return nil, nil
	}
	long := min(18, x1-x0-6)
	c := v.at.Add(pt((x0+x1)/2, high*0.36))
	if v.symmetric() {
		c.Y = v.at.Y + high*0.28
	}
	items = append(items, GrainArrow(c, long)...)
	keep = append(keep, geom.Box{Min: c, Max: c}.Grow(1).Union(geom.Box{Min: c.Add(pt(-long/2, -0.9)), Max: c.Add(pt(long/2, 0.9))}))
	if v.p.Face != "" && v.p.Names.Faces[v.shown()] == v.p.Face && x1-x0 > 40 && high > 12 {
		m := v.at.Add(pt((x0+x1)/2+16, high*0.68))
		items = append(items, FaceMark(m)...)
		keep = append(keep, geom.Box{Min: m, Max: m}.Grow(3.6))
	}
	return items, keep
}

// symmetric reports whether the part is the same on both sides of its middle.
func (v *plate) symmetric() bool {
	for _, t := range v.p.Tapers {
		if t.Edge == 2 {
			return true
		}
	}
	return false
}

// wishes are all dimensions of the face view.
func (b *partPage) wishes() []dims.Wish {
	v := b.view
	w := []dims.Wish{b.datum()}
	if v.broken() {
		x := (v.x(v.gone[0]) + v.x(v.gone[1])) / 2
		w = append(w, dims.Break{A: v.at.Add(pt(x, 0)), B: v.at.Add(pt(x, v.p.Width*v.k)), Gap: breakGap})
	}
	if v.symmetric() {
		w = append(w, dims.Center{A: v.pt(0, v.p.Width/2), B: v.pt(v.p.Length, v.p.Width/2)})
	}
	w = append(w, b.alongRun())
	w = append(w, b.acrossRuns()...)
	w = append(w, b.shapes()...)
	w = append(w, b.pairs()...)
	w = append(w, b.cutNotes()...)
	return append(w, b.holeNotes()...)
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
	add := func(along, across float64, l dims.Label) {
		for i, s := range r.Stops {
			if math.Abs(s.At.X-v.pt(along, 0).X) < 0.02 || s.Text == l.Text {
				if l.Key > 0 {
					r.Stops[i].Label = l
				}
				return
			}
		}
		r.Stops = append(r.Stops, dims.Stop{At: v.pt(along, across), Label: l})
	}
	for _, h := range b.laidOut() {
		if h.Into != "end" {
			add(h.Along, h.Across, dims.Label{Text: b.letter("x "+h.Name, u.Length(h.Along, fine(h.Fine))), Key: h.Critical})
		}
	}
	for _, q := range v.corners() {
		if q.X > 0.5 && q.X < v.p.Length-0.5 {
			add(q.X, q.Y, dims.Label{Text: u.Length(q.X, expr.Coarse)})
		}
	}
	long := u.Length(v.p.Length, expr.Coarse)
	if len(b.set) > 1 {
		long = "L"
	}
	r.Stops = append(r.Stops, dims.Stop{At: v.pt(v.p.Length, v.endAcross()), Label: dims.Label{Text: long}})
	return r
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
func (b *partPage) acrossRuns() []dims.Wish {
	v, u := b.view, b.unit()
	if v.symmetric() {
		return b.taperWidths()
	}
	runs := [2]dims.Run{{Side: dims.LeftOf}, {Side: dims.RightOf}}
	for i, x := range [...]float64{0, v.p.Length} {
		runs[i].Stops = append(runs[i].Stops, dims.Stop{At: v.pt(x, 0), Label: dims.Label{Text: "0"}})
	}
	add := func(side int, along, across float64, l dims.Label) {
		for i, s := range runs[side].Stops {
			if s.Text == l.Text {
				if l.Key > 0 {
					runs[side].Stops[i].Label = l
				}
				return
			}
		}
		runs[side].Stops = append(runs[side].Stops, dims.Stop{At: v.pt(along, across), Label: l})
	}
	for _, h := range b.laidOut() {
		if h.Into == "face" {
			add(v.nearer(h.Along), h.Along, h.Across, dims.Label{Text: u.Length(h.Across, fine(h.Fine)), Key: h.Critical})
		}
	}
	for _, q := range b.p.Pockets {
		add(v.nearer(q.Along), q.Along, q.Across, dims.Label{Text: u.Length(q.Across, expr.Coarse)})
	}
	add(0, 0, v.p.Width, dims.Label{Text: u.Length(v.p.Width, expr.Coarse)})
	if w := v.endWidth(); w < v.p.Width-0.5 && w > 0.5 {
		add(1, v.p.Length, w, dims.Label{Text: u.Length(w, expr.Coarse)})
	}
	if len(runs[1].Stops) == 2 && v.endWidth() == 0 {
		last := runs[1].Stops[1]
		add(0, last.At.X, 0, last.Label) // one size alone joins the others
		runs[0].Stops[len(runs[0].Stops)-1].At = last.At
		runs[1].Stops = runs[1].Stops[:1]
	}
	out := []dims.Wish{runs[0]}
	if len(runs[1].Stops) > 1 && !sameTexts(runs[0].Stops, runs[1].Stops) {
		out = append(out, runs[1])
	}
	return out
}

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
func (b *partPage) taperWidths() []dims.Wish {
	v, u := b.view, b.unit()
	var out []dims.Wish
	for _, t := range v.p.Tapers {
		if t.Edge != 2 {
			continue
		}
		share := (0 - t.FromAlong) / (t.ToAlong - t.FromAlong)
		w := t.FromWidth + share*(t.ToWidth-t.FromWidth)
		m := v.p.Width / 2
		out = append(out,
			dims.Span{Side: dims.LeftOf, A: v.pt(0, m-w/2), B: v.pt(0, m+w/2), Label: dims.Label{Text: b.letter("width", u.Length(w, expr.Coarse))}},
			dims.Span{Side: dims.RightOf, A: v.pt(t.ToAlong, m-t.ToWidth/2), B: v.pt(t.ToAlong, m+t.ToWidth/2), Label: dims.Label{Text: u.Length(t.ToWidth, expr.Coarse)}},
		)
	}
	return out
}

// pairs are the distances between two holes on either side of the middle of a
// part that is the same on both sides.
func (b *partPage) pairs() []dims.Wish {
	v, u := b.view, b.unit()
	if !v.symmetric() {
		return nil
	}
	var out []dims.Wish
	holes := b.laidOut()
	for i, h := range holes {
		for _, g := range holes[i+1:] {
			if h.Into == "face" && math.Abs(h.Along-g.Along) < 0.5 && math.Abs(h.Across+g.Across-v.p.Width) < 0.5 {
				text := b.letter("pair "+h.Name, u.Length(math.Abs(g.Across-h.Across), expr.Coarse))
				out = append(out, dims.Callout{At: v.pt(h.Along, h.Across).Add(v.pt(g.Along, g.Across)).Mul(0.5), Dot: true,
					Text: []string{text + " apart, same both sides of the middle"}, Prefer: pt(0.5, 1)})
			}
		}
	}
	return out
}

// shapes are the rounds and cuts of the outline.
func (b *partPage) shapes() []dims.Wish {
	v, u := b.view, b.unit()
	var out []dims.Wish
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
		out = append(out, b.radius(s, text))
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
func (b *partPage) cutNotes() []dims.Wish {
	v, u := b.view, b.unit()
	var out []dims.Wish
	for _, s := range v.p.Board.Outline {
		d := s.B.Sub(s.A)
		if s.Turn != geom.Straight || math.Abs(d.X) < 0.5 || math.Abs(d.Y) < 0.5 || b.tapered(s) {
			continue
		}
		off := math.Atan2(math.Abs(d.X), math.Abs(d.Y))
		at := v.pt(s.Mid().X, s.Mid().Y)
		if off <= math.Pi/4 {
			out = append(out, dims.Gauge{At: at, Off: math.Copysign(off, -d.X*d.Y*sign(v.flip)), Text: []string{expr.Angle(off, 0.5) + " off square"}, Prefer: pt(1, 0.4)})
			continue
		}
		text := []string{expr.Angle(math.Pi/2-off, 0.5) + " off the edge"}
		if e := v.p.Ends[v.nearer(s.Mid().X)]; e.Flat > 0 && math.Abs(d.Len()-e.Flat) < 1 {
			text = []string{"flat of " + u.Length(e.Flat, expr.Coarse) + " on the " + orElse(e.By, "floor"), text[0]}
		}
		out = append(out, dims.Callout{At: at, Text: text, Prefer: pt(1, 1)})
	}
	for _, e := range v.p.Ends {
		if e.Bevel != 0 {
			i := 0
			if e == v.p.Ends[1] {
				i = 1
			}
			x := float64(i) * v.p.Length
			out = append(out, dims.Gauge{At: v.pt(x, v.p.Width*0.7), Off: e.Bevel, Text: []string{"tilt the blade " + expr.Angle(math.Abs(e.Bevel), 0.5), "longer on the " + faceName(v.p, e.LongFace)}})
		}
	}
	return append(out, b.recessNotes()...)
}

func sign(flip bool) float64 {
	if flip {
		return -1
	}
	return 1
}

// recessNotes tell notches and grooves.
func (b *partPage) recessNotes() []dims.Wish {
	v, u := b.view, b.unit()
	var out []dims.Wish
	for _, n := range v.p.Notches {
		across := n.Deep
		if n.Edge == 1 {
			across = v.p.Width - n.Deep
		}
		out = append(out, dims.Callout{At: v.pt(n.Along+n.Long/2, across), Text: []string{"notch " + u.Length(n.Long, expr.Coarse) + " × " + u.Length(n.Deep, expr.Coarse) + " deep"}})
	}
	for _, g := range v.p.Grooves {
		wide := min(g.Box.W(), g.Box.H())
		c := g.Box.Min.Add(g.Box.Max).Mul(0.5)
		out = append(out, dims.Callout{At: v.pt(c.X, c.Y), Dot: true, Text: []string{"groove " + u.Length(wide, expr.Coarse) + " wide, " + u.Length(g.Deep, expr.Coarse) + " deep", "in the " + faceName(v.p, g.Face)}})
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

// letter stands in for a size that differs within a family, if it does.
func (b *partPage) letter(key, text string) string {
	for _, c := range b.view.letters {
		if strings.HasPrefix(c.name, key+"\x00") {
			return c.name[len(key)+1:]
		}
	}
	return text
}
