// Package shop tells what the work takes: the operations a plan asks for, the
// tools, the cautions, the words a beginner may not know, and whether the lists
// agree with each other.
//
// Everything is derived from a solved model.Plan and nothing else. It knows the
// shop, and neither pages nor how a list is drawn; boards are laid out in
// model/cutting and faults of the design are found in model/check.
package shop

import (
	"slices"

	"planset/model"
)

// An Operation is one kind of work that has its own tools and its own hazards.
type Operation string

// The operations, in the order of the work.
const (
	Measure    Operation = "measuring"
	Crosscut   Operation = "crosscutting"
	Rip        Operation = "ripping"
	RipNarrow  Operation = "ripping narrow strips"
	ShortPiece Operation = "sawing a short piece"
	Miter      Operation = "mitering"
	EndBevel   Operation = "end beveling"
	Compound   Operation = "compound cut"
	EdgeBevel  Operation = "edge beveling"
	Taper      Operation = "tapering"
	Notch      Operation = "notching"
	Groove     Operation = "grooving"
	Curve      Operation = "sawing a curve"
	Roundover  Operation = "rounding over"
	Chamfer    Operation = "chamfering"
	Drill      Operation = "drilling"
	Bore       Operation = "counterboring"
	Sink       Operation = "countersinking"
	Pocket     Operation = "drilling pockets"
	Clamp      Operation = "clamping"
	MatchDrill Operation = "match-drilling"
	DriveScrew Operation = "driving screws"
	Bolt       Operation = "bolting"
	Plug       Operation = "plugging"
	Glue       Operation = "gluing"
	Sand       Operation = "sanding"
	Coat       Operation = "finishing"
	Lift       Operation = "lifting"
	Use        Operation = "using"
)

// order is the order of the work, for sorting.
var order = [...]Operation{
	Measure, Crosscut, Rip, RipNarrow, ShortPiece, Miter, EndBevel, Compound, EdgeBevel, Taper, Notch, Groove,
	Curve, Roundover, Chamfer, Drill, Bore, Sink, Pocket, Clamp, MatchDrill, DriveScrew, Bolt, Plug, Glue, Sand,
	Coat, Lift, Use,
}

// The limits below which sawing needs other ways of holding the wood, in mm.
const (
	// NarrowStrip is the width of a ripped strip below which a hand beside the
	// fence comes near the blade: common practice of the trade, 3 in.
	NarrowStrip = 76.2
	// ShortEnd is the shortest piece that should be held by hand at a power
	// saw: common practice of the trade, 12 in.
	ShortEnd = 304.8
	// LightKG is the mass up to which one lifts without a thought: common practice.
	LightKG = 8.0
	// HeavyKG is the mass from which two people lift: common practice.
	HeavyKG = 12.0
)

// slack keeps a piece of exactly the limit from being called short.
const slack = 0.05

// A Job is one operation with the parts and steps that ask for it.
type Job struct {
	Op    Operation
	Parts []*model.Part // in the order of the plan
	Steps []int         // numbers of the steps, rising
}

// Operations returns the operations that making one part takes, in the order of
// the work. What joints add when the part is put in is not among them.
func Operations(p *model.Part) []Operation {
	ops := set{}
	ops.add(Measure, Crosscut, Sand)
	sawing(p, ops)
	edging(p, ops)
	drilling(p, ops)
	return ops.sorted()
}

// sawing adds the saw cuts of p.
func sawing(p *model.Part, ops set) {
	if ripped(p) {
		ops.add(Rip)
		if p.RoughWidth < NarrowStrip-slack || p.Width < NarrowStrip-slack {
			ops.add(RipNarrow)
		}
	}
	if p.Length < ShortEnd-slack {
		ops.add(ShortPiece)
	}
	for _, e := range p.Ends {
		switch {
		case e.Miter != 0 && e.Bevel != 0:
			ops.add(Compound)
		case e.Miter != 0, e.Then != 0, e.Shape == "cut":
			ops.add(Miter)
		case e.Bevel != 0:
			ops.add(EndBevel)
		case e.Shape == "round", e.Shape == "half round", e.Shape == "free":
			ops.add(Curve)
		}
	}
	for _, e := range p.Edges {
		if e.Bevel != 0 {
			ops.add(EdgeBevel)
		}
	}
	if len(p.Tapers) > 0 {
		ops.add(Taper)
	}
	if len(p.Notches) > 0 {
		ops.add(Notch)
	}
	if len(p.Grooves) > 0 {
		ops.add(Groove)
	}
	if p.Free {
		ops.add(Curve)
	}
}

// ripped reports whether p is sawn narrower than its board.
func ripped(p *model.Part) bool {
	return !p.AsBought && p.Stock != nil && p.Width < p.Stock.Width-slack
}

// edging adds what is done to the corners and arrises of p.
func edging(p *model.Part, ops set) {
	for _, c := range p.Corners {
		if c.Radius > 0 {
			ops.add(Curve)
		} else {
			ops.add(Miter)
		}
	}
	for _, a := range p.Arrises {
		if a.Chamfer {
			ops.add(Chamfer)
		} else {
			ops.add(Roundover)
		}
	}
}

