package geom

import (
	"fmt"
	"math"
)

// A Box3 is an upright box in space.
type Box3 struct{ Min, Max V3 }

// NoBox3 is the empty box, ready to grow.
func NoBox3() Box3 {
	inf := math.Inf(1)
	return Box3{V3{inf, inf, inf}, V3{-inf, -inf, -inf}}
}

// With returns b grown to hold p.
func (b Box3) With(p V3) Box3 {
	return Box3{
		V3{min(b.Min.X, p.X), min(b.Min.Y, p.Y), min(b.Min.Z, p.Z)},
		V3{max(b.Max.X, p.X), max(b.Max.Y, p.Y), max(b.Max.Z, p.Z)},
	}
}

// Union returns the box round b and c.
func (b Box3) Union(c Box3) Box3 {
	if c.Empty() {
		return b
	}
	return b.With(c.Min).With(c.Max)
}

// Empty reports whether b holds no point.
func (b Box3) Empty() bool {
	return b.Max.X < b.Min.X || b.Max.Y < b.Min.Y || b.Max.Z < b.Min.Z
}

// Grow returns b with d more on every side.
func (b Box3) Grow(d float64) Box3 {
	g := V3{d, d, d}
	return Box3{b.Min.Sub(g), b.Max.Add(g)}
}

// Meets reports whether b and c share a point.
func (b Box3) Meets(c Box3) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y &&
		b.Min.Z <= c.Max.Z && c.Min.Z <= b.Max.Z
}

// Has reports whether p lies in b or on its skin.
func (b Box3) Has(p V3) bool { return b.Meets(Box3{p, p}) }

// Size returns how far b goes in x, y and z.
func (b Box3) Size() V3 { return b.Max.Sub(b.Min) }

// Volume returns the volume inside s in cubic millimetres.
func (s *Solid) Volume() float64 {
	v, _ := s.moment()
	return v
}

// Centroid returns the centre of the wood.
func (s *Solid) Centroid() V3 {
	v, m := s.moment()
	if v == 0 {
		return s.start()
	}
	return s.start().Add(m.Mul(1 / v))
}

func (s *Solid) start() V3 {
	if len(s.Faces) == 0 {
		return V3{}
	}
	return s.Faces[0].Loops[0][0]
}

// moment returns the volume and its first moment about the start, summed over
// tetrahedra from the start to the triangles of every loop.
func (s *Solid) moment() (volume float64, moment V3) {
	o := s.start()
	for _, f := range s.Faces {
		for _, l := range f.Loops {
			a := l[0].Sub(o)
			for i := 1; i+1 < len(l); i++ {
				b, c := l[i].Sub(o), l[i+1].Sub(o)
				v := a.Dot(b.Cross(c)) / 6
				volume += v
				moment = moment.Add(a.Add(b).Add(c).Mul(v / 4))
			}
		}
	}
	return volume, moment
}

// Area returns the area of the skin in square millimetres.
func (s *Solid) Area() float64 {
	sum := 0.
	for _, f := range s.Faces {
		sum += f.Area()
	}
	return sum
}

// Area returns the area of f without its holes.
func (f Face) Area() float64 {
	var sum V3
	for _, l := range f.Loops {
		sum = sum.Add(loopArea(l))
	}
	return sum.Len()
}

// Points returns every corner of s once, in the order the faces name them.
func (s *Solid) Points() []V3 { return s.mesh().pts }

// Box3 returns the upright box round s when it stands at pose.
func (s *Solid) Box3(pose Pose) Box3 {
	if pose == Home() {
		return s.box()
	}
	b := NoBox3()
	for _, f := range s.Faces {
		// Holes lie inside their outside.
		for _, p := range f.Loops[0] {
			b = b.With(pose.Point(p))
		}
	}
	return b
}

// box returns the upright box round s where it is.
func (s *Solid) box() Box3 {
	b := NoBox3()
	for i := range s.Faces {
		for _, p := range s.Faces[i].Loops[0] {
			b = b.With(p)
		}
	}
	return b
}

