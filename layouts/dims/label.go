package dims

import (
	"math"
	"strconv"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// Sizes of the mark of a critical dimension, mm.
const (
	boxPad  = 1.1 // from the text to the bold box
	diamond = 2.7 // from the centre of the key's diamond to its corners
	keyCaps = 2.0 // height of the key's figure
)

// A words is a text measured and ready to be placed: one line, or several of a
// callout under each other.
type words struct {
	lines  []string
	style  lettering.Style
	key    int
	also   int  // a second key, under the first
	note   bool // not a size to cut to
	right  bool // lines end together, else they start together
	inner  geom.Size
	lo, hi float64 // of the first line's ink from its baseline
	pitch  float64
}

// style returns how a label's text is set.
func (l Label) style() lettering.Style {
	st := lettering.Style{Face: fonts.Sans, Size: render.Measure}
	if l.Note || l.Quiet {
		st.Size = render.Note
	}
	if l.Quiet {
		st.Tone = render.Gray(0.6)
	}
	return st
}

func (l Label) words() words {
	w := newWords([]string{l.Text}, l.style(), l.Key)
	w.note = l.Note || l.Quiet
	return w
}

func noteWords(lines []string, key int) words {
	w := newWords(lines, lettering.Style{Face: fonts.Sans, Size: render.Note}, key)
	w.note = true
	return w
}

func newWords(lines []string, st lettering.Style, key int) words {
	w := words{lines: lines, style: st, key: key, pitch: lettering.Pitch(st)}
	// Every line is taken as high as one with figures and a fraction, so that
	// rows of dimensions line up; only descenders make it deeper.
	w.hi = lettering.Cap(st) + 0.07*st.Size*fonts.MM
	last := 0.0
	for i, s := range lines {
		b := inspect.Bounds(lettering.Line(geom.Pt{}, s, st, render.Left))
		if b.Empty() {
			continue
		}
		w.inner.W = math.Max(w.inner.W, b.Max.X)
		if i == 0 {
			w.hi = math.Max(w.hi, b.Max.Y)
		}
		last = math.Min(0, b.Min.Y)
	}
	w.lo = last - w.pitch*float64(max(len(lines)-1, 0))
	w.inner.H = w.hi - w.lo
	return w
}

// size returns the whole size, with box and diamond.
func (w *words) size() geom.Size {
	if w.key == 0 {
		return w.inner
	}
	keys := 2 * diamond
	if w.also != 0 {
		keys *= 2
	}
	return geom.Size{
		W: w.inner.W + 2*boxPad + 2*diamond + 0.6 + render.Heavy.Width,
		H: math.Max(w.inner.H+2*boxPad+render.Heavy.Width, keys),
	}
}

// quad returns the place w takes with its centre at c.
func (w *words) quad(c geom.Pt, angle float64) inspect.Quad {
	sz := w.size()
	u := geom.Pt{X: 1}
	if angle != 0 {
		u = u.Turn(angle)
	}
	return inspect.Quad{C: c, U: u, W: sz.W, H: sz.H}
}

// mid returns how far above the first baseline the centre of w is.
func (w *words) mid() float64 { return (w.hi + w.lo) / 2 }

// draw sets w with its centre at c.
func (w words) draw(c geom.Pt, angle float64) render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}.Turn(angle)) }
	sz := w.size()
	left := -sz.W / 2
	var items []render.Item
	if w.key != 0 {
		items = w.mark(at, angle)
		left += 2*diamond + 0.6 + boxPad
	}
	for i, s := range w.lines {
		y := -w.mid() - w.pitch*float64(i)
		x, align := left, render.Left
		if w.right {
			x, align = left+w.inner.W, render.Right
		}
		items = append(items, lettering.Turned(at(x, y), s, w.style, align, angle)...)
	}
	name := "text"
	if w.note {
		name = "text note"
	}
	return render.Group{Name: name, Items: items}
}

