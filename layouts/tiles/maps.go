package tiles

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

const fine = expr.Fine

// Measures of a map page, in mm.
const (
	pictureW = 84.0 // room for the thumbnail
	pictureH = 74.0
	gutter   = 8.0
)

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

// A block is one template on a map page.
type block struct {
	height float64
	draw   func(top geom.Pt) []render.Item
}

// mapPages sets the blocks on as few pages as they need, in order.
func mapPages(k packing, on [][]int, look Look) []render.Page {
	ls := k.layouts
	p := ls[0].Paper
	left, top := p.at().X, p.Size.H-margin
	bottom := margin + 7
	page := func(n int) (render.Page, float64) {
		number := look.First + n
		items := footLine(p, look, number, "Not to scale, but the squares and bars are full size")
		if n > 0 {
			items = footLine(p, look, number, "Not to scale")
		}
		head, y := heading(geom.Pt{X: left, Y: top}, n, k.economy())
		return render.Page{Name: strconv.Itoa(number), Title: "Template map", Size: p.Size, Items: append(items, head...)}, y
	}
	var pages []render.Page
	now, y := page(0)
	for i, l := range ls {
		if len(l.Tiles) == 0 {
			continue
		}
		b := l.block(look, on[i])
		if y-b.height < bottom && (i > 0 || len(pages) > 0) {
			pages = append(pages, now)
			now, y = page(len(pages))
		}
		now.Items = append(now.Items, b.draw(geom.Pt{X: left, Y: y})...)
		y -= b.height + gutter
	}
	return append(pages, now)
}

// heading sets the title; on the first page also the print check and how the
// sheets go together, and how many there are. It returns where the room below begins.
func heading(top geom.Pt, n int, economy string) ([]render.Item, float64) {
	title := lettering.Style{Face: fonts.CondBold, Size: render.Head}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	y := top.Y - lettering.Cap(title)
	items := lettering.Line(geom.Pt{X: top.X, Y: y}, "Full-size templates", title, render.Left)
	y -= 6.5
	purpose := "What belongs together, in which order to tape it, and what to prove with a tape before you cut."
	items = append(items, lettering.Line(geom.Pt{X: top.X, Y: y}, purpose, body, render.Left)...)
	y -= 8
	if n > 0 {
		return items, y
	}
	items = append(items, lettering.Line(geom.Pt{X: top.X, Y: y + 3}, economy, body, render.Left)...)
	y -= 4
	items = append(items, printCheck(geom.Pt{X: top.X, Y: y - 4*inch})...)
	x := top.X + 4*inch + gutter
	how, used := tapingPicture(geom.Pt{X: x, Y: y}, top.X+field-x)
	items = append(items, how...)
	return items, y - math.Max(4*inch, used) - gutter
}

// printCheck draws the square of 4 in with the one of 100 mm inside it, sharing
// the lower-left corner, and in it what to measure.
func printCheck(at geom.Pt) []render.Item {
	square := func(side float64) geom.Box {
		return geom.Box{Min: at, Max: at.Add(geom.Pt{X: side, Y: side})}
	}
	items := []render.Item{render.Group{Name: "calibration square", Items: []render.Item{
		render.Stroke{Paths: []render.Path{render.Rect(square(4 * inch))}, Pen: render.Pen{Width: 0.25}},
		render.Stroke{Paths: []render.Path{render.Rect(square(100))}, Pen: render.Pen{Width: 0.18}},
	}}}
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	x, y := at.X+7, at.Y+91
	items = append(items, lettering.Line(geom.Pt{X: x, Y: y}, "First prove the printer", bold, render.Left)...)
	y -= 6
	for _, words := range []string{
		"The outer square is 4 in a side, the inner one 100 mm, both full size. Measure one of them up and across with the " +
			"tape you will build with. If either side is off by more than 1⁄32 in or 0.8 mm, stop: in the print dialog choose " +
			"“Actual size” or 100 %, never “Fit to page” or “Shrink”, and print this page again.",
		"Then print all sheets of a template in one go, on one kind of paper. Each carries the same two bars, 2 in and 50 mm, " +
			"along and up the page.",
		"Paper taped together is not a tape measure: the lengths marked T1, T2 on the sheets are proved with a real one.",
	} {
		text, used := lettering.Paragraph(geom.Pt{X: x, Y: y}, words, 86, body)
		items = append(items, text...)
		y -= used + 2.5
	}
	return items
}

