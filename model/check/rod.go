package check

import (
	"math"

	"planset/model/geom"
)

// rod is a round bar of space that a tool takes, its ends half balls.
type rod struct {
	segment
	r float64
}

// bar is a rod with flat ends: the half balls lie inside it.
func bar(p, dir geom.V3, from, to, r float64) rod {
	if to-from < 2*r {
		mid := (from + to) / 2
		return rod{segment{p.Add(dir.Mul(mid)), geom.V3{}}, (to - from) / 2}
	}
	return rod{segment{p.Add(dir.Mul(from + r)), dir.Mul(to - from - 2*r)}, r}
}

// room is how far wood stays from the middle of the rod, 0 inside; only what is
// nearer than the rod is thick is told apart.
func (k rod) room(s *geom.Solid, box geom.Box3) float64 {
	near := geom.NoBox3().With(k.P).With(k.at(1)).Grow(k.r)
	if !near.Meets(box) {
		return math.Inf(1)
	}
	if box.Has(k.P) && s.Inside(k.P) {
		return 0
	}
	least := math.Inf(1)
	for _, f := range s.Faces {
		least = math.Min(least, k.toFace(f))
	}
	for _, e := range edgesIn(s, near) {
		least = math.Min(least, k.to(e).Len())
	}
	return least
}

// toFace is how far a face is from the middle of the rod where that is nearest
// over the face itself, not its rim.
func (k rod) toFace(f geom.Face) float64 {
	h0, h1 := k.P.Sub(f.Loops[0][0]).Dot(f.N), k.at(1).Sub(f.Loops[0][0]).Dot(f.N)
	if h0*h1 < 0 {
		if onFace(f, k.at(h0/(h0-h1))) {
			return 0
		}
	}
	least := math.Inf(1)
	for t, h := range [2]float64{h0, h1} {
		if math.Abs(h) < math.Min(k.r, least) && onFace(f, k.at(float64(t)).Sub(f.N.Mul(h))) {
			least = math.Abs(h)
		}
	}
	return least
}

// nearest is the piece among some that comes nearest to the middle of a rod,
// and how near; -1 when none reaches into it.
func (s *shop) nearest(k rod, among []int) (piece int, room float64) {
	piece, room = -1, k.r
	for _, i := range among {
		if d := k.room(s.Placed[i].Solid, s.boxes[i]); d < room-slack {
			piece, room = i, d
		}
	}
	return piece, room
}

// free returns -1 when no piece among some reaches into any of the rods, else
// the one that reaches in deepest and by how much it should be farther.
func (s *shop) free(rods []rod, among []int) (blocker int, short float64) {
	blocker = -1
	for _, k := range rods {
		if i, room := s.nearest(k, among); i >= 0 && k.r-room > short {
			blocker, short = i, k.r-room
		}
	}
	return blocker, short
}

// spokes are n directions square to an axis, evenly round it.
func spokes(axis geom.V3, n int) []geom.V3 {
	u := axis.Cross(geom.V3{Z: 1})
	if u.Len() < 0.1 {
		u = geom.V3{X: 1}.Sub(axis.Mul(axis.X))
	}
	u = u.Unit()
	v := axis.Cross(u)
	out := make([]geom.V3, n)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = u.Mul(cos).Add(v.Mul(sin))
	}
	return out
}
