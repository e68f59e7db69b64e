package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// sketches show how the saw is set for compound cuts, and how each tapered part
// sits on a tapering sled with the offsets that set it: no angle this small can
// be set by a scale.
func (d *desk) sketches() []block {
	var all []block
	for _, b := range d.sawBlocks() {
		all = append(all, under(named("Compound cuts"), b))
	}
	for _, set := range families(d.plan) {
		for _, t := range set[0].Tapers {
			all = append(all, under(named("Tapering jig"), d.taperJig(set[0], t)))
		}
	}
	return all
}

// taperJig is one sketch: the blank on the sled, the blade's line, the offset.
// The taper is drawn steeper than it is.
func (d *desk) taperJig(p *model.Part, t model.Taper) block {
	u := d.plan.Unit
	const long, wide, x, y, drop = 50.0, 13.0, 24.0, -7.0, 5.0
	c := [4]geom.Pt{pt(x, y), pt(x+long, y-drop), pt(x+long, y-wide-drop), pt(x, y-wide)}
	blank := render.Loop(c[0], c[1], c[2], c[3])
	base := y - wide - drop
	sled := geom.Box{Min: pt(x-5, base-5), Max: pt(x+long+5, base)}
	blade := render.Lines(pt(x-5, y-drop), pt(x+long+7, y-drop))
	waste := render.Loop(c[0], c[1], pt(x, y-drop))
	items, _ := lettering.Tab(pt(0, y), familyOr(p), "", 6, d.accent)
	items = append(items,
		render.Fill{Paths: []render.Path{render.Rect(sled)}, Tone: render.Edge},
		render.Fill{Paths: []render.Path{blank}, Tone: render.Paper},
		render.Fill{Paths: []render.Path{waste}, Tone: render.Gray(0.3)},
		render.Stroke{Paths: []render.Path{blank, render.Rect(sled)}, Pen: render.Outline},
		render.Stroke{Paths: []render.Path{blade}, Pen: render.Center},
	)
	f := dims.Field{
		Box: geom.Box{Min: pt(0, base-20), Max: pt(sketchW, 0)}, Ink: []render.Path{blank, blade, render.Rect(sled)},
		Body: geom.Box{Min: pt(x, base-5), Max: pt(x+long, y)}, Keep: []geom.Box{render.Bounds(items[0])},
	}
	placed, used, lost := dims.Place(f,
		dims.Span{Side: dims.LeftOf, A: pt(x, y-drop), B: pt(x, y), Label: dims.Label{Text: u.Length(t.OffsetEdge, expr.Fine)}},
		dims.Span{Side: dims.Below, A: pt(x, base-5), B: pt(x+long, base-5), Label: dims.Label{Text: u.Length(math.Abs(t.ToAlong-t.FromAlong), expr.Coarse)}},
		dims.Callout{At: pt(x+long+5, y-drop), Text: []string{"blade"}, Prefer: pt(-0.3, 1)},
	)
	for _, s := range lost {
		d.problem("tapering jig: %s", s)
	}
	items = append(items, placed...)
	words := d.taperWords(p, t)
	text, h := lettering.Paragraph(pt(0, used.Min.Y-3), words, evened(words, sketchW, plain), plain)
	return block{append(items, text...), h + 3 - used.Min.Y}
}

// taperWords tells the set-up.
func (d *desk) taperWords(p *model.Part, t model.Taper) string {
	u := d.plan.Unit
	in := u.LongTo(t.OffsetEdge, expr.Fine)
	end := orElse(p.Names.Ends[1], "far")
	if t.FromWidth < t.ToWidth {
		end = orElse(p.Names.Ends[0], "datum")
	}
	if t.Edge == 2 {
		return "Set at the " + end + " end, for the first edge, " + in + "; for the second, " + u.LongTo(2*t.OffsetEdge, expr.Fine) +
			": twice as much, for the edge against the jig is tapered already. Cut all pieces at the first setting, then all at the second."
	}
	return "Set " + in + " at the " + end + " end. The " + orElse(p.Names.Edges[1-t.Edge&1], "straight") + " edge lies against the jig."
}
