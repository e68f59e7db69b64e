package geom

import (
	"cmp"
	"math"
	"slices"
)

// A mesh is a solid whose faces share numbered corners. Cutting decides once
// for each corner on which side of a plane it is and once for each edge where
// it is cut, so the two faces at an edge always agree and the skin stays
// closed whatever rounding does.
type mesh struct {
	pts   []V3
	faces []meshFace
	cuts  map[[2]int]int // the corner that an edge, lower number first, is cut at
}

// A meshFace is a flat face by corner numbers. Its loops together bound it,
// wood to the left seen from outside; unlike in a Face they may bound several
// separate areas.
type meshFace struct {
	loops  [][]int
	n      V3
	kind   FaceKind
	smooth int
	src    int // pieces of one face share this
}

// edgesOf returns the directed edges of the loops.
func edgesOf(loops [][]int) [][2]int {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	out := make([][2]int, 0, n)
	for _, l := range loops {
		for i, v := range l {
			out = append(out, [2]int{v, l[(i+1)%len(l)]})
		}
	}
	return out
}

// onPlane is how near a plane a corner counts as on it.
const onPlane = Grid

// mesh returns the faces of s with their corners numbered.
func (s *Solid) mesh() *mesh {
	corners, loops := s.count()
	// Three faces and more share a corner.
	m := &mesh{cuts: map[[2]int]int{}, pts: make([]V3, 0, corners/3), faces: make([]meshFace, 0, len(s.Faces))}
	number := make(map[V3]int, corners/3)
	// All loops are cut from one piece, each with no room to grow into the next.
	numbers, lists := make([]int, corners), make([][]int, 0, loops)
	for i, f := range s.Faces {
		mf := meshFace{n: f.N, kind: f.Kind, smooth: f.Smooth, src: i}
		first := len(lists)
		for _, l := range f.Loops {
			ml := numbers[:len(l):len(l)]
			numbers = numbers[len(l):]
			for j, p := range l {
				k, ok := number[p]
				if !ok {
					k = len(m.pts)
					number[p] = k
					m.pts = append(m.pts, p)
				}
				ml[j] = k
			}
			lists = append(lists, ml)
		}
		mf.loops = lists[first:len(lists):len(lists)]
		m.faces = append(m.faces, mf)
	}
	return m
}

// A side holds which corners are behind (-1) or in front of (1) a plane; those
// on it count as in front. So a face in the plane is taken away with what is
// in front and the cut makes it anew, which leaves no skin without wood.
type side struct {
	of   []int8
	dist []float64
}

func (m *mesh) sides(pl Plane) side {
	s := side{make([]int8, len(m.pts)), make([]float64, len(m.pts))}
	for i, p := range m.pts {
		d := p.Sub(pl.P).Dot(pl.N)
		s.of[i], s.dist[i] = 1, d
		switch {
		case d < -onPlane:
			s.of[i] = -1
		case d <= onPlane:
			s.dist[i] = 0
		}
	}
	return s
}

// spread reports whether any corner of the faces is clearly behind and clearly
// in front of the plane.
func (s side) spread(faces []meshFace) (behind, front bool) {
	for _, f := range faces {
		for _, l := range f.loops {
			for _, v := range l {
				behind = behind || s.of[v] < 0
				front = front || s.dist[v] > 0
			}
		}
	}
	return behind, front
}

// cutEdge returns the corner where the edge from u to v, which has one end on
// either side, passes the plane.
func (m *mesh) cutEdge(s side, u, v int) int {
	switch {
	case s.dist[u] == 0:
		return u
	case s.dist[v] == 0:
		return v
	}
	if u > v {
		u, v = v, u
	}
	if w, ok := m.cuts[[2]int{u, v}]; ok {
		return w
	}
	t := s.dist[u] / (s.dist[u] - s.dist[v])
	w := len(m.pts)
	m.pts = append(m.pts, m.pts[u].Add(m.pts[v].Sub(m.pts[u]).Mul(t)))
	m.cuts[[2]int{u, v}] = w
	return w
}

