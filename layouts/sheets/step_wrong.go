package sheets

import (
	"cmp"
	"fmt"
	"slices"

	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Sizes of the picture of a mistake, mm: it is as high as its shape asks for.
const (
	wrongW     = 40.0
	wrongH     = 33.0 // at most
	wrongLow   = 11.0 // at least
	wrongWords = 26.0 // the words beside it, at least; in a narrower column they stand under it
	wrongMost  = 1.9  // how many times as long as wide a part is drawn
)

// wrongName is the name of the place for the picture of a mistake among the words
// of a step, until they are on their page.
const wrongName = "wrong"

// stepMistake says what people get wrong, beside a small picture of it where
// there is one.
func (l *leaf) stepMistake(st *model.Step) {
	words := "Not so: " + lower(st.Mistake)
	if st.Wrong == nil {
		l.stepLine("×", words, plain)
		return
	}
	sketch := l.d.wrongSketch(st)
	b := (&scene{pieces: sketch.pieces}).flatBox(sketch.cam)
	high := max(wrongLow, min(wrongH, wrongW*b.H()/b.W()))
	top := l.y
	l.add(render.Group{Name: wrongName, Clip: geom.Box{Min: pt(l.left(), top-high), Max: pt(l.left()+wrongW, top)}})
	if beside := l.colW() - wrongW - 4; beside < wrongWords {
		l.skip(high + 2)
		l.para(0, l.colW(), words, plain)
	} else {
		l.skip(max(1, (high-lettering.Height(2, plain))/2))
		l.para(wrongW+4, beside, words, plain)
	}
	l.y = min(l.y, top-high)
	l.skip(3)
}

// addStep adds the words of a step; the picture of its mistake is drawn later.
func (l *leaf) addStep(st *model.Step, items []render.Item) {
	for _, item := range items {
		g, ok := item.(render.Group)
		if !ok || g.Name != wrongName {
			l.add(item)
			continue
		}
		l.later(fmt.Sprintf("wrong %d %.3f", st.Number, g.Clip), func(d *desk) block { return block{items: d.wrongPicture(st, g.Clip)} })
	}
}

// A wrongSketch is what the picture of a mistake shows.
type wrongSketch struct {
	pieces []woodwork.Piece
	cam    view.Camera
	breaks [][2]geom.V3 // where a long part was drawn shorter
}

func (d *desk) wrongSketch(st *model.Step) wrongSketch {
	if st.Wrong.Made == nil {
		return wrongSketch{pieces: d.wrongScene(st), cam: lookFrom(viewOf(st))}
	}
	return d.madeWrong(st.Wrong)
}

// wrongPicture draws the mistake of a step into a box: what is wrong toned, what
// stands near it thin, all of it crossed out.
func (d *desk) wrongPicture(st *model.Step, box geom.Box) []render.Item {
	sk := d.wrongSketch(st)
	pic := woodwork.Fit(sk.pieces, sk.cam, box.Grow(-0.6), 0.3)
	items := pic.Items()
	for _, b := range sk.breaks {
		items = append(items, breakLines(pic.Point(b[0]), pic.Point(b[1]))...)
	}
	if st.Wrong.How == model.LeftOut {
		items = append(items, missing(pic, st.Wrong.Solids)...)
	}
	return []render.Item{render.Group{Name: "wrong " + digits(st.Number), Items: append(items, crossOut(pic.Box)...)}}
}

// breakLines show across a board that a piece of its length is not drawn.
func breakLines(a, b geom.Pt) []render.Item {
	u := b.Sub(a).Unit()
	out := u.Left().Mul(0.7)
	a, b = a.Sub(u.Mul(1)), b.Add(u.Mul(1))
	return []render.Item{
		render.Fill{Paths: []render.Path{render.Loop(a.Add(out), b.Add(out), b.Sub(out), a.Sub(out))}, Tone: render.White},
		render.Stroke{Paths: []render.Path{render.Lines(a.Add(out), b.Add(out)), render.Lines(a.Sub(out), b.Sub(out))}, Pen: render.Thin},
	}
}

// wrongScene is what a mistake is seen among: the pieces that are wrong, and
// those that the right ones touch or stand across from.
func (d *desk) wrongScene(st *model.Step) []woodwork.Piece {
	w := st.Wrong
	var out []woodwork.Piece
	if w.How != model.LeftOut {
		for k, i := range w.Pieces {
			out = append(out, woodwork.Piece{ID: i, Solid: w.Solids[k], Look: woodwork.Fresh})
		}
	}
	shown := d.present(st)
	if st.OnBench() {
		shown = st.Add
	}
	for _, i := range shown {
		p := d.plan.Placed[i]
		if !slices.Contains(w.Pieces, i) && p.Solid != nil && d.nearWrong(w, p) {
			out = append(out, woodwork.Piece{ID: i, Solid: p.Solid, Look: woodwork.Done})
		}
	}
	return out
}

// nearWrong reports whether a piece helps to see what is wrong.
func (d *desk) nearWrong(w *model.Wrong, p *model.Placed) bool {
	const touch = 8.0 // mm
	box := p.Solid.Box3(geom.Home()).Grow(touch)
	return slices.ContainsFunc(w.Pieces, func(i int) bool {
		q := d.plan.Placed[i]
		return box.Meets(q.Solid.Box3(geom.Home())) || w.How == model.SameHand && q.Part == p.Part
	})
}

// madeWrong lies the wrong parts of a step that only makes beside each other, long
// ones with a piece of their middle left out.
func (d *desk) madeWrong(w *model.Wrong) wrongSketch {
	sk := wrongSketch{cam: partCamera(w.Made)}
	b := w.Solids[0].Box3(geom.Home())
	size := b.Size()
	cut := max(0, size.X-wrongMost*float64(len(w.Solids))*size.Y)
	mid := (b.Min.X + b.Max.X) / 2
	for k, solid := range w.Solids {
		by := geom.Home()
		by.Origin.Y = 1.4 * size.Y * float64(k)
		solid = shorter(solid.Transform(by), mid, cut)
		sk.pieces = append(sk.pieces, woodwork.Piece{ID: k, Solid: solid, Look: woodwork.Fresh})
		if cut > 0 {
			near := geom.V3{X: mid, Y: b.Min.Y + by.Origin.Y}
			if facing(w.Made).flip {
				near.Z = b.Max.Z
			}
			sk.breaks = append(sk.breaks, [2]geom.V3{near, near.Add(geom.V3{Y: size.Y})})
		}
	}
	return sk
}

// shorter is a board with what lies beyond the middle moved nearer: its ends keep
// their shape.
func shorter(solid *geom.Solid, mid, by float64) *geom.Solid {
	out := &geom.Solid{Faces: slices.Clone(solid.Faces)}
	for i, f := range out.Faces {
		loops := make([][]geom.V3, len(f.Loops))
		for k, l := range f.Loops {
			loops[k] = slices.Clone(l)
			for n := range loops[k] {
				loops[k][n].X += by / 2
				if l[n].X > mid {
					loops[k][n].X -= by
				}
			}
		}
		out.Faces[i].Loops = loops
	}
	return out
}

// partCamera looks at a part on the bench, the face of its drawing up.
func partCamera(p *model.Part) view.Camera {
	up, rear := geom.V3{Z: -1}, geom.V3{Y: 1}
	if facing(p).flip {
		up, rear = geom.V3{Z: 1}, geom.V3{Y: -1}
	}
	toward := up.Mul(0.82).Sub(rear.Mul(0.52)).Add(geom.V3{X: 0.24}).Unit()
	right := geom.V3{X: 1}.Sub(toward.Mul(toward.X)).Unit()
	high := rear.Sub(toward.Mul(rear.Dot(toward))).Sub(right.Mul(rear.Dot(right))).Unit()
	return view.Camera{Right: right, Up: high, Toward: toward}
}

// missing draws where something is that was left out: dashed.
func missing(pic *woodwork.Picture, solids []*geom.Solid) []render.Item {
	var paths []render.Path
	for _, solid := range solids {
		var pts []geom.Pt
		for _, f := range solid.Faces {
			for _, v := range f.Loops[0] {
				pts = append(pts, pic.Point(v))
			}
		}
		paths = append(paths, render.Loop(hull(pts)...))
	}
	return []render.Item{render.Stroke{Paths: paths, Pen: render.Hidden}}
}

// hull is the convex hull of some points, anticlockwise (Andrew's monotone chain,
// 1979).
func hull(pts []geom.Pt) []geom.Pt {
	slices.SortFunc(pts, func(a, b geom.Pt) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	half := func(pts []geom.Pt) []geom.Pt {
		var out []geom.Pt
		for _, p := range pts {
			for len(out) > 1 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	low := half(pts)
	slices.Reverse(pts)
	return append(low, half(pts)...)
}

// crossOut draws a cross over a box, bold on a white rim, so that it is seen on
// toned wood and on white.
func crossOut(b geom.Box) []render.Item {
	in := pt(0.12*b.W(), 0.12*b.H())
	lo, hi := b.Min.Add(in), b.Max.Sub(in)
	cross := []render.Path{render.Lines(lo, hi), render.Lines(pt(lo.X, hi.Y), pt(hi.X, lo.Y))}
	return []render.Item{
		render.Stroke{Paths: cross, Pen: render.Pen{Width: 2.2, Tone: render.White, Round: true}},
		render.Stroke{Paths: cross, Pen: render.Pen{Width: 1, Round: true}},
	}
}
