package sheets

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A pennant is a label on a pole: the pole stands at x, the label flies to one
// side of it in one of several rows, row 0 next to the bar.
type pennant struct {
	x, width float64
	row      int
	piece    *cutting.Placed
	text     string
	from     float64 // height at which the pole starts
	inside   bool    // it starts in the bar, not at its edge
	left     bool    // the label flies to the left of the pole
}

// flags are the labels along one side of a bar.
type flags []pennant

// arrange gives every flag the nearest row in which it crosses neither another
// label nor another pole, and returns the number of rows. Poles that stand at
// one place are moved apart first. A label flies to the right of its pole, or to
// the left where the paper ends.
//
// A pole reaches through all rows down to its own, so a label that hangs over
// another's pole has to be in a row farther out.
func (f flags) arrange(limit float64) int {
	slices.SortStableFunc(f, func(a, b pennant) int { return cmp.Compare(a.x, b.x) })
	for i := 1; i < len(f); i++ {
		f[i].x = max(f[i].x, f[i-1].x+1.2)
	}
	crowded := len(f) > manyFlags
	if !crowded {
		f.face(limit)
	}
	rows, set := 0, make([]bool, len(f))
	for n := range f {
		i := len(f) - 1 - n
		if !crowded {
			i = f.free(set)
		}
		f.place(i, set)
		set[i] = true
		rows = max(rows, f[i].row+1)
	}
	return rows
}

// manyFlags is how many along one bar are looked at with care; more are not
// for the eye any longer.
const manyFlags = 80

// face turns to the left the labels that would run past the limit, and those
// that hang over the pole of one that hangs over theirs.
func (f flags) face(limit float64) {
	for i := range f {
		f[i].left = f[i].x+f[i].width > limit
	}
	for again := true; again; {
		again = false
		for i := range f {
			for j := range f {
				if !f[i].left && f[j].left && f[i].over(f[j].x) && f[j].over(f[i].x) && f[i].x > f[i].width {
					f[i].left, again = true, true
				}
			}
		}
	}
}

// over reports whether a label hangs over a place along the bar.
func (p pennant) over(x float64) bool {
	from, to := p.span()
	return x > from-0.4 && x < to
}

// span is where a label begins and ends, with room behind it.
func (p pennant) span() (from, to float64) {
	const room = 1.5
	if p.left {
		return p.x - p.width - room, p.x
	}
	return p.x, p.x + p.width + room
}

// free returns the next flag that can have its row: the rightmost of those that
// hang over no pole that has none yet.
func (f flags) free(set []bool) int {
	last := -1
	for i := len(f) - 1; i >= 0; i-- {
		if set[i] {
			continue
		}
		last = i
		waits := false
		for j := range f {
			waits = waits || j != i && !set[j] && f[i].over(f[j].x)
		}
		if !waits {
			return i
		}
	}
	return last
}

// place gives flag i the nearest row that is deep enough for its label to hang
// over no pole and where no label beside it overlaps, as far as rows are set.
func (f flags) place(i int, set []bool) {
	from, to := f[i].span()
	var beside []int // rows that are taken there
	f[i].row = 0
	for _, step := range [2]int{-1, 1} {
		for j := i + step; j >= 0 && j < len(f) && math.Abs(f[j].x-f[i].x) < widest; j += step {
			if !set[j] {
				continue
			}
			if f[i].over(f[j].x) {
				f[i].row = max(f[i].row, f[j].row+1)
			}
			if a, b := f[j].span(); a < to && b > from {
				beside = append(beside, f[j].row)
			}
		}
	}
	for slices.Contains(beside, f[i].row) {
		f[i].row++
	}
}

// widest is farther than any two flags may stand apart whose labels meet, mm.
const widest = bodyW

// label returns the text that goes with a piece's tab and the width of both.
func (w *barWriter) label(p *cutting.Placed, tab float64) (string, float64) {
	text := w.d.plan.Unit.Length(p.Length, expr.Coarse)
	if p.Spare {
		text += " spare"
	}
	return text, lettering.TabWidth(p.Code, "", tab) + 1.2 + lettering.Width(text, narrow)
}

