package tiles

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"planset/model/expr"
	"planset/model/geom"
)

// taping tells in what order the sheets of l go together.
func (l Layout) taping(look Look) []string {
	sets := pieces(l.Tiles)
	if len(l.Tiles) == 1 {
		return []string{"One sheet, no taping."}
	}
	var out []string
	var alone []int
	for _, set := range sets {
		switch {
		case len(set) == 1:
			alone = append(alone, set[0])
		case l.grid(set):
			out = append(out, l.rows(set))
		default:
			out = append(out, l.run(set))
		}
	}
	alone = slices.DeleteFunc(alone, func(i int) bool { return l.byTape(i, look) })
	switch {
	case len(alone) == 1:
		out = append(out, l.list(alone)+" stays by itself.")
	case len(alone) > 1:
		out = append(out, l.list(alone)+" stay by themselves.")
	}
	if words := l.apart(look); words != "" {
		out = append(out, words)
	}
	return out
}

// byTape reports whether a tile shows a break line, so that it is said how far
// it lies from another.
func (l Layout) byTape(tile int, look Look) bool {
	for _, b := range l.Breaks {
		before, after := l.Lines(b, look)
		for _, d := range []float64{before, after} {
			if _, ok := l.crossing(d, b.Upright, l.Tiles[tile].Window); ok {
				return true
			}
		}
	}
	return false
}

// apart tells how far the pieces that are laid out with a tape lie from each
// other; a template without breaks has nothing to tell.
func (l Layout) apart(look Look) string {
	words := ""
	for i, b := range l.Breaks {
		before, after := l.Lines(b, look)
		one, other := l.mate(b, before, l.Tiles[0]), l.mate(b, after, l.Tiles[0])
		far := look.Unit.Long(after - before)
		if i == 0 {
			words = fmt.Sprintf("Not taped: lay the break lines of %s and %s on the board %s apart", one, other, far)
			continue
		}
		words += fmt.Sprintf(", those of %s and %s %s", one, other, far)
	}
	if words != "" {
		words += "."
	}
	return words
}

// mate names the tile that shows the datum line at d of b: the one in line with
// a given tile if there is one.
func (l Layout) mate(b Break, d float64, by Tile) string {
	name := ""
	for _, t := range l.Tiles {
		if _, ok := l.crossing(d, b.Upright, t.Window); !ok {
			continue
		}
		if name == "" || b.Upright && t.Row == by.Row || !b.Upright && t.Col == by.Col {
			name = t.Label()
		}
	}
	return name
}

// grid reports whether a set has joints both ways.
func (l Layout) grid(set []int) bool {
	var row, col bool
	for _, i := range set {
		row = row || l.Tiles[i].Row != l.Tiles[set[0]].Row
		col = col || l.Tiles[i].Col != l.Tiles[set[0]].Col
	}
	return row && col
}

// rows tells how a piece with joints both ways comes about.
func (l Layout) rows(set []int) string {
	var rows []string
	for i := 0; i < len(set); {
		j := i + 1
		for j < len(set) && l.Tiles[set[j]].Row == l.Tiles[set[i]].Row {
			j++
		}
		rows = append(rows, l.list(set[i:j]))
		i = j
	}
	return "Build the rows first, each from the left: " + strings.Join(rows, "; ") +
		". Then join the rows from the bottom up, the lower always on top."
}

// run tells how a single row or column goes together, from the datum outward.
func (l Layout) run(set []int) string {
	edge := "top"
	if l.Tiles[set[0]].Row == l.Tiles[set[1]].Row {
		edge = "right"
	}
	last := set[len(set)-1]
	if len(set) == 2 {
		return fmt.Sprintf("Trim the %s edge of %s and lay it over %s.", edge, l.Tiles[set[0]].Label(), l.Tiles[last].Label())
	}
	return fmt.Sprintf("Trim the %s edge of %s; lay each over the next, up to %s.", edge, l.list(set[:len(set)-1]), l.Tiles[last].Label())
}

func (l Layout) list(set []int) string {
	names := make([]string, len(set))
	for i, k := range set {
		names[i] = l.Tiles[k].Label()
	}
	if n := len(names) - 1; n > 0 {
		return strings.Join(names[:n], ", ") + " and " + names[n]
	}
	return names[0]
}

// Checks lists the tape checks of l in words, each with its name on the sheets, what
// the tape must read and how far it may be off: "T1 end to end: 41″, within 1⁄16″
// (A1 to E1)". A template on one sheet has none.
func (l Layout) Checks(look Look) []string {
	if len(l.Tiles) < 2 {
		return nil
	}
	var out []string
	for i, c := range l.Controls {
		out = append(out, l.check(i, look.Unit.Long(c.length())+", within "+c.within(look)))
	}
	return out
}

// check names tape check i with what is said of its length.
func (l Layout) check(i int, length string) string {
	c := l.Controls[i]
	words := tapeName(i)
	if c.Name != "" {
		words += " " + c.Name
	}
	words += ": " + length
	a, b := l.shows(c.A, 0), l.shows(c.B, 0)
	if a != b && a != "" && b != "" {
		words += " (" + a + " to " + b + ")"
	}
	return words
}

// within says what c may be off by.
func (c Control) within(look Look) string { return look.Unit.LongTo(c.allow(look), expr.Fine) }

