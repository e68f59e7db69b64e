package check

import (
	"fmt"

	"planset/model"
	"planset/model/cutting"
)

// A row of five boards and more has one to spare on the layout: one splits, or
// shows a knot. Saws take 3/32 in at least (common practice).
const (
	rowOfSlats = 5
	kerfLeast  = 2.38
)

// spare finds boards in rows for which nothing is left when one splits, and
// layouts without a saw's kerf.
func spare(s *shop) []Finding {
	if s.cuts == nil {
		return nil
	}
	var t tally
	if s.Kerf < kerfLeast-0.1 && len(s.cuts.Boards) > 0 {
		t.add("kerf", 0, Finding{Severity: Warning, Value: s.Kerf, Limit: kerfLeast, Unit: "mm",
			Text: fmt.Sprintf("the layouts reckon with a kerf of %s; thin blades take %s", s.long(s.Kerf), s.drill(kerfLeast)),
			Fix:  fmt.Sprintf("write kerf = %s", s.drill(3.175))})
	}
	count := map[string]int{}
	for _, p := range s.Parts {
		count[rowKey(p)] += p.Quantity
	}
	for _, p := range s.Parts {
		if count[rowKey(p)] < rowOfSlats || p.Stock == nil || p.Stock.Spare > 0 || s.hasSpare(p) {
			continue
		}
		name := s.stockName(p.Stock.Key)
		t.add(p.Stock.Key, p.RoughLength, Finding{Severity: Warning, Value: 0, Limit: 1,
			Text: fmt.Sprintf("when one splits no offcut of %s gives another", name),
			Fix:  fmt.Sprintf("write spare = 1 for %s; one takes %s of it", name, s.long(p.RoughLength))}, p)
	}
	return t.named()
}

// rowKey is a family or a part alone.
func rowKey(p *model.Part) string {
	if p.Family != "" {
		return "family " + p.Family
	}
	return p.Key
}

// hasSpare reports whether the layouts or the spare boards give one more.
func (s *shop) hasSpare(p *model.Part) bool {
	for _, b := range s.cuts.Buying {
		if b.Stock == p.Stock.Key && b.Spare > 0 {
			return true
		}
	}
	for _, b := range s.cuts.Boards {
		if b.Stock == p.Stock.Key && givesOne(b, p) {
			return true
		}
	}
	return false
}

func givesOne(b cutting.Board, p *model.Part) bool {
	for _, q := range b.Pieces {
		if q.Spare && q.Code == p.Code {
			return true
		}
	}
	for _, o := range b.Offcuts {
		if o.Length >= p.Length-slack && o.Width >= p.Width-slack {
			return true
		}
	}
	return false
}
