package assembly

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
)

// miters cuts the ends that are not square, by angles the author gave.
func (s *solver) miters(p *part, sh *shape, c *scope) bool {
	for _, e := range p.decl.Ends {
		if !e.Miter.Given() && !e.Bevel.Given() {
			continue
		}
		f, _ := p.feature(e.Name.Text)
		if !s.endCut(p, sh, e, f.side, c) {
			return false
		}
	}
	return true
}

// endCut saws one end off square: by the miter in the face, the bevel through
// the thickness, or both at once.
func (s *solver) endCut(p *part, sh *shape, e reading.End, side int, c *scope) bool {
	cut := &sh.ends[side]
	cut.Shape = "cut"
	cut.LongEdge, cut.LongFace = 0, 0
	ok := true
	if e.Miter.Given() {
		cut.Miter, ok = s.sawAngle(e.Miter, c, "miter")
		ok = ok && s.longSide(p, e.Long, 1, e, &cut.LongEdge, "edge", "long")
	}
	if ok && e.Bevel.Given() {
		cut.Bevel, ok = s.sawAngle(e.Bevel, c, "bevel")
		ok = ok && s.longSide(p, e.LongFace, 2, e, &cut.LongFace, "face", "long_face")
	}
	if !ok {
		return false
	}
	// The plane passes through the corner left longest; its normal leans away
	// from the long edge and the long face.
	out, x := 1.0, sh.length
	if side == 0 {
		out, x = -1, 0
	}
	n := geom.V3{X: out * math.Cos(cut.Miter) * math.Cos(cut.Bevel),
		Y: math.Sin(cut.Miter) * math.Cos(cut.Bevel) * away(cut.LongEdge), Z: math.Sin(cut.Bevel) * away(cut.LongFace)}
	corner := geom.V3{X: x, Y: sh.width * float64(cut.LongEdge), Z: sh.board.Thick * float64(cut.LongFace)}
	return s.sawBy(p, sh, geom.Plane{P: corner, N: n.Unit()})
}

// away is the direction from the far side (1) to the near one, or back.
func away(long int) float64 {
	if long == 1 {
		return -1
	}
	return 1
}

func (s *solver) sawAngle(f reading.Formula, c *scope, key string) (float64, bool) {
	a, ok := s.angle(s.main(f), c, 3, key)
	if ok && (a < 0 || a > 60*math.Pi/180) {
		s.problems.Errorf(f.At, "angle", "a %s of %.1f° cannot be sawn", key, a*180/math.Pi).Fix("count it off square, from 0 to 60 degrees")
		return 0, false
	}
	return a, ok
}

// longSide reads which side an angled cut leaves longer.
func (s *solver) longSide(p *part, w reading.Word, axis int, e reading.End, to *int, what, key string) bool {
	names := [][2]string{p.names.Ends, p.names.Edges, p.names.Faces}[axis]
	if !w.Given() {
		s.problems.Errorf(e.Name.At, "long-side", "the cut at %q does not say which %s stays longer", e.Name.Text, what).Fix("write %s = %q or %q", key, names[0], names[1])
		return false
	}
	f, ok := s.featureAt(p, w.Text, w.At)
	if ok && f.axis != axis {
		s.problems.Errorf(w.At, "unknown-side", "%q is not a %s of part %q", w.Text, what, p.decl.Key).Suggest(w.Text, names[:])
		return false
	}
	*to = f.side
	return ok
}

// sawBy cuts a shape by a plane in its own frame: exactly in the outline when
// the plane is square to the face, else as a cut through the solid.
func (s *solver) sawBy(p *part, sh *shape, pl geom.Plane) bool {
	if math.Abs(pl.N.Z) > 1e-9 {
		sh.board.Cuts = append(sh.board.Cuts, pl)
		return true
	}
	left := sh.board.Outline.ClipLine(geom.Pt{X: pl.P.X, Y: pl.P.Y}, geom.Pt{X: pl.N.X, Y: pl.N.Y})
	if len(left) != 1 {
		s.problems.Errorf(p.decl.At, "shape", "a cut of part %q leaves %d pieces", p.decl.Key, len(left)).Fix("a cut must leave one piece; look at where it passes")
		return false
	}
	sh.board.Outline = left[0]
	return true
}

