package sheets

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
	"planset/model/geom"
	"planset/render/view"
)

// The oracle below shares no code with render/view: it shoots lines of sight at
// the faces of the pieces as they stand.

// A target is a face that looks at the eye, in the picture's own frame.
type target struct {
	body, face, smooth int
	n                  geom.V3 // in the picture: x and y across, z to the eye
	d                  float64
	loops              [][]geom.Pt
	box                geom.Box
}

func targets(bodies []view.Body, cam view.Camera) []target {
	var out []target
	for _, b := range bodies {
		for k, f := range b.Solid.Faces {
			t := target{body: b.ID, face: k, smooth: f.Smooth, box: geom.NoBox()}
			t.n = geom.V3{X: f.N.Dot(cam.Right), Y: f.N.Dot(cam.Up), Z: f.N.Dot(cam.Toward)}
			if t.n.Z < 1e-6 {
				continue
			}
			for i, loop := range f.Loops {
				var flat []geom.Pt
				for _, v := range loop {
					p := geom.Pt{X: v.Dot(cam.Right), Y: v.Dot(cam.Up)}
					flat, t.box = append(flat, p), t.box.With(p)
				}
				t.loops = append(t.loops, flat)
				if i == 0 {
					t.d = t.n.Dot(geom.V3{X: flat[0].X, Y: flat[0].Y, Z: loop[0].Dot(cam.Toward)})
				}
			}
			out = append(out, t)
		}
	}
	return out
}

func (t *target) holds(p geom.Pt) bool {
	in := false
	for _, l := range t.loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}

// seen is the face in front at p, nil for none, and whether that is in doubt:
// another one lies as far away.
func seen(all []target, p geom.Pt) (front *target, doubt bool) {
	const tie = 0.2
	depth := math.Inf(-1)
	for i := range all {
		t := &all[i]
		if !t.box.Has(p) || !t.holds(p) {
			continue
		}
		z := (t.d - t.n.X*p.X - t.n.Y*p.Y) / t.n.Z
		switch {
		case z > depth+tie:
			front, depth, doubt = t, z, false
		case z > depth-tie:
			doubt = true
			if z > depth {
				front, depth = t, z
			}
		}
	}
	return front, doubt
}

// lined reports whether there must be a line where one face gives way to the
// other: not between the facets of a curve, nor where a flat runs into one.
func lined(f, g *target) bool {
	switch {
	case f == g:
		return false
	case f == nil || g == nil || f.body != g.body:
		return true
	case f.smooth > 0 || g.smooth > 0:
		return f.n.Dot(g.n) < 0.8
	}
	return f.n.Dot(g.n) < 0.999 || math.Abs(f.d-g.d) > 0.5
}

// onLine returns how far p is from the nearest visible line.
func onLine(lines []view.Edge, p geom.Pt) float64 {
	best := math.Inf(1)
	for _, e := range lines {
		d := e.B.Sub(e.A)
		t := 0.0
		if l := d.Dot(d); l > 0 {
			t = math.Max(0, math.Min(1, p.Sub(e.A).Dot(d)/l))
		}
		best = math.Min(best, p.Sub(e.A.Add(d.Mul(t))).Len())
	}
	return best
}

// Looked at from 8 sides, wherever one face of an example gives way to another
// there is a visible line, and wherever there is a visible line one does.
func TestExamplesHaveTheLinesThatAreSeen(t *testing.T) {
	cameras := []string{"front right high", "front left high", "rear right high", "rear left low", "left front level", "right rear high", "front right low", "left rear high"}
	for _, piece := range []string{"chair", "footstool", "side-table"} {
		plan := drawnPiece(t, piece, "", expr.Inch).Plan
		var bodies []view.Body
		for i, p := range plan.Placed {
			bodies = append(bodies, view.Body{ID: i, Solid: p.Solid, Pose: geom.Home()})
		}
		for _, words := range cameras {
			cam, err := view.Words(words)
			require.NoError(t, err)
			d := view.Draw(bodies, cam)
			var lines []view.Edge
			for _, e := range d.Edges {
				if e.Visible {
					lines = append(lines, e)
				}
			}
			all := targets(bodies, cam)
			changes, lost := changesWithoutLine(all, lines, d.Box)
			samples, invented := linesWithoutChange(all, lines)
			t.Logf("%s from %s: %d changes, %d without a line; %d samples of lines, %d without a change", piece, words, changes, lost, samples, invented)
			assert.Greater(t, changes, 400)
			assert.Zero(t, lost, "%s from %s: lines lost", piece, words)
			assert.Zero(t, invented, "%s from %s: lines invented", piece, words)
		}
	}
}

// changesWithoutLine walks over the picture in steps and closes in on every
// place where the face in front changes.
func changesWithoutLine(all []target, lines []view.Edge, box geom.Box) (changes, lost int) {
	const rows, steps, near = 60, 160, 0.25
	for r := range rows {
		y := box.Min.Y + (float64(r)+0.371)/rows*box.H()
		at := func(x float64) geom.Pt { return geom.Pt{X: x, Y: y} }
		x := box.Min.X - 1
		was, doubt := seen(all, at(x))
		for i := range steps {
			next := box.Min.X - 1 + (float64(i)+1)/steps*(box.W()+2)
			now, unsure := seen(all, at(next))
			if was != now && !doubt && !unsure {
				lo, hi := x, next
				for range 30 {
					mid := (lo + hi) / 2
					if f, _ := seen(all, at(mid)); f == was {
						lo = mid
					} else {
						hi = mid
					}
				}
				right, unsure := seen(all, at(hi+1e-3))
				left, unsure2 := seen(all, at(lo-1e-3))
				if !unsure && !unsure2 && lined(left, right) {
					changes++
					if onLine(lines, at(lo)) > near {
						lost++
					}
				}
			}
			x, was, doubt = next, now, unsure
		}
	}
	return changes, lost
}

// linesWithoutChange looks to both sides of points on the visible lines.
func linesWithoutChange(all []target, lines []view.Edge) (samples, invented int) {
	const aside = 0.3
	for _, e := range lines {
		long := e.B.Sub(e.A).Len()
		if long < 8 {
			continue
		}
		side := e.B.Sub(e.A).Unit().Left().Mul(aside)
		for _, share := range [...]float64{0.21, 0.5, 0.83} {
			p := e.A.Add(e.B.Sub(e.A).Mul(share))
			f, _ := seen(all, p.Add(side))
			g, _ := seen(all, p.Sub(side))
			samples++
			if f == g {
				invented++
			}
		}
	}
	return samples, invented
}
