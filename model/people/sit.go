package people

import (
	"math"
	"slices"

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
// seat_slope and lean as recline say, and the level boards beside the seat and
// above it. A piece whose author calls it a chair, a bench or a stool needs no
// measures: its seat is the widest face that nearly lies, its back the widest
// that leans. ok is false for a piece that is not sat on.
func SitOf(p *model.Plan) (s Sit, ok bool) {
	s.Slope, ok = angle(p, "seat_slope")
	if !ok && satOn(p.Kind) {
		s.Slope, ok = widest(p, seatNormal, lyingMost)
	}
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
	s.Front, s.Rear = s.on(s.foremost), s.on(s.rearmost)
	for i, q := range p.Placed {
		s.lookForArm(i, q)
	}
	if math.IsInf(s.ArmIn, 1) {
		s.ArmIn = 0
	}
	s.findBack(p)
	return s, true
}

// satOn reports whether a kind of furniture is sat on.
func satOn(k model.Kind) bool { return k == model.Chair || k == model.Bench || k == model.Stool }

// How far a seat may lie off level and a back off plumb to be found by their
// shape alone (common practice).
const (
	lyingMost   = 20 * degree
	leaningMost = 45 * degree
)

// seatNormal is where a seat looks that falls by an angle.
func seatNormal(a float64) geom.V3 { return geom.V3{Y: math.Sin(a), Z: math.Cos(a)} }

// backNormal is where the face of a back looks that leans by an angle.
func backNormal(a float64) geom.V3 { return geom.V3{Y: -math.Cos(a), Z: math.Sin(a)} }

// widest is the angle, up to most, of the plane in which the wide faces that look
// as normal says have the greatest area.
func widest(p *model.Plan, normal func(float64) geom.V3, most float64) (is float64, ok bool) {
	var area, angles []float64
	for _, q := range p.Placed {
		for _, f := range q.Solid.Faces {
			a := math.Acos(math.Max(-1, math.Min(1, f.N.Dot(normal(0)))))
			if f.Kind != geom.Flat || a > most || f.N.Sub(normal(a)).Len() > 10*near {
				continue
			}
			k := slices.IndexFunc(angles, func(b float64) bool { return math.Abs(a-b) < near })
			if k < 0 {
				k = len(angles)
				angles, area = append(angles, a), append(area, 0)
			}
			area[k] += f.Area()
		}
	}
	if len(angles) == 0 {
		return 0, false
	}
	return angles[slices.Index(area, slices.Max(area))], true
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

// Places are the middles of the places on the seat, side by side, for a sitter
// so far along it as Depth says.
func (s *Sit) Places(p *model.Plan, part float64) []geom.V3 {
	n := Sitters(p)
	out := make([]geom.V3, n)
	for i := range out {
		out[i] = s.Depth(part)
		out[i].X += 2 * s.Side * ((float64(i)+0.5)/float64(n) - 0.5)
	}
	return out
}

// Sitters is how many sit side by side: what the author says, else two on a
// bench and one on anything else.
func Sitters(p *model.Plan) int {
	switch {
	case p.Seats > 0:
		return p.Seats
	case p.Kind == model.Bench:
		return 2
	}
	return 1
}

// look takes a piece for a board of the seat.
func (s *Sit) look(i int, q *model.Placed) {
	for _, f := range q.Solid.Faces {
		if f.Kind == geom.Flat && f.N.Sub(seatNormal(s.Slope)).Len() < 10*near {
			s.Seats, s.surface = with(s.Seats, i), f.Loops[0][0]
			s.reach(q)
		}
	}
}

// What an arm is: a board within 10 degrees of level that runs front to rear
// beside the middle, 4 to 16 in above the front of the seat (common practice).
const (
	armTilt = 10 * degree
	armLow  = 4 * inch
	armHigh = 16 * inch
)

// lookForArm takes a piece for an arm.
func (s *Sit) lookForArm(i int, q *model.Placed) {
	if math.Abs(q.Pose.Along.Y) < 0.8 || slices.Contains(s.Seats, i) {
		return
	}
	for _, f := range q.Solid.Faces {
		up := f.Loops[0][0].Z - s.Front.Z
		beside := math.Inf(1)
		for _, v := range f.Loops[0] {
			beside = math.Min(beside, math.Abs(v.X))
		}
		if f.Kind != geom.Flat || f.N.Z < math.Cos(armTilt) || up < armLow || up > armHigh || beside < s.Side/2 {
			continue
		}
		s.Arms = with(s.Arms, i)
		for _, v := range f.Loops[0] {
			if v.X > s.ArmEnd.X {
				s.ArmEnd = v
			}
			if v.X > 0 {
				s.ArmIn = math.Min(s.ArmIn, v.X)
			}
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
	if !ok && (p.Kind == model.Chair || p.Kind == model.Bench) {
		r, ok = widest(p, backNormal, leaningMost)
	}
	if !ok {
		return
	}
	n := backNormal(r)
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
