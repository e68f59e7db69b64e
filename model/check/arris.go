package check

import (
	"fmt"
)

// arrisBoth is what two worked arrises of one edge must leave flat between them
// for the bearing of a cutter, mm: 1/16 in for each (common practice).
const arrisBoth = 3.175

// arris finds rounds and chamfers too big for the thickness: one takes half of
// it at most, two together leave a flat for the bearing to run on.
func arris(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		sum, count := map[string]float64{}, map[string]int{}
		for _, a := range p.Arrises {
			sum[a.Side] += a.Size
			count[a.Side]++
			if least := p.Thick / 2; a.Size > least+0.1 {
				size, half := s.against(a.Size, least)
				t.add(p.Key+a.Side+a.Face, a.Size-least, Finding{Severity: Warning, Value: a.Size, Limit: least, Unit: "mm",
					Text: fmt.Sprintf("its %s edge is eased by %s, more than half of its thickness, %s", a.Side, size, half),
					Fix:  fmt.Sprintf("ease it by %s at most", half)}, p)
			}
			if most := p.Thick - arrisBoth; count[a.Side] == 2 && sum[a.Side] > most+0.1 {
				t.add(p.Key+a.Side, sum[a.Side]-most, Finding{Severity: Warning, Value: sum[a.Side], Limit: most, Unit: "mm",
					Text: fmt.Sprintf("both arrises of its %s edge take %s of %s; nothing is left for the cutter's bearing", a.Side, s.long(sum[a.Side]), s.long(p.Thick)),
					Fix:  fmt.Sprintf("ease each by %s at most", s.long(most/2))}, p)
			}
		}
	}
	return t.named()
}
