package sheets

import (
	"fmt"
	"slices"

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

// A stepDrawing is the picture of a step on its way to the page.
type stepDrawing struct {
	d       *desk
	st      *model.Step
	s       *scene
	box     geom.Box
	cam     view.Camera
	pic     *woodwork.Picture
	ground  *ground
	items   []render.Item
	ink     []render.Path
	keep    []geom.Box
	loose   [][2]geom.Pt // lines that are not of wood: trails and tapes
	leaders [][2]geom.Pt // of notes and tabs that have their place
	crowd   *crowd       // everything drawn that text keeps off
	price   float64      // of the leaders placed
	lost    []string     // what found no place
}

// stepPicture draws a step into a box: what is new toned and heavy, what was
// there thin and white, hardware off its holes, tools where they measure. It is
// as large as it can be with its notes round it.
func (d *desk) stepPicture(st *model.Step, box geom.Box) []render.Item {
	s := d.stepScene(st)
	if len(s.pieces) == 0 {
		return nil
	}
	var n *stepDrawing
	for _, close := range [...]float64{1, 0.6, 0.3, 0} {
		if n = d.drawStep(st, s, box, close); len(n.lost) == 0 {
			break
		}
	}
	for _, p := range n.lost {
		d.problem("step %d: %s", st.Number, p)
	}
	return []render.Item{render.Group{Name: "step " + digits(st.Number), Items: n.items}}
}

// drawStep draws a scene with its notes close round it, 1, or with more room for
// them, down to 0.
func (d *desk) drawStep(st *model.Step, s *scene, box geom.Box, close float64) *stepDrawing {
	cam := lookFrom(viewOf(st))
	n := &stepDrawing{d: d, st: st, s: s, box: box, cam: cam}
	n.pic = woodwork.Fit(s.pieces, cam, roomIn(s.flatBox(cam), s.kinds(), box, len(d.viewText(st, box)), close), 0.5)
	n.ground = groundOf(n.pic)
	trails := s.trailPaths(n.pic)
	n.items = append(n.pic.Items(), render.Stroke{Paths: trails, Pen: trailPen})
	n.ink = append(n.pic.Ink(), trails...)
	if !n.cues() && close > 0 {
		n.lost = append(n.lost, "no corner is free for the arrows")
		return n
	}
	n.measures()
	n.loose = append(n.loose, pathLines(trails)...)
	n.crowd = crowdOf(box, n.ground, strokesOf(n.items))
	left := n.callouts()
	body := n.pic.Box
	if close > 0 {
		body = body.Grow(-tuck)
	}
	f := dims.Field{Box: box, Ink: n.ink, Body: body, Keep: append(n.leaderBoxes(), n.keep...), Faces: s.faces(n.pic, nil)}
	placed, _, none := dims.Place(f, left...)
	n.items = append(n.items, placed...)
	n.lost = append(n.lost, none...)
	return n
}

// stepScene gathers what a step shows.
func (d *desk) stepScene(st *model.Step) *scene {
	s := &scene{plan: d.plan}
	fresh := d.freshIn(st)
	bench := st.OnBench()
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
	s.tools(st.Shows)
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
		if s.Stage == st.Stage && s.OnBench() {
			for _, i := range s.Add {
				fresh[i] = true
			}
		}
	}
	return fresh
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
	pic := woodwork.Fit([]woodwork.Piece{{Solid: solid, Grain: geom.V3{X: 1}, Look: woodwork.Fresh}}, partCamera(p), box, 0.5)
	return pic.Items()
}
