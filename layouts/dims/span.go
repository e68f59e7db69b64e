package dims

import (
	"math"

	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

// laid says where a span is, so that longer ones stay outside shorter ones.
type laid struct {
	frame
	lo, hi, d float64
}

// A setSpan is a span with a place for its line and text.
type setSpan struct {
	frame
	a, b   geom.Pt // measured points, a first along u
	sa, sb float64
	d      float64
	words  words
	inside bool       // arrows between the extension lines
	tail   [2]float64 // how far the line runs on past a and past b
	quad   inspect.Quad
	angle  float64
	stem   []geom.Pt // leader to text that stands away from the line
}

func (p Span) frame() frame {
	if p.Side != Along {
		if p.Side < Below || p.Side > Along {
			return frames[Below]
		}
		return frames[p.Side]
	}
	u := p.B.Sub(p.A).Unit()
	f := frame{u: u, v: u.Left().Mul(-1)}
	// Text is read from below or from the right.
	if a := math.Atan2(u.Y, u.X); a <= -math.Pi/2+1e-9 || a > math.Pi/2+1e-9 {
		f.u = u.Mul(-1)
	}
	return f
}

func (p Span) tasks(f *Field) []task {
	fr := p.frame()
	s := setSpan{frame: fr, a: p.A, b: p.B, words: p.words()}
	s.sa, _ = fr.of(p.A)
	s.sb, _ = fr.of(p.B)
	if s.sb < s.sa {
		s.a, s.b, s.sa, s.sb = s.b, s.a, s.sb, s.sa
	}
	s.angle = math.Atan2(fr.u.Y, fr.u.X)
	t := task{name: "the dimension " + p.Text + " " + sideName(p.Side), group: "dim", rank: rankSpan, order: s.sb - s.sa, shifts: true}
	t.options = func(sc *scene) []option { return s.options(sc, p.Side) }
	// Wherever the line goes, text of shorter spans keeps off these.
	_, da := fr.of(s.a)
	_, db := fr.of(s.b)
	far := math.Max(da, db) + 60
	if p.Side != Along {
		far = fr.edge(f.Body) + 60
	}
	t.reserve = []line{
		newLine(s.a.Add(fr.v.Mul(gap)), fr.at(s.sa, far), extLine, pen/2),
		newLine(s.b.Add(fr.v.Mul(gap)), fr.at(s.sb, far), extLine, pen/2),
	}
	return []task{t}
}

// options offers every line outward, with the text in every place on it.
func (s setSpan) options(sc *scene, side Side) []option {
	_, da := s.of(s.a)
	_, db := s.of(s.b)
	edge := math.Max(da, db)
	if side != Along {
		edge = math.Max(edge, s.edge(sc.field.Body))
	}
	room := s.edge(sc.field.Box)
	least, most := s.limits(sc)
	var opts []option
	for k := 0; k < lanes && edge+first+float64(k)*pitch < room; k++ {
		s.d = edge + first + float64(k)*pitch
		if s.d < least-1e-6 || s.d > most+1e-6 {
			continue
		}
		for _, way := range s.ways() {
			opts = append(opts, way.option(float64(k)*pitch*0.7))
		}
	}
	return opts
}

// limits returns how far out s must and may be to lie outside every shorter
// span it overlaps on its side, and inside every longer one.
func (s setSpan) limits(sc *scene) (least, most float64) {
	least, most = math.Inf(-1), math.Inf(1)
	for _, t := range sc.placed {
		l := t.chosen.span
		if l == nil || l.v != s.v || l.lo > s.sb-1e-6 || s.sa > l.hi-1e-6 {
			continue
		}
		if l.hi-l.lo > s.sb-s.sa+1e-6 {
			most = math.Min(most, l.d-pitch)
		} else {
			least = math.Max(least, l.d+pitch)
		}
	}
	return least, most
}

// ways offers the places of the text at one distance: on the line, beside it,
// on a short leader.
func (s setSpan) ways() []setSpan {
	sz := s.words.size()
	long := s.sb - s.sa
	s.inside = long >= 2*arrowLen+1.5
	if !s.inside {
		s.tail = [2]float64{2 * arrowLen, 2 * arrowLen}
	}
	var ways []setSpan
	mid := (s.sa + s.sb) / 2
	if spare := (long-sz.W)/2 - clear - pen; spare >= 0 {
		for _, share := range [...]float64{0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6, 0.8, -0.8, 1, -1} {
			ways = append(ways, s.withText(mid+share*spare))
		}
	}
	beyond := sz.W/2 + clear + pen
	for i, at := range [2]float64{s.sa - beyond, s.sb + beyond} {
		w := s.withText(at)
		w.inside = s.inside
		w.tail[i] = math.Max(w.tail[i], sz.W+2*clear)
		ways = append(ways, w)
	}
	for _, lean := range [...]float64{0.5, -0.5, 0.9, -0.9} {
		for _, far := range [...]float64{5, 8, 12, 17} {
			ways = append(ways, s.onStem(lean, far))
		}
	}
	return ways
}

func (s setSpan) withText(at float64) setSpan {
	lift := clear + pen + s.words.size().H/2
	if w := s.words.size().W / 2; !s.inside || at-w < s.sa+arrowLen+clear || at+w > s.sb-arrowLen-clear {
		lift += arrowLen / 6 // keeps off the arrowheads too
	}
	s.quad = s.words.quad(s.at(at, s.d).Add(s.above().Mul(lift)), s.angle)
	return s
}

// onStem puts the text upright at the end of a leader from the middle of the
// line, leaning lean to the side for each step out, far mm out.
func (s setSpan) onStem(lean, far float64) setSpan {
	mid := (s.sa + s.sb) / 2
	foot, knee := s.at(mid, s.d), s.at(mid+lean*far, s.d+far)
	sz := s.words.size()
	dir := 1.0
	if knee.X < foot.X {
		dir = -1
	}
	shelf := knee.Add(geom.Pt{X: dir * 2})
	s.stem = []geom.Pt{foot, knee, shelf}
	s.quad = s.words.quad(shelf.Add(geom.Pt{X: dir * (clear + pen + sz.W/2)}), 0)
	s.angle = 0
	return s
}

func (s setSpan) option(base float64) option {
	o := option{base: base, texts: []inspect.Quad{s.quad}}
	mid := s.at((s.sa+s.sb)/2, s.d)
	o.base += 0.2 * math.Abs(s.quad.C.Sub(mid).Dot(s.u))
	o.add(extLine, s.ext(s.a, s.sa)...)
	o.add(extLine, s.ext(s.b, s.sb)...)
	o.add(dimLine, s.line()...)
	for i, tip := range [2]geom.Pt{s.at(s.sa, s.d), s.at(s.sb, s.d)} {
		o.addArrow(dimLine, tip, s.arrowDir(i))
	}
	if s.stem != nil {
		o.base += 15
		o.add(leader, s.stem...)
	}
	o.span = &laid{frame: s.frame, lo: s.sa, hi: s.sb, d: s.d}
	o.draw, o.move = s.items, s.moved
	return o
}

// ext returns the extension line of p.
func (s setSpan) ext(p geom.Pt, along float64) []geom.Pt {
	return []geom.Pt{p.Add(s.v.Mul(gap)), s.at(along, s.d+overshoot)}
}

func (s setSpan) line() []geom.Pt {
	return []geom.Pt{s.at(s.sa-s.tail[0], s.d), s.at(s.sb+s.tail[1], s.d)}
}

func (s setSpan) arrowDir(i int) geom.Pt {
	if (i == 0) == s.inside {
		return s.u.Mul(-1)
	}
	return s.u
}

func (s setSpan) items() []render.Item {
	lines := []render.Path{
		render.Lines(s.ext(s.a, s.sa)...), render.Lines(s.ext(s.b, s.sb)...), render.Lines(s.line()...),
	}
	return append([]render.Item{
		thin(lines...),
		black(arrow(s.at(s.sa, s.d), s.arrowDir(0)), arrow(s.at(s.sb, s.d), s.arrowDir(1))),
		s.words.draw(s.quad.C, s.angle),
	}, stemItems(s.stem)...)
}

// stemItems draws the leader from a dimension to text that stands away from it.
func stemItems(stem []geom.Pt) []render.Item {
	if stem == nil {
		return nil
	}
	return []render.Item{render.Group{Name: "leader", Items: []render.Item{thin(render.Lines(stem...))}}}
}
