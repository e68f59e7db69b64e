package sheets

import (
	"math"
	"slices"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// sizeStyle is the type of what a tape reads in a picture.
var sizeStyle = lettering.Style{Face: fonts.Sans, Size: render.Measure}

// Sizes of the dimensions in pictures, mm of paper.
const (
	tapeArrow = 3.0 // three times its width
	tapeClear = 1.1 // from the text to any line
	tickLong  = 3.2
	tickApart = 1.3
)

// measures draws the distances a step measures between their points, over the
// picture.
func (n *stepDrawing) measures() {
	var lines []tape
	for _, sh := range n.st.Shows {
		if sh.Kind == model.ShowDistance {
			lines = append(lines, n.tape(sh))
		}
	}
	// Text keeps off the grain as well, and off the lines of every tape.
	ink := strokesOf(n.items)
	for _, t := range lines {
		ink = append(ink, [2]geom.Pt{t.a, t.b})
		n.ink = append(n.ink, render.Lines(t.a, t.b))
		n.loose = append(n.loose, [2]geom.Pt{t.a, t.b})
	}
	for i, t := range lines {
		others := make([][2]geom.Pt, 0, len(ink))
		for k, l := range ink {
			if k != len(ink)-len(lines)+i {
				others = append(others, l)
			}
		}
		if !n.letter(&t, others) {
			n.lost = append(n.lost, "no clear place for the measure "+t.text)
			continue
		}
		n.keep = append(n.keep, t.quad.Box())
		n.setMarks(&t)
		n.items = append(n.items, render.Group{Name: "dim", Items: t.items()})
		for _, p := range t.extra() {
			n.ink = append(n.ink, p)
			for _, seg := range p.Segs {
				ink = append([][2]geom.Pt{{seg.A, seg.B}}, ink...)
			}
		}
	}
}

// A tape is a distance on its way to the page: its line, the marks of what it is
// equal to, and its text.
type tape struct {
	a, b  geom.Pt
	floor []render.Path // the floor under its end
	ticks int
	text  string
	quad  inspect.Quad
	stem  []geom.Pt // from the line to a text that stands away from it
	marks float64   // where the marks are, as a share of the line
}

func (n *stepDrawing) tape(sh model.Show) tape {
	t := tape{a: n.pic.Point(sh.A), b: n.pic.Point(sh.B), text: sh.Text, ticks: sh.Mates}
	if sh.Pieces[1] == model.Floor {
		const reach = 45.0 // of wood
		for _, d := range [...]geom.V3{{X: reach}, {Y: reach}} {
			t.floor = append(t.floor, render.Lines(n.pic.Point(sh.B.Sub(d)), n.pic.Point(sh.B.Add(d))))
		}
	}
	return t
}

// strokesOf are the straight pieces of all lines among items.
func strokesOf(items []render.Item) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, item := range items {
		switch item := item.(type) {
		case render.Group:
			out = append(out, strokesOf(item.Items)...)
		case render.Stroke:
			out = append(out, pathLines(item.Paths)...)
		}
	}
	return out
}

// pathLines are the straight pieces of some paths.
func pathLines(paths []render.Path) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, p := range paths {
		for _, seg := range p.Segs {
			out = append(out, [2]geom.Pt{seg.A, seg.B})
		}
	}
	return out
}

// letter finds a place for the text of a tape: in its line, beside it, or at the
// end of a short stem, near its middle first.
func (n *stepDrawing) letter(t *tape, ink [][2]geom.Pt) bool {
	size := inspect.Bounds(lettering.Line(geom.Pt{}, t.text, sizeStyle, toLeft))
	t.quad = inspect.Quad{U: geom.Pt{X: 1}, W: size.W(), H: size.H()}
	near := inkNear(ink, geom.NoBox().With(t.a).With(t.b).Grow(40))
	for _, at := range [...]float64{0.5, 0.42, 0.58, 0.35, 0.65, 0.28, 0.72, 0.22, 0.78, 0.16, 0.84} {
		t.quad.C = t.a.Add(t.b.Sub(t.a).Mul(at))
		if t.inLine() && n.free(t.quad, near) {
			return true
		}
	}
	out := t.b.Sub(t.a).Unit().Left()
	for far := 2.0; far < 34; far += 1.5 {
		for _, at := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			foot := t.a.Add(t.b.Sub(t.a).Mul(at))
			for _, side := range [2]float64{1, -1} {
				if n.onStem(t, foot, out.Mul(side), far, near) {
					return true
				}
			}
		}
	}
	return false
}

// onStem tries the text at the end of a stem of a length.
func (n *stepDrawing) onStem(t *tape, foot, dir geom.Pt, long float64, ink [][2]geom.Pt) bool {
	end := foot.Add(dir.Mul(long))
	half := geom.Pt{X: math.Copysign(t.quad.W/2+tapeClear, dir.X), Y: math.Copysign(t.quad.H/2+tapeClear, dir.Y)}
	if math.Abs(dir.X) > math.Abs(dir.Y) {
		half.Y = 0
	} else {
		half.X = 0
	}
	t.quad.C = end.Add(half)
	if t.quad.Gap(t.a, t.b) < tapeClear || !n.free(t.quad, ink) {
		return false
	}
	t.stem = nil
	if long > 2.5 {
		t.stem = []geom.Pt{foot, end}
	}
	return true
}

