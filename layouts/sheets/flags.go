package sheets

import (
	"cmp"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A pennant is a label on a pole: the pole stands at x, the label flies to the
// right of it in one of several rows, row 0 next to the bar.
type pennant struct {
	x, width float64
	row      int
	piece    *cutting.Placed
	text     string
	from     float64 // height at which the pole starts
}

// flags are the labels along one side of a bar.
type flags []pennant

// arrange gives every flag the nearest row in which it crosses neither another
// label nor another pole, and returns the number of rows. Poles that stand at
// one place are Moved apart first. Working from the right, a label may stand in
// a row only if it ends before every pole to its right that reaches that row.
func (f flags) arrange(limit float64) int {
	slices.SortStableFunc(f, func(a, b pennant) int { return cmp.Compare(a.x, b.x) })
	for i := 1; i < len(f); i++ {
		f[i].x = max(f[i].x, f[i-1].x+1.2)
	}
	rows := 0
	for i := len(f) - 1; i >= 0; i-- {
		if over := f[i].x + f[i].width - limit; over > 0 {
			f[i].x -= over
			if i > 0 && f[i].x < f[i-1].x+1.2 {
				f[i-1].x = f[i].x - 1.2
			}
		}
		for f[i].row = 0; !f.clear(i); f[i].row++ {
		}
		rows = max(rows, f[i].row+1)
	}
	return rows
}

// clear reports whether flag i is free of the poles and labels to its right.
func (f flags) clear(i int) bool {
	for _, g := range f[i+1:] {
		if g.row >= f[i].row && f[i].x+f[i].width+1.5 > g.x {
			return false
		}
	}
	return true
}

// label returns the text that goes with a piece's tab and the width of both.
func (w *barWriter) label(p *cutting.Placed, tab float64) (string, float64) {
	text := w.d.plan.Unit.Length(p.Length, expr.Coarse)
	if p.Spare {
		text += " spare"
	}
	return text, lettering.TabWidth(p.Code, "", tab) + 1.2 + lettering.Width(text, narrow)
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
	for _, o := range w.b.Offcuts {
		if !o.Keep {
			continue
		}
		*w.rest++
		box := w.box(o.Along, o.Across, o.Length, o.Width)
		text := "offcut " + digits(*w.rest) + ": " + w.d.plan.Unit.Length(o.Length, expr.Coarse) + " × " + w.d.plan.Unit.Length(o.Width, expr.Coarse)
		wide := lettering.Width(text, narrow)
		if box.W() >= wide+2.4 && box.H() >= lettering.Cap(narrow)+3.2 {
			w.add(lettering.Line(geom.Pt{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y+box.Max.Y)/2 - lettering.Cap(narrow)/2}, text, narrow, toMiddle)...)
			continue
		}
		w.under = append(w.under, pennant{x: box.Min.X + min(box.W()/2, 4), width: wide + 1.4, text: text, from: (box.Min.Y + box.Max.Y) / 2})
	}
	rows := w.under.arrange(bodyW)
	for _, f := range w.under {
		w.fly(f)
	}
	if rows == 0 {
		return 0
	}
	return 2 + float64(rows)*flagPitch
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
		default:
			f.x = c.At / w.k
		}
		f.width = lettering.Width(f.text, small) + 1.4
		f.from = c.At // kept in board mm until the bar has its height
		w.over = append(w.over, f)
	}
	return float64(w.over.arrange(bodyW)) * 3.4
}

// placeNumbers draws the flags over the bar.
func (w *barWriter) placeNumbers() {
	for _, f := range w.over {
		y := w.top + 1.8 + float64(f.row)*3.4
		from := w.top
		if strings.HasSuffix(f.text, "rip") {
			from = w.bottom + f.from/w.k
		}
		w.add(render.Stroke{Pen: render.Hairline, Paths: []render.Path{render.Lines(geom.Pt{X: f.x, Y: from}, geom.Pt{X: f.x, Y: y + 1.9})}})
		w.add(lettering.Line(geom.Pt{X: f.x + 1.1, Y: y}, f.text, small, toLeft)...)
	}
}
