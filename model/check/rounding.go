package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/expr"
)

// What is printed must build what was solved: hole against hole to 1/64 in or 0.3
// mm, a row of boards to 1/32 in, the frame's angles to half of what the author
// allows and half a degree otherwise (common practice).
const (
	holeInch  = 25.4 / 64
	holeMM    = 0.3
	rowInch   = 0.8
	angleHalf = 0.5 // degrees
)

// rounding rebuilds hole patterns, rows and the frame from the numbers as they
// are printed.
func rounding(s *shop) []Finding {
	var t tally
	most := holeInch
	if s.Unit == expr.MM {
		most = holeMM
	}
	for _, j := range s.Joints {
		for _, a := range j.First {
			for _, b := range j.Second {
				off := s.patterns(holesOf(a, j), holesOf(b, j))
				if off <= most+1e-6 {
					continue
				}
				t.add(j.Key, off, Finding{Severity: Error, Value: off, Limit: most, Unit: "mm",
					Text: fmt.Sprintf("%s: laid out by the printed numbers, the holes of %s miss each other by %s", jointName(j), bothOf(a, b), s.drill(off)),
					Fix:  fmt.Sprintf("put the holes on multiples of %s, or drill one through the other", s.drill(s.grain()))}, a, b)
			}
		}
	}
	s.rows(&t)
	s.frame(&t)
	return t.list()
}

// grain is the step of a printed hole, mm.
func (s *shop) grain() float64 {
	if s.Unit == expr.MM {
		return 0.5
	}
	return 25.4 / 32
}

// printed is where a hole is by its printed numbers.
func (s *shop) printed(h model.Hole) (along, across float64) {
	f := expr.Coarse
	if h.Fine {
		f = expr.Fine
	}
	return s.Unit.Round(h.Along, f), s.Unit.Round(h.Across, f)
}

// patterns is the most by which the printed distance of two holes in one part
// differs from that of the two in the other that they meet. What is drilled
// through the other part has no numbers of its own.
func (s *shop) patterns(as, bs []model.Hole) float64 {
	worst := 0.0
	for i, a := range as {
		for _, a2 := range as[i+1:] {
			true1, print1, own1 := s.pair(a, a2)
			for k, b := range bs {
				for _, b2 := range bs[k+1:] {
					true2, print2, own2 := s.pair(b, b2)
					if own1 && own2 && math.Abs(true1-true2) < 0.05 {
						worst = math.Max(worst, math.Abs(print1-print2))
					}
				}
			}
		}
	}
	return worst
}

// pair is how far two holes are apart, truly and as printed, and whether both
// are laid out and not drilled through another part.
func (s *shop) pair(a, b model.Hole) (truly, printed float64, own bool) {
	ax, ay := s.printed(a)
	bx, by := s.printed(b)
	return math.Hypot(a.Along-b.Along, a.Across-b.Across), math.Hypot(ax-bx, ay-by), !a.Matched && !b.Matched
}

// rows adds up the printed widths and gaps of boards side by side.
func (s *shop) rows(t *tally) {
	for _, field := range s.fields() {
		sum := s.Unit.Round(field[0].a.Part.Width, expr.Coarse) - field[0].a.Part.Width
		for _, o := range field {
			w, g := o.b.Part.Width, o.mid()
			sum += s.Unit.Round(w, expr.Coarse) - w
			if math.Abs(o.turn) < angleTol {
				sum += s.Unit.Round(g, expr.Fine) - g
			}
		}
		if off := math.Abs(sum); off > rowInch+1e-6 {
			n := float64(len(field) + 1)
			t.add("row"+field[0].a.Part.Key, off, Finding{Severity: Warning, Value: off, Limit: rowInch, Unit: "mm",
				Text: fmt.Sprintf("made to the printed widths and gaps the row of %s runs %s off", called(field[0].a.Part), s.long(off)),
				Fix:  fmt.Sprintf("put widths on multiples of %s and gaps on those of %s, as round_to does; each is %s off now", s.drill(2*s.grain()), s.drill(s.grain()), s.drill(off/n))}, field[0].a.Part)
		}
	}
}

// frame holds the angles that the printed numbers give against the solved ones.
func (s *shop) frame(t *tally) {
	if s.Proof == nil {
		return
	}
	for _, c := range []struct {
		name, what string
		got        float64
	}{{"recline", "the back leans", s.Proof.Recline}, {"seat_slope", "the seat falls", s.Proof.SeatSlope}} {
		want, ok := s.angleOf(c.name)
		if !ok || c.got == 0 {
			continue
		}
		most := angleHalf
		for _, k := range s.Critical {
			if k.Name == c.name && k.Within > 0 {
				most = k.Within * 180 / math.Pi / 2
			}
		}
		off := math.Abs(c.got-want) * 180 / math.Pi
		if off > most {
			t.add("frame"+c.name, off, Finding{Severity: Error, Value: off, Limit: most, Unit: "deg",
				Text: fmt.Sprintf("built from the printed numbers %s by %.2f°, not %.2f°", c.what, c.got*180/math.Pi, want*180/math.Pi),
				Fix:  fmt.Sprintf("move the bolt holes onto multiples of %s", s.drill(s.grain()))})
		}
	}
}

// angleOf is a measured angle, radians.
func (s *shop) angleOf(name string) (float64, bool) {
	for _, m := range s.Measures {
		if m.Name == name && m.Value.Dim == (expr.Dim{Angle: 1}) {
			return m.Value.V, true
		}
	}
	return 0, false
}
