package tiles

import (
	"math"
	"slices"

	"planset/model/expr"
	"planset/model/geom"
)

// Distances along an axis, in mm.
const (
	run    = 22.0  // of plain stretch printed beyond a shaped end, so that a ruler can be laid to it
	least  = 30.0  // shortest stretch worth leaving out
	worth  = 120.0 // a stretch left out though it saves no sheet by itself
	beyond = 30.0  // most paper left beyond the end of a part when plain wood could be shown instead
)

// A span is a stretch of one axis of the frame.
type span struct{ lo, hi float64 }

func (s span) len() float64 { return s.hi - s.lo }

// A cell is one row or column of windows; a skipped one holds nothing but a
// plain stretch.
type cell struct {
	span
	skip bool
}

// A chain is a run of needed spans that is taped together: n windows of one
// size, each overlapping the next.
type chain struct {
	span
	n     int
	start float64 // of the first window
}

// An axis places windows of size w along one axis.
type axis struct {
	w     float64
	needs []span // shaped stretches, sorted, apart
	avoid []span // holes and corners, better not cut by a seam
	fold  pin
}

// cover returns the fewest windows that show every needed span, in order, with
// the skipped stretches between them.
func (a axis) cover() []cell {
	chains := a.merge(a.chains())
	a.settle(chains)
	var cells []cell
	for i, c := range chains {
		if i > 0 {
			cells = append(cells, a.bridge(span{chains[i-1].end(a.w), c.start})...)
		}
		for k := range c.n {
			lo := c.start + float64(k)*(a.w-Overlap)
			cells = append(cells, cell{span: span{lo, lo + a.w}})
		}
	}
	return cells
}

// count returns how many windows cover length mm in one taped run.
func (a axis) count(length float64) int {
	return max(1, int(math.Ceil((length-Overlap)/(a.w-Overlap)-1e-9)))
}

// reach returns how much n taped windows cover.
func (a axis) reach(n int) float64 { return float64(n)*(a.w-Overlap) + Overlap }

func (c chain) end(w float64) float64 { return c.start + float64(c.n)*(w-Overlap) + Overlap }

// chains splits the needs into runs so that the fewest windows show them all.
// For every number of needs shown and of windows spent it keeps the way that
// ends farthest to the left: whatever follows fits best behind that one.
func (a axis) chains() []chain {
	ways := make([][]way, len(a.needs)+1)
	ways[0] = []way{{end: math.Inf(-1)}}
	for i := range a.needs {
		most := a.count(a.needs[i].hi - a.needs[0].lo)
		ways[i+1] = make([]way, most+1)
		for n := range ways[i+1] {
			ways[i+1][n].end = math.Inf(1)
		}
		for j := i; j >= 0; j-- {
			c := a.chain(j, i)
			for n, w := range ways[j] {
				if start, ok := a.leftmost(c, w.end); ok && n+c.n <= most && start+a.reach(c.n) < ways[i+1][n+c.n].end {
					ways[i+1][n+c.n] = way{start + a.reach(c.n), j, n}
				}
			}
		}
	}
	return a.trace(ways)
}

// A way shows some needs with some windows: where its last window ends, and the
// way it goes on from.
type way struct {
	end         float64
	needs, used int
}

// trace follows the ways back from the cheapest that shows every need.
func (a axis) trace(ways [][]way) []chain {
	i, n := len(a.needs), 0
	for math.IsInf(ways[i][n].end, 1) {
		n++
	}
	var out []chain
	for i > 0 {
		w := ways[i][n]
		out = append(out, a.chain(w.needs, i-1))
		i, n = w.needs, w.used
	}
	slices.Reverse(out)
	return out
}

// chain tapes together all from need j to need i.
func (a axis) chain(j, i int) chain {
	s := span{a.needs[j].lo, a.needs[i].hi}
	return chain{span: s, n: a.count(s.len())}
}

