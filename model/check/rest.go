package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// How a lounge chair carries a body, mm (5th to 95th percentile of adults and
// common practice).
const (
	depthLeast = 405
	depthMost  = 510
	armsLeast  = 508
	backLeast  = 610
	sharpLeast = 6.35
	sameAngle  = 1e-4 // cosine
)

// sitting is what of a chair is sat in, found by its measured angles.
type sitting struct {
	front geom.V3 // the seat's front edge
	fall  geom.V3 // the way back along the seat
	up    geom.V3 // square off the seat
	seats []int   // pieces
	backs []int   // pieces
	lean  geom.V3 // the way up the back
	face  geom.V3 // a point of the back's face
	first *model.Placed
}

// rest measures the seat, the back and the room between the arms of a reclining
// chair.
func rest(s *shop) []Finding {
	c, ok := s.sitting()
	if !ok {
		return nil
	}
	var out []Finding
	say := func(what string, v, lo, hi float64, parts ...string) {
		limit, word, by := lo, "at least", lo-v
		if v > hi {
			limit, word, by = hi, "at most", v-hi
		}
		if v >= lo-slack && v <= hi+slack {
			return
		}
		out = append(out, Finding{Severity: Warning, Parts: parts, Value: v, Limit: limit, Unit: "mm",
			Text: fmt.Sprintf("%s is %s; adults want %s %s", what, s.Unit.LongTo(v, expr.Coarse), word, s.Unit.LongTo(limit, expr.Coarse)),
			Fix:  fmt.Sprintf("change it by %s", s.more(by))})
	}
	if depth, ok := c.depth(); ok {
		say("the seat's depth to the back", depth, depthLeast, depthMost)
	}
	if high := c.high(s); high > 0 {
		say("the back's height over the seat", high, backLeast, math.Inf(1))
	}
	if wide, ok := s.betweenArms(); ok {
		say("the width between the arms", wide, armsLeast, math.Inf(1))
	}
	if r := c.edgeRound(); r < sharpLeast-slack {
		say("the round of the seat's front edge", r, sharpLeast, math.Inf(1), c.first.Part.Code)
	}
	return out
}

// sitting finds the seat and the back by their measured angles.
func (s *shop) sitting() (sitting, bool) {
	slope, ok1 := s.angleOf("seat_slope")
	recline, ok2 := s.angleOf("recline")
	if !ok1 || !ok2 {
		return sitting{}, false
	}
	sin, cos := math.Sincos(slope)
	c := sitting{fall: geom.V3{Y: cos, Z: -sin}, up: geom.V3{Y: sin, Z: cos}}
	sin, cos = math.Sincos(recline)
	c.lean = geom.V3{Y: sin, Z: cos}
	ahead := geom.V3{Y: -cos, Z: sin}
	for i, p := range s.Placed {
		for _, f := range p.Solid.Faces {
			switch {
			case f.Kind != geom.Flat:
			case f.N.Dot(c.up) > 1-sameAngle:
				c.seats = append(c.seats, i)
				for _, v := range f.Loops[0] {
					if c.first == nil || v.Y < c.front.Y {
						c.front, c.first = v, p
					}
				}
			case f.N.Dot(ahead) > 1-sameAngle && p.Part.Rank == 0 && math.Abs(p.Pose.Along.Dot(c.lean)) > 0.7:
				c.backs = append(c.backs, i)
				c.face = f.Loops[0][0]
			}
		}
	}
	return c, len(c.seats) > 0 && len(c.backs) > 0
}

// depth is how far the seat reaches to the face of the back, along the seat. The
// round of the front edge belongs to it.
func (c sitting) depth() (float64, bool) {
	ahead := c.lean.Cross(geom.V3{X: 1})
	run := c.fall.Dot(ahead)
	if math.Abs(run) < 1e-6 {
		return 0, false
	}
	return math.Abs(c.face.Sub(c.front).Dot(ahead)/run) + c.edgeRound(), true
}

// high is how far the back reaches over the seat, along the back.
func (c sitting) high(s *shop) float64 {
	top := math.Inf(-1)
	for _, i := range c.backs {
		for _, v := range s.Placed[i].Solid.Points() {
			top = math.Max(top, v.Sub(c.front).Dot(c.up))
		}
	}
	return top / c.lean.Dot(c.up)
}

// edgeRound is the greatest round or chamfer on the front piece of the seat.
func (c sitting) edgeRound() float64 {
	r := 0.0
	for _, a := range c.first.Part.Arrises {
		r = math.Max(r, a.Size)
	}
	return r
}

// betweenArms is the room between the arms: level wide faces at the measured
// height.
func (s *shop) betweenArms() (float64, bool) {
	right, left := math.Inf(1), math.Inf(-1)
	for _, m := range s.Measures {
		if m.Name != "arm_height" {
			continue
		}
		for _, p := range s.Placed {
			for _, f := range p.Solid.Faces {
				if f.Kind != geom.Flat || f.N.Z < 1-1e-9 || math.Abs(f.Loops[0][0].Z-m.Value.V) > slack {
					continue
				}
				for _, v := range f.Loops[0] {
					if p.Center.X > 0 {
						right = math.Min(right, v.X)
					} else {
						left = math.Max(left, v.X)
					}
				}
			}
		}
	}
	return right - left, !math.IsInf(right-left, 0)
}
