package sheets

import (
	"slices"

	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// Measures of the parts that a step makes, each by itself, mm of paper.
const (
	madeLeast   = 60.0 // the longest of them, at least, unless that is too large
	madeMost    = 96.0 // the longest, at most
	madeLegible = 24.0 // the shortest, at least: below it a part has a scale of its own
	madeTab     = 7.0  // high
	madeUnder   = 2.0  // from a part to its tab
	madeGap     = 5.0  // from one to the next
)

// madeScale is the largest scale that parts are shown at: a short one need not fill
// the picture to be known.
const madeScale = 0.3

// A madeList is the parts that a step makes, to be drawn to one scale.
type madeList []made

// A made is one of them: how it reaches as it is drawn, in mm of wood, and how wide
// the words under it are, in mm of paper.
type made struct {
	part  *model.Part
	piece woodwork.Piece
	flat  geom.Box
	words float64
}

// madeList gathers the parts of a step, a family by its first.
func (d *desk) madeList(st *model.Step) madeList {
	var list madeList
	for _, p := range st.Make {
		if p.Family != "" && slices.ContainsFunc(list, func(m made) bool { return m.part.Family == p.Family }) {
			continue
		}
		solid, err := p.Board.Solid(0.1)
		if err != nil {
			continue // it has no outline, and its drawing says so
		}
		piece := woodwork.Piece{Solid: solid, Grain: geom.V3{X: 1}, Look: woodwork.Fresh}
		flat := (&scene{pieces: []woodwork.Piece{piece}}).flatBox(partCamera(p))
		words := lettering.TabWidth(familyOr(p), "", madeTab) + madeUnder + lettering.Width(p.Name, plain)
		if page := d.onPage("part " + p.Code); page != "" {
			words += 1.6 + lettering.Width(page, soft)
		}
		list = append(list, made{p, piece, flat, words})
	}
	return list
}

// longest is how long the longest part is, in mm of wood.
func (l madeList) longest() float64 {
	long := 1.0
	for _, m := range l {
		long = max(long, m.flat.W())
	}
	return long
}

// least is the smallest scale that the parts may be shown at.
func (l madeList) least() float64 { return min(madeLeast/l.longest(), madeScale) }

// scaleIn is the largest scale at which the parts fit in a box, found by halving;
// 0 when they do not at the least.
func (l madeList) scaleIn(box geom.Box) float64 {
	fits := func(scale float64) bool {
		return l.lay(box.W(), scale, nil) <= box.H()
	}
	lo, hi := l.least(), min(madeMost/l.longest(), madeScale)
	if !fits(lo) {
		return 0
	}
	if fits(hi) {
		return hi
	}
	for range 9 { // to a tenth of a millimeter of what is drawn
		if mid := (lo + hi) / 2; fits(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// scale is that of one part where the others have a scale: the same, unless it would
// be too small to know it by.
func (m made) scale(all float64) float64 {
	return max(all, min(madeLegible/m.flat.W(), madeScale))
}

// wide is the width of a part or its words on paper, whichever is wider.
func (m made) wide(all float64) float64 { return max(m.flat.W()*m.scale(all), m.words) }

// A shelf is a row of parts, their lower edges on one line.
type shelf struct {
	parts madeList
	high  float64 // of the highest part
}

// shelves fills rows of a width with the parts in their order and returns them with
// the height of all.
func (l madeList) shelves(width, scale float64) (rows []shelf, high float64) {
	high = l.lay(width, scale, func(m made, h float64, begins bool) {
		if begins {
			rows = append(rows, shelf{})
		}
		row := &rows[len(rows)-1]
		row.parts, row.high = append(row.parts, m), max(row.high, h)
	})
	return rows, high
}

// lay goes through rows of a width and returns the height of all; where it is not
// nil, put is told each part, its height, and whether a row begins with it. A part
// wider than a row makes it too high for any page.
func (l madeList) lay(width, scale float64, put func(m made, high float64, begins bool)) float64 {
	x, row, high := 0.0, 0.0, -madeGap
	for i, m := range l {
		k := m.scale(scale)
		w, h := m.wide(scale), m.flat.H()*k
		if m.flat.W()*k > width+1e-6 {
			return tooHigh
		}
		begins := i == 0 || x+w > width
		if begins {
			high += row
			x, row = 0, 0
		}
		row = max(row, h+madeUnder+madeTab+madeGap)
		x += w + madeGap
		if put != nil {
			put(m, h, begins)
		}
	}
	return high + row
}

// tooHigh is higher than any page, mm.
const tooHigh = 1e6

// makePicture shows the parts a step cuts and shapes, each by itself, to one scale.
func (d *desk) makePicture(st *model.Step, box geom.Box) []render.Item {
	list := d.madeList(st)
	scale := list.scaleIn(box)
	if scale == 0 {
		d.problem("step %d: its parts do not fit into the room for their picture", st.Number)
		scale = list.least()
	}
	rows, high := list.shelves(box.W(), scale)
	between := madeGap
	if n := float64(len(rows)); n > 0 { // what is left goes between the rows
		between += max(0, min((box.H()-high)/n, madeGap))
	}
	var items []render.Item
	y := box.Max.Y
	for _, r := range rows {
		x, foot := box.Min.X, y-r.high
		for _, m := range r.parts {
			items = append(items, d.madeItems(m, pt(x, foot), scale)...)
			x += m.wide(scale) + madeGap
		}
		y = foot - madeUnder - madeTab - between
	}
	return []render.Item{render.Group{Name: "make " + digits(st.Number), Items: items}}
}

// madeItems draw a part as it lies on the bench, the face of its drawing up, with
// its lower left corner at at; under it its tab, its name and its page.
func (d *desk) madeItems(m made, at geom.Pt, all float64) []render.Item {
	p, scale := m.part, m.scale(all)
	size := pt(m.flat.W()*scale, m.flat.H()*scale)
	pic := woodwork.At([]woodwork.Piece{m.piece}, partCamera(p), at.Add(size.Mul(0.5)), scale)
	items := pic.Items()
	low := at.Sub(pt(0, madeUnder+madeTab))
	tab, w := lettering.Tab(low, familyOr(p), "", madeTab, d.accent)
	items = append(items, tab...)
	x, base := low.X+w+madeUnder, low.Y+(madeTab-lettering.Cap(plain))/2
	items = append(items, lettering.Line(pt(x, base), p.Name, plain, toLeft)...)
	if page := d.onPage("part " + p.Code); page != "" {
		x += lettering.Width(p.Name, plain) + 1.6
		items = append(items, lettering.Line(pt(x, base), page, soft, toLeft)...)
		box := geom.Box{Min: low, Max: pt(at.X+m.wide(all), at.Y+size.Y)}
		items = append(items, render.Link{Box: box, Page: d.page("part "+p.Code) - 1})
	}
	return items
}
