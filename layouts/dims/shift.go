package dims

import (
	"math"
	"slices"

	"planset/layouts/inspect"
	"planset/model/geom"
)

// A Shifted is a wish that is drawn By mm away from its automatic place, wherever
// that is. What it measures or points at stays. A row of running dimensions or
// offsets goes outward or inward as a whole; one that would come to lie in the
// far half of the drawing, or beyond, stands on its other side, on the paper. Marks and balloons
// have one place and do not shift.
type Shifted struct {
	Wish
	By geom.Pt
}

func (w Shifted) tasks(f *Field) []task {
	all := w.Wish.tasks(f)
	for i := range all {
		all[i].by = w.By
	}
	return all
}

// asked reports whether any wish is to stand away from its automatic place.
func asked(all []*task) bool {
	return slices.ContainsFunc(all, func(t *task) bool { return t.by != (geom.Pt{}) || t.own })
}

// shift fixes the wishes that are to stand away from the places they were given
// in before, and reports whether there are any.
func shift(before, all []*task) bool {
	found := false
	for i, t := range before {
		if t.by == (geom.Pt{}) && !t.own || t.chosen == nil || t.chosen.move == nil {
			continue
		}
		found = true
		o := t.chosen.move(t.by)
		o.close()
		fixed := all[i]
		fixed.fixed, fixed.rank, fixed.reserve = true, rankFixed, nil
		fixed.options = func(*scene) offer { return ready([]option{o}) }
	}
	return found
}

func moveQuad(q inspect.Quad, by geom.Pt) inspect.Quad {
	q.C = q.C.Add(by)
	return q
}

// moved is the note with its text and the knee of its leader somewhere else.
func (n *setNote) moved(by geom.Pt) option {
	p := *n
	p.lead[1], p.lead[2] = p.lead[1].Add(by), p.lead[2].Add(by)
	p.text = moveQuad(p.text, by)
	p.pic = geom.Box{Min: p.pic.Min.Add(by), Max: p.pic.Max.Add(by)}
	return p.option(p.lead[1].Sub(p.lead[0]).Unit())
}

// moved is the span with its line farther out or in, and its text along it.
func (q *setSpan) moved(by geom.Pt) option {
	s := *q
	s.d += by.Dot(s.v)
	s.quad = moveQuad(s.quad, by)
	if s.stem != nil {
		foot := s.stem[0].Add(s.v.Mul(by.Dot(s.v)))
		s.stem = []geom.Pt{foot, s.stem[1].Add(by), s.stem[2].Add(by)}
	}
	return s.option()
}

// ownMoves reports whether texts of c are to stand away from their places.
func (c *comb) ownMoves() bool {
	return slices.ContainsFunc(c.teeth, func(t tooth) bool { return t.by != (geom.Pt{}) })
}

// moved is the comb with its line farther out or in, or on the other side, and
// with those texts shifted that have places of their own.
func (c setComb) moved(by geom.Pt) option {
	c.d += by.Dot(c.v)
	near, far := -c.opposite().edge(c.body), c.edge(c.body)
	turned := c.d < (near+far)/2
	if turned {
		c.d = math.Max(-c.d, first-near)
		c.turnRound()
	}
	worst := 0.0
	c.spots = slices.Clone(c.spots)
	for i, t := range c.teeth {
		c.spots[i] += t.by.Dot(c.u)
		worst = math.Max(worst, math.Abs(c.spots[i]-t.s))
	}
	c.reach(worst)
	if over := c.outmost() - c.edge(c.box); turned && over > 0 {
		c.d = math.Max(c.d-over, first-near)
		c.reach(worst)
	}
	for i, t := range c.teeth {
		c.starts[i] += t.by.Dot(c.v)
	}
	return c.option(0)
}

// outmost is how far out the texts of c reach.
func (c *setComb) outmost() float64 {
	most := c.d
	for i := range c.teeth {
		_, out := c.extent(i)
		most = math.Max(most, c.starts[i]+out)
	}
	return most
}

// opposite is the frame of the other side of the drawing.
func (f frame) opposite() frame { return frame{f.u, f.v.Mul(-1)} }

// turnRound makes c a comb of the other side. Its lines begin on the other side
// of what they measure.
func (c *setComb) turnRound() {
	other := *c.comb
	other.frame = c.opposite()
	other.side = [...]Side{Below: Above, Above: Below, LeftOf: RightOf, RightOf: LeftOf}[c.side]
	other.teeth = slices.Clone(c.teeth)
	for i := range other.teeth {
		t := &other.teeth[i]
		t.d = -t.d
		if c.running {
			t.from = t.at.Add(other.v.Mul(t.ring + gap))
		} else {
			t.from, t.at = t.at, t.from
		}
	}
	c.comb = &other
}

// moved is the angle with its text somewhere else.
func (a setAngle) moved(by geom.Pt) option {
	a.quad = moveQuad(a.quad, by)
	if a.stem != nil {
		a.stem = []geom.Pt{a.stem[0], a.stem[1].Add(by), a.stem[2].Add(by)}
	}
	return a.option()
}
