package tiles

import (
	"math"
	"strings"

	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// A guide is the line of the board that pieces laid out with a tape are lined up
// by, drawn where the outline does not run along it.
type guide struct {
	seg   geom.Seg // on the page
	words string
}

// findGuides returns the guides a tile needs: one for each direction in which
// the template is broken.
func (s *sheet) findGuides() []guide {
	var out []guide
	for _, upright := range []bool{true, false} {
		if g, ok := s.guideFor(upright); ok {
			out = append(out, g)
		}
	}
	return out
}

// guideAt returns where the guide for breaks in one direction stands: what runs
// past breaks with upright lines is level, at a distance from the bottom of the
// frame, and the other way round. It is not ok when there are no such breaks.
func (l Layout) guideAt(upright bool) (d float64, ok bool) {
	for _, b := range l.Breaks {
		ok = ok || b.Upright == upright
	}
	if !upright && l.Turned {
		return l.Blank.W, ok
	}
	return 0, ok
}

func (s *sheet) guideFor(upright bool) (guide, bool) {
	d, ok := s.l.guideAt(upright)
	if !ok {
		return guide{}, false
	}
	// What runs past the breaks is the reference edge when the grain runs with
	// them, else the datum end. Both are sides of the blank.
	words := "reference edge"
	if upright == s.l.Turned {
		words = "datum end"
	}
	w := s.tile.Window
	b := s.l.Outline.Box()
	line := geom.Line(geom.Pt{X: math.Max(w.Min.X, b.Min.X), Y: d}, geom.Pt{X: math.Min(w.Max.X, b.Max.X), Y: d})
	if !upright {
		line = geom.Line(geom.Pt{X: d, Y: math.Max(w.Min.Y, b.Min.Y)}, geom.Pt{X: d, Y: math.Min(w.Max.Y, b.Max.Y)})
	}
	if !w.Has(line.Mid()) || line.Length() < 1 {
		return guide{}, false
	}
	for _, g := range clip(s.l.Outline, w) {
		if g.Turn == geom.Straight && g.Length() > run/2 && line.Distance(g.A) < onEdge && line.Distance(g.B) < onEdge {
			return guide{}, false
		}
	}
	return guide{s.seg(line), words}, true
}

// guides draws them.
func (s *sheet) guides() {
	for _, g := range s.findGuides() {
		s.rule("guide", g.seg, render.Pen{Width: 0.25, Dash: []float64{5, 1.2, 0.8, 1.2, 0.8, 1.2}})
	}
}

// guideWords names the guides: along them, else across them and close by, and
// farther away, with a leader, only when there is no other room.
func (s *sheet) guideWords() {
	for _, g := range s.findGuides() {
		up := math.Abs(g.seg.B.Y-g.seg.A.Y) > math.Abs(g.seg.B.X-g.seg.A.X)
		n := note{words: g.words, style: noteType, near: g.seg.Mid(), upright: up, within: s.along(g.seg), spare: true}
		if _, ok := s.put("guide words", n); ok {
			continue
		}
		n.upright = !up
		n.within = render.Overlap(s.window(), g.seg.Box().Grow(lettering.Width(g.words, noteType)+2*pad+3))
		if _, ok := s.put("guide words", n); ok {
			continue
		}
		s.torn++
		n.upright, n.within, n.spare = up, s.window(), false
		if at, ok := s.put("guide words", n); ok && !s.leader(g.seg.Mid(), 1, at) {
			s.lost++ // far from its line it would name another
		}
	}
}

// foldLine draws the line of a half template about which the paper is turned over.
func (s *sheet) foldLine() {
	if !s.l.folded() {
		return
	}
	var segs []geom.Seg
	for _, g := range clipSeg(s.l.Fold, s.tile.Window) {
		g = s.seg(g)
		segs = append(segs, g)
		s.desk.BlockLine(g, 0.8)
	}
	if len(segs) > 0 {
		s.add("fold", render.Stroke{Paths: strung(segs), Pen: render.Pen{Width: 0.35, Dash: []float64{10, 1.5, 1, 1.5, 1, 1.5}}})
	}
}

func (s *sheet) foldWords() {
	if !s.l.folded() {
		return
	}
	for _, g := range clipSeg(s.l.Fold, s.tile.Window) {
		g = s.seg(g)
		if g.Length() < 60 {
			continue
		}
		up := math.Abs(g.B.Y-g.A.Y) > math.Abs(g.B.X-g.A.X)
		s.put("fold words", note{words: "Cut along this line. Trace, turn the paper over on it, trace again", style: boldNote, near: g.Mid(), upright: up})
	}
}

// breakWords tells how far a datum line is from the datum end and from its mate.
func (s *sheet) breakWords() {
	for _, b := range s.l.Breaks {
		before, after := s.l.Lines(b, s.look)
		for _, d := range []float64{before, after} {
			g, ok := s.l.crossing(d, b.Upright, s.tile.Window)
			if !ok {
				continue
			}
			other := before
			if d == before {
				other = after
			}
			s.wordsAt(b, s.seg(g), d, other)
		}
	}
}

// wordsAt writes the words of the break line g at d, whose mate is at other. They
// stand on the side where nothing more is printed, so that a piece broken at
// both ends does not mix up its lines.
func (s *sheet) wordsAt(b Break, g geom.Seg, d, other float64) {
	mid, ahead := g.Mid(), float64(sign(other-d))
	beyond, near, edge := s.window(), mid.Add(geom.Pt{Y: 5 * ahead}), mid
	switch {
	case b.Upright && ahead > 0:
		beyond.Min.X, near, edge.X = mid.X, mid.Add(geom.Pt{X: 5}), beyond.Max.X
	case b.Upright:
		beyond.Max.X, near, edge.X = mid.X, mid.Sub(geom.Pt{X: 5}), beyond.Min.X
	case ahead > 0:
		beyond.Min.Y, edge.Y = mid.Y, beyond.Max.Y
	default:
		beyond.Max.Y, edge.Y = mid.Y, beyond.Min.Y
	}
	n := note{words: s.lineWords(b, d, other), style: boldNote, near: near, upright: b.Upright, within: beyond, spare: true}
	if _, ok := s.put("datum line words", n); !ok {
		s.torn++
		for _, line := range strings.Split(n.words, "\n") {
			s.line(n, line)
		}
	}
	s.put("break words", note{words: "the board runs on, straight", style: noteType, near: edge, upright: b.Upright, within: beyond, spare: true})
}

// line puts one line of a break line's words by itself: there if it can be, else
// anywhere on the sheet.
func (s *sheet) line(n note, words string) {
	n.words = words
	if _, ok := s.put("datum line words", n); !ok {
		n.within, n.spare = s.window(), false
		s.put("datum line words", n)
	}
}

// lineWords says in two lines where the datum line at d is, and how far it is to its mate.
func (s *sheet) lineWords(b Break, d, other float64) string {
	base := "the datum end"
	if b.Upright == s.l.Turned {
		base = "the reference edge"
	}
	mate := s.l.mate(b, other, s.tile)
	return "Break line, " + s.look.Unit.Long(s.l.measured(d, b.Upright)) + " from " + base + "\n" +
		s.look.Unit.Long(math.Abs(other-d)) + " by tape to the break line of " + mate
}
