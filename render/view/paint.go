package view

import (
	"slices"

	"planset/model/geom"
)

// A painter orders faces so that each covers what it hides. Faces that hide
// each other, because they cross or lie round in a ring, are cut in two.
type painter struct {
	*scene
	patches []face    // far to near to begin with; pieces of cut ones follow
	after   [][]int32 // by patch: those that must be painted after it
	before  [][]int32 // by patch: those that must be painted before it
	waits   []int     // by patch: how many of before are not painted yet
	done    []bool    // painted, or cut in pieces
	ready   []int32   // a heap, lowest index first
	cuts    int       // how many cuts may still be made
	scan    scan
}

// paint returns the faces that look at the eye, in painting order.
func (s *scene) paint(cam Camera) []Area {
	n := len(s.faces)
	p := painter{scene: s, cuts: 200 + n}
	p.patches = make([]face, n)
	for i := range s.faces {
		p.patches[n-1-i] = s.faces[i]
	}
	p.after, p.before = make([][]int32, n), make([][]int32, n)
	p.waits, p.done = make([]int, n), make([]bool, n)
	p.compareAll()
	areas := make([]Area, 0, n)
	for i := range p.patches {
		if p.waits[i] == 0 {
			p.push(int32(i))
		}
	}
	for left := n; left > 0; {
		if len(p.ready) == 0 {
			left += p.untie()
			continue
		}
		i := p.pop()
		p.done[i] = true
		left--
		areas = append(areas, s.area(&p.patches[i], cam))
		p.release(i)
	}
	return areas
}

// release lets go the patches that waited for i.
func (p *painter) release(i int32) {
	for _, j := range p.after[i] {
		if p.waits[j]--; p.waits[j] == 0 && !p.done[j] {
			p.push(j)
		}
	}
}

func (s *scene) area(f *face, cam Camera) Area {
	b := &s.bodies[f.body]
	a := Area{Body: b.id, Kind: b.mesh.solid.Faces[f.of].Kind, Loops: make([][]geom.Pt, len(f.loops))}
	a.N = cam.Right.Mul(f.n.X).Add(cam.Up.Mul(f.n.Y)).Add(cam.Toward.Mul(f.n.Z))
	n := 0
	for _, loop := range f.loops {
		n += len(loop)
	}
	room := make([]geom.Pt, n)
	for i, loop := range f.loops {
		a.Loops[i], room = room[:len(loop):len(loop)], room[len(loop):]
		for j, v := range loop {
			a.Loops[i][j] = flat(v)
		}
	}
	return a
}

// compareAll finds the order of every two faces that share a cell. Patches run
// the other way than the faces they are made of.
func (p *painter) compareAll() {
	last := int32(len(p.faces) - 1)
	seen := make([]int32, len(p.faces))
	var c cover
	for i := range p.faces {
		stamp := int32(i) + 1
		for cell := range c.cells(&p.cells, &p.faces[i]) {
			for _, j := range p.cells.in(cell) {
				if j >= stamp && seen[j] != stamp {
					seen[j] = stamp
					p.compare(last-int32(i), last-j)
				}
			}
		}
	}
}

// compare notes which of patches i and j, if any, must be painted first.
func (p *painter) compare(i, j int32) {
	f, g := &p.patches[i], &p.patches[j]
	if !f.reach.overlaps(&g.reach) || f.body == g.body && p.bodies[f.body].mesh.convex {
		return
	}
	// g may follow f when it lies wholly in front of f's plane, or f wholly
	// behind g's.
	fg := f.allOver(g, -Touch) || g.allUnder(f, Touch)
	gf := g.allOver(f, -Touch) || f.allUnder(g, Touch)
	if fg && gf {
		return
	}
	l := layers{needOver: !gf, needUnder: !fg}
	p.sides(f, g, &l)
	if !l.settled() {
		l.swapped = true
		p.sides(g, f, &l)
	}
	if l.under {
		p.arc(j, i)
	}
	if l.over {
		p.arc(i, j)
	}
}

