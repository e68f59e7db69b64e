package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

// The rounding of a seat's front edge that does not cut into the knee, and the
// room each sitter of a bench takes, mm (common practice).
const (
	kneeRound  = 6.35
	benchWidth = 558.8
)

// seat holds what is sat on against what adults find comfortable: a chair with a
// back against the ranges of a lounge chair, a bench by its sitters, any seat by
// its front edge.
func seat(s *shop) []Finding {
	sit, ok := people.SitOf(s.Plan)
	if !ok {
		return nil
	}
	var out []Finding
	if len(sit.Backs) > 0 {
		out = s.lounge(sit.Measured())
	}
	out = append(out, s.bench(sit.Measured())...)
	return append(out, s.frontEdge(&sit)...)
}

// lounge compares a chair with the usual ranges.
func (s *shop) lounge(m people.Seat) []Finding {
	var out []Finding
	for _, c := range people.Compare(m) {
		if c.Within() {
			continue
		}
		v, lo, hi := c.Has, c.Low, c.High
		unit, show, change := "mm", s.long, s.more
		if c.Angle {
			v, lo, hi = v*180/math.Pi, lo*180/math.Pi, hi*180/math.Pi
			unit, show, change = "deg", degrees, degrees
		}
		limit, usual := lo, "from "+show(lo)+" to "+show(hi)
		if v > hi {
			limit = hi
		}
		has := show(v)
		if !c.Angle {
			has, _ = s.against(v, limit)
		}
		if math.IsInf(hi, 1) {
			usual = "at " + show(lo) + " and more"
		}
		out = append(out, Finding{Severity: Warning, Value: v, Limit: limit, Unit: unit,
			Text: fmt.Sprintf("%s: %s; most adults sit well %s: %s", c.Name, has, usual, c.Why),
			Fix:  fmt.Sprintf("make it %s %s", change(math.Abs(v-limit)), moreOrLess(v, limit))})
	}
	return out
}

// moreOrLess says which way a value goes to a limit.
func moreOrLess(v, limit float64) string {
	if v < limit {
		return "more"
	}
	return "less"
}

// bench finds a bench too narrow for those who are to sit on it.
func (s *shop) bench(m people.Seat) []Finding {
	n := people.Sitters(s.Plan)
	room := m.Width
	if m.Between > 0 {
		room = math.Min(room, m.Between)
	}
	need := float64(n) * benchWidth
	if n < 2 || room >= need-slack {
		return nil
	}
	return []Finding{{Severity: Warning, Value: room, Limit: need, Unit: "mm",
		Text: fmt.Sprintf("%s for %d sitters; each takes %s", s.long(room), n, s.long(benchWidth)),
		Fix:  fmt.Sprintf("make it %s wider, or write seats = %d", s.more(need-room), max(1, int(room/benchWidth)))}}
}

// frontEdge finds a seat whose front edge is left sharp under the knee.
func (s *shop) frontEdge(sit *people.Sit) []Finding {
	front := s.Placed[sit.Seats[0]]
	for _, i := range sit.Seats {
		if s.boxes[i].Min.Y < s.boxes[front.Index].Min.Y-slack {
			front = s.Placed[i]
		}
	}
	side, top := toward(front, geom.V3{Y: -1}), front.Part.Names.Faces[second(front.Pose.Thick.Z)]
	eased := 0.0
	for _, a := range front.Part.Arrises {
		if a.Side == side && a.Face == top {
			eased = math.Max(eased, a.Size)
		}
	}
	if eased >= kneeRound-0.1 {
		return nil
	}
	return []Finding{{Severity: Warning, Parts: []string{front.Part.Code}, Value: eased, Limit: kneeRound, Unit: "mm",
		Text: fmt.Sprintf("%s: its front edge is eased by %s; under %s it presses into the knee", called(front.Part), s.long(eased), s.long(kneeRound)),
		Fix:  fmt.Sprintf("round the arris of %s and %s by %s", model.Spoken(side), model.Spoken(top), s.long(kneeRound))}}
}

// toward is the name of the end or edge of a piece that looks most a way.
func toward(p *model.Placed, way geom.V3) string {
	best, most := "", math.Inf(-1)
	for k, sign := range []float64{-1, 1} {
		if d := sign * p.Pose.Along.Dot(way); d > most {
			best, most = p.Part.Names.Ends[k], d
		}
		if d := sign * p.Pose.Across.Dot(way); d > most {
			best, most = p.Part.Names.Edges[k], d
		}
	}
	return best
}