// hinted returns the flags with the face that each piece needs behind its size,
// or as they are where the hints would take more rows. They are arranged.
func (f flags) hinted(limit float64) (flags, int) {
	plain, hints := slices.Clone(f), slices.Clone(f)
	for i := range hints {
		if p := hints[i].piece; p != nil && p.Face != "" {
			hints[i].text += " " + p.Face
			hints[i].width += lettering.Width(" "+p.Face, narrow)
		}
	}
	rows, more := plain.arrange(limit), hints.arrange(limit)
	if more > rows {
		return plain, rows
	}
	return hints, more
}

// roomInBar is what a tab in a bar keeps free above and below it together: room
// for text besides half the pens of the bar and of the tab.
const roomInBar = clearOf + 0.4

// labels names the pieces: inside where there is room, else on flags below. It
// returns how much height the flags take.
func (w *barWriter) labels() float64 {
	for i := range w.b.Pieces {
		p := &w.b.Pieces[i]
		box := w.box(p.Along, p.Across, p.Length, p.Width)
		if p.Pair > 0 {
			w.under = append(w.under, w.pairFlag(p, box))
			continue
		}
		tab := max(leastTab, min(labelTab, box.H()-roomInBar))
		text, wide := w.label(p, tab)
		if box.W() >= wide+3 && box.H() >= tab+roomInBar {
			mid := geom.Pt{X: (box.Min.X + box.Max.X - wide) / 2, Y: (box.Min.Y + box.Max.Y - tab) / 2}
			w.tabbed(mid, p.Code, text, tab)
			w.hint(p, box, wide)
			continue
		}
		_, wide = w.label(p, labelTab)
		w.under = append(w.under, pennant{x: box.Min.X + min(box.W()/2, 2+float64(i%3)), width: wide + 1.4, piece: p, text: text, from: (box.Min.Y + box.Max.Y) / 2})
	}
	w.restFlags()
	for i, o := range w.b.Offcuts {
		if w.names.kept[w.n][i] == 0 {
			continue
		}
		box := w.box(o.Along, o.Across, o.Length, o.Width)
		text := "offcut " + digits(w.names.kept[w.n][i]) + ": " + w.d.plan.Unit.Length(o.Length, expr.Coarse) + " × " + w.d.plan.Unit.Length(o.Width, expr.Coarse)
		wide := lettering.Width(text, narrow)
		if box.W() >= wide+2.4 && box.H() >= lettering.Cap(narrow)+3.2 {
			w.add(lettering.Line(geom.Pt{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y+box.Max.Y)/2 - lettering.Cap(narrow)/2}, text, narrow, toMiddle)...)
			continue
		}
		w.under = append(w.under, pennant{x: box.Min.X + min(box.W()/2, 4), width: wide + 1.4, text: text, from: (box.Min.Y + box.Max.Y) / 2})
	}
	under, rows := w.under.hinted(bodyW)
	w.under = under
	for _, f := range w.under {
		w.fly(f)
	}
	if rows == 0 {
		return 0
	}
	return 2 + float64(rows)*flagPitch
}

// pairFlag is the label of a piece that shares its blank. Its pole stands in the
// wide end.
func (w *barWriter) pairFlag(p *cutting.Placed, box geom.Box) pennant {
	text, wide := w.label(p, labelTab)
	y := box.Min.Y + box.H()*0.4
	if p.Across > w.b.Blanks[p.Pair-1].Across+sameEdge {
		y = box.Max.Y - box.H()*0.4
	}
	return pennant{x: box.Min.X + box.W()*wideEnd(w.b, *p), width: wide + 1.4, piece: p, text: text, from: y}
}

// restFlags label the offcuts that short parts are cut from.
func (w *barWriter) restFlags() {
	u := w.d.plan.Unit
	for i, r := range w.b.Rests {
		box := w.box(r.Along, 0, r.Length, r.Width)
		text := "offcut " + digits(w.names.rests[w.n][i]) + ": " + u.Length(r.Length, expr.Coarse) + " × " + u.Length(r.Width, expr.Coarse) +
			", for " + strings.Join(restCodes(w.b, i+1), ", ")
		if left, kept := keptOf(w.b, i+1); kept {
			text += "; keep " + u.Length(left.Length, expr.Coarse)
		}
		f := pennant{x: box.Min.X + 0.8, width: lettering.Width(text, narrow) + 1.4, text: text, from: box.Max.Y - 0.8}
		if free := box.Max.X - w.ends(i+1); free > 1.6 {
			f.x, f.from = box.Max.X-free/2, (box.Min.Y+box.Max.Y)/2
		}
		w.under = append(w.under, f)
	}
}

