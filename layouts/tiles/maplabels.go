package tiles

import (
	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// Thumbnails are so small that the labels of their tiles look for room in a
// picture enlarged: a desk counts in millimetres.
const enlarged = 4.0

// thumbLabels writes each tile's label in its frame, clear of every line that is
// drawn; where the frame is too small for that nearer to the lines, and last
// beside it.
func (l Layout) thumbLabels(drawn []render.Item, frame func(Tile) geom.Box) []render.Item {
	whole := geom.NoBox()
	for _, t := range l.Tiles {
		whole = whole.Union(frame(t))
	}
	d := desk.New(large(whole.Grow(gutter - 1)))
	blockLines(d, drawn)
	var items []render.Item
	left := l.Tiles
	for _, room := range []float64{0.9, 0.5} {
		var still []Tile
		for _, t := range left {
			b := frame(t)
			item, ok := label(d, t, b.Min.Add(b.Max).Mul(0.5), b, room)
			if !ok {
				still = append(still, t)
			}
			items = append(items, item...)
		}
		left = still
	}
	for _, t := range left {
		b := frame(t)
		beside := geom.Box{Min: b.Min.Sub(geom.Pt{Y: 3}), Max: b.Max.Add(geom.Pt{X: gutter - 1, Y: 3})}
		item, _ := label(d, t, geom.Pt{X: b.Max.X + 3, Y: (b.Min.Y + b.Max.Y) / 2}, beside, 0.5)
		items = append(items, item...)
	}
	return items
}

// label sets the label of t as near to a point as room on the desk allows.
func label(d *desk.Desk, t Tile, near geom.Pt, within geom.Box, room float64) ([]render.Item, bool) {
	size := geom.Size{W: lettering.Width(t.Label(), boldSmall) * enlarged, H: lettering.Cap(boldSmall) * enlarged}
	at, ok := d.Room(desk.Want{Size: size, Near: near.Mul(enlarged), Within: large(within), Pad: room * enlarged})
	if !ok {
		return nil, false
	}
	return lettering.Line(at.Min.Mul(1/enlarged), t.Label(), boldSmall, render.Left), true
}

// large is b in the enlarged picture.
func large(b geom.Box) geom.Box { return geom.Box{Min: b.Min.Mul(enlarged), Max: b.Max.Mul(enlarged)} }

// blockLines takes from the enlarged desk all lines of a picture.
func blockLines(d *desk.Desk, items []render.Item) {
	for _, item := range items {
		switch it := item.(type) {
		case render.Group:
			blockLines(d, it.Items)
		case render.Stroke:
			for _, p := range it.Paths {
				for _, g := range p.Segs {
					g.A, g.B, g.C, g.R = g.A.Mul(enlarged), g.B.Mul(enlarged), g.C.Mul(enlarged), g.R*enlarged
					d.BlockLine(g, it.Pen.Width*enlarged/2)
				}
			}
		}
	}
}
