package view

import (
	"math"
	"slices"

	"planset/model/geom"
)

// The oracle below shares no code with the package: it reads the solids as they
// are, shoots lines of sight at them and fills a depth buffer.

// An oracleFace is a face that looks at the eye, in the camera's frame.
type oracleFace struct {
	body, of int
	loops    [][]geom.V3
	n        geom.V3
	d        float64
	smooth   int
	lo, hi   geom.Pt
}

func oracleFaces(bodies []Body, cam Camera) []oracleFace {
	eye := func(p geom.V3) geom.V3 {
		q := cam.Flat(p)
		return geom.V3{X: q.X, Y: q.Y, Z: cam.Depth(p)}
	}
	var out []oracleFace
	for b, body := range bodies {
		for k, f := range body.Solid.Faces {
			o := oracleFace{body: b, of: k, n: eye(body.Pose.Dir(f.N)), smooth: f.Smooth}
			if o.n.Z <= 1e-9 {
				continue
			}
			box := geom.NoBox()
			for _, loop := range f.Loops {
				var l []geom.V3
				for _, v := range loop {
					l = append(l, eye(body.Pose.Point(v)))
					box = box.With(geom.Pt{X: l[len(l)-1].X, Y: l[len(l)-1].Y})
				}
				o.loops = append(o.loops, l)
			}
			o.d = o.n.Dot(o.loops[0][0])
			o.lo, o.hi = box.Min, box.Max
			out = append(out, o)
		}
	}
	return out
}

func (o *oracleFace) depth(p geom.Pt) float64 { return (o.d - o.n.X*p.X - o.n.Y*p.Y) / o.n.Z }

// row returns where the line y cuts the loops, in order.
func (o *oracleFace) row(y float64) []float64 {
	var xs []float64
	for _, l := range o.loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
		}
	}
	slices.Sort(xs)
	return xs
}

func (o *oracleFace) has(p geom.Pt) bool {
	if p.X < o.lo.X || p.X > o.hi.X || p.Y < o.lo.Y || p.Y > o.hi.Y {
		return false
	}
	in := false
	for _, x := range o.row(p.Y) {
		if x < p.X {
			in = !in
		}
	}
	return in
}

// seenAt returns the face that is seen at p, or nil, and whether another is at
// the same depth, so that either could be seen.
func seenAt(faces []oracleFace, p geom.Pt) (best *oracleFace, doubtful bool) {
	for i := range faces {
		f := &faces[i]
		if !f.has(p) {
			continue
		}
		z := f.depth(p)
		switch {
		case best == nil || z > best.depth(p)+Touch/f.n.Z:
			best, doubtful = f, false
		case z > best.depth(p)-Touch/f.n.Z:
			doubtful = true
		}
	}
	return best, doubtful
}

// different reports whether two faces seen side by side can have a line between
// them.
func different(f, g *oracleFace) bool {
	if f == nil || g == nil {
		return f != g
	}
	if f.body != g.body {
		return true
	}
	return f.of != g.of && !(f.smooth > 0 && f.smooth == g.smooth) &&
		(f.n.Cross(g.n).Len() > 1e-3 || math.Abs(f.d-g.d) > Touch)
}

// blend is the widest angle, as a cosine, at which a flat may meet a facet of a
// curved surface that runs smoothly into it.
const blend = 0.8

// parted reports whether there must be a line between two such faces.
func parted(f, g *oracleFace) bool {
	if f != nil && g != nil && f.body == g.body && f.smooth+g.smooth > 0 && f.n.Dot(g.n) > blend {
		return false
	}
	return different(f, g)
}

// A buffer is a picture of n by n pixels; each knows the face seen at its
// centre.
type buffer struct {
	n        int
	min      geom.Pt
	step     float64
	face     []*oracleFace
	depth    []float64
	doubtful []bool // two faces at the same depth
}

func newBuffer(faces []oracleFace, n int) *buffer {
	box := geom.NoBox()
	for i := range faces {
		box = box.With(faces[i].lo).With(faces[i].hi)
	}
	b := &buffer{n: n, step: math.Max(box.W(), box.H()) / float64(n-2)}
	b.min = box.Min.Sub(geom.Pt{X: b.step * 0.317, Y: b.step * 0.713})
	b.face, b.depth, b.doubtful = make([]*oracleFace, n*n), make([]float64, n*n), make([]bool, n*n)
	for i := range faces {
		f := &faces[i]
		b.fill(f.lo.Y, f.hi.Y, f.row, func(k int, p geom.Pt) {
			z := f.depth(p)
			switch {
			case b.face[k] == nil || z > b.depth[k]+2*Touch/f.n.Z:
				b.face[k], b.depth[k], b.doubtful[k] = f, z, false
			case z > b.depth[k]-2*Touch/f.n.Z:
				b.doubtful[k] = true
			}
		})
	}
	return b
}

func (b *buffer) centre(x, y int) geom.Pt {
	return b.min.Add(geom.Pt{X: (float64(x) + 0.5) * b.step, Y: (float64(y) + 0.5) * b.step})
}

// fill visits the pixels inside a shape given by its cuts with each row.
func (b *buffer) fill(lo, hi float64, row func(y float64) []float64, visit func(k int, p geom.Pt)) {
	y0 := max(0, int((lo-b.min.Y)/b.step-1))
	y1 := min(b.n-1, int((hi-b.min.Y)/b.step+1))
	for y := y0; y <= y1; y++ {
		xs := row(b.centre(0, y).Y)
		for i := 0; i+1 < len(xs); i += 2 {
			x0 := max(0, int(math.Ceil((xs[i]-b.min.X)/b.step-0.5)))
			x1 := min(b.n-1, int(math.Floor((xs[i+1]-b.min.X)/b.step-0.5)))
			for x := x0; x <= x1; x++ {
				visit(y*b.n+x, b.centre(x, y))
			}
		}
	}
}
