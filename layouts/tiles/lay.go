package tiles

import (
	"math"
	"slices"

	"planset/model/geom"
)

// near is how far two directions may be apart and still be parallel, as the
// sine of the angle: three thousandths of a millimetre along three metres.
const near = 1e-6

// largest is the longest part that is laid out, in mm: twice the longest board
// a yard sells. More is a slip of the unit, and would take thousands of sheets.
const largest = 12000

// Lay lays t out on p. The frame is turned a quarter when that saves sheets,
// counted over both papers, so that either edition prints the same frame and
// every sheet of a template lies the same way in the printer. Stretches that
// hold nothing but straight lines from side to side are not printed. A part that
// is its own mirror image is printed as a half when that saves enough; one that
// fits on a single sheet slantwise lies askew. A template
// without an outline, or one larger than any furniture, gets no tiles.
func Lay(t Template, p Paper) Layout {
	if b := t.Outline.Box(); b.Empty() || math.Max(b.W(), b.H()) > largest {
		return Layout{Template: t, Paper: p}
	}
	t = blanked(t)
	best := plan{t: t}.better(plan{t: turn(t), turned: true})
	for _, h := range halves(t) {
		half := plan{t: h, half: true}.better(plan{t: turn(h), turned: true, half: true})
		least := halfSaves
		if best.half {
			least = 1
		}
		if best.sheets()-half.sheets() >= 2*least {
			best = half
		}
	}
	if t, angle, ok := askew(t); ok && best.sheets() > 2 {
		l := arrange(t, p)
		l.Askew = angle
		return l
	}
	l := arrange(best.t, p)
	l.Turned, l.Half = best.turned, best.half
	return l
}

// halfSaves is the least number of sheets of one paper a half template must
// save: less is not worth turning the paper over for.
const halfSaves = 2

// A plan is one way to print a template, the same on both papers.
type plan struct {
	t            Template
	turned, half bool
}

// better returns the plan with fewer sheets. Of two alike the turned one is
// taken when the part goes in pieces that then lie across the page, where
// they stack best; else the first.
func (a plan) better(turned plan) plan {
	switch n, m := a.sheets(), turned.sheets(); {
	case m < n:
		return turned
	case m == n && n > 2 && turned.t.Outline.Box().W() <= Letter().Live().W && len(arrange(turned.t, Letter()).Breaks) > 0:
		return turned
	}
	return a
}

// sheets counts the pages of a plan on both papers.
func (a plan) sheets() int {
	return len(arrange(a.t, Letter()).Tiles) + len(arrange(a.t, A4()).Tiles)
}

// turn returns t in a frame turned a quarter anticlockwise: the datum end comes
// to lie at the bottom, the reference edge at the right.
func turn(t Template) Template {
	at := func(p geom.Pt) geom.Pt { return geom.Pt{X: t.Blank.H - p.Y, Y: p.X} }
	out := t
	out.Outline = make(geom.Outline, len(t.Outline))
	for i, s := range t.Outline {
		s.A, s.B, s.C = at(s.A), at(s.B), at(s.C)
		out.Outline[i] = s
	}
	out.Holes = make([]Hole, len(t.Holes))
	for i, h := range t.Holes {
		h.At = at(h.At)
		out.Holes[i] = h
	}
	out.Controls = make([]Control, len(t.Controls))
	for i, c := range t.Controls {
		c.A, c.B = at(c.A), at(c.B)
		out.Controls[i] = c
	}
	out.Fold.A, out.Fold.B = at(t.Fold.A), at(t.Fold.B)
	if !t.folded() {
		out.Fold = geom.Seg{}
	}
	out.Blank = geom.Size{W: t.Blank.H, H: t.Blank.W}
	return out
}

