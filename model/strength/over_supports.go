package strength

import (
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// together is how near along a board the forces of one support lie, mm: a board
// bears on the whole edge of another.
const together = 60.0

// overSupports shares the load of a board anew among its supports when it lies
// on more than two. The network takes pieces as stiff, and a stiff board tips the
// load onto its ends; a real one bends and leaves it on the supports beside the
// load (continuous beam on rigid supports, Euler and Bernoulli). Only what goes
// through the thickness is shared anew.
func overSupports(p *model.Placed, loads, held []Force) []Force {
	groups := stands(p, held)
	if len(groups) < 3 {
		return held
	}
	at := make([]float64, len(groups))
	var press []onBeam
	for k, g := range groups {
		for _, i := range g {
			at[k] += p.Pose.Local(held[i].At).X / float64(len(g))
		}
	}
	for _, f := range loads {
		press = append(press, onBeam{p.Pose.Local(f.At).X, p.Pose.LocalDir(f.Push).Z})
	}
	out := slices.Clone(held)
	for k, react := range reactions(at, press) {
		old := 0.0
		for _, i := range groups[k] {
			old += p.Pose.LocalDir(held[i].Push).Z
		}
		share := (react - old) / float64(len(groups[k]))
		for _, i := range groups[k] {
			out[i].Push = out[i].Push.Add(p.Pose.Thick.Mul(share))
		}
	}
	return out
}

// stands groups the forces that hold a board by their places along it.
func stands(p *model.Placed, held []Force) [][]int {
	x := func(i int) float64 { return p.Pose.Local(held[i].At).X }
	order := make([]int, 0, len(held))
	for i := range held {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch d := x(a) - x(b); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	var out [][]int
	for _, i := range order {
		n := len(out)
		if n > 0 && x(i)-x(out[n-1][0]) < together {
			out[n-1] = append(out[n-1], i)
			continue
		}
		out = append(out, []int{i})
	}
	return out
}

// onBeam is a force across a beam, N, at a place along it, mm.
type onBeam struct{ x, push float64 }

// reactions are the forces, N, by which rigid supports at some places hold a beam
// of one section under loads, by the stiffness of its stretches.
func reactions(at []float64, loads []onBeam) []float64 {
	nodes := slices.Clone(at)
	for _, l := range loads {
		nodes = append(nodes, l.x)
	}
	slices.Sort(nodes)
	nodes = slices.CompactFunc(nodes, func(a, b float64) bool { return math.Abs(b-a) < 1e-3 })
	node := func(x float64) int {
		best := 0
		for i, n := range nodes {
			if math.Abs(n-x) < math.Abs(nodes[best]-x) {
				best = i
			}
		}
		return best
	}
	// Lengths in units of the whole, so that slides and turns are of one size.
	long := nodes[len(nodes)-1] - nodes[0]
	const rigid = 1e9 // over the stiffness of the whole
	k := make([][]float64, 2*len(nodes))
	for i := range k {
		k[i] = make([]float64, i+1)
	}
	for i := 1; i < len(nodes); i++ {
		stretch(k, 2*(i-1), (nodes[i]-nodes[i-1])/long)
	}
	for _, x := range at {
		k[2*node(x)][2*node(x)] += rigid
	}
	f := make([]float64, len(k))
	for _, l := range loads {
		f[2*node(l.x)] += l.push
	}
	cholesky(k, f)
	out := make([]float64, len(at))
	for i, x := range at {
		out[i] = -rigid * f[2*node(x)]
	}
	return out
}

// stretch adds the stiffness of a stretch of beam, its slides and turns at both
// ends from unknown n on; bending stiffness is 1.
func stretch(k [][]float64, n int, l float64) {
	s := [4][4]float64{
		{12, 6 * l, -12, 6 * l},
		{6 * l, 4 * l * l, -6 * l, 2 * l * l},
		{-12, -6 * l, 12, -6 * l},
		{6 * l, 2 * l * l, -6 * l, 4 * l * l},
	}
	for i := range s {
		for j := range i + 1 {
			k[n+i][n+j] += s[i][j] / (l * l * l)
		}
	}
}

// freeAt is how long a board is free about a place along it: between the supports
// on either side, the longer way where it lies on one, and from the last support
// where it hangs over.
func freeAt(p *model.Placed, held []Force, at float64) float64 {
	var mids []float64
	for _, g := range stands(p, held) {
		mids = append(mids, (p.Pose.Local(held[g[0]].At).X+p.Pose.Local(held[g[len(g)-1]].At).X)/2)
	}
	longest := 0.0
	for k, m := range mids {
		near := math.Abs(at-m) < together/2
		switch {
		case k > 0 && (near || mids[k-1] < at && at < m):
			longest = math.Max(longest, m-mids[k-1])
		case k == 0 && at < m, k == len(mids)-1 && at > m:
			longest = math.Max(longest, math.Abs(at-m))
		}
		if near && k+1 < len(mids) {
			longest = math.Max(longest, mids[k+1]-m)
		}
	}
	return longest
}

// bentBy gathers what bends a piece: its loads, and what holds it; and whether
// it is loaded itself.
func (n *network) bentBy(piece int, q *model.Placed, loads []load) (forces, held []Force, loaded bool) {
	for _, l := range loads {
		if l.piece == piece {
			forces = append(forces, l.Force)
		}
	}
	held = n.held(piece)
	if loaded = bears(q.Pose, forces); loaded {
		held = overSupports(q, forces, held)
	}
	return append(forces, held...), held, loaded
}

// bears reports whether loads press on a board through its thickness more than
// its own weight would.
func bears(pose geom.Pose, loads []Force) bool {
	through := 0.0
	for _, f := range loads {
		through += math.Abs(pose.LocalDir(f.Push).Z)
	}
	return len(loads) > 1 && through > 100
}
