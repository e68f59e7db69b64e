package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// A rail that lies on the ground over 2 ft rocks on whatever is under its middle
// and rots there: it has 1/2 in of air in the middle third of what lies on the
// floor. A foot flat of less than 1 in splinters when it is dragged, unless both
// its arrises are eased by 1/8 in (common practice).
const (
	railLong   = 609.6
	railHollow = 12.7
	footLeast  = 25.4
	footEased  = 3.175
)

// feet finds narrow feet, end grain that stands bare on the ground and long
// rails that lie on it.
func feet(s *shop) []Finding {
	var t tally
	for _, p := range s.Placed {
		ends := false
		for _, f := range p.Solid.Faces {
			if f.N.Z > -looksUp || !onFloor(f) {
				continue
			}
			ends = ends || f.Kind == geom.End
			if _, short := spread(f.Loops[0], f.N); short < footLeast-floorTol && !easedFoot(p, f) {
				t.add(p.Part.Key+"foot", -short, Finding{Severity: Warning, Value: short, Limit: footLeast, Unit: "mm",
					Text: fmt.Sprintf("it stands on a flat of %s with sharp arrises, which splinters", s.long(short)),
					Fix:  fmt.Sprintf("chamfer both its arrises by %s, or make it %s wide", s.long(footEased), s.Unit.LongTo(footLeast, expr.Coarse))}, p.Part)
			}
		}
		if ends && !s.seals(p.Part) {
			t.add(p.Part.Key+"end", 0, Finding{Severity: Warning, Text: "it stands on end grain, and no coat is named for that",
				Fix: fmt.Sprintf("say in end_grain of [finish] what the feet get, or set them on pads of %s", s.long(6.35))}, p.Part)
		}
		s.onGround(&t, p)
	}
	return t.named()
}

// onGround looks at a piece that lies along the floor.
func (s *shop) onGround(t *tally, p *model.Placed) {
	u := p.Pose.Along
	low, far := math.Inf(1), math.Inf(-1)
	for _, f := range p.Solid.Faces {
		if f.N.Z > -looksUp || !onFloor(f) {
			continue
		}
		for _, v := range f.Loops[0] {
			low, far = math.Min(low, v.Dot(u)), math.Max(far, v.Dot(u))
		}
	}
	long := far - low
	if long <= railLong+slack {
		return
	}
	third := []geom.Plane{{P: u.Mul(far - long/3), N: u}, {P: u.Mul(low + long/3), N: u.Neg()}}
	deep, ok := p.Solid.MaxAlong(geom.V3{Z: -1}, third)
	air := -deep
	if !ok || air >= railHollow-slack {
		return
	}
	t.add(p.Part.Key+"rail", -air, Finding{Severity: Warning, Value: math.Max(0, air), Limit: railHollow, Unit: "mm",
		Text: fmt.Sprintf("it lies on the ground over %s with %s of air under its middle; %s lets it dry and keeps it from rocking", s.long(long), s.long(math.Max(0, air)), s.long(railHollow)),
		Fix:  fmt.Sprintf("hollow the middle third by %s more", s.more(railHollow-math.Max(0, air)))}, p.Part)
}

// easedFoot reports whether both long arrises of a foot are rounded or chamfered.
func easedFoot(p *model.Placed, f geom.Face) bool {
	n := p.Pose.LocalDir(f.N)
	names := p.Part.Names
	side, face := "", ""
	switch f.Kind {
	case geom.End:
		side = names.Ends[second(n.X)]
	case geom.Side:
		side = names.Edges[second(n.Y)]
	default:
		face = names.Faces[second(n.Z)]
	}
	eased := 0
	for _, a := range p.Part.Arrises {
		if a.Size >= footEased-0.1 && (side != "" && a.Side == side || face != "" && a.Face == face && slices.Contains(names.Edges[:], a.Side)) {
			eased++
		}
	}
	return eased > 1
}

// second is the index of the side that a direction looks to.
func second(x float64) int {
	if x > 0 {
		return 1
	}
	return 0
}

// seals reports whether the plan says what end grain gets: in the finish, in a
// step that puts it on, or in the note of the part.
func (s *shop) seals(p *model.Part) bool {
	const ends = "end grain"
	if s.Finish.EndGrain != "" || hasWord(p.Note, ends) || slices.ContainsFunc(s.Finish.Text, func(l string) bool { return hasWord(l, ends) }) {
		return true
	}
	return slices.ContainsFunc(s.Steps, func(st *model.Step) bool { return st.Finish && says(st, ends) })
}

// onFloor reports whether a whole face lies on the floor.
func onFloor(f geom.Face) bool {
	for _, v := range f.Loops[0] {
		if math.Abs(v.Z) > floorTol {
			return false
		}
	}
	return true
}
