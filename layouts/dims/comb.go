package dims

import (
	"cmp"
	"math"
	"slices"

	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

// A tooth is one line of a comb with its text at the end.
type tooth struct {
	from  geom.Pt // where the line starts, or has an arrow
	at    geom.Pt // the point measured
	ring  float64 // of the hole round at
	words words
	quiet bool
	by    geom.Pt // how far the text is to stand from its automatic place
	s, d  float64 // of at, along and out
}

// A comb is many parallel lines with their texts in a row at the ends: running
// dimensions or offsets.
type comb struct {
	frame
	teeth   []tooth // in the order they are along the axis
	datum   float64
	running bool // has a dimension line from the datum; else lines across the part
	side    Side
}

// A rowing is one way to put a comb's texts: turned or level, on one row or two.
type rowing struct {
	turned bool
	rows   int
	price  float64
	most   float64 // how far a text may stand beside its line
}

// rowings in the order they are liked.
func (c *comb) rowings() []rowing {
	if c.side == LeftOf || c.side == RightOf {
		return []rowing{{rows: 1, most: 40}}
	}
	return []rowing{
		{rows: 1, most: 7},
		{rows: 2, price: 6, most: 6},
		{rows: 1, price: 12, most: 30, turned: true},
		{rows: 2, price: 30, most: 30},
	}
}

func (r Run) tasks(f *Field) []task {
	if len(r.Stops) == 0 {
		return nil
	}
	c := newComb(r.Side, true)
	for _, st := range r.Stops {
		ring := max(st.Ring, 0)
		c.teeth = append(c.teeth, tooth{
			from: st.At.Add(c.v.Mul(ring + gap)), at: st.At, ring: ring, words: st.words(), quiet: st.Quiet, by: st.By,
		})
	}
	return []task{c.task(f, "the running dimensions "+sideName(r.Side)+" from "+r.Stops[0].Text+" to "+r.Stops[len(r.Stops)-1].Text)}
}

func (o Offsets) tasks(f *Field) []task {
	if len(o.Stations) == 0 {
		return nil
	}
	c := newComb(o.Side, false)
	for _, st := range o.Stations {
		c.teeth = append(c.teeth, tooth{from: st.Foot, at: st.At, words: st.words(), quiet: st.Quiet})
	}
	return []task{c.task(f, "the offsets "+sideName(o.Side))}
}

func newComb(side Side, running bool) *comb {
	if side < Below || side > RightOf {
		side = Below
	}
	return &comb{frame: frames[side], running: running, side: side}
}

func sideName(s Side) string {
	if s < Below || s > Along {
		s = Below
	}
	return [...]string{"below", "above", "on the left", "on the right", "along an edge"}[s]
}

func (c *comb) task(f *Field, name string) task {
	for i := range c.teeth {
		c.teeth[i].s, c.teeth[i].d = c.of(c.teeth[i].at)
	}
	c.datum = c.teeth[0].s
	slices.SortStableFunc(c.teeth, func(a, b tooth) int {
		return cmp.Or(cmp.Compare(a.s, b.s), cmp.Compare(a.d, b.d))
	})
	if c.running {
		// The line of the inmost of a pair passes the others.
		c.teeth = slices.CompactFunc(c.teeth, func(a, b tooth) bool {
			return math.Abs(a.s-b.s) < 1e-3 && a.words.key == b.words.key && slices.Equal(a.words.lines, b.words.lines)
		})
	}
	t := task{name: name, group: "dim", rank: rankRun, options: c.options, own: c.ownMoves()}
	edge := c.edge(f.Body)
	if c.running {
		for _, th := range c.teeth {
			t.reserve = append(t.reserve, newLine(th.from, c.at(th.s, edge+60), extLine, pen/2))
		}
	} else {
		t.rank = rankSpan
		t.order = -1
	}
	return t
}

func (c *comb) options(s *scene) offer {
	edge, room := c.edge(s.field.Body), c.edge(s.field.Box)
	start, step := first, pitch
	if !c.running {
		start, step = overshoot, 2
	}
	var opts []option
	for k := 0; k < lanes && edge+start+float64(k)*step < room; k++ {
		d := edge + start + float64(k)*step
		for _, r := range c.rowings() {
			if o, ok := c.build(s, r, d); ok {
				o.base += r.price + float64(k)*step*0.7
				opts = append(opts, o)
			}
		}
	}
	return ready(opts)
}

// A set comb is a comb with a place for everything.
type setComb struct {
	*comb
	rows   rowing
	body   geom.Box  // of the drawing
	box    geom.Box  // nothing is drawn outside
	d      float64   // of the dimension line, or where the lines end
	spots  []float64 // of the texts along the axis
	jog    float64   // how far out the slanted pieces reach
	starts []float64 // how far out each text starts
	angle  float64
	ways   [][]geom.Pt
	quads  []inspect.Quad
}

// build lays c out with its line at d.
func (c *comb) build(s *scene, r rowing, d float64) (option, bool) {
	sc := setComb{comb: c, rows: r, body: s.field.Body, box: s.field.Box, d: d}
	if r.turned {
		sc.angle = math.Pi / 2
	}
	lo, _ := c.of(s.field.Box.Min)
	hi, _ := c.of(s.field.Box.Max)
	worst, ok := sc.spread(r, lo, hi)
	if !ok || worst > r.most {
		return option{}, false
	}
	sc.reach(worst)
	return sc.option(worst), true
}

// option is the comb as it stands.
func (c setComb) option(base float64) option {
	n := len(c.teeth)
	o := option{base: base, lines: make([]line, 0, 3*n+1), texts: make([]inspect.Quad, 0, n)}
	c.ways, c.quads = make([][]geom.Pt, 0, n), make([]inspect.Quad, 0, n)
	for i := range c.teeth {
		w, q := c.way(i), c.quad(i)
		o.add(extLine, w...)
		c.ways, c.quads = append(c.ways, w), append(c.quads, q)
		o.texts = append(o.texts, q)
	}
	c.heads(&o)
	o.draw, o.move = c.items, c.moved
	return o
}

// extent returns how much room text i takes along the axis and outward.
func (c *setComb) extent(i int) (along, out float64) {
	sz := c.teeth[i].words.size()
	if (c.side == Below || c.side == Above) == (c.angle == 0) {
		return sz.W, sz.H
	}
	return sz.H, sz.W
}

// Distances along a row of texts, so that "0" and "3 1⁄2" do not read as
// "03 1⁄2", nor a line before figures as the figure 1.
const (
	wordsApart = 2.6
	lineApart  = 2.2
)

// spread finds where the texts go along the axis, and how far the worst is
// from its line. On two rows, odd texts stand in the second and their lines
// pass between the texts of the first.
func (c *setComb) spread(r rowing, lo, hi float64) (worst float64, ok bool) {
	n := len(c.teeth)
	want := make([]float64, n)
	half := make([]float64, n)
	for i, th := range c.teeth {
		want[i] = th.s
		along, _ := c.extent(i)
		half[i] = along / 2
	}
	apart := 1.5
	if level := c.side == Below || c.side == Above; level == (c.angle == 0) && level {
		apart = wordsApart
	}
	between := func(i, j int) float64 {
		if r.rows == 1 || (j-i)%2 == 0 {
			return half[i] + half[j] + apart
		}
		first := i
		if i%2 == 1 {
			first = j
		}
		return half[first] + lineApart
	}
	c.spots, ok = settle(want, half, between, [2]float64{lo, hi})
	for i := range c.spots {
		worst = math.Max(worst, math.Abs(c.spots[i]-want[i]))
	}
	return worst, ok
}

// reach finds how far out the slanted pieces and the rows of text are.
func (c *setComb) reach(worst float64) {
	over := overshoot
	if !c.running {
		over = 0
	}
	if worst > 0.05 {
		c.jog = math.Min(math.Max(worst*0.6, 2.5), 8)
	}
	row := c.d + over + c.jog + clear + pen
	c.starts = make([]float64, len(c.teeth))
	for first := range c.rows.rows {
		near, deepest := 0.0, 0.0
		for i := first; i < len(c.teeth); i += c.rows.rows {
			near = math.Max(near, c.toBaseline(i))
		}
		for i := first; i < len(c.teeth); i += c.rows.rows {
			c.starts[i] = row + near - c.toBaseline(i)
			_, out := c.extent(i)
			deepest = math.Max(deepest, c.starts[i]+out)
		}
		row = deepest + clear + 0.4
	}
}

// toBaseline returns how far the place of text i reaches from its baseline
// toward the part, so that a row with a boxed text keeps one baseline. Texts
// that are turned, or stand beside a part, all start together.
func (c *setComb) toBaseline(i int) float64 {
	w := c.teeth[i].words
	switch {
	case c.angle != 0:
		return 0
	case c.side == Below:
		return w.size().H/2 + w.mid()
	case c.side == Above:
		return w.size().H/2 - w.mid()
	}
	return 0
}

// way returns the extension line of tooth i, from the part to its text.
func (c *setComb) way(i int) []geom.Pt {
	th := c.teeth[i]
	end := c.starts[i] - clear - pen
	knee := end
	if c.jog > 0 {
		knee = c.d
		if c.running {
			knee += overshoot
		}
	}
	pts := []geom.Pt{th.from, c.at(th.s, knee)}
	if c.jog > 0 {
		pts = append(pts, c.at(c.spots[i], knee+c.jog))
		if end > knee+c.jog+1e-9 {
			pts = append(pts, c.at(c.spots[i], end))
		}
	}
	return pts
}

// quad returns the place of text i. Texts in a row share their baseline.
func (c *setComb) quad(i int) inspect.Quad {
	w := c.teeth[i].words
	_, out := c.extent(i)
	return w.quad(c.at(c.spots[i], c.starts[i]+out/2), c.angle)
}

// heads adds the dimension line and the arrowheads.
func (c *setComb) heads(o *option) {
	if !c.running {
		for _, th := range c.teeth {
			o.addArrow(dimLine, th.at, th.at.Sub(th.from))
		}
		return
	}
	n := len(c.teeth)
	o.add(dimLine, c.at(math.Min(c.datum, c.teeth[0].s), c.d), c.at(math.Max(c.datum, c.teeth[n-1].s), c.d))
}

// items draws the comb.
func (c *setComb) items() []render.Item {
	var lines, quiet, solid []render.Path
	for i, th := range c.teeth {
		if p := render.Lines(c.ways[i]...); th.quiet {
			quiet = append(quiet, p)
		} else {
			lines = append(lines, p)
		}
	}
	if c.running {
		l, s := c.ruler()
		lines, solid = append(lines, l...), append(solid, s...)
	} else {
		for _, th := range c.teeth {
			dir := th.at.Sub(th.from)
			solid = append(solid, arrow(th.at, dir))
			if dir.Len() > 2*arrowLen+2 {
				solid = append(solid, arrow(th.from, dir.Mul(-1)))
			}
		}
	}
	var items []render.Item
	if len(quiet) > 0 {
		items = append(items, render.Stroke{Paths: quiet, Pen: render.Ghost})
	}
	items = append(items, thin(lines...))
	if len(solid) > 0 {
		items = append(items, black(solid...))
	}
	for i, th := range c.teeth {
		items = append(items, th.words.draw(c.quads[i].C, c.angle))
	}
	return items
}

// ruler returns the dimension line with a circle at the datum and an arrowhead
// at each stop; where stops are too close for arrowheads a dot takes their place.
func (c *setComb) ruler() (lines, solid []render.Path) {
	const ring, dot = 0.9, 0.55
	n := len(c.teeth)
	lo, hi := c.teeth[0].s, c.teeth[n-1].s
	if lo < c.datum-ring {
		lines = append(lines, render.Lines(c.at(lo, c.d), c.at(c.datum-ring, c.d)))
	}
	if hi > c.datum+ring {
		lines = append(lines, render.Lines(c.at(c.datum+ring, c.d), c.at(hi, c.d)))
	}
	lines = append(lines, render.Circle(c.at(c.datum, c.d), ring))
	for i, th := range c.teeth {
		from, dir := c.datum+ring, c.u
		if i > 0 && th.s > c.datum {
			from = math.Max(from, c.teeth[i-1].s)
		}
		if th.s < c.datum {
			from, dir = c.datum-ring, c.u.Mul(-1)
			if i+1 < n {
				from = math.Min(from, c.teeth[i+1].s)
			}
		}
		switch room := math.Abs(th.s - from); {
		case math.Abs(th.s-c.datum) < 1e-6:
		case room < arrowLen+0.6:
			solid = append(solid, render.Circle(c.at(th.s, c.d), dot))
		default:
			solid = append(solid, arrow(c.at(th.s, c.d), dir))
		}
	}
	return lines, solid
}
