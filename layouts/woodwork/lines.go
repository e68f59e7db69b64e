package woodwork

import (
	"planset/layouts/sight"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// smallScale is the scale below which a heavy outline would run together on
// boards of common thickness.
const smallScale = 0.12

// pens are those of a piece's silhouette and of the edges inside it.
type pens struct{ outline, inner render.Pen }

// pens returns the pens of a look: silhouettes are heavier, so that each piece
// reads as one thing.
func (p *Picture) pens(l Look) pens {
	round := func(width float64) render.Pen { return render.Pen{Width: width, Round: true} }
	small := p.Scale < smallScale
	switch {
	case l == Done:
		thin := round(0.2) // black: a gray hairline breaks into dots on a mono printer
		return pens{thin, thin}
	case l == Metal:
		return pens{round(0.22), round(0.18)}
	case l == Fresh && small:
		return pens{round(0.42), round(0.22)}
	case l == Fresh:
		return pens{round(0.55), round(0.25)}
	case small:
		return pens{round(0.35), round(0.18)}
	}
	return pens{round(0.42), round(0.2)}
}

// lines strokes the edges that are seen, thin ones first so that heavy ones
// cover their ends.
func (p *Picture) lines() []render.Item {
	var thin, heavy [4]render.Stroke
	own := p.own()
	for _, e := range p.drawing.Edges {
		if !e.Visible {
			continue
		}
		i := p.byID[e.Body]
		a, b := p.put(e.A), p.put(e.B)
		to := &heavy[p.pieces[i].Look]
		if own[i].bothSides(a, b) {
			to = &thin[p.pieces[i].Look]
		}
		to.Paths = append(to.Paths, render.Lines(a, b))
	}
	var items []render.Item
	for _, l := range [...]Look{Done, Metal, Natural, Fresh} {
		w := p.pens(l)
		if s := thin[l]; len(s.Paths) > 0 {
			s.Pen = w.inner
			items = append(items, s)
		}
		if s := heavy[l]; len(s.Paths) > 0 {
			s.Pen = w.outline
			items = append(items, s)
		}
	}
	return items
}

// A figure is all of one piece that looks at the eye, hidden or not.
type figure [][][]geom.Pt

// own gathers the figure of each piece.
func (p *Picture) own() []figure {
	out := make([]figure, len(p.pieces))
	for _, a := range p.drawing.Areas {
		i := p.byID[a.Body]
		out[i] = append(out[i], p.loops(a))
	}
	return out
}

// loops puts the loops of an area on the page.
func (p *Picture) loops(a view.Area) [][]geom.Pt {
	loops := make([][]geom.Pt, len(a.Loops))
	for i, l := range a.Loops {
		loops[i] = make([]geom.Pt, len(l))
		for j, q := range l {
			loops[i][j] = p.put(q)
		}
	}
	return loops
}

// bothSides reports whether the figure goes on on both sides of an edge of it,
// so that the edge is not part of its silhouette.
func (f figure) bothSides(a, b geom.Pt) bool {
	const off = 0.06 // mm, less than the thinnest board in a picture
	mid := a.Add(b).Mul(0.5)
	n := b.Sub(a).Unit().Left().Mul(off)
	return f.has(mid.Add(n)) && f.has(mid.Sub(n))
}

func (f figure) has(q geom.Pt) bool {
	for _, loops := range f {
		if sight.Has(loops, q) {
			return true
		}
	}
	return false
}
