package check

import (
	"fmt"
	"slices"

	"planset/model"
	"planset/model/cutting"
)

// sums holds the lists against each other: what is cut against what stands and
// what is laid out, what is bought against the boards, the hardware against the
// joints. A fault here is one of this program or of the steps to it, never of
// the wood.
func sums(s *shop) []Finding {
	return slices.Concat(s.pieceSums(), s.boardSums(), s.hardwareSums())
}

func unequal(got, want int, text string) Finding {
	return Finding{Severity: Error, Value: float64(got), Limit: float64(want), Text: text, Fix: fmt.Sprintf("make it %d", want)}
}

func (s *shop) pieceSums() []Finding {
	stand, laid := map[*model.Part]int{}, map[string]int{}
	for _, p := range s.Placed {
		stand[p.Part]++
	}
	if s.cuts != nil {
		for _, b := range s.cuts.Boards {
			for _, p := range b.Pieces {
				if !p.Spare {
					laid[p.Code]++
				}
			}
		}
		for _, m := range s.cuts.Left {
			laid[m.Piece.Code] += m.Count
		}
	}
	var out []Finding
	for _, p := range s.Parts {
		if n := stand[p]; n != 0 && n != p.Quantity {
			f := unequal(p.Quantity, n, fmt.Sprintf("%s: the cut list has %d, and %d are placed", called(p), p.Quantity, n))
			f.Parts = []string{p.Code}
			out = append(out, f)
		}
		if n := laid[p.Code]; s.cuts != nil && n != p.Quantity {
			f := unequal(n, p.Quantity, fmt.Sprintf("%s: the boards give %d, and the cut list has %d", called(p), n, p.Quantity))
			f.Parts = []string{p.Code}
			out = append(out, f)
		}
	}
	return out
}

// boardSums compares the shopping list with the boards that are sawn.
func (s *shop) boardSums() []Finding {
	if s.cuts == nil {
		return nil
	}
	type kind struct {
		stock  string
		length float64
	}
	laid, bought := map[kind]int{}, map[kind]cutting.Buy{}
	var kinds []kind
	note := func(k kind) {
		if !slices.Contains(kinds, k) {
			kinds = append(kinds, k)
		}
	}
	for _, b := range s.cuts.Boards {
		if !b.OnHand {
			laid[kind{b.Stock, b.Length}]++
			note(kind{b.Stock, b.Length})
		}
	}
	for _, b := range s.cuts.Buying {
		bought[kind{b.Stock, b.Length}] = b
		note(kind{b.Stock, b.Length})
	}
	var out []Finding
	for _, k := range kinds {
		b := bought[k]
		if got, want := b.Quantity-b.Spare, laid[k]; got != want {
			out = append(out, unequal(got, want, fmt.Sprintf("%s, %s: %d are bought and %d are laid out", s.stockName(k.stock), s.Unit.BoardLength(k.length), got, want)))
		}
	}
	return out
}

// stockName is a stock as said at the yard.
func (s *shop) stockName(key string) string {
	for _, st := range s.Stocks {
		if st.Key == key {
			return st.Name
		}
	}
	return "a board of no stock"
}

func (s *shop) hardwareSums() []Finding {
	used := map[*model.Hardware]int{}
	for _, j := range s.Joints {
		for _, f := range j.Fasteners {
			used[f.Hardware]++
			for _, w := range j.With {
				used[w]++
			}
		}
	}
	var out []Finding
	for _, h := range s.Hardware {
		name := fmt.Sprintf("%s %s", h.Size, h.Name)
		if n := used[h]; n != h.Quantity && (n != 0 || h.Kind != model.OtherItem) {
			out = append(out, unequal(h.Quantity, n, fmt.Sprintf("%s: the list has %d, and the joints use %d", name, h.Quantity, n)))
		}
		if h.Buy < h.Quantity {
			out = append(out, unequal(h.Buy, h.Quantity, fmt.Sprintf("%s: %d are bought, and %d are used", name, h.Buy, h.Quantity)))
		}
	}
	return out
}