// arrange lays t out as it stands.
func arrange(t Template, p Paper) Layout {
	live := p.Live()
	wide := axis{live.W, needs(t, geom.Pt{X: 1}), avoids(t, geom.Pt{X: 1}), foldOn(t, geom.Pt{X: 1})}
	high := axis{live.H, needs(t, geom.Pt{Y: 1}), avoids(t, geom.Pt{Y: 1}), foldOn(t, geom.Pt{Y: 1})}
	cols, rows := wide.cover(), high.cover()
	l := Layout{Template: t, Paper: p, Rows: len(rows), Cols: len(cols)}
	grid := make([]window, 0, len(rows)*len(cols))
	for r, row := range rows {
		for c, col := range cols {
			b := geom.Box{Min: geom.Pt{X: col.lo, Y: row.lo}, Max: geom.Pt{X: col.hi, Y: row.hi}}
			w := window{Tile: Tile{Row: r, Col: c, Window: b, At: p.at()}}
			w.holds = look(t, b)
			w.skip = row.skip || col.skip
			grid = append(grid, w)
		}
	}
	thin(grid)
	for _, w := range grid {
		if w.out {
			l.Dropped = append(l.Dropped, w.Tile)
		} else {
			l.Tiles = append(l.Tiles, w.Tile)
		}
	}
	l.Joints = joints(l)
	l.Breaks = append(breaks(cols, wide.needs, true), breaks(rows, high.needs, false)...)
	if len(l.Controls) == 0 && len(l.Tiles) > 1 {
		whole := t.Outline.Box()
		l.Controls = tapes(t, whole.H() > whole.W())
	}
	return l
}

// A window is a tile that may yet be dropped.
type window struct {
	Tile
	holds content
	skip  bool // lies in a plain stretch of an axis
	out   bool // dropped
}

// content says what a window shows.
type content int8

const (
	blank    content = iota // no line at all
	plain                   // nothing but straight lines that are parallel
	straight                // nothing but straight lines from side to side
	shaped                  // anything else
)

// look says what of t a window shows.
func look(t Template, w geom.Box) content {
	for _, h := range t.Holes {
		if !h.Matched && w.Grow(h.Diam/2).Has(h.At) {
			return shaped
		}
	}
	in := clip(t.Outline, w)
	if len(in) == 0 {
		return blank
	}
	first := in[0].B.Sub(in[0].A).Unit()
	parallel, ends := true, false
	inner := w.Grow(-onEdge)
	for _, s := range in {
		if s.Turn != geom.Straight {
			return shaped
		}
		parallel = parallel && math.Abs(first.Cross(s.B.Sub(s.A).Unit())) <= near
		ends = ends || inner.Has(s.A) || inner.Has(s.B)
	}
	switch {
	case parallel:
		return plain
	case ends:
		return shaped
	}
	return straight
}

// thin drops the windows that need no sheet. A plain one outside the skipped
// stretches stays when dropping it would break the taped sheets apart: a
// straight edge is then what holds two corners together.
func thin(grid []window) {
	for i := range grid {
		grid[i].out = grid[i].holds == blank || grid[i].holds != shaped && grid[i].skip
	}
	for i := range grid {
		if grid[i].out || grid[i].holds != plain {
			continue
		}
		before := pieces(kept(grid))
		grid[i].out = true
		if after := pieces(kept(grid)); len(after) > len(before) || len(after) == 0 {
			grid[i].out = false
		}
	}
}

func kept(grid []window) []Tile {
	var tiles []Tile
	for _, w := range grid {
		if !w.out {
			tiles = append(tiles, w.Tile)
		}
	}
	return tiles
}

// pieces sorts tiles into the sets that are taped together, by index. The sets
// are in the order of their first tile.
func pieces(tiles []Tile) [][]int {
	var sets [][]int
	seen := make([]bool, len(tiles))
	for i := range tiles {
		if seen[i] {
			continue
		}
		seen[i] = true
		set := []int{i}
		for k := 0; k < len(set); k++ {
			for j := range tiles {
				if !seen[j] && adjacent(tiles[set[k]], tiles[j]) {
					seen[j] = true
					set = append(set, j)
				}
			}
		}
		sets = append(sets, ordered(set))
	}
	return sets
}

func adjacent(a, b Tile) bool {
	dr, dc := a.Row-b.Row, a.Col-b.Col
	return dr*dr+dc*dc == 1
}

// slant is the sine of the steepest angle at which a line may run through a
// stretch that is not printed: a straightedge laid through both its ends shows it.
const slant = 0.5

// needs returns the stretches along an axis that must be seen: whatever is not
// a straight line along it, or nearly along it and fixed by its ends. A hole
// drilled through its mate needs no paper.
func needs(t Template, dir geom.Pt) []span {
	whole := extent(t.Outline.Box(), dir)
	var out []span
	need := func(b geom.Box) {
		s := extent(b, dir)
		out = append(out, span{math.Max(whole.lo, s.lo-run), math.Min(whole.hi, s.hi+run)})
	}
	for _, s := range t.Outline {
		switch off := math.Abs(s.B.Sub(s.A).Unit().Cross(dir)); {
		case s.Turn != geom.Straight || off > slant:
			need(s.Box())
		case off > near:
			need(geom.Box{Min: s.A, Max: s.A})
			need(geom.Box{Min: s.B, Max: s.B})
		}
	}
	for _, h := range t.Holes {
		if !h.Matched {
			need(geom.Box{Min: h.At, Max: h.At}.Grow(h.Diam / 2))
		}
	}
	return union(out)
}

