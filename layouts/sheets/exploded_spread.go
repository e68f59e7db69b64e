package sheets

import (
	"cmp"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// A way is one direction in which pieces come off each other: along the
// fasteners of a joint, straight up or down where a joint holds two stages
// together, or sideways between things that nothing joins.
type way struct {
	joint *model.Joint // nil for what nothing joins
	lift  bool
}

// An undoing is how some pieces come apart: how far each goes for each
// millimetre that a way is opened.
type undoing struct {
	d      *desk
	pieces []int
	ways   []way
	moves  map[int][]geom.V3             // by piece, then by way
	leads  map[*model.Joint]*model.Joint // the joint each opens together with
}

// undo finds how pieces come apart. It walks from the core along the joints:
// what is fastened to a piece moves off it along the fasteners' axis, and a piece
// that is fastened to several takes the mean, so that what lies across the middle
// stays there. A joint that only closes a ring is passed over: the piece follows
// what it was fastened to first.
func (d *desk) undo(pieces []int) *undoing {
	u := &undoing{d: d, pieces: pieces, moves: map[int][]geom.V3{}, leads: map[*model.Joint]*model.Joint{}}
	in := map[int]bool{}
	for _, i := range pieces {
		in[i] = true
	}
	stage := d.addedWhen()
	joints := d.opened(in)
	for _, j := range joints {
		if u.leads[j] = u.lead(j, stage); u.leads[j] == j {
			u.ways = append(u.ways, way{joint: j})
		}
	}
	for _, j := range joints {
		if u.leads[j] == j && lifts(j, in, stage) {
			u.ways = append(u.ways, way{joint: j, lift: true})
		}
	}
	u.ways = append(u.ways, way{})
	knots := u.knots(joints, in)
	for _, knot := range knots {
		core := d.core(pieces, in)
		if len(knots) > 1 {
			core = []int{u.inmost(knot)}
		}
		u.walk(core, joints, in, stage)
	}
	u.partSides(knots)
	return u
}

// lead is the joint that opens together with j: an earlier one that holds parts
// of the same stage to the same parts along the same axis, so that a seat of two
// kinds of slats stays one thing. It is j itself when there is none.
func (u *undoing) lead(j *model.Joint, when map[int]putOn) *model.Joint {
	f := j.Fasteners[0]
	for _, y := range u.ways {
		g := y.joint.Fasteners[0]
		if slices.Equal(y.joint.Second, j.Second) && when[f.Pieces[0]].stage == when[g.Pieces[0]].stage && f.Dir.Dot(g.Dir) > 0.98 {
			return y.joint
		}
	}
	return j
}

// putOn is when a piece is put on: its step, counted from 1, and its stage.
type putOn struct {
	step  int
	stage string
}

func (d *desk) addedWhen() map[int]putOn {
	when := map[int]putOn{}
	for _, st := range d.plan.Steps {
		for _, i := range st.Add {
			if _, had := when[i]; !had {
				when[i] = putOn{st.Number, st.Stage}
			}
		}
	}
	return when
}

// lifts reports whether a joint holds pieces of two stages together that are
// better lifted off each other than only opened along it, since it is not upright
// itself.
func lifts(j *model.Joint, in map[int]bool, when map[int]putOn) bool {
	return slices.ContainsFunc(j.Fasteners, func(f model.Fastener) bool {
		a, b := f.Pieces[0], f.Pieces[1]
		return in[a] && in[b] && when[a].stage != when[b].stage && math.Abs(f.Dir.Z) < 0.8
	})
}

// opened lists the joints between some pieces in the order in which they are
// made, without those that only close a ring.
func (d *desk) opened(in map[int]bool) []*model.Joint {
	made := map[*model.Joint]int{}
	for _, st := range d.plan.Steps {
		for _, j := range st.Fasten {
			if made[j] == 0 {
				made[j] = len(made) + 1
			}
		}
	}
	all := slices.Clone(d.plan.Joints)
	slices.SortStableFunc(all, func(a, b *model.Joint) int {
		return cmp.Compare(cmp.Or(made[a], math.MaxInt), cmp.Or(made[b], math.MaxInt))
	})
	held := bundle{}
	var out []*model.Joint
	for _, j := range all {
		opens := false
		for _, f := range j.Fasteners {
			opens = opens || in[f.Pieces[0]] && in[f.Pieces[1]] && held.of(f.Pieces[0]) != held.of(f.Pieces[1])
		}
		if !opens {
			continue
		}
		out = append(out, j)
		held.tie(j, in)
	}
	return out
}

// A bundle tells what is joined together: each piece leads to another of its
// bundle, the last to itself.
type bundle map[int]int

// of is the piece that stands for all that i is joined to.
func (b bundle) of(i int) int {
	for {
		k, ok := b[i]
		if !ok || k == i {
			return i
		}
		if next, ok := b[k]; ok {
			b[i] = next // the way is shorter the next time
		}
		i = k
	}
}

// tie joins what a joint holds together of some pieces.
func (b bundle) tie(j *model.Joint, in map[int]bool) {
	for _, f := range j.Fasteners {
		if in[f.Pieces[0]] && in[f.Pieces[1]] {
			b[b.of(f.Pieces[0])] = b.of(f.Pieces[1])
		}
	}
}

// A pull is the sum of what the pieces a new one hangs on say.
type pull struct {
	sum []geom.V3
	n   float64
}

// walk gives moves to everything joined to core.
func (u *undoing) walk(core []int, joints []*model.Joint, in map[int]bool, when map[int]putOn) {
	for _, i := range core {
		u.moves[i] = make([]geom.V3, len(u.ways))
	}
	for {
		pulls := map[int]*pull{}
		var next []int
		for _, j := range joints {
			for _, f := range j.Fasteners {
				if at := u.pullOn(pulls, f, in, when); at >= 0 {
					next = append(next, at)
				}
			}
		}
		if len(next) == 0 {
			return
		}
		for _, i := range next {
			for w := range pulls[i].sum {
				pulls[i].sum[w] = pulls[i].sum[w].Mul(1 / pulls[i].n)
			}
			u.moves[i] = pulls[i].sum
		}
	}
}

// pullOn adds what a fastener says to the pulls, when it holds a piece
// that has moves and one that has none. It returns the latter when that is new
// among the pulls, else -1.
func (u *undoing) pullOn(pulls map[int]*pull, f model.Fastener, in map[int]bool, when map[int]putOn) int {
	at, from, dir := f.Pieces[0], f.Pieces[1], f.Dir.Neg() // the held piece goes toward the heads
	if u.moves[at] != nil {
		at, from, dir = from, at, f.Dir
	}
	if !in[at] || !in[from] || u.moves[from] == nil || u.moves[at] != nil {
		return -1
	}
	p, had := pulls[at]
	if !had {
		p = &pull{sum: make([]geom.V3, len(u.ways))}
		pulls[at] = p
	}
	for w, v := range u.moves[from] {
		p.sum[w] = p.sum[w].Add(v)
	}
	k := slices.Index(u.ways, way{joint: u.leads[f.Joint]})
	p.sum[k] = p.sum[k].Add(dir)
	p.n++
	if w := u.lift(f.Joint); w >= 0 && when[at].stage != when[from].stage {
		p.sum[w].Z += math.Copysign(1, float64(when[at].step-when[from].step))
	}
	if had {
		return -1
	}
	return at
}

// lift is the way in which what a joint holds is lifted off, -1 for none.
func (u *undoing) lift(j *model.Joint) int {
	return slices.Index(u.ways, way{joint: u.leads[j], lift: true})
}

// partSides lets things that nothing joins move off the middle of all, each along
// the axis on which it stands farthest from it.
func (u *undoing) partSides(knots [][]int) {
	if len(knots) < 2 {
		return
	}
	middle := u.middle(u.pieces)
	last := len(u.ways) - 1
	for _, knot := range knots {
		c := u.middle(knot).Sub(middle)
		var v geom.V3
		switch ax, ay, az := math.Abs(c.X), math.Abs(c.Y), math.Abs(c.Z); {
		case max(ax, ay, az) < 1:
		case ax >= ay && ax >= az:
			v.X = math.Copysign(1, c.X)
		case ay >= az:
			v.Y = math.Copysign(1, c.Y)
		default:
			v.Z = math.Copysign(1, c.Z)
		}
		for _, i := range knot {
			u.moves[i][last] = v
		}
	}
}

// inmost is the piece of a knot nearest the middle of all pieces: the others move
// outward.
func (u *undoing) inmost(knot []int) int {
	middle := u.middle(u.pieces)
	return slices.MinFunc(knot, func(a, b int) int {
		return cmp.Compare(u.d.plan.Placed[a].Center.Sub(middle).Len(), u.d.plan.Placed[b].Center.Sub(middle).Len())
	})
}

// knots sorts the pieces by what is joined together.
func (u *undoing) knots(joints []*model.Joint, in map[int]bool) [][]int {
	held := bundle{}
	for _, j := range joints {
		held.tie(j, in)
	}
	at := map[int]int{}
	var out [][]int
	for _, i := range u.pieces {
		k, had := at[held.of(i)]
		if !had {
			k = len(out)
			at[held.of(i)] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}

func (u *undoing) middle(pieces []int) geom.V3 {
	sum := geom.V3{}
	for _, i := range pieces {
		sum = sum.Add(u.d.plan.Placed[i].Center)
	}
	return sum.Mul(1 / float64(len(pieces)))
}

// offsets says how far each piece stands from its place when the ways are opened
// so many mm each.
func (u *undoing) offsets(open []float64) map[int]geom.V3 {
	off := map[int]geom.V3{}
	for _, i := range u.pieces {
		var v geom.V3
		for w, m := range u.moves[i] {
			v = v.Add(m.Mul(open[w]))
		}
		off[i] = v
	}
	return off
}

// spread opens all joints between some pieces by the same distance, 0 for what
// is usual, and lifts nothing.
func (d *desk) spread(pieces []int, apart float64) map[int]geom.V3 {
	u := d.undo(pieces)
	return u.offsets(u.evenly(cmp.Or(apart, d.apart(pieces))))
}

// evenly opens every joint along its fasteners by apart mm.
func (u *undoing) evenly(apart float64) []float64 {
	open := make([]float64, len(u.ways))
	for w, y := range u.ways {
		if y.joint != nil && !y.lift {
			open[w] = apart
		}
	}
	return open
}

// apart is the usual distance joints are opened by: a share of the whole.
func (d *desk) apart(pieces []int) float64 {
	box := geom.NoBox3()
	for _, i := range pieces {
		box = box.Union(d.plan.Placed[i].Solid.Box3(geom.Home()))
	}
	return 0.11 * box.Size().Len()
}

// core is what everything else moves away from: of the pieces in the middle plane
// of the furniture the one with the most joints, those across the plane counting
// twice, since what they hold goes off to both sides alike. Where no piece stands
// there, it is the one with the most joints and its mirror image.
func (d *desk) core(pieces []int, in map[int]bool) []int {
	joined := map[[2]int]float64{}
	score := map[int]float64{}
	for _, j := range d.plan.Joints {
		for _, f := range j.Fasteners {
			a, b := f.Pieces[0], f.Pieces[1]
			worth := 1 + math.Round(math.Abs(f.Dir.X))
			if k := [2]int{min(a, b), max(a, b)}; in[a] && in[b] && joined[k] < worth {
				score[a] += worth - joined[k]
				score[b] += worth - joined[k]
				joined[k] = worth
			}
		}
	}
	best := func(of []int) int {
		return slices.MaxFunc(of, func(a, b int) int { // the first of equal ones
			return cmp.Or(cmp.Compare(score[a], score[b]), cmp.Compare(b, a))
		})
	}
	middle := slices.DeleteFunc(slices.Clone(pieces), func(i int) bool {
		return math.Abs(d.plan.Placed[i].Center.X) > 1 || score[i] == 0
	})
	if len(middle) > 0 {
		return []int{best(middle)}
	}
	first := best(pieces)
	return slices.DeleteFunc(slices.Clone(pieces), func(i int) bool {
		p, q := d.plan.Placed[first], d.plan.Placed[i]
		across := geom.V3{X: -q.Center.X, Y: q.Center.Y, Z: q.Center.Z}
		return i != first && (p.Part != q.Part || p.Center.Sub(across).Len() > 1)
	})
}
