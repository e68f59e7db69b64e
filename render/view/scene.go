package view

import (
	"math"

	"planset/model/geom"
)

// A scene is every body in the camera's own frame: x and y in the picture, z
// towards the eye.
type scene struct {
	bodies []placed
	faces  []face // those that look at the eye, nearest first after raster
	back   []face // the others, kept for crossing lines
	lines  []line // every line that could be drawn, in the order of the bodies
	cells  grid
}

// placed is one body in the camera's frame.
type placed struct {
	id      int
	mesh    *mesh
	at      []geom.V3
	normals []geom.V3 // by face of the solid
	looks   []int8    // by face: 1 looks at the eye, -1 away, 0 is seen edge-on
	reach   reach
	flips   bool     // the pose and the camera together turn loops round
	front   [2]int32 // its faces in scene.faces, until they are sorted
	rear    [2]int32 // and in scene.back
}

// A reach is an upright box in the camera's frame.
type reach struct{ min, max geom.V3 }

// A face is one face in the camera's frame.
type face struct {
	body  int32
	of    int32 // index in the solid
	n     geom.V3
	d     float64 // n·p on the plane
	loops [][]geom.V3
	reach reach
}

// over returns how far p is in front of f's plane.
func (f *face) over(p geom.V3) float64 { return f.n.Dot(p) - f.d }

// A line is a straight edge that could be drawn. left and right tell on which
// sides of it, in the picture, a face that looks at the eye begins: it is seen
// where one of those is seen.
type line struct {
	a, b        geom.V3
	body        int32
	kind        EdgeKind
	left, right bool
}

func place(bodies []Body, cam Camera) *scene {
	s := &scene{bodies: make([]placed, 0, len(bodies))}
	meshes := make(map[*geom.Solid]*mesh, len(bodies))
	handed := cam.Right.Cross(cam.Up).Dot(cam.Toward) < 0
	for i, b := range bodies {
		m := meshes[b.Solid]
		if m == nil {
			m = newMesh(b.Solid)
			meshes[b.Solid] = m
		}
		p := placed{id: b.ID, mesh: m, flips: handed != b.Pose.Mirrored()}
		p.at = make([]geom.V3, len(m.at))
		p.reach = nowhere()
		for k, v := range m.at {
			p.at[k] = cam.eye(b.Pose.Point(v))
			p.reach = p.reach.with(p.at[k])
		}
		p.normals = make([]geom.V3, len(m.loops))
		for k := range m.loops {
			p.normals[k] = cam.eye(b.Pose.Dir(b.Solid.Faces[k].N))
		}
		p.face()
		s.bodies = append(s.bodies, p)
		s.addFaces(int32(i))
		s.addLines(int32(i))
	}
	return s
}

// face finds out which faces look at the eye. One that is less than two touches
// wide in the picture counts as edge-on: it could not be told from a line, nor
// from what lies beside it.
func (p *placed) face() {
	const steep = 0.1 // only faces that look away as much as this can be so thin
	p.looks = make([]int8, len(p.normals))
	for k, n := range p.normals {
		switch {
		case math.Abs(n.Z) < 1e-9 || math.Abs(n.Z) < steep && p.width(k) < 2*Touch: // edge-on
		case n.Z > 0 || !p.mesh.closed:
			p.looks[k] = 1
		default:
			p.looks[k] = -1
		}
	}
}

