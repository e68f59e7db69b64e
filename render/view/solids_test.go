package view

import (
	"math"
	"math/rand/v2"

	"planset/model/geom"
)

// A rim is a closed path for test solids; its sides all belong to the curved
// surface smooth, or are true flats when that is 0.
type rim struct {
	at     []geom.Pt
	smooth int
}

// prism stands on z = 0 and is h high. The outside runs anticlockwise, holes
// clockwise, and holes go right through.
func prism(h float64, rims ...rim) *geom.Solid {
	var s geom.Solid
	up := geom.Face{N: geom.V3{Z: 1}}
	down := geom.Face{N: geom.V3{Z: -1}}
	for k, r := range rims {
		n := len(r.at)
		top, bottom := make([]geom.V3, n), make([]geom.V3, n)
		for i, p := range r.at {
			top[i] = geom.V3{X: p.X, Y: p.Y, Z: h}
			bottom[n-1-i] = geom.V3{X: p.X, Y: p.Y}
			q := r.at[(i+1)%n]
			kind := geom.Side
			if k > 0 {
				kind = geom.Hollow
			}
			out := q.Sub(p).Left().Mul(-1).Unit()
			s.Faces = append(s.Faces, geom.Face{
				Loops:  [][]geom.V3{{{X: p.X, Y: p.Y}, {X: q.X, Y: q.Y}, {X: q.X, Y: q.Y, Z: h}, {X: p.X, Y: p.Y, Z: h}}},
				N:      geom.V3{X: out.X, Y: out.Y},
				Kind:   kind,
				Smooth: r.smooth,
			})
		}
		up.Loops, down.Loops = append(up.Loops, top), append(down.Loops, bottom)
	}
	s.Faces = append(s.Faces, up, down)
	return &s
}

// rect is the outline of 0..l by 0..w.
func rect(l, w float64) rim {
	return rim{at: []geom.Pt{{}, {X: l}, {X: l, Y: w}, {Y: w}}}
}

// ring is a circle of n chords, anticlockwise, or clockwise for a hole.
func ring(c geom.Pt, r float64, n int, hole bool) rim {
	out := rim{smooth: 1 + int(c.X)}
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		if hole {
			a = -a
		}
		out.at = append(out.at, c.Add(geom.Pt{X: r}.Turn(a)))
	}
	return out
}

func box(l, w, h float64) *geom.Solid { return prism(h, rect(l, w)) }

// notched is a board with a step cut out of one corner: not convex.
func notched(l, w, h float64) *geom.Solid {
	return prism(h, rim{at: []geom.Pt{{}, {X: l}, {X: l, Y: w / 2}, {X: l / 2, Y: w / 2}, {X: l / 2, Y: w}, {Y: w}}})
}

func drilled(l, w, h float64) *geom.Solid {
	return prism(h, rect(l, w), ring(geom.Pt{X: l / 4, Y: w / 2}, w/5, 16, true), ring(geom.Pt{X: 3 * l / 4, Y: w / 2}, w/6, 16, true))
}

func cylinder(r, h float64, n int) *geom.Solid { return prism(h, ring(geom.Pt{}, r, n, false)) }

// ball is a sphere of n rings of 2n facets.
func ball(r float64, n int) *geom.Solid {
	var s geom.Solid
	on := func(i, j int) geom.V3 {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
		a := math.Pi * float64(j%(2*n)) / float64(n)
		if i == n {
			sin = 0
		}
		return geom.V3{X: r * sin * math.Cos(a), Y: r * sin * math.Sin(a), Z: r * cos}
	}
	for i := range n {
		for j := range 2 * n {
			loop := []geom.V3{on(i, j), on(i+1, j), on(i+1, j+1), on(i, j+1)}
			out := loop[2].Sub(loop[0]).Cross(loop[3].Sub(loop[1])).Unit()
			s.Faces = append(s.Faces, geom.Face{Loops: [][]geom.V3{loop}, N: out, Smooth: 1})
		}
	}
	return &s
}

