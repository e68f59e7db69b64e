package check

import (
	"fmt"

	"planset/model/expr"
)

// tipLeft is the wood that must be left in front of a screw's point, mm: 1/8 in
// (common practice).
const tipLeft = 3

// screwTip finds screws whose points come out, or nearly.
func screwTip(s *shop) []Finding {
	var w worst
	for _, j := range s.Joints {
		for _, f := range j.Fasteners {
			if !isScrew(f) {
				continue
			}
			tip := f.Head.Add(f.Dir.Mul(f.Length))
			left := ahead(s.Placed[f.Pieces[1]].Solid, tip.Sub(f.Dir.Mul(f.Length-f.Grip-1)), f.Dir) - (f.Length - f.Grip - 1)
			if left >= tipLeft-1e-6 {
				continue
			}
			w.add(Finding{Severity: Error, Parts: s.pairOf(f), Value: left, Limit: tipLeft, Unit: "mm",
				Text: fmt.Sprintf("%s: the %s screw leaves %s of wood in front of its point; %s is needed", j.Name, s.Unit.Length(f.Length, expr.Fine), s.Unit.LongTo(left, expr.Fine), s.Unit.LongTo(tipLeft, expr.Fine)),
				Fix:  fmt.Sprintf("take a screw %s shorter", s.Unit.LongTo(tipLeft-left, expr.Fine))})
		}
	}
	return w.list()
}
