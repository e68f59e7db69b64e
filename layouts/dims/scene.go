package dims

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"planset/layouts/inspect"
	"planset/layouts/sight"
	"planset/model/geom"
	"planset/render"
)

// Distances in millimetres. They follow the habits of ISO 129-1 and ASME
// Y14.5, quoted from memory of those standards.
const (
	clear     = 0.8  // from text to any line
	first     = 9.0  // first dimension line from the outline
	pitch     = 6.5  // between dimension lines
	gap       = 1.0  // from the outline to its extension line
	overshoot = 2.0  // of an extension line past its dimension line
	arrowLen  = 3.0  // three times its width
	pen       = 0.25 // render.Thin
)

const lanes = 60 // dimension lines on one side, at most

// An option is one way to draw a wish.
type option struct {
	lines []line
	texts []inspect.Quad
	base  float64 // price before anything is crossed
	draw  func() []render.Item
	move  func(by geom.Pt) option
	box   geom.Box
	span  *laid   // set for spans, which keep an order among themselves
	alone float64 // price with nothing but the drawing round it
	known bool    // alone has been worked out
}

func (o *option) close() {
	o.box = geom.NoBox()
	for _, l := range o.lines {
		o.box = o.box.Union(l.box)
	}
	for _, t := range o.texts {
		o.box = o.box.Union(t.Box())
	}
}

// add puts lines of one kind into o.
func (o *option) add(k kind, pts ...geom.Pt) {
	for i := 1; i < len(pts); i++ {
		o.lines = append(o.lines, newLine(pts[i-1], pts[i], k, pen/2))
	}
}

// A task is one wish or part of a wish on its way to a place.
type task struct {
	name    string
	group   string
	rank    int     // fixed marks first, free text last
	order   float64 // within a rank
	options func(s *scene) offer
	reserve []line // lines it will draw wherever it goes
	balloon *Balloon
	by      geom.Pt // how far it is to stand from its automatic place
	own     bool    // texts in it have places of their own to stand in
	fixed   bool    // has one place, whatever lies there
	shifts  bool    // options depend on what is placed, so they are not kept
	kept    [2]*offer
	chosen  *option
}

// choices returns the ways to draw t, cheapest first before anything is crossed.
func (s *scene) choices(t *task) *offer {
	wide := 0
	if s.wide {
		wide = 1
	}
	if t.kept[wide] != nil && !t.shifts {
		return t.kept[wide]
	}
	o := t.options(s)
	o.sort()
	t.kept[wide] = &o
	return &o
}

// A kept is a box to keep clear of, and the box that things near it reach into.
type kept struct {
	quad inspect.Quad
	near geom.Box
}

// A scene is a field and what stands in it.
type scene struct {
	field    *Field
	ink      grid
	kept     []kept
	placed   []*task
	reserved []*task
	seen     *sight.Map // which of the field's faces is seen where
	slopes   []slope
	rows     []ring
	points   []rowPoint // kept to be filled again
	wide     bool       // look at unusual places too
}

func newScene(f *Field) *scene {
	g := *f
	s := &scene{field: &g}
	lines, all := inkLines(f.Ink)
	s.ink = newGrid(lines, all)
	if g.Body == (geom.Box{}) || g.Body.Empty() {
		g.Body = all
	}
	for _, b := range f.Keep {
		s.kept = append(s.kept, kept{inspect.QuadOf(b), b.Grow(clear + 1)})
	}
	s.look(f.Faces)
	return s
}

// inkLines are the lines of a drawing, arcs in chords, and the box round them.
func inkLines(paths []render.Path) (lines []line, all geom.Box) {
	n := 0
	for _, p := range paths {
		n += len(p.Segs)
	}
	lines, all = make([]line, 0, n), geom.NoBox()
	add := func(a, b geom.Pt) {
		if l := newLine(a, b, ink, render.Outline.Width/2); finite(l.box) {
			lines = append(lines, l)
			all = all.Union(l.box)
		}
	}
	for _, p := range paths {
		for _, seg := range p.Segs {
			if seg.Turn == geom.Straight {
				add(seg.A, seg.B)
				continue
			}
			pts := inspect.Chords(seg)
			for i := 1; i < len(pts); i++ {
				add(pts[i-1], pts[i])
			}
		}
	}
	return lines, all
}

// finite reports whether b has a size: no coordinate is infinite or not a number.
func finite(b geom.Box) bool {
	return !math.IsInf(b.W()+b.H(), 0) && !math.IsNaN(b.W()+b.H()) && !b.Empty()
}

// price returns what o costs where things stand, never or more if it may not
// be drawn. Above limit it stops counting.
func (s *scene) price(o *option, limit float64) float64 {
	if !o.known {
		o.alone, o.known = s.alone(o, never), true
	}
	sum := o.alone
	for _, t := range s.placed {
		if sum >= limit {
			return sum
		}
		if t.chosen.box.Grow(clear + 1).Meets(o.box) {
			sum += between(o, t.chosen)
		}
	}
	for _, t := range s.reserved {
		for _, l := range t.reserve {
			if sum >= limit {
				return sum
			}
			sum += linesOn(o, l)
		}
	}
	return sum
}

// Ranks, in the order things are placed.
const (
	rankFixed   = iota // centre and break lines: they have one place
	rankSpan           // short spans before long ones
	rankRun            // running dimensions, outside the spans
	rankCorner         // datum, angles
	rankCallout        // free text
	rankBalloon
)

