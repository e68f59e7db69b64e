package strength

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// seat is where a person loads a piece.
type seat struct {
	front, middle, load geom.V3 // front edge, middle and loading point of the seat
	back, arm           geom.V3 // top of the back; outer end of an arm's top; zero when there is none
	side                float64 // half the seat's width
	seats, backs, arms  []int   // pieces
}

// loading is how far from the front the seat is loaded, of its depth; from memory.
const loading = 2.0 / 3

// near is how well a face's slope must agree with a measure, radians.
const near = 1e-6

// seatOf finds seat, back and arms by the measured slope and recline. ok is false
// for a piece that is not sat on.
func seatOf(p *model.Plan) (s seat, ok bool) {
	slope, ok := angle(p, "seat_slope")
	if !ok {
		return s, false
	}
	box := geom.NoBox3()
	for i, q := range p.Placed {
		arm := isArm(q.Part)
		for _, f := range q.Solid.Faces {
			up := f.Kind == geom.Flat && f.N.Z > 0
			switch {
			case up && arm:
				s.arms = with(s.arms, i)
				s.arm = far(s.arm, f)
			case up && math.Abs(math.Acos(math.Min(1, f.N.Z))-slope) < near:
				s.seats = with(s.seats, i)
				for _, v := range f.Loops[0] {
					box = box.With(v)
					if len(s.seats) == 1 && s.front == (geom.V3{}) || v.Y < s.front.Y {
						s.front = v
					}
				}
			}
		}
	}
	if len(s.seats) == 0 {
		return s, false
	}
	s.findBack(p)
	s.side = box.Max.X
	on := func(part float64) geom.V3 {
		y := box.Min.Y + part*(box.Max.Y-box.Min.Y)
		return geom.V3{Y: y, Z: s.front.Z - (y-s.front.Y)*math.Tan(slope)}
	}
	s.middle, s.load = on(0.5), on(loading)
	return s, true
}

// findBack finds the boards that lean as the back and run up it.
func (s *seat) findBack(p *model.Plan) {
	recline, ok := angle(p, "recline")
	if !ok {
		return
	}
	for i, q := range p.Placed {
		if math.Abs(q.Pose.Along.Z) < 0.5 {
			continue
		}
		for _, f := range q.Solid.Faces {
			if f.Kind != geom.Flat || math.Abs(math.Asin(math.Min(1, math.Abs(f.N.Z)))-recline) > near {
				continue
			}
			s.backs = with(s.backs, i)
			for _, v := range f.Loops[0] {
				if v.Z > s.back.Z {
					s.back = v
				}
			}
		}
	}
}

func with(list []int, i int) []int {
	if len(list) > 0 && list[len(list)-1] == i {
		return list
	}
	return append(list, i)
}

// far is the corner of the faces seen so far that is farthest right.
func far(old geom.V3, f geom.Face) geom.V3 {
	for _, v := range f.Loops[0] {
		if v.X > old.X {
			old = v
		}
	}
	return old
}

func angle(p *model.Plan, name string) (float64, bool) {
	for _, m := range p.Measures {
		if m.Name == name && m.Value.Dim == (expr.Dim{Angle: 1}) {
			return m.Value.V, true
		}
	}
	return 0, false
}

// isArm reports whether a part is called an arm.
func isArm(p *model.Part) bool {
	words := strings.FieldsFunc(strings.ToLower(p.Key+" "+p.Name), func(r rune) bool { return r == '_' || r == ' ' })
	return len(words) > 0 && (words[len(words)-1] == "arm" || words[len(words)-1] == "armrest")
}