// proofs lists the tape checks of l, each with a box to tick, under what to do
// with them. What they may be off by is said once where it is the same for all.
func (l Layout) proofs(look Look) []string {
	if len(l.Tiles) < 2 || len(l.Controls) == 0 {
		return nil
	}
	first := l.Controls[0].within(look)
	differ := slices.ContainsFunc(l.Controls, func(c Control) bool { return c.within(look) != first })
	each := ""
	if !differ {
		each = ", each within " + first
	}
	if len(l.Controls) == 1 {
		each = ", within " + first
	}
	out := []string{"Prove with a tape before cutting" + each + ":"}
	for i, c := range l.Controls {
		length := look.Unit.Long(c.length())
		if differ {
			length += ", within " + c.within(look)
		}
		out = append(out, "☐ "+l.check(i, length))
	}
	return out
}

// count says how many sheets there are and on which pages; on holds their
// indexes in a range whose first page has the number first.
func (l Layout) count(first int, on []int) string {
	pages := slices.Clone(on)
	slices.Sort(pages)
	pages = slices.Compact(pages)
	words := ""
	for i, p := range pages {
		switch {
		case i == 0:
		case i == len(pages)-1:
			words += " and "
		default:
			words += ", "
		}
		words += strconv.Itoa(first + p)
	}
	switch n := len(pages); {
	case n == 1 && len(on) == 1:
		words = "1 sheet, page " + words
	case n == 1:
		words = fmt.Sprintf("%d pieces on one sheet, page %s", len(on), words)
	case n == len(on) && n > 2 && pages[n-1]-pages[0] == n-1:
		words = fmt.Sprintf("%d sheets, pages %d to %d", n, first+pages[0], first+pages[n-1])
	case n == len(on):
		words = fmt.Sprintf("%d sheets, pages %s", n, words)
	default:
		words = fmt.Sprintf("%d pieces, on pages %s", len(on), words)
	}
	return words
}

// allow is what a tape check may be off by when the caller does not say, in mm:
// a sixteenth of an inch, or a millimetre and a half.
func (c Control) allow(look Look) float64 {
	switch {
	case c.Allow > 0:
		return c.Allow
	case look.Unit == expr.Inch:
		return 25.4 / 16
	}
	return 1.5
}

// tapeName returns the name of check n, from 0.
func tapeName(n int) string { return "T" + strconv.Itoa(n+1) }

// length is what the tape must read, in mm.
func (c Control) length() float64 { return c.B.Sub(c.A).Len() }

// tapes makes up checks for a template that has none: the overall length from
// end to end, hole to hole, and a diagonal. The points are corners, tips of arcs,
// holes, or on an end that is square.
func tapes(t Template, upright bool) []Control {
	dir, side := geom.Pt{X: 1}, geom.Pt{Y: 1}
	if upright {
		dir, side = side, dir
	}
	pts := tips(t.Outline)
	lo, hi := reaches(pts, dir.Mul(-1), side), reaches(pts, dir, side)
	whole := extent(t.Outline.Box(), dir)
	// A tape square across both ends reads the length itself.
	u, v := lo.lo, hi.lo
	if both := (span{math.Max(lo.lo, hi.lo), math.Min(lo.hi, hi.hi)}); both.len() >= 0 {
		u = both.lo + both.len()/4
		v = u
	}
	out := []Control{{
		A: dir.Mul(whole.lo).Add(side.Mul(u)), B: dir.Mul(whole.hi).Add(side.Mul(v)), Name: "end to end",
	}}
	if c, ok := holeToHole(t.Holes); ok {
		out = append(out, c)
	}
	a := farthest(pts, func(p geom.Pt) float64 { return -p.X - p.Y })
	b := farthest(pts, func(p geom.Pt) float64 { return p.X + p.Y })
	// On a slim part the diagonal says what the length says already.
	if len(out) < 2 || math.Abs(b.Sub(a).Unit().Dot(side)) > 0.12 {
		out = append(out, Control{A: a, B: b, Name: "corner to corner"})
	}
	return out
}

// holeToHole returns a check between the two holes farthest apart that are laid
// out from the template, when they are far enough apart for a tape.
func holeToHole(holes []Hole) (Control, bool) {
	var c Control
	for i, g := range holes {
		for _, h := range holes[i+1:] {
			if !g.Matched && !h.Matched && h.At.Sub(g.At).Len() > c.length()+1e-6 {
				c = Control{A: g.At, B: h.At, Name: "hole to hole, centers"}
			}
		}
	}
	return c, c.length() > 150
}

// reaches returns the stretch, along side, of the points farthest out in a
// direction.
func reaches(pts []geom.Pt, out, side geom.Pt) span {
	most := farthest(pts, func(p geom.Pt) float64 { return p.Dot(out) }).Dot(out)
	s := span{math.Inf(1), math.Inf(-1)}
	for _, p := range pts {
		if most-p.Dot(out) < 1e-6 {
			s = span{math.Min(s.lo, p.Dot(side)), math.Max(s.hi, p.Dot(side))}
		}
	}
	return s
}

// tips returns the corners of an outline and the extreme points of its arcs.
func tips(o geom.Outline) []geom.Pt {
	var pts []geom.Pt
	for _, s := range o {
		pts = append(pts, s.A)
		if s.Turn == geom.Straight {
			continue
		}
		for _, d := range []geom.Pt{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} {
			if p := s.C.Add(d.Mul(s.R)); s.Distance(p) < 1e-6 {
				pts = append(pts, p)
			}
		}
	}
	return pts
}

// farthest returns the first point of which far is greatest.
func farthest(pts []geom.Pt, far func(geom.Pt) float64) geom.Pt {
	best := pts[0]
	for _, p := range pts[1:] {
		if far(p) > far(best)+1e-6 {
			best = p
		}
	}
	return best
}
