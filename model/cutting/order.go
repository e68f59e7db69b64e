package cutting

import (
	"cmp"
	"slices"
)

// number puts the cuts in the order of the work (the board's ends, crosscuts,
// then section by section the rips and the cuts across strips), and tells each
// piece which cut frees it.
func number(b *Board) {
	section := func(c Cut) float64 { // where the section of a cut begins
		begin := 0.0
		for _, x := range b.Cuts {
			if x.Kind <= Crosscut && x.At <= c.At+fine {
				begin = max(begin, x.At)
			}
		}
		return begin
	}
	begins := make(map[Cut]float64, len(b.Cuts))
	for _, c := range b.Cuts {
		switch c.Kind {
		case Rip:
			begins[c] = section(Cut{At: c.From})
		case Recut:
			begins[c] = section(c)
		}
	}
	slices.SortStableFunc(b.Cuts, func(x, y Cut) int {
		if x.Kind <= Crosscut && y.Kind <= Crosscut {
			return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(x.Kind, y.Kind))
		}
		if x.Kind <= Crosscut || y.Kind <= Crosscut {
			return cmp.Compare(x.Kind, y.Kind)
		}
		return cmp.Or(cmp.Compare(begins[x], begins[y]), cmp.Compare(x.Kind, y.Kind),
			cmp.Compare(x.From, y.From), cmp.Compare(x.At, y.At))
	})
	for i := range b.Cuts {
		b.Cuts[i].N = i + 1
	}
	for i := range b.Pieces {
		b.Pieces[i].Cut = b.frees(b.Pieces[i])
	}
}

// frees returns the number of the last cut that borders a piece.
func (b *Board) frees(p Placed) int {
	last := 0
	for _, c := range b.Cuts {
		lo, hi, from, to := p.Along, p.Along+p.Length, p.Across, p.Across+p.Width
		if c.Kind == Rip {
			lo, hi, from, to = from, to, lo, hi
		}
		beside := c.From < to-fine && c.To > from+fine
		if beside && (b.borders(c, lo, true) || b.borders(c, hi, false)) {
			last = max(last, c.N)
		}
	}
	return last
}

// borders reports whether a cut is the nearest one of its kind on one side of
// a place: clean-up may lie between a rip and the piece.
func (b *Board) borders(c Cut, at float64, before bool) bool {
	gap := c.At - at
	if before {
		gap = at - c.At
	}
	if gap < -fine {
		return false
	}
	for _, other := range b.Cuts {
		if other == c || (other.Kind == Rip) != (c.Kind == Rip) || other.From > c.To-fine || other.To < c.From+fine {
			continue
		}
		nearer := other.At - at
		if before {
			nearer = at - other.At
		}
		if nearer >= -fine && nearer < gap-fine {
			return false
		}
	}
	return true
}