// split cuts the faces by pl into the skins of what is behind and what is in
// front. Both get a face in the plane like lid, with its normal for behind and
// the opposite one for front.
func (m *mesh) split(faces []meshFace, pl Plane, lid meshFace) (behind, front []meshFace) {
	s := m.sides(pl)
	b, f := s.spread(faces)
	if !f {
		return faces, nil
	}
	if !b {
		return nil, faces
	}
	var rim [][2]int
	for _, face := range faces {
		c := crossing{m: m, s: s, along: face.n.Cross(pl.N)}
		for _, l := range face.loops {
			c.loop(l)
		}
		c.pair()
		back, fore := face, face
		back.loops, fore.loops = c.behind(), c.front()
		if len(back.loops) > 0 {
			behind = append(behind, back)
		}
		if len(fore.loops) > 0 {
			front = append(front, fore)
		}
		rim = append(rim, c.rim...)
	}
	lid.n = pl.N
	lid.loops = m.assemble(rim, pl.N)
	if len(lid.loops) == 0 {
		return behind, front
	}
	back := lid
	back.n = pl.N.Neg()
	back.loops = nil
	for _, l := range lid.loops {
		r := slices.Clone(l)
		slices.Reverse(r)
		back.loops = append(back.loops, r)
	}
	return append(behind, lid), append(front, back)
}

// A crossing gathers how the loops of one face pass a plane.
type crossing struct {
	m          *mesh
	s          side
	along      V3
	back, fore [][]int // loops wholly on one side
	runs       []run
	ups, downs []int // corners where a loop passes to the front, to behind
	toDown     []int // for each of ups the one of downs at the other end of the cut
	toUp       []int
	rim        [][2]int
}

// A run is a stretch of a loop on one side, with the corners where it enters
// and leaves; those are numbers in ups and downs.
type run struct {
	of         int8
	corners    []int
	start, end int
}

// loop sorts one loop into runs.
func (c *crossing) loop(l []int) {
	first := -1
	for i, v := range l {
		if c.s.of[v] != c.s.of[l[(i+len(l)-1)%len(l)]] {
			first = i
			break
		}
	}
	if first < 0 {
		if c.s.of[l[0]] < 0 {
			c.back = append(c.back, l)
		} else {
			c.fore = append(c.fore, l)
		}
		return
	}
	n := len(l)
	begin := c.pass(l[(first+n-1)%n], l[first])
	firstBegin := begin
	for i := 0; i < n; {
		v := l[(first+i)%n]
		r := run{of: c.s.of[v], start: begin}
		for i < n && c.s.of[l[(first+i)%n]] == r.of {
			r.corners = append(r.corners, l[(first+i)%n])
			i++
		}
		if i < n {
			begin = c.pass(l[(first+i-1)%n], l[(first+i)%n])
			r.end = begin
		} else {
			r.end = firstBegin
		}
		c.runs = append(c.runs, r)
	}
}

// pass notes where the edge from u to v changes sides and returns its number.
func (c *crossing) pass(u, v int) int {
	w := c.m.cutEdge(c.s, u, v)
	if c.s.of[v] > 0 {
		c.ups = append(c.ups, w)
		return len(c.ups) - 1
	}
	c.downs = append(c.downs, w)
	return len(c.downs) - 1
}

// pair finds which passings bound the same stretch of the cut. Along it, ways
// up and ways down take turns, so the nth of each belong together, even where
// several fall on one corner.
func (c *crossing) pair() {
	order := func(list []int) []int {
		idx := make([]int, len(list))
		for i := range idx {
			idx[i] = i
		}
		slices.SortStableFunc(idx, func(a, b int) int {
			return cmp.Compare(c.m.pts[list[a]].Dot(c.along), c.m.pts[list[b]].Dot(c.along))
		})
		return idx
	}
	up, down := order(c.ups), order(c.downs)
	c.toDown, c.toUp = make([]int, len(up)), make([]int, len(up))
	for i := range up {
		u, d := up[i], down[i]
		c.toDown[u], c.toUp[d] = d, u
		if a, b := c.downs[d], c.ups[u]; a != b {
			c.rim = append(c.rim, [2]int{a, b})
		}
	}
}

