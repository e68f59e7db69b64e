package geom

import "math"

// A skin is a solid made ready to be asked often. What only some questions need
// is worked out when the first of them comes, so a skin is for one goroutine.
type skin struct {
	solid *Solid
	faces []skinFace
	box   Box3
	net   *mesh // see mesh
}

type skinFace struct {
	Face
	frame frame
	depth float64
	box   Box3
	laid  []Seg // see sides
}

func (s *Solid) skin() *skin {
	k := &skin{solid: s, faces: make([]skinFace, len(s.Faces)), box: NoBox3()}
	for i, f := range s.Faces {
		k.faces[i] = skinFace{Face: f, frame: frameOf(f.N), depth: f.Loops[0][0].Dot(f.N), box: f.box()}
		k.box = k.box.Union(k.faces[i].box)
	}
	return k
}

// mesh returns the faces of k with their corners numbered.
func (k *skin) mesh() *mesh {
	if k.net == nil {
		k.net = k.solid.mesh()
	}
	return k.net
}

// sides returns the loops of f, laid flat.
func (f *skinFace) sides() []Seg {
	if f.laid == nil {
		f.laid = f.frame.sides(f.Loops)
	}
	return f.laid
}

// raise returns the point of space that p of the flat face f is.
func (f *skinFace) raise(p Pt) V3 {
	return f.frame.u.Mul(p.X).Add(f.frame.v.Mul(p.Y)).Add(f.N.Mul(f.depth))
}

// height returns how far p is in front of the plane of f.
func (f *skinFace) height(p V3) float64 { return p.Dot(f.N) - f.depth }

// Inside reports whether p lies in the wood of s. A point on the skin may come
// out either way.
func (s *Solid) Inside(p V3) bool { return s.box().Has(p) && s.surrounds(p) }

func (k *skin) inside(p V3) bool { return k.box.Has(p) && k.solid.surrounds(p) }

// surrounds reports whether the skin of s fills the whole view of p; it fills
// none of it for a point outside.
func (s *Solid) surrounds(p V3) bool {
	sum := 0.
	for i := range s.Faces {
		f := &s.Faces[i]
		// Seen edge-on a face fills nothing; rounding would toss a coin over it.
		if math.Abs(p.Dot(f.N)-f.Loops[0][0].Dot(f.N)) <= reach {
			continue
		}
		for _, l := range f.Loops {
			a := l[0].Sub(p)
			for j := 1; j+1 < len(l); j++ {
				sum += solidAngle(a, l[j].Sub(p), l[j+1].Sub(p))
			}
		}
	}
	return sum > 2*math.Pi
}

// solidAngle returns the signed solid angle of a triangle seen from the origin
// (Van Oosterom and Strackee, 1983).
func solidAngle(a, b, c V3) float64 {
	la, lb, lc := a.Len(), b.Len(), c.Len()
	num := a.Dot(b.Cross(c))
	den := la*lb*lc + a.Dot(b)*lc + b.Dot(c)*la + c.Dot(a)*lb
	return 2 * math.Atan2(num, den)
}

// Distance returns how far p is from the skin of s.
func (s *Solid) Distance(p V3) float64 { return s.skin().distance(p) }

func (k *skin) distance(p V3) float64 {
	best := math.Inf(1)
	for i := range k.faces {
		f := &k.faces[i]
		if f.box.distance(p) < best {
			best = min(best, f.distance(p))
		}
	}
	return best
}

// distance returns how far p is from b, 0 inside it.
func (b Box3) distance(p V3) float64 {
	out := func(x, lo, hi float64) float64 { return max(lo-x, 0, x-hi) }
	return V3{out(p.X, b.Min.X, b.Max.X), out(p.Y, b.Min.Y, b.Max.Y), out(p.Z, b.Min.Z, b.Max.Z)}.Len()
}

// distance returns how far p is from f.
func (f *skinFace) distance(p V3) float64 {
	q, h := f.frame.flat(p), math.Abs(f.height(p))
	sides := f.sides()
	if inside(sides, q) {
		return h
	}
	best := math.Inf(1)
	for _, s := range sides {
		best = min(best, s.Distance(q))
	}
	return math.Hypot(best, h)
}

// Overlap returns how deep the wood of a and b runs into each other, 0 when
// they only touch: the skin of one reaches at least so far below the skin of
// the other, measured to the nearest point of it. Overlaps no deeper than tol
// count as touching.
//
// Looked at are corners, the middles of the stretches of edges inside the other
// solid, a point in each piece of a face that lies inside it, and, for solids
// with one skin, points in the wood. Whether there is an overlap is therefore
// told for any flat-faced solids; the depth is a lower bound, exact where a
// corner or an edge goes in square to a face.
func Overlap(a, b *Solid, tol float64) float64 {
	if !a.box().Grow(-tol / 2).Meets(b.box().Grow(-tol / 2)) {
		return 0
	}
	ka, kb := a.skin(), b.skin()
	if ka.clears(kb, tol) || kb.clears(ka, tol) {
		return 0
	}
	deep := max(ka.into(kb), kb.into(ka))
	if deep <= tol {
		// Equal solids in one place have no skin inside each other.
		for i := range ka.faces {
			if c, ok := ka.heart(&ka.faces[i]); ok && kb.inside(c) {
				deep = max(deep, min(ka.distance(c), kb.distance(c)))
			}
		}
	}
	if deep <= tol {
		return 0
	}
	return deep
}

