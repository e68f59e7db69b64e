package sheets

import (
	"strings"

	"planset/fonts"
	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/render"
)

// A jointType is joints that are made alike: the same hardware through the same
// thicknesses.
type jointType struct {
	joints []*model.Joint
	first  *model.Joint
}

// Cells of the joint sheet, mm: a joint goes across the page, its section at
// the left and its pattern at the right.
const (
	jointRow = 3.8 // between joints
	patternX = sectionW + 5
	patternB = bodyW - patternX // wide
)

// jointName is the style of a joint's name.
var jointName = lettering.Style{Face: fonts.CondBold, Size: 14, Lead: 1.15}

// jointSheets draws each type of joint cut open through a real one, and beside
// it how the fasteners sit on the face that is drilled.
func jointSheets(d *desk, s sheet) {
	types := jointTypes(d.plan)
	blocks, pages := d.jointPages(types)
	for _, page := range pages {
		l := d.leaf(s, s.title, "Each kind of joint cut open, and seen from the head: gray is where the parts touch, dashed the part behind.")
		l.state = scalesMarked
		gap := spread(l.room(), blocks, page)
		for n, k := range page {
			if n > 0 {
				l.rule(l.left(), l.left()+bodyW, l.y-gap*0.35, render.Rule)
				l.skip(gap)
			}
			l.add(Moved(blocks[k].items, pt(l.left(), l.y))...)
			l.skip(blocks[k].height)
			for _, j := range types[k].joints {
				d.name("joint " + j.Key)
			}
		}
	}
}

// spread shares what a page leaves free out between its joints, but leaves a
// page that is mostly empty so at its foot.
func spread(room float64, blocks []block, page []int) float64 {
	const most = 14.0
	for _, k := range page {
		room -= blocks[k].height
	}
	if len(page) < 2 {
		return jointRow
	}
	return min(most, max(jointRow, room/float64(len(page)-1)))
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
	axis  woodwork.Axis
	rows  [][]*pattern // of each joint of the type
	half  bool         // drawn at half size to save a page
	y     float64
	items []render.Item
}

func (d *desk) jointBlock(t jointType, half bool) block {
	if t.first.Hardware == nil {
		return d.gluedBlock(t.first, half)
	}
	p := &jointPage{d: d, t: t, j: t.first, f: t.first.Fasteners[0], half: half}
	for _, j := range t.joints {
		p.rows = append(p.rows, d.patterns(j))
	}
	p.title(upper(p.j.Kind) + glueWords(p.j) + ", " + hardwareName(p.j.Hardware, p.d.plan.Unit))
	top := p.y
	p.section()
	left := p.y
	p.y = top
	right, long := p.patternsDrawn()
	p.words(left, right)
	p.longPatterns(long)
	return block{p.items, -p.y}
}

func (p *jointPage) para(x, width float64, s string, st lettering.Style) {
	items, h := lettering.Paragraph(pt(x, p.y), s, width, st)
	p.items = append(p.items, items...)
	p.y -= h
}

// title names the joints of the type, and how they are made.
func (p *jointPage) title(how string) {
	var names []string
	for _, j := range p.t.joints {
		names = append(names, j.Name)
	}
	name := strings.Join(names, "; ")
	if w := lettering.Width(name, jointName) + 4; w+lettering.Width(how, plain) <= bodyW {
		p.items = append(p.items, lettering.Line(pt(w, p.y-lettering.Cap(jointName)), how, plain, toLeft)...)
		p.para(0, bodyW, name, jointName)
	} else {
		p.para(0, bodyW, name, jointName)
		p.y -= 1.6
		p.para(0, bodyW, how, plain)
	}
	p.y -= 1.6
}

// sectionCaption names a view, with its scale and a bar.
func (p *jointPage) sectionCaption(name string, k float64) {
	p.y -= 5.4
	items, w := dims.Caption(pt(sectionX, p.y), name, k)
	p.items = append(p.items, items...)
	bar, _ := dims.ScaleBar(pt(sectionX+w+8, p.y), k, p.d.plan.Unit)
	p.items = append(p.items, bar...)
	p.y -= 2
}
