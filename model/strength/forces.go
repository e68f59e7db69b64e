package strength

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

// most is how many pieces a plan may have for its forces to be followed: the
// work grows with the cube.
const most = 150

// pad is the width of the pad that loads a seat or a back, mm; from memory.
const pad = 200

// tryout is one load on a piece.
type tryout struct {
	what  string
	loads []load
}

// Forces loads seat, back and arm in turn and returns the worst case of each
// part and each joint, in the order of the plan. skipped says why nothing was
// done, "" when it was.
func Forces(p *model.Plan, l Loads) (boards []Board, joints []Joint, skipped string) {
	switch {
	case len(p.Placed) == 0 || len(p.Joints) == 0:
		return nil, nil, "nothing is joined"
	case len(p.Placed) > most:
		return nil, nil, fmt.Sprintf("%d pieces are more than the %d whose forces are followed", len(p.Placed), most)
	}
	list := tryouts(p, l)
	if len(list) == 0 {
		return nil, nil, "there is nothing to load: no seat_slope is measured, and nothing has a level top"
	}
	n := newNetwork(p)
	worst := map[*model.Part]Board{}
	held := map[*model.Joint]Joint{}
	for _, c := range list {
		c.loads = append(weights(p), c.loads...)
		n.carry(c.loads)
		for i, q := range p.Placed {
			forces, held, loaded := n.bentBy(i, q, c.loads)
			b := bend(q, forces, held)
			if b.Case = c.what; loaded {
				b.Free = freeAt(q, held, b.At)
			}
			if old, seen := worst[q.Part]; !seen || b.Stress > old.Stress {
				worst[q.Part] = b
			}
		}
		for _, j := range n.joints(p, l, c.what) {
			if old, seen := held[j.Joint]; !seen || j.Used > old.Used {
				held[j.Joint] = j
			}
		}
	}
	for _, q := range p.Parts {
		if b, ok := worst[q]; ok {
			boards = append(boards, b)
		}
	}
	for _, j := range p.Joints {
		if h, ok := held[j]; ok {
			joints = append(joints, h)
		}
	}
	return boards, joints, ""
}

// weights is the weight of every piece: without it a load on an arm would tip a
// chair that stands.
func weights(p *model.Plan) []load {
	var out []load
	for i, q := range p.Placed {
		out = append(out, load{i, Force{q.Center, geom.V3{Z: -q.Part.Mass * gravity}}})
	}
	return out
}

// tryouts is the loads that suit a piece: a sitter, one who leans back, one who
// gets up on an arm; or a load on top.
func tryouts(p *model.Plan, l Loads) []tryout {
	s, seated := people.SitOf(p)
	if !seated {
		if full := filled(p); len(full) > 0 {
			return []tryout{{"full of wet soil", full}}
		}
		if top := topOf(p); len(top) > 0 {
			return []tryout{{"a load on top", spread(p, top, middleOf(p, top), geom.V3{Z: -l.Seat})}}
		}
		return nil
	}
	var sit, edge, lean []load
	for _, at := range s.Places(p, loading) {
		sit = append(sit, spread(p, s.Seats, at, geom.V3{Z: -l.Seat})...)
		front := geom.V3{X: at.X, Y: s.Front.Y + fromEdge, Z: s.Front.Z}
		edge = append(edge, spread(p, s.Seats, front, geom.V3{Z: -l.Seat})...)
		if len(s.Backs) > 0 {
			n, back := pushed(p, &s)
			back.X = at.X
			lean = append(lean, spread(p, s.Backs, back, n.Mul(l.Back))...)
		}
	}
	out := []tryout{{"sitting", sit}, {"sitting on the front edge", edge}}
	if len(lean) > 0 {
		out = append(out, tryout{"leaning back", append(sit[:len(sit):len(sit)], lean...)})
	}
	if len(s.Arms) > 0 {
		arm := p.Placed[s.Arms[0]]
		at := arm.Pose.Point(geom.V3{X: arm.Part.Length / 2, Y: arm.Part.Width / 2, Z: arm.Part.Thick})
		out = append(out, tryout{"leaning on one arm", spread(p, s.Arms[:1], at, geom.V3{Z: -l.Arm})})
	}
	return out
}

// soilRows is at how many places along a floor board the soil is laid.
const soilRows = 16