// block measures one template's map.
func (l Layout) block(look Look, on []int) block {
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	scale, size := l.thumb()
	picture := size.W*scale + gutter
	words := func(top geom.Pt) ([]render.Item, float64) {
		x, wide := top.X+picture, field-picture
		tab, w := lettering.Tab(geom.Pt{X: x, Y: top.Y - 8}, l.Code, l.Hand, 8, look.Accent)
		items := append(tab, lettering.Line(geom.Pt{X: x + w + 3, Y: top.Y - 5.6}, lettering.Shorten(l.Name, wide-w-3, bold), bold, render.Left)...)
		y := top.Y - 11.5
		para := func(s string) {
			text, used := lettering.Paragraph(geom.Pt{X: x, Y: y}, s, wide, body)
			items = append(items, text...)
			if s != "" {
				y -= used + 1.6
			}
		}
		para(l.count(look.First, on))
		para(l.Note)
		if l.Half {
			para("One half of the part. Cut along the fold line, trace, turn the paper over on that line and trace the other half.")
		}
		for _, s := range l.taping(look) {
			para(s)
		}
		if checks := l.Checks(look); len(checks) > 0 {
			para("Prove with a tape before cutting:")
			for _, s := range checks {
				para("☐ " + s)
			}
		}
		table, used := familyTable(geom.Pt{X: x, Y: y - 1}, l.Family, wide)
		return append(items, table...), top.Y - y + used
	}
	_, high := words(geom.Pt{})
	return block{
		height: math.Max(high, size.H*scale),
		draw: func(top geom.Pt) []render.Item {
			items, _ := words(top)
			return append(items, l.thumbnail(top, scale, size))
		},
	}
}

// thumb returns the scale and the full size of the assembled picture.
func (l Layout) thumb() (scale float64, size geom.Size) {
	b := l.whole()
	scale = math.Min(pictureW/b.W(), pictureH/b.H())
	scale = math.Min(scale, 0.15)
	return scale, geom.Size{W: b.W(), H: b.H()}
}

// whole is the box round all windows, dropped ones too.
func (l Layout) whole() geom.Box {
	b := geom.NoBox()
	for _, t := range l.Tiles {
		b = b.Union(t.Window)
	}
	for _, t := range l.Dropped {
		b = b.Union(t.Window)
	}
	return b
}

// thumbnail draws the tiles put together, with the part on them.
func (l Layout) thumbnail(top geom.Pt, scale float64, size geom.Size) render.Item {
	from := l.whole().Min
	corner := geom.Pt{X: top.X, Y: top.Y - size.H*scale}
	at := func(p geom.Pt) geom.Pt { return p.Sub(from).Mul(scale).Add(corner) }
	frame := func(t Tile) geom.Box {
		b := geom.Box{Min: at(t.Window.Min), Max: at(t.Window.Max)}
		// Each sheet ends where it is trimmed, so that the picture shows who lies on top.
		for _, j := range l.Joints {
			if u := l.Tiles[j.Under]; u == t && j.Upright {
				b.Min.X = at(l.Seam(j).Max).X
			} else if u == t {
				b.Min.Y = at(l.Seam(j).Max).Y
			}
		}
		return b
	}
	var items []render.Item
	for _, t := range l.Tiles {
		items = append(items, render.Stroke{Paths: []render.Path{render.Rect(frame(t))}, Pen: render.Rule})
	}
	for _, t := range l.Dropped {
		b := geom.Box{Min: at(t.Window.Min.Add(geom.Pt{X: Overlap, Y: Overlap})), Max: at(t.Window.Max.Sub(geom.Pt{X: Overlap, Y: Overlap}))}
		x := []render.Path{render.Rect(b), render.Lines(b.Min, b.Max),
			render.Lines(geom.Pt{X: b.Min.X, Y: b.Max.Y}, geom.Pt{X: b.Max.X, Y: b.Min.Y})}
		items = append(items, render.Group{Name: "dropped " + t.Label(), Items: []render.Item{render.Stroke{Paths: x, Pen: render.Ghost}}})
	}
	shape := render.Path{Closed: true}
	for _, g := range l.Outline {
		g.A, g.B, g.C, g.R = at(g.A), at(g.B), at(g.C), g.R*scale
		shape.Segs = append(shape.Segs, g)
	}
	items = append(items, render.Stroke{Paths: []render.Path{shape}, Pen: render.CutLine})
	for _, h := range l.Holes {
		items = append(items, render.Stroke{Paths: []render.Path{render.Circle(at(h.At), math.Max(0.5, h.Diam/2*scale))}, Pen: render.Hairline})
	}
	items = append(items, l.thumbLabels(frame, at, scale)...)
	return render.Group{Name: fmt.Sprintf("map %s", l.Code), Items: items}
}

