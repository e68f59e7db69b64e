package assembly

import (
	"math"

	"planset/model/geom"
)

// through returns how far the line from p along d runs in the wood of a solid
// that p lies on or in: the distance to the first face it leaves by.
func through(s *geom.Solid, p, d geom.V3) float64 {
	best := math.Inf(1)
	for _, f := range s.Faces {
		across := d.Dot(f.N)
		if across < 1e-9 {
			continue
		}
		t := f.Loops[0][0].Sub(p).Dot(f.N) / across
		if t < 1e-4 || t > best {
			continue
		}
		if inFace(f, p.Add(d.Mul(t))) {
			best = t
		}
	}
	if math.IsInf(best, 1) {
		return 0
	}
	return best
}

// inFace reports whether a point of a face's plane lies within its loops.
func inFace(f geom.Face, p geom.V3) bool {
	u := f.N.Cross(geom.V3{X: 1})
	if u.Len() < 0.5 {
		u = f.N.Cross(geom.V3{Y: 1})
	}
	u = u.Unit()
	v := f.N.Cross(u)
	in := false
	for _, loop := range f.Loops {
		for i, a := range loop {
			b := loop[(i+1)%len(loop)]
			ay, by := a.Sub(p).Dot(v), b.Sub(p).Dot(v)
			if (ay > 0) == (by > 0) {
				continue
			}
			ax, bx := a.Sub(p).Dot(u), b.Sub(p).Dot(u)
			if ax+(bx-ax)*ay/(ay-by) > 0 {
				in = !in
			}
		}
	}
	return in
}
