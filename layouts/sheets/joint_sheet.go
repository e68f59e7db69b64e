package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/fonts"
	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/wood"
	"planset/render"
)

// A jointType is joints that are made alike: the same hardware through the same
// thicknesses.
type jointType struct {
	joints []*model.Joint
	first  *model.Joint
}

// Cells of the joint sheet, mm: two in a row.
const (
	jointW   = 88.0
	jointGap = 8.0
	jointRow = 4.5
	windowW  = 46.0 // of a section
)

// jointName is the style of a joint's name.
var jointName = lettering.Style{Face: fonts.CondBold, Size: 14, Lead: 1.15}

// jointSheets draws one section for each type of joint, cut through a real one,
// in two columns.
func jointSheets(d *desk, s sheet) {
	types := jointTypes(d.plan)
	blocks, columns := d.jointColumns(types)
	var l *leaf
	for i, column := range columns {
		if i%2 == 0 {
			l = d.leaf(s, s.title, "Each kind of joint once, cut open through the middle of the screw or bolt.")
		}
		x, y := l.left()+float64(i%2)*(jointW+jointGap), l.body.Max.Y
		for n, k := range column {
			if n > 0 {
				l.rule(x, x+jointW, y-jointRow*0.35, render.Rule)
				y -= jointRow
			}
			l.add(Moved(blocks[k].items, pt(x, y))...)
			y -= blocks[k].height
			for _, j := range types[k].joints {
				d.name("joint " + j.Key)
			}
		}
		l.y = min(l.y, y)
	}
}

// jointTypes sorts the joints of a plan by how they are made.
func jointTypes(plan *model.Plan) []jointType {
	var out []jointType
	at := map[string]int{}
	for _, j := range plan.Joints {
		if len(j.Fasteners) == 0 || j.Hardware == nil {
			if j.Hardware == nil && (j.Bond || j.Glue) {
				out = append(out, jointType{[]*model.Joint{j}, j})
			}
			continue
		}
		f := j.Fasteners[0]
		key := strings.Join([]string{j.Kind, j.Hardware.Code, expr.MM.Bare(f.Grip, expr.Drill), yes(j.Glue), expr.Angle(j.Angle, 1)}, "|")
		if i, ok := at[key]; ok {
			out[i].joints = append(out[i].joints, j)
			continue
		}
		at[key] = len(out)
		out = append(out, jointType{[]*model.Joint{j}, j})
	}
	return out
}

// A jointPage is one type being drawn.
type jointPage struct {
	d     *desk
	t     jointType
	j     *model.Joint
	f     model.Fastener
	cut   woodwork.Cut
	half  bool // drawn at half size to save a page
	y     float64
	items []render.Item
}

func (d *desk) jointBlock(t jointType, half bool) block {
	if t.first.Hardware == nil {
		return d.gluedBlock(t.first)
	}
	p := &jointPage{d: d, t: t, j: t.first, f: t.first.Fasteners[0], half: half}
	p.title()
	p.section()
	p.words()
	return block{p.items, -p.y}
}

func (p *jointPage) para(x, width float64, s string, st lettering.Style) {
	items, h := lettering.Paragraph(pt(x, p.y), s, width, st)
	p.items = append(p.items, items...)
	p.y -= h
}

func (p *jointPage) title() {
	var names []string
	for _, j := range p.t.joints {
		names = append(names, j.Name)
	}
	p.para(0, jointW, strings.Join(names, "; "), jointName)
	p.y -= 1.6
	p.para(0, jointW, upper(p.j.Kind)+glueWords(p.j)+", "+hardwareName(p.j.Hardware, p.d.plan.Unit), plain)
	p.y -= 1.4
}

// plane lays the section through the fastener so that it shows the second part
// across its grain, and a slanted pocket in full.
func (p *jointPage) plane() {
	pl := p.d.plan.Placed
	first, second := pl[p.f.Pieces[0]], pl[p.f.Pieces[1]]
	n := second.Pose.Along
	if p.j.Hardware.Kind == model.PocketScrew {
		n = first.Pose.Across
	}
	flat := func(v geom.V3) geom.V3 { return v.Sub(p.f.Dir.Mul(v.Dot(p.f.Dir))) }
	if flat(n).Len() < 0.7 {
		n = second.Pose.Thick
	}
	n = flat(n).Unit()
	p.cut = woodwork.Cut{At: p.f.Head, Up: p.f.Dir.Neg(), Right: p.f.Dir.Neg().Cross(n).Neg(), Scale: p.scale()}
	if p.cut.Right.X < -0.1 { // as little turned from the furniture as can be
		p.cut.Right = p.cut.Right.Neg()
	}
}

// scale is full size, or half when the joint is too long for that.
func (p *jointPage) scale() float64 {
	if p.half || p.deep()+24 > 96 {
		return 0.5
	}
	return 1
}

