package sheets

import (
	"fmt"

	"planset/layouts/lettering"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// Measures of a board layout, mm on paper.
const (
	flagPitch = 5.6 // between rows of labels
	labelTab  = 4.6 // of a tab under the bar, and the most in it
	leastTab  = 4.0 // the least in the bar
	clearOf   = 2.0 // what a label in the bar keeps free above and below it together
	boardGap  = 5.5
	// leastGap is how wide a saw cut is drawn at least, so that it is seen.
	leastGap = 0.6
)

// boards draws every board to scale with its cuts in the order of the work.
func boards(d *desk, s sheet) {
	c := d.in.Cuts
	if c == nil || len(c.Boards) == 0 {
		return
	}
	for _, left := range c.Left {
		d.problem("no board takes %d of part %s", left.Count, left.Piece.Code)
	}
	l := d.leaf(s, s.title, "Where every part comes from. Saw in the order of the small numbers.")
	k := barScale(d)
	l.state = scaleWords(k)
	l.para(0, bodyW, boardWords(d, k), plain)
	l.skip(6)
	rest := offcutsOf(c)
	for i, b := range c.Boards {
		draw := d.bar(i+1, b, k, rest)
		l = l.need(draw.height)
		l.state = scaleWords(k)
		l.add(draw.at(geom.Pt{X: l.left(), Y: l.y})...)
		l.skip(draw.height + boardGap)
	}
	l.boardSums()
}

// barScale is the largest standard scale at which the longest board fits.
func barScale(d *desk) float64 {
	long := 0.0
	for _, b := range d.in.Cuts.Boards {
		long = max(long, b.Length)
	}
	scales := []float64{4, 8, 12, 16, 24, 32, 48}
	if d.plan.Unit == expr.MM {
		scales = []float64{5, 10, 20, 25, 30, 40, 50}
	}
	for _, k := range scales {
		if long/k <= bodyW {
			return k
		}
	}
	return long / bodyW
}

// scaleWords goes into the foot of a page drawn to scale.
func scaleWords(k float64) string { return fmt.Sprintf("Drawn 1:%.0f", k) }

// boardWords says how to read the layouts and what saw they count on.
func boardWords(d *desk, k float64) string {
	c := d.in.Cuts
	u := d.plan.Unit
	return fmt.Sprintf("Scale 1:%.0f, lengths and widths alike; gaps between parts are the saw cut, drawn wider than it is. "+
		"The layouts count on a kerf of %s and %s off each end (hatched). "+
		"Crosscut first, then rip. Dark wood is waste; keep an offcut with a name.",
		k, u.LongTo(c.Rules.Kerf, expr.Fine), u.LongTo(c.Rules.EndTrim, expr.Coarse))
}

// percent writes a share; a trace is not nothing.
func percent(x float64) string {
	if x > 0 && x < 0.005 {
		return "less than 1\u00a0%"
	}
	return fmt.Sprintf("%.0f\u00a0%%", 100*x)
}

// A drawnBoard is one layout with its upper left corner at the origin.
type drawnBoard struct {
	items  []render.Item
	height float64
}

// at returns the items Moved to a place.
func (b drawnBoard) at(p geom.Pt) []render.Item { return Moved(b.items, p) }

// bar draws board number n: its name, the order of the cuts over it, the bar
// itself, and the labels of parts too small to carry theirs.
func (d *desk) bar(n int, b cutting.Board, k float64, names offcutNames) drawnBoard {
	w := &barWriter{d: d, n: n - 1, b: b, k: k, names: names}
	w.head(n)
	over := w.numbers()
	w.top = -8 - over - 2
	w.bottom = w.top - b.Width/k
	w.placeNumbers()
	w.wood()
	under := w.labels()
	return drawnBoard{w.items, -w.bottom + under}
}

// A barWriter draws one board; y runs down from 0 at its head line.
type barWriter struct {
	d           *desk
	n           int // of the board, from 0
	b           cutting.Board
	k           float64
	names       offcutNames
	top, bottom float64
	items       []render.Item
	over, under flags
}

func (w *barWriter) add(items ...render.Item) { w.items = append(w.items, items...) }

// head names the board: number, what was bought, how much of it is lost.
func (w *barWriter) head(n int) {
	u := w.d.plan.Unit
	name := w.b.Stock
	if st := stockOf(w.d.plan, w.b.Stock); st != nil {
		name = st.Name
	}
	title := fmt.Sprintf("Board %d", n)
	y := -lettering.Cap(caption)
	w.add(lettering.Line(geom.Pt{Y: y}, title, caption, toLeft)...)
	what := name + ", " + u.BoardLength(w.b.Length) + "; actual " + u.Length(w.b.Thick, expr.Fine) + " × " + u.Length(w.b.Width, expr.Fine)
	if w.b.OnHand {
		what += "; on hand"
		if w.b.Name != "" {
			what += ": " + w.b.Name
		}
	}
	w.add(lettering.Line(geom.Pt{X: lettering.Width(title, caption) + 4, Y: y}, what, plain, toLeft)...)
	w.add(lettering.Line(geom.Pt{X: bodyW, Y: y}, "waste "+percent(w.b.Waste), soft, toRight)...)
}

// box is a rectangle of the board on paper.
func (w *barWriter) box(along, across, length, width float64) geom.Box {
	return geom.Box{
		Min: geom.Pt{X: along / w.k, Y: w.bottom + across/w.k},
		Max: geom.Pt{X: (along + length) / w.k, Y: w.bottom + (across+width)/w.k},
	}
}

// wood draws the bar: waste dark, end trim hatched, parts and offcuts white.
func (w *barWriter) wood() {
	whole := w.box(0, 0, w.b.Length, w.b.Width)
	w.add(render.Fill{Paths: []render.Path{render.Rect(whole)}, Tone: render.Gray(0.25)})
	for _, x := range []float64{0, w.b.Length - w.b.Trim} {
		w.add(hatched(w.box(x, 0, w.b.Trim, w.b.Width))...)
	}
	for _, bad := range w.b.Bad {
		w.add(hatched(w.box(bad.From, 0, bad.To-bad.From, w.b.Width))...)
	}
	inset := max(0, leastGap-w.d.in.Cuts.Rules.Kerf/w.k) / 2
	for _, p := range w.b.Pieces {
		shape := render.Rect(w.box(p.Along, p.Across, p.Length, p.Width).Grow(-inset))
		if p.Pair > 0 {
			shape = w.taperedPiece(p)
		}
		w.add(render.Fill{Paths: []render.Path{shape}, Tone: render.Paper}, render.Stroke{Paths: []render.Path{shape}, Pen: render.Thin})
	}
	for _, r := range w.b.Rests {
		w.add(render.Stroke{Paths: []render.Path{render.Rect(w.box(r.Along, 0, r.Length, r.Width).Grow(-inset))}, Pen: render.Hidden})
	}
	for _, o := range w.b.Offcuts {
		if o.Keep {
			b := render.Rect(w.box(o.Along, o.Across, o.Length, o.Width).Grow(-inset))
			w.add(render.Fill{Paths: []render.Path{b}, Tone: render.Paper}, render.Stroke{Paths: []render.Path{b}, Pen: render.Hidden})
		}
	}
	w.add(render.Stroke{Paths: []render.Path{render.Rect(whole)}, Pen: render.Outline})
}

// hatched is a box with slanted lines 1.2 mm apart.
func hatched(b geom.Box) []render.Item {
	s := render.Stroke{Pen: render.Hairline}
	for x := b.Min.X - b.H(); x < b.Max.X; x += 1.2 {
		p, q := geom.Pt{X: x, Y: b.Min.Y}, geom.Pt{X: x + b.H(), Y: b.Max.Y}
		if p.X < b.Min.X {
			p = geom.Pt{X: b.Min.X, Y: b.Min.Y + b.Min.X - x}
		}
		if q.X > b.Max.X {
			q = geom.Pt{X: b.Max.X, Y: b.Min.Y + b.Max.X - x}
		}
		s.Paths = append(s.Paths, render.Lines(p, q))
	}
	return []render.Item{render.Fill{Paths: []render.Path{render.Rect(b)}, Tone: render.Paper}, s}
}