// cornersOf rounds and clips the corners of the outline.
func (s *solver) cornersOf(p *part, sh *shape, c *scope) bool {
	for _, k := range p.decl.Corners {
		end, ok1 := s.featureAt(p, k.End.Text, k.End.At)
		edge, ok2 := s.featureAt(p, k.Edge.Text, k.Edge.At)
		if !ok1 || !ok2 {
			return false
		}
		if end.axis != 0 || edge.axis != 1 {
			s.problems.Errorf(k.Edge.At, "corner", "%s.%s is not a corner of part %q", k.End.Text, k.Edge.Text, p.decl.Key).Fix("name an end, then an edge, as corner.%s.%s", p.names.Ends[0], p.names.Edges[0])
			return false
		}
		mc := model.Corner{End: end.side, Edge: edge.side}
		at := geom.Pt{X: sh.length * float64(end.side), Y: sh.width * float64(edge.side)}
		i := sh.board.Outline.Corner(at)
		var o geom.Outline
		var err error
		if k.Round.Given() == k.Clip[0].Given() {
			s.needs(reading.Word{Text: k.End.Text + "." + k.Edge.Text, At: k.Edge.At}, false, "corner", "either round or clip")
			return false
		}
		if k.Round.Given() {
			if mc.Radius, ok1 = s.length(s.main(k.Round), c); !ok1 {
				return false
			}
			o, err = sh.board.Outline.RoundCorner(i, mc.Radius)
		} else {
			if mc.Along, mc.Across, ok1 = s.pairOf(k.Clip, c); !ok1 {
				return false
			}
			o, err = s.clipCorner(sh.board.Outline, i, mc)
		}
		if err != nil {
			s.problems.Errorf(k.Edge.At, "corner", "the corner %s.%s of part %q cannot be cut so: %s", k.End.Text, k.Edge.Text, p.decl.Key, s.inUnit(err)).
				Fix("make it smaller, or give the corner more room")
			return false
		}
		sh.board.Outline = o
		sh.corners = append(sh.corners, mc)
	}
	return true
}

// clipCorner hands the two legs of a clip to the sides they belong to.
func (s *solver) clipCorner(o geom.Outline, i int, c model.Corner) (geom.Outline, error) {
	before := o[(i+len(o)-1)%len(o)]
	d := before.B.Sub(before.A)
	if math.Abs(d.X) > math.Abs(d.Y) {
		return o.ClipCorner(i, c.Along, c.Across)
	}
	return o.ClipCorner(i, c.Across, c.Along)
}

// notchesOf cuts notches in from the edges.
func (s *solver) notchesOf(p *part, sh *shape, c *scope) bool {
	for _, n := range p.decl.Notches {
		f, ok := s.featureAt(p, n.Edge.Text, orAt(n.Edge.At, n.Name.At))
		at, ok1 := s.length(s.main(n.At), c)
		long, ok2 := s.length(s.main(n.Long), c)
		deep, ok3 := s.length(s.main(n.Deep), c)
		if !ok || !ok1 || !ok2 || !ok3 {
			s.needs(n.Name, n.At.Given() && n.Long.Given() && n.Deep.Given(), "notch", "edge, at, long and deep")
			return false
		}
		y := 0.0
		if f.side == 1 {
			y = sh.width - deep
		}
		// A hair over the edge, so that no skin is left along it.
		tool := geom.Rect(long, deep+1).Move(geom.Pt{X: at, Y: y - 1 + float64(f.side)})
		left := sh.board.Outline.Minus(tool)
		if len(left) != 1 || long <= 0 || deep <= 0 {
			s.problems.Errorf(n.Name.At, "notch", "notch %q of part %q leaves %d pieces", n.Name.Text, p.decl.Key, len(left)).Fix("make it shorter or less deep")
			return false
		}
		sh.board.Outline = left[0]
		sh.notches = append(sh.notches, model.Notch{Name: n.Name.Text, Edge: f.side, Along: at, Long: long, Deep: deep})
	}
	return true
}

// needs tells that a table is incomplete.
func (s *solver) needs(w reading.Word, complete bool, what, keys string) {
	if !complete {
		s.problems.Errorf(w.At, "incomplete", "%s %q needs %s", what, w.Text, keys)
	}
}

// bevelsOf saws the edges the author gave an angle for.
func (s *solver) bevelsOf(p *part, sh *shape, c *scope) bool {
	for _, e := range p.decl.Edges {
		f, ok := s.featureAt(p, e.Name.Text, e.Name.At)
		if !ok {
			return false
		}
		if f.axis != 1 {
			s.problems.Errorf(e.Name.At, "unknown-side", "%q is not an edge of part %q", e.Name.Text, p.decl.Key).Suggest(e.Name.Text, p.names.Edges[:])
			return false
		}
		if !e.Bevel.Given() {
			continue
		}
		if !e.Wide.Given() {
			s.needs(e.Name, false, "the bevel of edge", "wide, the face left wider")
			return false
		}
		b, ok := s.sawAngle(e.Bevel, c, "bevel")
		wide, ok2 := s.featureAt(p, e.Wide.Text, orAt(e.Wide.At, e.Name.At))
		if !ok || !ok2 || wide.axis != 2 {
			s.needs(e.Name, ok2 && wide.axis == 2, "the bevel of edge", "wide, the face left wider")
			return false
		}
		y, out := sh.width*float64(f.side), -away(f.side)
		n := geom.V3{Y: out * math.Cos(b), Z: math.Sin(b) * away(wide.side)}
		sh.edges[f.side] = model.EdgeCut{Bevel: b, LongFace: wide.side}
		sh.board.Cuts = append(sh.board.Cuts, geom.Plane{P: geom.V3{Y: y, Z: sh.board.Thick * float64(wide.side)}, N: n})
	}
	return true
}

