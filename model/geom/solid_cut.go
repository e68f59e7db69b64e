package geom

// Cutting pieces out of a mesh. The wood is cut by each plane of the tool in
// turn: what is outside the plane is put by, the rest goes on to the next
// plane. In the end the parts put by are glued together again: the faces that
// came apart are joined by dropping the edges they share both ways, and what
// the tool laid bare is what remains of the faces in its planes.

// A blade is one flat side of a tool; its normal points out of the tool.
type blade struct {
	Plane
	smooth int
}

// cutOff saws away what is in front of pl. Nothing left is an empty mesh.
func (m *mesh) cutOff(pl Plane, kind FaceKind) {
	lid := meshFace{kind: kind, src: m.nextSrc()}
	m.faces, _ = m.split(m.faces, pl, lid)
	m.tidy(len(m.pts))
}

func (m *mesh) nextSrc() int {
	n := 0
	for _, f := range m.faces {
		n = max(n, f.src+1)
	}
	return n
}

// carve takes away the wood inside the convex tool, except what is behind all
// the planes in spare, if there are any. Bare faces are Hollow where the tool
// made them and like spareKind where the spare planes did.
func (m *mesh) carve(tool, spare []blade, spareKind FaceKind) {
	first := m.nextSrc()
	old := len(m.pts)
	rest := m.faces
	var outs []meshFace
	for i, b := range tool {
		// Turned round, so that faces in the tool's own plane fall inside it
		// and leave no skin across a mouth or a floor that just comes through.
		lid := meshFace{kind: Hollow, smooth: b.smooth, src: first + i}
		var out []meshFace
		out, rest = m.split(rest, Plane{b.P, b.N.Neg()}, lid)
		if len(rest) == 0 {
			m.pts = m.pts[:old]
			m.cuts = map[[2]int]int{}
			return
		}
		outs = append(outs, out...)
	}
	if len(spare) == 0 {
		rest = nil
	}
	for i, b := range spare {
		lid := meshFace{kind: spareKind, smooth: b.smooth, src: first + len(tool) + i}
		rest, _ = m.split(rest, b.Plane, lid)
	}
	m.glue(append(outs, rest...), first)
	m.tidy(old)
}

// glue makes the skins in pieces one, in place of the faces of m. Faces
// numbered from first on were made by planes whose two sides may meet.
func (m *mesh) glue(pieces []meshFace, first int) {
	var list []int
	groups := map[int][]meshFace{}
	for _, f := range pieces {
		if len(groups[f.src]) == 0 {
			list = append(list, f.src)
		}
		groups[f.src] = append(groups[f.src], f)
	}
	m.faces = nil
	for _, src := range list {
		g := groups[src]
		f := g[0]
		if src < first && len(g) == 1 {
			f.loops = m.withCuts(f.loops)
			m.faces = append(m.faces, f)
			continue
		}
		var edges [][2]int
		for _, piece := range g {
			edges = append(edges, edgesOf(m.withCuts(piece.loops))...)
		}
		f.loops = m.assemble(edges, f.n)
		if len(f.loops) > 0 {
			m.faces = append(m.faces, f)
		}
	}
}

// withCuts returns the loops with every corner that their edges were cut at in
// some other piece.
func (m *mesh) withCuts(loops [][]int) [][]int {
	out := make([][]int, len(loops))
	for i, l := range loops {
		for j, v := range l {
			out[i] = append(out[i], v)
			out[i] = m.between(out[i], v, l[(j+1)%len(l)])
		}
	}
	return out
}

func (m *mesh) between(l []int, u, v int) []int {
	w, ok := m.cuts[[2]int{min(u, v), max(u, v)}]
	if !ok || w == u || w == v {
		return l
	}
	l = m.between(l, u, w)
	return m.between(append(l, w), w, v)
}

// tidy takes out corners numbered old or higher that lie within a straight
// edge, forgets corners no face uses and numbers the rest afresh.
func (m *mesh) tidy(old int) {
	near := make([][]int, len(m.pts))
	link := func(u, v int) {
		for _, w := range near[u] {
			if w == v {
				return
			}
		}
		near[u] = append(near[u], v)
	}
	for _, f := range m.faces {
		for _, e := range edgesOf(f.loops) {
			link(e[0], e[1])
			link(e[1], e[0])
		}
	}
	number := make([]int, len(m.pts))
	var pts []V3
	for v, n := range near {
		number[v] = -1
		if len(n) == 0 || len(n) == 2 && v >= old {
			continue
		}
		number[v] = len(pts)
		pts = append(pts, m.pts[v])
	}
	var faces []meshFace
	for i, f := range m.faces {
		f.src = i
		f.loops = renumber(f.loops, number)
		if len(f.loops) > 0 {
			faces = append(faces, f)
		}
	}
	m.pts, m.faces, m.cuts = pts, faces, map[[2]int]int{}
}

func renumber(loops [][]int, number []int) [][]int {
	var out [][]int
	for _, l := range loops {
		var r []int
		for _, v := range l {
			if number[v] >= 0 {
				r = append(r, number[v])
			}
		}
		if len(r) > 2 {
			out = append(out, r)
		}
	}
	return out
}