// deep is how far the picture reaches below the head, real mm.
func (p *jointPage) deep() float64 {
	deep := p.f.Length
	if isBolt(p.j.Hardware) {
		return deep + 2
	}
	hold := 0.0
	if len(p.j.Stack) > 1 {
		hold = p.j.Stack[1].Thick
	}
	return max(deep+5, min(p.f.Grip+hold+3, deep+7))
}

func isBolt(h *model.Hardware) bool {
	return h.Kind == model.CarriageBolt || h.Kind == model.HexBolt
}

// section draws the cut and its dimensions.
func (p *jointPage) section() {
	p.plane()
	k := p.cut.Scale
	x := 42.0
	p.cut.Page = pt(x, 0)
	over := 3 * k
	switch {
	case isBolt(p.j.Hardware):
		over = 8 * k
	case p.j.Hardware.Kind == model.PocketScrew:
		over = 22 * k
	}
	p.cut.Window = geom.Box{Min: pt(x-windowW/2, -p.deep()*k), Max: pt(x+windowW/2, over)}
	var art []render.Item
	f := dims.Field{Box: geom.Box{Min: pt(0, p.cut.Window.Min.Y-16), Max: pt(jointW, over+16)}, Body: p.cut.Window}
	for i, piece := range [...]int{p.f.Pieces[1], p.f.Pieces[0]} {
		w := p.d.plan.Placed[piece]
		if w.Solid == nil {
			continue
		}
		tone := render.Gray([2]float64{0.16, 0.05}[i])
		art = append(art, p.cut.Wood(w.Solid, w.Pose.Along, tone)...)
	}
	art = append(art, p.holes()...)
	axis := woodwork.Axis{Head: p.cut.Page, Dir: pt(0, -1), Scale: k}
	if isBolt(p.j.Hardware) {
		art = append(art, axis.Bolt(p.j.Hardware, p.f.Grip, len(p.j.With) > 1)...)
	} else {
		art = append(art, axis.Screw(p.j.Hardware)...)
	}
	placed, used, lost := dims.Place(f, p.wishes()...)
	for _, s := range lost {
		p.d.problem("joint %s: %s", p.j.Name, s)
	}
	used = used.Union(p.cut.Window)
	v := pt(0, p.y-used.Max.Y)
	p.items = append(p.items, Moved(append(art, placed...), v)...)
	p.y -= used.H()
	p.sectionCaption()
}

// sectionCaption names the cut, with its scale and a bar.
func (p *jointPage) sectionCaption() {
	p.y -= 5.9
	items, w := dims.Caption(pt(0, p.y), "Section", p.cut.Scale)
	p.items = append(p.items, items...)
	bar, _ := dims.ScaleBar(pt(w+8, p.y), p.cut.Scale, p.d.plan.Unit)
	p.items = append(p.items, bar...)
	p.y -= 4
}

// holes whitens the drilled room round the fastener: clearance above, pilot
// below, as far as they are wider than it.
func (p *jointPage) holes() []render.Item {
	k, x := p.cut.Scale, p.cut.Page.X
	room := func(d, from, to float64) render.Item {
		b := geom.Box{Min: pt(x-d/2*k, -to*k), Max: pt(x+d/2*k, -from*k)}
		path := render.Rect(b)
		return render.Group{Items: []render.Item{
			render.Fill{Paths: []render.Path{path}, Tone: render.White}, render.Stroke{Paths: []render.Path{path}, Pen: render.Hairline},
		}}
	}
	var out []render.Item
	switch {
	case isBolt(p.j.Hardware):
		out = append(out, room(p.j.Clear, 0, p.f.Grip))
	case p.j.Hardware.Kind == model.PocketScrew:
		out = append(out, room(wood.PocketDrill, -60, 0))
	default:
		if p.j.Clear > 0 {
			out = append(out, room(p.j.Clear, 0, p.f.Grip))
		}
		if p.j.Pilot > 0 {
			out = append(out, room(p.j.Pilot, p.f.Grip, p.f.Grip+p.j.PilotDeep))
		}
	}
	for i, g := range out {
		out[i] = render.Group{Name: "hole", Clip: p.cut.Window, Items: []render.Item{g}}
	}
	return out
}

