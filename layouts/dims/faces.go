package dims

import (
	"slices"

	"planset/layouts/inspect"
	"planset/model/geom"
)

// overFaces prices a leader running over faces that are not its own.
func (s *scene) overFaces(p *sitter, a, b geom.Pt) float64 {
	sum := 0.0
	line := geom.NoBox().With(a).With(b)
	for i, f := range s.field.Faces {
		if f.Code == p.Code && f.Hand == p.Hand || !s.faces[i].Meets(line) {
			continue
		}
		if l := lengthInside(a, b, f.Loop); l > 0.3 {
			sum += 4 + 0.6*l
		}
	}
	return sum
}

// onFace reports whether a tab would cover part of the picture.
func (s *scene) onFace(q inspect.Quad) bool {
	box := q.Box()
	for i, f := range s.field.Faces {
		if s.faces[i].Meets(box) && (lengthInside(q.Corners()[0], q.Corners()[2], f.Loop) > 0 || inLoop(q.C, f.Loop)) {
			return true
		}
	}
	return false
}

// lengthInside returns how much of the line from a to b is inside loop.
func lengthInside(a, b geom.Pt, loop []geom.Pt) float64 {
	d := b.Sub(a)
	cuts := []float64{0, 1}
	for i, p := range loop {
		e := loop[(i+1)%len(loop)].Sub(p)
		if den := d.Cross(e); den != 0 {
			t, u := p.Sub(a).Cross(e)/den, p.Sub(a).Cross(d)/den
			if t > 0 && t < 1 && u >= 0 && u < 1 {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	sum := 0.0
	for i := 1; i < len(cuts); i++ {
		if inLoop(a.Add(d.Mul((cuts[i]+cuts[i-1])/2)), loop) {
			sum += cuts[i] - cuts[i-1]
		}
	}
	return sum * d.Len()
}

func inLoop(p geom.Pt, loop []geom.Pt) bool {
	in := false
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
