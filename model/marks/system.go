package marks

import (
	"slices"

	"planset/model/geom"
)

// system is the equations by which some bodies come to their place: six
// unknowns a body, a row a tie, a right-hand side a slip.
type system struct {
	f      *frame
	body   []int // of each piece
	bodies []int
	at     map[int]int // body to its number here
	left   []line
}

// line is one tie as a row: what it says of two bodies and what is left to do.
type line struct {
	plus, minus int // bodies
	at, dir     geom.V3
	right       []float64
}

// tie adds a tie; what its pieces have moved already counts.
func (s *system) tie(i int) {
	t := &s.f.ties[i]
	l := line{plus: s.body[t.b], minus: s.body[t.a], at: t.at, dir: t.dir, right: make([]float64, len(s.f.slips))}
	for k := range l.right {
		gone := s.f.twists[t.b][k].at(t.at).Sub(s.f.twists[t.a][k].at(t.at))
		l.right[k] = s.f.slips[k].gap(t) - t.dir.Dot(gone)
	}
	s.left = append(s.left, l)
}

// stand sets the feet of the bodies that stand by themselves on one floor. A
// small foot counts with its middle: it may tip on its edges.
func (s *system) stand(floor int, standing []int) {
	for i := 0; i < len(s.f.feet); {
		piece := s.f.feet[i].piece
		var own []foot
		box := geom.NoBox3()
		for ; i < len(s.f.feet) && s.f.feet[i].piece == piece; i++ {
			own, box = append(own, s.f.feet[i]), box.With(s.f.feet[i].at)
		}
		if b := s.body[piece]; contains(standing, b) {
			s.foot(own, box.Size().Len() > apart, b, floor)
		}
	}
}

// foot adds rows for one piece on the floor: for each of its corners, or one
// for all.
func (s *system) foot(own []foot, wide bool, body, floor int) {
	var one line
	for _, g := range own {
		l := line{plus: body, minus: floor, at: g.at, dir: geom.V3{Z: 1}, right: make([]float64, len(s.f.slips))}
		for k := range l.right {
			l.right[k] = s.f.slips[k].shift(g.piece, g.face, g.at) - s.f.twists[g.piece][k].at(g.at).Z
		}
		if wide {
			s.left = append(s.left, l)
			continue
		}
		if one.right == nil {
			one = l
			continue
		}
		one.at = one.at.Add(l.at)
		for k := range one.right {
			one.right[k] += l.right[k]
		}
	}
	if wide {
		return
	}
	n := 1 / float64(len(own))
	one.at = one.at.Mul(n)
	for k := range one.right {
		one.right[k] *= n
	}
	s.left = append(s.left, one)
}

func contains(list []int, b int) bool {
	for _, c := range list {
		if c == b {
			return true
		}
	}
	return false
}

// arrange puts the bodies that most ties meet last, so that the equations stay
// short: rails after the slats they carry.
func (s *system) arrange() {
	degree := map[int]int{}
	for _, l := range s.left {
		degree[l.plus]++
		degree[l.minus]++
	}
	slices.SortStableFunc(s.bodies, func(a, b int) int { return degree[a] - degree[b] })
	for i, b := range s.bodies {
		s.at[b] = i
	}
}

// solve moves the bodies to where their ties pull least.
func (s *system) solve(floor int) {
	n, slips := 6*len(s.bodies), len(s.f.slips)
	if n == 0 || slips == 0 {
		return
	}
	s.arrange()
	mid := make([]geom.V3, len(s.bodies))
	for i, b := range s.bodies {
		mid[i] = s.middle(b, floor)
	}
	eq := newNormal(n, slips)
	for _, l := range s.left {
		row := s.entries(mid, l.plus, l, 1)
		eq.add(append(row, s.entries(mid, l.minus, l, -1)...), l.right)
	}
	x := eq.solve()
	for i := range s.body {
		at, ok := s.at[s.body[i]]
		if !ok {
			continue
		}
		for k := range slips {
			v := func(j int) float64 { return x[6*at+j][k] }
			turn := geom.V3{X: v(3), Y: v(4), Z: v(5)}.Mul(1 / reach)
			move := geom.V3{X: v(0), Y: v(1), Z: v(2)}.Sub(turn.Cross(mid[at]))
			s.f.twists[i][k] = s.f.twists[i][k].plus(twist{move, turn})
		}
	}
}

// entries is a tie's part of one body as a row; the base has none.
func (s *system) entries(mid []geom.V3, body int, l line, sign float64) []entry {
	i, ok := s.at[body]
	if !ok {
		return nil
	}
	turn := l.at.Sub(mid[i]).Cross(l.dir).Mul(sign / reach)
	move := l.dir.Mul(sign)
	row := make([]entry, 6, 12)
	for j, v := range [6]float64{move.X, move.Y, move.Z, turn.X, turn.Y, turn.Z} {
		row[j] = entry{6*i + j, v}
	}
	return row
}

// middle is the middle of a body, about which it turns.
func (s *system) middle(b, floor int) geom.V3 {
	var sum geom.V3
	n := 0.0
	for i, p := range s.f.placed {
		if s.body[i] == b || b == floor {
			sum, n = sum.Add(p.Center), n+1
		}
	}
	return sum.Mul(1 / n)
}
