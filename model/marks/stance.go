package marks

import (
	"math"
	"slices"

	"planset/model/geom"
)

// stance knows on which three feet a piece may stand: every triangle of feet
// with the centre of mass above it, with the weights that carry it.
type stance struct {
	feet   []foot
	threes []three
	center geom.V3
}

type three struct {
	at   [3]int
	load [3]float64 // parts of the weight
}

func newStance(feet []foot, center geom.V3) *stance {
	s := &stance{feet: feet, center: center}
	bear := bearers(feet)
	for a, i := range bear {
		for b, j := range bear[:a] {
			for _, k := range bear[:b] {
				if t, ok := s.over(i, j, k); ok {
					s.threes = append(s.threes, t)
				}
			}
		}
	}
	return s
}

// bearers is the numbers of the feet that may carry: all, or of very many those
// that reach farthest all round, since every three of them are tried.
func bearers(feet []foot) []int {
	const many, ways = 48, 24
	var out []int
	for i := range feet {
		out = append(out, i)
	}
	if len(feet) <= many {
		return out
	}
	keep := make([]bool, len(feet))
	for k := range ways {
		s, c := math.Sincos(2*math.Pi*float64(k)/ways + 0.01)
		best := 0
		for i, f := range feet {
			if f.at.X*c+f.at.Y*s > feet[best].at.X*c+feet[best].at.Y*s+1e-9 {
				best = i
			}
		}
		keep[best] = true
	}
	return slices.DeleteFunc(out, func(i int) bool { return !keep[i] })
}

// over reports whether the centre of mass is above the triangle of three feet.
func (s *stance) over(i, j, k int) (three, bool) {
	a, b, c := s.feet[i].at, s.feet[j].at, s.feet[k].at
	cross := func(p, q, r geom.V3) float64 {
		return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	}
	area := cross(a, b, c)
	if math.Abs(area) < 1 {
		return three{}, false
	}
	t := three{[3]int{i, j, k}, [3]float64{cross(s.center, b, c) / area, cross(a, s.center, c) / area, cross(a, b, s.center) / area}}
	for _, l := range t.load {
		if l < -1e-9 {
			return three{}, false
		}
	}
	return t, true
}

// ground is the floor seen from the moved piece: its height at the origin and
// the turn that would make it level again; and how far one foot hangs free.
type ground struct {
	height float64
	turn   geom.V3
	rock   float64
}

// rest returns the ground under feet lifted by small heights. The piece stands
// on the triangle on which its centre of mass is lowest: that is the greatest
// plane below all feet there, by the duality of linear programmes.
func (s *stance) rest(lift []float64) ground {
	if len(s.threes) == 0 {
		return ground{}
	}
	low := math.Inf(1)
	heights := make([]float64, len(s.threes))
	for i, t := range s.threes {
		for m, k := range t.at {
			heights[i] += t.load[m] * lift[k]
		}
		low = math.Min(low, heights[i])
	}
	// With the centre above a line between two feet several triangles are as low;
	// only the plane that no foot reaches through is the floor.
	var best ground
	deepest := math.Inf(1)
	for i, t := range s.threes {
		if heights[i] > low+even {
			continue
		}
		g := s.plane(t, lift)
		if d := s.through(g, lift); d < deepest-even {
			best, deepest = g, d
		}
		if deepest < even {
			break
		}
	}
	best.rock = s.rock(best, lift)
	return best
}

// even is how far heights may differ and still be the same, mm.
const even = 1e-9

// through is how far a foot reaches through the ground.
func (s *stance) through(g ground, lift []float64) float64 {
	most := 0.0
	for i, f := range s.feet {
		most = math.Max(most, g.under(f.at)-lift[i])
	}
	return most
}

// plane is the plane through three lifted feet.
func (s *stance) plane(t three, lift []float64) ground {
	a, b, c := s.feet[t.at[0]].at, s.feet[t.at[1]].at, s.feet[t.at[2]].at
	ha, hb, hc := lift[t.at[0]], lift[t.at[1]], lift[t.at[2]]
	dx1, dy1, dx2, dy2 := b.X-a.X, b.Y-a.Y, c.X-a.X, c.Y-a.Y
	det := dx1*dy2 - dx2*dy1
	px := ((hb-ha)*dy2 - (hc-ha)*dy1) / det
	py := ((hc-ha)*dx1 - (hb-ha)*dx2) / det
	return ground{height: ha - px*a.X - py*a.Y, turn: geom.V3{X: py, Y: -px}}
}

// under is how high the ground is at a point.
func (g ground) under(p geom.V3) float64 { return g.height + g.turn.X*p.Y - g.turn.Y*p.X }

// rock is how far the highest standing piece is off the ground, by its lowest
// corner.
func (s *stance) rock(g ground, lift []float64) float64 {
	most := 0.0
	for i := 0; i < len(s.feet); {
		least := math.Inf(1)
		j := i
		for ; j < len(s.feet) && s.feet[j].piece == s.feet[i].piece; j++ {
			least = math.Min(least, lift[j]-g.under(s.feet[j].at))
		}
		most, i = math.Max(most, least), j
	}
	return most
}