// filled is the weight of the soil in a planter, shared among its floor boards by
// their width.
func filled(p *model.Plan) []load {
	var out []load
	for _, v := range Vessels(p) {
		if !Planted(p, v) {
			continue
		}
		var bed []load
		total := 0.0
		for _, i := range v.Floor {
			q := p.Placed[i]
			for k := range soilRows {
				at := q.Pose.Point(geom.V3{X: q.Part.Length * (float64(k) + 0.5) / soilRows, Y: q.Part.Width / 2, Z: q.Part.Thick / 2})
				if v.Has(at) {
					n := q.Part.Width * q.Part.Length
					total += n
					bed = append(bed, load{i, Force{at, geom.V3{Z: -n}}})
				}
			}
		}
		for _, b := range bed {
			b.Push = b.Push.Mul(v.Mass() * gravity / total)
			out = append(out, b)
		}
	}
	return out
}

// Planted reports whether a space is for soil: the author says so, or says
// nothing of what the piece is and it is 4 in deep (common practice).
func Planted(p *model.Plan, v Vessel) bool {
	return p.Kind == model.Planter || p.Kind == "" && v.Deep >= 4*inch
}

// pushed is where the back is pushed and which way: square to it, rearward.
func pushed(p *model.Plan, s *people.Sit) (n, at geom.V3) {
	q := p.Placed[s.Backs[0]]
	n = q.Pose.Thick
	if n.Y < 0 {
		n = n.Neg()
	}
	height := math.Min(s.Depth(loading).Z+backHeight, s.BackTop.Z)
	// The board's own line at that height; the pad is centred on the piece.
	run := q.Pose.Along.Mul((height - q.Pose.Origin.Z) / q.Pose.Along.Z)
	at = q.Pose.Origin.Add(run)
	at.X = 0
	return n, at
}

// level is the cosine above which a face is level.
const level = 1 - 1e-6

// topOf is the boards whose level upper faces are the highest.
func topOf(p *model.Plan) []int {
	high := math.Inf(-1)
	var out []int
	for i, q := range p.Placed {
		for _, f := range q.Solid.Faces {
			if f.Kind != geom.Flat || f.N.Z < level {
				continue
			}
			z := f.Loops[0][0].Z
			if z > high+touching {
				high, out = z, nil
			}
			if z > high-touching {
				if len(out) == 0 || out[len(out)-1] != i {
					out = append(out, i)
				}
			}
		}
	}
	return out
}

func middleOf(p *model.Plan, pieces []int) geom.V3 {
	box := geom.NoBox3()
	for _, i := range pieces {
		box = box.Union(p.Placed[i].Solid.Box3(geom.Home()))
	}
	m := box.Min.Add(box.Max).Mul(0.5)
	m.Z = box.Max.Z
	return m
}

// padRows is into how many rows and columns the pad is divided.
const padRows = 12

// spread lays a round pad on some pieces: each bit of it presses on the piece
// under it, or the nearest where there is a gap. What a piece gets acts along
// the middle of its width.
func spread(p *model.Plan, pieces []int, at, push geom.V3) []load {
	if len(pieces) == 0 {
		return nil
	}
	first := p.Placed[pieces[0]].Pose
	var out []load
	total := 0.0
	for col := range padRows {
		x := pad * ((float64(col)+0.5)/padRows - 0.5)
		share := make([]float64, len(pieces))
		for row := range padRows {
			y := pad * ((float64(row)+0.5)/padRows - 0.5)
			if math.Hypot(x, y) < pad/2 {
				share[under(p, pieces, at.Add(first.Along.Mul(x)).Add(first.Across.Mul(y)))]++
			}
		}
		for k, n := range share {
			if n == 0 {
				continue
			}
			total += n
			hold := onMiddle(p.Placed[pieces[k]], at.Add(first.Along.Mul(x)))
			out = append(out, load{pieces[k], Force{hold, push.Mul(n)}})
		}
	}
	for i := range out {
		out[i].Push = out[i].Push.Mul(1 / total)
	}
	return out
}

// under is which of some pieces lies under a point, or nearest to it.
func under(p *model.Plan, pieces []int, at geom.V3) int {
	best, least := 0, math.Inf(1)
	for k, i := range pieces {
		q := p.Placed[i]
		v := q.Pose.Local(at)
		off := math.Hypot(v.X-math.Min(math.Max(v.X, 0), q.Part.Length), v.Y-math.Min(math.Max(v.Y, 0), q.Part.Width))
		if off < least-1e-9 {
			best, least = k, off
		}
	}
	return best
}

// onMiddle is the point of the middle of a piece's width that lies beside a
// point.
func onMiddle(q *model.Placed, at geom.V3) geom.V3 {
	v := q.Pose.Local(at)
	return q.Pose.Point(geom.V3{X: math.Min(math.Max(v.X, 0), q.Part.Length), Y: q.Part.Width / 2, Z: v.Z})
}
