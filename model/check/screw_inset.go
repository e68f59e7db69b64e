package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"planset/model"
)

// inset is how far the head of a screw stands from the nearer edge of its piece.
type inset struct {
	in    float64
	edge  int // 0 or 1
	piece *model.Placed
}

// insetOf is not ok for a screw that is driven into an edge.
func (s *shop) insetOf(f model.Fastener) (inset, bool) {
	b := s.bores(f)[0]
	across := b.piece.Pose.Across
	in, ok := b.beside(across)
	if !ok {
		return inset{}, false
	}
	edge := 0
	if b.mouth.Sub(b.piece.Center).Dot(across) > 0 {
		edge = 1
	}
	return inset{in, edge, b.piece}, true
}

// alikeInset looks at how far the heads of one part, or of its family, stand from
// the same edge: all alike, or clearly otherwise.
func (s *shop) alikeInset(t *tally, j *model.Joint) {
	by := map[string][]inset{}
	var order []string
	for _, f := range j.Fasteners {
		h, ok := s.insetOf(f)
		if !ok {
			continue
		}
		key := fmt.Sprint(h.piece.Part.Key, h.edge)
		if by[key] == nil {
			order = append(order, key)
		}
		by[key] = append(by[key], h)
	}
	for _, key := range order {
		list := by[key]
		slices.SortStableFunc(list, func(a, b inset) int { return cmp.Compare(a.in, b.in) })
		for k := 1; k < len(list); k++ {
			a, b := list[k-1], list[k]
			if off := b.in - a.in; off > rowTrue && off < rowOther {
				s.unlike(t, j, [2]inset{a, b}, unlikeHeads{rowTrue, "from the same edge of two pieces", "give both the same inset: %s more for one"})
			}
		}
	}
}

// evenSides looks at the outer heads of one piece: as far from one edge as from
// the other, or clearly otherwise.
func (s *shop) evenSides(t *tally, j *model.Joint) {
	by := make([][2]*inset, len(s.Placed))
	for _, f := range j.Fasteners {
		h, ok := s.insetOf(f)
		if !ok {
			continue
		}
		if old := by[h.piece.Index][h.edge]; old == nil || h.in < old.in {
			by[h.piece.Index][h.edge] = &h
		}
	}
	for _, sides := range by {
		if sides[0] == nil || sides[1] == nil {
			continue
		}
		near := math.Min(sides[0].in, sides[1].in)
		if off := math.Abs(sides[0].in - sides[1].in); off > math.Max(rowSides, rowShare*near) && off < rowOther {
			s.unlike(t, j, [2]inset{*sides[0], *sides[1]}, unlikeHeads{rowSides, "from the two edges of one piece", "bring the farther one %s nearer to its edge"})
		}
	}
}

// unlikeHeads is what two heads are told for: how far they may differ, where they
// stand, and what to do.
type unlikeHeads struct {
	most       float64
	where, fix string
}

// unlike enters the finding for two heads that stand unlike far from their edges.
func (s *shop) unlike(t *tally, j *model.Joint, two [2]inset, u unlikeHeads) {
	near, far := two[0], two[1]
	if near.in > far.in {
		near, far = far, near
	}
	off := far.in - near.in
	a, b := s.against(near.in, far.in)
	t.add(j.Key+u.where+near.piece.Part.Key, off, Finding{Severity: Warning, Value: off, Limit: u.most, Unit: "mm",
		Text: fmt.Sprintf("%s: heads stand %s and %s %s", jointName(j), a, b, u.where),
		Fix:  fmt.Sprintf(u.fix, s.more(off))}, near.piece.Part, far.piece.Part)
}
