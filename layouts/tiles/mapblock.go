package tiles

import (
	"fmt"
	"math"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// Measures of one template's map, in mm.
const (
	pictureW = 84.0 // most room for the thumbnail
	share    = 0.4  // of a column's width a thumbnail may take
	between  = 1.4  // paragraphs

	labelRoom = 6.5 // least width of a tile in a thumbnail
)

// pictureHeights are the heights a thumbnail may have, the most first. All of a page
// have the same.
var pictureHeights = [...]float64{74, 66, 58, 50}

// A block is one template's map: its thumbnail with the words beside it.
type block struct {
	l    Layout
	look Look
	on   []int   // indexes of its tiles' pages
	high float64 // most of its thumbnail
}

// height is what b takes in a column of the given width. A column in which the
// labels of tiles side by side would have no room is no place for b.
func (b block) height(wide float64) float64 {
	scale, size := b.thumb(wide)
	if wide < field && b.l.Cols > 1 && b.l.Paper.Live().W*scale < labelRoom {
		return math.Inf(1)
	}
	_, words := b.words(geom.Pt{}, wide-size.W*scale-gutter, wide)
	return math.Max(words, size.H*scale)
}

// draw sets b with its upper left corner at top.
func (b block) draw(top geom.Pt, wide float64) []render.Item {
	scale, size := b.thumb(wide)
	right := size.W*scale + gutter
	items, _ := b.words(top.Add(geom.Pt{X: right}), wide-right, wide)
	return append(items, b.l.thumbnail(top, scale, size))
}

// words sets what is said beside the thumbnail, room mm wide in a column of the
// width wide, and returns the height used. Narrow columns have narrow type.
func (b block) words(top geom.Pt, room, wide float64) ([]render.Item, float64) {
	bold := lettering.Style{Face: fonts.SansBold, Size: render.Step}
	body := lettering.Style{Face: fonts.Sans, Size: render.Body}
	if wide < field {
		body.Face = fonts.Cond
	}
	l := b.l
	tab, w := lettering.Tab(geom.Pt{X: top.X, Y: top.Y - 8}, l.Code, l.Hand, 8, b.look.Accent)
	name := lettering.Shorten(l.Name, room-w-3, bold)
	items := append(tab, lettering.Line(geom.Pt{X: top.X + w + 3, Y: top.Y - 5.6}, name, bold, render.Left)...)
	y := top.Y - 11
	for _, s := range b.says() {
		in := 0.0
		if words, ok := strings.CutPrefix(s, "☐ "); ok { // its further lines stand in under the first
			in, s = lettering.Width("☐ ", body), words
			items = append(items, lettering.Line(geom.Pt{X: top.X, Y: y - lettering.Cap(body)}, "☐", body, render.Left)...)
		}
		text, used := lettering.Paragraph(geom.Pt{X: top.X + in, Y: y}, s, room-in, body)
		items = append(items, text...)
		y -= used + between
	}
	table, used := familyTable(geom.Pt{X: top.X, Y: y - 1}, l.Family, room)
	return append(items, table...), top.Y - y + used
}

// says lists the paragraphs of b.
func (b block) says() []string {
	l := b.l
	out := []string{l.count(b.look.First, b.on)}
	if l.Note != "" {
		out = append([]string{l.Note}, out...)
	}
	if l.Half {
		out = append(out, "One half of the part. Cut along the fold line, trace, turn the paper over on that line and trace the other half.")
	}
	out = append(out, l.taping(b.look)...)
	return append(out, l.proofs(b.look)...)
}

// thumb returns the scale and the full size of the assembled picture in a column of
// the given width.
func (b block) thumb(wide float64) (scale float64, size geom.Size) {
	whole := b.l.whole()
	scale = math.Min(math.Min(pictureW, wide*share)/whole.W(), b.high/whole.H())
	return math.Min(scale, 0.15), geom.Size{W: whole.W(), H: whole.H()}
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
	items = append(items, l.thumbLabels(items, frame)...)
	return render.Group{Name: fmt.Sprintf("map %s", l.Code), Items: items}
}
