package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	doing "planset/model/shop"
	"planset/model/strength"
)

// planter tells what a planter weighs when it is full and wet, and finds one that
// then falls over on a slope of 3 degrees. The weight of wet soil is from memory.
func planter(s *shop) []Finding {
	b, ok := strength.BaseOf(s.Plan)
	if !ok {
		return nil
	}
	var t tally
	for _, v := range strength.Vessels(s.Plan) {
		if !strength.Planted(s.Plan, v) {
			continue
		}
		floor := s.partsAt(v.Floor)
		all := b.Mass + v.Mass()
		t.add("full", v.Mass(), Finding{Severity: Note, Value: all, Limit: b.Mass, Unit: "kg",
			Text: fmt.Sprintf("full of wet soil it weighs %s, empty %s, and stands on %s of feet", doing.Mass(s.Unit, all), doing.Mass(s.Unit, b.Mass), s.area(s.footArea())),
			Fix:  "tell the buyer in a note to place it before it is filled, and waive this"}, floor...)
		center := b.Center.Mul(b.Mass / all).Add(v.Center.Mul(v.Mass() / all))
		s.fullFalls(&t, strength.Base{Feet: b.Feet, Center: center, Mass: all}, floor)
	}
	return t.list()
}

// fullFalls tips a full planter each way.
func (s *shop) fullFalls(t *tally, b strength.Base, floor []*model.Part) {
	for _, way := range []struct {
		name string
		dir  geom.V3
	}{{"forward", geom.V3{Y: -1}}, {"rearward", geom.V3{Y: 1}}, {"to the right", geom.V3{X: 1}}, {"to the left", geom.V3{X: -1}}} {
		slope := b.Tip(way.dir).Slope
		deg := slope * 180 / math.Pi
		if deg >= tipSlope {
			continue
		}
		t.add("falls "+way.name, -deg, Finding{Severity: Warning, Value: deg, Limit: tipSlope, Unit: "deg",
			Text: fmt.Sprintf("full of wet soil it falls %s on ground that slopes by %s", way.name, degrees(math.Max(0, deg))),
			Fix:  fmt.Sprintf("move the feet on that side out by %s", s.more(b.Center.Z*(math.Tan(tipSlope*math.Pi/180)-math.Tan(slope))))}, floor...)
	}
}

// footArea is the area of all faces that lie on the floor, mm².
func (s *shop) footArea() float64 {
	sum := 0.0
	for _, p := range s.Placed {
		for _, f := range p.Solid.Faces {
			if f.N.Z < -looksUp && onFloor(f) {
				sum += f.Area()
			}
		}
	}
	return sum
}