// clears reports whether all of b lies in front of some face of k, or less than
// tol behind it, and all of k behind: the quick answer for boards that only
// touch or stand apart at an angle.
func (k *skin) clears(b *skin, tol float64) bool {
	for i := range k.faces {
		n := k.faces[i].N
		level := k.faces[i].depth
		if b.solid.beyond(n, level-tol) && k.solid.beyond(n.Neg(), -(level+reach)) {
			return true
		}
	}
	return false
}

// beyond reports whether every corner of s lies at least so far along n.
func (s *Solid) beyond(n V3, least float64) bool {
	for i := range s.Faces {
		for _, l := range s.Faces[i].Loops {
			for _, p := range l {
				if p.Dot(n) < least {
					return false
				}
			}
		}
	}
	return true
}

// heart returns a point in the wood under the face f of k, half way to the next
// skin below it.
func (k *skin) heart(f *skinFace) (V3, bool) {
	sides := f.sides()
	q, ok := Outline(sides[:len(f.Loops[0])]).within(sides)
	if !ok {
		return V3{}, false
	}
	p := f.raise(q)
	next := math.Inf(1)
	for i := range k.faces {
		g := &k.faces[i]
		slope := -f.N.Dot(g.N)
		if slope <= 1e-9 {
			continue
		}
		t := -g.height(p) / slope
		if t > reach && t < next && g.distance(p.Sub(f.N.Mul(t))) <= reach {
			next = t
		}
	}
	return p.Sub(f.N.Mul(next / 2)), !math.IsInf(next, 1)
}

// into returns how deep the skin of k reaches into b.
func (k *skin) into(b *skin) float64 {
	deep := 0.
	for i := range k.faces {
		f := &k.faces[i]
		if !f.box.Meets(b.box) {
			continue
		}
		for _, p := range f.probes(b) {
			if !b.box.Has(p) {
				continue
			}
			if d := b.distance(p); d > deep && b.inside(p) {
				deep = d
			}
		}
	}
	return deep
}

// probes returns the points of f to look at for how deep it reaches into b.
func (f *skinFace) probes(b *skin) []V3 {
	out := f.middlesIn(b)
	for _, l := range f.Loops {
		for i, p := range l {
			out = append(out, p)
			out = append(out, b.middles(p, l[(i+1)%len(l)])...)
		}
	}
	return out
}

// middles returns the middles of the stretches that the faces of k cut the
// edge from p to q into.
func (k *skin) middles(p, q V3) []V3 {
	box := NoBox3().With(p).With(q).Grow(reach)
	d := q.Sub(p)
	ts := []float64{0, 1}
	for i := range k.faces {
		f := &k.faces[i]
		if !box.Meets(f.box) {
			continue
		}
		a, b := f.height(p), f.height(q)
		if a == b || a*b > 0 {
			continue
		}
		t := a / (a - b)
		if f.distance(p.Add(d.Mul(t))) > reach {
			continue
		}
		j := len(ts) - 1
		for j > 0 && ts[j-1] > t {
			j--
		}
		ts = append(ts[:j], append([]float64{t}, ts[j:]...)...)
	}
	if len(ts) == 2 {
		return nil // wholly inside or outside: the corners tell
	}
	var out []V3
	for i := range len(ts) - 1 {
		if ts[i+1] > ts[i] {
			out = append(out, p.Add(d.Mul((ts[i]+ts[i+1])/2)))
		}
	}
	return out
}

// middlesIn returns a point in each piece of f inside b.
func (f *skinFace) middlesIn(b *skin) []V3 {
	loops := b.mesh().section(Plane{f.Loops[0][0], f.N})
	if len(loops) == 0 {
		return nil
	}
	pieces := heal(join(common(f.sides(), f.frame.sides(loops)), loose))
	var all Outline
	for _, o := range pieces {
		all = append(all, o...)
	}
	var out []V3
	for _, o := range pieces {
		if p, ok := o.within(all); ok {
			out = append(out, f.raise(p))
		}
	}
	return out
}

// within returns a point well inside the anticlockwise outline o, one of the
// loops in all, and outside the holes among them: its centre, or the middle of
// the widest stretch of the upright line through that.
func (o Outline) within(all Outline) (p Pt, ok bool) {
	if o.Area() < 0 {
		return p, false
	}
	c := o.Centroid()
	if o.Contains(c) && all.Contains(c) {
		return c, true
	}
	ys := all.Across(c.X)
	best := 0.
	for i := 0; i+1 < len(ys); i += 2 {
		m := Pt{c.X, (ys[i] + ys[i+1]) / 2}
		if w := ys[i+1] - ys[i]; w > best && o.Contains(m) {
			best, p = w, m
		}
	}
	return p, best > 0
}