// behind returns the loops of the face behind the plane.
func (c *crossing) behind() [][]int {
	return append(c.back, c.strand(-1, c.downs, c.ups, c.toDown)...)
}

// front returns the loops of the face in front of the plane.
func (c *crossing) front() [][]int {
	return append(c.fore, c.strand(1, c.ups, c.downs, c.toUp)...)
}

// strand strings the runs on one side together along the cut.
func (c *crossing) strand(of int8, starts, ends, next []int) [][]int {
	at := make([]int, len(starts)) // the run that starts there
	var mine []int
	for i, r := range c.runs {
		if r.of == of {
			at[r.start] = i
			mine = append(mine, i)
		}
	}
	used := make([]bool, len(c.runs))
	var loops [][]int
	for _, i := range mine {
		var l []int
		add := func(v int) {
			if len(l) == 0 || l[len(l)-1] != v {
				l = append(l, v)
			}
		}
		for !used[i] {
			used[i] = true
			add(starts[c.runs[i].start])
			for _, v := range c.runs[i].corners {
				add(v)
			}
			add(ends[c.runs[i].end])
			i = at[next[c.runs[i].end]]
		}
		for len(l) > 1 && l[0] == l[len(l)-1] {
			l = l[:len(l)-1]
		}
		if len(l) > 2 {
			loops = append(loops, l)
		}
	}
	return loops
}

// assemble strings directed edges into loops that keep their area to the left
// about n. Edges that run both ways cancel. Where several leave a corner the
// sharpest left turn goes on, so that loops touching at a corner come apart.
func (m *mesh) assemble(edges [][2]int, n V3) [][]int {
	count := map[[2]int]int{}
	for _, e := range edges {
		if back := [2]int{e[1], e[0]}; count[back] > 0 {
			count[back]--
		} else {
			count[e]++
		}
	}
	out := map[int][]int{}
	var starts []int
	for _, e := range edges {
		if count[e] == 0 {
			continue
		}
		count[e]--
		if len(out[e[0]]) == 0 {
			starts = append(starts, e[0])
		}
		out[e[0]] = append(out[e[0]], e[1])
	}
	var loops [][]int
	for _, s := range starts {
		for len(out[s]) > 0 {
			if l := m.walk(out, s, n); len(l) > 2 {
				loops = append(loops, l)
			}
		}
	}
	return loops
}

// walk takes one loop out of the edges, beginning at corner s.
func (m *mesh) walk(out map[int][]int, s int, n V3) []int {
	second := out[s][0]
	out[s] = out[s][1:]
	l := []int{s}
	prev, at := s, second
	for {
		next := out[at]
		best, turn := -1, math.Inf(-1)
		if at == s {
			turn = m.turn(prev, at, second, n)
		}
		for i, v := range next {
			if a := m.turn(prev, at, v, n); a > turn {
				best, turn = i, a
			}
		}
		if best < 0 {
			return l
		}
		l = append(l, at)
		prev, at = at, next[best]
		out[prev] = slices.Delete(slices.Clone(next), best, best+1)
	}
}

// turn returns how far left the way from a by b to c turns, seen against n; a
// way straight back is the sharpest right turn.
func (m *mesh) turn(a, b, c int, n V3) float64 {
	u, v := m.pts[b].Sub(m.pts[a]), m.pts[c].Sub(m.pts[b])
	t := math.Atan2(u.Cross(v).Dot(n), u.Dot(v))
	if t > math.Pi-1e-9 {
		t = -math.Pi
	}
	return t
}
