package tiles

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// Grid returns how many sheets of p a plain grid over the box round t takes, the
// better way round: what one would print without looking at the shape.
func Grid(t Template, p Paper) int {
	b := t.Outline.Box()
	if b.Empty() {
		return 0
	}
	live := p.Live()
	count := func(w, h float64) int { return axis{w: live.W}.count(w) * axis{w: live.H}.count(h) }
	return min(count(b.W(), b.H()), count(b.H(), b.W()))
}

// Least returns the number of sheets below which no way of packing can go, turned
// and laid as one likes: what has to be shown is more than that many windows
// hold. It counts the wood of the shaped stretches, each shown whole, and of the
// plain run beyond each that a ruler is laid to; the words need room besides.
func Least(ls []Layout) int {
	if len(ls) == 0 {
		return 0
	}
	area := 0.0
	for _, l := range ls {
		area += l.shown()
	}
	live := ls[0].Paper.Live()
	return int(math.Ceil(area/(live.W*live.H) - 1e-9))
}

// shown returns the area of the part that has to be seen, in mm².
func (l Layout) shown() float64 {
	area := 0.0
	for _, set := range pieces(l.Tiles) {
		if len(set) == 1 {
			area += l.inside(l.holds(l.Tiles[set[0]].Window))
			continue
		}
		// Of tiles that are taped, whatever of the shaped stretches any of them shows.
		b := geom.NoBox()
		for _, i := range set {
			b = b.Union(l.Tiles[i].Window)
		}
		for _, x := range needs(l.Template, geom.Pt{X: 1}) {
			for _, y := range needs(l.Template, geom.Pt{Y: 1}) {
				stretch := geom.Box{Min: geom.Pt{X: x.lo, Y: y.lo}, Max: geom.Pt{X: x.hi, Y: y.hi}}
				if b.Meets(stretch) && look(l.Template, stretch) == shaped {
					area += l.inside(stretch)
				}
			}
		}
	}
	return area
}

// inside returns how much of the part lies in b, in mm².
func (l Layout) inside(b geom.Box) float64 {
	area := 0.0
	for _, o := range l.Outline.And(geom.Rect(b.W(), b.H()).Move(b.Min)) {
		area += o.Area()
	}
	return area
}

// economy says how many sheets there are, and how many there might have been.
func (k packing) economy() string {
	grid := 0
	var p Paper
	for _, l := range k.layouts {
		p = l.Paper
		grid += Grid(l.unfolded(), p)
	}
	n, least := len(k.sheets), Least(k.layouts)
	sheets := "sheets hold"
	if n == 1 {
		sheets = "sheet holds"
	}
	words := fmt.Sprintf("%d %s every template.", n, sheets)
	if grid > n {
		words += fmt.Sprintf(" A plain grid over each part would take %d.", grid)
	}
	if least >= n {
		return words + " Fewer could not hold what is drawn."
	}
	return words + fmt.Sprintf(" By its area alone the drawing would fill %d.", least)
}

// unfolded returns a template as large as the part itself: both halves of one that
// is printed as a half.
func (l Layout) unfolded() Template {
	t := l.Template
	if !l.folded() {
		return t
	}
	n := t.Fold.B.Sub(t.Fold.A).Unit().Left()
	var other geom.Outline
	for _, s := range l.edge() {
		s.A, s.B, s.C = flip(s.B, t.Fold.A, n), flip(s.A, t.Fold.A, n), flip(s.C, t.Fold.A, n)
		other = append(other, s)
	}
	t.Outline = append(append(geom.Outline{}, l.edge()...), other...)
	return t
}

// LongestRun returns how long the longest piece of paper of l is that is taped
// together, in mm, as far as it shows anything of the part, and over how many
// joints. Only over this length does an error of the printer add up: what lies
// farther apart is laid out with a tape.
func (l Layout) LongestRun() (length float64, joints int) {
	for _, set := range pieces(l.Tiles) {
		b := geom.NoBox()
		rows, cols := span{math.Inf(1), math.Inf(-1)}, span{math.Inf(1), math.Inf(-1)}
		for _, i := range set {
			t := l.Tiles[i]
			for _, s := range clip(l.Outline, t.Window) {
				b = b.Union(s.Box())
			}
			rows = span{math.Min(rows.lo, float64(t.Row)), math.Max(rows.hi, float64(t.Row))}
			cols = span{math.Min(cols.lo, float64(t.Col)), math.Max(cols.hi, float64(t.Col))}
		}
		if far := math.Max(b.W(), b.H()); far > length {
			length, joints = far, int(cols.len())
			if b.H() > b.W() {
				joints = int(rows.len())
			}
		}
	}
	return length, joints
}
