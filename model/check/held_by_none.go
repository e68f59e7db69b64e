package check

import (
	"fmt"
	"math"

	"planset/model"
)

// looseNear is how near a piece must be to another to have been meant to touch it,
// mm: 1/4 in (common practice).
const looseNear = 6.35

// heldByNone finds pieces that no joint holds, in a plan that has joints: those
// that all but touch another, and those that no joint names.
func heldByNone(s *shop) []Finding {
	var t tally
	for _, i := range s.heldByNone() {
		p := s.Placed[i]
		f := Finding{Severity: Warning, Limit: touchTol, Unit: "mm", Text: "no joint holds it", Fix: "name it in a joint, or waive this where it is meant to lie loose"}
		if near, gap := s.missed(i); near != nil {
			f.Value, f.Text = gap, fmt.Sprintf("no joint holds it: it misses %s by %s", called(near), s.atLeast(gap))
			f.Fix = fmt.Sprintf("move it %s that way, so that they touch", s.atLeast(gap))
		}
		t.add(p.Part.Key, f.Value, f, p.Part)
	}
	return t.named()
}

// heldByNone are the pieces that no joint holds, rising; none in a plan without
// joints.
func (s *shop) heldByNone() []int {
	if len(s.Joints) == 0 || len(s.Placed) < 2 {
		return nil
	}
	held := make([]bool, len(s.Placed))
	for pair := range s.ties { // in any order: each sets its own
		held[pair[0]] = true
	}
	var out []int
	for i, h := range held {
		if !h {
			out = append(out, i)
		}
	}
	return out
}

// missed is the part that a piece all but touches, and how far it is; nil when it
// touches one, or none is near.
func (s *shop) missed(i int) (near *model.Part, gap float64) {
	p := s.Placed[i]
	gap = math.Inf(1)
	for _, q := range s.Placed {
		if q == p {
			continue
		}
		if way, ok := apart(p.Solid, q.Solid, looseNear); ok && way.Len() < gap {
			near, gap = q.Part, way.Len()
		}
	}
	if gap <= touchTol {
		return nil, 0
	}
	return near, gap
}