const rounds = 6 // of improvement, at most

// solve places the tasks.
func (s *scene) solve(all []*task) {
	order := slices.Clone(all)
	sort.SliceStable(order, func(i, j int) bool {
		if order[i].rank != order[j].rank {
			return order[i].rank < order[j].rank
		}
		return order[i].order < order[j].order
	})
	s.reserved = append(s.reserved, order...)
	var left []*task
	for _, t := range order {
		s.unreserve(t)
		if !s.place(t) {
			left = append(left, t)
		}
	}
	s.wide = true
	for round := range rounds {
		if len(left) == 0 {
			break
		}
		left = s.makeRoom(left, round)
	}
	s.wide = false
	s.polish()
	s.balloons(all)
}

func (s *scene) unreserve(t *task) {
	s.reserved = slices.DeleteFunc(s.reserved, func(u *task) bool { return u == t })
}

// place gives t its cheapest option and reports whether there is one.
func (s *scene) place(t *task) bool {
	if t.rank == rankBalloon {
		return true // balloons are placed together
	}
	best, price := s.best(t)
	if t.fixed && best == nil {
		best = s.choices(t).at(0)
	} else if best == nil || price >= never {
		return false
	}
	t.chosen = best
	s.placed = append(s.placed, t)
	return true
}

// best returns the cheapest option of t and its price.
func (s *scene) best(t *task) (*option, float64) {
	var best *option
	price := float64(never)
	all := s.choices(t)
	for i := range all.list {
		if all.list[i].base >= price {
			break
		}
		o := all.at(i)
		if p := s.price(o, price); p < price {
			best, price = o, p
		}
	}
	return best, price
}

// remove takes t out of the scene.
func (s *scene) remove(t *task) {
	s.placed = slices.DeleteFunc(s.placed, func(u *task) bool { return u == t })
	t.chosen = nil
}

// makeRoom tries to place what was left over by first taking other things out,
// and returns what is still left.
func (s *scene) makeRoom(left []*task, round int) []*task {
	var still []*task
	for _, t := range left {
		still = append(still, s.swap(t, round)...)
	}
	return still
}

// swap takes out what is freer than t, and in later rounds what is less free
// too, places t, and puts the others back in, each round in another order. If
// that leaves anything but one other thing out, all return to their places.
func (s *scene) swap(t *task, round int) []*task {
	before := slices.Clone(s.placed)
	chosen := make([]*option, len(before))
	var out []*task
	for i, u := range before {
		chosen[i] = u.chosen
		if u.rank != rankFixed && (u.rank >= t.rank || round >= rounds/2) {
			out = append(out, u)
		}
	}
	for _, u := range out {
		s.remove(u)
	}
	reorder(out, round)
	var lost []*task
	for _, u := range append([]*task{t}, out...) {
		if !s.place(u) {
			lost = append(lost, u)
		}
	}
	if len(lost) == 0 || len(lost) == 1 && lost[0] != t && lost[0].rank == rankCallout {
		return lost
	}
	for i, u := range before {
		u.chosen = chosen[i]
	}
	t.chosen = nil
	s.placed = before
	return []*task{t}
}

// reorder puts things of equal rank in another order each round.
func reorder(out []*task, round int) {
	slices.SortStableFunc(out, func(a, b *task) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.order, b.order))
	})
	for lo := 0; lo < len(out); {
		hi := lo
		for hi < len(out) && out[hi].rank == out[lo].rank && out[hi].order == out[lo].order {
			hi++
		}
		same := out[lo:hi]
		if round%2 == 1 {
			slices.Reverse(same)
		}
		turn := slices.Concat(same[round%len(same):], same[:round%len(same)])
		copy(same, turn)
		lo = hi
	}
}

// polish moves callouts and corner marks to better places now that all are known.
func (s *scene) polish() {
	for range rounds {
		moved := false
		for _, t := range slices.Clone(s.placed) {
			if t.rank < rankCorner {
				continue
			}
			was := t.chosen
			s.remove(t)
			old := s.price(was, never)
			t.chosen = was
			if best, p := s.best(t); best != nil && p < old-0.01 {
				t.chosen = best
				moved = true
			}
			s.placed = append(s.placed, t)
		}
		if !moved {
			return
		}
	}
}

// inTheWay reports whether t lies over something else.
func (s *scene) inTheWay(t *task) bool {
	all := s.placed
	s.placed = slices.DeleteFunc(slices.Clone(all), func(u *task) bool { return u == t })
	defer func() { s.placed = all }()
	return s.price(t.chosen, never) >= never
}

// finish draws what was placed, in the order of the wishes.
func (s *scene) finish(all []*task) (items []render.Item, used geom.Box, problems []string) {
	used = s.field.Body
	for _, t := range all {
		if t.chosen == nil {
			problems = append(problems, fmt.Sprintf("no clear place for %s", t.name))
			continue
		}
		used = used.Union(t.chosen.box)
		if t.fixed && s.inTheWay(t) {
			problems = append(problems, fmt.Sprintf("something is in the way of %s where it was moved to", t.name))
		}
		items = append(items, render.Group{Name: t.group, Items: t.chosen.draw()})
	}
	return items, used, problems
}
