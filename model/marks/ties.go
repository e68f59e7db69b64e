package marks

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// touching is how far apart two faces may be and still bear, and how near the
// floor a foot must be, mm; the solver holds places to a thousandth.
const touching = 0.05

// bearing is the least area of a face that bears, mm².
const bearing = 25

// A tie holds a point of piece b against the same point of piece a in one
// direction. Contacts have no joint and point out of a into b.
type tie struct {
	a, b         int
	at, dir      geom.V3
	joint, fast  int // numbers of the joint and of its fastener; -1 for a contact
	faceA, faceB int // of a contact
}

// A foot is a corner of a piece on the floor.
type foot struct {
	piece, face int // face is -1 when it stands on an edge
	at          geom.V3
}

// patches finds where each two pieces bear on each other.
func (f *frame) patches() {
	f.contact = map[[2]int]geom.Patch{}
	boxes := make([]geom.Box3, len(f.placed))
	for i, p := range f.placed {
		boxes[i] = p.Solid.Box3(geom.Home()).Grow(touching)
	}
	for i, p := range f.placed {
		for j := i + 1; j < len(f.placed); j++ {
			if !boxes[i].Meets(boxes[j]) {
				continue
			}
			for _, c := range geom.Contact(p.Solid, f.placed[j].Solid, touching) {
				if c.Area < bearing {
					continue
				}
				f.bear(i, j, c)
				if c.Area > f.contact[[2]int{i, j}].Area+1e-6 {
					f.contact[[2]int{i, j}] = c
				}
			}
		}
	}
}

// bear ties two pieces along the normal of a patch at three of its corners.
func (f *frame) bear(a, b int, c geom.Patch) {
	for _, at := range threeOf(c.Loops[0]) {
		f.ties = append(f.ties, tie{a: a, b: b, at: at, dir: c.N, joint: -1, fast: -1, faceA: c.FaceA, faceB: c.FaceB})
	}
}

// patch returns the greatest patch of two pieces, whichever comes first.
func (f *frame) patch(a, b int) (geom.Patch, bool) {
	c, ok := f.contact[[2]int{min(a, b), max(a, b)}]
	return c, ok
}

// threeOf picks three corners far from each other, so that a wide face holds a
// turn better than a narrow one.
func threeOf(loop []geom.V3) [3]geom.V3 {
	p := farthest(loop, func(v geom.V3) float64 { return v.Sub(loop[0]).Len() })
	q := farthest(loop, func(v geom.V3) float64 { return v.Sub(p).Len() })
	line := q.Sub(p).Unit()
	r := farthest(loop, func(v geom.V3) float64 { return v.Sub(p).Cross(line).Len() })
	return [3]geom.V3{p, q, r}
}

func farthest(loop []geom.V3, how func(geom.V3) float64) geom.V3 {
	best := loop[0]
	for _, v := range loop[1:] {
		if how(v) > how(best)+1e-6 {
			best = v
		}
	}
	return best
}

// fasteners ties the pieces of every joint square to its fasteners' axes, or in
// the faces that are glued.
func (f *frame) fasteners() {
	for k, j := range f.plan.Joints {
		if len(j.Fasteners) == 0 {
			f.glued(k, j)
		}
		for i, s := range j.Fasteners {
			at, n := f.crossing(j, s)
			f.tangents(tie{a: s.Pieces[0], b: s.Pieces[1], at: at, joint: k, fast: i, faceA: -1, faceB: -1}, n)
		}
	}
}

// crossing is where a fastener passes from one piece into the other, and the
// normal of the faces it draws together: a pocket screw leans against it.
func (f *frame) crossing(j *model.Joint, s model.Fastener) (at, n geom.V3) {
	n = s.Dir.Unit()
	if c, ok := f.patch(s.Pieces[0], s.Pieces[1]); ok && math.Abs(c.N.Dot(n)) > 0.5 {
		return s.Head.Add(n.Mul(c.Loops[0][0].Sub(s.Head).Dot(c.N) / n.Dot(c.N))), c.N
	}
	deep := s.Grip
	if len(j.Stack) > 0 {
		deep = j.Stack[0].Thick
	}
	return s.Head.Add(n.Mul(deep)), n
}

// tangents adds two ties square to n, along the holding piece where that can be.
func (f *frame) tangents(t tie, n geom.V3) {
	u := f.inPlane(t.b, n)
	for _, d := range []geom.V3{u, n.Cross(u)} {
		t.dir = d
		f.ties = append(f.ties, t)
	}
}

// inPlane returns the direction of a piece that lies best in the plane square
// to n, laid into it.
func (f *frame) inPlane(piece int, n geom.V3) geom.V3 {
	p := f.placed[piece].Pose
	best := p.Along
	if math.Abs(p.Along.Dot(n)) > 0.7 {
		best = p.Across
	}
	return best.Sub(n.Mul(best.Dot(n))).Unit()
}

func (f *frame) glued(k int, j *model.Joint) {
	n := 0
	for a, p := range f.placed {
		for b, q := range f.placed {
			c, ok := f.patch(a, b)
			if a == b || !ok || !has(j.First, p.Part) || !has(j.Second, q.Part) {
				continue
			}
			for _, at := range threeOf(c.Loops[0]) {
				f.tangents(tie{a: a, b: b, at: at, joint: k, fast: n, faceA: -1, faceB: -1}, c.N)
				n++
			}
		}
	}
}

func has(list []*model.Part, p *model.Part) bool {
	for _, q := range list {
		if q == p {
			return true
		}
	}
	return false
}

// feetOf finds the corners on which a piece stands.
func (f *frame) feetOf(i int) []foot {
	var flat, edge []foot
	for k, face := range f.placed[i].Solid.Faces {
		down := face.N.Z < -0.999
		for _, v := range face.Loops[0] {
			if math.Abs(v.Z) > touching {
				down = false
			} else {
				edge = append(edge, foot{i, -1, v})
			}
		}
		if !down {
			continue
		}
		for _, v := range face.Loops[0] {
			flat = append(flat, foot{i, k, v})
		}
	}
	if len(flat) == 0 {
		flat = edge
	}
	return corners(flat)
}

// corners keeps the feet that reach farthest in eight directions: no other can
// ever carry.
func corners(list []foot) []foot {
	var out []foot
	kept := map[geom.V3]bool{}
	for k := range 8 {
		if len(list) == 0 {
			break
		}
		s, c := math.Sincos(float64(k)*math.Pi/4 + 0.01)
		d := geom.V3{X: c, Y: s}
		best := list[0]
		for _, g := range list[1:] {
			if g.at.Dot(d) > best.at.Dot(d)+1e-9 {
				best = g
			}
		}
		if !kept[best.at] {
			kept[best.at] = true
			out = append(out, best)
		}
	}
	return out
}
