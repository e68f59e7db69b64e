// Package inspect reads finished items and tells where they get in each
// other's way: text on text, text on lines, leaders that cross.
//
// It looks only at what would be painted. It does not place or move anything,
// and it does not know what a text says.
package inspect

import (
	"planset/model/geom"
	"planset/render"
)

// Bounds returns the box round the ink of items, for text the box round its
// letters. A group with a clip counts only inside it.
func Bounds(items []render.Item) geom.Box {
	box := geom.NoBox()
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			if item.Text != "" {
				box = box.Union(TextQuad(item).Box())
			}
		case render.Stroke:
			box = box.Union(pathsBox(item.Paths, item.Pen.Width/2))
		case render.Fill:
			box = box.Union(pathsBox(item.Paths, 0))
		case render.Image:
			box = box.Union(item.Box)
		case render.Group:
			box = box.Union(groupBounds(item))
		}
	}
	return box
}

func groupBounds(g render.Group) geom.Box {
	box := Bounds(g.Items)
	if !g.Clipped() || box.Empty() {
		return box
	}
	if !box.Meets(g.Clip) {
		return geom.NoBox()
	}
	return geom.Box{
		Min: geom.Pt{X: max(box.Min.X, g.Clip.Min.X), Y: max(box.Min.Y, g.Clip.Min.Y)},
		Max: geom.Pt{X: min(box.Max.X, g.Clip.Max.X), Y: min(box.Max.Y, g.Clip.Max.Y)},
	}
}

func pathsBox(paths []render.Path, half float64) geom.Box {
	box := geom.NoBox()
	for _, p := range paths {
		for _, s := range p.Segs {
			for _, q := range Chords(s) {
				box = box.With(q)
			}
		}
	}
	if box.Empty() {
		return box
	}
	return box.Grow(half)
}

// Texts returns the places of all texts among items, in order, so that grain
// lines and hatching can leave them free.
func Texts(items []render.Item) []Quad {
	p := read(items)
	quads := make([]Quad, len(p.texts))
	for i, t := range p.texts {
		quads[i] = t.Quad
	}
	return quads
}