// leftmost returns the leftmost start of c behind a chain that ends at end. A
// chain that its windows cover exactly begins at its own start, whatever the
// last bit says.
func (a axis) leftmost(c chain, end float64) (start float64, ok bool) {
	const exact = 1e-6
	start = math.Max(c.hi-a.reach(c.n), end+least)
	return math.Min(start, c.lo), start <= c.lo+exact
}

// merge joins neighbours that fit in one window together, or take fewer windows
// taped than apart. At the same count they stay apart when the plain stretch
// between them is worth it: a tape laid from end to end is then truer than paper
// taped together, and small pieces share a sheet.
func (a axis) merge(chains []chain) []chain {
	for i := 1; i < len(chains); {
		both := span{chains[i-1].lo, chains[i].hi}
		n, apart := a.count(both.len()), chains[i-1].n+chains[i].n
		if n == 1 || n < apart || n == apart && chains[i].lo-chains[i-1].hi < worth {
			chains[i-1].span, chains[i-1].n = both, n
			chains = slices.Delete(chains, i, i+1)
			i = max(1, i-1)
			continue
		}
		i++
	}
	return chains
}

// settle chooses where each chain starts. A lone chain is centred; of several,
// each end chain leaves some paper beyond the part and spends the rest of its
// slack on plain wood, as far as the stretch between them allows. Among the
// starts that remain the one whose seams miss most holes and corners wins.
func (a axis) settle(chains []chain) {
	left := make([]float64, len(chains))
	end := math.Inf(-1)
	for i, c := range chains {
		left[i], _ = a.leftmost(c, end)
		end = left[i] + a.reach(c.n)
	}
	next := math.Inf(1)
	for i := len(chains) - 1; i >= 0; i-- {
		c := &chains[i]
		reach := a.reach(c.n)
		slack := reach - c.len()
		wish := c.lo - slack/2
		within := span{left[i], math.Max(left[i], math.Min(c.lo, next-least-reach))}
		switch {
		case a.fold == pinLow && i == 0:
			within = span{c.lo, c.lo}
		case a.fold == pinHigh && i == len(chains)-1:
			within = span{c.hi - reach, c.hi - reach}
		case len(chains) > 1 && i == 0:
			wish = c.lo - math.Min(slack/2, beyond)
		case len(chains) > 1 && i == len(chains)-1:
			wish = c.hi + math.Min(slack/2, beyond) - reach
		}
		c.start = a.best(*c, within, wish)
		next = c.start
	}
}

// best tries starts in a range and returns the one whose seams cut least, the
// nearest to the wish among equals.
func (a axis) best(c chain, within span, wish float64) float64 {
	const tries = 24
	wish = math.Max(within.lo, math.Min(within.hi, wish))
	start, fewest, off := wish, math.MaxInt, 0.0
	for k := range tries + 1 {
		c.start = wish
		if k > 0 {
			c.start = within.lo + within.len()*float64(k-1)/(tries-1)
		}
		n, d := a.cuts(c), math.Abs(c.start-wish)
		if n < fewest || n == fewest && d < off {
			start, fewest, off = c.start, n, d
		}
	}
	return start
}

// cuts counts the things better left whole that the seams of c go through.
func (a axis) cuts(c chain) int {
	n := 0
	for k := 1; k < c.n; k++ {
		lo := c.start + float64(k)*(a.w-Overlap)
		for _, s := range a.avoid {
			if s.lo < lo+Overlap && s.hi > lo {
				n++
			}
		}
	}
	return n
}

// bridge fills a stretch between two chains with skipped windows that overlap
// each other and both neighbours like printed ones.
func (a axis) bridge(gap span) []cell {
	n := math.Max(1, math.Ceil((gap.len()+Overlap)/(a.w-Overlap)-1e-9))
	w := (gap.len() + (n+1)*Overlap) / n
	var cells []cell
	for k := range int(n) {
		lo := gap.lo - Overlap + float64(k)*(w-Overlap)
		cells = append(cells, cell{span{lo, lo + w}, true})
	}
	return cells
}

