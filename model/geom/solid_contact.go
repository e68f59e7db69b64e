package geom

import "math"

// A Patch is where two solids touch face to face.
type Patch struct {
	Loops [][]V3  // world; the outside first, anticlockwise about N, then holes, clockwise
	N     V3      // unit, out of the first solid and into the second
	Area  float64 // mm²
	FaceA int     // number of the face of the first solid
	FaceB int     // number of the face of the second
	Gap   float64 // mm between the faces, negative where they overlap
}

// Contact returns the patches where a face of a lies against a face of b: the
// faces look at each other, are parallel and no more than tol apart or into
// each other, and share some area. Both solids stand in the world.
//
// Faces may be concave and have holes. Faces are taken as parallel when they
// part by less than tol over the smaller of them. Facets of curved surfaces
// touch like any other face; a curved surface on a flat one touches only with
// the facets that happen to lie flat.
func Contact(a, b *Solid, tol float64) []Patch {
	tol = max(tol, reach)
	ba, bb := a.Box3(Home()).Grow(tol), b.Box3(Home())
	if !ba.Meets(bb) {
		return nil
	}
	boxes := make([]Box3, len(b.Faces))
	for j, g := range b.Faces {
		boxes[j] = g.box()
	}
	var out []Patch
	for i, f := range a.Faces {
		fb := f.box().Grow(tol)
		if !fb.Meets(bb) {
			continue
		}
		for j, g := range b.Faces {
			if !fb.Meets(boxes[j]) {
				continue
			}
			gap, ok := facing(f, g, boxes[j], tol)
			if !ok {
				continue
			}
			for _, p := range shared(f, g) {
				p.FaceA, p.FaceB, p.Gap = i, j, gap
				out = append(out, p)
			}
		}
	}
	return out
}

func (f Face) box() Box3 {
	b := NoBox3()
	for _, p := range f.Loops[0] {
		b = b.With(p)
	}
	return b
}

// facing reports whether g, with the box around it, lies against f, and how far
// off it is on average.
func facing(f, g Face, box Box3, tol float64) (gap float64, ok bool) {
	away := f.N.Add(g.N).Len()
	if away > 0.02 {
		return 0, false
	}
	size := math.Min(box.Size().Len(), f.box().Size().Len())
	if away*size > tol {
		return 0, false
	}
	for _, p := range g.Loops[0] {
		gap += p.Sub(f.Loops[0][0]).Dot(f.N)
	}
	gap /= float64(len(g.Loops[0]))
	return gap, math.Abs(gap) <= tol
}

// shared returns the parts of f that g covers, both laid in the plane of f.
func shared(f, g Face) []Patch {
	fr := frameOf(f.N)
	p, q := fr.sides(f.Loops), fr.sides(g.Loops)
	for i, s := range q {
		// g looks the other way, so its loops run clockwise here.
		q[i] = s.Reverse()
	}
	depth := f.Loops[0][0].Dot(f.N)
	loops := heal(join(common(p, q), loose))
	flat := make([][]V3, len(loops))
	for i, l := range loops {
		for _, s := range l {
			flat[i] = append(flat[i], fr.u.Mul(s.A.X).Add(fr.v.Mul(s.A.Y)).Add(f.N.Mul(depth)))
		}
	}
	if len(flat) == 0 {
		return nil
	}
	var out []Patch
	for _, group := range nest(flat, f.N) {
		a := 0.
		for _, l := range group {
			a += loopArea(l).Dot(f.N)
		}
		out = append(out, Patch{Loops: group, N: f.N, Area: a})
	}
	return out
}
