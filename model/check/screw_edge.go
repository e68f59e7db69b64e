package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// Least distances of a screw, mm, with a pilot hole: from an edge 2.5 diameters
// and 3/8 in, from the end of the grain 3/4 in; below three diameters the end
// splits (common practice; NDS commentary from memory).
const (
	edgeLeast = 9.5
	endLeast  = 19.05
)

// screwEdge finds screws too near an edge of the part under the head.
func screwEdge(s *shop) []Finding {
	return s.nearSide(func(p *model.Part, h model.Hole) (float64, float64, string) {
		return toEdge(p, h), math.Max(2.5*h.Hardware.Diam, edgeLeast), "edge"
	})
}

// screwEnd finds screws too near the end of the grain of the part under the head.
func screwEnd(s *shop) []Finding {
	return s.nearSide(func(p *model.Part, h model.Hole) (float64, float64, string) {
		return math.Min(h.Along, p.Length-h.Along), math.Min(endLeast, endRoom(h)), "end"
	})
}

// endRoom is the least end distance where the joint itself sits at the end: a
// slat's screw must meet the middle of what it lies on. There half of the part
// below is all there is, and a pilot keeps it from splitting.
func endRoom(h model.Hole) float64 {
	if h.Joint != nil && len(h.Joint.Second) > 0 {
		return math.Max(3*h.Hardware.Diam, h.Joint.Second[0].Thick*0.45)
	}
	return endLeast
}

// nearSide looks at the clearance holes of all parts.
func (s *shop) nearSide(measure func(*model.Part, model.Hole) (got, least float64, side string)) []Finding {
	var w worst
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if h.Kind != model.ClearanceHole || h.Into != "face" || h.Hardware == nil {
				continue
			}
			got, least, side := measure(p, h)
			if got >= least-0.5 {
				continue
			}
			level := Warning
			if got < 3*h.Hardware.Diam/2 {
				level = Error
			}
			w.add(Finding{Severity: level, Parts: []string{p.Code}, Value: got, Limit: least, Unit: "mm",
				Text: fmt.Sprintf("%s: a screw sits %s from the %s; %s keeps it from splitting", called(p), s.Unit.LongTo(got, expr.Fine), side, s.Unit.LongTo(least, expr.Fine)),
				Fix:  fmt.Sprintf("move it in by %s", s.Unit.LongTo(least-got, expr.Fine))})
		}
	}
	return w.list()
}

// toEdge is how far a hole's center is from the long edges of the outline.
func toEdge(p *model.Part, h model.Hole) float64 {
	best := math.Inf(1)
	ys := p.Board.Outline.Across(h.Along)
	for _, y := range ys {
		best = math.Min(best, math.Abs(y-h.Across))
	}
	if math.IsInf(best, 1) {
		best = p.Board.Outline.Distance(geom.Pt{X: h.Along, Y: h.Across})
	}
	return best
}
