package people

import (
	"math"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// A Sit is where a person meets a piece: which boards are seat, back and arms,
// and where they are. Points that the piece does not have are zero.
type Sit struct {
	Slope, Recline      float64 // radians from level and from plumb; recline 0 without a back
	Front               geom.V3 // a point of the seat's front edge
	Rear                geom.V3 // the seat's surface at its rear end, on the centre line
	Meet                geom.V3 // where the faces of seat and back meet, on the centre line
	BackTop             geom.V3 // highest point of the back
	ArmEnd              geom.V3 // the outermost point of the right arm's top
	ArmIn               float64 // from the centre plane to the inner side of the right arm
	Side                float64 // from the centre plane to the side of the seat
	Seats, Backs, Arms  []int   // indices into Placed
	foremost, rearmost  float64 // along the seat
	surface, backFaceAt geom.V3
}

// near is how well a face's slope must agree with a measure, radians.
const near = 1e-6

// SitOf finds seat, back and arms of a solved plan: the wide faces that fall as
// seat_slope and lean as recline say, and what the plan calls an arm. ok is false
// for a piece that is not sat on, one without a seat_slope among its measures.
func SitOf(p *model.Plan) (s Sit, ok bool) {
	s.Slope, ok = angle(p, "seat_slope")
	if !ok {
		return s, false
	}
	s.foremost, s.rearmost, s.ArmIn = math.Inf(1), math.Inf(-1), math.Inf(1)
	for i, q := range p.Placed {
		s.look(i, q)
	}
	if len(s.Seats) == 0 {
		return s, false
	}
	if math.IsInf(s.ArmIn, 1) {
		s.ArmIn = 0
	}
	s.Front, s.Rear = s.on(s.foremost), s.on(s.rearmost)
	s.findBack(p)
	return s, true
}

// rearward is the way down the seat.
func (s *Sit) rearward() geom.V3 {
	return geom.V3{Y: math.Cos(s.Slope), Z: -math.Sin(s.Slope)}
}

// on is the point of the seat's surface on the centre line, t along the seat.
func (s *Sit) on(t float64) geom.V3 {
	d := s.rearward()
	at := s.surface
	at.X = 0
	return at.Add(d.Mul(t - at.Dot(d)))
}

// Depth returns a point of the seat's surface on the centre line, part of the
// way from the front edge to the rear end.
func (s *Sit) Depth(part float64) geom.V3 {
	return s.Front.Add(s.Rear.Sub(s.Front).Mul(part))
}

// look takes a piece for seat or arm.
func (s *Sit) look(i int, q *model.Placed) {
	arm := isArm(q.Part)
	for _, f := range q.Solid.Faces {
		if f.Kind != geom.Flat || f.N.Z <= 0 {
			continue
		}
		switch {
		case arm:
			s.Arms = with(s.Arms, i)
			for _, v := range f.Loops[0] {
				if v.X > s.ArmEnd.X {
					s.ArmEnd = v
				}
				if v.X > 0 {
					s.ArmIn = math.Min(s.ArmIn, v.X)
				}
			}
		case math.Abs(math.Acos(math.Min(1, f.N.Z))-s.Slope) < near:
			s.Seats, s.surface = with(s.Seats, i), f.Loops[0][0]
			s.reach(q)
		}
	}
}

// reach measures how far a seat board reaches forward, rearward and sideways;
// its whole body counts, since a rounded front edge is still the front.
func (s *Sit) reach(q *model.Placed) {
	d := s.rearward()
	for _, f := range q.Solid.Faces {
		for _, v := range f.Loops[0] {
			s.foremost, s.rearmost = math.Min(s.foremost, v.Dot(d)), math.Max(s.rearmost, v.Dot(d))
			s.Side = math.Max(s.Side, v.X)
		}
	}
}

// findBack finds the boards that lean as the back and run up it.
func (s *Sit) findBack(p *model.Plan) {
	r, ok := angle(p, "recline")
	if !ok {
		return
	}
	// The face looks forward and up.
	n := geom.V3{Y: -math.Cos(r), Z: math.Sin(r)}
	for i, q := range p.Placed {
		if math.Abs(q.Pose.Along.Z) < 0.5 {
			continue
		}
		for _, f := range q.Solid.Faces {
			if f.Kind != geom.Flat || f.N.Sub(n).Len() > 10*near {
				continue
			}
			s.Backs, s.backFaceAt, s.Recline = with(s.Backs, i), f.Loops[0][0], r
			for _, v := range f.Loops[0] {
				if v.Z > s.BackTop.Z {
					s.BackTop = v
				}
			}
		}
	}
	if len(s.Backs) > 0 {
		d := s.rearward()
		s.Meet = s.Front.Add(d.Mul(s.backFaceAt.Sub(s.Front).Dot(n) / d.Dot(n)))
	}
}

func with(list []int, i int) []int {
	if len(list) > 0 && list[len(list)-1] == i {
		return list
	}
	return append(list, i)
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
