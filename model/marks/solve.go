package marks

import "math"

// normal is a least-squares problem as its normal equations: the lower half of
// AᵀA, each row from its first entry that is not zero, and AᵀB. Unknowns that
// many others meet should come last, then the rows stay short.
type normal struct {
	first []int
	k     [][]float64 // row i holds columns first[i] to i
	f     [][]float64 // a row for each unknown, a column for each right-hand side
}

// newNormal makes room for n unknowns and some right-hand sides. Each unknown is
// held at zero with a weight of slack.
func newNormal(n, sides int) *normal {
	m := &normal{first: make([]int, n), k: make([][]float64, n), f: make([][]float64, n)}
	for i := range n {
		m.first[i], m.k[i], m.f[i] = i, []float64{slack * slack}, make([]float64, sides)
	}
	return m
}

// An entry is one coefficient of a row of A.
type entry struct {
	column int
	value  float64
}

// add adds a row of A with its right-hand sides.
func (m *normal) add(row []entry, right []float64) {
	for _, a := range row {
		for _, b := range row {
			if b.column <= a.column {
				m.reach(a.column, b.column)
				m.k[a.column][b.column-m.first[a.column]] += a.value * b.value
			}
		}
		for c, r := range right {
			m.f[a.column][c] += a.value * r
		}
	}
}

// reach lets row i begin at column j.
func (m *normal) reach(i, j int) {
	if more := m.first[i] - j; more > 0 {
		m.k[i] = append(make([]float64, more, more+len(m.k[i])), m.k[i]...)
		m.first[i] = j
	}
}

// solve finds the unknowns by Cholesky's method, in place: a row for each. The
// slack keeps every pivot positive.
func (m *normal) solve() [][]float64 {
	for i := range m.k {
		for j := m.first[i]; j <= i; j++ {
			from := max(m.first[i], m.first[j])
			sum := m.k[i][j-m.first[i]]
			for c := from; c < j; c++ {
				sum -= m.k[i][c-m.first[i]] * m.k[j][c-m.first[j]]
			}
			if i == j {
				m.k[i][i-m.first[i]] = math.Sqrt(math.Max(sum, slack*slack*slack))
			} else {
				m.k[i][j-m.first[i]] = sum / m.k[j][j-m.first[j]]
			}
		}
	}
	for i := range m.f {
		for j := m.first[i]; j < i; j++ {
			m.less(i, j, m.k[i][j-m.first[i]])
		}
		m.divide(i)
	}
	for i := len(m.f) - 1; i >= 0; i-- {
		m.divide(i)
		for j := m.first[i]; j < i; j++ {
			m.less(j, i, m.k[i][j-m.first[i]])
		}
	}
	return m.f
}

// less takes l times the unknowns of row j from row i.
func (m *normal) less(i, j int, l float64) {
	if l == 0 {
		return
	}
	for c, v := range m.f[j] {
		m.f[i][c] -= l * v
	}
}

func (m *normal) divide(i int) {
	d := m.k[i][i-m.first[i]]
	for c := range m.f[i] {
		m.f[i][c] /= d
	}
}
