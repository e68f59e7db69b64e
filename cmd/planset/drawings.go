package main

import (
	"slices"
	"strings"

	"planset/layouts/sheets"
	"planset/model"
	"planset/model/reading"
)

// drawings reports names in [drawing.*] that the drawing of the part does not
// have: only the sheets know what a drawing shows.
func (a *app) drawings(d *draft, plan *model.Plan) {
	for _, want := range d.Drawings {
		if len(want.Hide)+len(want.Move) == 0 {
			continue
		}
		i := slices.IndexFunc(plan.Parts, func(p *model.Part) bool { return p.Key == want.Part.Text })
		if i < 0 {
			continue
		}
		hide, move := sheets.DimensionNames(plan, plan.Parts[i])
		for _, w := range want.Hide {
			a.named(w, hide)
		}
		for _, m := range want.Move {
			if slices.Contains(hide, m.Name.Text) && !slices.Contains(move, m.Name.Text) {
				a.problems.Errorf(m.Name.At, "fixed-dimension", "%q can be hidden, but it has no other place", m.Name.Text)
				continue
			}
			a.named(m.Name, move)
		}
	}
}

func (a *app) named(w reading.Word, known []string) {
	if !slices.Contains(known, w.Text) {
		a.problems.Errorf(w.At, "unknown-dimension", "the drawing has no dimension %q", w.Text).
			Fix("it has %s", strings.Join(known, ", ")).Suggest(w.Text, known)
	}
}
