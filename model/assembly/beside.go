package assembly

import (
	"planset/model"
	"planset/model/expr"
)

// beside works out what is said of the chair that the piece goes with.
func (s *solver) beside() {
	d, c := s.d.Beside, &scope{s: s}
	var b model.Beside
	b.SeatHeight, _ = s.lengthOr(d.SeatHeight, c, 0)
	b.ArmHeight, _ = s.lengthOr(d.ArmHeight, c, 0)
	if d.SeatSlope.Given() {
		b.SeatSlope, _ = s.angle(s.main(d.SeatSlope), c, expr.Level, "seat_slope")
	}
	s.plan.Beside = b
}
