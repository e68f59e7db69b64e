package dims

import (
	"math"

	"planset/layouts/inspect"
	"planset/model/geom"
)

// A kind says what a line is, which decides what it may cross.
type kind int8

const (
	ink kind = iota
	dimLine
	extLine
	leader
	thread // leader of a balloon: in a picture it can not help crossing edges
	mark
	kinds
)

// never is the price of a thing that is not done.
const never = 1e9

// crossing is the price of a line of one kind crossing one of another, in mm
// of leader saved. Text is not in it: nothing crosses text.
var crossing = [kinds][kinds]float64{
	ink:     {0, 25, 3, 5, 0.6, 1},
	dimLine: {25, 25, 2, 15, 15, never},
	extLine: {3, 2, 1, 12, 12, never},
	leader:  {5, 15, 12, never, never, never},
	thread:  {0.6, 15, 12, never, never, never},
	mark:    {1, never, never, never, never, never},
}

// A line is a straight piece of something drawn; half is half its pen.
type line struct {
	a, b geom.Pt
	kind kind
	half float64
	box  geom.Box
}

func newLine(a, b geom.Pt, k kind, half float64) line {
	l := line{a: a, b: b, kind: k, half: half, box: geom.Box{Min: a, Max: b}}
	if a.X > b.X {
		l.box.Min.X, l.box.Max.X = b.X, a.X
	}
	if a.Y > b.Y {
		l.box.Min.Y, l.box.Max.Y = b.Y, a.Y
	}
	return l
}

// alone returns what o costs with nothing but the drawing round it. From limit
// on it stops counting.
func (s *scene) alone(o *option, limit float64) float64 {
	if !within(o.box, s.field.Box) {
		return never
	}
	for i, t := range o.texts {
		for _, l := range o.lines {
			if l.kind != thread && tooClose(t, l) {
				return never
			}
		}
		for _, u := range o.texts[i+1:] {
			if t.Apart(u) < clear {
				return never
			}
		}
	}
	return o.base + s.againstInk(o, limit-o.base)
}

func within(b, outer geom.Box) bool {
	const eps = 1e-6
	return b.Empty() || outer.Grow(eps).Has(b.Min) && outer.Grow(eps).Has(b.Max)
}

// againstInk prices o against the drawing and the boxes to keep. From limit on
// it stops counting.
func (s *scene) againstInk(o *option, limit float64) float64 {
	sum := 0.0
	for _, t := range o.texts {
		for _, k := range s.kept {
			if k.near.Meets(t.Box()) && t.Apart(k.quad) < clear {
				return never
			}
		}
		hit := false
		s.ink.near(t.Box().Grow(clear+1), func(l *line) bool {
			hit = tooClose(t, *l)
			return hit
		})
		if hit {
			return never
		}
	}
	for _, l := range o.lines {
		for _, k := range s.kept {
			if k.near.Meets(l.box) && k.quad.Gap(l.a, l.b) < clear+l.half {
				return never
			}
		}
		s.ink.along(l, 1, func(m *line) bool {
			sum += meet(&l, m)
			return sum >= limit
		})
		if sum >= limit {
			return sum
		}
	}
	return sum
}

// tooClose reports whether l comes nearer to text than the house allows.
func tooClose(t inspect.Quad, l line) bool {
	return t.Box().Grow(clear+l.half).Meets(l.box) && t.Gap(l.a, l.b) < clear+l.half-1e-6
}

// between prices o against p.
func between(o, p *option) float64 {
	sum := 0.0
	for _, t := range o.texts {
		for _, u := range p.texts {
			if t.Box().Grow(clear).Meets(u.Box()) && t.Apart(u) < clear {
				return never
			}
		}
		for _, l := range p.lines {
			if tooClose(t, l) {
				return never
			}
		}
	}
	for _, l := range p.lines {
		if sum += crossingsOf(o, l); sum >= never {
			return sum
		}
	}
	for _, u := range p.texts {
		for _, l := range o.lines {
			if tooClose(u, l) {
				return never
			}
		}
	}
	return sum
}

// linesOn prices o against one line: text may not touch it.
func linesOn(o *option, l line) float64 {
	for _, t := range o.texts {
		if tooClose(t, l) {
			return never
		}
	}
	return crossingsOf(o, l)
}

func crossingsOf(o *option, l line) float64 {
	sum := 0.0
	box := l.box.Grow(0.6)
	for i := range o.lines {
		if m := &o.lines[i]; box.Meets(m.box) {
			sum += meet(m, &l)
		}
	}
	return sum
}

// meet prices two lines that may cross, or run so close that they read as one.
func meet(l, m *line) float64 {
	if inspect.Cross(l.a, l.b, m.a, m.b) {
		return crossing[l.kind][m.kind]
	}
	if l.kind == extLine && m.kind == extLine {
		return 0 // two dimensions may share an extension line
	}
	return beside(l, m)
}

// beside prices two lines that run along each other nearer than half a
// millimetre for more than a millimetre.
func beside(l, m *line) float64 {
	const near = 0.5
	d := l.b.Sub(l.a)
	p, q := m.a.Sub(l.a), m.b.Sub(l.a)
	// Most lines run far apart, which is seen without a root; the margin is
	// wider than rounding.
	far := near * near * 1.001 * d.Dot(d)
	if c := d.Cross(p); c*c > far {
		return 0
	}
	if c := d.Cross(q); c*c > far {
		return 0
	}
	length := d.Len()
	if length < 1 || m.b.Sub(m.a).Len() < 1 {
		return 0
	}
	u := d.Mul(1 / length)
	if math.Abs(u.Cross(p)) > near || math.Abs(u.Cross(q)) > near {
		return 0
	}
	lo, hi := math.Min(u.Dot(p), u.Dot(q)), math.Max(u.Dot(p), u.Dot(q))
	if math.Min(hi, length)-math.Max(lo, 0) < 1 {
		return 0
	}
	if crossing[l.kind][m.kind] >= never || l.kind == dimLine && m.kind == dimLine {
		return never
	}
	return 30
}
