package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// viewGap is the room between two views side by side, mm.
const viewGap = 9.0

// A smallView is a view under the face view, drawn round the origin.
type smallView struct {
	items []render.Item
	used  geom.Box
	name  string
	k     float64
	lost  []string // what found no place
}

// smallViews sets the end view and the edge view side by side on one line, when
// they tell something, and leaves room for notes beside them if there is enough.
func (b *partPage) smallViews() {
	var row []smallView
	x := 0.0
	room := endRoom
	if b.edgeTells() {
		room = bodyW / 2
	}
	if v, ok := b.endView(room); ok {
		row = append(row, v)
		x = max(v.used.W(), v.captionWidth()) + viewGap
	}
	if v, ok := b.edgeView(min(bodyW-x, 96)); ok {
		row = append(row, v)
	}
	if len(row) == 0 {
		return
	}
	high := 0.0
	for _, v := range row {
		high = max(high, v.used.H())
		for _, s := range v.lost {
			b.d.problem("part %s, %s: %s", b.p.Code, v.name, s)
		}
	}
	top, base := b.y, b.y-1.5-high
	x = 0
	for _, v := range row {
		b.add(Moved(v.items, pt(x-v.used.Min.X, base-v.used.Min.Y))...)
		items, _ := dims.Caption(pt(x, base-5.5), v.name, v.k)
		b.add(items...)
		x += max(v.used.W(), v.captionWidth()) + viewGap
	}
	b.y = base - 8.5
	if left := bodyW - x; left >= leastNotes {
		b.side = &leafBox{x: x, top: top - 2, width: left}
	}
}

// endRoom is the most that an end view takes of the width of the page, mm.
const endRoom = 124.0

// besideFace draws the face view with the one small view there is at its right
// instead of under it, when both fit and the face keeps its scale; a plain
// stretch may be left out for it. It reports whether they do.
func (b *partPage) besideFace() bool {
	const left, right, most = 34.0, 14.0, 78.0
	b.setView(plateW)
	usual := b.view.k
	small, ok := b.endView(most)
	if !ok || len(small.lost) > 0 || b.edgeTells() {
		return false
	}
	x := bodyW - max(small.used.W(), small.captionWidth())
	b.room = x - viewGap
	face := b.bestFace([]float64{b.room - left - right, b.room - left - right - 8})
	if len(face.lost) > 0 || b.view.k < usual || b.view.width() < leastView {
		b.room = bodyW
		return false
	}
	top := b.y - 1.5
	b.drop(face.items, face.used)
	b.add(Moved(small.items, pt(x, top).Sub(pt(small.used.Min.X, small.used.Max.Y)))...)
	base := top - small.used.H() - 5.5
	items, _ := dims.Caption(pt(x, base), small.name, small.k)
	b.add(items...)
	b.y = min(b.y, base-2.5)
	b.caption(b.faceWords(), b.view.k)
	return true
}

// leastNotes is the least width of a column of notes, mm.
const leastNotes = 56.0

func (v smallView) captionWidth() float64 {
	_, w := dims.Caption(geom.Pt{}, v.name, v.k)
	return w
}

// endView draws the end of a part, larger, when an edge is beveled or a long
// arris is worked: only there does it tell something.
func (b *partPage) endView(width float64) (smallView, bool) {
	p := b.p
	if !b.endTells() {
		return smallView{}, false
	}
	solid, err := p.Board.Solid(0.05)
	if err != nil {
		return smallView{}, false
	}
	k := b.profileScale()
	const left = 18.0
	cut := b.endCut(k, pt(left+p.Width*k/2, 0))
	art := cut.Wood(solid, geom.V3{X: 1}, render.Edge)
	f := dims.Field{Box: geom.Box{Min: pt(0, -50), Max: pt(width, 50)}}
	for _, l := range cut.Loops(solid) {
		f.Ink = append(f.Ink, render.Loop(l...))
	}
	placed, used, lost := dims.Place(f, b.chosen(b.profileWishes(cut))...)
	used = used.Union(geom.Box{Min: pt(left, -p.Thick*k/2), Max: pt(left+p.Width*k, p.Thick*k/2)})
	return smallView{items: append(art, placed...), used: used, name: b.endWords(), k: k, lost: lost}, true
}

