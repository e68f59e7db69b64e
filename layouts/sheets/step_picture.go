package sheets

import (
	"fmt"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// pictureJobs are the pictures of the steps of some pages, in their order, each with
// the lower left corner of its box at the origin: where it stands on the page does
// not matter to it.
func (d *desk) pictureJobs(pages []stepPage) []job {
	var out []job
	for _, page := range pages {
		for i, s := range page.steps {
			out = append(out, d.pictureJob(s.step, s.rungs[page.at[i]].picture()))
		}
	}
	return out
}

func (d *desk) pictureJob(st *model.Step, box geom.Box) job {
	key := fmt.Sprintf("step %d %.3f", st.Number, box)
	switch {
	case box.W() == 0:
		return job{key, func(*desk) block { return block{} }}
	case !onlyMakes(st):
		return job{key, func(d *desk) block { return block{items: d.stepPicture(st, box)} }}
	}
	for _, p := range st.Make {
		key += " " + d.onPage("part "+p.Code)
	}
	return job{key, func(d *desk) block { return block{items: d.makePicture(st, box)} }}
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
	n := d.fitStep(st, s, box)
	for _, p := range n.lost {
		d.problem("step %d: %s", st.Number, p)
	}
	return []render.Item{render.Group{Name: "step " + digits(st.Number), Items: n.items}}
}

// fitStep draws a scene with its notes as close round it as they find places.
func (d *desk) fitStep(st *model.Step, s *scene, box geom.Box) *stepDrawing {
	var n *stepDrawing
	for _, close := range [...]float64{1, 0.8, 0.6, 0.4, 0.2, 0} {
		if n = d.drawStep(st, s, box, close); len(n.lost) == 0 {
			break
		}
	}
	return n
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