// union sorts spans and joins those that touch.
func union(spans []span) []span {
	slices.SortFunc(spans, func(a, b span) int {
		if a.lo != b.lo {
			return sign(a.lo - b.lo)
		}
		return sign(a.hi - b.hi)
	})
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.lo <= out[n-1].hi {
			out[n-1].hi = math.Max(out[n-1].hi, s.hi)
			continue
		}
		out = append(out, s)
	}
	return out
}

func sign(x float64) int {
	switch {
	case x < 0:
		return -1
	case x > 0:
		return 1
	}
	return 0
}

// A Break is a plain stretch that is not printed. A datum line is drawn across
// the template on either side; what lies between them is measured with a tape.
type Break struct {
	Upright bool // the lines run up the page
	before  span // where the first datum line may stand, in the layout's frame
	after   span // and the second
}

// verge is how far a datum line keeps from a shaped end and from where the
// printed stretch stops.
const verge = 3.0

// breaks finds the breaks of one axis. The datum lines stand in the plain run
// that is printed beyond each shaped end.
func breaks(cells []cell, needs []span, upright bool) []Break {
	var out []Break
	for i, c := range cells {
		if !c.skip || i == 0 || cells[i-1].skip {
			continue
		}
		j := i
		for cells[j].skip {
			j++
		}
		b := Break{Upright: upright}
		for _, s := range needs {
			if s.hi <= cells[i-1].hi+1e-9 {
				b.before = span{s.hi - run + verge, s.hi - verge}
			}
		}
		for k := len(needs) - 1; k >= 0; k-- {
			if s := needs[k]; s.lo >= cells[j].lo-1e-9 {
				b.after = span{s.lo + verge, s.lo + run - verge}
			}
		}
		out = append(out, b)
	}
	return out
}

// Lines returns where the two datum lines of b stand in the layout's frame, on
// round distances from the part's datum end or reference edge.
func (l Layout) Lines(b Break, look Look) (before, after float64) {
	return l.round(b, b.before, look), l.round(b, b.after, look)
}

// round returns the roundest distance in s, nearest its middle.
func (l Layout) round(b Break, s span, look Look) float64 {
	mid := (s.lo + s.hi) / 2
	for _, step := range look.steps() {
		d := l.measured(math.Round(l.measured(mid, b.Upright)/step)*step, b.Upright)
		if d >= s.lo && d <= s.hi {
			return d
		}
	}
	return mid
}

// steps lists round distances in mm, the roundest first.
func (k Look) steps() []float64 {
	if k.Unit == expr.Inch {
		return []float64{25.4, 12.7, 6.35}
	}
	return []float64{50, 10, 5}
}

// measured turns a coordinate of the frame into a distance from the datum end
// or the reference edge, and back again.
func (l Layout) measured(d float64, upright bool) float64 {
	if l.Turned && upright {
		return l.Blank.W - d
	}
	return d
}

// crossing returns the piece of a datum line on a tile: across the part and a
// little beyond.
func (l Layout) crossing(d float64, upright bool, w geom.Box) (geom.Seg, bool) {
	const over = 6
	b := l.Outline.Box().Grow(over)
	if upright {
		s := geom.Line(geom.Pt{X: d, Y: math.Max(b.Min.Y, w.Min.Y)}, geom.Pt{X: d, Y: math.Min(b.Max.Y, w.Max.Y)})
		return s, d >= w.Min.X && d <= w.Max.X && s.A.Y < s.B.Y
	}
	s := geom.Line(geom.Pt{X: math.Max(b.Min.X, w.Min.X), Y: d}, geom.Pt{X: math.Min(b.Max.X, w.Max.X), Y: d})
	return s, d >= w.Min.Y && d <= w.Max.Y && s.A.X < s.B.X
}
