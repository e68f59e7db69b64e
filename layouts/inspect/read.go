package inspect

import (
	"math"
	"strings"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// A reading is where the reader stands: in which leader, in which clip.
type reading struct {
	leader int
	clip   geom.Box // empty: none
}

func read(items []render.Item) *page {
	p := &page{}
	p.items(items, reading{clip: geom.NoBox()})
	p.index()
	return p
}

// items reads a list of siblings.
func (p *page) items(items []render.Item, in reading) {
	for i := 0; i < len(items); i++ {
		switch item := items[i].(type) {
		case render.Text:
			n := lineLength(items[i:])
			p.block(items[i:i+n], 0)
			i += n - 1
		case render.Stroke:
			if n := signLength(items[i:]); n > 0 {
				p.block(items[i:i+n], 0)
				i += n - 1
				continue
			}
			p.strokes(item.Paths, item.Pen.Width/2, in)
		case render.Fill:
			if dark(item.Tone) {
				// Arrowheads and dots are obstacles to text, not leaders.
				p.strokes(item.Paths, 0, reading{clip: in.clip})
			}
		case render.Group:
			p.group(item, in)
		}
	}
}

func (p *page) group(g render.Group, in reading) {
	if g.Clipped() {
		in.clip = g.Clip
	}
	switch {
	case isText(g):
		p.block(g.Items, 0)
		return
	case g.Name == "tab" || strings.HasPrefix(g.Name, "tab "):
		p.block(g.Items, in.leader)
		return
	case g.Name == "leader" || g.Name == "balloon":
		p.leaders++
		in.leader = p.leaders
	}
	p.items(g.Items, in)
}

// isText reports whether a group is one text: "text", or "text" and more words.
func isText(g render.Group) bool { return g.Name == "text" || strings.HasPrefix(g.Name, "text ") }

// block adds items as one text: the rectangle round them along the first one's
// direction. Own is the leader that may end on it.
func (p *page) block(items []render.Item, own int) {
	angle, ok := direction(items)
	if !ok {
		return
	}
	u := geom.Pt{X: 1}.Turn(angle)
	box := geom.NoBox()
	for _, q := range outlinePoints(items) {
		box = box.With(geom.Pt{X: q.Dot(u), Y: q.Dot(u.Left())})
	}
	if box.Empty() {
		return
	}
	mid := box.Min.Add(box.Max).Mul(0.5)
	b := block{
		Quad: Quad{C: u.Mul(mid.X).Add(u.Left().Mul(mid.Y)), U: u, W: box.W(), H: box.H()},
		says: words(render.Group{Items: items}),
		own:  own,
	}
	b.box = b.Quad.Box()
	p.texts = append(p.texts, b)
}

// direction returns the angle of the first text in items.
func direction(items []render.Item) (float64, bool) {
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if strings.TrimSpace(item.Text) != "" {
				return item.Angle, true
			}
		case render.Group:
			if a, ok := direction(item.Items); ok {
				return a, true
			}
		}
	}
	return 0, false
}

// outlinePoints returns the corners of the texts and the points of the paths
// in items.
func outlinePoints(items []render.Item) []geom.Pt {
	var pts []geom.Pt
	paths := func(ps []render.Path) {
		for _, p := range ps {
			for _, s := range p.Segs {
				pts = append(pts, Chords(s)...)
			}
		}
	}
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if strings.TrimSpace(item.Text) != "" {
				c := TextQuad(item).Corners()
				pts = append(pts, c[:]...)
			}
		case render.Stroke:
			paths(item.Paths)
		case render.Fill:
			paths(item.Paths)
		case render.Group:
			pts = append(pts, outlinePoints(item.Items)...)
		}
	}
	return pts
}

// strokes adds the pieces of paths, as far as the clip shows them.
func (p *page) strokes(paths []render.Path, half float64, in reading) {
	for _, path := range paths {
		for _, s := range path.Segs {
			pts := Chords(s)
			for i := 1; i < len(pts); i++ {
				l := stroke{a: pts[i-1], b: pts[i], half: half, leader: in.leader}
				if !in.clip.Empty() && !clipTo(&l, in.clip) {
					continue
				}
				l.box = geom.NoBox().With(l.a).With(l.b)
				p.lines = append(p.lines, l)
			}
		}
	}
}

