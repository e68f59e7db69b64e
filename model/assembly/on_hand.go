package assembly

import (
	"planset/model"
	"planset/model/expr"
	"planset/model/reading"
)

// addOnHand gives each board on hand to its stock.
func (s *solver) addOnHand(d reading.OnHand) {
	var known []string
	for _, st := range s.plan.Stocks {
		known = append(known, st.Key)
	}
	if !d.Stock.Given() {
		s.problems.Errorf(d.At, "on-hand", "a board on hand does not say its stock").Fix("write stock = %q", first(known))
		return
	}
	st, ok := s.stocks[d.Stock.Text]
	if !ok {
		if declared(s.d.Stocks, d.Stock.Text) {
			return // its stock is reported already
		}
		s.problems.Errorf(d.Stock.At, "unknown-stock", "there is no stock %q", d.Stock.Text).Suggest(d.Stock.Text, known)
		return
	}
	c := &scope{s: s}
	b := model.OnHand{Name: d.Name.Text, Width: st.Width}
	length, ok := s.length(s.main(d.Length), c)
	if !ok || !s.positive(d.Length.At, length, "a board's length") {
		return
	}
	b.Length = length
	if d.Width.Given() {
		if b.Width, ok = s.length(s.main(d.Width), c); !ok || !s.positive(d.Width.At, b.Width, "a board's width") {
			return
		}
	}
	for _, bad := range d.Bad {
		if stretch, ok := s.stretch(bad, length); ok {
			b.Bad = append(b.Bad, stretch)
		}
	}
	st.OnHand = append(st.OnHand, b)
}

// stretch works out a bad stretch of a board.
func (s *solver) stretch(d reading.Bad, length float64) (model.Stretch, bool) {
	c := &scope{s: s}
	from, ok1 := s.length(s.main(d.From), c)
	to, ok2 := s.length(s.main(d.To), c)
	if !ok1 || !ok2 {
		return model.Stretch{}, false
	}
	if from < 0 || to <= from || to > length+1e-6 {
		s.problems.Errorf(d.At, "on-hand", "a bad stretch from %s to %s is not on a board of %s", s.opt.Unit.Long(from), s.opt.Unit.Long(to), s.opt.Unit.Long(length)).
			Fix("measure from the left end, the smaller number first")
		return model.Stretch{}, false
	}
	return model.Stretch{From: from, To: to, Edge: d.Edge.Text, Face: d.Face.Text}, true
}

// most reads how many boards of a length the yard has.
func (s *solver) most(f reading.Formula, unit expr.Unit) int {
	v, ok := (formulaAt{f, unit}).eval(s, &scope{s: s})
	if !ok {
		return 0
	}
	n, bad := v.AsNumber(unit)
	if bad != nil {
		bad.Report(s.problems, f.At)
		return 0
	}
	if n < 0 || n != float64(int(n)) {
		s.problems.Errorf(f.At, "stock", "a number of boards is a whole number").Fix("write 0 where the yard has enough")
		return 0
	}
	return int(n)
}

func first(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func declared(list []*reading.Stock, key string) bool {
	for _, st := range list {
		if st.Key == key {
			return true
		}
	}
	return false
}
