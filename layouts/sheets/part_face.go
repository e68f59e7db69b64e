package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// face draws the part on its face with its dimensions and moves down past it.
// Where a dimension finds no room beside a wide view, the view is made narrower.
func (b *partPage) face() {
	best := b.bestFace([]float64{plateW, plateW - 14, plateW - 28})
	for _, s := range best.lost {
		b.d.problem("part %s: %s", b.p.Code, s)
	}
	b.drop(best.items, best.used)
	b.caption(b.faceWords(), b.view.k)
}

// bestFace draws the face at the first of some widths at which nothing is lost,
// or the least is.
func (b *partPage) bestFace(widths []float64) faceView {
	var best faceView
	for i, wide := range widths {
		if f := b.faceAt(wide); i == 0 || len(f.lost) < len(best.lost) {
			best = f
		}
		if len(best.lost) == 0 {
			break
		}
	}
	b.view, b.seen = best.view, best.seen
	return best
}

// A faceView is a part drawn on its face, round the origin.
type faceView struct {
	view  *plate
	seen  []render.Path
	items []render.Item
	used  geom.Box
	lost  []string
}

// faceAt draws the face no wider than wide mm.
func (b *partPage) faceAt(wide float64) faceView {
	b.setView(wide)
	v := b.view
	seen, hidden := v.lines()
	b.seen = seen
	blank := v.blank()
	art := []render.Item{render.Fill{Paths: []render.Path{v.outlineBroken()}, Tone: render.Paper}}
	if len(blank) > 0 {
		art = append(art, render.Stroke{Paths: blank, Pen: render.Ghost})
	}
	art = append(art, render.Stroke{Paths: hidden, Pen: render.Hidden}, render.Stroke{Paths: seen, Pen: render.Outline})
	holes, ink := b.holeArt()
	art = append(art, holes...)
	f := dims.Field{Box: geom.Box{Min: pt(0, -80), Max: pt(b.room, 80+v.p.Width*v.k)}, Low: b.low}
	f.Ink = slices.Concat(seen, hidden, ink, blank)
	f.Body = geom.Box{Min: v.at, Max: v.at.Add(pt(v.width(), v.p.Width*v.k))}
	marks, keep := b.inner()
	f.Keep = append(f.Keep, keep...)
	placed, used, lost := b.place(f)
	return faceView{v, seen, slices.Concat(art, marks, placed), used, lost}
}

// setView sets the part out at its scale, no wider than wide mm.
func (b *partPage) setView(wide float64) {
	v := facing(b.p)
	v.wide = wide
	v.size(b.unit())
	v.at = pt((b.room-v.width())/2, 0)
	if !v.twoSided() { // more room for the sizes at the left
		v.at.X = max(v.at.X, min(b.room-v.width()-12, 34))
	}
	b.view = v
	b.wordLetters()
}

// place sets the dimensions. When a note finds no room, or two things come too
// near each other, it tries again with the notes pointing at other holes of
// their groups, and keeps the best.
func (b *partPage) place(f dims.Field) (items []render.Item, used geom.Box, lost []string) {
	const tries = 4
	least := math.MaxInt
	for b.other = range tries {
		i, u, l := dims.Place(f, b.wishes()...)
		faults := 10*len(l) + len(inspect.Collisions(i))
		if faults < least {
			items, used, lost, least = i, u, l, faults
		}
		if least == 0 {
			break
		}
	}
	return items, used, lost
}

// drop puts a drawing made round the origin under what is there already.
func (b *partPage) drop(items []render.Item, used geom.Box) {
	b.add(Moved(items, pt(0, b.y-1.5-used.Max.Y))...)
	b.y -= 1.5 + used.H() + 2
}

// caption names a view, with its scale and a bar.
func (b *partPage) caption(name string, k float64) {
	b.y -= 4
	items, w := dims.Caption(pt(0, b.y), name, k)
	b.add(items...)
	_, size := dims.ScaleBar(geom.Pt{}, k, b.unit())
	bar, _ := dims.ScaleBar(pt(max(w+4, min(max(w+8, 128), bodyW-size.W)), b.y), k, b.unit())
	b.add(bar...)
	b.y -= 2.6
}

