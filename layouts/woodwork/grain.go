package woodwork

import (
	"math"
	"sort"

	"planset/layouts/sight"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Measures of grain on paper, mm.
const (
	grainPitch = 2.1 // between lines
	grainInset = 0.5 // from the edges of a face
	grainLeast = 2.0 // shortest line
)

// grain returns the grain lines of one face that looks at the eye: on faces
// only, so that edges and ends tell themselves by tone.
func (p *Picture) grain(w Piece, a view.Area, loops [][]geom.Pt) []render.Path {
	if w.Grain == (geom.V3{}) || a.Kind != geom.Flat || w.Look == Done || w.Look == Metal {
		return nil
	}
	dir := p.camera.Flat(w.Grain)
	if dir.Len() < 0.25 || math.Abs(a.N.Dot(w.Grain)) > 0.5 {
		return nil
	}
	return Fibers(loops, p.Point(w.Origin), dir.Unit())
}

// Fibers returns broken fine lines along dir inside loops, by the even-odd
// rule. They are counted from origin, so that two pieces of one face agree.
func Fibers(loops [][]geom.Pt, origin, dir geom.Pt) []render.Path {
	side := dir.Left()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range loops {
		for _, q := range l {
			d := q.Sub(origin).Dot(side)
			lo, hi = min(lo, d), max(hi, d)
		}
	}
	if hi-lo > 500 || hi < lo {
		return nil
	}
	var paths []render.Path
	for n := int(math.Ceil(lo / grainPitch)); float64(n)*grainPitch < hi; n++ {
		off := (float64(n) + 0.3*wobble(n, 0)) * grainPitch
		if off-lo < grainInset || hi-off < grainInset {
			continue
		}
		for _, s := range inside(loops, origin.Add(side.Mul(off)), dir) {
			for _, d := range dashes(n, s[0]+grainInset, s[1]-grainInset) {
				at := func(t float64) geom.Pt { return origin.Add(side.Mul(off)).Add(dir.Mul(t)) }
				paths = append(paths, render.Lines(at(d[0]), at(d[1])))
			}
		}
	}
	return paths
}

// wobble is a fixed pseudo-random number from -1 to 1 for each n and k.
func wobble(n, k int) float64 {
	h := uint32(n*2654435) ^ uint32(k*40503) + 97
	h ^= h >> 13
	h *= 1597334677
	h ^= h >> 16
	return float64(h%2001)/1000 - 1
}

// dashes returns the stretches of line n that are drawn between lo and hi.
func dashes(n int, lo, hi float64) [][2]float64 {
	const period = 26.0
	var out [][2]float64
	for k := int(math.Floor(lo/period)) - 1; float64(k)*period < hi; k++ {
		start := (float64(k) + 0.5*wobble(n, 3*k)) * period
		long := 10 + 5*wobble(n, 3*k+1)
		a, b := max(lo, start), min(hi, start+long)
		if b-a > grainLeast {
			out = append(out, [2]float64{a, b})
		}
	}
	return out
}

// inside returns the stretches of the line through p along dir that lie inside
// loops, as distances from p.
func inside(loops [][]geom.Pt, p, dir geom.Pt) [][2]float64 {
	side := dir.Left()
	var cuts []float64
	for _, l := range loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			da, db := a.Sub(p).Dot(side), b.Sub(p).Dot(side)
			if (da < 0) == (db < 0) {
				continue
			}
			t := da / (da - db)
			cuts = append(cuts, a.Add(b.Sub(a).Mul(t)).Sub(p).Dot(dir))
		}
	}
	sort.Float64s(cuts)
	var out [][2]float64
	for i := 0; i+1 < len(cuts); i += 2 {
		if cuts[i+1]-cuts[i] > 2*grainInset {
			out = append(out, [2]float64{cuts[i], cuts[i+1]})
		}
	}
	return out
}

// Rings returns curved hairlines of end grain inside loops: circles about a
// pith well below the face, mm apart.
func Rings(loops [][]geom.Pt, pith geom.Pt, apart float64) []render.Path {
	far := 0.0
	near := math.Inf(1)
	for _, l := range loops {
		for _, q := range l {
			r := q.Sub(pith).Len()
			far, near = max(far, r), min(near, r)
		}
	}
	var paths []render.Path
	for n := int(near / apart); float64(n)*apart < far; n++ {
		r := (float64(n) + 0.25*wobble(n, 7)) * apart
		if r > 0 {
			paths = append(paths, arcInside(loops, pith, r)...)
		}
	}
	return paths
}

// arcInside walks a circle and keeps what lies inside loops.
func arcInside(loops [][]geom.Pt, c geom.Pt, r float64) []render.Path {
	steps := max(24, int(2*math.Pi*r/0.8))
	var paths []render.Path
	var run []geom.Pt
	flush := func() {
		if len(run) > 2 {
			paths = append(paths, render.Lines(run...))
		}
		run = nil
	}
	for i := 0; i <= steps; i++ {
		q := c.Add(geom.Pt{X: r}.Turn(2 * math.Pi * float64(i) / float64(steps)))
		if sight.Has(loops, q) {
			run = append(run, q)
			continue
		}
		flush()
	}
	flush()
	return paths
}
