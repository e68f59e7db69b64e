package dims

import (
	"math"

	"planset/model/geom"
	"planset/render"
)

// tasks offers the triangles at several distances from the corner, so that
// extension lines find room between them and it.
func (d Datum) tasks(*Field) []task {
	return []task{{name: "the datum mark", group: "mark", rank: rankCorner, order: -1, options: func(*scene) offer {
		opts := make([]option, 0, 49)
		for i, x := range [...]float64{4, 5.5, 7, 9, 11, 14, 18} {
			for j, y := range [...]float64{4, 5.5, 7, 3, 9, 11, 14} {
				opts = append(opts, d.option([2]float64{x, y}, float64(i+j)))
			}
		}
		return ready(opts)
	}}}
}

// triangles returns the two marks: each stands outside the wood with its tip
// on the edge.
func (d Datum) triangles(off [2]float64) [2][3]geom.Pt {
	const high, half = 2.6, 1.5
	sx, sy := math.Copysign(1, d.X), math.Copysign(1, d.Y)
	p := func(x, y float64) geom.Pt { return d.At.Add(geom.Pt{X: sx * x, Y: sy * y}) }
	return [2][3]geom.Pt{
		{p(off[0], -0.35), p(off[0]-half, -0.35-high), p(off[0]+half, -0.35-high)},
		{p(-0.35, off[1]), p(-0.35-high, off[1]-half), p(-0.35-high, off[1]+half)},
	}
}

func (d Datum) option(off [2]float64, price float64) option {
	o := option{base: price, lines: make([]line, 0, 6)}
	for _, t := range d.triangles(off) {
		o.add(mark, t[0], t[1], t[2], t[0])
	}
	o.draw = func() []render.Item {
		t := d.triangles(off)
		return []render.Item{black(render.Loop(t[0][:]...), render.Loop(t[1][:]...))}
	}
	return o
}

// tasks draws the line 3 mm past both ends.
func (c Center) tasks(*Field) []task {
	u := c.B.Sub(c.A).Unit().Mul(3)
	a, b := c.A.Sub(u), c.B.Add(u)
	return fixed("the centre line", func() option {
		var o option
		o.add(ink, a, b)
		o.draw = func() []render.Item {
			return []render.Item{render.Stroke{Paths: []render.Path{render.Lines(a, b)}, Pen: render.Center}}
		}
		return o
	})
}

// tasks draws two parallel lines with a zigzag in the middle, each 2 mm past
// the ends.
func (b Break) tasks(*Field) []task {
	u := b.B.Sub(b.A).Unit()
	n := u.Left()
	width := b.Gap
	if width <= 0 {
		width = 2
	}
	return fixed("the break line", func() option {
		var o option
		var paths []render.Path
		for _, side := range [2]float64{-0.5, 0.5} {
			p := func(along, out float64) geom.Pt { return b.A.Add(u.Mul(along)).Add(n.Mul(side*width + out)) }
			l := b.B.Sub(b.A).Len()
			z := math.Min(2.5, l/4)
			pts := []geom.Pt{p(-2, 0), p(l/2-z, 0), p(l/2-z/3, z*0.8), p(l/2+z/3, -z*0.8), p(l/2+z, 0), p(l+2, 0)}
			o.add(ink, pts...)
			paths = append(paths, render.Lines(pts...))
		}
		o.draw = func() []render.Item { return []render.Item{render.Stroke{Paths: paths, Pen: render.Break}} }
		return o
	})
}

// fixed is a task with one place.
func fixed(name string, build func() option) []task {
	return []task{{name: name, group: "mark", rank: rankFixed, options: func(*scene) offer {
		return ready([]option{build()})
	}}}
}
