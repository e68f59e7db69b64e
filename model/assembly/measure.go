package assembly

import (
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// measure gathers every named value: sizes, derived ones, the author's measures
// and what is always measured on the finished piece.
func (s *solver) measure() {
	for _, name := range s.order {
		n := s.numbers[name]
		if v, ok := s.numberValue(name, n.decl.At); ok {
			s.plan.Measures = append(s.plan.Measures, model.Measure{Name: name, Value: v, Kind: n.kind, Note: n.decl.Note})
		}
	}
	if s.problems.Failed() {
		return
	}
	s.overall()
	for _, m := range s.d.Measures {
		if !s.goodName(m.Name, m.At) {
			continue
		}
		if v, ok := s.main(m.Is).eval(s, &scope{s: s}); ok {
			s.solved(m.Name, v, m.Note)
		}
	}
	s.critical()
}

// solved enters a solved value; a later one of the same name replaces it.
func (s *solver) solved(name string, v expr.Value, note string) {
	s.measured[name] = v
	for i, m := range s.plan.Measures {
		if m.Name == name && m.Kind == model.SolvedMeasure {
			s.plan.Measures[i].Value, s.plan.Measures[i].Note = v, note
			return
		}
	}
	s.plan.Measures = append(s.plan.Measures, model.Measure{Name: name, Value: v, Kind: model.SolvedMeasure, Note: note})
}

// overall measures the finished piece: its box, mass and skin.
func (s *solver) overall() {
	mass, skin := 0.0, 0.0
	lo := geom.V3{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := lo.Neg()
	for _, p := range s.plan.Placed {
		mass += p.Part.Mass
		skin += p.Part.Skin
		for _, f := range p.Solid.Faces {
			for _, v := range f.Loops[0] {
				lo = geom.V3{X: math.Min(lo.X, v.X), Y: math.Min(lo.Y, v.Y), Z: math.Min(lo.Z, v.Z)}
				hi = geom.V3{X: math.Max(hi.X, v.X), Y: math.Max(hi.Y, v.Y), Z: math.Max(hi.Z, v.Z)}
			}
		}
	}
	if len(s.plan.Placed) == 0 {
		for _, p := range s.plan.Parts {
			mass += p.Mass * float64(p.Quantity)
			skin += p.Skin * float64(p.Quantity)
		}
	} else {
		s.solved("overall_width", expr.Length(hi.X-lo.X), "widest, side to side")
		s.solved("overall_depth", expr.Length(hi.Y-lo.Y), "deepest, front to rear")
		s.solved("overall_height", expr.Length(hi.Z-lo.Z), "floor to the highest point")
	}
	s.solved("mass", expr.Count(mass), "")
	s.solved("finish_area_m2", expr.Count(skin/1e6), "")
	s.plan.Finish.Area = skin / 1e6
}

// critical reads the values the author wants held.
func (s *solver) critical() {
	for _, d := range s.d.Critical {
		c := &scope{s: s}
		v, ok := s.main(d.Value).eval(s, c)
		w, ok2 := s.main(d.Within).eval(s, c)
		if !ok || !ok2 {
			if !d.Value.Given() || !d.Within.Given() {
				s.problems.Errorf(d.At, "critical", "critical value %q needs value and within", d.Name)
			}
			continue
		}
		if w.Loose && v.Dim == (expr.Dim{Length: 1}) {
			mm, _ := w.AsLength(s.d.Unit)
			w = expr.Length(mm)
		}
		if w.Dim != v.Dim {
			s.problems.Errorf(d.At, "critical", "critical value %q is %s, but its limit is %s", d.Name, v.Text(s.opt.Unit), w.Text(s.opt.Unit)).Fix("give both in the same kind of measure")
			continue
		}
		s.plan.Critical = append(s.plan.Critical, model.Critical{Name: d.Name, Value: v, Within: w.V, Note: d.Note.Text})
	}
}

// ownHoles fills in the holes the author gave a part.
func (s *solver) ownHoles(p *part, mp *model.Part, rank int) {
	for _, h := range p.decl.Holes {
		along, across, ok := s.holePlace(p, h.Name, rank, h.At)
		if !ok {
			continue
		}
		mh := model.Hole{Name: h.Name, Kind: model.PlainHole, Along: along, Across: across, Into: "face", Fine: h.Fine, Sink: h.Sink, Matched: h.Through.Given(),
			InPart: geom.V3{X: along, Y: across}, Dir: geom.V3{Z: 1}}
		c := &scope{s: s, part: p, rank: rank}
		mh.Depth, _ = s.lengthOr(h.Deep, c, 0)
		mh.BoreDiam, _ = s.lengthOr(h.BoreWide, c, 0)
		mh.BoreDepth, _ = s.lengthOr(h.BoreDeep, c, 0)
		if h.Face.Given() {
			f, ok := s.featureAt(p, h.Face.Text, h.Face.At)
			if !ok || f.axis != 2 {
				continue
			}
			mh.From = f.side
		}
		if mh.From == 1 {
			mh.InPart.Z, mh.Dir.Z = mp.Thick, -1
		}
		if !s.holeSize(p, h, &mh, c) {
			continue
		}
		if !mp.Board.Outline.Contains(geom.Pt{X: along, Y: across}) {
			s.problems.Errorf(h.At, "hole", "hole %q lies outside part %q: %s along, %s across", h.Name, p.decl.Key, s.opt.Unit.Long(along), s.opt.Unit.Long(across))
			continue
		}
		if h.Through.Given() {
			mh.Through = s.codeOf(h.Through)
		}
		mp.Holes = append(mp.Holes, mh)
		mp.Board.Bores = append(mp.Board.Bores, boresOf(mh)...)
	}
}

func boresOf(h model.Hole) []geom.Bore {
	out := []geom.Bore{{At: h.InPart, Dir: h.Dir, Diam: h.Diam, Depth: h.Depth}}
	if h.BoreDiam > h.Diam {
		out = append(out, geom.Bore{At: h.InPart, Dir: h.Dir, Diam: h.BoreDiam, Depth: h.BoreDepth})
	}
	return out
}
