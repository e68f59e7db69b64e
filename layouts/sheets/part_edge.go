package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Sizes of the edge view on paper, mm.
const (
	edgeThick = 16.0 // the most its thickness is drawn
	edgeLong  = 62.0 // the most its length is drawn
	edgePlain = 7.0  // plain wood left on either side of its break
)

// edgeView draws the edge that lies below in the face view, with the shown face
// up, when an end is cut through the thickness at an angle or its arris is
// worked: no other view shows that. The middle is left out.
func (b *partPage) edgeView(width float64) (smallView, bool) {
	v, seen, ok := b.edgeDrawn(width)
	if !ok {
		return smallView{}, false
	}
	high := b.p.Thick * v.k
	f := dims.Field{Box: geom.Box{Min: pt(0, -40), Max: pt(width, 40+high)}, Ink: seen, Body: geom.Box{Min: v.at, Max: v.at.Add(pt(v.width(), high))}}
	wishes := b.chosen(b.edgeWishes(v, seen))
	if v.broken() {
		x := (v.x(v.gone[0]) + v.x(v.gone[1])) / 2
		wishes = append(wishes, dims.Break{A: v.at.Add(pt(x, 0)), B: v.at.Add(pt(x, high)), Gap: breakGap})
	}
	placed, used, lost := dims.Place(f, wishes...)
	items := append([]render.Item{render.Stroke{Paths: seen, Pen: render.Outline}}, placed...)
	return smallView{items: items, used: used, name: b.edgeWords(), k: v.k, lost: lost}, true
}

// edgeDrawn sets out the edge view and draws its lines.
func (b *partPage) edgeDrawn(width float64) (v *plate, seen []render.Path, ok bool) {
	if !b.edgeTells() {
		return nil, nil, false
	}
	v = b.edgePlate(min(edgeLong, width-30))
	v.at = pt((width-v.width())/2, 0)
	cam := view.Camera{Right: geom.V3{X: 1}, Up: geom.V3{Z: -1}, Toward: geom.V3{Y: -1}}
	low := b.p.Thick // what is at the foot of the view
	if v.flip {
		cam.Up, cam.Toward, low = geom.V3{Z: 1}, geom.V3{Y: 1}, 0
	}
	seen, _, ok = v.drawn(cam, func(q geom.Pt) geom.Pt { return v.at.Add(pt(v.x(q.X), (q.Y+low)*v.k)) })
	return v, seen, ok
}

// edgeTells reports whether the edge view tells something.
func (b *partPage) edgeTells() bool {
	return b.p.Ends[0].Bevel != 0 || b.p.Ends[1].Bevel != 0 || b.arrisOf(b.p.Names.Ends)
}

// edgePlate sets out the edge view: as a rule at the scale of half the size, its
// ends as long as their cuts reach and its middle left out.
func (b *partPage) edgePlate(width float64) *plate {
	v := &plate{p: b.p, flip: b.view.flip}
	for _, s := range standardScales(b.unit()) {
		if v.k = 1 / s; b.p.Thick*v.k <= edgeThick {
			break
		}
	}
	reach := [2]float64{b.endReach(0), b.endReach(1)}
	long := b.p.Length
	if long*v.k <= width {
		return v
	}
	plain := max(edgePlain, (width-breakGap-(reach[0]+reach[1])*v.k)/2) / v.k
	if lo, hi := reach[0]+plain, long-reach[1]-plain; lo < hi {
		v.gone = [2]float64{lo, hi}
	}
	return v
}

// endReach is how far along the part the cut of an end reaches, or its arris.
func (b *partPage) endReach(end int) float64 {
	p, e := b.p, b.p.Ends[end]
	reach := p.Width*math.Tan(e.Miter) + p.Thick*math.Tan(e.Bevel)/max(math.Cos(e.Miter), 0.1)
	for _, a := range p.Arrises {
		if a.Side == p.Names.Ends[end] {
			reach = max(reach, a.Size)
		}
	}
	return reach
}

// edgeWishes are the bevels of the ends and their arrises.
func (b *partPage) edgeWishes(v *plate, seen []render.Path) []called {
	p := b.p
	var bevels []dims.Gauge
	for i, e := range p.Ends {
		if e.Bevel == 0 {
			continue
		}
		at := farthest(seen, v.at.Add(pt(float64(i)*v.width(), p.Thick*v.k/2)), i)
		g := dims.Gauge{
			At: at, Off: leaning(i, e.Bevel, e.LongFace != v.shown()), Prefer: pt(float64(2*i-1), 0.6),
			Text: []string{offSquare(e.Bevel), faceName(p, e.LongFace) + " longer"},
		}
		if e.Miter == 0 {
			g.Key = b.key(p.Names.Ends[i] + " cut, its angle")
		}
		bevels = append(bevels, g)
	}
	var out []called
	names := counter{}
	for _, g := range setAlike(bevels) {
		out = append(out, called{Wish: g, name: names.name("tilt")})
	}
	for _, a := range p.Arrises {
		for i, name := range p.Names.Ends {
			if a.Side != name {
				continue
			}
			up := 0.0
			if a.Face == p.Names.Faces[v.shown()] {
				up = p.Thick
			}
			level := v.at.Add(pt(float64(i)*v.width(), inward(up, arrisDepth(a))*v.k))
			at := farthest(seen, level, i)
			note := dims.Callout{At: at, Text: b.arrisWords(a), Prefer: pt(float64(2*i-1), 0.6)}
			out = append(out, called{Wish: note, name: names.name("end arris")})
		}
	}
	return out
}

// arrisOf reports whether an arris of one of two sides is worked.
func (b *partPage) arrisOf(sides [2]string) bool {
	return slices.ContainsFunc(b.p.Arrises, func(a model.Arris) bool { return slices.Contains(sides[:], a.Side) })
}

// arrisDepth is how far from both sides the middle of a worked arris lies.
func arrisDepth(a model.Arris) float64 {
	if a.Chamfer {
		return a.Size / 2
	}
	return a.Size * (1 - math.Sqrt2/2)
}

// arrisWords say how an arris is worked and which one it is.
func (b *partPage) arrisWords(a model.Arris) []string {
	size := b.unit().Length(a.Size, expr.Coarse)
	text := "round over R " + size
	if a.Chamfer {
		text = "chamfer " + size + " at 45°"
	}
	kind := " edge, "
	if slices.Contains(b.p.Names.Ends[:], a.Side) {
		kind = " end, "
	}
	return []string{text, a.Side + kind + a.Face + " face"}
}

// edgeWords say which edge the reader is looking at, and which face is up.
func (b *partPage) edgeWords() string {
	p, i := b.p, 0
	if b.view.flip {
		i = 1
	}
	s := "Edge view"
	if p.Names.Edges[i] != "" {
		s = upper(p.Names.Edges[i]) + " edge"
	}
	return s + ", " + faceName(p, b.view.shown()) + " up"
}
