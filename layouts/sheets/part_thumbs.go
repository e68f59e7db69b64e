package sheets

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// Sizes of the little pictures of the two hands, mm.
const (
	thumbW = 17.0
	thumbH = 6.4
)

// thumbnails draws a handed part twice, small: as drawn and its mirror, both with
// their holes, for a plain board has nothing else to tell its hands by. It
// returns the width they take.
func (b *partPage) thumbnails() float64 {
	p := b.p
	if p.Hand != model.Pair {
		return 0
	}
	v := facing(p)
	k := min(thumbW/p.Length, thumbH/p.Width)
	x := bodyW
	for i, hand := range [...]string{"L", "R"} {
		x -= p.Length*k + 0.5
		at := pt(x, b.y-1.4+(4-p.Width*k)/2)
		b.add(thumbnail(p, v.shown(), thumb{at: at, k: k, mirror: (i == 0) != v.flip})...)
		st := lettering.Style{Face: fonts.CondBold, Size: render.Body}
		x -= 1.6
		b.line(x, b.y, hand, st, toRight)
		x -= lettering.Width(hand, st) + 4
	}
	return bodyW - x + 4
}

// A thumb is where a little picture stands, how large, and whether across runs
// down in it.
type thumb struct {
	at     geom.Pt
	k      float64
	mirror bool
}

// thumbnail draws a part on one face with the holes that show there: a dot for a
// hole, a ring round it where the mouth is wider, that is on this face.
func thumbnail(p *model.Part, face int, t thumb) []render.Item {
	o := p.Board.Outline
	if t.mirror {
		o = o.MirrorY().Move(pt(0, p.Width))
	}
	path := []render.Path{scaled(o, t.k, t.at)}
	items := []render.Item{render.Fill{Paths: path, Tone: render.Edge}, render.Stroke{Paths: path, Pen: render.Thin}}
	var dots, rings []render.Path
	holes := thumbHoles(p)
	ring := ringRoom(holes) * t.k
	for _, h := range holes {
		y := h.Across
		if t.mirror {
			y = p.Width - y
		}
		c := t.at.Add(pt(h.Along*t.k, y*t.k))
		dots = append(dots, render.Circle(c, min(ring*0.5, max(0.3, h.Diam/2*t.k))))
		if ringOf(h) > 0 && h.From == face {
			rings = append(rings, render.Circle(c, min(ring, max(0.75, ringOf(h)*t.k))))
		}
	}
	if len(rings) > 0 {
		items = append(items, render.Fill{Paths: rings, Tone: render.White}, render.Stroke{Paths: rings, Pen: render.Hairline})
	}
	if len(dots) > 0 {
		items = append(items, render.Fill{Paths: dots})
	}
	return items
}

// thumbHoles are the holes into a face that a little picture shows: those that
// are laid out, and bolt holes; not the pilots of screws.
func thumbHoles(p *model.Part) []model.Hole {
	var out []model.Hole
	for _, h := range p.Holes {
		if h.Into == "face" && (!h.Matched || h.Kind == model.BoltHole) {
			out = append(out, h)
		}
	}
	return out
}

// ringRoom is the radius that rings round holes may have without touching.
func ringRoom(holes []model.Hole) float64 {
	least := math.Inf(1)
	for i, h := range holes {
		for _, g := range holes[i+1:] {
			least = min(least, math.Hypot(g.Along-h.Along, g.Across-h.Across))
		}
	}
	return 0.46 * least
}

func scaled(o geom.Outline, k float64, at geom.Pt) render.Path {
	segs := make([]geom.Seg, len(o))
	for i, s := range o {
		s.A, s.B, s.C, s.R = s.A.Mul(k).Add(at), s.B.Mul(k).Add(at), s.C.Mul(k).Add(at), s.R*k
		segs[i] = s
	}
	return render.Path{Segs: segs, Closed: true}
}
