package dims

import (
	"planset/layouts/sight"
	"planset/model/geom"
)

// faceCell is how fine the picture under the leaders is looked at, mm.
const faceCell = 0.5

// look fills in the faces, so that it is known which of them is seen where.
func (s *scene) look(faces []Face) {
	all := geom.NoBox()
	for _, f := range faces {
		for _, p := range f.Loop {
			all = all.With(p)
		}
	}
	if len(faces) == 0 || !finite(all) {
		s.seen = sight.New(geom.NoBox(), faceCell)
		return
	}
	s.seen = sight.New(all.Grow(1), faceCell)
	for i, f := range faces {
		if len(f.Loop) > 2 {
			s.seen.Fill([][]geom.Pt{f.Loop}, i)
		}
	}
}

// Prices of a leader running over what it does not name: a step that any clean
// way round is worth, and a rate for each millimetre.
const (
	overPart, overPartRate   = 60, 3
	overSmall, overSmallRate = 5, 1.5
)

// overFaces prices a leader running over faces that are not its own. From limit on
// it stops counting.
func (s *scene) overFaces(p *sitter, a, b geom.Pt, limit float64) float64 {
	part, small, sum := 0.0, 0.0, 0.0
	s.seen.Along(a, b, func(i int, long float64) bool {
		if i == sight.Nobody {
			return false
		}
		switch f := &s.field.Faces[i]; {
		case f.Small:
			small += long
		case f.Code != p.Code || f.Hand != p.Hand:
			part += long
		default:
			return false
		}
		sum = 0
		if part > 0 {
			sum = overPart + overPartRate*part
		}
		if small > 0 {
			sum += overSmall + overSmallRate*small
		}
		return sum >= limit
	})
	return sum
}
