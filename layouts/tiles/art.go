package tiles

import (
	"math"
	"slices"

	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// holes draws what falls into the window of each hole: a cross for the eye, a
// 3 mm circle for the awl, the true size thin. A match-drilled hole has no
// centre to prick, so that nobody lays it out.
func (s *sheet) holes() {
	for _, h := range s.l.Holes {
		if h.Matched && !s.tile.Window.Has(h.At) {
			continue // a scrap of its rim tells nobody anything
		}
		var rim []geom.Seg
		for _, g := range clip(geom.Circle(h.At, h.Diam/2), s.tile.Window) {
			g = s.seg(g)
			rim = append(rim, g)
			s.desk.BlockLine(g, 0.8)
		}
		seen := s.tile.Window.Grow(-holeRing).Has(h.At)
		at := s.to(h.At)
		switch {
		case h.Matched && len(rim) > 0:
			pen := render.Pen{Width: 0.18, Dash: []float64{1, 0.7}}
			s.add("matched hole", render.Stroke{Paths: strung(rim), Pen: pen})
			if seen {
				s.desk.Block(geom.Box{Min: at, Max: at}.Grow(h.Diam/2 + 0.8))
			}
		case seen:
			s.add("hole", prick(at, h.Diam/2, rim)...)
			s.desk.Block(geom.Box{Min: at, Max: at}.Grow(math.Max(h.Diam/2, holeRing) + 3.3))
		case len(rim) > 0:
			s.add("hole", render.Stroke{Paths: strung(rim), Pen: render.Pen{Width: 0.25}})
		}
	}
}

// prick draws a hole to be laid out: rim, circle for the awl, cross. A hole of
// almost 3 mm is its own circle for the awl.
func prick(at geom.Pt, r float64, rim []geom.Seg) []render.Item {
	paths := strung(rim)
	if math.Abs(r-holeRing) > 0.3 {
		paths = append(paths, render.Circle(at, holeRing))
	}
	arm := math.Max(r, holeRing) + 2.5
	hair := hand{at: at}
	return []render.Item{
		render.Stroke{Paths: paths, Pen: render.Pen{Width: 0.25}},
		render.Stroke{Paths: []render.Path{hair.line(-arm, 0, arm, 0), hair.line(0, -arm, 0, arm)}, Pen: render.Hairline},
	}
}

// A datum is the visible piece of an edge everything is measured from.
type datum struct {
	seg   geom.Seg // on the page
	words string
	in    geom.Pt // unit, from the edge into the wood
}

// datums draws the datum edges bold, with a filled triangle against each.
func (s *sheet) datums() {
	for _, d := range s.datumEdges() {
		mid := s.quiet(d.seg, 4)
		tip := hand{at: mid.Add(d.in.Mul(0.35)), angle: math.Atan2(d.in.Y, d.in.X)}
		s.add("datum",
			render.Stroke{Paths: []render.Path{{Segs: []geom.Seg{d.seg}}}, Pen: render.Heavy},
			pointer(tip, 4, render.Tone{}))
		s.desk.Block(geom.NoBox().With(mid).With(tip.pt(4, 0)).Grow(1.8))
	}
}

// quiet returns the place nearest the middle of an edge where a sign of the
// given size touches no mark of another kind.
func (s *sheet) quiet(g geom.Seg, size float64) geom.Pt {
	n := int(g.Length() / 4)
	for i := range n {
		t := 0.5 + float64((i+1)/2)*float64(1-i%2*2)*4/g.Length()
		p := g.At(t)
		if t < 0.04 || t > 0.96 {
			break
		}
		free := true
		s.joined(func(j Joint, _ bool) {
			for _, m := range j.Marks {
				free = free && s.to(m.At).Sub(p).Len() > size+hairs+1
			}
			free = free && !s.box(s.l.Seam(j)).Has(p)
		})
		if free {
			return p
		}
	}
	return g.Mid()
}

// onEdge is how far, in mm, the outline may be from the blank's edge and still be
// that edge: less than a pen can show.
const onEdge = 0.01

// datumEdges finds the pieces of the outline in the window that lie on the
// blank's datum end or reference edge.
func (s *sheet) datumEdges() []datum {
	var out []datum
	for _, g := range clip(s.l.Outline, s.tile.Window) {
		if g.Turn != geom.Straight || g.Length() < 8 {
			continue
		}
		d := datum{seg: s.seg(g), in: g.B.Sub(g.A).Unit().Left()}
		switch a, b := s.l.part(g.A), s.l.part(g.B); {
		case math.Abs(a.X) < onEdge && math.Abs(b.X) < onEdge:
			d.words = called("datum end", s.l.End)
		case math.Abs(a.Y) < onEdge && math.Abs(b.Y) < onEdge:
			d.words = called("reference edge", s.l.Edge)
		default:
			continue
		}
		out = append(out, d)
	}
	return out
}

func called(what, name string) string {
	if name == "" {
		return what
	}
	return name + " (" + what + ")"
}

// part takes a point of the layout's frame back to the part's own.
func (l Layout) part(p geom.Pt) geom.Pt {
	if l.Askew != 0 {
		return p.Turn(-l.Askew)
	}
	if l.Turned {
		return geom.Pt{X: p.Y, Y: l.Blank.W - p.X}
	}
	return p
}

// breakLines draws the datum line on this side of a stretch that is not printed.
func (s *sheet) breakLines() {
	for _, b := range s.l.Breaks {
		before, after := s.l.Lines(b, s.look)
		for _, d := range []float64{before, after} {
			g, ok := s.l.crossing(d, b.Upright, s.tile.Window)
			if !ok {
				continue
			}
			s.rule("datum line", s.seg(g), render.Pen{Width: 0.35, Dash: []float64{8, 1.5, 1.5, 1.5}})
		}
	}
}

// rule draws a line, on the page, that stops short of registration marks.
func (s *sheet) rule(name string, g geom.Seg, pen render.Pen) {
	rest := []geom.Seg{g}
	for _, b := range s.marks {
		var left []geom.Seg
		for _, r := range rest {
			left = append(left, outside(r, b)...)
		}
		rest = left
	}
	if len(rest) == 0 {
		return
	}
	s.add(name, render.Stroke{Paths: render.FromSegs(rest...), Pen: pen})
	for _, r := range rest {
		s.desk.BlockLine(r, 0.8)
	}
}

// stub is how much of a tape line is drawn on a sheet that is not taped to
// others: enough to show which way the tape runs.
const stub = 12.0

// controlLines draws what falls on this tile of every tape check: a diamond at
// each end that is not a hole, a faint line between unless it would run along an
// edge.
func (s *sheet) controlLines() {
	for i, c := range s.l.Controls {
		line := geom.Line(c.A, c.B)
		if !s.l.alongEdge(line) {
			for _, g := range s.tapeLine(line) {
				pen := render.Ghost
				pen.Dash = []float64{3, 2}
				s.rule("tape line", s.seg(g), pen)
			}
		}
		for _, p := range []geom.Pt{c.A, c.B} {
			if s.tile.Window.Has(p) && !s.l.hole(p) {
				at := s.to(p)
				h := hand{at: at}
				diamond := render.Loop(h.pt(1.6, 0), h.pt(0, 1.6), h.pt(-1.6, 0), h.pt(0, -1.6))
				s.add("tape point "+tapeName(i), render.Fill{Paths: []render.Path{diamond}})
				s.desk.Block(geom.Box{Min: at, Max: at}.Grow(2.4))
			}
		}
	}
}

// tapeLine returns what of the line of a tape check is drawn on this tile.
func (s *sheet) tapeLine(line geom.Seg) []geom.Seg {
	taped := false
	s.joined(func(Joint, bool) { taped = true })
	if taped || len(s.l.Tiles) == 1 {
		return clipSeg(line, s.tile.Window)
	}
	var out []geom.Seg
	t := stub / line.Length()
	if t >= 0.5 {
		return clipSeg(line, s.tile.Window)
	}
	for _, g := range []geom.Seg{piece(line, 0, t), piece(line, 1-t, 1)} {
		out = append(out, clipSeg(g, s.tile.Window)...)
	}
	return out
}

// hole reports whether p is the centre of a hole.
func (l Layout) hole(p geom.Pt) bool {
	return slices.ContainsFunc(l.Holes, func(h Hole) bool { return geom.Same(h.At, p) })
}

// alongEdge reports whether a line runs from a straight piece of the outline so
// nearly along it that the two would blur.
func (l Layout) alongEdge(g geom.Seg) bool {
	dir := g.B.Sub(g.A).Unit()
	for _, e := range l.Outline {
		if e.Turn == geom.Straight && math.Abs(dir.Cross(e.B.Sub(e.A).Unit())) < 0.03 &&
			math.Min(e.Distance(g.A), e.Distance(g.B)) < 1 {
			return true
		}
	}
	return false
}

// textBox is the room a line of text takes round its baseline's middle.
func textBox(words string, st lettering.Style) geom.Size {
	return geom.Size{W: lettering.Width(words, st), H: lettering.Cap(st) * 1.4}
}
