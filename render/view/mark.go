package view

import (
	"math"
	"slices"

	"planset/model/geom"
)

// marks returns the lines where bodies run into each other. Bodies that only
// touch have none: there the edges of the bodies themselves are the border.
func (s *scene) marks() []line {
	var out []line
	s.nearPairs(func(i, j int32) {
		if !s.apart(i, j) && !s.apart(j, i) {
			out = s.cross(out, i, j)
		}
	})
	return out
}

// nearPairs calls visit with every two bodies whose boxes share room.
func (s *scene) nearPairs(visit func(i, j int32)) {
	order := make([]int32, len(s.bodies))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortStableFunc(order, func(a, b int32) int {
		return compare(s.bodies[a].reach.min.X, s.bodies[b].reach.min.X)
	})
	for k, i := range order {
		for _, j := range order[k+1:] {
			if s.bodies[j].reach.min.X >= s.bodies[i].reach.max.X-Touch {
				break
			}
			if s.bodies[i].reach.enters(&s.bodies[j].reach) {
				visit(min(i, j), max(i, j))
			}
		}
	}
}

// apart reports whether some plane of body i's skin has i on one side and j on
// the other.
func (s *scene) apart(i, j int32) bool {
	p, q := &s.bodies[i], &s.bodies[j]
	for _, h := range p.mesh.hulls {
		n := p.normals[h]
		d := n.Dot(p.at[p.mesh.loops[h][0][0]]) - Touch
		if !slices.ContainsFunc(q.at, func(v geom.V3) bool { return n.Dot(v) < d }) {
			return true
		}
	}
	return false
}

// cross appends the lines where faces of bodies i and j cut each other.
func (s *scene) cross(out []line, i, j int32) []line {
	var c crossing
	fs, gs := s.facesNear(i, &s.bodies[j].reach), s.facesNear(j, &s.bodies[i].reach)
	for _, f := range fs {
		for _, g := range gs {
			if f.reach.enters(&g.reach) && !s.fit(f, g) {
				out = c.lines(out, f, g)
			}
		}
		out = s.through(out, j, f, &c.f)
	}
	for _, g := range gs {
		out = s.through(out, i, g, &c.f)
	}
	return out
}

// through appends the edges of body i that lie in f and have the body's skin
// on both sides of f. Only edges that are not drawn themselves matter: there
// the skin goes straight through f, but no single face does.
func (s *scene) through(out []line, i int32, f *face, c *scan) []line {
	p := &s.bodies[i]
	for k := range p.mesh.edges {
		e := &p.mesh.edges[k]
		if e.look == always || len(e.uses) != 2 {
			continue
		}
		a, b := p.at[e.a], p.at[e.b]
		if math.Abs(f.over(a)) > Touch || math.Abs(f.over(b)) > Touch {
			continue
		}
		out1, out2 := p.lean(e.uses[0].face, f), p.lean(e.uses[1].face, f)
		if min(out1, out2) > -Touch || max(out1, out2) < Touch {
			continue
		}
		above := e.uses[0].face
		if out2 > 0 {
			above = e.uses[1].face
		}
		seen := f.n.Z > 0 && p.looks[above] > 0
		u := b.Sub(a).Unit()
		c.within(f, a, u)
		for _, in := range common(bothSides(c), []span{{0, b.Sub(a).Len()}}) {
			out = append(out, line{
				a: a.Add(u.Mul(in.lo)), b: a.Add(u.Mul(in.hi)),
				body: f.body, kind: Mark, left: seen, right: seen,
			})
		}
	}
	return out
}

// lean returns how far face g of the body reaches out of the plane of f.
func (p *placed) lean(g int32, f *face) float64 {
	most := 0.0
	for _, ring := range p.mesh.loops[g] {
		for _, c := range ring {
			if d := f.over(p.at[c]); math.Abs(d) > math.Abs(most) {
				most = d
			}
		}
	}
	return most
}

func (s *scene) facesNear(i int32, r *reach) []*face {
	var out []*face
	p := &s.bodies[i]
	for k := p.front[0]; k < p.front[1]; k++ {
		if s.faces[k].reach.enters(r) {
			out = append(out, &s.faces[k])
		}
	}
	for k := p.rear[0]; k < p.rear[1]; k++ {
		if s.back[k].reach.enters(r) {
			out = append(out, &s.back[k])
		}
	}
	return out
}

// fit reports whether f and g are facets of a pin and of the hole it fills:
// one hollow, back to back, and with one axis. Such facets cut into each other
// by less than their chords leave the true surfaces, which only touch.
func (s *scene) fit(f, g *face) bool {
	const back = -0.9 // facets of pin and hole need not begin at the same angle
	if f.n.Dot(g.n) > back {
		return false
	}
	p, q := &s.bodies[f.body], &s.bodies[g.body]
	if (p.kind(f.of) == geom.Hollow) == (q.kind(g.of) == geom.Hollow) {
		return false
	}
	u, v := p.ruling(f.of), q.ruling(g.of)
	return u.Len() > 0 && v.Len() > 0 && u.Cross(v).Len() < tangent
}

func (p *placed) kind(of int32) geom.FaceKind { return p.mesh.solid.Faces[of].Kind }

// ruling returns the unit direction in which a facet runs beside the next of
// its curved surface; nothing for a flat.
func (p *placed) ruling(of int32) geom.V3 {
	r := p.mesh.rulings[of]
	return p.at[r[1]].Sub(p.at[r[0]]).Unit()
}

// A crossing has the room for cutting two faces with each other.
type crossing struct{ f, g scan }

// lines appends where f and g cut through each other.
func (c *crossing) lines(out []line, f, g *face) []line {
	way := f.n.Cross(g.n)
	if way.Len() < 1e-6 {
		return out
	}
	u := way.Unit()
	c.f.plane(f, g, u)
	within := bothSides(&c.f)
	if len(within) == 0 {
		return out
	}
	c.g.plane(g, f, u)
	// The point of both planes that is nearest to the origin.
	k := f.n.Dot(g.n)
	foot := f.n.Mul(f.d - k*g.d).Add(g.n.Mul(g.d - k*f.d)).Mul(1 / (1 - k*k))
	for _, p := range common(within, bothSides(&c.g)) {
		l := line{a: foot.Add(u.Mul(p.lo)), b: foot.Add(u.Mul(p.hi)), body: f.body, kind: Mark}
		if flat(l.b).Sub(flat(l.a)).Len() < Touch {
			continue
		}
		// Two faces that both look at the eye meet in a valley, one on each
		// side; any other such line lies under an overhang.
		l.left = f.n.Z > 0 && g.n.Z > 0
		l.right = l.left
		out = append(out, l)
	}
	return out
}

// bothSides returns where the line runs inside whichever way it is moved: a
// corner or side that only touches does not count.
func bothSides(c *scan) []span {
	a := pairs(c.inside(true))
	if c.same {
		return a
	}
	return common(a, pairs(c.inside(false)))
}

func pairs(cuts []float64) []span {
	var out []span
	for i := 0; i+1 < len(cuts); i += 2 {
		if cuts[i] < cuts[i+1] {
			out = append(out, span{cuts[i], cuts[i+1]})
		}
	}
	return out
}
