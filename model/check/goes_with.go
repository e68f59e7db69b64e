package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

// How well a stool or a table fits the chair it goes with: the top of a stool
// within 1 in of the front of the seat and at its slope, a table within 2 in of
// the arm (common practice).
const (
	stoolNear = 25.4
	stoolTurn = 2.0 // degrees
	tableNear = 50.8
)

// goesWith holds a stool or a table to the chair that its author says it goes
// with.
func goesWith(s *shop) []Finding {
	if sit, ok := people.SitOf(s.Plan); ok {
		if len(sit.Backs) > 0 {
			return nil
		}
		return s.stool(&sit)
	}
	if s.Kind != "" && s.Kind != model.Table {
		return nil
	}
	return s.beside("its top is %s high, the arm beside it %s; a glass is reached within %s", s.topHeight(), s.Beside.ArmHeight, tableNear)
}

func (s *shop) stool(sit *people.Sit) []Finding {
	out := s.beside("its top is %s high where it meets the chair, the front of the seat %s; legs lie well within %s", sit.Rear.Z, s.Beside.SeatHeight, stoolNear)
	off := math.Abs(sit.Slope-s.Beside.SeatSlope) * 180 / math.Pi
	if s.Beside.SeatSlope > 0 && off > stoolTurn+angleTol {
		out = append(out, Finding{Severity: Warning, Value: off, Limit: stoolTurn, Unit: "deg",
			Text: fmt.Sprintf("its top falls %s and the seat beside it %s; within %s they make one line", degrees(sit.Slope*180/math.Pi), degrees(s.Beside.SeatSlope*180/math.Pi), degrees(stoolTurn)),
			Fix:  fmt.Sprintf("turn its top by %s", degrees(off-stoolTurn))})
	}
	return out
}

// beside compares two heights, the second 0 when it is not known.
func (s *shop) beside(format string, has, wants, most float64) []Finding {
	off := has - wants
	if wants == 0 || has == 0 || math.Abs(off) <= most+slack {
		return nil
	}
	way := "lower"
	if off < 0 {
		way = "raise"
	}
	return []Finding{{Severity: Warning, Value: math.Abs(off), Limit: most, Unit: "mm",
		Text: fmt.Sprintf(format, s.long(has), s.long(wants), s.long(most)),
		Fix:  fmt.Sprintf("%s it by %s", way, s.more(math.Abs(off)-most))}}
}

// topHeight is the height of the highest face that looks up, 0 when none does.
func (s *shop) topHeight() float64 {
	high := 0.0
	for _, p := range s.Placed {
		for _, f := range p.Solid.Faces {
			if f.Kind == geom.Flat && f.N.Z > looksUp {
				high = math.Max(high, f.Loops[0][0].Z)
			}
		}
	}
	return high
}