func (p *painter) arc(first, then int32) {
	p.after[first] = append(p.after[first], then)
	p.before[then] = append(p.before[then], first)
	p.waits[then]++
}

// allOver reports whether no corner of g is less than d in front of f's plane.
func (f *face) allOver(g *face, d float64) bool {
	for _, loop := range g.loops {
		for _, v := range loop {
			if f.over(v) < d {
				return false
			}
		}
	}
	return true
}

// allUnder reports whether no corner of g is more than d in front of f's plane.
func (f *face) allUnder(g *face, d float64) bool {
	for _, loop := range g.loops {
		for _, v := range loop {
			if f.over(v) > d {
				return false
			}
		}
	}
	return true
}

// layers asks whether, where two faces lie on one another in the picture, the
// second is in front of the first anywhere, and behind it anywhere. The room
// they share is bounded by sides of one that run inside the other, and they are
// farthest apart somewhere on its border.
type layers struct {
	needOver, needUnder bool
	over, under         bool

	swapped bool // the sides looked at are those of the second face
	left    bool // and the face lies to the left of them
}

func (l *layers) settled() bool {
	return (l.over || !l.needOver) && (l.under || !l.needUnder)
}

// sides looks for answers along the sides of f that run inside g.
func (p *painter) sides(f, g *face, l *layers) {
	l.left = p.insideLeft(f)
	for _, loop := range f.loops {
		a := loop[len(loop)-1]
		for _, b := range loop {
			if p.side(a, b, g, l); l.settled() {
				return
			}
			a = b
		}
	}
}

func (p *painter) side(a, b geom.V3, g *face, l *layers) {
	if max(a.X, b.X) < g.reach.min.X || min(a.X, b.X) > g.reach.max.X ||
		max(a.Y, b.Y) < g.reach.min.Y || min(a.Y, b.Y) > g.reach.max.Y {
		return
	}
	// How far the second face is over the first at the ends of the side.
	ga, gb := g.over(a), g.over(b)
	if !l.swapped {
		ga, gb = -ga, -gb
	}
	if !(l.needOver && max(ga, gb) > Touch) && !(l.needUnder && min(ga, gb) < -Touch) {
		return
	}
	way := geom.Pt{X: b.X - a.X, Y: b.Y - a.Y}
	long := way.Len()
	if long < Touch {
		return
	}
	p.scan.picture(g, a, way.Mul(1/long))
	cuts := p.scan.inside(l.left)
	for k := 0; k+1 < len(cuts); k += 2 {
		lo, hi := max(cuts[k], 0), min(cuts[k+1], long)
		if hi-lo < Touch {
			continue
		}
		g0, g1 := ga+(gb-ga)*lo/long, ga+(gb-ga)*hi/long
		l.over = l.over || l.needOver && max(g0, g1) > Touch
		l.under = l.under || l.needUnder && min(g0, g1) < -Touch
	}
}

// insideLeft reports on which side of its loops f lies in the picture.
func (p *painter) insideLeft(f *face) bool {
	b := &p.bodies[f.body]
	return b.flips == (b.normals[f.of].Z < 0)
}

// untie breaks a ring of patches that wait for each other, and returns how many
// patches there are more than before.
func (p *painter) untie() int {
	ring := p.ring()
	if p.cuts > 0 {
		p.cuts--
		for k, j := range ring {
			i := ring[(k+1)%len(ring)] // i must be painted before j
			if p.cut(i, p.patches[j].n, p.patches[j].d) || p.cut(j, p.patches[i].n, p.patches[i].d) {
				return 1
			}
		}
		if p.halve(ring) {
			return 1
		}
	}
	// Nothing more to gain: paint the farthest of them first.
	first := slices.Min(ring)
	p.waits[first] = 0
	p.before[first] = nil
	p.push(first)
	return 0
}

