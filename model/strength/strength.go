// Package strength works out forces, wood movement and balance of a solved
// plan: bending and deflection of boards, what screws and bolts carry, gaps after
// a wet season, and what tips the piece over.
//
// Forces are newtons, stresses megapascals, lengths millimetres. Loads are the
// author's own targets. Every result is for the author only: never a rating,
// never a claim of agreement with a standard, never printed in a plan set. It
// judges nothing, that is model/check.
package strength

import (
	"planset/model"
	"planset/model/wood"
)

// A Climate is the air that wood comes to rest in.
type Climate struct {
	Temp     float64 // °C
	Humidity float64 // per cent
}

// EMC returns the moisture content in per cent that wood takes in this air.
func (c Climate) EMC() float64 { return wood.EMC(c.Temp, c.Humidity) }

// Loads are what a piece is tried with.
type Loads struct {
	Seat, Back, Arm float64 // N: down on the seat, square on the back, down on one arm
	Wet             bool    // the joints may be wetter than 19 %
	Duration        float64 // NDS load duration factor
	Dry, Damp       Climate // the driest and the wettest month outdoors
}

// Usual returns the loads most authors start from: the domestic level of outdoor
// seating tests, from memory and unverified; joints wet, load held for minutes;
// a dry summer and a damp autumn under the open sky.
func Usual() Loads {
	return Loads{Seat: 1300, Back: 450, Arm: 400, Wet: true, Duration: TenMinutes, Dry: Climate{20, 50}, Damp: Climate{10, 83}}
}

// A Report is all that is worked out for one plan.
type Report struct {
	Swells     []Swell
	Gaps       []Gap
	Restraints []Restraint
	Boards     []Board
	Joints     []Joint
	Tips       []Tip
	Skipped    string // why boards and joints were left out, "" when they were not
}

// All works everything out. What a plan does not have is not in the report.
func All(p *model.Plan, l Loads) *Report {
	r := &Report{Swells: Swells(p, l), Gaps: Gaps(p, l), Restraints: Restraints(p, l), Tips: Tips(p)}
	r.Boards, r.Joints, r.Skipped = Forces(p, l)
	return r
}

// species returns the wood of a part; an unknown one is taken as western
// redcedar, the weakest of the usual outdoor woods.
func species(p *model.Part) wood.Wood {
	if p.Stock != nil {
		if w, ok := wood.Species(p.Stock.Species); ok {
			return w
		}
	}
	w, _ := wood.Species("western redcedar")
	return w
}