// thumbLabels writes each tile's label in its frame, clear of the outline, and
// nearer to it only where the frame is too small for that.
func (l Layout) thumbLabels(frame func(Tile) geom.Box, at func(geom.Pt) geom.Pt, scale float64) []render.Item {
	var items []render.Item
	for _, t := range l.Tiles {
		for _, room := range []float64{1, 0.4} {
			if spot, ok := l.thumbLabel(t, frame(t), at, scale, room); ok {
				items = append(items, lettering.Line(spot, t.Label(), boldSmall, render.Left)...)
				break
			}
		}
	}
	return items
}

// thumbLabel finds a place in the frame b for the label of t that keeps room
// from every line.
func (l Layout) thumbLabel(t Tile, b geom.Box, at func(geom.Pt) geom.Pt, scale, room float64) (geom.Pt, bool) {
	d := desk.New(b)
	for _, g := range clip(l.Outline, t.Window) {
		g.A, g.B, g.C, g.R = at(g.A), at(g.B), at(g.C), g.R*scale
		d.BlockLine(g, room)
	}
	for _, h := range l.Holes {
		p := at(h.At)
		d.Block(geom.Box{Min: p, Max: p}.Grow(math.Max(0.5, h.Diam/2*scale) + room))
	}
	size := textBox(t.Label(), boldSmall)
	size.H = lettering.Cap(boldSmall)
	spot, ok := d.Room(desk.Want{Size: size, Near: b.Min.Add(b.Max).Mul(0.5), Within: b, Pad: room})
	return spot.Min, ok
}

// familyTable sets the table of a family, figures to the right, and returns the
// height used. A long table goes on beside itself while there is room.
func familyTable(top geom.Pt, rows [][]string, room float64) ([]render.Item, float64) {
	const pitch, shortest = 5.8, 8
	if len(rows) == 0 {
		return nil, 0
	}
	widths := columnWidths(rows)
	total := 0.0
	for _, w := range widths {
		total += w
	}
	body := rows[1:]
	blocks := max(1, min(int((room+gutter)/(total+gutter)), len(body)/shortest))
	each := (len(body) + blocks - 1) / blocks
	var items []render.Item
	for b := range blocks {
		from := min(b*each, len(body))
		part := append([][]string{rows[0]}, body[from:min(from+each, len(body))]...)
		for i, row := range part {
			at := geom.Pt{X: top.X + float64(b)*(total+gutter), Y: top.Y - float64(i+1)*pitch}
			items = append(items, tableRow(at, row, widths, i == 0)...)
		}
	}
	return items, float64(each+1)*pitch + 2
}

// cellStyle is the type of a table, heads and the rest.
func cellStyle(head bool) lettering.Style {
	if head {
		return lettering.Style{Face: fonts.CondBold, Size: render.Body}
	}
	return lettering.Style{Face: fonts.Cond, Size: render.Body}
}

func columnWidths(rows [][]string) []float64 {
	var widths []float64
	for i, row := range rows {
		for c, s := range row {
			if c == len(widths) {
				widths = append(widths, 0)
			}
			widths[c] = math.Max(widths[c], lettering.Width(s, cellStyle(i == 0))+5)
		}
	}
	return widths
}

// tableRow sets one row over its rule, which starts at at.
func tableRow(at geom.Pt, row []string, widths []float64, head bool) []render.Item {
	var items []render.Item
	x := at.X
	for c, w := range widths {
		if c < len(row) && c == 0 {
			items = append(items, lettering.Line(geom.Pt{X: x, Y: at.Y + 1.75}, row[c], cellStyle(head), render.Left)...)
		} else if c < len(row) {
			items = append(items, lettering.Line(geom.Pt{X: x + w, Y: at.Y + 1.75}, row[c], cellStyle(head), render.Right)...)
		}
		x += w
	}
	rule := render.Lines(at, geom.Pt{X: x, Y: at.Y})
	return append(items, render.Stroke{Paths: []render.Path{rule}, Pen: render.Rule})
}
