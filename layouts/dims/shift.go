package dims

import (
	"planset/layouts/inspect"
	"planset/model/geom"
)

// A Shifted is a wish that is drawn By mm away from its automatic place, wherever
// that is. What it measures or points at stays. Runs, offsets, marks and balloons
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

// shift fixes the wishes that are to stand away from the places they were given
// in before, and reports whether there are any.
func shift(before, all []*task) bool {
	found := false
	for i, t := range before {
		if t.by == (geom.Pt{}) || t.chosen == nil || t.chosen.move == nil {
			continue
		}
		found = true
		o := t.chosen.move(t.by)
		o.close()
		fixed := all[i]
		fixed.fixed, fixed.rank, fixed.reserve = true, rankFixed, nil
		fixed.options = func(*scene) []option { return []option{o} }
	}
	return found
}

func moveQuad(q inspect.Quad, by geom.Pt) inspect.Quad {
	q.C = q.C.Add(by)
	return q
}

// moved is the note with its text and the knee of its leader somewhere else.
func (p setNote) moved(by geom.Pt) option {
	p.lead[1], p.lead[2] = p.lead[1].Add(by), p.lead[2].Add(by)
	p.text = moveQuad(p.text, by)
	p.pic = geom.Box{Min: p.pic.Min.Add(by), Max: p.pic.Max.Add(by)}
	return p.option(p.lead[1].Sub(p.lead[0]).Unit())
}

// moved is the span with its line farther out or in, and its text along it.
func (s setSpan) moved(by geom.Pt) option {
	s.d += by.Dot(s.v)
	s.quad = moveQuad(s.quad, by)
	if s.stem != nil {
		foot := s.stem[0].Add(s.v.Mul(by.Dot(s.v)))
		s.stem = []geom.Pt{foot, s.stem[1].Add(by), s.stem[2].Add(by)}
	}
	return s.option(0)
}

// moved is the angle with its text somewhere else.
func (a setAngle) moved(by geom.Pt) option {
	a.quad = moveQuad(a.quad, by)
	if a.stem != nil {
		a.stem = []geom.Pt{a.stem[0], a.stem[1].Add(by), a.stem[2].Add(by)}
	}
	return a.option(0)
}
