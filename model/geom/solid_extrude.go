package geom

import (
	"errors"
	"fmt"
	"math"
)

// Solid returns the skin of b in its own frame. Arcs become facets no farther
// than chord from them. The outline is raised to the thickness first, then come
// rounds, cuts, recesses and bores, in the order they are listed; a round thus
// follows the arris of the plain outline, not that of a bevel.
//
// A bore may go in any direction, come out anywhere and break an edge; the wood
// it starts in may lie up to two diameters behind its mouth, so a slanted
// pocket bore opens its face properly. It is an error when the outline is not
// valid, a size is not positive or nothing is left.
func (b Board) Solid(chord float64) (*Solid, error) {
	if !(chord > 0) || !(b.Thick > reach) {
		return nil, errors.New("a solid needs a positive thickness and chord")
	}
	if err := b.Outline.Valid(); err != nil {
		return nil, err
	}
	m, smooth := extrude(b.Outline, b.Thick, chord)
	for i, r := range b.Rounds {
		smooth++
		if err := m.round(b, r, chord, smooth); err != nil {
			return nil, fmt.Errorf("round %d: %w", i+1, err)
		}
	}
	for _, pl := range b.Cuts {
		pl.N = pl.N.Unit()
		m.cutOff(pl, sideKind(pl.N))
	}
	for i, r := range b.Recesses {
		var err error
		if smooth, err = m.recess(b, r, chord, smooth); err != nil {
			return nil, fmt.Errorf("recess %d: %w", i+1, err)
		}
	}
	for i, d := range b.Bores {
		smooth++
		if err := m.bore(d, chord, smooth); err != nil {
			return nil, fmt.Errorf("bore %d: %w", i+1, err)
		}
	}
	if len(m.faces) == 0 {
		return nil, errors.New("the cuts leave no wood")
	}
	m.settle()
	return m.solid(), nil
}

// sideKind returns what a face of a board is by its normal in the board's frame.
func sideKind(n V3) FaceKind {
	switch {
	case math.Abs(n.X) > 0.7:
		return End
	case math.Abs(n.Z) > 0.9:
		return Flat
	}
	return Side
}

// extrude raises the outline to the thickness and returns how many numbers for
// smooth surfaces it used.
func extrude(o Outline, thick, chord float64) (*mesh, int) {
	m := &mesh{cuts: map[[2]int]int{}}
	top := meshFace{n: V3{0, 0, 1}, kind: Flat}
	bottom := meshFace{n: V3{0, 0, -1}, kind: Flat, src: 1}
	flat := o.Flatten(chord)
	n := len(flat)
	var up, down []int
	for i, p := range flat {
		m.pts = append(m.pts, V3{p.X, p.Y, 0}, V3{p.X, p.Y, thick})
		up = append(up, 2*i+1)
		down = append(down, 2*(n-1-i))
	}
	top.loops, bottom.loops = [][]int{up}, [][]int{down}
	m.faces = append(m.faces, top, bottom)
	smooth, i := 0, 0
	for k, s := range o {
		pieces := 1
		curve := 0
		if s.Turn != Straight {
			pieces = facets(s.R, s.Sweep(), chord)
			if k == 0 || !smoothArcs(o[k-1], s) {
				smooth++
			}
			curve = smooth
		}
		for range pieces {
			j := (i + 1) % n
			d := flat[j].Sub(flat[i]).Unit()
			out := V3{d.Y, -d.X, 0}
			m.faces = append(m.faces, meshFace{
				loops: [][]int{{2 * i, 2 * j, 2*j + 1, 2*i + 1}},
				n:     out, kind: sideKind(out), smooth: curve, src: len(m.faces),
			})
			i++
		}
	}
	if last := o[len(o)-1]; smooth > 1 && smoothArcs(last, o[0]) {
		// The curve that the outline begins in the middle of is one.
		for k := range m.faces {
			if m.faces[k].smooth == smooth {
				m.faces[k].smooth = 1
			}
		}
	}
	return m, smooth
}

// smoothArcs reports whether s runs into t without a corner and both are arcs,
// so that they look like one surface.
func smoothArcs(s, t Seg) bool {
	return s.Turn != Straight && t.Turn != Straight && s.Tangent(1).Sub(t.Tangent(0)).Len() < 1e-3
}

