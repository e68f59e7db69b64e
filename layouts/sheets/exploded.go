package sheets

import (
	"slices"
	"strings"

	"planset/model"
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
