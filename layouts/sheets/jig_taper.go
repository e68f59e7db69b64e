package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// taperJigs draws how each tapered part sits on a tapering sled, with the
// offsets that set it: no angle this small can be set by a scale.
func (l *leaf) taperJigs() *leaf {
	for _, set := range families(l.d.plan) {
		p := set[0]
		for _, t := range p.Tapers {
			l = l.jig("Tapering jig for "+familyOr(p)+", "+lower(p.Name), 48)
			l.taperJig(p, t)
		}
	}
	return l
}

// taperJig is one sketch: the blank on the sled, the blade's line, the offset.
func (l *leaf) taperJig(p *model.Part, t model.Taper) {
	u := l.d.plan.Unit
	const long, wide = 88.0, 14.0
	in := t.OffsetEdge
	run := math.Abs(t.ToAlong - t.FromAlong)
	// A sketch, not to scale: the taper is drawn steeper than it is.
	y := l.y - 8
	x := l.left() + 30
	drop := 5.0
	lean := func(px float64) float64 { return drop * px / long }
	c := [4]geom.Pt{pt(x, y), pt(x+long, y-lean(long)), pt(x+long, y-wide-lean(long)), pt(x, y-wide)}
	blank := render.Loop(c[0], c[1], c[2], c[3])
	base := y - wide - drop
	body := geom.Box{Min: pt(x-6, base-6), Max: pt(x+long+6, base)}
	blade := render.Lines(pt(x-8, y-drop), pt(x+long+8, y-drop))
	waste := render.Loop(c[0], c[1], pt(x, y-drop))
	ink := []render.Path{blank, blade, render.Rect(body)}
	l.add(
		render.Fill{Paths: []render.Path{render.Rect(body)}, Tone: render.Edge},
		render.Fill{Paths: []render.Path{blank}, Tone: render.Paper},
		render.Fill{Paths: []render.Path{waste}, Tone: render.Gray(0.3)},
		render.Stroke{Paths: []render.Path{blank, render.Rect(body)}, Pen: render.Outline},
		render.Stroke{Paths: []render.Path{blade}, Pen: render.Center},
	)
	end := orElse(p.Names.Ends[1], "far")
	if t.FromWidth < t.ToWidth {
		end = orElse(p.Names.Ends[0], "datum")
	}
	f := dims.Field{Box: geom.Box{Min: pt(l.left(), base-20), Max: pt(l.left()+132, y+7)}, Ink: ink, Body: geom.Box{Min: pt(x, base-6), Max: pt(x+long, y)}}
	placed, _, lost := dims.Place(f,
		dims.Span{Side: dims.LeftOf, A: pt(x, y-drop), B: pt(x, y), Label: dims.Label{Text: u.Length(in, expr.Fine)}},
		dims.Span{Side: dims.Below, A: pt(x, base-6), B: pt(x+long, base-6), Label: dims.Label{Text: u.Length(run, expr.Coarse)}},
		dims.Callout{At: pt(x+long+4, y-drop), Text: []string{"blade"}, Prefer: pt(0.3, 1)},
		dims.Callout{At: pt(x+14, y-2.5), Dot: true, Text: []string{"waste at the " + end + " end"}, Prefer: pt(0.5, 1)},
	)
	for _, s := range lost {
		l.d.problem("tapering jig: %s", s)
	}
	l.add(placed...)
	h := l.paraAt(pt(l.left()+136, l.y), bodyW-136, l.d.taperWords(p, t), plain)
	l.y = min(base-20, l.y-h)
}

// taperWords tells the set-up.
func (d *desk) taperWords(p *model.Part, t model.Taper) string {
	u := d.plan.Unit
	in := u.LongTo(t.OffsetEdge, expr.Fine)
	if t.Edge == 2 {
		return "First edge: offset " + in + ". Second edge: offset " + u.LongTo(2*t.OffsetEdge, expr.Fine) +
			", twice the first, for the edge against the jig is tapered already. Cut all pieces at the first setting, then all at the second."
	}
	return "Offset " + in + " at the end of the cut. The " + orElse(p.Names.Edges[1-t.Edge&1], "straight") + " edge lies against the jig."
}