// round works one rounded arris.
func (m *mesh) round(b Board, r Round, chord float64, smooth int) error {
	along := r.B.Sub(r.A)
	if !(r.R > reach) || along.Len() <= reach {
		return errors.New("a rounded arris needs a radius and a length")
	}
	d := along.Unit()
	s := V3{d.Y, -d.X, 0}
	f, z := V3{0, 0, -1}, 0.
	if r.Top {
		f, z = V3{0, 0, 1}, b.Thick
	}
	from, to := b.Outline.overrun(r)
	a, e := r.A.Sub(d.Mul(from)), r.B.Add(d.Mul(to))
	arris := V3{a.X, a.Y, z}
	axis := arris.Sub(s.Add(f).Mul(r.R))
	x := V3{d.X, d.Y, 0}
	tool := []blade{
		{Plane{axis, s.Neg()}, 0},
		{Plane{axis, f.Neg()}, 0},
		{Plane{arris, s}, 0},
		{Plane{arris, x.Neg()}, 0},
		{Plane{V3{e.X, e.Y, z}, x}, 0},
	}
	// Tangent planes between the side and the face, which are tangents too.
	step := 2 * math.Acos(r.R/(r.R+chord))
	n := max(3, int(math.Ceil(math.Pi/2/step)))
	var spare []blade
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(float64(i) * math.Pi / 2 / float64(n))
		t := s.Mul(cos).Add(f.Mul(sin))
		spare = append(spare, blade{Plane{axis.Add(t.Mul(r.R)), t}, smooth})
	}
	m.carve(tool, spare, sideKind(s))
	return nil
}

// overrun returns how far a round must run on past its ends: at a corner where
// the outline turns away to the left there is still wood to take off a little
// farther on.
func (o Outline) overrun(r Round) (from, to float64) {
	d := r.B.Sub(r.A).Unit()
	past := func(cos, sin float64) float64 {
		if sin <= 0 || cos <= 0 {
			return 0
		}
		return min(4*r.R, r.R*sin/cos)
	}
	for i, s := range o {
		n := o[(i+1)%len(o)]
		if u := s.Tangent(1); Same(n.A, r.A) {
			from = past(u.Dot(d), u.Cross(d))
		}
		if v := n.Tangent(0); Same(n.A, r.B) {
			to = past(d.Dot(v), d.Cross(v))
		}
	}
	return from, to
}

// solid returns m with its loops sorted into outsides and the holes in them.
func (m *mesh) solid() *Solid {
	s := &Solid{}
	for _, f := range m.faces {
		loops := make([][]V3, len(f.loops))
		for i, l := range f.loops {
			loops[i] = m.points(l)
		}
		for _, g := range nest(loops, f.n) {
			s.Faces = append(s.Faces, Face{Loops: g, N: f.n, Kind: f.kind, Smooth: f.smooth})
		}
	}
	return s
}

// nest sorts the loops in one plane into groups of an outside and its holes.
func nest(loops [][]V3, n V3) [][][]V3 {
	if len(loops) == 1 {
		return [][][]V3{loops}
	}
	var groups [][][]V3
	var holes [][]V3
	for _, l := range loops {
		if loopArea(l).Dot(n) > 0 {
			groups = append(groups, [][]V3{l})
		} else {
			holes = append(holes, l)
		}
	}
	fr := frameOf(n)
	for _, h := range holes {
		p := fr.flat(h[0].Add(h[1]).Mul(0.5))
		best, size := -1, math.Inf(1)
		for i, g := range groups {
			a := loopArea(g[0]).Dot(n)
			if a < size && inside(fr.sides(g[:1]), p) {
				best, size = i, a
			}
		}
		if best < 0 {
			groups = append(groups, [][]V3{h})
			continue
		}
		groups[best] = append(groups[best], h)
	}
	return groups
}

// loopArea returns the vector area of a loop: its length is the area, and it
// points to where the loop runs anticlockwise.
func loopArea(l []V3) V3 {
	var sum V3
	for i := 1; i+1 < len(l); i++ {
		sum = sum.Add(l[i].Sub(l[0]).Cross(l[i+1].Sub(l[0])))
	}
	return sum.Mul(0.5)
}

// A frame lays a plane through the origin flat.
type frame struct{ u, v V3 }

// frameOf returns a frame in which loops anticlockwise about n stay so.
func frameOf(n V3) frame {
	u := V3{1, 0, 0}
	if math.Abs(n.X) > 0.6 {
		u = V3{0, 1, 0}
	}
	u = u.Sub(n.Mul(u.Dot(n))).Unit()
	return frame{u, n.Cross(u)}
}

func (f frame) flat(p V3) Pt { return Pt{p.Dot(f.u), p.Dot(f.v)} }

// sides returns the edges of the loops, laid flat.
func (f frame) sides(loops [][]V3) []Seg {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	out := make([]Seg, 0, n)
	for _, l := range loops {
		if len(l) == 0 {
			continue
		}
		first := f.flat(l[0])
		a := first
		for _, p := range l[1:] {
			b := f.flat(p)
			out = append(out, Line(a, b))
			a = b
		}
		out = append(out, Line(a, first))
	}
	return out
}