// width returns how wide face k is in the picture, where it is narrowest. That
// is square to one of its sides.
func (p *placed) width(k int) float64 {
	if len(p.mesh.loops[k]) == 0 {
		return 0
	}
	ring := p.mesh.loops[k][0]
	least := math.Inf(1)
	for i, c := range ring {
		a, b := flat(p.at[c]), flat(p.at[ring[(i+1)%len(ring)]])
		if b.Sub(a).Len() < Touch {
			continue
		}
		u := b.Sub(a).Unit()
		lo, hi := 0.0, 0.0
		for _, v := range ring {
			off := u.Cross(flat(p.at[v]).Sub(a))
			lo, hi = min(lo, off), max(hi, off)
		}
		if least = min(least, hi-lo); least < 2*Touch {
			break
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// addFaces splits the faces of a body into those that look at the eye and the
// others. A solid that does not close is seen from both sides, as if it were thin.
func (s *scene) addFaces(body int32) {
	p := &s.bodies[body]
	p.front[0], p.rear[0] = int32(len(s.faces)), int32(len(s.back))
	// All loops are cut from one piece.
	room, rings := make([]geom.V3, p.mesh.corners), make([][]geom.V3, p.mesh.rings)
	for k, loops := range p.mesh.loops {
		if len(loops) == 0 {
			continue
		}
		f := face{body: body, of: int32(k), n: p.normals[k], reach: nowhere()}
		if !p.mesh.closed && f.n.Z < 0 {
			f.n = f.n.Neg()
		}
		f.d = f.n.Dot(p.at[loops[0][0]])
		f.loops, rings = rings[:len(loops):len(loops)], rings[len(loops):]
		for i, ring := range loops {
			points := room[:len(ring):len(ring)]
			room = room[len(ring):]
			for j, c := range ring {
				points[j] = p.at[c]
				f.reach = f.reach.with(points[j])
			}
			f.loops[i] = points
		}
		if p.looks[k] > 0 {
			s.faces = append(s.faces, f)
		} else {
			s.back = append(s.back, f)
		}
	}
	p.front[1], p.rear[1] = int32(len(s.faces)), int32(len(s.back))
}

// addLines takes the ridges of a body that can be drawn in this view.
func (s *scene) addLines(body int32) {
	p := &s.bodies[body]
	for i := range p.mesh.edges {
		e := &p.mesh.edges[i]
		if e.look == never {
			continue
		}
		l := line{a: p.at[e.a], b: p.at[e.b], body: body}
		toward := 0
		for _, u := range e.uses {
			if p.looks[u.face] <= 0 {
				continue
			}
			toward++
			left := (u.along != p.flips) == (p.normals[u.face].Z > 0)
			l.left, l.right = l.left || left, l.right || !left
		}
		if e.look == limb {
			if toward != 1 {
				continue
			}
			l.kind = Silhouette
		}
		if math.Hypot(l.b.X-l.a.X, l.b.Y-l.a.Y) < Touch/10 {
			continue
		}
		// Where the wood turns in, a side that looks away overhangs the other.
		if toward == 1 && len(e.uses) == 2 && e.concave && p.mesh.closed {
			l.left, l.right = false, false
		}
		s.lines = append(s.lines, l)
	}
}

func nowhere() reach {
	inf := math.Inf(1)
	return reach{geom.V3{X: inf, Y: inf, Z: inf}, geom.V3{X: -inf, Y: -inf, Z: -inf}}
}

func (r reach) with(p geom.V3) reach {
	r.min = geom.V3{X: min(r.min.X, p.X), Y: min(r.min.Y, p.Y), Z: min(r.min.Z, p.Z)}
	r.max = geom.V3{X: max(r.max.X, p.X), Y: max(r.max.Y, p.Y), Z: max(r.max.Z, p.Z)}
	return r
}

// overlaps reports whether r and o share more than a touch in the picture.
func (r *reach) overlaps(o *reach) bool {
	return r.min.X < o.max.X-Touch && o.min.X < r.max.X-Touch &&
		r.min.Y < o.max.Y-Touch && o.min.Y < r.max.Y-Touch
}

// enters reports whether r and o share more than a touch in space.
func (r *reach) enters(o *reach) bool {
	return r.overlaps(o) && r.min.Z < o.max.Z-Touch && o.min.Z < r.max.Z-Touch
}

// misses reports whether r and the box from lo to hi are more than a touch
// apart in the picture.
func (r *reach) misses(lo, hi geom.V3) bool {
	return r.max.X < lo.X-Touch || r.min.X > hi.X+Touch || r.max.Y < lo.Y-Touch || r.min.Y > hi.Y+Touch
}