// clipTo cuts l to b and reports whether anything is left.
func clipTo(l *stroke, b geom.Box) bool {
	lo, hi := 0.0, 1.0
	d := l.b.Sub(l.a)
	for _, e := range [4][2]float64{
		{-d.X, l.a.X - b.Min.X}, {d.X, b.Max.X - l.a.X}, {-d.Y, l.a.Y - b.Min.Y}, {d.Y, b.Max.Y - l.a.Y},
	} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			lo = max(lo, e[1]/e[0])
		default:
			hi = min(hi, e[1]/e[0])
		}
	}
	l.a, l.b = l.a.Add(d.Mul(lo)), l.a.Add(d.Mul(hi))
	return lo <= hi
}

// dark reports whether a tone is so dark that black letters vanish on it.
func dark(t render.Tone) bool { return int(t.R)+int(t.G)+int(t.B) < 3*90 }

// lineLength returns how many of the items from the first on, a text, are
// pieces of one line: a fraction set as small figures round its stroke, and
// signs drawn in between. Whole words that merely follow are not joined, so
// that one text printed over another is found.
func lineLength(items []render.Item) int {
	n := 1
	for n < len(items) && joined(items[n-1], items[n], items[n:]) {
		n++
	}
	return n
}

// signLength returns how many items from the first on, a stroke, are a drawn
// sign and the line it begins, or 0.
func signLength(items []render.Item) int {
	if len(items) < 2 || !sign(items[0], items[1]) {
		return 0
	}
	return 1 + lineLength(items[1:])
}

const slash = "⁄"

// joined reports whether b goes on in the line of a.
func joined(a, b render.Item, rest []render.Item) bool {
	t, isText := a.(render.Text)
	u, nextText := b.(render.Text)
	switch {
	case isText && nextText:
		if t.Angle != u.Angle {
			return false
		}
		fraction := t.Text == slash || u.Text == slash || len(rest) > 1 && isSlash(rest[1])
		return fraction && follows(t, u) || t.Size == u.Size && abuts(t, u)
	case isText:
		return sign(b, a)
	case nextText:
		return sign(a, b)
	}
	return false
}

func isSlash(item render.Item) bool {
	t, ok := item.(render.Text)
	return ok && t.Text == slash
}

// follows reports whether u starts about where t ends, on or near its line.
func follows(t, u render.Text) bool {
	d := start(u).Sub(start(t)).Turn(-t.Angle)
	em := max(t.Size, u.Size) * fonts.MM
	w := fonts.Width(t.Face, t.Size, t.Text)
	return d.X > w-0.5*em && d.X < w+0.5*em && math.Abs(d.Y) < 0.6*em
}

// abuts reports whether u starts where t ends, on its line.
func abuts(t, u render.Text) bool {
	d := start(u).Sub(start(t)).Turn(-t.Angle)
	w := fonts.Width(t.Face, t.Size, t.Text)
	return math.Abs(d.X-w) < 0.2*t.Size*fonts.MM && math.Abs(d.Y) < 0.01
}

// start returns the start of t's baseline.
func start(t render.Text) geom.Pt {
	w := fonts.Width(t.Face, t.Size, t.Text)
	u := geom.Pt{X: 1}.Turn(t.Angle)
	switch t.Align {
	case render.Middle:
		return t.At.Sub(u.Mul(w / 2))
	case render.Right:
		return t.At.Sub(u.Mul(w))
	}
	return t.At
}

// sign reports whether s is a drawn sign beside the text t: a stroke with
// round ends no bigger than a letter, in the row of the text and touching it
// by no more than a letter's gap.
func sign(s, t render.Item) bool {
	st, isStroke := s.(render.Stroke)
	tx, isText := t.(render.Text)
	if !isStroke || !isText || !st.Pen.Round {
		return false
	}
	em := tx.Size * fonts.MM
	b := geom.NoBox()
	for _, q := range outlinePoints([]render.Item{st}) {
		b = b.With(q.Sub(start(tx)).Turn(-tx.Angle))
	}
	w := fonts.Width(tx.Face, tx.Size, tx.Text)
	return b.W() < em && b.H() < em && b.Min.Y > -0.3*em && b.Max.Y < em &&
		(b.Max.X < 0.2*em && b.Max.X > -0.3*em || b.Min.X > w-0.2*em && b.Min.X < w+0.3*em)
}
