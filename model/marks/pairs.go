package marks

import (
	"cmp"
	"math"
	"slices"
)

// few is how many of the worst marks are tried as pairs; a pair of lesser ones
// cannot be worse, as the floor adds little that is not in the single changes.
const few = 8

// worstPairs tries the worst marks of each value two by two, with both signs.
func (t *Table) worstPairs(f *frame, watches []watch) []Pair {
	var out []Pair
	for k, v := range t.Values {
		if v.Name == rocking {
			continue
		}
		worst := t.worstOf(k)
		best := Pair{Value: k, A: -1}
		for i, a := range worst {
			for _, b := range worst[:i] {
				if t.Rows[a].Matched != t.Rows[b].Matched && (t.Rows[a].Clamped || t.Rows[b].Clamped) {
					continue // these two take each other's place
				}
				if c := t.together(f, watches[k], a, b); math.Abs(c) > math.Abs(best.Change)+1e-9 {
					best = Pair{Value: k, A: min(a, b), B: max(a, b), Change: c}
				}
			}
		}
		if best.A >= 0 {
			out = append(out, best)
		}
	}
	return out
}

// worstOf is the rows that change a value most and do harm.
func (t *Table) worstOf(k int) []int {
	var list []int
	for i, r := range t.Rows {
		if r.Change[k] != 0 && !r.Matched {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Compare(math.Abs(t.Rows[b].Change[k]), math.Abs(t.Rows[a].Change[k]))
	})
	return list[:min(few, len(list))]
}

// together is the most that two rows change a value.
func (t *Table) together(f *frame, w watch, a, b int) float64 {
	most := 0.0
	for _, sign := range []float64{1, -1} {
		var slips []signedSlip
		for _, s := range t.Rows[a].slips {
			slips = append(slips, signedSlip{s, t.Step})
		}
		for _, s := range t.Rows[b].slips {
			slips = append(slips, signedSlip{s, sign * t.Step})
		}
		if c := f.both([]watch{w}, f.sum(slips))[0]; math.Abs(c) > math.Abs(most) {
			most = c
		}
	}
	return most
}
