package check

import (
	"iter"
	"math"

	"planset/model"
	"planset/model/geom"
)

// bore is a fastener inside one of the two pieces it joins.
type bore struct {
	model.Fastener
	piece  *model.Placed
	second bool    // not under the head
	mouth  geom.V3 // where it enters the piece
	deep   float64 // how much of it is in the piece
}

// isScrew reports whether f holds by its thread in wood.
func isScrew(f model.Fastener) bool {
	return f.Hardware.Kind == model.WoodScrew || f.Hardware.Kind == model.PocketScrew
}

// isBolt reports whether f is held by a nut.
func isBolt(f model.Fastener) bool {
	return f.Hardware.Kind == model.CarriageBolt || f.Hardware.Kind == model.HexBolt
}

// fasteners are all of them, joint by joint.
func (s *shop) fasteners() []model.Fastener {
	var out []model.Fastener
	for _, j := range s.Joints {
		out = append(out, j.Fasteners...)
	}
	return out
}

// bores are a fastener's two: under the head and beyond.
func (s *shop) bores(f model.Fastener) [2]bore {
	a, b := s.Placed[f.Pieces[0]], s.Placed[f.Pieces[1]]
	held, rest := f.Grip, f.Length-f.Grip
	if isBolt(f) {
		held, _ = leaves(a.Solid, f.Head.Add(f.Dir.Mul(inside)), f.Dir)
		held += inside
		rest = f.Grip - held
	}
	return [2]bore{{f, a, false, f.Head, held}, {f, b, true, f.Head.Add(f.Dir.Mul(held)), rest}}
}

// inside is a step from a face into the wood, mm, so that a ray does not start
// on the face.
const inside = 0.5

// beside is how far the wood reaches from the axis along a direction of the
// piece, the nearer way of the two.
func (b bore) beside(dir geom.V3) (mm float64, ok bool) {
	mm, _, ok = b.both(dir)
	return mm, ok
}

// both is how far the wood reaches either way along a direction of the piece,
// the nearer way first. It is measured along that direction, a quarter of the
// way in: near the mouth, where wood splits. A line square to a leaning axis
// would leave by the face it went in at. It is not ok along the axis itself.
func (b bore) both(dir geom.V3) (near, far float64, ok bool) {
	if math.Abs(dir.Dot(b.Dir)) > 0.7 {
		return 0, 0, false
	}
	at := b.mouth.Add(b.Dir.Mul(math.Max(inside, b.deep/4)))
	one, ok1 := leaves(b.piece.Solid, at, dir)
	two, ok2 := leaves(b.piece.Solid, at, dir.Neg())
	return math.Min(one, two), math.Max(one, two), ok1 && ok2
}

// leaves is how far it is from p along d to where the line leaves the wood. The
// walls of holes do not count, and p may lie in one. It is not ok when the line
// never leaves it, because p lies outside.
func leaves(s *geom.Solid, p, d geom.V3) (mm float64, ok bool) {
	best := math.Inf(1)
	for _, f := range s.Faces {
		run := d.Dot(f.N)
		if f.Kind == geom.Hollow || run < 1e-9 {
			continue
		}
		if t := f.Loops[0][0].Sub(p).Dot(f.N) / run; t > -1e-6 && t < best && onFace(f, p.Add(d.Mul(t))) {
			best = t
		}
	}
	return best, !math.IsInf(best, 1)
}

// onFace reports whether a point of a face's plane lies within the face, its
// holes filled, or on its rim: the rim is seen through half a turn.
func onFace(f geom.Face, p geom.V3) bool {
	turn, loop := 0.0, f.Loops[0]
	for i, a := range loop {
		u, v := a.Sub(p), loop[(i+1)%len(loop)].Sub(p)
		turn += math.Atan2(u.Cross(v).Dot(f.N), u.Dot(v))
	}
	return turn > math.Pi-1e-6
}

// sides are the directions across the grain of the piece: to its edges and to
// its faces.
func (b bore) sides() iter.Seq2[string, geom.V3] {
	return func(yield func(string, geom.V3) bool) {
		_ = yield("edge", b.piece.Pose.Across) && yield("face", b.piece.Pose.Thick)
	}
}

// joint is the key under which the fasteners of one joint in the pieces of one
// part, or of its family, make one finding.
func (b bore) joint(side string) string {
	return b.Joint.Key + "\x00" + b.piece.Part.Key + "\x00" + side
}
