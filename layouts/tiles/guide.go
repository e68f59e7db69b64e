package tiles

import (
	"math"

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

func (s *sheet) guideWords() {
	for _, g := range s.findGuides() {
		up := math.Abs(g.seg.B.Y-g.seg.A.Y) > math.Abs(g.seg.B.X-g.seg.A.X)
		s.put("guide words", note{words: g.words, style: noteType, near: g.seg.Mid(), upright: up})
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