// inLine reports whether the text leaves enough of the line on both sides of it
// for arrows and marks.
func (t *tape) inLine() bool {
	u := t.b.Sub(t.a).Unit()
	half := math.Min(t.quad.W/2/math.Max(math.Abs(u.X), 1e-6), t.quad.H/2/math.Max(math.Abs(u.Y), 1e-6)) + tapeClear
	need := half + tapeArrow + 1.5 + float64(t.ticks)*tickApart
	return t.quad.C.Sub(t.a).Len() > need && t.quad.C.Sub(t.b).Len() > need
}

// inkNear are the lines that come near a box.
func inkNear(ink [][2]geom.Pt, b geom.Box) [][2]geom.Pt {
	var out [][2]geom.Pt
	for _, l := range ink {
		if geom.NoBox().With(l[0]).With(l[1]).Meets(b) {
			out = append(out, l)
		}
	}
	return out
}

// free reports whether a text may stand there.
func (n *stepDrawing) free(q inspect.Quad, ink [][2]geom.Pt) bool {
	box := q.Box()
	if b := box.Grow(0.5); b.Min.X < n.box.Min.X || b.Min.Y < n.box.Min.Y || b.Max.X > n.box.Max.X || b.Max.Y > n.box.Max.Y {
		return false
	}
	for _, k := range n.keep {
		if k.Grow(tapeClear).Meets(box) {
			return false
		}
	}
	near := box.Grow(tapeClear + 0.5)
	for _, l := range ink {
		if geom.NoBox().With(l[0]).With(l[1]).Meets(near) && q.Gap(l[0], l[1]) < tapeClear+0.25 {
			return false
		}
	}
	return true
}

// gap is where the text interrupts the line, as shares of it; ok when it does.
func (t *tape) gap() (from, to float64, ok bool) {
	const steps = 400
	from, to = 1, 0
	big := t.quad
	big.W, big.H = big.W+2*tapeClear+0.4, big.H+2*tapeClear+0.4 // and what the steps may miss
	for i := range steps + 1 {
		s := float64(i) / steps
		if big.Has(t.a.Add(t.b.Sub(t.a).Mul(s))) {
			from, to = min(from, s), max(to, s)
		}
	}
	return from, to, to > from
}

// extra are the lines of a tape besides its own: stem, floor and marks.
func (t *tape) extra() []render.Path {
	out := append([]render.Path{}, t.floor...)
	if t.stem != nil {
		out = append(out, render.Lines(t.stem...))
	}
	return append(out, t.markLines(t.marks)...)
}

// setMarks finds where on the line the marks of equal tapes keep off all texts,
// in the middle of a free stretch if they can.
func (n *stepDrawing) setMarks(t *tape) {
	from, to, cut := t.gap()
	places := []float64{0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6, 0.15, 0.85}
	if cut {
		places = append([]float64{(1 + to) / 2, from / 2}, places...)
	}
	for _, at := range places {
		t.marks = at
		if !slices.ContainsFunc(pathLines(t.markLines(at)), func(l [2]geom.Pt) bool {
			return slices.ContainsFunc(n.keep, func(k geom.Box) bool { return inspect.QuadOf(k).Gap(l[0], l[1]) < tapeClear })
		}) {
			return
		}
	}
}

// markLines are the marks of equal tapes at a place of the line: as many for each
// as its number.
func (t *tape) markLines(share float64) []render.Path {
	u := t.b.Sub(t.a).Unit()
	tilt := u.Turn(math.Pi / 3).Mul(tickLong / 2)
	at := t.a.Add(t.b.Sub(t.a).Mul(share))
	var out []render.Path
	for i := range t.ticks {
		c := at.Add(u.Mul((float64(i) - float64(t.ticks-1)/2) * tickApart))
		out = append(out, render.Lines(c.Sub(tilt), c.Add(tilt)))
	}
	return out
}

// items draws the tape: black and thin, over the picture, its text on paper.
func (t *tape) items() []render.Item {
	u := t.b.Sub(t.a).Unit()
	from, to, cut := t.gap()
	var lines []render.Path
	if cut {
		lines = append(lines, render.Lines(t.a, t.a.Add(t.b.Sub(t.a).Mul(from))), render.Lines(t.a.Add(t.b.Sub(t.a).Mul(to)), t.b))
	} else {
		lines = append(lines, render.Lines(t.a, t.b))
	}
	head := func(tip, dir geom.Pt) render.Path {
		back, w := tip.Sub(dir.Mul(tapeArrow)), dir.Left().Mul(tapeArrow/6)
		return render.Loop(tip, back.Add(w), back.Sub(w))
	}
	base := t.quad.C.Sub(pt(t.quad.W/2, t.quad.H/2))
	size := inspect.Bounds(lettering.Line(geom.Pt{}, t.text, sizeStyle, toLeft))
	return []render.Item{
		render.Fill{Paths: []render.Path{render.Rect(t.quad.Box().Grow(0.6))}, Tone: render.White},
		render.Stroke{Paths: append(lines, t.extra()...), Pen: render.Thin},
		render.Fill{Paths: []render.Path{head(t.a, u.Mul(-1)), head(t.b, u)}},
		render.Group{Name: "text", Items: lettering.Line(base.Sub(size.Min), t.text, sizeStyle, toLeft)},
	}
}