// ring returns patches each of which waits for the next, and the last for the
// first.
func (p *painter) ring() []int32 {
	var path []int32
	at := int32(slices.Index(p.done, false))
	place := map[int32]int{}
	for {
		if k, ok := place[at]; ok {
			return path[k:]
		}
		place[at] = len(path)
		path = append(path, at)
		k := slices.IndexFunc(p.before[at], func(j int32) bool { return !p.done[j] })
		at = p.before[at][k]
	}
}

// halve cuts the largest patch of the ring across the middle: where planes do
// not tell patches apart, smaller ones do not reach round the ring any more.
func (p *painter) halve(ring []int32) bool {
	most, big := ring[0], 0.0
	for _, i := range ring {
		r := &p.patches[i].reach
		if side := max(r.max.X-r.min.X, r.max.Y-r.min.Y); side > big {
			most, big = i, side
		}
	}
	if big < 1 {
		return false
	}
	r := &p.patches[most].reach
	if r.max.X-r.min.X >= r.max.Y-r.min.Y {
		return p.cut(most, geom.V3{X: 1}, (r.min.X+r.max.X)/2)
	}
	return p.cut(most, geom.V3{Y: 1}, (r.min.Y+r.max.Y)/2)
}

// cut puts two pieces in the place of patch i, cut by the plane n·p = d, unless
// one of them would be less than a touch wide.
func (p *painter) cut(i int32, n geom.V3, d float64) bool {
	f := &p.patches[i]
	a, okA := f.part(n, d)
	b, okB := f.part(n.Neg(), -d)
	if !okA || !okB {
		return false
	}
	near := slices.Concat(p.before[i], p.after[i])
	slices.Sort(near)
	near = slices.Compact(near)
	p.done[i] = true
	for _, piece := range []face{a, b} {
		k := int32(len(p.patches))
		p.patches = append(p.patches, piece)
		p.after, p.before = append(p.after, nil), append(p.before, nil)
		p.waits, p.done = append(p.waits, 0), append(p.done, false)
		for _, j := range near {
			if !p.done[j] {
				p.compare(k, j)
			}
		}
		if p.waits[k] == 0 {
			p.push(k)
		}
	}
	p.release(i)
	return true
}

// part returns what of f lies on the side of the plane n·p = d that n points
// to. A loop cut in several pieces keeps them joined by sides without width.
func (f *face) part(n geom.V3, d float64) (face, bool) {
	out := *f
	out.loops = nil
	out.reach = nowhere()
	deep := 0.0
	for _, loop := range f.loops {
		var kept []geom.V3
		a := loop[len(loop)-1]
		da := n.Dot(a) - d
		for _, b := range loop {
			db := n.Dot(b) - d
			if (da < 0) != (db < 0) {
				kept = append(kept, a.Add(b.Sub(a).Mul(da/(da-db))))
			}
			if db >= 0 {
				kept = append(kept, b)
				deep = max(deep, db)
			}
			a, da = b, db
		}
		if len(kept) > 2 {
			out.loops = append(out.loops, kept)
		}
		for _, v := range kept {
			out.reach = out.reach.with(v)
		}
	}
	return out, deep > Touch && len(out.loops) > 0
}

func (p *painter) push(i int32) {
	p.ready = append(p.ready, i)
	k := len(p.ready) - 1
	for k > 0 && p.ready[k] < p.ready[(k-1)/2] {
		p.ready[k], p.ready[(k-1)/2] = p.ready[(k-1)/2], p.ready[k]
		k = (k - 1) / 2
	}
}

func (p *painter) pop() int32 {
	top, last := p.ready[0], len(p.ready)-1
	p.ready[0] = p.ready[last]
	p.ready = p.ready[:last]
	for k := 0; ; {
		least := k
		for c := 2*k + 1; c <= 2*k+2 && c < last; c++ {
			if p.ready[c] < p.ready[least] {
				least = c
			}
		}
		if least == k {
			return top
		}
		p.ready[k], p.ready[least] = p.ready[least], p.ready[k]
		k = least
	}
}