// Transform returns s as it stands at pose. A mirrored pose makes the mirrored
// solid, its loops turned so that they still run anticlockwise from outside.
func (s *Solid) Transform(pose Pose) *Solid {
	mirrored := pose.Mirrored()
	r := &Solid{Faces: make([]Face, len(s.Faces))}
	for i, f := range s.Faces {
		g := Face{N: pose.Dir(f.N), Kind: f.Kind, Smooth: f.Smooth, Loops: make([][]V3, len(f.Loops))}
		for j, l := range f.Loops {
			n := len(l)
			m := make([]V3, n)
			for k, p := range l {
				if mirrored {
					k = n - 1 - k
				}
				m[k] = pose.Point(p)
			}
			g.Loops[j] = m
		}
		r.Faces[i] = g
	}
	return r
}

// CutBy returns the part of s behind pl, its new face of the given kind, or nil
// when there is none.
func (s *Solid) CutBy(pl Plane, kind FaceKind) *Solid {
	m := s.mesh()
	m.cutOff(pl, kind)
	if len(m.faces) == 0 {
		return nil
	}
	return m.solid()
}

// MaxAlong returns how far the part of s that lies behind all the planes in
// slab reaches in the direction dir: the greatest dir·p. It is not ok when no
// part of s lies there.
func (s *Solid) MaxAlong(dir V3, slab []Plane) (most float64, ok bool) {
	m := s.mesh()
	faces := m.faces
	for _, pl := range slab {
		faces, _ = m.split(faces, pl, meshFace{})
		m.cuts = map[[2]int]int{}
	}
	most = math.Inf(-1)
	for _, f := range faces {
		for _, l := range f.loops {
			for _, v := range l {
				most = max(most, m.pts[v].Dot(dir))
			}
		}
	}
	return most, len(faces) > 0
}

// Section returns the loops in which pl cuts s, anticlockwise about its normal
// round wood and clockwise round holes. Where the plane runs along a face of s
// the section is the one just behind it.
func (s *Solid) Section(pl Plane) [][]V3 { return s.mesh().section(pl) }

func (m *mesh) section(pl Plane) [][]V3 {
	const none = -1
	old := len(m.pts)
	behind, front := m.split(m.faces, pl, meshFace{src: none})
	var loops [][]V3
	for _, f := range behind {
		if f.src != none || len(front) == 0 {
			continue
		}
		for _, l := range f.loops {
			loops = append(loops, m.points(l))
		}
	}
	m.pts, m.cuts = m.pts[:old], map[[2]int]int{}
	return loops
}

// points returns the corners of a loop.
func (m *mesh) points(l []int) []V3 {
	out := make([]V3, len(l))
	for i, v := range l {
		out[i] = m.pts[v]
	}
	return out
}

// Closed returns an error in words unless the skin of s is closed: every edge
// between the same two corners is walked as often one way as the other, and
// every face is flat with its normal out of the wood.
func (s *Solid) Closed() error {
	m := s.mesh()
	count := map[[2]int]int{}
	for i, f := range m.faces {
		for _, e := range edgesOf(f.loops) {
			count[e]++
			if d := m.pts[e[0]].Sub(m.pts[f.loops[0][0]]).Dot(f.n); math.Abs(d) > 10*reach {
				return fmt.Errorf("face %d is not flat: a corner is off it by %g", i, d)
			}
		}
		var sum V3
		for _, l := range s.Faces[i].Loops {
			sum = sum.Add(loopArea(l))
		}
		if sum.Dot(f.n) < -reach {
			return fmt.Errorf("face %d runs clockwise", i)
		}
	}
	for _, f := range m.faces {
		for _, e := range edgesOf(f.loops) {
			if count[e] != count[[2]int{e[1], e[0]}] {
				return fmt.Errorf("the edge from %v to %v has no partner", m.pts[e[0]], m.pts[e[1]])
			}
		}
	}
	return nil
}

// count returns how many corners the loops of s have in all, each counted once
// in every loop, and how many loops there are.
func (s *Solid) count() (corners, loops int) {
	for i := range s.Faces {
		loops += len(s.Faces[i].Loops)
		for _, l := range s.Faces[i].Loops {
			corners += len(l)
		}
	}
	return corners, loops
}
