package sheets

import (
	"slices"

	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
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
	var out []gluing
	for i, a := range d.plan.Placed {
		for k, b := range d.plan.Placed {
			if i == k || a.Solid == nil || b.Solid == nil || !slices.Contains(j.First, a.Part) || !slices.Contains(j.Second, b.Part) {
				continue
			}
			if best, ok := touchPatch(a, b); ok {
				out = append(out, gluing{a, b, best})
			}
		}
	}
	return out
}

// gluedBlock draws a joint that has nothing but glue, cut across the glued face.
func (d *desk) gluedBlock(j *model.Joint, half bool) block {
	p := &jointPage{d: d, j: j, t: jointType{[]*model.Joint{j}, j}, half: half}
	p.title("Glued, no hardware")
	places := d.gluings(j)
	left, right := p.y, p.y
	if len(places) > 0 {
		p.gluedSection(places[0])
		left, p.y = p.y, right
		p.gluedFace(places[0])
		right = p.y
	}
	p.y = left - 2.4
	for _, s := range p.notes() {
		p.bullet(0, sectionW, s)
	}
	s := digits(len(places)) + " places"
	if len(places) == 1 {
		s = "one place"
	}
	if n := d.stepsOf(j); n != "" {
		s += "; " + stepWord(n)
	}
	p.usedLine(0, sectionW, [2][]string{familyCodes(j.First), familyCodes(j.Second)}, s)
	p.y = min(p.y, right)
	return block{p.items, -p.y}
}

// gluedSection cuts both pieces square to the longer side of the face they
// share, and draws the glue heavy.
func (p *jointPage) gluedSection(g gluing) {
	const high = 42.0
	c, n := middleAndEdge(g.patch.Loops[0])
	right := g.a.Pose.Along
	if right = right.Sub(n.Mul(right.Dot(n))); right.Len() < 0.5 {
		right = g.a.Pose.Across.Sub(n.Mul(g.a.Pose.Across.Dot(n)))
	}
	right = right.Unit()
	k := 1.0
	if p.half {
		k = 0.5
	}
	p.cut = woodwork.Cut{At: c, Right: right, Up: n.Cross(right), Page: pt(sectionX+windowW/2, 0), Scale: k}
	p.cut.Window = geom.Box{Min: pt(sectionX, -high*k/2), Max: pt(sectionX+windowW, high*k/2)}
	pieces := [2]*model.Placed{g.a, g.b}
	labels, leaders, used := rail(railX, sectionW-railX, []railTag{{p.cut.Page, "Exterior wood glue on both faces; clamp until it is dry"}})
	tabs := p.tabs(pieces, leaders)
	art := append(p.wood(pieces), glueLine(p.cut, g.patch)...)
	art = append(art, tabs...)
	used = used.Union(swing(p.cut.Window))
	p.items = append(p.items, Moved(append(art, labels...), pt(0, p.y-used.Max.Y))...)
	p.y -= used.H()
	p.sectionCaption("Section", k)
}

// middleAndEdge returns the middle of a loop's corners and the way its longest
// side runs.
func middleAndEdge(loop []geom.V3) (mid, long geom.V3) {
	for i, v := range loop {
		mid = mid.Add(v.Mul(1 / float64(len(loop))))
		if e := loop[(i+1)%len(loop)].Sub(v); e.Len() > long.Len()+1e-6 {
			long = e
		}
	}
	return mid, long.Unit()
}

// gluedFace looks square at the face that is glued, with the length of its
// sides, and draws it in the right-hand column.
func (p *jointPage) gluedFace(g gluing) {
	_, long := middleAndEdge(g.patch.Loops[0])
	cam := lookAlong(g.patch.N.Neg(), geom.Pose{Along: long})
	loop := make([]geom.Pt, len(g.patch.Loops[0]))
	box := geom.NoBox()
	for i, v := range g.patch.Loops[0] {
		loop[i] = cam.Flat(v)
		box = box.With(loop[i])
	}
	k := 1.0
	for _, s := range standardScales(p.d.plan.Unit) {
		if k = 1 / s; box.W()*k <= patternW && box.H()*k <= patternH {
			break
		}
	}
	mid := box.Min.Add(box.Max).Mul(0.5)
	face := make([]geom.Pt, len(loop))
	body := geom.NoBox()
	for i, q := range loop {
		face[i] = q.Sub(mid).Mul(k)
		body = body.With(face[i])
	}
	path := render.Loop(face...)
	art := []render.Item{render.Fill{Paths: []render.Path{path}, Tone: render.Edge}, render.Stroke{Paths: []render.Path{path}, Pen: render.CutLine}}
	var wishes []dims.Wish
	low, left := 0, 0 // the sides that face down and to the left the most
	out := func(i int) geom.Pt { return face[(i+1)%len(face)].Sub(face[i]).Left().Mul(-1) }
	for i := range face {
		if -out(i).Y > -out(low).Y {
			low = i
		}
		if -out(i).X > -out(left).X {
			left = i
		}
	}
	for _, i := range []int{low, left} {
		a, b := face[i], face[(i+1)%len(face)]
		wishes = append(wishes, dims.Span{Side: dims.Along, A: a, B: b, Label: dims.Label{Text: p.d.plan.Unit.Length(b.Sub(a).Len()/k, expr.Coarse), Note: true}})
	}
	f := dims.Field{Box: body.Grow(24), Body: body, Ink: []render.Path{path}}
	placed, used, lost := dims.Place(f, wishes...)
	for _, s := range lost {
		p.d.problem("joint %s, glued face: %s", p.j.Name, s)
	}
	used = used.Union(body)
	p.items = append(p.items, Moved(append(art, placed...), pt(patternX-used.Min.X, p.y-used.Max.Y))...)
	p.y -= used.H() + 5.9
	caption, _ := dims.Caption(pt(patternX, p.y), "Glued face of "+g.a.Part.Code, k)
	p.items = append(p.items, caption...)
	p.y -= 2
}
