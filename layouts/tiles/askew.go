package tiles

import (
	"math"

	"planset/layouts/tiles/desk"
	"planset/model/geom"
)

// askew returns t turned by the least whole number of degrees at which it fits
// on one sheet of either paper, and that angle in radians. It is not ok when
// there is none: then nothing is gained by lying askew.
func askew(t Template) (turned Template, angle float64, ok bool) {
	a, b := Letter().Live(), A4().Live()
	room := geom.Size{W: math.Min(a.W, b.W), H: math.Min(a.H, b.H)}
	// Nothing narrower than the farthest two points of a part can hold it.
	if box := t.Outline.Box(); math.Max(box.W(), box.H()) > math.Hypot(room.W, room.H) {
		return t, 0, false
	}
	for deg := 1; deg < 180; deg++ {
		angle = float64(deg) * math.Pi / 180
		if box := t.Outline.Turn(angle).Box(); box.W() <= room.W && box.H() <= room.H {
			return t.askewBy(angle), angle, true
		}
	}
	return t, 0, false
}

// askewBy turns everything of t about its own corner.
func (t Template) askewBy(angle float64) Template {
	t.Outline = t.Outline.Turn(angle)
	holes, controls := t.Holes, t.Controls
	t.Holes, t.Controls = nil, nil
	for _, h := range holes {
		h.At = h.At.Turn(angle)
		t.Holes = append(t.Holes, h)
	}
	for _, c := range controls {
		c.A, c.B = c.A.Turn(angle), c.B.Turn(angle)
		t.Controls = append(t.Controls, c)
	}
	return t
}

// slantedGrain draws the grain of a part that lies askew: an arrow along it, the
// words level beside it.
func (s *sheet) slantedGrain(words string, near geom.Pt) {
	const long = 24.0
	dir := geom.Pt{X: 1}.Turn(s.l.Askew)
	size := geom.Size{W: math.Abs(dir.X)*long + 3, H: math.Abs(dir.Y)*long + 3}
	at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: s.window(), Pad: pad})
	if !ok {
		s.lost++
		return
	}
	mid := at.Min.Add(at.Max).Mul(0.5)
	h := hand{at: mid.Sub(dir.Mul(long / 2)), angle: s.l.Askew}
	s.add("grain", grainArrow(h, long, "")...)
	s.put("grain words", note{words: words, style: noteType, near: mid})
}
