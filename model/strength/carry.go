package strength

import (
	"math"
)

// A load is a force on one piece.
type load struct {
	piece int
	Force
}

// rounds is how often springs may let go or catch again until they are at rest.
const rounds = 20

// carry finds the force in every spring under some loads: pushing springs let go
// where faces part, pulling ones where they are pressed. Forces pull the pieces
// together when positive.
func (n *network) carry(loads []load) {
	n.off = make([]bool, len(n.springs))
	n.force = make([]float64, len(n.springs))
	for range rounds {
		x := n.solve(loads)
		changed := false
		for i, s := range n.springs {
			long := 0.0
			for j, c := range s.row(n) {
				long += c * x[n.column(&s, j)]
			}
			off := s.kind == push && long > 1e-9 || s.kind == axial && long < -1e-9
			if off != n.off[i] {
				n.off[i], changed = off, true
			}
			n.force[i] = s.stiff * long
			if off {
				n.force[i] = 0
			}
		}
		if !changed {
			return
		}
	}
}

// row is what the twelve displacements of a spring's pieces do to its length;
// the first six are those of b.
func (s *spring) row(n *network) []float64 {
	one := func(piece int, sign float64) []float64 {
		turn := s.at.Sub(n.placed[piece].Center).Cross(s.dir).Mul(sign / reach)
		m := s.dir.Mul(sign)
		return []float64{m.X, m.Y, m.Z, turn.X, turn.Y, turn.Z}
	}
	out := one(s.b, 1)
	if s.a >= 0 {
		out = append(out, one(s.a, -1)...)
	}
	return out
}

// column is the unknown that entry j of a spring's row belongs to.
func (n *network) column(s *spring, j int) int {
	if j < 6 {
		return 6*n.rank[s.b] + j
	}
	return 6*n.rank[s.a] + j - 6
}

// solve finds the displacements by Cholesky's method.
func (n *network) solve(loads []load) []float64 {
	size := 6 * len(n.placed)
	k := make([][]float64, size)
	for i := range k {
		k[i] = make([]float64, i+1)
		k[i][i] = looseStiff
	}
	for i := range n.springs {
		s := &n.springs[i]
		if n.off[i] {
			continue
		}
		row := s.row(n)
		for a, ca := range row {
			ra := n.column(s, a)
			for b, cb := range row {
				if rb := n.column(s, b); rb <= ra {
					k[ra][rb] += s.stiff * ca * cb
				}
			}
		}
	}
	f := make([]float64, size)
	for _, l := range loads {
		turn := l.At.Sub(n.placed[l.piece].Center).Cross(l.Push).Mul(1 / reach)
		for j, v := range [6]float64{l.Push.X, l.Push.Y, l.Push.Z, turn.X, turn.Y, turn.Z} {
			f[6*n.rank[l.piece]+j] += v
		}
	}
	cholesky(k, f)
	return f
}

// cholesky solves k·x = f in place; k holds the lower half and is overwritten.
// What stands before the first entry of a row stays zero and is passed over. The
// soft springs that hold everything keep the pivots positive.
func cholesky(k [][]float64, f []float64) {
	first := make([]int, len(k))
	for i := range k {
		for first[i] < i && k[i][first[i]] == 0 {
			first[i]++
		}
		for j := first[i]; j <= i; j++ {
			sum := k[i][j]
			for m := max(first[i], first[j]); m < j; m++ {
				sum -= k[i][m] * k[j][m]
			}
			if i == j {
				k[i][i] = math.Sqrt(math.Max(sum, looseStiff*1e-3))
			} else {
				k[i][j] = sum / k[j][j]
			}
		}
	}
	for i := range f {
		for m := first[i]; m < i; m++ {
			f[i] -= k[i][m] * f[m]
		}
		f[i] /= k[i][i]
	}
	for i := len(f) - 1; i >= 0; i-- {
		f[i] /= k[i][i]
		for m := first[i]; m < i; m++ {
			f[m] -= k[i][m] * f[i]
		}
	}
}

// on gathers every force on a piece, loads and springs.
func (n *network) on(piece int, loads []load) []Force {
	var out []Force
	for _, l := range loads {
		if l.piece == piece {
			out = append(out, l.Force)
		}
	}
	return append(out, n.held(piece)...)
}

// held gathers the forces of the springs on a piece.
func (n *network) held(piece int) []Force {
	var out []Force
	for i, s := range n.springs {
		if n.force[i] == 0 {
			continue
		}
		if s.b == piece {
			out = append(out, Force{s.at, s.dir.Mul(-n.force[i])})
		}
		if s.a == piece {
			out = append(out, Force{s.at, s.dir.Mul(n.force[i])})
		}
	}
	return out
}
