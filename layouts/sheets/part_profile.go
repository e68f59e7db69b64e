package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// profile draws the end of a part, larger, when an edge is beveled or an arris
// is worked: only there does it tell something.
func (b *partPage) profile() {
	p := b.p
	bevel := p.Edges[0].Bevel != 0 || p.Edges[1].Bevel != 0
	if !bevel && len(p.Arrises) == 0 {
		return
	}
	solid, err := p.Board.Solid(0.05)
	if err != nil {
		return
	}
	k := b.profileScale()
	const left = 30.0
	// Seen from the far end with the shown face up; the reference edge is at the
	// left when the face of thick 0 is up.
	cut := woodwork.Cut{At: geom.V3{X: p.Length / 2, Y: p.Width / 2, Z: p.Thick / 2}, Right: geom.V3{Y: 1}, Up: geom.V3{Z: -1}, Scale: k}
	if b.view.flip {
		cut.Up = geom.V3{Z: 1}
	}
	cut.Page = pt(left+p.Width*k/2, 0)
	cut.Window = geom.Box{Min: pt(-10, -60), Max: pt(bodyW, 60)}
	art := cut.Wood(solid, geom.V3{X: 1}, render.Edge)
	f := dims.Field{Box: geom.Box{Min: pt(0, -50), Max: pt(112, 50)}}
	for _, l := range cut.Loops(solid) {
		f.Ink = append(f.Ink, render.Loop(l...))
	}
	placed, used, lost := dims.Place(f, b.profileWishes(cut)...)
	for _, s := range lost {
		b.d.problem("part %s, end view: %s", p.Code, s)
	}
	used = used.Union(geom.Box{Min: pt(left, -p.Thick*k/2), Max: pt(left+p.Width*k, p.Thick*k/2)})
	top := b.y
	b.drop(append(art, placed...), used)
	b.y -= 3.5
	items, _ := dims.Caption(pt(0, b.y), "End view, "+faceName(p, b.view.shown())+" up", k)
	b.add(items...)
	b.y -= 3
	b.side = &leafBox{x: 116, top: top - 2, width: bodyW - 116}
}

// profileScale is the largest standard scale of the end view that is at most
// 60 mm wide.
func (b *partPage) profileScale() float64 {
	for _, s := range standardScales(b.unit()) {
		if b.p.Width/s <= 60 {
			return 1 / s
		}
	}
	return 1.0 / 12
}

// profileWishes are the bevels and arrises.
func (b *partPage) profileWishes(c woodwork.Cut) []dims.Wish {
	p, u := b.p, b.unit()
	at := func(across, thick float64) geom.Pt { return c.Point(geom.V3{X: p.Length / 2, Y: across, Z: thick}) }
	out := []dims.Wish{dims.Span{Side: dims.LeftOf, A: at(0, 0), B: at(0, p.Thick), Label: dims.Label{Text: u.Length(p.Thick, expr.Coarse)}}}
	for i, e := range p.Edges {
		if e.Bevel == 0 {
			continue
		}
		long := e.LongFace & 1
		out = append(out, dims.Gauge{At: at(b.bevelMiddle(i), p.Thick/2), Off: math.Abs(e.Bevel), Prefer: pt(float64(2*i-1), 0.2),
			Text: []string{expr.Angle(math.Abs(e.Bevel), 0.5) + " off square", "wider on the " + faceName(p, long)}})
	}
	for _, a := range p.Arrises {
		across, thick := 0.0, 0.0
		if a.Side == p.Names.Edges[1] {
			across = p.Width
		}
		if a.Face == p.Names.Faces[1] {
			thick = p.Thick
		}
		text := "round over R " + u.Length(a.Size, expr.Coarse)
		if a.Chamfer {
			text = "chamfer " + u.Length(a.Size, expr.Coarse) + " at 45°"
		}
		in := a.Size * (1 - math.Sqrt2/2)
		if a.Chamfer {
			in = a.Size / 2
		}
		q := at(inward(across, in), inward(thick, in))
		out = append(out, dims.Callout{At: q, Text: []string{text, a.Side + " edge, " + a.Face + " face"}, Prefer: pt(1, 0.6)})
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

// notes are the sentences under a drawing.
func (b *partPage) notes() {
	var texts []string
	p := b.p
	if p.Hand == model.Pair {
		texts = append(texts, "Left is the mirror of this right one: lay the two face to face to check.")
	}
	if p.TrimLater != "" {
		texts = append(texts, "Cut all alike at the rough length; trim the "+p.TrimLater+" last.")
	}
	if b.view.broken() {
		texts = append(texts, "A plain stretch is left out of the drawing.")
	}
	if p.Note != "" {
		texts = append(texts, p.Note)
	}
	x, width, y := 0.0, bodyW, b.y
	if b.side != nil {
		x, width, y = b.side.x, b.side.width, b.side.top-3
	}
	put := func(s string, st lettering.Style) {
		items, h := lettering.Paragraph(pt(x, y), s, width, st)
		b.add(items...)
		y -= h + 1
	}
	if len(texts) > 0 {
		s := texts[0]
		for _, t := range texts[1:] {
			s += " " + t
		}
		put(s, plain)
	}
	if s := b.checks(); s != "" {
		put(s, soft)
	}
	for _, s := range b.criticals() {
		put(s, strong)
	}
	b.y = min(b.y, y) - 2
}

// criticals tell what hangs on the marks of this part.
func (b *partPage) criticals() []string {
	var out []string
	for _, h := range b.p.Holes {
		if len(b.p.Critical) == 0 && h.Critical > 0 && h.Critical <= len(b.d.plan.Critical) && !h.Matched {
			c := b.d.plan.Critical[h.Critical-1]
			if c.Note != "" {
				out = appendNew(out, digits(h.Critical)+": "+upper(c.Note)+" hangs on these marks.")
			}
		}
	}
	for _, s := range b.p.Critical {
		out = appendNew(out, s)
	}
	return out
}