// avoids returns what a seam across an axis should rather not go through: holes,
// corners, and lines that would run along inside the seam.
func avoids(t Template, dir geom.Pt) []span {
	var out []span
	for _, h := range t.Holes {
		out = append(out, extent(geom.Box{Min: h.At, Max: h.At}.Grow(h.Diam/2+3), dir))
	}
	for _, s := range t.Outline {
		end := geom.Box{Min: s.A, Max: s.A}.Grow(3)
		out = append(out, extent(end, dir))
	}
	return out
}

// extent returns what b covers of an axis.
func extent(b geom.Box, dir geom.Pt) span { return span{b.Min.Dot(dir), b.Max.Dot(dir)} }

// clip returns the pieces of an outline inside a window, each an exact line or
// arc. What runs along the border is kept.
func clip(o []geom.Seg, w geom.Box) []geom.Seg {
	var in []geom.Seg
	for _, s := range o {
		in = append(in, clipSeg(s, w)...)
	}
	return in
}

// clipSeg cuts s where it crosses the borders of w and keeps what is inside.
func clipSeg(s geom.Seg, w geom.Box) []geom.Seg {
	if !s.Box().Meets(w) {
		return nil
	}
	cuts := []float64{0}
	for _, t := range crossings(s, w) {
		if t > 0 && t < 1 {
			cuts = append(cuts, t)
		}
	}
	slices.Sort(cuts)
	cuts = append(cuts, 1)
	var in []geom.Seg
	open := -1.0 // where the piece being gathered began; below 0 is none
	for i := 1; i < len(cuts); i++ {
		inside := w.Has(s.At((cuts[i-1] + cuts[i]) / 2))
		if inside && open < 0 {
			open = cuts[i-1]
		}
		if open >= 0 && (!inside || i == len(cuts)-1) {
			end := cuts[i]
			if !inside {
				end = cuts[i-1]
			}
			in = append(in, piece(s, open, end))
			open = -1
		}
	}
	return in
}

// outside returns what of a straight segment is not in w.
func outside(s geom.Seg, w geom.Box) []geom.Seg {
	in := clipSeg(s, w)
	if len(in) == 0 {
		return []geom.Seg{s}
	}
	var out []geom.Seg
	for _, r := range []geom.Seg{geom.Line(s.A, in[0].A), geom.Line(in[0].B, s.B)} {
		if r.Length() > 0.01 {
			out = append(out, r)
		}
	}
	return out
}

// piece returns s from one share of its length to another.
func piece(s geom.Seg, a, b float64) geom.Seg {
	p := s
	p.A, p.B = s.At(a), s.At(b)
	return p
}

// crossings returns where s meets the four lines through the sides of w, as
// shares of its length, in no order; 0 or 1 when an arc stops short.
func crossings(s geom.Seg, w geom.Box) []float64 {
	var ts []float64
	for _, x := range []float64{w.Min.X, w.Max.X} {
		ts = append(ts, meets(s, geom.Pt{X: 1}, x)...)
	}
	for _, y := range []float64{w.Min.Y, w.Max.Y} {
		ts = append(ts, meets(s, geom.Pt{Y: 1}, y)...)
	}
	return ts
}

// meets returns where s crosses the line of points p with p·n = d, n being one
// of the axes.
func meets(s geom.Seg, n geom.Pt, d float64) []float64 {
	if s.Turn == geom.Straight {
		if step := s.B.Sub(s.A).Dot(n); step != 0 {
			return []float64{(d - s.A.Dot(n)) / step}
		}
		return nil
	}
	off := d - s.C.Dot(n)
	if math.Abs(off) >= s.R {
		return nil
	}
	half := math.Sqrt(s.R*s.R - off*off)
	foot := s.C.Add(n.Mul(off))
	side := n.Left().Mul(half)
	return []float64{s.Param(foot.Add(side)), s.Param(foot.Sub(side))}
}
