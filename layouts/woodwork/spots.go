package woodwork

import (
	"planset/layouts/sight"
	"planset/model/geom"
)

// A Patch is a face of a piece, or part of one, as it lies on the page.
type Patch struct {
	ID   int
	Loop []geom.Pt // its outside, closed
	Kind geom.FaceKind
	box  geom.Box
}

// Area returns the area of a patch in square millimetres of paper.
func (a Patch) Area() float64 {
	sum := 0.0
	for i, q := range a.Loop {
		sum += q.Cross(a.Loop[(i+1)%len(a.Loop)])
	}
	return max(sum, -sum) / 2
}

// Patches returns the faces that look at the eye, far ones first: of two that
// lie over each other the later one is seen.
func (p *Picture) Patches() []Patch {
	if p.patches != nil {
		return p.patches
	}
	for _, a := range p.drawing.Areas {
		if len(a.Loops) == 0 {
			continue
		}
		loop := make([]geom.Pt, len(a.Loops[0]))
		box := geom.NoBox()
		for i, q := range a.Loops[0] {
			loop[i] = p.put(q)
			box = box.With(loop[i])
		}
		p.patches = append(p.patches, Patch{a.Body, loop, a.Kind, box})
	}
	return p.patches
}

// What spots are looked for: no more of one piece, no nearer to each other, on a
// map with cells of this size. All mm of paper.
const (
	mostSpots  = 16
	spotsApart = 4.0
	spotCell   = 0.5
)

// Spots returns points of a piece where it is seen, well inside what is seen of
// it, the best first and the others spread over it: where a leader may end. It is
// empty when the piece is hidden.
func (p *Picture) Spots(id int) []geom.Pt {
	i, ok := p.byID[id]
	if !ok {
		return nil
	}
	if p.spots == nil {
		p.spots = p.Seen().Spots(len(p.pieces), mostSpots, spotsApart)
	}
	if len(p.spots[i]) == 0 { // too thin for the cells
		return p.slivers(id)
	}
	return p.spots[i]
}

// Seen maps which piece is seen where on the page, by its place among the pieces
// the picture was made of.
func (p *Picture) Seen() *sight.Map {
	if p.seen == nil {
		p.seen = sight.New(p.Box.Grow(1), spotCell)
		for _, a := range p.Patches() {
			p.seen.Fill([][]geom.Pt{a.Loop}, p.byID[a.ID])
		}
	}
	return p.seen
}

// slivers returns points of a piece that no cell of the map falls on.
func (p *Picture) slivers(id int) []geom.Pt {
	patches := p.Patches()
	var out []geom.Pt
	for i, a := range patches {
		if a.ID != id {
			continue
		}
		for _, q := range a.inner() {
			if len(out) < mostSpots && !covered(patches[i+1:], q) {
				out = append(out, q)
			}
		}
	}
	return out
}

// inner returns points inside a patch: its middle, and places toward its corners.
func (a Patch) inner() []geom.Pt {
	loops := [][]geom.Pt{a.Loop}
	c := geom.Pt{}
	for _, q := range a.Loop {
		c = c.Add(q.Mul(1 / float64(len(a.Loop))))
	}
	var out []geom.Pt
	if sight.Has(loops, c) {
		out = append(out, c)
	}
	for i := 0; i < len(a.Loop); i += max(1, len(a.Loop)/6) {
		for _, t := range [...]float64{0.45, 0.75} {
			if q := c.Add(a.Loop[i].Sub(c).Mul(t)); sight.Has(loops, q) {
				out = append(out, q)
			}
		}
	}
	return out
}

// covered reports whether q lies under one of the patches.
func covered(over []Patch, q geom.Pt) bool {
	for i := range over {
		if a := &over[i]; a.box.Has(q) && sight.Has([][]geom.Pt{a.Loop}, q) {
			return true
		}
	}
	return false
}
