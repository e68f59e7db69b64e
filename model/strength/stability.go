package strength

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

const gravity = 9.80665 // m/s²

// A Tip is one way a piece may fall over: what holds it, what tips it, N·mm
// about the edge of its feet.
type Tip struct {
	Way     string // "forward", "sideways", "rearward"
	What    string // the loads in words
	Holding float64
	Tipping float64
	Margin  float64 // holding over tipping; +Inf when nothing tips it
	Slope   float64 // radians: the empty piece falls over on ground that steep
	Memory  bool    // its loads are from memory, not read in the standard
}

// A Force is a push at a point.
type Force struct{ At, Push geom.V3 }

// Base is what a piece stands on and how heavy it is.
type Base struct {
	Feet   []geom.V3
	Center geom.V3 // of mass
	Mass   float64 // kg
}

// BaseOf measures a plan's feet, centre of mass and mass. ok is false when
// nothing stands on the floor.
func BaseOf(p *model.Plan) (b Base, ok bool) {
	for _, q := range p.Placed {
		b.Mass += q.Part.Mass
		b.Center = b.Center.Add(q.Center.Mul(q.Part.Mass))
		b.Feet = append(b.Feet, soles(q)...)
	}
	if b.Mass > 0 {
		b.Center = b.Center.Mul(1 / b.Mass)
	}
	return b, len(b.Feet) > 2 && b.Mass > 0
}

// rocksOn is how far above the floor a foot may end and still carry, mm: the piece
// rocks on to it. That it hangs is model/check's to tell.
const rocksOn = 5.0

// soles are the corners of a piece that stand on the floor, or nearly.
func soles(q *model.Placed) []geom.V3 {
	const onFloor = 0.05
	low := math.Inf(1)
	for _, f := range q.Solid.Faces {
		for _, v := range f.Loops[0] {
			low = math.Min(low, v.Z)
		}
	}
	if math.Abs(low) > rocksOn {
		return nil
	}
	var out []geom.V3
	for _, f := range q.Solid.Faces {
		for _, v := range f.Loops[0] {
			if v.Z < low+onFloor {
				out = append(out, v)
			}
		}
	}
	return out
}

// Tip works out the moments of the weight and of some forces about the line
// under the feet that are farthest in a level direction, square to it.
func (b Base) Tip(way geom.V3, forces ...Force) Tip {
	edge := math.Inf(-1)
	for _, f := range b.Feet {
		edge = math.Max(edge, f.Dot(way))
	}
	inside := edge - b.Center.Dot(way)
	t := Tip{Slope: math.Atan2(inside, b.Center.Z)}
	t.add(b.Mass * gravity * inside)
	for _, f := range forces {
		t.add(-f.Push.Z * (edge - f.At.Dot(way)))
		t.add(-f.Push.Dot(way) * f.At.Z)
	}
	t.Margin = math.Inf(1)
	if t.Tipping > 0 {
		t.Margin = t.Holding / t.Tipping
	}
	return t
}

func (t *Tip) add(moment float64) {
	if moment > 0 {
		t.Holding += moment
	} else {
		t.Tipping -= moment
	}
}

// Forces of EN 1022, read at second hand but for the ones marked.
const (
	sitter     = 600.0   // N down
	fromEdge   = 60.0    // mm in from the edge of the seat
	pull       = 20.0    // N sideways
	onSeat     = 250.0   // N with arms, from memory
	onArm      = 350.0   // N, from memory
	offCenter  = 100.0   // mm, from memory
	inOnArm    = 40.0    // mm, from memory
	loading    = 2.0 / 3 // of the seat's depth from the front, where it is loaded, from memory
	backHeight = 300.0   // mm above the seat where the back is pushed, from memory
)

// RearPush returns the push on the back in N for a seat height in mm: 0.2857
// (1000 − h), at least 80 N (ISO 7174-1 and EN 1022, from memory).
func RearPush(seat float64) float64 { return math.Max(80, 0.2857*(1000-seat)) }

// Tips tries a seat forward, sideways and rearward, and anything else by the
// slope it falls over on.
func Tips(p *model.Plan) []Tip {
	b, ok := BaseOf(p)
	if !ok {
		return nil
	}
	ways := map[string]geom.V3{"forward": {Y: -1}, "sideways": {X: 1}, "rearward": {Y: 1}}
	s, seated := people.SitOf(p)
	var out []Tip
	for _, name := range []string{"forward", "sideways", "rearward"} {
		var forces []Force
		what, memory := "its own weight alone", false
		if seated {
			forces, what, memory = push1022(&s, name)
		}
		t := b.Tip(ways[name], forces...)
		t.Way, t.What, t.Memory = name, what, memory
		out = append(out, t)
	}
	return out
}

// push1022 is the forces for one way to fall.
func push1022(s *people.Sit, way string) (list []Force, what string, memory bool) {
	down := func(at geom.V3, n float64) Force { return Force{at, geom.V3{Z: -n}} }
	switch way {
	case "forward":
		at := geom.V3{Y: s.Front.Y + fromEdge, Z: s.Front.Z}
		return []Force{down(at, sitter), {at, geom.V3{Y: -pull}}}, "600 N 60 mm behind the front edge, 20 N forward", false
	case "sideways":
		middle := s.Depth(0.5)
		if len(s.Arms) > 0 {
			at := geom.V3{X: s.ArmEnd.X - inOnArm, Y: middle.Y, Z: s.ArmEnd.Z}
			return []Force{down(geom.V3{X: offCenter, Y: middle.Y, Z: middle.Z}, onSeat), down(at, onArm), {at, geom.V3{X: pull}}},
				"250 N on the seat, 350 N on the arm, 20 N outward", true
		}
		at := geom.V3{X: s.Side - fromEdge, Y: middle.Y, Z: middle.Z}
		return []Force{down(at, sitter), {at, geom.V3{X: pull}}}, "600 N 60 mm in from the side edge, 20 N sideways", false
	}
	at := s.Depth(loading)
	list = []Force{down(at, sitter)}
	if len(s.Backs) > 0 {
		back := geom.V3{Y: at.Y, Z: math.Min(s.BackTop.Z, at.Z+backHeight)}
		return append(list, Force{back, geom.V3{Y: RearPush(s.Front.Z)}}), "600 N on the seat, a push on the back", true
	}
	return append(list, Force{at, geom.V3{Y: pull}}), "600 N on the seat, 20 N rearward", true
}
