package geom

import "math"

// settle makes the skin as simple as its shape: corners computed twice become
// one, edges are divided where the corner of another face lies on them, faces
// of one kind in one plane are joined, and what then is no corner any more is
// forgotten. It is needed where cuts coincide, such as the floors of two
// crossing dados of one depth.
func (m *mesh) settle() {
	m.weld()
	on := m.cornersOnEdges()
	var groups []meshFace
	for _, f := range m.faces {
		f.loops = divide(f.loops, on)
		i := m.inPlaneOf(groups, f)
		if i < 0 {
			groups = append(groups, f)
			continue
		}
		groups[i].loops = append(groups[i].loops, f.loops...)
	}
	m.faces = nil
	for _, g := range groups {
		var edges [][2]int
		for _, e := range edgesOf(g.loops) {
			if e[0] != e[1] {
				edges = append(edges, e)
			}
		}
		if g.loops = m.assemble(edges, g.n); len(g.loops) > 0 {
			m.faces = append(m.faces, g)
		}
	}
	m.tidy(0)
}

// weld gives corners that are the same to within reach one number.
func (m *mesh) weld() {
	number := make([]int, len(m.pts))
	for i, p := range m.pts {
		number[i] = i
		for j, q := range m.pts[:i] {
			if math.Abs(p.X-q.X) <= reach && math.Abs(p.Y-q.Y) <= reach && math.Abs(p.Z-q.Z) <= reach {
				number[i] = number[j]
				break
			}
		}
	}
	for _, f := range m.faces {
		for _, l := range f.loops {
			for i, v := range l {
				l[i] = number[v]
			}
		}
	}
}

// cornersOnEdges returns, for each edge by its ends, lower number first, the
// corners that lie within it, in order from the lower end.
func (m *mesh) cornersOnEdges() map[[2]int][]int {
	var all [][2]int
	for _, f := range m.faces {
		all = append(all, edgesOf(f.loops)...)
	}
	used := make([]bool, len(m.pts))
	var list []int
	for _, e := range all {
		if !used[e[0]] {
			used[e[0]] = true
			list = append(list, e[0])
		}
	}
	on := map[[2]int][]int{}
	seen := map[[2]int]bool{}
	for _, e := range all {
		e = [2]int{min(e[0], e[1]), max(e[0], e[1])}
		if e[0] == e[1] || seen[e] {
			continue
		}
		seen[e] = true
		if c := m.within(e, list); len(c) > 0 {
			on[e] = c
		}
	}
	return on
}

// within returns which of the corners in list lie within the edge e, in order.
func (m *mesh) within(e [2]int, list []int) []int {
	a, b := m.pts[e[0]], m.pts[e[1]]
	box := NoBox3().With(a).With(b).Grow(reach)
	d := b.Sub(a)
	length := d.Len()
	if length <= reach {
		return nil
	}
	d = d.Mul(1 / length)
	var found []int
	var ts []float64
	for _, v := range list {
		p := m.pts[v]
		if v == e[0] || v == e[1] || !box.Has(p) {
			continue
		}
		q := p.Sub(a)
		t := q.Dot(d)
		if t <= reach || t >= length-reach || q.Sub(d.Mul(t)).Len() > reach {
			continue
		}
		i := len(ts)
		for i > 0 && ts[i-1] > t {
			i--
		}
		ts = append(ts[:i], append([]float64{t}, ts[i:]...)...)
		found = append(found[:i], append([]int{v}, found[i:]...)...)
	}
	return found
}

// divide returns the loops with the corners that lie on their edges.
func divide(loops [][]int, on map[[2]int][]int) [][]int {
	out := make([][]int, len(loops))
	for i, l := range loops {
		for j, v := range l {
			w := l[(j+1)%len(l)]
			out[i] = append(out[i], v)
			c := on[[2]int{min(v, w), max(v, w)}]
			for k := range c {
				if v < w {
					out[i] = append(out[i], c[k])
				} else {
					out[i] = append(out[i], c[len(c)-1-k])
				}
			}
		}
	}
	return out
}

// inPlaneOf returns the number of the face in list that f is of one kind and in
// one plane with, or -1.
func (m *mesh) inPlaneOf(list []meshFace, f meshFace) int {
	if len(f.loops) == 0 {
		return -1
	}
	for i, g := range list {
		if g.kind != f.kind || g.smooth != f.smooth || g.n.Sub(f.n).Len() > 1e-8 || len(g.loops) == 0 {
			continue
		}
		if math.Abs(m.pts[f.loops[0][0]].Sub(m.pts[g.loops[0][0]]).Dot(f.n)) <= reach {
			return i
		}
	}
	return -1
}
