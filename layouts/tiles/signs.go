package tiles

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// The type of the sheets.
var (
	noteType  = lettering.Style{Face: fonts.Cond, Size: render.Note}
	boldNote  = lettering.Style{Face: fonts.CondBold, Size: render.Note}
	smallType = lettering.Style{Face: fonts.Cond, Size: render.Small}
	boldSmall = lettering.Style{Face: fonts.CondBold, Size: render.Small}
	codeType  = lettering.Style{Face: fonts.CondBold, Size: 16}
)

const inch = 25.4

// A hand draws with its own origin and direction: every sign is described once,
// running to the right from zero.
type hand struct {
	at    geom.Pt
	angle float64
}

func (h hand) pt(x, y float64) geom.Pt {
	p := geom.Pt{X: x, Y: y}
	if h.angle != 0 {
		p = p.Turn(h.angle)
	}
	return h.at.Add(p)
}

func (h hand) line(x0, y0, x1, y1 float64) render.Path {
	return render.Lines(h.pt(x0, y0), h.pt(x1, y1))
}

func (h hand) text(x, y float64, s string, st lettering.Style, align render.Align) []render.Item {
	return lettering.Turned(h.pt(x, y), s, st, align, h.angle)
}

// rulerSize is the room a ruler takes, its words included.
func rulerSize() geom.Size {
	return geom.Size{W: 2*inch + 1.5 + lettering.Width("50 mm", boldSmall), H: 5.6}
}

// ruler draws two inches above and fifty millimetres below one line.
func ruler(h hand) []render.Item {
	const mid = 2.8
	paths := []render.Path{h.line(0, mid, 2*inch, mid)}
	for i := range 9 {
		tick := []float64{2.6, 1.0, 1.6, 1.0}[i%4]
		x := float64(i) * inch / 4
		paths = append(paths, h.line(x, mid, x, mid+tick))
	}
	for i := range 11 {
		tick := []float64{2.6, 1.3}[i%2]
		x := float64(i) * 5
		paths = append(paths, h.line(x, mid, x, mid-tick))
	}
	items := []render.Item{render.Stroke{Paths: paths, Pen: render.Pen{Width: 0.25}}}
	items = append(items, h.text(2*inch+1.5, mid+0.6, "2 in", boldSmall, render.Left)...)
	return append(items, h.text(2*inch+1.5, mid-0.6-lettering.Cap(boldSmall), "50 mm", boldSmall, render.Left)...)
}

// scissors draws a pair cutting to the right along the line y = 0, 8 mm long.
func scissors(h hand) []render.Item {
	up, down := render.Circle(h.pt(1.1, 1.2), 0.95), render.Circle(h.pt(1.1, -1.2), 0.95)
	blades := []render.Path{h.line(1.9, 0.75, 8, -0.9), h.line(1.9, -0.75, 8, 0.9)}
	return []render.Item{
		render.Stroke{Paths: append(blades, up, down), Pen: render.Pen{Width: 0.35, Round: true}},
	}
}

// cross draws a registration circle with its hairlines.
func cross(at geom.Pt) []render.Item {
	h := hand{at: at}
	return []render.Item{
		render.Fill{Paths: []render.Path{render.Circle(at, ring)}, Tone: render.White},
		render.Stroke{
			Paths: []render.Path{render.Circle(at, ring), h.line(-hairs, 0, hairs, 0), h.line(0, -hairs, 0, hairs)},
			Pen:   render.Hairline,
		},
	}
}

// pointer fills a slim triangle with its tip at the origin, pointing left.
func pointer(h hand, long float64, tone render.Tone) render.Item {
	return render.Fill{Paths: []render.Path{render.Loop(h.pt(0, 0), h.pt(long, -long/3), h.pt(long, long/3))}, Tone: tone}
}

// grainArrow draws a double arrow of the given length with words over it.
func grainArrow(h hand, long float64, words string) []render.Item {
	back := hand{at: h.pt(long, 0), angle: h.angle + math.Pi}
	items := []render.Item{
		render.Stroke{Paths: []render.Path{h.line(2, 0, long-2, 0)}, Pen: render.Thin},
		pointer(h, 3, render.Tone{}),
		pointer(back, 3, render.Tone{}),
	}
	if words == "" {
		return items
	}
	return append(items, h.text(long/2, 2.6, words, noteType, render.Middle)...)
}
