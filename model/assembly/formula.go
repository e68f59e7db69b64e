package assembly

import (
	"planset/model/expr"
	"planset/model/reading"
)

// formulaAt is a formula with the unit of its bare numbers.
type formulaAt struct {
	reading.Formula
	unit expr.Unit
}

// main is a formula of the plan's own unit.
func (s *solver) main(f reading.Formula) formulaAt { return formulaAt{f, s.d.Unit} }

func (f formulaAt) eval(s *solver, c *scope) (expr.Value, bool) {
	if !f.Given() {
		return expr.Value{}, false
	}
	return f.F.Eval(f.unit, c, s.problems)
}

// lengthOr works out a length that may be left out.
func (s *solver) lengthOr(f reading.Formula, c *scope, other float64) (float64, bool) {
	if !f.Given() {
		return other, !f.At.Valid()
	}
	return s.length(s.main(f), c)
}

// pairOf works out two lengths.
func (s *solver) pairOf(f [2]reading.Formula, c *scope) (a, b float64, ok bool) {
	a, ok1 := s.length(s.main(f[0]), c)
	b, ok2 := s.length(s.main(f[1]), c)
	return a, b, ok1 && ok2
}
