package strength

import (
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// Stiffnesses, N/mm. The fasteners' slip is that of NDS 11.3.6 for wood on wood,
// 180,000 D^1.5 lb/in, from memory; the others are common practice. They settle
// only how a load is shared, so a factor of two in them matters little.
const (
	slipModulus = 180000 * pound / inch // for D = 1 in
	pullStiff   = 3.0                   // a fastener along its axis, beside across
	bearStiff   = 15000.0               // one corner of a bearing face
	gripStiff   = 1000.0                // a foot on the floor, level
	looseStiff  = 1e-3                  // holds what nothing holds
	glueStiff   = 20000.0
)

const (
	touching = 0.05  // mm between faces that bear
	bearing  = 25    // mm², the least that bears
	reach    = 250.0 // mm: turns are counted as slides at this distance
)

// springKind is how a spring works.
type springKind int8

const (
	across springKind = iota // a fastener, square to its axis
	axial                    // a fastener pulling
	push                     // a bearing face or the floor
	hold                     // glue, friction
)

// spring holds a point of b to the same point of a; a is -1 for the floor.
type spring struct {
	a, b        int
	at, dir     geom.V3
	stiff       float64
	kind        springKind
	joint, fast int
}

// network is a plan as rigid pieces and springs.
type network struct {
	placed  []*model.Placed
	springs []spring
	rank    []int  // of the pieces in the equations: those with most springs last, so that rows stay short
	off     []bool // springs that have let go
	force   []float64
}

func newNetwork(p *model.Plan) *network {
	n := &network{placed: p.Placed}
	contact := n.bear()
	for k, j := range p.Joints {
		for i, f := range j.Fasteners {
			n.fasten(k, i, f, contact)
		}
		if j.Glue || j.Bond {
			n.glue(j, contact)
		}
	}
	for i := range n.placed {
		n.floor(i)
	}
	n.arrange()
	return n
}

// arrange gives each piece its rank.
func (n *network) arrange() {
	count := make([]int, len(n.placed))
	for _, s := range n.springs {
		count[s.b]++
		if s.a >= 0 {
			count[s.a]++
		}
	}
	order := make([]int, len(n.placed))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return count[a] - count[b] })
	n.rank = make([]int, len(n.placed))
	for r, i := range order {
		n.rank[i] = r
	}
}

// bear puts springs where faces bear and returns the greatest patch of each pair.
func (n *network) bear() map[[2]int]geom.Patch {
	contact := map[[2]int]geom.Patch{}
	boxes := make([]geom.Box3, len(n.placed))
	for i, p := range n.placed {
		boxes[i] = p.Solid.Box3(geom.Home()).Grow(touching)
	}
	for i, p := range n.placed {
		for j := i + 1; j < len(n.placed); j++ {
			if !boxes[i].Meets(boxes[j]) {
				continue
			}
			for _, c := range geom.Contact(p.Solid, n.placed[j].Solid, touching) {
				if c.Area < bearing {
					continue
				}
				for _, at := range corners(c) {
					n.springs = append(n.springs, spring{a: i, b: j, at: at, dir: c.N, stiff: bearStiff, kind: push, joint: -1})
				}
				if c.Area > contact[[2]int{i, j}].Area+1e-6 {
					contact[[2]int{i, j}] = c
				}
			}
		}
	}
	return contact
}

// corners is the corners of a patch that reach farthest in four directions.
func corners(c geom.Patch) []geom.V3 {
	loop := c.Loops[0]
	u := loop[1].Sub(loop[0]).Unit()
	v := c.N.Cross(u)
	var out []geom.V3
	for _, d := range []geom.V3{u.Add(v), u.Sub(v), v.Sub(u), u.Add(v).Neg()} {
		best := loop[0]
		for _, p := range loop[1:] {
			if p.Dot(d) > best.Dot(d)+1e-6 {
				best = p
			}
		}
		out = append(out, best)
	}
	return out
}

// fasten puts three springs in place of a fastener.
func (n *network) fasten(joint, fast int, f model.Fastener, contact map[[2]int]geom.Patch) {
	a, b := f.Pieces[0], f.Pieces[1]
	dir := f.Dir.Unit()
	at := f.Head.Add(dir.Mul(f.Grip))
	if c, ok := contact[[2]int{min(a, b), max(a, b)}]; ok && math.Abs(c.N.Dot(dir)) > 0.5 {
		at = f.Head.Add(dir.Mul(c.Loops[0][0].Sub(f.Head).Dot(c.N) / dir.Dot(c.N)))
	}
	u := n.placed[b].Pose.Along
	if math.Abs(u.Dot(dir)) > 0.7 {
		u = n.placed[b].Pose.Across
	}
	u = u.Sub(dir.Mul(u.Dot(dir))).Unit()
	k := slipModulus * math.Pow(f.Hardware.Diam/inch, 1.5)
	s := spring{a: a, b: b, at: at, dir: u, stiff: k, kind: across, joint: joint, fast: fast}
	n.springs = append(n.springs, s)
	s.dir = dir.Cross(u)
	n.springs = append(n.springs, s)
	s.dir, s.stiff, s.kind = dir, pullStiff*k, axial
	n.springs = append(n.springs, s)
}

// glue holds the faces of a glued joint every way.
func (n *network) glue(j *model.Joint, contact map[[2]int]geom.Patch) {
	for a, p := range n.placed {
		for b := a + 1; b < len(n.placed); b++ {
			q := n.placed[b]
			c, ok := contact[[2]int{a, b}]
			if !ok || !(has(j.First, p.Part) && has(j.Second, q.Part) || has(j.First, q.Part) && has(j.Second, p.Part)) {
				continue
			}
			u := c.Loops[0][1].Sub(c.Loops[0][0]).Unit()
			for _, at := range corners(c) {
				for _, d := range []geom.V3{u, c.N.Cross(u), c.N} {
					n.springs = append(n.springs, spring{a: a, b: b, at: at, dir: d, stiff: glueStiff, kind: hold, joint: -1})
				}
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

// floor puts a piece's lowest corners on the floor.
func (n *network) floor(i int) {
	feet := soles(n.placed[i])
	seen := map[geom.V3]bool{}
	for _, d := range []geom.V3{{X: 1, Y: 1.01}, {X: 1, Y: -1.01}, {X: -1, Y: 1.01}, {X: -1, Y: -1.01}} {
		if len(feet) == 0 {
			return
		}
		best := feet[0]
		for _, v := range feet[1:] {
			if v.Dot(d) > best.Dot(d)+1e-9 {
				best = v
			}
		}
		if seen[best] {
			continue
		}
		seen[best] = true
		n.springs = append(n.springs, spring{a: -1, b: i, at: best, dir: geom.V3{Z: 1}, stiff: bearStiff, kind: push, joint: -1},
			spring{a: -1, b: i, at: best, dir: geom.V3{X: 1}, stiff: gripStiff, kind: hold, joint: -1},
			spring{a: -1, b: i, at: best, dir: geom.V3{Y: 1}, stiff: gripStiff, kind: hold, joint: -1})
	}
}