// groovesOf cuts grooves into the faces.
func (s *solver) groovesOf(p *part, sh *shape, c *scope) bool {
	for _, g := range p.decl.Grooves {
		f, ok := s.featureAt(p, g.Face.Text, orAt(g.Face.At, g.Name.At))
		a1, a2, ok1 := s.pairOf(g.Along, c)
		b1, b2, ok2 := s.pairOf(g.Across, c)
		deep, ok3 := s.length(s.main(g.Deep), c)
		if !ok || !ok1 || !ok2 || !ok3 || f.axis != 2 {
			s.needs(g.Name, false, "groove", "face, along, across and deep")
			return false
		}
		if deep <= 0 || deep >= sh.board.Thick-tol || a2-a1 < tol || b2-b1 < tol {
			s.problems.Errorf(g.Name.At, "groove", "groove %q is %s deep in a part %s thick", g.Name.Text, s.opt.Unit.Long(deep), s.opt.Unit.Long(sh.board.Thick)).
				Fix("leave some wood under it, and give along and across as [from, to]")
			return false
		}
		box := geom.Box{Min: geom.Pt{X: a1, Y: b1}, Max: geom.Pt{X: a2, Y: b2}}
		sh.grooves = append(sh.grooves, model.Groove{Name: g.Name.Text, Face: f.side, Box: box, Deep: deep,
			Through: a1 <= tol && a2 >= sh.length-tol || b1 <= tol && b2 >= sh.width-tol, AlongRun: a2-a1 >= b2-b1})
		sh.board.Recesses = append(sh.board.Recesses, geom.Recess{Outline: geom.Rect(box.W(), box.H()).Move(box.Min), Top: f.side == 1, Depth: deep})
	}
	return true
}

// arrisesOf rounds and chamfers the arrises between an edge or end and a face.
func (s *solver) arrisesOf(p *part, sh *shape, c *scope) bool {
	for _, a := range p.decl.Arrises {
		side, ok1 := s.featureAt(p, a.Side.Text, a.Side.At)
		face, ok2 := s.featureAt(p, a.Face.Text, a.Face.At)
		if !ok1 || !ok2 {
			return false
		}
		if face.axis != 2 || side.axis == 2 {
			s.problems.Errorf(a.Face.At, "arris", "%s.%s is not an arris of part %q", a.Side.Text, a.Face.Text, p.decl.Key).Fix("name an edge or end, then a face")
			return false
		}
		if a.Round.Given() == a.Chamfer.Given() {
			s.needs(reading.Word{Text: a.Side.Text + "." + a.Face.Text, At: a.Face.At}, false, "arris", "either round or chamfer")
			return false
		}
		size, round, ok := s.arrisSize(a, c)
		if !ok || !s.positive(a.Side.At, size, "an arris") {
			return false
		}
		if size > sh.board.Thick-tol {
			s.problems.Errorf(a.Face.At, "arris", "an arris of %s is more than the thickness of %s", s.opt.Unit.Long(size), s.opt.Unit.Long(sh.board.Thick))
			return false
		}
		sh.arrises = append(sh.arrises, model.Arris{Side: a.Side.Text, Face: a.Face.Text, Size: size, Chamfer: !round})
		s.workArris(sh, side, face.side, size, round)
	}
	return true
}

func (s *solver) arrisSize(a reading.Arris, c *scope) (size float64, round, ok bool) {
	if a.Round.Given() {
		size, ok = s.length(s.main(a.Round), c)
		return size, true, ok
	}
	size, ok = s.length(s.main(a.Chamfer), c)
	return size, false, ok
}

// workArris cuts the arris along the straight sides of the outline that lie on
// the named side of the blank.
func (s *solver) workArris(sh *shape, side feature, face int, size float64, round bool) {
	for _, seg := range sh.board.Outline {
		if seg.Turn != geom.Straight || !onSide(seg, sh, side) {
			continue
		}
		if round {
			sh.board.Rounds = append(sh.board.Rounds, geom.Round{A: seg.A, B: seg.B, Top: face == 1, R: size})
			continue
		}
		out := seg.B.Sub(seg.A).Unit().Left().Mul(-1)
		n := geom.V3{X: out.X, Y: out.Y, Z: -away(face)}.Unit()
		z := sh.board.Thick*float64(face) + away(face)*size
		sh.board.Cuts = append(sh.board.Cuts, geom.Plane{P: geom.V3{X: seg.A.X, Y: seg.A.Y, Z: z}, N: n})
	}
}

func onSide(seg geom.Seg, sh *shape, f feature) bool {
	v := func(p geom.Pt) float64 {
		if f.axis == 0 {
			return p.X - sh.length*float64(f.side)
		}
		return p.Y - sh.width*float64(f.side)
	}
	return math.Abs(v(seg.A)) < tol && math.Abs(v(seg.B)) < tol
}
