package shop

import (
	"slices"

	"planset/model"
)

// drill is asked for by name below.
const drill = "Drill and driver"

// longBit says how long the longest driver bit is that a step asks for.
func longBit(plan *model.Plan) string {
	long := 0.0
	for _, s := range plan.Steps {
		long = max(long, s.Bit)
	}
	if long == 0 {
		return ""
	}
	return "one bit " + plan.Unit.Long(long) + " long"
}

// angled is the driver for screws that no straight one reaches, if a step asks
// for it.
func angled(plan *model.Plan) []Tool {
	t := Tool{Group: Drilling, Name: "Right-angle driver", For: string(DriveScrew), Instead: "short screwdriver"}
	for _, s := range plan.Steps {
		if !s.Angled {
			continue
		}
		t.Steps = append(t.Steps, s.Number)
		for _, j := range s.Fasten {
			t.Parts = mergeCodes(plan, t.Parts, slices.Concat(j.First, j.Second))
		}
	}
	if len(t.Steps) == 0 {
		return nil
	}
	return []Tool{t}
}
