package check

import (
	"fmt"

	"planset/model/cutting"
)

// shortBoard finds parts that no board of their stock can give.
func shortBoard(s *shop) []Finding {
	if s.cuts == nil {
		return nil
	}
	var out []Finding
	for _, m := range s.cuts.Left {
		text, fix := s.misfit(m)
		out = append(out, Finding{Severity: Error, Parts: []string{m.Piece.Code}, Value: m.Asked, Limit: m.Has, Unit: "mm",
			Text: fmt.Sprintf("%s %s: %s", m.Piece.Name, m.Piece.Code, text), Fix: fix})
	}
	return out
}

// misfit tells why a piece fits no board, in the reader's units.
func (s *shop) misfit(m cutting.Misfit) (text, fix string) {
	long, name := s.long, s.stockName(m.Piece.Stock)
	switch m.Why {
	case cutting.TooLong:
		return fmt.Sprintf("it needs %s, and the longest %s gives %s between its end trims", long(m.Asked), name, long(m.Has)),
			fmt.Sprintf("shorten it by %s, or add a longer board", long(m.Asked-m.Has))
	case cutting.TooWide:
		return fmt.Sprintf("it needs %s across, and %s is %s wide", long(m.Asked), name, long(m.Has)),
			fmt.Sprintf("make it %s narrower, or choose a wider stock", long(m.Asked-m.Has))
	case cutting.NoCleanup:
		return fmt.Sprintf("with its clean-up it needs %s across, and %s is %s wide: nothing is left to straighten", long(m.Asked), name, long(m.Has)),
			fmt.Sprintf("write as_bought = true, or make it %s narrower", long(m.Asked-m.Has))
	case cutting.NoStock:
		return fmt.Sprintf("%s has no lengths that are sold", name), "give the stock its lengths"
	case cutting.BadSize:
		return "its size or number cannot be cut", "give it a length, a width and a number above zero"
	}
	return fmt.Sprintf("%d of them are not covered by the boards of %s that can be had", m.Count, name), "raise the limit or add another length"
}
