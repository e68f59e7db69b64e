package geom

import (
	"errors"
	"fmt"
	"math"
)

// Offset returns the outline d outside the anticlockwise o, or -d inside when d
// is negative: every point of it is exactly |d| from o. Corners that open up
// are closed by arcs about them, others are trimmed. It is an error when
// nothing is left, or the shape would touch itself or fall into several pieces.
func (o Outline) Offset(d float64) (Outline, error) {
	if math.Abs(d) <= Grid {
		return o, nil
	}
	raw := o.parallel(d)
	var kept []Seg
	for _, s := range cutAt(raw, raw) {
		m := s.Mid()
		// Parts nearer than |d| belong to swallowed corners. Where sides meet
		// almost smoothly those are nearer by very little.
		if o.Distance(m) >= math.Abs(d)-Grid/10 && o.Contains(m) == (d < 0) {
			kept = append(kept, s)
		}
	}
	var loops []Outline
	for _, l := range heal(join(kept, loose)) {
		if l.Area() > 0 {
			loops = append(loops, l)
		}
	}
	switch {
	case len(loops) == 0:
		return nil, errors.New("nothing is left inside the offset")
	case d < 0 && len(loops) > 1:
		return nil, fmt.Errorf("the offset falls into %d pieces", len(loops))
	}
	off := largest(loops)
	if err := off.Valid(); err != nil {
		return nil, fmt.Errorf("the offset pinches off: %w", err)
	}
	return off, nil
}

func largest(loops []Outline) Outline {
	best := loops[0]
	for _, l := range loops[1:] {
		if l.Area() > best.Area() {
			best = l
		}
	}
	return best
}

// parallel returns the sides of o moved outward by d and the arcs that join
// them where they come apart.
func (o Outline) parallel(d float64) []Seg {
	var raw []Seg
	for i, s := range o {
		if m, ok := s.shift(d); ok {
			raw = append(raw, m)
		}
		n := o[(i+1)%len(o)]
		u, v := s.Tangent(1), n.Tangent(0)
		turn := turnBetween(s, n)
		// Outside, left turns open up; inside, right turns do.
		if turn*d <= 0 || math.Abs(turn)*math.Abs(d) <= reach {
			continue
		}
		away := func(t Pt) Pt { return n.A.Sub(t.Left().Mul(d)) }
		j := CCW
		if d < 0 {
			j = CW
		}
		raw = append(raw, Seg{A: away(u), B: away(v), C: n.A, R: math.Abs(d), Turn: j})
	}
	return raw
}

// turnBetween returns how far left the path turns from the end of s into t. At
// a cusp, where t leaves straight back, the curvature of the two tells whether
// the point sticks out (half a turn left) or cuts in.
func turnBetween(s, t Seg) float64 {
	u, v := s.Tangent(1), t.Tangent(0)
	turn := math.Atan2(u.Cross(v), u.Dot(v))
	if math.Abs(turn) < math.Pi-1e-7 {
		return turn
	}
	if -s.curvature() > t.curvature() {
		return math.Pi
	}
	return -math.Pi
}

// curvature returns 1/R, positive where s bends left.
func (s Seg) curvature() float64 {
	if s.Turn == Straight {
		return 0
	}
	return float64(s.Turn) / s.R
}
