package woodwork

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// A Cut is a section plane on the page: points of the world are drawn by their
// distances from At along Right and Up, which lie in the plane.
type Cut struct {
	At, Right, Up geom.V3
	Page          geom.Pt // where At is
	Scale         float64
	Window        geom.Box // of the page; nothing is drawn outside
}

// Point returns where a point of the world is on the page.
func (c Cut) Point(v geom.V3) geom.Pt {
	d := v.Sub(c.At)
	return c.Page.Add(geom.Pt{X: d.Dot(c.Right) * c.Scale, Y: d.Dot(c.Up) * c.Scale})
}

// normal is the plane's.
func (c Cut) normal() geom.V3 { return c.Right.Cross(c.Up) }

// Loops returns where the plane cuts a solid, on the page.
func (c Cut) Loops(s *geom.Solid) [][]geom.Pt {
	var out [][]geom.Pt
	for _, l := range s.Section(geom.Plane{P: c.At, N: c.normal()}) {
		pts := make([]geom.Pt, len(l))
		for i, v := range l {
			pts[i] = c.Point(v)
		}
		out = append(out, pts)
	}
	return out
}

// Wood draws the cut through one piece: end grain toned with curved hairlines
// where the plane crosses the fibers, else with lines along them.
func (c Cut) Wood(s *geom.Solid, grain geom.V3, tone render.Tone) []render.Item {
	loops := c.Loops(s)
	if len(loops) == 0 {
		return nil
	}
	var paths []render.Path
	for _, l := range loops {
		paths = append(paths, render.Loop(l...))
	}
	seen := clipped(loops, c.Window.Grow(-0.2))
	var lines []render.Path
	along := geom.Pt{X: grain.Dot(c.Right), Y: grain.Dot(c.Up)}
	if across := math.Abs(grain.Unit().Dot(c.normal())); across > 0.7 {
		b := geom.NoBox()
		for _, l := range loops {
			for _, q := range l {
				b = b.With(q)
			}
		}
		lines = Rings(seen, geom.Pt{X: (b.Min.X + b.Max.X) / 2, Y: b.Min.Y - 0.6*b.W() - 10}, 2.4)
	} else if along.Len() > 0.1 {
		lines = Fibers(seen, c.Page, along.Unit())
	}
	return []render.Item{render.Group{Name: "section", Clip: c.Window, Items: []render.Item{
		render.Fill{Paths: paths, Tone: tone},
		render.Stroke{Paths: lines, Pen: fiber},
		render.Stroke{Paths: paths, Pen: render.Pen{Width: 0.4, Round: true}},
	}}}
}

// clipped cuts loops down to a box; the loops stay closed along its border.
func clipped(loops [][]geom.Pt, b geom.Box) [][]geom.Pt {
	planes := [4]struct{ p, n geom.Pt }{
		{b.Min, geom.Pt{X: 1}}, {b.Max, geom.Pt{X: -1}}, {b.Min, geom.Pt{Y: 1}}, {b.Max, geom.Pt{Y: -1}},
	}
	var out [][]geom.Pt
	for _, l := range loops {
		for _, h := range planes {
			l = half(l, h.p, h.n)
		}
		if len(l) > 2 {
			out = append(out, l)
		}
	}
	return out
}

// half keeps the part of a loop on the side n points to.
func half(l []geom.Pt, p, n geom.Pt) []geom.Pt {
	var out []geom.Pt
	for i, a := range l {
		b := l[(i+1)%len(l)]
		da, db := a.Sub(p).Dot(n), b.Sub(p).Dot(n)
		if da >= 0 {
			out = append(out, a)
		}
		if (da >= 0) != (db >= 0) {
			out = append(out, a.Add(b.Sub(a).Mul(da/(da-db))))
		}
	}
	return out
}

// An Axis puts hardware on the page: s mm along from where the head bears, t mm
// to the side.
type Axis struct {
	Head  geom.Pt
	Dir   geom.Pt // unit, on the page
	Scale float64
}

func (a Axis) at(s, t float64) geom.Pt {
	return a.Head.Add(a.Dir.Mul(s * a.Scale)).Add(a.Dir.Left().Mul(t * a.Scale))
}

func (a Axis) loop(st ...[2]float64) render.Path {
	pts := make([]geom.Pt, len(st))
	for i, p := range st {
		pts[i] = a.at(p[0], p[1])
	}
	return render.Loop(pts...)
}

