package cutting

import (
	"cmp"
	"slices"
)

// A rowing is how pieces that match are made into rows. A row is cut end to end
// from one board.
type rowing int

// The ways, from what is wished to what can always be had.
const (
	longRows  rowing = iota // as many as the longest board takes
	dealtRows               // the same, but a board of which there are few is dealt out so often only
	sureRows                // as many as the longest board takes that is not limited
	noRows                  // each by itself
)

// rowings are the ways that are tried one after the other until the boards
// suffice: only the first, if nothing must match.
func (job Job) rowings(picks []int) []rowing {
	if !slices.ContainsFunc(picks, func(i int) bool { return job.Pieces[i].Match && job.Pieces[i].Count+job.Pieces[i].Spare > 1 }) {
		return []rowing{longRows}
	}
	return []rowing{longRows, dealtRows, sureRows, noRows}
}

// rows returns how many pieces each row has, for each of the picks; no rows for
// those that need not match. sizes are all boards of the stock.
func (job Job) rows(sizes []size, picks []int, way rowing) [][]int {
	kerf, boards := whole(job.Rules.Kerf), slices.Clone(sizes)
	slices.SortStableFunc(boards, func(a, b size) int { return cmp.Compare(b.room, a.room) })
	out := make([][]int, len(picks))
	for at, i := range picks {
		p := job.Pieces[i]
		if !p.Match {
			continue
		}
		for left := p.Count + p.Spare; left > 0; {
			n := 1
			if b := job.rowBoard(boards, p, way); b >= 0 {
				n = min(left, max(1, int(boards[b].room/(whole(p.Length)+kerf))))
				if way == dealtRows && boards[b].limit < many {
					boards[b].limit--
				}
			}
			out[at] = append(out[at], n)
			left -= n
		}
	}
	return out
}

// rowBoard returns the board that a row is measured by, -1 if there is none.
func (job Job) rowBoard(boards []size, p Piece, way rowing) int {
	return slices.IndexFunc(boards, func(s size) bool {
		switch {
		case way == noRows, way == dealtRows && s.limit <= 0, way == sureRows && s.limit < many:
			return false
		}
		return job.wide(p, millimetres(s.width))
	})
}
