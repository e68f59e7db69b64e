package check

import (
	"math"

	"planset/model/geom"
)

// segment is a straight piece of line from P along U.
type segment struct{ P, U geom.V3 }

func (s segment) at(t float64) geom.V3 { return s.P.Add(s.U.Mul(math.Max(0, math.Min(1, t)))) }

// near is where on the line of s the point p is nearest, 0 to 1 on s.
func (s segment) near(p geom.V3) float64 {
	if uu := s.U.Dot(s.U); uu > 0 {
		return p.Sub(s.P).Dot(s.U) / uu
	}
	return 0
}

// to is the shortest way from s to t.
func (s segment) to(t segment) geom.V3 {
	var best geom.V3
	least := math.Inf(1)
	try := func(x, y float64) {
		v := t.at(y).Sub(s.at(x))
		if l := v.Len(); l < least {
			best, least = v, l
		}
	}
	w := s.P.Sub(t.P)
	uu, uv, vv, uw, vw := s.U.Dot(s.U), s.U.Dot(t.U), t.U.Dot(t.U), s.U.Dot(w), t.U.Dot(w)
	if den := uu*vv - uv*uv; den > 1e-9*uu*vv {
		x, y := (uv*vw-vv*uw)/den, (uu*vw-uv*uw)/den
		if x >= 0 && x <= 1 && y >= 0 && y <= 1 {
			try(x, y)
		}
	}
	for _, e := range []float64{0, 1} {
		try(e, t.near(s.at(e)))
		try(s.near(t.at(e)), e)
	}
	return best
}

// apart is the shortest way from one solid to another that is no farther than
// most; not ok beyond. Solids that reach into each other are not its business.
func apart(a, b *geom.Solid, most float64) (geom.V3, bool) {
	ba, bb := a.Box3(geom.Home()).Grow(most), b.Box3(geom.Home()).Grow(most)
	if !ba.Meets(bb) {
		return geom.V3{}, false
	}
	best, least := geom.V3{}, math.Inf(1)
	try := func(v geom.V3) {
		if l := v.Len(); l < least {
			best, least = v, l
		}
	}
	ea, eb := edgesIn(a, bb), edgesIn(b, ba)
	for _, s := range ea {
		for _, t := range eb {
			try(s.to(t))
		}
	}
	for _, p := range a.Points() {
		if v, ok := toFace(b, p); bb.Has(p) && ok {
			try(v)
		}
	}
	for _, p := range b.Points() {
		if v, ok := toFace(a, p); ba.Has(p) && ok {
			try(v.Neg())
		}
	}
	return best, least <= most
}

// edgesIn are the edges of a solid that come near a box, each once.
func edgesIn(s *geom.Solid, box geom.Box3) []segment {
	var out []segment
	for _, f := range s.Faces {
		for _, loop := range f.Loops {
			for i, p := range loop {
				q := loop[(i+1)%len(loop)]
				if after(p, q) || !geom.NoBox3().With(p).With(q).Meets(box) {
					continue
				}
				out = append(out, segment{p, q.Sub(p)})
			}
		}
	}
	return out
}

// after orders points, so that of an edge walked both ways one is taken.
func after(p, q geom.V3) bool {
	switch {
	case p.X != q.X:
		return p.X > q.X
	case p.Y != q.Y:
		return p.Y > q.Y
	}
	return p.Z > q.Z
}

// toFace is the shortest way from a point square on to a face that looks at it.
func toFace(s *geom.Solid, p geom.V3) (geom.V3, bool) {
	least, best := math.Inf(1), geom.V3{}
	for _, f := range s.Faces {
		h := p.Sub(f.Loops[0][0]).Dot(f.N)
		if h < 0 || h >= least {
			continue
		}
		if v := f.N.Mul(-h); onFace(f, p.Add(v)) {
			least, best = h, v
		}
	}
	return best, !math.IsInf(least, 1)
}
