package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"planset/model/cutting"
)

// mostAlternatives is how many lacking lengths are told of.
const mostAlternatives = 4

// alternativeWords say what to buy where the yard lacks a length, and how those
// boards are then cut, if that is asked for.
func alternativeWords(d *desk, layouts bool) []string {
	var out []string
	for _, a := range d.in.Cuts.Alternatives {
		st := stockOf(d.plan, a.Stock)
		if st == nil || len(out) == mostAlternatives {
			continue
		}
		var buy []string
		for _, b := range a.Buying {
			buy = append(buy, fmt.Sprintf("%d × %s", b.Quantity, d.plan.Unit.BoardLength(b.Length)))
		}
		more := ""
		at := slices.IndexFunc(d.in.Cuts.Stocks, func(r cutting.Result) bool { return r.Stock == a.Stock })
		if at >= 0 && a.Cost > d.in.Cuts.Stocks[at].Cost+0.005 {
			more = fmt.Sprintf(", for %s more", money(a.Cost-d.in.Cuts.Stocks[at].Cost))
		}
		how := ""
		if layouts {
			how = " " + recutWords(d.in.Cuts, a)
		}
		out = append(out, fmt.Sprintf("%s not in %s: buy %s%s.%s", st.Name, d.plan.Unit.BoardLength(a.Without), strings.Join(buy, " and "), more, how))
	}
	return out
}

// recutWords say which parts come out of each board of an alternative.
func recutWords(c *cutting.Plan, a cutting.Alternative) string {
	var drawn []cutting.Board
	for _, b := range c.Boards {
		if b.Stock == a.Stock {
			drawn = append(drawn, b)
		}
	}
	loads := loadsOf(a.Boards)
	if slices.Equal(loads, loadsOf(drawn)) {
		return "Cut them as drawn."
	}
	var words []string
	for i := 0; i < len(loads); {
		n := i
		for n < len(loads) && loads[n] == loads[i] {
			n++
		}
		text := loads[i]
		if n-i > 1 {
			text += fmt.Sprintf(" (%d\u00a0times)", n-i)
		}
		words = append(words, text)
		i = n
	}
	return "Then cut " + strings.Join(words, "; ") + "."
}

// loadsOf are the parts of each board, in order from its left end, sorted:
// "2 D1 + H".
func loadsOf(boards []cutting.Board) []string {
	var out []string
	for _, b := range boards {
		pieces := slices.Clone(b.Pieces)
		slices.SortStableFunc(pieces, func(x, y cutting.Placed) int {
			return cmp.Or(cmp.Compare(x.Along, y.Along), cmp.Compare(x.Across, y.Across))
		})
		var codes []string
		var counts []int
		for _, p := range pieces {
			if at := slices.Index(codes, p.Code); at >= 0 {
				counts[at]++
				continue
			}
			codes, counts = append(codes, p.Code), append(counts, 1)
		}
		for i, n := range counts {
			if n > 1 {
				codes[i] = digits(n) + "\u00a0" + codes[i]
			}
		}
		out = append(out, strings.Join(codes, " + "))
	}
	slices.Sort(out)
	return out
}
