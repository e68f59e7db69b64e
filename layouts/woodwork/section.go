package woodwork

import (
	"math"
	"sort"

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
	Hatch         Hatch
}

// A Hatch is how the grain in a cut is drawn. The zero Hatch is that of faces.
type Hatch struct {
	Pitch float64     // mm between fibers; 0 is that of faces. Rings stand in proportion
	Pen   render.Pen  // zero is that of faces
	Keep  [][]geom.Pt // loops on the page that are left free: hardware, letters
}

// ringPitch is the distance of growth rings where fibers have their usual one, mm.
const ringPitch = 2.4

// Point returns where a point of the world is on the page.
func (c Cut) Point(v geom.V3) geom.Pt { return c.Page.Add(c.Flat(v.Sub(c.At))) }

// Flat returns a direction of the world on the page, as long as it is there.
func (c Cut) Flat(v geom.V3) geom.Pt {
	return geom.Pt{X: v.Dot(c.Right) * c.Scale, Y: v.Dot(c.Up) * c.Scale}
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

// Wood draws the cut through one piece: end grain with curved hairlines where
// the plane crosses the fibers, else with lines along them. Where the window
// ends the piece, a break line does.
func (c Cut) Wood(s *geom.Solid, grain geom.V3, tone render.Tone) []render.Item {
	loops := c.Loops(s)
	seen := c.Seen(s)
	if len(seen) == 0 {
		return nil
	}
	var fill, broken []render.Path
	var outline []render.Path
	var shapes [][]geom.Pt
	for _, l := range seen {
		shape, edges, breaks := c.parted(l)
		shapes = append(shapes, shape)
		fill = append(fill, render.Loop(shape...))
		outline, broken = append(outline, edges...), append(broken, breaks...)
	}
	return []render.Item{render.Group{Name: "section", Items: []render.Item{
		render.Fill{Paths: fill, Tone: tone},
		render.Stroke{Paths: c.Hatch.cleared(c.grain(loops, shapes, grain)), Pen: c.Hatch.pen()},
		render.Stroke{Paths: outline, Pen: render.Pen{Width: 0.4, Round: true}},
		render.Stroke{Paths: broken, Pen: render.Break},
	}}}
}

// grain returns the hairlines of a cut whose loops are seen as shapes.
func (c Cut) grain(loops, shapes [][]geom.Pt, grain geom.V3) []render.Path {
	dense := 1.0
	if c.Hatch.Pitch > 0 {
		dense = c.Hatch.Pitch / grainPitch
	}
	if across := math.Abs(grain.Unit().Dot(c.normal())); across > 0.7 {
		return Rings(shapes, pith(loops), ringPitch*dense)
	}
	along := geom.Pt{X: grain.Dot(c.Right), Y: grain.Dot(c.Up)}
	if along.Len() <= 0.1 {
		return nil
	}
	// Fibers have one pitch; other ones are drawn on paper of another size.
	for i, l := range shapes {
		shapes[i] = make([]geom.Pt, len(l))
		for k, q := range l {
			shapes[i][k] = q.Mul(1 / dense)
		}
	}
	paths := Fibers(shapes, c.Page.Mul(1/dense), along.Unit())
	for _, p := range paths {
		for k, g := range p.Segs {
			p.Segs[k] = geom.Line(g.A.Mul(dense), g.B.Mul(dense))
		}
	}
	return paths
}

// pith is about where the heart of the tree was: off the broad side of a plain
// sawn board, below it on the page.
func pith(loops [][]geom.Pt) geom.Pt {
	var broad geom.Pt
	for _, l := range loops {
		for i, a := range l {
			if e := l[(i+1)%len(l)].Sub(a); e.Len() > broad.Len()+1e-6 {
				broad = e
			}
		}
	}
	u := broad.Unit()
	off := u.Left()
	if off.Y > 1e-6 || math.Abs(off.Y) <= 1e-6 && off.X > 0 {
		off = off.Mul(-1)
	}
	wide, deep := extent(loops, u), extent(loops, off)
	mid := (wide[0] + wide[1]) / 2
	return u.Mul(mid).Add(off.Mul(deep[1] + 0.6*(wide[1]-wide[0]) + 10))
}

// extent is from where to where loops reach along dir.
func extent(loops [][]geom.Pt, dir geom.Pt) [2]float64 {
	out := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, l := range loops {
		for _, q := range l {
			out[0], out[1] = min(out[0], q.Dot(dir)), max(out[1], q.Dot(dir))
		}
	}
	return out
}

func (h Hatch) pen() render.Pen {
	if h.Pen.Width == 0 {
		return fiber
	}
	return h.Pen
}

// cleared takes out of straight pieces what lies in the loops that are kept free.
func (h Hatch) cleared(paths []render.Path) []render.Path {
	for _, keep := range h.Keep {
		var out []render.Path
		for _, p := range paths {
			out = append(out, without(p, keep)...)
		}
		paths = out
	}
	return paths
}

// without cuts the stretches of a path of lines out that lie in a loop.
func without(p render.Path, loop []geom.Pt) []render.Path {
	var out []render.Path
	var run []geom.Seg
	flush := func() {
		if len(run) > 0 {
			out = append(out, render.Path{Segs: run})
		}
		run = nil
	}
	for _, g := range p.Segs {
		d := g.B.Sub(g.A)
		long, at := d.Len(), 0.0
		point := func(t float64) geom.Pt { return g.A.Add(d.Unit().Mul(t)) }
		for _, s := range Stretches([][]geom.Pt{loop}, g.A, d.Unit()) {
			if s[1] <= at || s[0] >= long {
				continue
			}
			if s[0] > at {
				run = append(run, geom.Line(point(at), point(s[0])))
			}
			flush()
			at = s[1]
		}
		if at < long {
			run = append(run, geom.Line(point(at), g.B))
		}
	}
	flush()
	return out
}

// Stretches returns the parts of the line through p along the unit dir that lie
// inside loops, by the even-odd rule, as distances from p in rising order.
func Stretches(loops [][]geom.Pt, p, dir geom.Pt) [][2]float64 {
	side := dir.Left()
	var cuts []float64
	for _, l := range loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			da, db := a.Sub(p).Dot(side), b.Sub(p).Dot(side)
			if (da < 0) != (db < 0) {
				cuts = append(cuts, a.Add(b.Sub(a).Mul(da/(da-db))).Sub(p).Dot(dir))
			}
		}
	}
	sort.Float64s(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]float64{cuts[i], cuts[i+1]})
	}
	return out
}

