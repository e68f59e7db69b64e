package assembly

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

// chord is how far a facet may lie from a true curve in the solids, mm. Fine
// enough for contact and mass, coarse enough for quick pictures.
const chord = 0.15

// shape is the exact form of a part of one rank, with what was cut to get it.
type shape struct {
	board   geom.Board
	length  float64
	width   float64
	ends    [2]model.EndCut
	edges   [2]model.EdgeCut
	tapers  []model.Taper
	corners []model.Corner
	arrises []model.Arris
	notches []model.Notch
	grooves []model.Groove
	solid   *geom.Solid
}

// blank works out the shape of a part before other parts have cut it: tapers,
// round ends, corners, notches and grooves, but no trims and no bearing bevels.
func (s *solver) blank(p *part, rank int) (*shape, bool) {
	key := fmt.Sprintf("blank of %s", p.decl.Key)
	if rank > 0 {
		key = fmt.Sprintf("%s of rank %d", key, rank)
	}
	ok := s.once(key, p.decl.At, func() bool {
		sh, ok := s.makeBlank(p, rank)
		s.shapes[key] = sh
		return ok
	})
	return s.shapes[key], ok
}

func (s *solver) makeBlank(p *part, rank int) (*shape, bool) {
	sh := &shape{}
	var ok bool
	if sh.board.Thick, ok = s.own(p, "thick", rank, p.decl.At); !ok {
		return nil, false
	}
	if sh.width, ok = s.own(p, "width", rank, p.decl.At); !ok {
		return nil, false
	}
	sh.length = trimRoom
	if len(p.decl.Trims) == 0 || p.decl.Length.Given() {
		if sh.length, ok = s.own(p, "length", rank, p.decl.At); !ok {
			return nil, false
		}
	}
	c := &scope{s: s, part: p, rank: rank}
	sh.ends[0].Shape, sh.ends[1].Shape = "square", "square"
	if len(p.decl.Outline) > 0 {
		sh.board.Outline, ok = s.freeOutline(p, rank)
		ok = ok && s.sameBox(p, sh)
		sh.ends[0].Shape, sh.ends[1].Shape = "free", "free"
	} else {
		ok = s.edgesAndEnds(p, sh, c)
	}
	ok = ok && s.cornersOf(p, sh, c) && s.notchesOf(p, sh, c) && s.bevelsOf(p, sh, c) && s.arrisesOf(p, sh, c) && s.groovesOf(p, sh, c)
	return sh, ok
}

// sameBox holds a free outline against the length and the width the author gave
// beside it; where there is none, the outline's own counts.
func (s *solver) sameBox(p *part, sh *shape) bool {
	b, u := sh.board.Outline.Box(), s.opt.Unit
	for _, side := range []struct {
		what  string
		given reading.Formula
		drawn float64
		size  *float64
	}{{"long", p.decl.Length, b.W(), &sh.length}, {"wide", p.decl.Width, b.H(), &sh.width}} {
		if side.given.Given() && math.Abs(side.drawn-*side.size) > tol {
			s.problems.Errorf(side.given.At, "outline", "the outline of %q is %s %s, but this says %s", p.decl.Key, u.Long(side.drawn), side.what, u.Long(*side.size)).
				Fix("leave it out, or make the two agree")
			return false
		}
		*side.size = side.drawn
	}
	return true
}

// trimRoom is how long a board is taken before another plane trims it, mm.
const trimRoom = 6000

// freeOutline builds an outline given as a path, moved so that its box starts
// at the datum corner.
func (s *solver) freeOutline(p *part, rank int) (geom.Outline, bool) {
	c := &scope{s: s, part: &part{decl: &reading.Part{Key: p.decl.Key, Thick: p.decl.Thick}, stock: p.stock, names: p.names}, rank: rank}
	var t *geom.Trace
	var last geom.Pt
	for i, m := range p.decl.Outline {
		x, y, ok := s.pairOf(m.To, c)
		if !ok {
			return nil, false
		}
		pt := geom.Pt{X: x, Y: y}
		switch {
		case i == 0:
			if !m.Start {
				s.problems.Errorf(m.At, "outline", "an outline begins with a point it starts from").Fix("write { from = [0, 0] } as its first entry")
				return nil, false
			}
			t = geom.From(pt)
		case m.Via[0].Given():
			vx, vy, ok := s.pairOf(m.Via, c)
			if !ok {
				return nil, false
			}
			t.ArcOver(geom.Pt{X: vx, Y: vy}, pt)
		case m.Center[0].Given():
			cx, cy, ok := s.pairOf(m.Center, c)
			if !ok {
				return nil, false
			}
			if !s.arcRound(t, m, last, geom.Pt{X: cx, Y: cy}, pt) {
				return nil, false
			}
		default:
			t.LineTo(pt)
		}
		last = pt
	}
	o, err := t.Close()
	if err != nil {
		s.problems.Errorf(p.decl.OutlineAt, "outline", "the outline of %q cannot be: %s", p.decl.Key, s.inUnit(err)).
			Fix("sides count from the first point of the outline; look at the points near there")
		return nil, false
	}
	b := o.Box()
	return o.Move(geom.Pt{X: -b.Min.X, Y: -b.Min.Y}), true
}