// drilling adds the holes that are laid out and drilled in p by itself.
func drilling(p *model.Part, ops set) {
	for _, h := range p.Holes {
		if h.Matched {
			continue
		}
		ops.add(Drill)
		if h.BoreDiam > 0 {
			ops.add(Bore)
		}
		if h.Sink {
			ops.add(Sink)
		}
	}
	if len(p.Pockets) > 0 {
		ops.add(Pocket)
	}
}

// joining adds what making joint j takes.
func joining(j *model.Joint, ops set) {
	if j.Glue || j.Bond {
		ops.add(Glue, Clamp)
	}
	if j.Hardware == nil {
		return
	}
	switch j.Hardware.Kind {
	case model.CarriageBolt, model.HexBolt:
		ops.add(Bolt)
	case model.WoodScrew, model.PocketScrew:
		ops.add(DriveScrew)
	}
	if j.Pilot > 0 || j.Clear > 0 {
		ops.add(Drill)
	}
	if j.Sink {
		ops.add(Sink)
	}
	if j.Plug {
		ops.add(Plug)
	}
	if matched(j) {
		ops.add(MatchDrill, Clamp)
	}
}

// matched reports whether the second part of j is drilled through the first for
// a bolt; pilot holes for screws are drilled through theirs one by one.
func matched(j *model.Joint) bool {
	for _, p := range slices.Concat(j.First, j.Second) {
		for _, h := range p.Holes {
			if h.Matched && h.Joint == j && h.Kind == model.BoltHole {
				return true
			}
		}
	}
	return false
}

// InStep returns the operations of one step, in the order of the work: those of
// the parts made there, the joints fastened there, and what the step says of
// itself. The last step of a plan also has the finished piece lifted and used.
func InStep(plan *model.Plan, step *model.Step) []Operation {
	ops := set{}
	for _, p := range step.Make {
		ops.add(making(plan, step, p)...)
	}
	for _, j := range step.Fasten {
		joining(j, ops)
	}
	if len(step.Glue) > 0 {
		ops.add(Glue, Clamp)
	}
	for _, j := range step.Tighten {
		if j.Hardware != nil {
			ops.add(Bolt)
		}
	}
	if step.Finish {
		ops.add(Sand, Coat)
	}
	if step.People > 1 && Weight(plan) >= LightKG {
		ops.add(Lift)
	}
	if len(plan.Steps) > 0 && step == plan.Steps[len(plan.Steps)-1] {
		ops.add(Use)
		if Weight(plan) >= HeavyKG {
			ops.add(Lift)
		}
	}
	return ops.sorted()
}

// OperationsOf returns every operation of a plan once, in the order of the
// work, with the parts and the steps that ask for it. Operations of parts no
// step makes have no step.
func OperationsOf(plan *model.Plan) []Job {
	jobs := map[Operation]*Job{}
	job := func(op Operation) *Job {
		if jobs[op] == nil {
			jobs[op] = &Job{Op: op}
		}
		return jobs[op]
	}
	for _, p := range plan.Parts {
		for _, op := range Operations(p) {
			job(op).Parts = append(job(op).Parts, p)
		}
	}
	for _, j := range plan.Joints {
		ops := set{}
		joining(j, ops)
		for _, op := range ops.sorted() {
			job(op).Parts = together(plan, job(op).Parts, j)
		}
	}
	for _, s := range plan.Steps {
		for _, op := range InStep(plan, s) {
			job(op).Steps = append(job(op).Steps, s.Number)
		}
	}
	if plan.Finish.Name != "" || plan.Finish.Coats > 0 {
		job(Coat)
	}
	if len(plan.Placed) > 0 {
		job(Use)
		if Weight(plan) >= HeavyKG {
			job(Lift)
		}
	}
	var all []Job
	for _, op := range order {
		if jobs[op] != nil {
			all = append(all, *jobs[op])
		}
	}
	return all
}

// together returns have with the parts of j, in the order of the plan.
func together(plan *model.Plan, have []*model.Part, j *model.Joint) []*model.Part {
	var out []*model.Part
	for _, p := range plan.Parts {
		if slices.Contains(have, p) || slices.Contains(j.First, p) || slices.Contains(j.Second, p) {
			out = append(out, p)
		}
	}
	return out
}

// Weight returns the mass of everything placed, in kg; 0 when nothing is.
func Weight(plan *model.Plan) float64 {
	sum := 0.0
	for _, p := range plan.Placed {
		sum += p.Part.Mass
	}
	return sum
}

// A set gathers operations.
type set map[Operation]bool

func (s set) add(ops ...Operation) {
	for _, op := range ops {
		s[op] = true
	}
}

func (s set) sorted() []Operation {
	var out []Operation
	for _, op := range order {
		if s[op] {
			out = append(out, op)
		}
	}
	return out
}
