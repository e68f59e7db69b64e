package dims

import (
	"math"
	"slices"

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
	t.options = func(sc *scene) offer { return s.options(sc, p.Side) }
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
func (s setSpan) options(sc *scene, side Side) offer {
	_, da := s.of(s.a)
	_, db := s.of(s.b)
	edge := math.Max(da, db)
	if side != Along {
		edge = math.Max(edge, s.edge(sc.field.Body))
	}
	room := s.edge(sc.field.Box)
	least, most := s.limits(sc)
	ways := s.ways()
	var list []choice
	for k := 0; k < lanes && edge+first+float64(k)*pitch < room; k++ {
		d := edge + first + float64(k)*pitch
		if d < least-1e-6 || d > most+1e-6 {
			continue
		}
		list = slices.Grow(list, len(ways))
		for i := range ways {
			list = append(list, choice{base: s.base(&ways[i], d, float64(k)*pitch*0.7), which: i, far: d})
		}
	}
	return offer{list, func(c *choice) option {
		at := s
		at.put(&ways[c.which], c.far)
		o := at.option()
		o.base = c.base
		return o
	}}
}

// base is the price of a way before anything is crossed, with the line at d.
func (s *setSpan) base(w *spanWay, d, price float64) float64 {
	c, _ := s.middle(w, d)
	mid := s.at((s.sa+s.sb)/2, d)
	price += 0.2 * math.Abs(c.Sub(mid).Dot(s.u))
	if w.far > 0 {
		price += 15
	}
	return price
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

// A spanWay is where the text of a span stands, whatever the distance of its line.
type spanWay struct {
	along     float64    // of its middle on the line
	tail      [2]float64 // how far the line runs on past a and past b
	lean, far float64    // or on a leader: sideways for each step out, and how far out
}

// ways offers the places of the text at one distance: on the line, beside it,
// on a short leader. It finds out first on which side the arrows are.
func (s *setSpan) ways() []spanWay {
	sz := s.words.size()
	long := s.sb - s.sa
	s.inside = long >= 2*arrowLen+1.5
	var tail [2]float64
	if !s.inside {
		tail = [2]float64{2 * arrowLen, 2 * arrowLen}
	}
	ways := make([]spanWay, 0, 29)
	mid := (s.sa + s.sb) / 2
	if spare := (long-sz.W)/2 - clear - pen; spare >= 0 {
		for _, share := range [...]float64{0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6, 0.8, -0.8, 1, -1} {
			ways = append(ways, spanWay{along: mid + share*spare, tail: tail})
		}
	}
	beyond := sz.W/2 + clear + pen
	for i, at := range [2]float64{s.sa - beyond, s.sb + beyond} {
		w := spanWay{along: at, tail: tail}
		w.tail[i] = math.Max(w.tail[i], sz.W+2*clear)
		ways = append(ways, w)
	}
	for _, lean := range [...]float64{0.5, -0.5, 0.9, -0.9} {
		for _, far := range [...]float64{5, 8, 12, 17} {
			ways = append(ways, spanWay{tail: tail, lean: lean, far: far})
		}
	}
	return ways
}

// middle returns the middle of the text with the line at d, and the leader to it
// where it stands on one.
func (s *setSpan) middle(w *spanWay, d float64) (c geom.Pt, stem [3]geom.Pt) {
	sz := s.words.size()
	if w.far == 0 {
		lift := clear + pen + sz.H/2
		if half := sz.W / 2; !s.inside || w.along-half < s.sa+arrowLen+clear || w.along+half > s.sb-arrowLen-clear {
			lift += arrowLen / 6 // keeps off the arrowheads too
		}
		return s.at(w.along, d).Add(s.above().Mul(lift)), stem
	}
	mid := (s.sa + s.sb) / 2
	foot, knee := s.at(mid, d), s.at(mid+w.lean*w.far, d+w.far)
	dir := 1.0
	if knee.X < foot.X {
		dir = -1
	}
	shelf := knee.Add(geom.Pt{X: dir * 2})
	return shelf.Add(geom.Pt{X: dir * (clear + pen + sz.W/2)}), [3]geom.Pt{foot, knee, shelf}
}

// put sets the span with its line at d and its text as w says. Text on a leader
// is upright.
func (s *setSpan) put(w *spanWay, d float64) {
	s.d, s.tail = d, w.tail
	c, stem := s.middle(w, d)
	if w.far > 0 {
		s.stem, s.angle = stem[:], 0
	}
	s.quad = s.words.quad(c, s.angle)
}

// option is the span as it stands.
func (s *setSpan) option() option {
	o := option{texts: []inspect.Quad{s.quad}, lines: make([]line, 0, 7)}
	ea, eb, l := s.ext(s.a, s.sa), s.ext(s.b, s.sb), s.line()
	o.add(extLine, ea[:]...)
	o.add(extLine, eb[:]...)
	o.add(dimLine, l[:]...)
	for i, tip := range [2]geom.Pt{s.at(s.sa, s.d), s.at(s.sb, s.d)} {
		o.addArrow(dimLine, tip, s.arrowDir(i))
	}
	if s.stem != nil {
		o.add(leader, s.stem...)
	}
	o.span = &laid{frame: s.frame, lo: s.sa, hi: s.sb, d: s.d}
	o.draw, o.move = s.items, s.moved
	return o
}

// ext returns the extension line of p.
func (s *setSpan) ext(p geom.Pt, along float64) [2]geom.Pt {
	return [2]geom.Pt{p.Add(s.v.Mul(gap)), s.at(along, s.d+overshoot)}
}

func (s *setSpan) line() [2]geom.Pt {
	return [2]geom.Pt{s.at(s.sa-s.tail[0], s.d), s.at(s.sb+s.tail[1], s.d)}
}

func (s *setSpan) arrowDir(i int) geom.Pt {
	if (i == 0) == s.inside {
		return s.u.Mul(-1)
	}
	return s.u
}

func (s *setSpan) items() []render.Item {
	ea, eb, l := s.ext(s.a, s.sa), s.ext(s.b, s.sb), s.line()
	lines := []render.Path{render.Lines(ea[:]...), render.Lines(eb[:]...), render.Lines(l[:]...)}
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
