package woodwork

import "planset/model/geom"

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

// mostSpots is how many points of one piece are offered.
const mostSpots = 13

// Spots returns points of a piece where it is seen, one on its largest face
// first: where a leader may end. It is empty when the piece is hidden.
func (p *Picture) Spots(id int) []geom.Pt {
	patches := p.Patches()
	var out []geom.Pt
	best := 0.0
	for i, a := range patches {
		if a.ID != id {
			continue
		}
		area := a.Area()
		for _, q := range a.inner() {
			switch {
			case covered(patches[i+1:], q):
			case area > best:
				best = area
				out = append([]geom.Pt{q}, out...)
			case len(out) < mostSpots:
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
	if has(loops, c) {
		out = append(out, c)
	}
	for i := 0; i < len(a.Loop); i += max(1, len(a.Loop)/6) {
		for _, t := range [...]float64{0.45, 0.75} {
			if q := c.Add(a.Loop[i].Sub(c).Mul(t)); has(loops, q) {
				out = append(out, q)
			}
		}
	}
	return out
}

// covered reports whether q lies under one of the patches.
func covered(over []Patch, q geom.Pt) bool {
	for i := range over {
		if a := &over[i]; a.box.Has(q) && has([][]geom.Pt{a.Loop}, q) {
			return true
		}
	}
	return false
}
