package cutting

import (
	"cmp"
	"math"
	"slices"
)

// number puts the cuts in the order of the work and tells each piece which cut
// frees it. First the board's ends and the crosscuts, left to right; then the
// rips, so that the fence is set once for each width, the widest first; then
// section by section the cuts across strips, then the slanted cuts of the taper
// jig. What short pieces take in the rest of the board comes last, in the same
// order.
func number(b *Board, kerf float64) {
	fence := fences(b.Cuts, kerf)
	slices.SortStableFunc(b.Cuts, func(x, y Cut) int {
		if c := cmp.Compare(b.turn(x), b.turn(y)); c != 0 {
			return c
		}
		switch x.Kind {
		case Rip:
			return cmp.Or(cmp.Compare(fence[y], fence[x]), cmp.Compare(x.From, y.From), cmp.Compare(x.At, y.At))
		case Recut:
			return cmp.Or(cmp.Compare(b.section(x.At), b.section(y.At)), cmp.Compare(x.From, y.From), cmp.Compare(x.At, y.At))
		case Slant:
			return cmp.Or(cmp.Compare(x.From, y.From), cmp.Compare(x.At, y.At))
		}
		return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(x.Kind, y.Kind))
	})
	for i := range b.Cuts {
		b.Cuts[i].N = i + 1
	}
	for i := range b.Blanks {
		b.Blanks[i].Cut = b.slant(b.Blanks[i])
	}
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Pair > 0 {
			p.Cut = b.Blanks[p.Pair-1].Cut
		} else {
			p.Cut = b.frees(*p)
		}
	}
}

// turn is when a cut has its turn.
func (b *Board) turn(c Cut) CutKind {
	for _, r := range b.Rests {
		end := r.Along + r.Length
		if c.Kind == Rip && c.From > r.Along-fine && c.To < end+fine || c.Kind != Rip && c.At > r.Along && c.At < end-fine {
			return Slant + 1 + max(c.Kind, Crosscut)
		}
	}
	return max(c.Kind, Crosscut)
}

// slant is the number of the slanted cut through a blank.
func (b *Board) slant(blank Blank) int {
	at := slices.IndexFunc(b.Cuts, func(c Cut) bool {
		return c.Kind == Slant && math.Abs(c.From-blank.Along) < fine && c.At > blank.Across && c.At < blank.Across+blank.Width
	})
	return at + 1
}

// section is where the section begins that a place along the board is in.
func (b *Board) section(at float64) float64 {
	begin := 0.0
	for _, c := range b.Cuts {
		if c.Kind <= Crosscut && c.At <= at+fine {
			begin = max(begin, c.At)
		}
	}
	return begin
}

// fences returns how wide a strip each rip takes off, in whole hundredths of a
// mm. The rips of a section are made from its lower edge up, so a rip counts
// for no more than the one before it.
func fences(cuts []Cut, kerf float64) map[Cut]int {
	rips := slices.DeleteFunc(slices.Clone(cuts), func(c Cut) bool { return c.Kind != Rip })
	slices.SortStableFunc(rips, func(x, y Cut) int { return cmp.Or(cmp.Compare(x.From, y.From), cmp.Compare(x.At, y.At)) })
	out := make(map[Cut]int, len(rips))
	for i, c := range rips {
		if i == 0 || rips[i-1].From < c.From-fine {
			out[c] = int(math.Round(c.At / fine))
			continue
		}
		low := rips[i-1]
		out[c] = min(out[low], int(math.Round((c.At-low.At-kerf)/fine)))
	}
	return out
}

// frees returns the number of the last cut that borders a piece.
func (b *Board) frees(p Placed) int {
	last := 0
	for _, c := range b.Cuts {
		if c.Kind == Slant {
			continue
		}
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
		if other == c || other.Kind == Slant || (other.Kind == Rip) != (c.Kind == Rip) || other.From > c.To-fine || other.To < c.From+fine {
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
