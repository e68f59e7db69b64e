package tiles

import (
	"math"

	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// grain draws which way the grain runs and which face is up.
func (s *sheet) grain() {
	words := "grain"
	if s.l.Face != "" {
		words += ", " + s.l.Face
	}
	if s.l.Askew != 0 {
		s.slantedGrain(words, s.box(s.l.Outline.Box()).Min.Add(s.box(s.l.Outline.Box()).Max).Mul(0.5))
		return
	}
	long := math.Max(30, lettering.Width(words, noteType)+4)
	size := geom.Size{W: long, H: 6.4}
	if s.l.Turned {
		size = geom.Size{W: size.H, H: size.W}
	}
	part := s.box(s.l.Outline.Box())
	w := s.window()
	near := geom.Pt{X: (part.Min.X + part.Max.X) / 2, Y: (w.Min.Y + w.Max.Y) / 2}
	if !s.l.Turned {
		near = geom.Pt{X: (w.Min.X + w.Max.X) / 2, Y: (part.Min.Y + part.Max.Y) / 2}
	}
	short := s.shortSize(words)
	for _, within := range []geom.Box{render.Overlap(part, w), w} {
		if at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: within, Pad: pad + 0.5}); ok {
			h := hand{at: geom.Pt{X: at.Min.X, Y: at.Min.Y + 1}}
			if s.l.Turned {
				h = hand{at: geom.Pt{X: at.Max.X - 1, Y: at.Min.Y}, angle: math.Pi / 2}
			}
			s.add("grain", grainArrow(h, long, words)...)
			return
		}
		if at, ok := s.desk.Room(desk.Want{Size: short, Near: near, Within: within, Pad: pad}); ok {
			s.shortGrain(at, words)
			return
		}
	}
	s.bareGrain(words, near)
}

// Measures of a short grain arrow, in mm.
const (
	arrowLong = 14.0
	arrowWide = 3.0
	arrowGap  = 2.5 // from the arrow to the words behind it
)

// arrowSize is the room of a short arrow.
func (s *sheet) arrowSize() geom.Size {
	if s.l.Turned {
		return geom.Size{W: arrowWide, H: arrowLong}
	}
	return geom.Size{W: arrowLong, H: arrowWide}
}

// shortSize is the room of a short arrow with the words behind it.
func (s *sheet) shortSize(words string) geom.Size {
	size, text := s.arrowSize(), textBox(words, noteType)
	return geom.Size{W: size.W + arrowGap + text.W, H: math.Max(size.H, text.H)}
}

// shortArrow draws a short arrow along the left side of b, half way up.
func (s *sheet) shortArrow(b geom.Box) []render.Item {
	mid := (b.Min.Y + b.Max.Y) / 2
	h := hand{at: geom.Pt{X: b.Min.X, Y: mid}}
	if s.l.Turned {
		h = hand{at: geom.Pt{X: b.Min.X + arrowWide/2, Y: mid - arrowLong/2}, angle: math.Pi / 2}
	}
	return grainArrow(h, arrowLong, "")
}

// shortGrain draws a short arrow in a box, with the words behind it.
func (s *sheet) shortGrain(b geom.Box, words string) {
	at := geom.Pt{X: b.Min.X + s.arrowSize().W + arrowGap, Y: (b.Min.Y+b.Max.Y)/2 - lettering.Cap(noteType)/2}
	s.add("grain", append(s.shortArrow(b), lettering.Line(at, words, noteType, render.Left)...)...)
	s.words = append(s.words, b)
}

// bareGrain draws a short arrow by itself, with the words wherever they fit.
func (s *sheet) bareGrain(words string, near geom.Pt) {
	at, ok := s.desk.Room(desk.Want{Size: s.arrowSize(), Near: near, Within: s.window(), Pad: pad})
	if !ok {
		s.lost++
		return
	}
	s.torn++
	s.add("grain", s.shortArrow(at)...)
	s.put("grain words", note{words: words, style: noteType, near: at.Min.Add(at.Max).Mul(0.5)})
}
