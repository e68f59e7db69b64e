package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// feetLine is the line that is struck square to the center line for the lowest
// corners of the feet to stand on.
func (f *fan) feetLine(at func(geom.Pt) geom.Pt, k float64) render.Path {
	const past = 4.0 // on paper, on either side
	b := f.box()
	return render.Lines(at(pt(b.Min.X-past/k, b.Min.Y)), at(pt(b.Max.X+past/k, b.Min.Y)))
}

// screws are the places of the fasteners in the slats, each a small circle.
func (f *fan) screws(plan *model.Plan, at func(geom.Pt) geom.Pt) []render.Item {
	const r = 0.75 // on paper; true heads would be as fine as the lines
	var rounds []render.Path
	for _, j := range plan.Joints {
		for _, x := range j.Fasteners {
			a, b := plan.Placed[x.Pieces[0]], plan.Placed[x.Pieces[1]]
			if slices.Contains(f.slats, a) != slices.Contains(f.slats, b) {
				q := f.pose.Local(x.Head)
				rounds = append(rounds, render.Circle(at(pt(q.Y, q.X)), r))
			}
		}
	}
	return []render.Item{render.Fill{Paths: rounds, Tone: render.White}, render.Stroke{Paths: rounds, Pen: render.Thin}}
}

// gaps are the distances between the slats at a height, from the first to the
// last, measured along the line struck there. It is not ok where a slat does
// not reach.
func (f *fan) gaps(y float64) (out []float64, ok bool) {
	for i := 1; i < len(f.slats); i++ {
		_, r, ok1 := f.crossing(f.slats[i-1], y)
		l, _, ok2 := f.crossing(f.slats[i], y)
		if !ok1 || !ok2 {
			return nil, false
		}
		out = append(out, l-r)
	}
	return out, len(out) > 0
}

// evenGap reports the gap between slats at a height, when all are one as they
// are printed.
func (f *fan) evenGap(y float64, u expr.Unit) (string, bool) {
	list, ok := f.gaps(y)
	if !ok {
		return "", false
	}
	text := u.Long(list[0])
	for _, g := range list {
		if u.Long(g) != text {
			return "", false
		}
	}
	return text, true
}

// words tells the gap and the turn.
func (f *fan) words(plan *model.Plan) string {
	u := plan.Unit
	s := "Turn from slat to slat " + expr.Angle(f.step(), 0.1) + " (for reference; strike the lines instead)."
	hs := f.heights()
	low, ok1 := f.evenGap(hs[0].at, u)
	high, ok2 := f.evenGap(hs[len(hs)-1].at, u)
	switch {
	case ok1 && ok2 && low == high:
		s = "Gap " + low + " between all slats, the same from foot to top. " + s
	case ok1 && ok2:
		s = "Gap " + low + " between all slats at " + theName(hs[0].name) + ", " + high + " at " + theName(hs[len(hs)-1].name) + ". " + s
	}
	return s + " Circles are screws. Measure everything from the center line and the line of the feet."
}

// gapWishes dimension the gap between the slats at the left of the page, at the
// feet, where the picture has room for it.
func (d *desk) gapWishes(f *fan, at func(geom.Pt) geom.Pt) []dims.Wish {
	n := len(f.slats)
	y := f.heights()[0].at
	_, r, ok1 := f.crossing(f.slats[n-2], y)
	l, _, ok2 := f.crossing(f.slats[n-1], y)
	if !ok1 || !ok2 || math.Abs(l-r) < 1 {
		return nil
	}
	a, b := at(pt(r, 0)), at(pt(l, 0))
	return []dims.Wish{dims.Span{Side: dims.Below, A: a, B: b, Label: dims.Label{Text: d.plan.Unit.Length(l-r, expr.Coarse)}}}
}
