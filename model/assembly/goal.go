package assembly

import (
	"math"

	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// goalRounds bounds the search for a goal: sixty halvings leave nothing of any
// range that furniture has.
const goalRounds = 60

// reachGoals chooses the sizes that goals ask for, one after the other, and
// returns all sizes to put in place of the file's.
func reachGoals(d *reading.Draft, opt Options, problems *source.List) (map[string]float64, bool) {
	sizes := map[string]float64{}
	for k, v := range opt.Sizes {
		sizes[k] = v
	}
	for i := range d.Goals {
		g := &goalSearch{d: d, opt: opt, goal: d.Goals[i], sizes: sizes, problems: problems}
		if _, fixed := opt.Sizes[g.goal.Choose.Text]; fixed {
			continue
		}
		if !g.run() {
			return sizes, false
		}
	}
	return sizes, true
}

// goalSearch moves one size until a value is what the author asked for.
type goalSearch struct {
	d        *reading.Draft
	opt      Options
	goal     reading.Goal
	sizes    map[string]float64
	problems *source.List
}

func (g *goalSearch) run() bool {
	start, ok := g.start()
	if !ok {
		return false
	}
	lo, hi, ok := g.bounds(start)
	if !ok {
		return false
	}
	flo, ok := g.miss(lo, g.problems)
	if !ok {
		return false
	}
	fhi, ok := g.miss(hi, g.problems)
	if !ok {
		return false
	}
	if flo*fhi > 0 {
		u := g.opt.Unit
		g.problems.Errorf(g.goal.At, "goal", "no %s from %s to %s reaches the goal %q", g.goal.Choose.Text, g.show(lo, u), g.show(hi, u), g.goal.Name).
			Fix("give another range with from and to, or choose another size")
		return false
	}
	for range goalRounds {
		mid := (lo + hi) / 2
		f, ok := g.miss(mid, g.problems)
		if !ok {
			return false
		}
		if f*flo > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	g.sizes[g.goal.Choose.Text] = (lo + hi) / 2
	return true
}

func (g *goalSearch) show(v float64, u expr.Unit) string {
	s := newSolver(g.d, g.opt, &source.List{})
	if s == nil {
		return ""
	}
	val, _ := s.numberValue(g.goal.Choose.Text, g.goal.Choose.At)
	val.V = v
	return val.Text(u)
}

// start is the value the file gives the size that is chosen.
func (g *goalSearch) start() (float64, bool) {
	quiet := &source.List{}
	s := newSolver(g.d, g.opt, quiet)
	if s == nil {
		g.problems.Append(quiet)
		return 0, false
	}
	if _, ok := s.numbers[g.goal.Choose.Text]; !ok {
		g.problems.Errorf(orAt(g.goal.Choose.At, g.goal.At), "goal", "goal %q chooses %q, which is no size", g.goal.Name, g.goal.Choose.Text).Suggest(g.goal.Choose.Text, s.order)
		return 0, false
	}
	if !g.goal.Value.Given() || !g.goal.Is.Given() {
		g.problems.Errorf(g.goal.At, "goal", "goal %q needs choose, value and is", g.goal.Name).Fix("value is what is looked at, is what it should be")
		return 0, false
	}
	v, ok := s.numberValue(g.goal.Choose.Text, g.goal.Choose.At)
	if !ok {
		g.problems.Append(quiet)
	}
	return v.V, ok
}

// bounds is the range searched: the author's, else half to one and a half times.
func (g *goalSearch) bounds(start float64) (lo, hi float64, ok bool) {
	s := newSolver(g.d, g.opt, g.problems)
	lo, hi = start*0.5, start*1.5
	for f, to := range map[*reading.Formula]*float64{&g.goal.From: &lo, &g.goal.To: &hi} {
		if !f.Given() {
			continue
		}
		v, ok := s.main(*f).eval(s, &scope{s: s})
		if !ok {
			return 0, 0, false
		}
		if v.Loose {
			mm, _ := v.AsLength(s.d.Unit)
			v = expr.Length(mm)
		}
		*to = v.V
	}
	return math.Min(lo, hi), math.Max(lo, hi), true
}

// miss is how far the value is from what it should be, with the size at x.
func (g *goalSearch) miss(x float64, problems *source.List) (float64, bool) {
	opt := g.opt
	opt.Sizes = map[string]float64{g.goal.Choose.Text: x}
	for k, v := range g.sizes {
		opt.Sizes[k] = v
	}
	opt.Sizes[g.goal.Choose.Text] = x
	s := newSolver(g.d, opt, problems)
	if s == nil {
		return 0, false
	}
	a, ok1 := s.main(g.goal.Value).eval(s, &scope{s: s})
	b, ok2 := s.main(g.goal.Is).eval(s, &scope{s: s})
	if !ok1 || !ok2 {
		return 0, false
	}
	if b.Loose && !a.Loose {
		mm, bad := b.AsLength(s.d.Unit)
		if bad == nil && a.Dim == (expr.Dim{Length: 1}) {
			b = expr.Length(mm)
		}
	}
	if a.Dim != b.Dim {
		g.problems.Errorf(g.goal.At, "goal", "goal %q compares %s with %s", g.goal.Name, a.Text(g.opt.Unit), b.Text(g.opt.Unit)).Fix("give value and is in the same kind of measure")
		return 0, false
	}
	return a.V - b.V, true
}
