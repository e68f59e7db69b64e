package sheets

import (
	"math"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// viewStyle is the type of the words that say from where a picture is seen.
var viewStyle = lettering.Style{Face: fonts.Cond, Size: render.Body, Tone: render.Dark}

// cueWide is the room at the foot of a picture for the arrows, mm.
const cueWide = 31.0

// viewText says from where a step is seen, in as many lines as it takes.
func (d *desk) viewText(st *model.Step, box geom.Box) []string {
	return lettering.Wrap(d.viewWords(st), box.W()-cueWide-1, viewStyle)
}

// cues puts the arrows and the sign of a turn into corners of the picture that are
// free, and the words at its foot. It reports whether there was room.
func (n *stepDrawing) cues() bool {
	words := pt(cueWide, 0)
	free, at := n.corner(cueItems(n.cam, geom.Pt{}), geom.NoBox())
	if at.Min.X > n.box.Min.X+1 || at.Min.Y > n.box.Min.Y+1 {
		words.X = 0.4
	}
	if turn := n.turnItems(); len(turn) > 0 {
		ok, _ := n.corner(turn, at)
		free = free && ok
	}
	lines := n.d.viewText(n.st, n.box)
	for i, s := range lines {
		up := 1 + float64(len(lines)-1-i)*lettering.Pitch(viewStyle)
		n.mark(lettering.Line(n.box.Min.Add(pt(words.X, up)), s, viewStyle, toLeft))
	}
	return free
}

// mark adds items that notes keep clear of.
func (n *stepDrawing) mark(items []render.Item) {
	for _, c := range items {
		n.keep = append(n.keep, render.Bounds(c))
	}
	n.items = append(n.items, items...)
}

// corner puts items into the first corner that is free of the picture and of
// what stands there: the lower left one first, or beside the words at the foot;
// when none is free, into the first. It returns the box they take.
func (n *stepDrawing) corner(items []render.Item, taken geom.Box) (free bool, at geom.Box) {
	b := render.Bounds(items...)
	low, high := n.box.Min.Add(pt(0.4, 0.4)), n.box.Max.Sub(pt(0.4+b.W(), 0.4+b.H()))
	foot := low.Y + viewFoot(1)
	spots := []geom.Pt{low, {X: low.X + cueWide, Y: foot}, {X: high.X, Y: foot}, {X: low.X, Y: high.Y}, high}
	if !taken.Empty() {
		spots = spots[1:]
	}
	for i, p := range spots {
		box := geom.Box{Min: p, Max: p.Add(b.Max.Sub(b.Min))}
		if ok := n.ground.clear(box.Grow(1.5)) && (taken.Empty() || !taken.Grow(2).Meets(box)); ok || i == 0 {
			free, at = ok, box
		}
		if free {
			break
		}
	}
	n.mark(Moved(items, at.Min.Sub(b.Min)))
	return free, at
}

// turnItems draw how the work was turned since the picture before: the way its
// front went, or its top where the front stayed. There are none when it was not
// turned.
func (n *stepDrawing) turnItems() []render.Item {
	var at geom.Pt
	before := n.d.viewBefore(n.st)
	if before == "" || before == viewOf(n.st) {
		return nil
	}
	axis, angle := turning(lookFrom(before), n.cam)
	side := geom.V3{Y: -1}
	if flat := n.cam.Flat(side.Spin(axis, angle)).Sub(n.cam.Flat(side)); flat.Len() < 0.6 {
		side = geom.V3{Z: 1}
	}
	const r, steps = 8.0, 24 // mm of paper
	var path []geom.Pt
	for i := range steps + 1 {
		t := 1 - float64(i)/steps
		path = append(path, at.Add(n.cam.Flat(side.Spin(axis, angle*t)).Mul(r)))
	}
	tip := path[steps]
	u := tip.Sub(path[steps-4]).Unit()
	back := tip.Sub(u.Mul(2.8))
	var line []geom.Pt
	for _, q := range path {
		if q.Sub(tip).Len() > 2.4 {
			line = append(line, q)
		}
	}
	items := []render.Item{
		render.Stroke{Paths: []render.Path{render.Lines(append(line, back)...)}, Pen: render.Outline},
		render.Fill{Paths: []render.Path{render.Loop(tip, back.Add(u.Left().Mul(1.4)), back.Sub(u.Left().Mul(1.4))), render.Circle(path[0], 0.8)}},
	}
	if pole := n.cam.Flat(axis).Mul(r * 0.8); pole.Len() > 2 {
		items = append(items, render.Stroke{Paths: []render.Path{render.Lines(at.Sub(pole), at.Add(pole))}, Pen: render.Thin})
	}
	return items
}

// turning is the axis and the angle in radians by which the work seems to have
// turned when the camera goes from one place to another: what the first camera
// sees of a direction v, the second sees of v.Spin(axis, angle).
func turning(from, to view.Camera) (axis geom.V3, angle float64) {
	a := [3]geom.V3{from.Right, from.Up, from.Toward}
	b := [3]geom.V3{to.Right, to.Up, to.Toward}
	trace := 0.0
	for i := range a {
		axis = axis.Add(a[i].Cross(b[i]))
		trace += a[i].Dot(b[i])
	}
	angle = math.Acos(max(-1, min(1, (trace-1)/2)))
	if axis.Len() > 1e-6 {
		return axis.Unit(), angle
	}
	// Half round, or not at all: the axis is what stays where it is.
	for _, e := range [...]geom.V3{{X: 1}, {Y: 1}, {Z: 1}} {
		gone := b[0].Mul(e.Dot(a[0])).Add(b[1].Mul(e.Dot(a[1]))).Add(b[2].Mul(e.Dot(a[2])))
		if v := e.Add(gone); v.Len() > axis.Len() {
			axis = v
		}
	}
	return axis.Unit(), angle
}

// viewBefore is the camera of the picture before a step's, or "".
func (d *desk) viewBefore(st *model.Step) string {
	if n := st.Number - 2; n >= 0 && n < len(d.plan.Steps) && !onlyMakes(d.plan.Steps[n]) {
		return viewOf(d.plan.Steps[n])
	}
	return ""
}

// cuesIn puts the arrows into the lower left corner of a picture's box.
func cuesIn(cam view.Camera, box geom.Box) []render.Item {
	items := cueItems(cam, box.Min.Add(pt(8, 6)))
	b := render.Bounds(items...)
	return Moved(items, pt(max(0, box.Min.X+0.4-b.Min.X), max(0, box.Min.Y+0.4-b.Min.Y)))
}

// cueItems are the broad arrow to the FRONT, as in the key, and a thin one UP.
func cueItems(cam view.Camera, at geom.Pt) []render.Item {
	var items []render.Item
	if v := cam.Flat(geom.V3{Y: -1}); v.Len() > 0.2 {
		u := v.Unit()
		long := 4 + 7*v.Len()
		p := func(s, t float64) geom.Pt { return at.Add(u.Mul(s)).Add(u.Left().Mul(t)) }
		arrow := render.Loop(p(1.5, 0.9), p(long-3.4, 0.9), p(long-3.4, 2.1), p(long, 0), p(long-3.4, -2.1), p(long-3.4, -0.9), p(1.5, -0.9))
		items = append(items, render.Stroke{Paths: []render.Path{arrow}, Pen: render.CutLine})
		items = append(items, cueWord("FRONT", p(long, 0), u)...)
	}
	if v := cam.Flat(geom.V3{Z: 1}); v.Len() > 0.2 {
		u := v.Unit()
		tip := at.Add(u.Mul(2.6 + 4.2*v.Len()))
		back := tip.Sub(u.Mul(2.4))
		items = append(items,
			render.Stroke{Paths: []render.Path{render.Lines(at.Add(u.Mul(2.4)), back)}, Pen: render.CutLine},
			render.Fill{Paths: []render.Path{render.Loop(tip, back.Add(u.Left().Mul(0.9)), back.Sub(u.Left().Mul(0.9)))}})
		word := "UP"
		if u.Y < 0 {
			word = "TOP" // of the work, which stands on its head
		}
		items = append(items, cueWord(word, tip, u)...)
	}
	return items
}

// cueWord sets a word beyond the tip of an arrow that points along u.
func cueWord(word string, tip, u geom.Pt) []render.Item {
	st := lettering.Style{Face: fonts.CondBold, Size: render.Small}
	w, high := lettering.Width(word, st), lettering.Cap(st)
	at := tip.Add(u.Mul(1.4))
	switch {
	case u.X > 0.4:
		at = at.Add(pt(0.3, -high/2))
	case u.X < -0.4:
		at = at.Add(pt(-w-0.3, -high/2))
	case u.Y < 0:
		at = at.Add(pt(-w/2, -high-0.4))
	default:
		at = at.Add(pt(-w/2, 0.3))
	}
	return lettering.Line(at, word, st, toLeft)
}
