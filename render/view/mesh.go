package view

import (
	"math"
	"slices"

	"planset/model/geom"
)

// weld is how far apart, in millimetres, two corners of one solid may be and
// still be the same corner.
const weld = 1e-4

// A mesh is a solid with its corners welded and its edges matched to the faces
// on their two sides. It is in the solid's own frame, so that all pieces of one
// part share it.
type mesh struct {
	solid   *geom.Solid
	at      []geom.V3
	loops   [][][]int32 // by face, corners of each loop
	corners int         // in all loops
	rings   int         // loops of all faces
	edges   []ridge
	rulings [][2]int32 // by face: an edge to a facet of the same curved surface
	convex  bool
	closed  bool    // every edge has faces on both sides
	hulls   []int32 // faces with the whole solid behind them, one for each plane
}

// A ridge is an edge of a mesh with the faces that meet there.
type ridge struct {
	a, b    int32
	uses    []use
	look    look
	concave bool // the wood turns in here; only for two uses
}

// A use is one face's claim to a ridge: along it from a to b, or back.
type use struct {
	face  int32
	along bool
}

func newMesh(s *geom.Solid) *mesh {
	m := &mesh{solid: s}
	m.weldCorners()
	m.matchEdges()
	m.findHull()
	m.readRidges()
	return m
}

func (m *mesh) weldCorners() {
	corners, rings := 0, 0
	for i := range m.solid.Faces {
		rings += len(m.solid.Faces[i].Loops)
		for _, loop := range m.solid.Faces[i].Loops {
			corners += len(loop)
		}
	}
	// Three faces and more share a corner. All rings are cut from one piece.
	w := welder{at: make(map[[3]int64]int32, corners/3), points: make([]geom.V3, 0, corners/3)}
	numbers, list := make([]int32, corners), make([][]int32, 0, rings)
	m.loops = make([][][]int32, 0, len(m.solid.Faces))
	for i := range m.solid.Faces {
		first := len(list)
		for _, loop := range m.solid.Faces[i].Loops {
			ring := numbers[:0:len(loop)]
			numbers = numbers[len(loop):]
			for _, p := range loop {
				if i := w.index(p); len(ring) == 0 || ring[len(ring)-1] != i {
					ring = append(ring, i)
				}
			}
			for len(ring) > 1 && ring[0] == ring[len(ring)-1] {
				ring = ring[:len(ring)-1]
			}
			if len(ring) > 2 {
				list = append(list, ring)
				m.corners += len(ring)
			}
		}
		m.loops = append(m.loops, list[first:len(list):len(list)])
	}
	m.at, m.rings = w.points, len(list)
}

// A welder gives points that coincide one number. It sorts them into cells ten
// weld distances wide and looks into the next cell only near a border.
type welder struct {
	at     map[[3]int64]int32
	points []geom.V3
}

func (w *welder) index(p geom.V3) int32 {
	const cell = 10 * weld
	// Coordinates are usually whole micrometres: half a cell keeps them away
	// from the borders.
	q := [3]float64{p.X/cell + 0.5, p.Y/cell + 0.5, p.Z/cell + 0.5}
	var key, step [3]int64
	near := false
	for k, v := range q {
		f := math.Floor(v)
		key[k] = int64(f)
		if v-f < 0.1 {
			step[k], near = -1, true
		} else if v-f > 0.9 {
			step[k], near = 1, true
		}
	}
	if i, ok := w.at[key]; ok && w.points[i].Sub(p).Len() <= 2*weld {
		return i
	}
	if near {
		if i, ok := w.next(p, key, step); ok {
			return i
		}
	}
	i := int32(len(w.points))
	w.points = append(w.points, p)
	w.at[key] = i
	return i
}