// Seen returns what the window shows of the cut through a solid, as closed
// loops; a hole runs clockwise.
func (c Cut) Seen(s *geom.Solid) [][]geom.Pt {
	var out [][]geom.Pt
	for _, l := range c.Loops(s) {
		out = append(out, Clipped(l, c.Window)...)
	}
	return out
}

// Clipped returns the parts of a loop of the page inside a box, each running
// the way the loop does.
func Clipped(loop []geom.Pt, window geom.Box) [][]geom.Pt {
	o := geom.Polygon(loop...)
	hole := o.Area() < 0
	if hole {
		o = o.Reverse()
	}
	b := window
	frame := geom.Polygon(b.Min, geom.Pt{X: b.Max.X, Y: b.Min.Y}, b.Max, geom.Pt{X: b.Min.X, Y: b.Max.Y})
	var out [][]geom.Pt
	for _, piece := range o.And(frame) {
		if hole {
			piece = piece.Reverse()
		}
		pts := make([]geom.Pt, len(piece))
		for i, g := range piece {
			pts[i] = g.A
		}
		out = append(out, pts)
	}
	return out
}

// parted takes a loop that was clipped to the window apart: its shape with the
// break lines in it, its true edges, and the break lines.
func (c Cut) parted(l []geom.Pt) (shape []geom.Pt, edges, breaks []render.Path) {
	var run []geom.Pt
	flush := func() {
		if len(run) > 1 {
			edges = append(edges, render.Lines(run...))
		}
		run = nil
	}
	for i, a := range l {
		b := l[(i+1)%len(l)]
		if !c.onBorder(a, b) {
			if run == nil {
				run = []geom.Pt{a}
			}
			run, shape = append(run, b), append(shape, a)
			continue
		}
		flush()
		line := BreakLine(a, b)
		shape = append(shape, line[:len(line)-1]...)
		breaks = append(breaks, render.Lines(line...))
	}
	if len(breaks) == 0 && len(edges) == 0 {
		return shape, []render.Path{render.Loop(l...)}, nil
	}
	flush()
	return shape, edges, breaks
}

// onBorder reports whether a side runs along the window's border.
func (c Cut) onBorder(a, b geom.Pt) bool {
	const near = 1e-3
	for _, x := range [...]float64{c.Window.Min.X, c.Window.Max.X} {
		if math.Abs(a.X-x) < near && math.Abs(b.X-x) < near {
			return true
		}
	}
	for _, y := range [...]float64{c.Window.Min.Y, c.Window.Max.Y} {
		if math.Abs(a.Y-y) < near && math.Abs(b.Y-y) < near {
			return true
		}
	}
	return false
}

// BreakLine returns the line from a to b with a zigzag in its middle that shows
// that the piece goes on.
func BreakLine(a, b geom.Pt) []geom.Pt {
	d := b.Sub(a)
	u := d.Unit()
	z, mid := min(1.9, d.Len()/5), d.Len()/2
	at := func(s, t float64) geom.Pt { return a.Add(u.Mul(s)).Add(u.Left().Mul(t)) }
	return []geom.Pt{a, at(mid-z, 0), at(mid-z/3, z*0.8), at(mid+z/3, -z*0.8), at(mid+z, 0), b}
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

// threadPen draws thread as wide as the scale lets it, so that it does not run
// together.
func threadPen(width float64) render.Pen {
	return render.Pen{Width: max(render.Hairline.Width, width), Round: true}
}

func metal(paths ...render.Path) []render.Item {
	return []render.Item{render.Fill{Paths: paths, Tone: render.Grain}, render.Stroke{Paths: paths, Pen: steel}}
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
	pitch := max(0.45*s.Diam, 1.4, 0.9/a.Scale)
	var thread []render.Path
	for at := from + pitch/2; at < h.Length-pitch; at += pitch {
		w := s.Diam / 2
		if at > tip {
			w *= (h.Length - at) / (h.Length - tip)
		}
		thread = append(thread, render.Lines(a.at(at, -w), a.at(at+pitch/2, w)))
	}
	return append(items, render.Stroke{Paths: thread, Pen: threadPen(0.35 * a.Scale)})
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
	pitch := max((s.Diam-s.Root)/1.1, 1.2, 0.9/a.Scale)
	var thread []render.Path
	for at := threadFrom + pitch/2; at < h.Length-pitch/2; at += pitch {
		thread = append(thread, render.Lines(a.at(at, -r), a.at(at+pitch/2, r)))
	}
	items = append(items, render.Stroke{Paths: thread, Pen: threadPen(0.3 * a.Scale)})
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
