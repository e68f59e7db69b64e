package assembly

import (
	"cmp"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
)

// seenWrong is how far in mm a corner of a piece must lie elsewhere for a mistake
// to be seen.
const seenWrong = 1.0

// wrong works out what the mistake of a step looks like.
func (s *solver) wrong(d *reading.Step, st *model.Step) *model.Wrong {
	w := d.Wrong
	if w == nil {
		return nil
	}
	switch {
	case len(w.Parts) == 0 || !w.How.Given():
		s.problems.Errorf(w.At, "incomplete", "what is wrong needs part and how").Fix(`write wrong = { part = "rail", how = "flipped" }`)
		return nil
	case !d.Mistake.Given():
		s.problems.Errorf(w.At, "incomplete", "a wrong picture needs words").Fix("say in mistake what people get wrong")
		return nil
	}
	out := &model.Wrong{How: model.WrongHow(w.How.Text)}
	if len(st.Add) == 0 && len(st.Fasten) == 0 {
		return s.madeWrong(w, st, out)
	}
	v := s.viewOf(st)
	for _, name := range w.Parts {
		h, ok := s.hold(name, v)
		if !ok {
			return nil
		}
		if h.floor || h.named() > 0 {
			s.problems.Errorf(name.At, "wrong", "%q is not a piece", name.Text)
			return nil
		}
		out.Pieces = append(out.Pieces, h.many...)
	}
	if !s.putWrong(w, out) {
		return nil
	}
	if out.How != model.LeftOut && s.looksRight(out) {
		s.problems.Errorf(w.How.At, "wrong", "%s %q looks the same as it should", pieceWords(s.plan.Placed[out.Pieces[0]]), w.How.Text).
			Fix("choose a way that can be seen, or take wrong away")
		return nil
	}
	return out
}

// putWrong stands the pieces as the mistake leaves them.
func (s *solver) putWrong(w *reading.Wrong, out *model.Wrong) bool {
	var shift geom.V3
	if out.How == model.SameHand {
		shift = s.handShift(out.Pieces)
	}
	for _, i := range out.Pieces {
		p := s.plan.Placed[i]
		twin := s.twin(i)
		switch out.How {
		case model.Flipped:
			out.Solids = append(out.Solids, s.spun(p, p.Pose.Along))
		case model.Turned:
			out.Solids = append(out.Solids, s.spun(p, p.Pose.Thick))
		case model.Swapped:
			if twin == nil {
				out.Solids = append(out.Solids, s.spun(p, p.Pose.Thick))
				continue
			}
			out.Solids = append(out.Solids, moved(twin.Solid, s.middle(p).Sub(s.middle(twin))))
		case model.SameHand:
			if twin == nil {
				s.problems.Errorf(w.How.At, "wrong", "%s has no other hand", pieceWords(p)).Fix(`parts with hands = "pair" can be made of one hand`)
				return false
			}
			out.Solids = append(out.Solids, moved(twin.Solid, shift))
		case model.LeftOut:
			out.Solids = append(out.Solids, p.Solid)
		default:
			s.problems.Errorf(w.How.At, "wrong", "%q is a mistake of the saw, but this step puts together", w.How.Text).Fix("show it in the step that makes the part")
			return false
		}
	}
	return true
}

// handShift is the way from the twins of some pieces to the pieces.
func (s *solver) handShift(pieces []int) geom.V3 {
	var sum geom.V3
	for _, i := range pieces {
		if twin := s.twin(i); twin != nil {
			sum = sum.Add(s.middle(s.plan.Placed[i]).Sub(s.middle(twin)).Mul(1 / float64(len(pieces))))
		}
	}
	return sum
}

// twin is the piece of the other hand that stands across from a piece; nil when
// there is none.
func (s *solver) twin(i int) *model.Placed {
	p := s.plan.Placed[i]
	if p.Hand == model.NoHand {
		return nil
	}
	at := p.Pose.Mirror().Origin
	for _, q := range s.plan.Placed {
		if q.Part == p.Part && q.Hand != p.Hand && q.Pose.Origin.Sub(at).Len() < tol {
			return q
		}
	}
	return nil
}

// middle is the middle of the blank of a piece.
func (s *solver) middle(p *model.Placed) geom.V3 {
	b := p.Part.Board.Outline.Box()
	return p.Pose.Point(geom.V3{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2, Z: p.Part.Board.Thick / 2})
}

// spun is a piece turned half round about an axis through its middle.
func (s *solver) spun(p *model.Placed, axis geom.V3) *geom.Solid {
	mid := s.middle(p)
	h := geom.Home()
	turn := geom.Pose{Along: h.Along.Spin(axis, math.Pi), Across: h.Across.Spin(axis, math.Pi), Thick: h.Thick.Spin(axis, math.Pi)}
	turn.Origin = mid.Sub(turn.Point(mid))
	return p.Solid.Transform(turn)
}

func moved(solid *geom.Solid, by geom.V3) *geom.Solid {
	h := geom.Home()
	h.Origin = by
	return solid.Transform(h)
}

// looksRight reports whether every corner of what is wrong is where a corner of
// what is right is.
func (s *solver) looksRight(w *model.Wrong) bool {
	all := &geom.Solid{}
	for _, i := range w.Pieces {
		all.Faces = append(all.Faces, s.plan.Placed[i].Solid.Faces...)
	}
	return !slices.ContainsFunc(w.Solids, func(solid *geom.Solid) bool { return !sameCorners(solid, all) })
}

