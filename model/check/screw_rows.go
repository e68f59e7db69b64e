package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// Screw heads that are seen stand in order to 1/32 in (common practice); what is
// off by more than rowOther is another row. The two sides of one piece are
// compared less keenly, to 1/8 in.
const (
	rowTrue  = 0.8
	rowOther = 8
	rowSides = 3.2
	rowShare = 0.2 // of the distance from the edge: of less the eye makes nothing
)

// screwRows finds heads that have no mirror image on the other side, rows that
// wander, and heads of one part that stand unlike far from its edges.
func screwRows(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		if len(j.Fasteners) == 0 || j.Fasteners[0].Hardware.Kind != model.WoodScrew {
			continue
		}
		s.mirrored(&t, j)
		s.inRows(&t, j)
		s.alikeInset(&t, j)
		s.evenSides(&t, j)
	}
	return t.named()
}

// mirrored looks for the image of each head in the centre plane, wherever the
// piece itself has one, among the heads of all joints in such a piece.
func (s *shop) mirrored(t *tally, j *model.Joint) {
	for _, f := range j.Fasteners {
		want := geom.V3{X: -f.Head.X, Y: f.Head.Y, Z: f.Head.Z}
		if p := s.Placed[f.Pieces[0]]; !s.twin(p) {
			continue
		}
		off := math.Inf(1)
		for _, g := range s.fasteners() {
			if g.Hardware.Kind == model.WoodScrew && s.Placed[g.Pieces[0]].Part == s.Placed[f.Pieces[0]].Part {
				off = math.Min(off, g.Head.Sub(want).Len())
			}
		}
		if off <= rowTrue {
			continue
		}
		text, fix := fmt.Sprintf("%s: a screw's head and its mirror image differ by %s", jointName(j), s.long(off)), fmt.Sprintf("move one of them by %s", s.more(off))
		if off > 4*rowOther {
			text, fix = fmt.Sprintf("%s: a screw has no mate on the other side", jointName(j)), fmt.Sprintf("set one %s from the center line there", s.long(math.Abs(f.Head.X)))
		}
		t.add(j.Key+"mirror", off, Finding{Severity: Warning, Value: off, Limit: rowTrue, Unit: "mm", Text: text, Fix: fix}, s.Placed[f.Pieces[0]].Part)
	}
}

// twin reports whether a piece has a mirror image, itself or another.
func (s *shop) twin(p *model.Placed) bool {
	want := geom.V3{X: -p.Center.X, Y: p.Center.Y, Z: p.Center.Z}
	return slices.ContainsFunc(s.Placed, func(q *model.Placed) bool {
		return q.Part == p.Part && q.Center.Sub(want).Len() < rowTrue && math.Abs(q.Pose.Along.X) > math.Abs(p.Pose.Along.X)-1e-6
	})
}

// inRows looks at the heads that go into one piece from pieces that lie side by
// side: across that piece they stand in rows.
func (s *shop) inRows(t *tally, j *model.Joint) {
	by := map[int][]model.Fastener{}
	var order []int
	for _, f := range j.Fasteners {
		if by[f.Pieces[1]] == nil {
			order = append(order, f.Pieces[1])
		}
		by[f.Pieces[1]] = append(by[f.Pieces[1]], f)
	}
	for _, i := range order {
		pose := s.Placed[i].Pose
		at := func(f model.Fastener) float64 {
			side := pose.Thick.Cross(pose.Along)
			if math.Abs(side.Dot(f.Dir)) > 0.7 {
				side = pose.Thick
			}
			return f.Head.Sub(pose.Origin).Dot(side)
		}
		list := by[i]
		slices.SortStableFunc(list, func(a, b model.Fastener) int { return cmp.Compare(at(a), at(b)) })
		for k := 1; k < len(list); k++ {
			a, b := list[k-1], list[k]
			off := at(b) - at(a)
			if off <= rowTrue || off >= rowOther || a.Pieces[0] == b.Pieces[0] {
				continue
			}
			t.add(j.Key+"row", off, Finding{Severity: Warning, Value: off, Limit: rowTrue, Unit: "mm",
				Text: fmt.Sprintf("%s: heads in one row stand %s out of line", jointName(j), s.long(off)),
				Fix:  fmt.Sprintf("shift one of the two pieces by %s", s.more(off))}, s.Placed[a.Pieces[0]].Part, s.Placed[b.Pieces[0]].Part)
		}
	}
}