func (w *welder) next(p geom.V3, key, step [3]int64) (int32, bool) {
	for bits := 1; bits < 8; bits++ {
		k := key
		for axis := range 3 {
			if bits>>axis&1 == 1 {
				k[axis] += step[axis]
			}
		}
		if i, ok := w.at[k]; ok && w.points[i].Sub(p).Len() <= 2*weld {
			return i, true
		}
	}
	return 0, false
}

// matchEdges pairs the sides of the faces. Sides that find no partner are cut
// where a corner of another such side lies on them, and tried again: a face
// may have been split where its neighbour was not.
func (m *mesh) matchEdges() {
	r := newRidges(m.corners/2 + 1) // two sides make an edge
	for f, loops := range m.loops {
		for _, ring := range loops {
			for i, a := range ring {
				r.add(a, ring[(i+1)%len(ring)], int32(f))
			}
		}
	}
	m.edges = r.list
	if r.unmatched() > 0 {
		m.edges = m.cutSides(r.list)
	}
	m.closed = !slices.ContainsFunc(m.edges, func(e ridge) bool { return len(e.uses)%2 == 1 })
}

// ridges gathers edges by their two corners, in the order they are met.
type ridges struct {
	at   map[[2]int32]int32
	list []ridge
	uses []use // room for two uses of each edge, handed out as they are met
}

// newRidges has room for about n edges.
func newRidges(n int) ridges {
	return ridges{at: make(map[[2]int32]int32, n), list: make([]ridge, 0, n), uses: make([]use, 2*n)}
}

// room returns an empty list with room for the two uses that an edge should have.
func (r *ridges) room() []use {
	if len(r.uses) < 2 {
		return nil
	}
	out := r.uses[:0:2]
	r.uses = r.uses[2:]
	return out
}

func (r *ridges) add(a, b, face int32) {
	if a == b {
		return
	}
	along := a < b
	if !along {
		a, b = b, a
	}
	i, ok := r.at[[2]int32{a, b}]
	if !ok {
		i = int32(len(r.list))
		r.at[[2]int32{a, b}] = i
		r.list = append(r.list, ridge{a: a, b: b, uses: r.room()})
	}
	r.list[i].uses = append(r.list[i].uses, use{face, along})
}

func (r *ridges) unmatched() int {
	n := 0
	for _, e := range r.list {
		n += len(e.uses) % 2
	}
	return n
}

func (m *mesh) cutSides(list []ridge) []ridge {
	var loose []int32
	for _, e := range list {
		if len(e.uses)%2 == 1 {
			loose = append(loose, e.a, e.b)
		}
	}
	slices.Sort(loose)
	loose = slices.Compact(loose)
	r := newRidges(len(list))
	for _, e := range list {
		stops := []int32{e.a, e.b}
		if len(e.uses)%2 == 1 {
			stops = m.stops(e, loose)
		}
		for _, u := range e.uses {
			for i := 1; i < len(stops); i++ {
				a, b := stops[i-1], stops[i]
				if !u.along {
					a, b = b, a
				}
				r.add(a, b, u.face)
			}
		}
	}
	return r.list
}

// stops returns the corners that lie on e, in order from its a to its b.
func (m *mesh) stops(e ridge, loose []int32) []int32 {
	a, way := m.at[e.a], m.at[e.b].Sub(m.at[e.a])
	long := way.Len()
	u := way.Unit()
	on := []int32{e.a, e.b}
	for _, c := range loose {
		v := m.at[c].Sub(a)
		t := v.Dot(u)
		if t > 2*weld && t < long-2*weld && v.Sub(u.Mul(t)).Len() <= 2*weld {
			on = append(on, c)
		}
	}
	slices.SortFunc(on, func(i, j int32) int {
		return compare(m.at[i].Sub(a).Dot(u), m.at[j].Sub(a).Dot(u))
	})
	return on
}

// A look is when a ridge can be seen as a line.
type look int8

const (
	never  look = iota // both sides lie in one plane
	limb               // only where the surface turns away from the eye
	always             // a true arris
)

