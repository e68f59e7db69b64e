package assembly

import (
	"math"

	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
)

// driver reads which bit or driver a step's screws take, and tells the builder:
// what the author says once is both printed and held against the room there is.
func (s *solver) driver(d *reading.Step, st *model.Step) {
	bit, ok := s.lengthOr(d.Bit, &scope{s: s}, 0)
	if !ok || d.Bit.Given() && !s.positive(d.Bit.At, bit, "the bit of a step") {
		return
	}
	st.Bit, st.Angled = s.soldBit(bit), d.RightAngle
	st.Bare = s.jointsIn(d.Bare)
	if st.Bit > 0 {
		st.Notes = append(st.Notes, "Use a bit "+s.opt.Unit.LongTo(st.Bit, expr.Coarse)+" long here.")
	}
	if st.Angled {
		st.Notes = append(st.Notes, "Use a right-angle driver here.")
	}
}

// soldBit is the long bit that a yard of the reader's system sells for one of
// about that length: 6 and 12 in, 150 and 300 mm (common practice).
func (s *solver) soldBit(mm float64) float64 {
	sold := []float64{152.4, 304.8}
	if s.opt.Unit == expr.MM {
		sold = []float64{150, 300}
	}
	for _, l := range sold {
		if math.Abs(mm-l) < 6 {
			return l
		}
	}
	return mm
}