// wishes are the lengths along the axis.
func (p *jointPage) wishes() []dims.Wish {
	u, k := p.d.plan.Unit, p.cut.Scale
	left, right := p.cut.Window.Min.X, p.cut.Window.Max.X
	at := func(x, s float64) geom.Pt { return pt(x, -s*k) }
	note := func(mm float64) dims.Label { return dims.Label{Text: u.Length(mm, expr.Fine), Note: true} }
	var out []dims.Wish
	if isBolt(p.j.Hardware) {
		out = append(out, dims.Span{Side: dims.LeftOf, A: at(left, p.f.Grip), B: at(left, 0), Label: note(p.f.Grip)},
			dims.Span{Side: dims.RightOf, A: at(right, p.f.Length), B: at(right, 0), Label: note(p.f.Length)})
		return append(out, dims.Callout{At: at(p.cut.Page.X, -3), Dot: true, Text: []string{"head"}, Prefer: pt(1, 1)},
			dims.Callout{At: at(p.cut.Page.X, p.f.Grip+6), Dot: true, Text: []string{"nut"}, Prefer: pt(-1, -1)})
	}
	if p.j.Hardware.Kind != model.PocketScrew {
		out = append(out, dims.Span{Side: dims.LeftOf, A: at(left, p.f.Grip), B: at(left, 0), Label: note(p.f.Grip)})
		if p.j.PilotDeep > 0 {
			out = append(out, dims.Span{Side: dims.LeftOf, A: at(left, p.f.Grip+p.j.PilotDeep), B: at(left, p.f.Grip), Label: note(p.j.PilotDeep)})
		}
	}
	return append(out, dims.Span{Side: dims.RightOf, A: at(right, p.f.Length), B: at(right, 0), Label: note(p.f.Length)})
}

// words tells how the joint is made, where and how often.
func (p *jointPage) words() {
	for _, s := range p.recipe() {
		p.bullet(s)
	}
	p.y -= 1
	for _, j := range p.t.joints {
		p.used(j)
	}
}

// recipe is the drilling and driving, in the order it is done.
func (p *jointPage) recipe() []string {
	u, j := p.d.plan.Unit, p.j
	var out []string
	drill := func(mm float64) string { return "⌀" + u.Length(mm, expr.Drill) }
	switch {
	case isBolt(j.Hardware):
		out = append(out, "Drill "+drill(j.Clear)+" through both, clamped together.")
		if j.NutSide != "" {
			out = append(out, "Washer and nut on the "+j.NutSide+" face of "+lettersOf(j.Second)+".")
		}
	case j.Hardware.Kind == model.PocketScrew:
		out = append(out, "Pocket at "+expr.Angle(math.Abs(j.Angle), 0.5)+" to the face, mouth "+orElse(mouthWords(j.Mouth), "inside")+"; no pilot in the second part.")
	default:
		s := "Clearance " + drill(j.Clear) + " through " + lettersOf(j.First)
		if j.Sink {
			s += ", countersunk flush"
		}
		out = append(out, s+".")
		if j.Pilot > 0 {
			out = append(out, "Pilot "+drill(j.Pilot)+", "+u.LongTo(j.PilotDeep, expr.Fine)+" deep in "+lettersOf(j.Second)+".")
		}
	}
	if j.Glue {
		out = append(out, "Spread exterior wood glue on the joining faces.")
	}
	if j.Note != "" {
		out = append(out, j.Note)
	}
	return out
}

func glueWords(j *model.Joint) string {
	if j.Glue {
		return " and glued"
	}
	return ", no glue"
}

func mouthWords(side string) string {
	if side == "" {
		return ""
	}
	return "to the " + side
}

// lettersOf lists the letters of parts, families once.
func lettersOf(parts []*model.Part) string {
	var out []string
	for _, q := range parts {
		out = appendNew(out, familyOr(q))
	}
	return join(out)
}

// used is one line: which parts, how many, how far from the edges, which step.
func (p *jointPage) used(j *model.Joint) {
	u := p.d.plan.Unit
	s := digits(len(j.Fasteners)) + " in all"
	if j.Places > 0 && len(j.Fasteners)%j.Places == 0 {
		s = digits(len(j.Fasteners)/j.Places) + " at each of " + digits(j.Places) + " places, " + s
	}
	if j.Inset > 0 {
		s += "; " + u.Long(j.Inset) + " from the edges"
		if j.Each > 1 && j.Spacing > 0 {
			s += ", " + u.Long(j.Spacing) + " apart"
		}
	}
	if n := p.d.stepsOf(j); n != "" {
		s += "; " + stepWord(n)
	}
	p.usedLine(j, s)
}

// usedLine sets the tabs of both sides of a joint, and a text after them.
func (p *jointPage) usedLine(j *model.Joint, s string) {
	x := 0.0
	for i, set := range [...][]*model.Part{j.First, j.Second} {
		var seen []string
		for _, q := range set {
			if c := familyOr(q); !slices.Contains(seen, c) {
				seen = append(seen, c)
				items, w := lettering.Tab(pt(x, p.y-5), c, "", 5, p.d.accent)
				p.items = append(p.items, items...)
				x += w + 1.2
			}
		}
		if i == 0 {
			p.items = append(p.items, lettering.Line(pt(x+0.6, p.y-2.5-lettering.Cap(plain)/2), "to", plain, toLeft)...)
			x += 5.6
		}
	}
	p.y -= 0.8
	p.para(x+1.4, jointW-x-1.4, s, narrow)
	p.y -= 1.8
}