// mark draws the bold box and the diamond with the key of a critical dimension.
func (w words) mark(at func(x, y float64) geom.Pt, angle float64) []render.Item {
	sz := w.size()
	x0, x1, y := -sz.W/2+diamond, (sz.W-render.Heavy.Width)/2, w.inner.H/2+boxPad
	box := render.Loop(at(x0, -y), at(x1, -y), at(x1, y), at(x0, y))
	items := []render.Item{render.Stroke{Paths: []render.Path{box}, Pen: render.Heavy}}
	up := 0.0
	if w.also != 0 {
		up = diamond
		items = append(items, keyMark(func(x, y float64) geom.Pt { return at(x0+x, y-up) }, w.also, angle)...)
	}
	return append(items, keyMark(func(x, y float64) geom.Pt { return at(x0+x, y+up) }, w.key, angle)...)
}

// KeyReach is half the diagonal of the diamond of a critical dimension, mm.
const KeyReach = diamond

// Key draws the diamond with the number of a critical dimension, its middle at
// c, to stand before the line that tells what hangs on it.
func Key(c geom.Pt, number int) []render.Item {
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x, Y: y}) }
	return []render.Item{render.Group{Name: "text", Items: keyMark(at, number, 0)}}
}

// keyMark is the diamond with its number; at places points from its middle.
func keyMark(at func(x, y float64) geom.Pt, number int, angle float64) []render.Item {
	d := render.Loop(at(-diamond, 0), at(0, -diamond), at(diamond, 0), at(0, diamond))
	st := lettering.Style{Face: fonts.CondBold, Tone: render.White}
	st.Size = keyCaps / fonts.CapHeight(st.Face, 1)
	items := []render.Item{render.Fill{Paths: []render.Path{d}}}
	return append(items, lettering.Turned(at(0, -keyCaps/2), strconv.Itoa(number), st, render.Middle, angle)...)
}

// thin draws paths with the pen of dimensions, leaders and extension lines.
func thin(paths ...render.Path) render.Item {
	return render.Stroke{Paths: paths, Pen: render.Thin}
}

// arrow returns a filled arrowhead with its tip at tip, pointing along dir.
func arrow(tip, dir geom.Pt) render.Path {
	u := dir.Unit()
	back := tip.Sub(u.Mul(arrowLen))
	w := u.Left().Mul(arrowLen / 6)
	return render.Loop(tip, back.Add(w), back.Sub(w))
}

// black fills paths with ink.
func black(paths ...render.Path) render.Item { return render.Fill{Paths: paths} }

// addArrow puts the outline of an arrowhead into o, so that text keeps off it.
func (o *option) addArrow(k kind, tip, dir geom.Pt) {
	u := dir.Unit()
	back := tip.Sub(u.Mul(arrowLen))
	o.lines = append(o.lines, newLine(tip, back, k, arrowLen/6))
}

// A frame is the two directions of a dimension: u along its line, v away from
// the drawing.
type frame struct{ u, v geom.Pt }

var frames = [4]frame{
	Below:   {geom.Pt{X: 1}, geom.Pt{Y: -1}},
	Above:   {geom.Pt{X: 1}, geom.Pt{Y: 1}},
	LeftOf:  {geom.Pt{Y: 1}, geom.Pt{X: -1}},
	RightOf: {geom.Pt{Y: 1}, geom.Pt{X: 1}},
}

// at returns the point s along and d out.
func (f frame) at(s, d float64) geom.Pt { return f.u.Mul(s).Add(f.v.Mul(d)) }

// of returns how far along and out p is.
func (f frame) of(p geom.Pt) (s, d float64) { return p.Dot(f.u), p.Dot(f.v) }

// edge returns how far out b reaches.
func (f frame) edge(b geom.Box) float64 {
	d := b.Min.Dot(f.v)
	for _, p := range [3]geom.Pt{b.Max, {X: b.Min.X, Y: b.Max.Y}, {X: b.Max.X, Y: b.Min.Y}} {
		d = max(d, p.Dot(f.v))
	}
	return d
}

// above returns the way from a line to the text on it: up, or left of a line
// that is read from the right.
func (f frame) above() geom.Pt { return f.u.Left() }
