package sheets

import (
	"fmt"
	"slices"
	"strings"

	"planset/layouts/dims"
	"planset/layouts/lettering"
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
	l.explode(stageView{s.title, all, orElse(d.plan.Exploded.View, heroView), d.plan.Exploded.Apart})
	if len(all) <= fewPieces {
		return
	}
	var stages []stageView
	for _, st := range d.plan.Stages {
		v := d.stageView(st)
		if len(v.pieces) > 1 && len(v.pieces) < len(all) {
			stages = append(stages, v)
		}
	}
	d.explodeStages(s, stages)
}

// A stageView is what one stage puts together, to be drawn apart.
type stageView struct {
	title  string
	pieces []int
	words  string  // of the camera
	apart  float64 // mm, 0 for what is usual
}

// explodeStages draws the stages, two to a page.
func (d *desk) explodeStages(s sheet, stages []stageView) {
	const purpose = "Each stage by itself, with what it is fastened to."
	for i := 0; i < len(stages); i += 2 {
		if i+1 == len(stages) {
			d.leaf(s, s.title+": "+lower(stages[i].title), purpose).explode(stages[i])
			break
		}
		l := d.leaf(s, s.title+": "+lower(stages[i].title)+", "+lower(stages[i+1].title), purpose)
		d.mark(l.title, 1)
		mid := (l.body.Min.Y + l.y) / 2
		l.explodeHalf(stages[i], mid+3)
		l.rule(l.left(), l.left()+bodyW, mid, render.Rule)
		l.y = mid - 4
		l.explodeHalf(stages[i+1], l.body.Min.Y)
		l.y = l.body.Min.Y
	}
}

// explodeHalf draws a stage between the top of what is free and low: the view
// at the left, at the right its name, its legend and the thing put together.
func (l *leaf) explodeHalf(v stageView, low float64) {
	const viewW, gap = 126.0, 6.0
	d := l.d
	x := l.left() + viewW + gap
	box := geom.Box{Min: pt(l.left(), low), Max: pt(l.left()+viewW, l.y)}
	l.later(fmt.Sprintf("exploded %s %.3f", v.title, box), func(d *desk) block { return block{items: d.explodedView(v, box)} })
	y := l.y - lettering.Cap(jointName)
	l.line(pt(x, y), v.title, jointName, toLeft)
	laid, faults := tables.Lay(d.legend(v.pieces, 1), bodyW-viewW-gap)
	d.problems = append(d.problems, faults...)
	items, high := laid.Draw(pt(x, y-3), 0, laid.Rows())
	l.add(items...)
	small := geom.Box{Min: pt(x, low), Max: pt(l.left()+bodyW, min(y-3-high-5, low+36))}
	l.later(fmt.Sprintf("assembled %s %.3f", v.title, small), func(d *desk) block { return block{items: d.assembled(v.pieces, v.words, small)} })
}

// stageView gathers the pieces a stage adds and those they are fastened to in
// it, seen as in its first step.
func (d *desk) stageView(stage model.Stage) stageView {
	var pieces []int
	words := stage.Exploded.View
	add := func(i int) {
		if !slices.Contains(pieces, i) {
			pieces = append(pieces, i)
		}
	}
	var joints []*model.Joint
	for _, st := range d.plan.Steps {
		if st.Stage != stage.Key {
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
	return stageView{orElse(strings.TrimSpace(stage.Title), "Building"), pieces, words, stage.Exploded.Apart}
}

// explode fills a page with one view and its balloons, the legend, and the
// thing as it is put together.
func (l *leaf) explode(v stageView) {
	d, pieces, words := l.d, v.pieces, v.words
	d.mark(l.title, 1)
	const thumb = 50.0
	t := d.legend(pieces, 2)
	laid, faults := tables.Lay(t, bodyW-thumb-10)
	d.problems = append(d.problems, faults...)
	foot := max(laid.Height(0, laid.Rows()), thumb-8) + 4
	box := geom.Box{Min: pt(l.left(), l.body.Min.Y+foot), Max: pt(l.left()+bodyW, l.y)}
	l.later(fmt.Sprintf("exploded %s %.3f", l.title, box), func(d *desk) block { return block{items: d.explodedView(v, box)} })
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
func (d *desk) explodedView(v stageView, box geom.Box) []render.Item {
	pieces, words := v.pieces, v.words
	off := d.spread(pieces, v.apart)
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
