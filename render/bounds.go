package render

import (
	"planset/fonts"
	"planset/model/geom"
)

// Bounds returns the box round everything items show, in mm: pens have their
// width, letters their ink, groups stay in their clip. Links show nothing. It
// is exact but for turned texts, of which it holds the turned box of the ink,
// and for the spikes of sharp miter joins.
func Bounds(items ...Item) geom.Box {
	all := geom.NoBox()
	for _, item := range items {
		all = all.Union(boundsOf(item))
	}
	return all
}

func boundsOf(item Item) geom.Box {
	switch item := item.(type) {
	case Stroke:
		if b := boundsOfPaths(item.Paths); !b.Empty() {
			return b.Grow(item.Pen.Width / 2)
		}
	case Fill:
		return boundsOfPaths(item.Paths)
	case Text:
		return item.Ink()
	case Image:
		return item.Box
	case Group:
		b := Bounds(item.Items...)
		if item.Clipped() {
			b = Overlap(b, item.Clip)
		}
		return b
	}
	return geom.NoBox()
}

func boundsOfPaths(paths []Path) geom.Box {
	b := geom.NoBox()
	for _, p := range paths {
		for _, s := range p.Segs {
			b = b.Union(s.Box())
		}
	}
	return b
}

// Overlap returns what a and b have in common; it is empty when they are apart.
func Overlap(a, b geom.Box) geom.Box {
	return geom.Box{
		Min: geom.Pt{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: geom.Pt{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
}

// Start returns where the baseline of t begins, whatever its alignment.
func (t Text) Start() geom.Pt {
	back := 0.0
	switch t.Align {
	case Middle:
		back = fonts.Width(t.Face, t.Size, t.Text) / 2
	case Right:
		back = fonts.Width(t.Face, t.Size, t.Text)
	}
	if t.Angle == 0 {
		return geom.Pt{X: t.At.X - back, Y: t.At.Y}
	}
	return t.At.Sub(geom.Pt{X: back}.Turn(t.Angle))
}

// Ink returns the box round the letters of t, in mm; it is empty when t shows
// nothing. Of a turned text it is the box round the turned box.
func (t Text) Ink() geom.Box {
	e := fonts.Ink(t.Face, t.Size, t.Text)
	b := geom.NoBox()
	if e == (fonts.Extent{}) {
		return b
	}
	start := t.Start()
	for _, c := range []geom.Pt{{X: e.Left, Y: e.Low}, {X: e.Right, Y: e.Low}, {X: e.Right, Y: e.Top}, {X: e.Left, Y: e.Top}} {
		if t.Angle != 0 {
			c = c.Turn(t.Angle)
		}
		b = b.With(start.Add(c))
	}
	return b
}
