package sheets

import (
	"planset/model/geom"
)

// stageShift moves what is built in one stage away from the middle of the whole
// as one, so that the sub-assemblies stand clear of each other.
func (d *desk) stageShift(pieces []int) map[int]geom.V3 {
	const share = 0.95
	stage := map[int]string{}
	for _, st := range d.plan.Steps {
		for _, i := range st.Add {
			stage[i] = st.Stage
		}
	}
	whole, all := geom.V3{}, 0.0
	sum, n := map[string]geom.V3{}, map[string]float64{}
	for _, i := range pieces {
		c := d.plan.Placed[i].Center
		whole, all = whole.Add(c), all+1
		sum[stage[i]] = sum[stage[i]].Add(c)
		n[stage[i]]++
	}
	out := map[int]geom.V3{}
	if len(sum) < 2 || all == 0 {
		return out
	}
	middle := whole.Mul(1 / all)
	for _, i := range pieces {
		s := stage[i]
		out[i] = sum[s].Mul(1 / n[s]).Sub(middle).Mul(share)
	}
	return out
}

// spread finds how far each piece of an exploded view stands from its place.
// It walks from the core along the joints: what is fastened to a piece moves
// off it along the fasteners' axis, and a piece that is fastened to several
// takes the mean, so that what lies across the middle stays there. Apart is how
// far a joint is opened, 0 for what is usual.
func (d *desk) spread(pieces []int, apart float64) map[int]geom.V3 {
	if apart == 0 {
		apart = d.apart(pieces)
	}
	in := map[int]bool{}
	for _, i := range pieces {
		in[i] = true
	}
	off := map[int]geom.V3{}
	done := map[int]bool{}
	level := d.core(pieces, in)
	for _, i := range level {
		done[i] = true
	}
	for len(done) < len(pieces) {
		sum, n := map[int]geom.V3{}, map[int]int{}
		var next []int
		for _, j := range d.plan.Joints {
			for _, f := range j.Fasteners {
				a, b := f.Pieces[0], f.Pieces[1]
				if !in[a] || !in[b] || done[a] == done[b] {
					continue
				}
				at, way := a, f.Dir.Neg() // the held piece goes toward the heads
				from := b
				if done[a] {
					at, way, from = b, f.Dir, a
				}
				if n[at] == 0 {
					next = append(next, at)
				}
				sum[at] = sum[at].Add(off[from]).Add(way.Mul(apart))
				n[at]++
			}
		}
		if len(next) == 0 { // not joined to the rest: stays where it is
			for _, i := range pieces {
				done[i] = true
			}
			break
		}
		for _, i := range next {
			off[i] = sum[i].Mul(1 / float64(n[i]))
			done[i] = true
		}
	}
	return off
}

// apart is the least distance joints are opened by: a share of the whole.
func (d *desk) apart(pieces []int) float64 {
	box := geom.NoBox3()
	for _, i := range pieces {
		box = box.Union(d.plan.Placed[i].Solid.Box3(geom.Home()))
	}
	return 0.11 * box.Size().Len()
}

// core is the piece everything else moves away from: the one nearest the middle
// plane of the furniture with the most joints.
func (d *desk) core(pieces []int, in map[int]bool) []int {
	joints := map[int]map[int]bool{}
	for _, j := range d.plan.Joints {
		for _, f := range j.Fasteners {
			a, b := f.Pieces[0], f.Pieces[1]
			if in[a] && in[b] {
				for _, e := range [...][2]int{{a, b}, {b, a}} {
					if joints[e[0]] == nil {
						joints[e[0]] = map[int]bool{}
					}
					joints[e[0]][e[1]] = true
				}
			}
		}
	}
	best, most := pieces[0], -1.0
	for _, i := range pieces {
		score := float64(len(joints[i]))
		if x := d.plan.Placed[i].Center.X; x > -1 && x < 1 {
			score += 0.5
		}
		if score > most {
			best, most = i, score
		}
	}
	return []int{best}
}
