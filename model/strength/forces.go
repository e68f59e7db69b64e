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
			b := bend(q, n.on(i, c.loads), n.held(i))
			b.Case = c.what
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
		if top := topOf(p); len(top) > 0 {
			return []tryout{{"a load on top", spread(p, top, middleOf(p, top), geom.V3{Z: -l.Seat})}}
		}
		return nil
	}
	sit := spread(p, s.Seats, s.Depth(loading), geom.V3{Z: -l.Seat})
	out := []tryout{{"sitting", sit}, {"sitting on the front edge", spread(p, s.Seats, s.Front.Add(geom.V3{Y: fromEdge}), geom.V3{Z: -l.Seat})}}
	if len(s.Backs) > 0 {
		n, at := pushed(p, &s)
		out = append(out, tryout{"leaning back", append(sit[:len(sit):len(sit)], spread(p, s.Backs, at, n.Mul(l.Back))...)})
	}
	if len(s.Arms) > 0 {
		arm := p.Placed[s.Arms[0]]
		at := arm.Pose.Point(geom.V3{X: arm.Part.Length / 2, Y: arm.Part.Width / 2, Z: arm.Part.Thick})
		out = append(out, tryout{"leaning on one arm", spread(p, s.Arms[:1], at, geom.V3{Z: -l.Arm})})
	}
	return out
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

// spread shares a load among the pieces under the pad, each at its own point
// nearest the middle of the pad; the nearest piece always carries.
func spread(p *model.Plan, pieces []int, at, push geom.V3) []load {
	var under []load
	nearest, least := load{}, math.Inf(1)
	for _, i := range pieces {
		q := p.Placed[i]
		v := q.Pose.Local(at)
		hold := geom.V3{X: math.Min(math.Max(v.X, 0), q.Part.Length), Y: q.Part.Width / 2, Z: v.Z}
		off := math.Hypot(v.X-hold.X, v.Y-hold.Y)
		l := load{i, Force{q.Pose.Point(hold), push}}
		if off < pad/2 {
			under = append(under, l)
		}
		if off < least {
			nearest, least = l, off
		}
	}
	if len(under) == 0 {
		under = []load{nearest}
	}
	for i := range under {
		under[i].Push = push.Mul(1 / float64(len(under)))
	}
	return under
}
