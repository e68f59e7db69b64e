package tiles

import (
	"math"
	"slices"
	"strconv"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// gutter is the room between columns, and between a picture and its words, in mm.
const gutter = 8.0

// Pages draws the finished range: maps of all templates, then their tiles; small
// pieces share sheets. The page numbers printed run from look.First. A layout
// without tiles has no part in it.
func Pages(ls []Layout, look Look) Run {
	if !slices.ContainsFunc(ls, func(l Layout) bool { return len(l.Tiles) > 0 }) {
		return Run{Layouts: ls, Starts: make([]int, len(ls)), On: make([][]int, len(ls))}
	}
	k := pack(ls, look)
	// The maps name the pages of the tiles, which follow the maps: go round until
	// the number of map pages is the one that was assumed.
	run := Run{Layouts: k.layouts}
	maps := 1
	for range 4 {
		run.On = k.on(maps)
		run.Pages = mapPages(k, run.On, look)
		if len(run.Pages) == maps {
			break
		}
		maps = len(run.Pages)
	}
	run.Maps = len(run.Pages)
	for _, on := range run.On {
		first := run.Maps
		if len(on) > 0 {
			first = slices.Min(on)
		}
		run.Starts = append(run.Starts, first)
	}
	for _, spots := range k.sheets {
		page, _ := k.draw(spots, look.First+len(run.Pages), look)
		run.Pages = append(run.Pages, page)
	}
	return run
}

// mapPages sets the maps on as few pages as they need.
func mapPages(k packing, on [][]int, look Look) []render.Page {
	var rest []block
	for i, l := range k.layouts {
		if len(l.Tiles) > 0 {
			rest = append(rest, block{l: l, look: look, on: on[i], high: pictureHeights[0]})
		}
	}
	var pages []render.Page
	for len(pages) == 0 || len(rest) > 0 {
		n := len(pages)
		items, choices := k.front(n)
		set := fillPage(rest, choices)
		if len(set) == 0 && n > 0 {
			set = []placed{{rest[0], choices[0][0]}} // higher than a page: let it be seen that it is
		}
		for _, p := range set {
			items = append(items, p.draw(p.in.at, p.in.wide)...)
		}
		rest = rest[len(set):]
		pages = append(pages, k.mapPage(look, n, items))
	}
	return pages
}

// mapPage makes the page n of the maps, with its foot line.
func (k packing) mapPage(look Look, n int, items []render.Item) render.Page {
	p, number := k.layouts[0].Paper, look.First+n
	what := "Not to scale"
	if n == 0 {
		what = "Not to scale, but the squares and bars are full size"
	}
	return render.Page{Name: strconv.Itoa(number), Title: "Template map", Size: p.Size,
		Items: append(footLine(p, look, number, what), items...)}
}

// front sets what stands before the maps on page n: the title; on the first page
// also the print check, how the sheets go together, and how many there are. It
// returns with it the ways in which the room below may be divided into columns.
func (k packing) front(n int) ([]render.Item, [][]column) {
	p := k.layouts[0].Paper
	left, foot := p.at().X, margin+7
	title := lettering.Style{Face: fonts.CondBold, Size: render.Head}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	y := p.Size.H - margin - lettering.Cap(title)
	items := lettering.Line(geom.Pt{X: left, Y: y}, "Full-size templates", title, render.Left)
	y -= 6.5
	items = append(items, lettering.Line(geom.Pt{X: left, Y: y}, k.purpose(), body, render.Left)...)
	if n > 0 {
		return items, divided(geom.Pt{X: left, Y: y - 8}, foot)
	}
	y -= 5
	items = append(items, lettering.Line(geom.Pt{X: left, Y: y}, k.economy(), body, render.Left)...)
	y -= 7
	items = append(items, k.printCheck(geom.Pt{X: left, Y: y - square})...)
	x := left + square + gutter
	how, used := k.howTo(geom.Pt{X: x, Y: y}, left+field-x)
	items = append(items, how...)
	under, beside := y-square-gutter, y
	if used > 0 {
		beside -= used + gutter
	}
	return items, [][]column{
		{{geom.Pt{X: left, Y: math.Min(under, beside)}, field, foot}},
		{{geom.Pt{X: left, Y: under}, square, foot}, {geom.Pt{X: x, Y: beside}, left + field - x, foot}},
	}
}

// purpose says in a line what the maps are for.
func (k packing) purpose() string {
	words := "The shapes to trace, each whole on one sheet."
	switch {
	case k.any(func(l Layout) bool { return len(l.Joints) > 0 }):
		words = "What belongs together, in which order to tape it, and what to prove before you cut."
	case k.any(func(l Layout) bool { return len(l.Breaks) > 0 }):
		words = "Where each piece lies on the board, and what to prove with a tape before you cut."
	}
	if k.any(func(l Layout) bool { return len(l.Dropped) > 0 }) {
		words += " Crossed out: not printed."
	}
	return words
}

// any reports whether a template that is printed is so.
func (k packing) any(so func(Layout) bool) bool {
	return slices.ContainsFunc(k.layouts, func(l Layout) bool { return len(l.Tiles) > 0 && so(l) })
}

// square is the side of the outer square of the print check, in mm.
const square = 4 * inch

// printCheck draws the square of 4 in with the one of 100 mm inside it, sharing
// the lower-left corner, and in it what to measure.
func (k packing) printCheck(at geom.Pt) []render.Item {
	box := func(side float64) geom.Box {
		return geom.Box{Min: at, Max: at.Add(geom.Pt{X: side, Y: side})}
	}
	items := []render.Item{render.Group{Name: "calibration square", Items: []render.Item{
		render.Stroke{Paths: []render.Path{render.Rect(box(square))}, Pen: render.Pen{Width: 0.25}},
		render.Stroke{Paths: []render.Path{render.Rect(box(100))}, Pen: render.Pen{Width: 0.18}},
	}}}
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	x, y := at.X+7, at.Y+91
	tape := "Paper is not a tape measure"
	if k.any(func(l Layout) bool { return len(l.Joints) > 0 }) {
		tape = "Paper taped together is not a tape measure"
	}
	items = append(items, lettering.Line(geom.Pt{X: x, Y: y}, "First prove the printer", bold, render.Left)...)
	y -= 6
	for _, words := range []string{
		"The outer square is 4 in a side, the inner one 100 mm, both full size. Measure one of them up and across with the " +
			"tape you will build with. If either side is off by more than 1⁄32 in or 0.8 mm, stop: in the print dialog choose " +
			"“Actual size” or 100 %, never “Fit to page” or “Shrink”, and print this page again.",
		"Then print all sheets of a template in one go, on one kind of paper. Each carries the same two bars, 2 in and 50 mm, " +
			"along and up the page.",
		tape + ": the lengths marked T1, T2 on the sheets are proved with a real one.",
	} {
		text, used := lettering.Paragraph(geom.Pt{X: x, Y: y}, words, 86, body)
		items = append(items, text...)
		y -= used + 2.5
	}
	return items
}