var steel = render.Pen{Width: 0.25, Round: true}

func metal(paths ...render.Path) []render.Item {
	return []render.Item{render.Fill{Paths: paths, Tone: render.Gray(0.18)}, render.Stroke{Paths: paths, Pen: steel}}
}

// Screw draws a wood or pocket screw from the side: head, shank, thread, tip.
// Seat is how far its head bears below or, negative, above a.Head.
func (a Axis) Screw(h *model.Hardware) []render.Item {
	s := SizesOf(h)
	r, root, hd := s.Shank/2, s.Root/2, s.Head/2
	top := 0.0
	if h.Kind == model.PocketScrew {
		top = -s.HeadHigh
	}
	head := a.loop([2]float64{top, -hd}, [2]float64{top, hd}, [2]float64{top + s.HeadHigh, r}, [2]float64{top + s.HeadHigh, -r})
	from := max(top+s.HeadHigh, 0.36*h.Length)
	tip := h.Length - 1.5*s.Diam
	items := metal(a.loop([2]float64{top + s.HeadHigh, -r}, [2]float64{top + s.HeadHigh, r}, [2]float64{from, r}, [2]float64{from, -r}),
		a.loop([2]float64{from, -root}, [2]float64{from, root}, [2]float64{tip, root}, [2]float64{h.Length, 0}, [2]float64{tip, -root}), head)
	pitch := max(0.45*s.Diam, 1.4)
	var thread []render.Path
	for at := from + pitch/2; at < h.Length-pitch; at += pitch {
		w := s.Diam / 2
		if at > tip {
			w *= (h.Length - at) / (h.Length - tip)
		}
		thread = append(thread, render.Lines(a.at(at, -w), a.at(at+pitch/2, w)))
	}
	return append(items, render.Stroke{Paths: thread, Pen: render.Pen{Width: 0.35, Round: true}})
}

// Bolt draws a bolt from the side with its washer and nut where the grip ends.
func (a Axis) Bolt(h *model.Hardware, grip float64, washer bool) []render.Item {
	s := SizesOf(h)
	r, root := s.Diam/2, s.Root/2
	var dome [][2]float64
	for i := range 13 {
		ang := math.Pi * (float64(i)/12 - 0.5)
		dome = append(dome, [2]float64{-s.HeadHigh * math.Cos(ang), s.Head / 2 * math.Sin(ang)})
	}
	threadFrom := h.Length - s.Thread
	items := metal(a.loop([2]float64{0, -r}, [2]float64{0, r}, [2]float64{threadFrom, r}, [2]float64{threadFrom, -r}),
		a.loop([2]float64{threadFrom, -root}, [2]float64{threadFrom, root}, [2]float64{h.Length, root}, [2]float64{h.Length, -root}))
	pitch := max((s.Diam-s.Root)/1.1, 1.2)
	var thread []render.Path
	for at := threadFrom + pitch/2; at < h.Length-pitch/2; at += pitch {
		thread = append(thread, render.Lines(a.at(at, -r), a.at(at+pitch/2, r)))
	}
	items = append(items, render.Stroke{Paths: thread, Pen: render.Pen{Width: 0.3, Round: true}})
	parts := []render.Path{a.loop(dome...)}
	if s.Neck > 0 {
		parts = append(parts, a.loop([2]float64{0, -s.Square / 2}, [2]float64{0, s.Square / 2}, [2]float64{s.Neck, s.Square / 2}, [2]float64{s.Neck, -s.Square / 2}))
	}
	end := grip
	if washer {
		parts = append(parts, a.loop([2]float64{end, -s.Washer / 2}, [2]float64{end, s.Washer / 2}, [2]float64{end + s.WasherThick, s.Washer / 2}, [2]float64{end + s.WasherThick, -s.Washer / 2}))
		end += s.WasherThick
	}
	c := s.Flats / math.Sqrt(3)
	parts = append(parts, a.loop([2]float64{end, -c}, [2]float64{end, c}, [2]float64{end + s.NutThick, c}, [2]float64{end + s.NutThick, -c}))
	items = append(items, metal(parts...)...)
	facets := []render.Path{render.Lines(a.at(end, -c/2), a.at(end+s.NutThick, -c/2)), render.Lines(a.at(end, c/2), a.at(end+s.NutThick, c/2))}
	return append(items, render.Stroke{Paths: facets, Pen: steel})
}