const (
	flush   = 0.002             // radians; faces that turn less are one plane
	tangent = 3 * math.Pi / 180 // how exactly a flat that runs smoothly into a curved surface must do so
)

// readRidges finds out which ridges are arrises and which turn inwards.
func (m *mesh) readRidges() {
	curves := m.curves()
	for i := range m.edges {
		e := &m.edges[i]
		e.look = always
		if len(e.uses) != 2 || e.uses[0].along == e.uses[1].along {
			continue
		}
		f, g := &m.solid.Faces[e.uses[0].face], &m.solid.Faces[e.uses[1].face]
		way := m.at[e.b].Sub(m.at[e.a])
		turn := angle(f.N, g.N)
		switch {
		case turn < flush && (f.Smooth == 0 || f.Smooth != g.Smooth):
			e.look = never
		case f.Smooth > 0 && f.Smooth == g.Smooth:
			e.look = limb
		case curves[e.uses[0].face].endsAt(way, turn), curves[e.uses[1].face].endsAt(way, turn):
			e.look = limb
		}
		if !e.uses[0].along {
			way = way.Neg()
		}
		// From the edge, f lies to the left of its own direction.
		e.concave = f.N.Cross(way).Dot(g.N) > 0
	}
}

// A curve is how a facet lies in its curved surface.
type curve struct {
	step    float64   // the widest angle at which it meets a facet of the same surface
	rulings []geom.V3 // directions of the edges to those facets, unit
}

// endsAt reports whether the curved surface runs smoothly into a face that its
// facet meets along the edge way and at the angle turn. Such an edge runs like
// those between the facets, and the angle is half a step where the facets are
// chords and a whole one where they are tangents.
func (c *curve) endsAt(way geom.V3, turn float64) bool {
	u := way.Unit()
	return turn < c.step+tangent && slices.ContainsFunc(c.rulings, func(r geom.V3) bool {
		return u.Cross(r).Len() < tangent
	})
}

// curves returns the curve of each face; that of a flat is empty. It notes the
// rulings on its way.
func (m *mesh) curves() []curve {
	out := make([]curve, len(m.loops))
	m.rulings = make([][2]int32, len(m.loops))
	for _, e := range m.edges {
		if len(e.uses) != 2 {
			continue
		}
		f, g := e.uses[0].face, e.uses[1].face
		ff, fg := &m.solid.Faces[f], &m.solid.Faces[g]
		if ff.Smooth == 0 || ff.Smooth != fg.Smooth {
			continue
		}
		a, u := angle(ff.N, fg.N), m.at[e.b].Sub(m.at[e.a]).Unit()
		for _, c := range []*curve{&out[f], &out[g]} {
			c.step = math.Max(c.step, a)
			if c.rulings == nil {
				c.rulings = make([]geom.V3, 0, 2) // most facets lie between two others
			}
			c.rulings = append(c.rulings, u)
		}
		m.rulings[f], m.rulings[g] = [2]int32{e.a, e.b}, [2]int32{e.a, e.b}
	}
	return out
}

// findHull notes which faces have nothing in front of them.
func (m *mesh) findHull() {
	m.convex = m.closed
	for f, loops := range m.loops {
		if len(loops) == 0 {
			continue
		}
		n := m.solid.Faces[f].N
		d := n.Dot(m.at[loops[0][0]])
		front := slices.ContainsFunc(m.at, func(p geom.V3) bool { return n.Dot(p)-d > Touch/10 })
		if front {
			m.convex = false
			continue
		}
		known := slices.ContainsFunc(m.hulls, func(h int32) bool { return m.solid.Faces[h].N.Dot(n) > 1-1e-9 })
		if !known {
			m.hulls = append(m.hulls, int32(f))
		}
	}
}

// angle returns the angle between two unit vectors, exact for small angles too.
func angle(a, b geom.V3) float64 { return math.Atan2(a.Cross(b).Len(), a.Dot(b)) }

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