// at moves a body home to p.
func at(x, y, z float64) geom.Pose {
	p := geom.Home()
	p.Origin = geom.V3{X: x, Y: y, Z: z}
	return p
}

// turned is a pose spun about an axis, at p.
func turned(p, axis geom.V3, a float64) geom.Pose {
	q := geom.Home()
	u := axis.Unit()
	return geom.Pose{Origin: p, Along: q.Along.Spin(u, a), Across: q.Across.Spin(u, a), Thick: q.Thick.Spin(u, a)}
}

// randomScene has n boards: loose ones at any angle that cross each other, and
// stacks of boards that touch flush, some drilled, notched, round or mirrored.
func randomScene(r *rand.Rand, n int) []Body {
	var out []Body
	span := 120 * math.Cbrt(float64(n))
	for len(out) < n {
		p := geom.V3{X: r.Float64() * span, Y: r.Float64() * span, Z: r.Float64() * span}
		l, w, h := 80+200*r.Float64(), 30+60*r.Float64(), 10+25*r.Float64()
		solid := randomSolid(r, l, w, h)
		pose := turned(p, geom.V3{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}, r.Float64()*6)
		if r.IntN(3) == 0 {
			pose = at(math.Round(p.X), math.Round(p.Y), math.Round(p.Z))
		}
		if r.IntN(4) == 0 {
			pose = pose.Mirror()
			pose.Origin.X += span
		}
		out = append(out, Body{ID: len(out), Solid: solid, Pose: pose})
		switch r.IntN(3) {
		case 0: // one more flush on top
			next := pose
			next.Origin = pose.Point(geom.V3{Z: h})
			out = append(out, Body{ID: len(out), Solid: box(l, w, h), Pose: next})
		case 1: // one more flush beside, as exactly as a solver leaves it
			next := pose
			next.Origin = pose.Point(geom.V3{Y: w + 1e-4*r.NormFloat64(), Z: 1e-4 * r.NormFloat64()})
			out = append(out, Body{ID: len(out), Solid: box(l, w/2, h), Pose: next})
		}
	}
	return out[:n]
}

func randomSolid(r *rand.Rand, l, w, h float64) *geom.Solid {
	switch r.IntN(6) {
	case 4, 5:
		if s := worked(r, l, w, h); s != nil {
			return s
		}
	case 0:
		return drilled(l, w, h)
	case 1:
		return notched(l, w, h)
	case 2:
		return cylinder(w/2, l, 16+r.IntN(20))
	}
	return box(l, w, h)
}

// worked is a board as the model makes them: bevelled, rounded, bored and
// grooved.
func worked(r *rand.Rand, l, w, h float64) *geom.Solid {
	b := geom.Board{Outline: geom.Rect(l, w), Thick: h}
	if r.IntN(2) == 0 {
		b.Cuts = append(b.Cuts, geom.Plane{P: geom.V3{X: l * 0.9}, N: geom.V3{X: 1, Z: r.Float64() - 0.5}.Unit()})
	}
	if r.IntN(2) == 0 {
		b.Rounds = append(b.Rounds, geom.Round{B: geom.Pt{X: l}, Top: true, R: h / 3})
	}
	if r.IntN(2) == 0 {
		b.Recesses = append(b.Recesses, geom.Recess{Outline: geom.Rect(l/6, w/2), Top: r.IntN(2) == 0, Depth: h / 3})
	}
	at := geom.V3{X: l / 2, Y: w / 2, Z: h}
	b.Bores = append(b.Bores,
		geom.Bore{At: at, Dir: geom.V3{Z: -1}, Diam: w / 3, Depth: h / 3},
		geom.Bore{At: at, Dir: geom.V3{X: r.Float64() * 0.5, Z: -1}.Unit(), Diam: w / 6})
	s, err := b.Solid(0.3)
	if err != nil {
		return nil
	}
	return s
}