// ends is where on paper the pieces of a rest end.
func (w *barWriter) ends(rest int) float64 {
	end := 0.0
	for _, p := range w.b.Pieces {
		if p.Rest == rest {
			end = max(end, (p.Along+p.Length)/w.k)
		}
	}
	return end
}

// hint says which face a part needs when there is room for the word.
func (w *barWriter) hint(p *cutting.Placed, box geom.Box, wide float64) {
	if p.Face == "" {
		return
	}
	room := (box.W()-wide)/2 - 3
	if lettering.Width(p.Face, narrow) > room {
		return
	}
	w.add(lettering.Line(geom.Pt{X: box.Max.X - 1.5, Y: (box.Min.Y+box.Max.Y)/2 - lettering.Cap(narrow)/2}, p.Face, narrow, toRight)...)
}

// fly draws one flag below the bar.
func (w *barWriter) fly(f pennant) {
	y := w.bottom - 2 - float64(f.row+1)*flagPitch + (flagPitch-labelTab)/2
	w.add(render.Stroke{Pen: render.Hairline, Paths: []render.Path{render.Lines(geom.Pt{X: f.x, Y: f.from}, geom.Pt{X: f.x, Y: y})}})
	w.add(render.Fill{Paths: []render.Path{render.Circle(geom.Pt{X: f.x, Y: f.from}, 0.45)}})
	at := geom.Pt{X: f.x + 1.2, Y: y}
	if f.left {
		at.X = f.x - f.width + 0.2
	}
	if f.piece == nil {
		w.add(lettering.Line(geom.Pt{X: at.X, Y: y + labelTab/2 - lettering.Cap(narrow)/2}, f.text, narrow, toLeft)...)
		return
	}
	w.tabbed(at, f.piece.Code, f.text, labelTab)
}

// tabbed sets a tab with a text beside it.
func (w *barWriter) tabbed(at geom.Pt, code, text string, tab float64) {
	items, wide := lettering.Tab(at, code, "", tab, w.d.accent)
	w.add(items...)
	w.add(lettering.Line(geom.Pt{X: at.X + wide + 1.2, Y: at.Y + tab/2 - lettering.Cap(narrow)/2}, text, narrow, toLeft)...)
}

// numbers collects the order of the cuts on flags over the bar, and returns the
// height they take.
func (w *barWriter) numbers() float64 {
	for _, c := range w.b.Cuts {
		f := pennant{text: digits(c.N)}
		switch c.Kind {
		case cutting.Trim:
			f.text += " trim"
			f.x = c.At / w.k
		case cutting.Rip:
			f.text += " rip"
			f.x = c.From/w.k + 1.4
		case cutting.Slant:
			f.text += " taper"
			f.x = (c.From + c.To) / 2 / w.k
		default:
			f.x = c.At / w.k
		}
		f.width = lettering.Width(f.text, small) + 1.4
		f.from = c.At // kept in board mm until the bar has its height
		f.inside = c.Kind == cutting.Rip
		if c.Kind == cutting.Slant {
			f.from, f.inside = (c.At+c.Stop)/2, true
		}
		w.over = append(w.over, f)
	}
	return float64(w.over.arrange(bodyW)) * 3.4
}

// placeNumbers draws the flags over the bar.
func (w *barWriter) placeNumbers() {
	for _, f := range w.over {
		y := w.top + 1.8 + float64(f.row)*3.4
		from := w.top
		if f.inside {
			from = w.bottom + f.from/w.k
		}
		w.add(render.Stroke{Pen: render.Hairline, Paths: []render.Path{render.Lines(geom.Pt{X: f.x, Y: from}, geom.Pt{X: f.x, Y: y + 1.9})}})
		if f.left {
			w.add(lettering.Line(geom.Pt{X: f.x - 1.1, Y: y}, f.text, small, toRight)...)
			continue
		}
		w.add(lettering.Line(geom.Pt{X: f.x + 1.1, Y: y}, f.text, small, toLeft)...)
	}
}