// faceWords says which face, end and edge the reader is looking at.
func (b *partPage) faceWords() string {
	n := b.p.Names
	i := b.view.shown()
	s := "Face view"
	if n.Faces[i] != "" {
		s = upper(faceName(b.p, i))
	}
	if b.p.Hand == model.Pair {
		s += " of the right one"
	}
	if n.Ends[0] != "" {
		s += ", " + n.Ends[0] + " end at the left"
	}
	if n.Edges[0] != "" {
		where := "below"
		if b.view.flip {
			where = "above"
		}
		s += ", " + n.Edges[0] + " edge " + where
	}
	return s
}

// outlineBroken is the outline as the view shows it, for a white ground.
func (v *plate) outlineBroken() render.Path {
	var pts []geom.Pt
	for _, q := range v.p.Board.Outline.Flatten(0.2) {
		pts = append(pts, v.pt(q.X, q.Y))
	}
	return render.Loop(pts...)
}

// inner puts the grain arrow and the face mark on the wood where nothing is.
func (b *partPage) inner() (items []render.Item, keep []geom.Box) {
	v := b.view
	high := v.p.Width * v.k
	if high < 7 {
		return nil, nil
	}
	lo, hi := v.plain()
	x0, x1 := v.x(lo), v.x(hi)
	if v.broken() { // the longer side of the break
		x1 = v.x(v.gone[0]) - 2
		if v.width()-v.x(v.gone[1]) > x1 {
			x0, x1 = v.x(v.gone[1])+2, v.x(hi)
		}
	}
	if m, ok := v.middle(); ok && v.x(m) > x0 && v.x(m) < x1 && !b.hides("center") {
		x0 = v.x(m) // in the half away from the sizes across
	}
	if x1-x0 < 16 {
		return nil, nil
	}
	long := min(18, x1-x0-6)
	c := pt(v.at.X+(x0+x1)/2, b.quietLevel(3))
	if v.p.Face != "" && v.p.Names.Faces[v.shown()] == v.p.Face && x1-x0 > 38 && high > 12 { // both in the middle together
		c = pt(c.X-6, b.quietLevel(4.2))
		m := pt(c.X+16, c.Y)
		items = append(items, FaceMark(m)...)
		keep = append(keep, geom.Box{Min: m, Max: m}.Grow(3.6))
	}
	items = append(items, GrainArrow(c, long)...)
	keep = append(keep, geom.Box{Min: c, Max: c}.Grow(1).Union(geom.Box{Min: c.Add(pt(-long/2, -0.9)), Max: c.Add(pt(long/2, 0.9))}))
	return items, keep
}

// quietLevel is a height on the wood that no size across is led over: the lines
// of what lies at the far end run to the left past it. It is as far from them
// as can be, within the board by room mm.
func (b *partPage) quietLevel(room float64) float64 {
	v := b.view
	high := v.p.Width * v.k
	levels := []float64{0, high}
	if v.symmetric() {
		levels = append(levels, high/2)
	}
	for _, h := range b.laidOut() {
		levels = append(levels, v.pt(h.Along, h.Across).Y-v.at.Y)
	}
	for _, q := range v.p.Pockets {
		levels = append(levels, v.pt(q.Along, q.Across).Y-v.at.Y)
	}
	best, far := high/2, -1.0
	for _, share := range [...]float64{0.36, 0.5, 0.64, 0.25, 0.75, 0.18, 0.82} {
		y := share * high
		gap := room
		for _, l := range levels {
			gap = min(gap, math.Abs(l-y))
		}
		if gap > far+1e-6 {
			best, far = y, gap
		}
	}
	return v.at.Y + best
}

// symmetric reports whether the part is the same on both sides of its middle.
func (v *plate) symmetric() bool {
	for _, t := range v.p.Tapers {
		if t.Edge == 2 {
			return true
		}
	}
	return false
}

// letter stands in for a size that differs within a family, if it does.
func (b *partPage) letter(key, text string) string {
	for _, c := range b.view.letters {
		if slices.Contains(c.keys, key) {
			return c.letter
		}
	}
	return text
}
