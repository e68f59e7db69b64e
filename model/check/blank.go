package check

import (
	"fmt"

	"planset/model"
)

// What must come off a board before it is straight, mm: 1/16 in from each edge
// that is ripped, unless the stock says its own; 1/2 in from each end, where it
// is checked; the whole thickness is left to the yard's planer (common practice).
const (
	cleanEdge = 1.5875
	cleanEnd  = 12.0
)

// planing are the words for a step that brings a board to another thickness.
var planing = []string{"planer", "plane it to", "plane them to", "planing", "plane the", "resaw"}

// blank finds parts that ask of their stock what it has not got: another
// thickness, or edges with nothing left to straighten.
func blank(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		if p.Stock == nil {
			continue
		}
		s.thickness(&t, p)
		left, need := p.Stock.Width-p.Width, 2*cleanEdge
		if p.Stock.Cleanup > 0 {
			need = p.Stock.Cleanup // one edge stays as bought, the other is ripped
		}
		// A part as wide as its board keeps both edges as they are bought.
		if p.AsBought || left < 0.05 || left >= need-0.05 {
			continue
		}
		t.add(p.Key+"edge", need-left, Finding{Severity: Error, Value: left, Limit: need, Unit: "mm",
			Text: fmt.Sprintf("%s of %s leaves %s to straighten its edges with; %s is needed", s.long(p.Width), s.stockName(p.Stock.Key), s.drill(left), s.drill(need)),
			Fix:  fmt.Sprintf("make it %s narrower, or write as_bought = true", s.more(need-left))}, p)
	}
	if s.cuts != nil && len(s.cuts.Boards) > 0 && s.EndTrim < cleanEnd-slack {
		t.add("end", 0, Finding{Severity: Warning, Value: s.EndTrim, Limit: cleanEnd, Unit: "mm",
			Text: fmt.Sprintf("the layouts trim %s off each end of a bought board; its ends are checked", s.long(s.EndTrim)),
			Fix:  `write end_trim = "1/2 in"`})
	}
	return t.named()
}

// thickness looks whether a part is as thick as its stock, or a step planes it; a
// plan without steps is left alone.
func (s *shop) thickness(t *tally, p *model.Part) {
	off := p.Thick - p.Stock.Thick
	switch {
	case off > slack:
		t.add(p.Key+"thick", off, Finding{Severity: Error, Value: p.Thick, Limit: p.Stock.Thick, Unit: "mm",
			Text: fmt.Sprintf("it is %s thick, and %s is %s", s.long(p.Thick), s.stockName(p.Stock.Key), s.long(p.Stock.Thick)),
			Fix:  fmt.Sprintf("make it %s thick, or choose a thicker stock", s.long(p.Stock.Thick))}, p)
	case off < -slack && len(s.Steps) > 0 && !s.madeWith(p, planing...):
		t.add(p.Key+"thick", -off, Finding{Severity: Error, Value: p.Thick, Limit: p.Stock.Thick, Unit: "mm",
			Text: fmt.Sprintf("it is %s thick, %s is %s, and no step planes it", s.long(p.Thick), s.stockName(p.Stock.Key), s.long(p.Stock.Thick)),
			Fix:  fmt.Sprintf("leave it %s thick, or let the step that makes it plane it to %s", s.long(p.Stock.Thick), s.long(p.Thick))}, p)
	}
}