// arcRound goes the shorter way round a center.
func (s *solver) arcRound(t *geom.Trace, m reading.Move, from, center, to geom.Pt) bool {
	a, b := from.Sub(center), to.Sub(center)
	if d := a.Len() - b.Len(); math.Abs(d) > 0.01 {
		s.problems.Errorf(m.At, "outline", "the center of this arc is %s from its start and %s from its end", s.opt.Unit.Long(a.Len()), s.opt.Unit.Long(b.Len())).
			Fix("move the center or an end so that both are the same")
		return false
	}
	turn := geom.CCW
	if a.Cross(b) < 0 {
		turn = geom.CW
	}
	t.ArcTo(to, a.Len(), turn, false)
	return true
}

// edgesAndEnds builds the outline of a board with tapered edges and shaped ends.
func (s *solver) edgesAndEnds(p *part, sh *shape, c *scope) bool {
	pr := &profile{length: sh.length, width: sh.width}
	for _, t := range p.decl.Tapers {
		if !s.taper(p, sh, pr, t, c) {
			return false
		}
	}
	for _, e := range p.decl.Ends {
		f, ok := s.featureAt(p, e.Name.Text, e.Name.At)
		if !ok {
			return false
		}
		if f.axis != 0 {
			s.problems.Errorf(e.Name.At, "unknown-side", "%q is not an end of part %q", e.Name.Text, p.decl.Key).Suggest(e.Name.Text, p.names.Ends[:])
			return false
		}
		if !s.endShape(p, sh, pr, e, f.side, c) {
			return false
		}
	}
	o, err := pr.outline()
	if err != nil {
		s.problems.Errorf(p.decl.At, "shape", "part %q cannot be cut so: %s", p.decl.Key, s.inUnit(err))
		return false
	}
	sh.board.Outline = o
	return s.miters(p, sh, c)
}

// taper reads one taper into the profile.
func (s *solver) taper(p *part, sh *shape, pr *profile, t reading.Taper, c *scope) bool {
	a1, w1, ok1 := s.pairOf(t.From, c)
	a2, w2, ok2 := s.pairOf(t.To, c)
	if !ok1 || !ok2 {
		return false
	}
	edge := 2
	if t.Edge.Text != "both" {
		f, ok := s.featureAt(p, t.Edge.Text, orAt(t.Edge.At, t.Name.At))
		if !ok {
			return false
		}
		if f.axis != 1 {
			s.problems.Errorf(t.Edge.At, "unknown-side", "%q is not an edge of part %q", t.Edge.Text, p.decl.Key).Fix(`write "both" or one of %s and %s`, p.names.Edges[0], p.names.Edges[1])
			return false
		}
		edge = f.side
	}
	if a1 > a2 {
		a1, w1, a2, w2 = a2, w2, a1, w1
	}
	if a2-a1 < 1 || w1 <= 0 || w2 <= 0 || w1 > sh.width+tol || w2 > sh.width+tol {
		u := s.opt.Unit
		s.problems.Errorf(t.Name.At, "taper", "taper %q runs from %s wide at %s to %s wide at %s, on a part %s wide", t.Name.Text, u.Long(w1), u.Long(a1), u.Long(w2), u.Long(a2), u.Long(sh.width)).
			Fix("a taper gives [along, width] twice, and no width is more than the part's own")
		return false
	}
	sh.tapers = append(sh.tapers, pr.add(edge, a1, w1, a2, w2))
	return true
}

func orAt(at, other source.Span) source.Span {
	if at.Valid() {
		return at
	}
	return other
}

// endShape reads a round or half-round end.
func (s *solver) endShape(p *part, sh *shape, pr *profile, e reading.End, side int, c *scope) bool {
	switch e.Shape.Text {
	case "half round":
		r := pr.widthAt(side) / 2
		pr.round[side] = r
		sh.ends[side].Shape, sh.ends[side].Radius = "half round", r
	case "round":
		r, ok := s.length(s.main(e.Radius), c)
		if !ok {
			if !e.Radius.Given() {
				s.problems.Errorf(e.Name.At, "shape", "a round end needs a radius").Fix("write radius = ..., or shape = \"half round\" for half the width")
			}
			return false
		}
		if r < pr.widthAt(side)/2-tol {
			s.problems.Errorf(e.Radius.At, "shape", "a radius of %s cannot span an end %s wide", s.opt.Unit.Long(r), s.opt.Unit.Long(pr.widthAt(side))).Fix("make it half the width or more")
			return false
		}
		pr.round[side] = r
		sh.ends[side].Shape, sh.ends[side].Radius = "round", r
	}
	return true
}
