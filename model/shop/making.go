package shop

import (
	"slices"

	"planset/model"
)

// turns are when the work on a part comes: boards are sawn to size first, then
// ends, then shapes, and holes come last (common practice). What is not named is
// done every time.
var turns = map[Operation]int{
	Crosscut: 0, Rip: 0, RipNarrow: 0, EdgeBevel: 0,
	Miter: 1, EndBevel: 1, Compound: 1,
	Taper: 2, Notch: 2, Groove: 2, Curve: 2, Roundover: 2, Chamfer: 2, ShortPiece: 2,
	Drill: 3, Bore: 3, Sink: 3, Pocket: 3, Sand: 3,
}

// making returns what a step does to a part that it makes. A part made in one
// step has everything done there; one made in several has its work shared out
// among them in the order of the work.
func making(plan *model.Plan, step *model.Step, p *model.Part) []Operation {
	var steps []*model.Step
	for _, s := range plan.Steps {
		if slices.Contains(s.Make, p) {
			steps = append(steps, s)
		}
	}
	at, last := slices.Index(steps, step), len(steps)-1
	var out []Operation
	for _, op := range Operations(p) {
		if turn, told := turns[op]; !told || min(turn, last) == at {
			out = append(out, op)
		}
	}
	return out
}