// endTells reports whether the end view tells something.
func (b *partPage) endTells() bool {
	return b.arrisOf(b.p.Names.Edges) || b.p.Edges[0].Bevel != 0 || b.p.Edges[1].Bevel != 0
}

// endCut is the plane of the end view, its middle at at on the page, with the
// shown face up and the reference edge at the left: it is seen from the far end
// when the first face is shown and from the datum end when the second is.
func (b *partPage) endCut(k float64, at geom.Pt) woodwork.Cut {
	p := b.p
	cut := woodwork.Cut{At: geom.V3{X: p.Length / 2, Y: p.Width / 2, Z: p.Thick / 2}, Right: geom.V3{Y: 1}, Up: geom.V3{Z: -1}, Scale: k}
	if b.view.flip {
		cut.Up = geom.V3{Z: 1}
	}
	cut.Page = at
	cut.Window = geom.Box{Min: pt(-10, -60), Max: pt(bodyW, 60)}
	return cut
}

// endWords say from which end the reader looks, and which face is up.
func (b *partPage) endWords() string {
	i := 1
	if b.view.flip {
		i = 0
	}
	s := "End view"
	if name := b.p.Names.Ends[i]; name != "" {
		s += " from the " + name
	}
	return s + ", " + faceName(b.p, b.view.shown()) + " up"
}

// profileScale is the largest standard scale of the end view that is at most
// 60 mm wide, or the next one when that would come out narrower than 40 mm.
func (b *partPage) profileScale() float64 {
	k := 1.0
	for _, s := range standardScales(b.unit()) {
		if b.p.Width/s <= 60 {
			if b.p.Width/s >= leastView {
				k = 1 / s
			}
			break
		}
		k = 1 / s
	}
	return k
}

// leastView is the least length of the long side of a view on paper, mm.
const leastView = 40.0

// profileWishes are the bevels and arrises.
func (b *partPage) profileWishes(c woodwork.Cut) []called {
	p, u := b.p, b.unit()
	at := func(across, thick float64) geom.Pt { return c.Point(geom.V3{X: p.Length / 2, Y: across, Z: thick}) }
	names := counter{}
	thick := dims.Span{Side: dims.LeftOf, A: at(0, 0), B: at(0, p.Thick), Label: dims.Label{Text: u.Length(p.Thick, expr.Coarse)}}
	out := []called{{Wish: thick, name: "thick"}}
	for i, e := range p.Edges {
		if e.Bevel == 0 {
			continue
		}
		long := e.LongFace & 1
		what := p.Names.Edges[i] + " edge's bevel"
		key := b.sawnKey(what, what+", its angle")
		gauge := dims.Gauge{
			At: at(b.bevelMiddle(i), p.Thick/2), Off: leaning(i, e.Bevel, long != b.view.shown()), Prefer: pt(float64(2*i-1), 0.2), Key: key,
			Text: []string{offSquare(e.Bevel), "wider on the " + faceName(p, long)},
		}
		out = append(out, called{Wish: gauge, name: names.name("bevel")})
	}
	for _, a := range p.Arrises {
		if a.Side != p.Names.Edges[0] && a.Side != p.Names.Edges[1] {
			continue // the edge view shows it
		}
		across, thick := 0.0, 0.0
		if a.Side == p.Names.Edges[1] {
			across = p.Width
		}
		if a.Face == p.Names.Faces[1] {
			thick = p.Thick
		}
		in := arrisDepth(a)
		note := dims.Callout{At: at(inward(across, in), inward(thick, in)), Text: b.arrisWords(a), Prefer: pt(1, 0.6)}
		out = append(out, called{Wish: note, name: names.name("arris")})
	}
	return out
}

// inward moves a coordinate from an arris into the wood.
func inward(x, by float64) float64 {
	if x > 0 {
		return x - by
	}
	return by
}

// bevelMiddle is where across the middle of a beveled edge lies.
func (b *partPage) bevelMiddle(edge int) float64 {
	in := b.p.Thick / 2 * math.Tan(math.Abs(b.p.Edges[edge].Bevel))
	if edge == 1 {
		return b.p.Width - in
	}
	return in
}
