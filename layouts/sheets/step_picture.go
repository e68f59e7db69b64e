package sheets

import (
	"fmt"
	"slices"

	"planset/fonts"
	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// stepPicture leaves a box of the page for the picture of a step.
func (l *leaf) stepPicture(st *model.Step, box geom.Box) {
	key := fmt.Sprintf("step %d %.3f", st.Number, box)
	if !onlyMakes(st) {
		l.later(key, func(d *desk) block { return block{items: d.stepPicture(st, box)} })
		return
	}
	for _, p := range st.Make {
		key += " " + l.d.onPage("part "+p.Code)
	}
	l.later(key, func(d *desk) block { return block{items: d.makePicture(st, box)} })
}

// stepPicture draws a step into a box: what is new toned and heavy, what was
// there thin and white, hardware off its holes.
func (d *desk) stepPicture(st *model.Step, box geom.Box) []render.Item {
	s := d.stepScene(st)
	if len(s.pieces) == 0 {
		return nil
	}
	cam := lookFrom(viewOf(st))
	// Balloons stand over and under the picture, beside it only where its shape
	// leaves room.
	const beside, over = 5.0, 16.0
	inner := geom.Box{Min: box.Min.Add(pt(beside, over+2)), Max: box.Max.Sub(pt(beside, over))}
	pic := woodwork.Fit(s.pieces, cam, inner, 0.5)
	trails := s.trailPaths(pic)
	items := append(pic.Items(), render.Stroke{Paths: trails, Pen: trailPen})
	cues := cuesIn(cam, box)
	cues = append(cues, d.viewLines(st, box)...)
	items = append(items, cues...)
	f := dims.Field{Box: box, Ink: append(pic.Ink(), trails...), Body: pic.Box}
	for _, c := range cues {
		f.Keep = append(f.Keep, render.Bounds(c))
	}
	f.Faces = s.faces(pic, d.freshIn(st))
	wishes := append(d.stepBalloons(st, s, pic), d.driveNotes(s, pic)...)
	placed, _, lost := dims.Place(f, wishes...)
	for _, p := range lost {
		d.problem("step %d: %s", st.Number, p)
	}
	return []render.Item{render.Group{Name: "step " + digits(st.Number), Items: append(items, placed...)}}
}

// viewLines says at the foot of a picture from where it is seen, in two lines
// where one is too long.
func (d *desk) viewLines(st *model.Step, box geom.Box) []render.Item {
	const in = 31.0 // room for the arrows
	style := lettering.Style{Face: fonts.Cond, Size: render.Body, Tone: render.Dark}
	lines := lettering.Wrap(d.viewWords(st), box.W()-in-1, style)
	var items []render.Item
	for i, s := range lines {
		up := 1 + float64(len(lines)-1-i)*lettering.Pitch(style)
		items = append(items, lettering.Line(box.Min.Add(pt(in, up)), s, style, toLeft)...)
	}
	return items
}

// stepScene gathers what a step shows.
func (d *desk) stepScene(st *model.Step) *scene {
	s := &scene{plan: d.plan}
	fresh := d.freshIn(st)
	bench := d.onBench(st)
	for _, i := range d.present(st) {
		switch {
		case fresh[i]:
			s.wood(i, woodwork.Fresh, geom.V3{})
		case !bench:
			s.wood(i, woodwork.Done, geom.V3{})
		}
	}
	for _, j := range st.Fasten {
		for _, f := range j.Fasteners {
			if _, ok := s.shifted[f.Pieces[0]]; !ok || j.Hardware == nil {
				continue
			}
			if _, ok := s.shifted[f.Pieces[1]]; ok {
				s.drive(f)
			}
		}
	}
	for _, j := range st.Tighten {
		for _, f := range j.Fasteners {
			if j.Hardware != nil {
				s.seated(f)
			}
		}
	}
	return s
}

// present lists the pieces there are when a step is done, in the order added.
func (d *desk) present(st *model.Step) []int {
	var out []int
	for _, s := range d.plan.Steps {
		for _, i := range s.Add {
			if !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
		if s == st {
			break
		}
	}
	return out
}

// freshIn are the pieces a step is about: those it adds, or when it adds none
// but fastens something, what its stage built by itself before and is now put in
// its place.
func (d *desk) freshIn(st *model.Step) map[int]bool {
	fresh := map[int]bool{}
	for _, i := range st.Add {
		fresh[i] = true
	}
	if len(st.Add) > 0 || len(st.Fasten) == 0 {
		return fresh
	}
	for _, s := range d.plan.Steps {
		if s == st {
			break
		}
		if s.Stage == st.Stage && d.onBench(s) {
			for _, i := range s.Add {
				fresh[i] = true
			}
		}
	}
	return fresh
}

// onBench reports whether a step joins only its own new pieces with each other:
// then they are built by themselves, and the rest is not shown.
func (d *desk) onBench(st *model.Step) bool {
	joined := false
	for _, j := range st.Fasten {
		for _, f := range j.Fasteners {
			a, b := slices.Contains(st.Add, f.Pieces[0]), slices.Contains(st.Add, f.Pieces[1])
			if !a || !b {
				return false
			}
			joined = true
		}
	}
	return joined
}

// stepBalloons names the new pieces, one for each part and hand.
func (d *desk) stepBalloons(st *model.Step, s *scene, pic *woodwork.Picture) []dims.Wish {
	var out []dims.Wish
	for _, a := range d.addedIn(st) {
		var at []geom.Pt
		for _, i := range st.Add {
			if p := d.plan.Placed[i]; p.Part == a.part && handLetter(p.Hand) == a.hand {
				at = append(at, pic.Spots(i)...)
			}
		}
		if len(at) == 0 {
			d.problem("step %d: part %s%s is not seen from %q", st.Number, a.part.Code, a.hand, st.View)
			continue
		}
		b := dims.Balloon{At: at[0], Or: at[1:min(len(at), 14)], Code: a.part.Code, Hand: a.hand, Accent: d.accent}
		if a.count > 1 {
			b.Count = digits(a.count)
		}
		out = append(out, b)
	}
	return out
}

// driveNotes names the hardware, one note for each kind.
func (d *desk) driveNotes(s *scene, pic *woodwork.Picture) []dims.Wish {
	var order []*model.Hardware
	n := map[*model.Hardware]int{}
	for _, v := range s.drives {
		if n[v.f.Hardware] == 0 {
			order = append(order, v.f.Hardware)
		}
		n[v.f.Hardware]++
	}
	var out []dims.Wish
	for _, h := range order {
		best := geom.Pt{}
		found := -1e18
		for _, v := range s.drives {
			if v.f.Hardware != h {
				continue
			}
			q := pic.Point(v.head)
			// The one nearest the outside of the picture has room beside it.
			c := pic.Box.Min.Add(pic.Box.Max).Mul(0.5)
			if far := q.Sub(c).Len(); far > found && len(pic.Spots(v.id)) > 0 {
				best, found = pic.Spots(v.id)[0], far
			}
		}
		if found > -1e18 {
			out = append(out, dims.Callout{At: best, Ring: 0.6, Text: []string{digits(n[h]) + " × " + hardwareName(h, d.plan.Unit)}})
		}
	}
	return out
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

// makePicture shows the parts a step cuts and shapes, each by itself.
func (d *desk) makePicture(st *model.Step, box geom.Box) []render.Item {
	parts := d.madeOnce(st)
	n := len(parts)
	cols := 1
	if n > 3 || box.W() > 120 && n > 2 {
		cols = 2
	}
	rows := (n + cols - 1) / cols
	w, h := box.W()/float64(cols), min(box.H()/float64(rows), 60)
	var items []render.Item
	for i, p := range parts {
		x := box.Min.X + float64(i%cols)*w
		top := box.Max.Y - float64(i/cols)*h
		cell := geom.Box{Min: pt(x+2, top-h+11), Max: pt(x+w-6, top-2)}
		items = append(items, d.partPicture(p, cell)...)
		tab, tw := lettering.Tab(pt(x+2, top-h+2), familyOr(p), "", 7, d.accent)
		items = append(items, tab...)
		base := top - h + 2 + (7-lettering.Cap(plain))/2
		items = append(items, lettering.Line(pt(x+tw+4, base), p.Name, plain, toLeft)...)
		if page := d.onPage("part " + p.Code); page != "" {
			end := x + tw + 5.6 + lettering.Width(p.Name, plain)
			items = append(items, lettering.Line(pt(end, base), page, soft, toLeft)...)
			items = append(items, render.Link{Box: geom.Box{Min: pt(x, top-h), Max: pt(x+w, top)}, Page: d.page("part "+p.Code) - 1})
		}
	}
	return []render.Item{render.Group{Name: "make " + digits(st.Number), Items: items}}
}

// madeOnce are the parts of a step, a family by its first.
func (d *desk) madeOnce(st *model.Step) []*model.Part {
	var out []*model.Part
	for _, p := range st.Make {
		if p.Family != "" && slices.ContainsFunc(out, func(q *model.Part) bool { return q.Family == p.Family }) {
			continue
		}
		out = append(out, p)
	}
	return out
}

// partPicture draws one part as it lies on the bench, the face of its drawing up.
func (d *desk) partPicture(p *model.Part, box geom.Box) []render.Item {
	solid, err := p.Board.Solid(0.1)
	if err != nil {
		return nil
	}
	flip := facing(p).flip
	up, rear := geom.V3{Z: -1}, geom.V3{Y: 1}
	if flip {
		up, rear = geom.V3{Z: 1}, geom.V3{Y: -1}
	}
	toward := up.Mul(0.82).Sub(rear.Mul(0.52)).Add(geom.V3{X: 0.24}).Unit()
	right := geom.V3{X: 1}.Sub(toward.Mul(toward.X)).Unit()
	high := rear.Sub(toward.Mul(rear.Dot(toward))).Sub(right.Mul(rear.Dot(right))).Unit()
	cam := view.Camera{Right: right, Up: high, Toward: toward}
	pic := woodwork.Fit([]woodwork.Piece{{Solid: solid, Grain: geom.V3{X: 1}, Look: woodwork.Fresh}}, cam, box, 0.5)
	return pic.Items()
}
