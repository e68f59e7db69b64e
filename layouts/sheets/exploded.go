package sheets

import (
	"fmt"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/tables"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// fewPieces is how many pieces one exploded view shows well; bigger things get
// one more for each stage.
const fewPieces = 12

// exploded draws the whole taken apart along its joints, then each stage when
// the whole has many pieces.
func exploded(d *desk, s sheet) {
	var all []int
	for i, p := range d.plan.Placed {
		if p.Solid != nil {
			all = append(all, i)
		}
	}
	if len(all) < 2 || len(d.plan.Joints) == 0 {
		return
	}
	l := d.leaf(s, s.title, "Everything taken apart along its joints; the dashed lines show how it goes together.")
	l.explode(all, heroView)
	if len(all) <= fewPieces {
		return
	}
	for i, st := range d.plan.Stages {
		pieces, words := d.stagePieces(st.Key)
		if len(pieces) < 2 || len(pieces) == len(all) {
			continue
		}
		l := d.leaf(s, s.title+": "+lower(st.Title), "Stage "+digits(i+1)+" by itself, with what it is fastened to.")
		l.explode(pieces, words)
	}
}

// stagePieces are the pieces a stage adds, those they are fastened to in it,
// and the view of its first step.
func (d *desk) stagePieces(key string) (pieces []int, words string) {
	add := func(i int) {
		if !slices.Contains(pieces, i) {
			pieces = append(pieces, i)
		}
	}
	var joints []*model.Joint
	for _, st := range d.plan.Steps {
		if st.Stage != key {
			continue
		}
		if words == "" {
			words = st.View
		}
		for _, i := range st.Add {
			add(i)
		}
		joints = append(joints, st.Fasten...)
	}
	own := slices.Clone(pieces)
	for _, j := range joints {
		for _, f := range j.Fasteners {
			a, b := slices.Contains(own, f.Pieces[0]), slices.Contains(own, f.Pieces[1])
			if a != b {
				add(f.Pieces[0])
				add(f.Pieces[1])
			}
		}
	}
	return pieces, words
}

// explode fills a page with one view and its balloons, the legend, and the
// thing as it is put together.
func (l *leaf) explode(pieces []int, words string) {
	d := l.d
	d.mark(l.title, 1)
	const thumb = 50.0
	t := d.legend(pieces)
	laid, faults := tables.Lay(t, bodyW-thumb-10)
	d.problems = append(d.problems, faults...)
	foot := max(laid.Height(0, laid.Rows()), thumb-8) + 4
	box := geom.Box{Min: pt(l.left(), l.body.Min.Y+foot), Max: pt(l.left()+bodyW, l.y)}
	l.later(fmt.Sprintf("exploded %s %.3f", l.title, box), func(d *desk) block { return block{items: d.explodedView(pieces, words, box)} })
	items, _ := laid.Draw(pt(l.left(), l.body.Min.Y+foot-4), 0, laid.Rows())
	l.add(items...)
	small := geom.Box{Min: pt(l.left()+bodyW-thumb, l.body.Min.Y), Max: pt(l.left()+bodyW, l.body.Min.Y+foot-6)}
	l.later(fmt.Sprintf("assembled %s %.3f", l.title, small), func(d *desk) block { return block{items: d.assembled(pieces, words, small)} })
	l.y = l.body.Min.Y
}

// assembled draws pieces put together, small.
func (d *desk) assembled(pieces []int, words string, box geom.Box) []render.Item {
	var whole []woodwork.Piece
	for _, i := range pieces {
		whole = append(whole, woodwork.Piece{ID: i, Solid: d.plan.Placed[i].Solid, Look: woodwork.Done})
	}
	return []render.Item{render.Group{Name: "assembled", Items: woodwork.Fit(whole, lookFrom(words), box, 0.2).Items()}}
}

// explodedView draws pieces apart with hardware, trails and balloons.
func (d *desk) explodedView(pieces []int, words string, box geom.Box) []render.Item {
	off := d.spread(pieces)
	if len(pieces) == len(d.plan.Placed) {
		shift := d.stageShift(pieces)
		for _, i := range pieces {
			off[i] = off[i].Add(shift[i])
		}
	}
	s := &scene{plan: d.plan}
	for _, i := range pieces {
		s.wood(i, woodwork.Natural, off[i])
	}
	for _, j := range d.plan.Joints {
		for _, f := range j.Fasteners {
			if j.Hardware != nil && slices.Contains(pieces, f.Pieces[0]) && slices.Contains(pieces, f.Pieces[1]) {
				s.drive(f)
			}
		}
	}
	const margin = 16.0
	inner := geom.Box{Min: box.Min.Add(pt(margin, margin)), Max: box.Max.Sub(pt(margin, margin))}
	pic := woodwork.Fit(s.pieces, lookFrom(words), inner, 0.5)
	trails := s.trailPaths(pic)
	items := append(pic.Items(), render.Stroke{Paths: trails, Pen: trailPen})
	cues := cuesIn(lookFrom(words), box)
	items = append(items, cues...)
	f := dims.Field{Box: box, Ink: append(pic.Ink(), trails...), Body: pic.Box, Faces: s.faces(pic, nil)}
	for _, c := range cues {
		f.Keep = append(f.Keep, render.Bounds(c))
	}
	placed, _, lost := dims.Place(f, d.explodedBalloons(pieces, pic)...)
	for _, p := range lost {
		d.problem("exploded view: %s", p)
	}
	return []render.Item{render.Group{Name: "exploded", Items: append(items, placed...)}}
}

// explodedBalloons names each part and hand once.
func (d *desk) explodedBalloons(pieces []int, pic *woodwork.Picture) []dims.Wish {
	var out []dims.Wish
	done := map[string]bool{}
	for _, i := range pieces {
		p := d.plan.Placed[i]
		hand := handLetter(p.Hand)
		key := p.Part.Code + hand
		if done[key] {
			continue
		}
		done[key] = true
		var at []geom.Pt
		n := 0
		for _, k := range pieces {
			if q := d.plan.Placed[k]; q.Part == p.Part && q.Hand == p.Hand {
				n++
				if s := pic.Spots(k); len(s) > 0 {
					at = append(at, s[:min(len(s), 6)]...)
				}
			}
		}
		if len(at) == 0 {
			d.problem("exploded view: part %s is not seen", key)
			continue
		}
		b := dims.Balloon{At: at[0], Or: at[1:min(len(at), 16)], Code: p.Part.Code, Hand: hand, Accent: d.accent}
		if n > 1 {
			b.Count = digits(n)
		}
		out = append(out, b)
	}
	return out
}

// A legendLine is one line of a legend.
type legendLine struct {
	tabs []tables.Tab
	name string
	n    int
}

// legend lists the parts and the hardware of a view in two groups of columns.
func (d *desk) legend(pieces []int) *tables.Table {
	lines := append(d.legendParts(pieces), d.legendHardware(pieces)...)
	t := &tables.Table{Accent: d.accent, Narrow: true, Columns: []tables.Column{
		{Title: "", Width: 9}, {Title: "What", Share: 1}, {Title: "Pieces", Width: 13, Align: tables.Right},
		{Title: "", Width: 9}, {Title: "What", Share: 1.2}, {Title: "Pieces", Width: 13, Align: tables.Right},
	}}
	half := (len(lines) + 1) / 2
	for i := range half {
		var row tables.Row
		for _, k := range [...]int{i, i + half} {
			if k < len(lines) {
				l := lines[k]
				row.Cells = append(row.Cells, tables.Cell{Tabs: l.tabs, Page: d.page("part " + firstCode(l.tabs))}, cell(l.name), cell(digits(l.n)))
			} else {
				row.Cells = append(row.Cells, cell(""), cell(""), cell(""))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// legendParts counts the pieces of each part, a family as one.
func (d *desk) legendParts(pieces []int) []legendLine {
	var lines []legendLine
	at := map[string]int{}
	for _, p := range d.plan.Parts {
		n := 0
		for _, i := range pieces {
			if d.plan.Placed[i].Part == p {
				n++
			}
		}
		code := familyOr(p)
		switch k, had := at[code]; {
		case n == 0:
		case had:
			lines[k].n += n
		default:
			at[code] = len(lines)
			lines = append(lines, legendLine{[]tables.Tab{{Code: code}}, p.Name, n})
		}
	}
	return lines
}

// legendHardware counts what holds pieces together, washers and nuts too.
func (d *desk) legendHardware(pieces []int) []legendLine {
	var lines []legendLine
	for _, h := range d.plan.Hardware {
		n := 0
		for _, j := range d.plan.Joints {
			if j.Hardware != h && !slices.Contains(j.With, h) {
				continue
			}
			for _, f := range j.Fasteners {
				if slices.Contains(pieces, f.Pieces[0]) && slices.Contains(pieces, f.Pieces[1]) {
					n++
				}
			}
		}
		if n > 0 {
			lines = append(lines, legendLine{nil, hardwareName(h, d.plan.Unit), n})
		}
	}
	return lines
}

func firstCode(tabs []tables.Tab) string {
	if len(tabs) == 0 {
		return ""
	}
	return tabs[0].Code
}
