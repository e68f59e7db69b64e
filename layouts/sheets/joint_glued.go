package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// A gluing is two pieces that are glued face to face, and where.
type gluing struct {
	a, b  *model.Placed
	patch geom.Patch
}

// gluings finds every place of a joint that is only glued, by the faces that
// touch.
func (d *desk) gluings(j *model.Joint) []gluing {
	const near = 0.3 // mm, of faces that are meant to touch
	var out []gluing
	for i, a := range d.plan.Placed {
		for k, b := range d.plan.Placed {
			if i == k || a.Solid == nil || b.Solid == nil || !slices.Contains(j.First, a.Part) || !slices.Contains(j.Second, b.Part) {
				continue
			}
			best := geom.Patch{}
			for _, p := range geom.Contact(a.Solid, b.Solid, near) {
				if p.Area > best.Area {
					best = p
				}
			}
			if best.Area > 0 {
				out = append(out, gluing{a, b, best})
			}
		}
	}
	return out
}

// gluedBlock draws a joint that has nothing but glue, cut across the glued face.
func (d *desk) gluedBlock(j *model.Joint) block {
	p := &jointPage{d: d, j: j, t: jointType{[]*model.Joint{j}, j}}
	p.para(0, jointW, j.Name, jointName)
	p.y -= 1.6
	p.para(0, jointW, "Glued", plain)
	p.y -= 2
	places := d.gluings(j)
	if len(places) > 0 {
		p.gluedSection(places[0])
	}
	p.bullet("Spread exterior wood glue on both faces and clamp until it is dry.")
	if j.Note != "" {
		p.bullet(j.Note)
	}
	p.y -= 1
	s := digits(len(places)) + " places"
	if len(places) == 1 {
		s = "one place"
	}
	if n := d.stepsOf(j); n != "" {
		s += "; " + stepWord(n)
	}
	p.usedLine(j, s)
	return block{p.items, -p.y}
}

// gluedSection cuts both pieces square to the longer side of the face they
// share, and draws the glue heavy.
func (p *jointPage) gluedSection(g gluing) {
	const high = 42.0
	loop := g.patch.Loops[0]
	c, n := geom.V3{}, geom.V3{}
	for i, v := range loop {
		c = c.Add(v.Mul(1 / float64(len(loop))))
		if e := loop[(i+1)%len(loop)].Sub(v); e.Len() > n.Len() {
			n = e
		}
	}
	n = n.Unit()
	right := g.a.Pose.Along
	if right = right.Sub(n.Mul(right.Dot(n))); right.Len() < 0.5 {
		right = g.a.Pose.Across.Sub(n.Mul(g.a.Pose.Across.Dot(n)))
	}
	right = right.Unit()
	p.cut = woodwork.Cut{At: c, Right: right, Up: n.Cross(right), Page: pt(42, 0), Scale: 1}
	p.cut.Window = geom.Box{Min: pt(42-windowW/2, -high/2), Max: pt(42+windowW/2, high/2)}
	var art []render.Item
	for i, w := range [...]*model.Placed{g.b, g.a} {
		art = append(art, p.cut.Wood(w.Solid, w.Pose.Along, render.Gray([2]float64{0.16, 0.05}[i]))...)
	}
	// The glue line runs in the plane of the cut, along the shared face.
	run := n.Cross(g.patch.N).Unit()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range loop {
		s := v.Sub(c).Dot(run)
		lo, hi = min(lo, s), max(hi, s)
	}
	a, b := p.cut.Point(c.Add(run.Mul(lo))), p.cut.Point(c.Add(run.Mul(hi)))
	glue := render.Lines(a, b)
	art = append(art, render.Group{Name: "glue", Clip: p.cut.Window, Items: []render.Item{render.Stroke{Paths: []render.Path{glue}, Pen: render.Heavy}}})
	f := dims.Field{Box: geom.Box{Min: pt(0, -high/2-12), Max: pt(jointW, high/2+12)}, Body: p.cut.Window, Ink: []render.Path{glue}}
	placed, used, lost := dims.Place(f, dims.Callout{At: a.Add(b).Mul(0.5), Dot: true, Text: []string{"glue"}, Prefer: pt(1, 0.6)})
	for _, s := range lost {
		p.d.problem("joint %s: %s", p.j.Name, s)
	}
	used = used.Union(p.cut.Window)
	p.items = append(p.items, Moved(append(art, placed...), pt(0, p.y-used.Max.Y))...)
	p.y -= used.H()
	p.sectionCaption()
}

// bullet sets one sentence of a recipe.
func (p *jointPage) bullet(s string) {
	p.items = append(p.items, lettering.Line(pt(0, p.y-lettering.Cap(plain)), "·", strong, toLeft)...)
	p.para(3.4, jointW-3.4, s, plain)
	p.y -= 0.9
}