// madeWrong is a part that is sawn wrong, in its own frame.
func (s *solver) madeWrong(w *reading.Wrong, st *model.Step, out *model.Wrong) *model.Wrong {
	name := w.Parts[0]
	for _, p := range st.Make {
		// Of a family the smallest shows best what was to be cut off.
		if p.Key == name.Text && (out.Made == nil || p.Length < out.Made.Length) {
			out.Made = p
		}
	}
	if out.Made == nil || len(w.Parts) > 1 {
		if !s.droppedPart(name.Text) || s.parts[name.Text] != nil {
			s.problems.Errorf(name.At, "wrong", "step %d does not make %q", st.Number, name.Text).Fix("name one part that the step makes")
		}
		return nil
	}
	right, err := geom.Board{Outline: out.Made.Board.Outline, Thick: out.Made.Board.Thick, Cuts: out.Made.Board.Cuts}.Solid(chord)
	if err != nil {
		s.problems.Errorf(w.How.At, "wrong", "part %q cannot be drawn so: %s", name.Text, s.inUnit(err))
		return nil
	}
	switch {
	case out.How == model.SameHand && out.Made.Hand == model.Pair:
		out.Solids = []*geom.Solid{s.bodies[out.Made], s.bodies[out.Made]}
	case out.How == model.BothEnds:
		out.Solids = alikeEnds(out.Made, right)
	case out.How == model.OtherEnd:
		out.Solids = wrongEnd(out.Made, right)
	}
	if len(out.Solids) == 0 {
		s.problems.Errorf(w.How.At, "wrong", "%q cannot be shown of part %q here", w.How.Text, name.Text).
			Fix(`a step that only makes shows "same hand" of a pair, "both ends" of a part with a slanting end whose other end is not like it, or "other end" of a part with a round end and trim_later at the other`)
		return nil
	}
	return out
}

// slanting reports whether an end is sawn at an angle.
func slanting(e model.EndCut) bool { return e.Miter > 1e-6 || e.Bevel > 1e-6 }

// alikeEnds is a part with the cut of its slanting end made at its other end as
// well, the board turned end for end between the two cuts. There is none where
// that is how the part should be.
func alikeEnds(p *model.Part, right *geom.Solid) []*geom.Solid {
	end := 1
	if !slanting(p.Ends[1]) {
		end = 0
	}
	cut, ok := endFace(p, right, end)
	if !slanting(p.Ends[end]) || !ok {
		return nil
	}
	n := geom.V3{X: -cut.N.X, Y: -cut.N.Y, Z: cut.N.Z}
	corner := innermost(p, right, 1-end, n)
	wrong := right.CutBy(geom.Plane{P: corner, N: n}, geom.End)
	if wrong == nil || sameCorners(wrong, right) {
		return nil
	}
	return []*geom.Solid{wrong}
}

// endFace is the flat face that ends a part, the largest one where there are more.
func endFace(p *model.Part, solid *geom.Solid, end int) (best geom.Face, ok bool) {
	sign := float64(2*end - 1)
	for _, f := range solid.Faces {
		if f.Smooth == 0 && f.N.X*sign > 0.4 && (!ok || f.Area() > best.Area()) {
			best, ok = f, true
		}
	}
	return best, ok
}

// innermost is that corner of an end that lies least far out along n.
func innermost(p *model.Part, solid *geom.Solid, end int, n geom.V3) geom.V3 {
	b := p.Board.Outline.Box()
	x := [2]float64{b.Min.X, b.Max.X}[end]
	best, least := geom.V3{}, math.Inf(1)
	for _, y := range []float64{b.Min.Y, b.Max.Y} {
		for _, z := range []float64{0, p.Board.Thick} {
			at := geom.V3{X: x, Y: y, Z: z}
			near := slices.MinFunc(solid.Points(), func(u, v geom.V3) int { return cmp.Compare(u.Sub(at).Len(), v.Sub(at).Len()) })
			if d := near.Dot(n); d < least {
				best, least = near, d
			}
		}
	}
	return best
}

// sameCorners reports whether every corner of a is where b has one.
func sameCorners(a, b *geom.Solid) bool {
	right := b.Points()
	return !slices.ContainsFunc(a.Points(), func(p geom.V3) bool {
		return !slices.ContainsFunc(right, func(q geom.V3) bool { return p.Sub(q).Len() < seenWrong })
	})
}

// wrongEnd is a part that was trimmed at its shaped end: the round is gone.
func wrongEnd(p *model.Part, right *geom.Solid) []*geom.Solid {
	i := slices.Index(p.Names.Ends[:], p.TrimLater)
	if i < 0 || p.Ends[1-i].Radius <= 0 {
		return nil
	}
	b := p.Board.Outline.Box()
	pl := geom.Plane{P: geom.V3{X: b.Max.X - p.Ends[1-i].Radius}, N: geom.V3{X: 1}}
	if i == 1 {
		pl = geom.Plane{P: geom.V3{X: b.Min.X + p.Ends[0].Radius}, N: geom.V3{X: -1}}
	}
	if wrong := right.CutBy(pl, geom.End); wrong != nil {
		return []*geom.Solid{wrong}
	}
	return nil
}
