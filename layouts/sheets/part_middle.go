package sheets

import (
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// alikeWithin is how far two places may be apart to count as one, mm.
const alikeWithin = 0.3

// middle returns where along the part its two halves mirror each other, so that
// a center line helps to lay it out: what lies left lies right. It is no use
// where the view is broken there, nor where the cross of a hole that is laid out shows it.
func (v *plate) middle() (along float64, ok bool) {
	p := v.p
	along = p.Length / 2
	if p.Hand != model.NoHand || p.TrimLater != "" || p.Free || v.symmetric() || v.broken() && along > v.gone[0] && along < v.gone[1] {
		return 0, false
	}
	a, b := p.Ends[0], p.Ends[1]
	if a.Shape != b.Shape || a.LongEdge != b.LongEdge || a.LongFace != b.LongFace || math.Abs(a.Miter-b.Miter)+math.Abs(a.Bevel-b.Bevel) > 1e-6 {
		return 0, false
	}
	for _, h := range p.Holes {
		if !h.Matched && math.Abs(h.Along-along) < alikeWithin || !slices.ContainsFunc(p.Holes, func(g model.Hole) bool { return mirrored(h, g, p.Length) }) {
			return 0, false
		}
	}
	for _, q := range p.Pockets {
		twin := func(r model.Pocket) bool {
			return r.Face == q.Face && onePlace(pt(p.Length-q.Along, q.Across), pt(r.Along, r.Across))
		}
		if !slices.ContainsFunc(p.Pockets, twin) {
			return 0, false
		}
	}
	if !mirrorsItself(p.Board.Outline, p.Length) || len(p.Grooves) > 0 {
		return 0, false
	}
	return along, len(p.Holes)+len(p.Pockets) > 0
}

// mirrored reports whether two holes are each other's image from end to end.
func mirrored(h, g model.Hole, length float64) bool {
	return h.Kind == g.Kind && h.Into == g.Into && (h.Into == "end" || h.From == g.From) && h.Sink == g.Sink &&
		math.Abs(h.Diam-g.Diam) < 0.01 && math.Abs(h.Depth-g.Depth) < 0.5 && math.Abs(h.Thick-g.Thick) < alikeWithin &&
		onePlace(pt(length-h.Along, h.Across), pt(g.Along, g.Across))
}

func onePlace(a, b geom.Pt) bool { return a.Sub(b).Len() < alikeWithin }

// mirrorsItself reports whether an outline is its own image from end to end.
func mirrorsItself(o geom.Outline, length float64) bool {
	for _, q := range o.Flatten(0.2) {
		if o.Distance(pt(length-q.X, q.Y)) > alikeWithin {
			return false
		}
	}
	return true
}
