package shop

import (
	"slices"

	"planset/model"
)

// Sums returns what does not add up, one sentence each: pieces placed against
// pieces cut, left against right, pieces added in the steps, hardware against
// joints. Laid is how many pieces of each part the board layouts hold, by code;
// nil leaves that sum out. An empty answer means that every list agrees.
func Sums(plan *model.Plan, laid map[string]int) []string {
	var faults []string
	faults = append(faults, cutSums(plan, laid)...)
	faults = append(faults, stepSums(plan)...)
	return append(faults, hardwareSums(plan)...)
}

// cutSums compares the cut list with the layouts and with what stands.
func cutSums(plan *model.Plan, laid map[string]int) []string {
	var faults []string
	for _, p := range plan.Parts {
		if laid != nil && laid[p.Code] != p.Quantity {
			faults = append(faults, say("%s %s: the cut list has %d, the board layouts %d", p.Code, p.Name, p.Quantity, laid[p.Code]))
		}
		if len(plan.Placed) == 0 {
			continue
		}
		stand, left, right := 0, 0, 0
		for _, q := range plan.Placed {
			if q.Part != p {
				continue
			}
			stand++
			switch q.Hand {
			case model.LeftHand:
				left++
			case model.RightHand:
				right++
			}
		}
		if stand != p.Quantity {
			faults = append(faults, say("%s %s: the cut list has %d, %d are placed", p.Code, p.Name, p.Quantity, stand))
		}
		if p.Hand == model.Pair && left != right {
			faults = append(faults, say("%s %s: %d left and %d right are placed", p.Code, p.Name, left, right))
		}
		if p.Hand == model.Pair && p.Quantity%2 != 0 {
			faults = append(faults, say("%s %s: %d is an odd number for a pair", p.Code, p.Name, p.Quantity))
		}
	}
	return faults
}

// stepSums finds pieces no step adds, or more than one does, and parts no step
// makes. A plan without steps has none of these faults.
func stepSums(plan *model.Plan) []string {
	if len(plan.Steps) == 0 {
		return nil
	}
	var faults []string
	added := make([]int, len(plan.Placed))
	for _, s := range plan.Steps {
		for _, i := range s.Add {
			if i < 0 || i >= len(added) {
				faults = append(faults, say("step %d adds piece %d, which does not exist", s.Number, i))
				continue
			}
			added[i]++
		}
	}
	for i, n := range added {
		if n != 1 {
			p := plan.Placed[i]
			faults = append(faults, say("%s %s, piece %d, is added %d times in the steps", p.Part.Code, p.Part.Name, p.Index, n))
		}
	}
	for _, j := range plan.Joints {
		n := 0
		for _, s := range plan.Steps {
			if slices.Contains(s.Fasten, j) {
				n++
			}
		}
		if n == 0 {
			faults = append(faults, say("joint %q is made in no step", j.Name))
		}
	}
	return append(faults, looseSums(plan)...)
}

// looseSums finds bolts left loose that no later step tightens.
func looseSums(plan *model.Plan) []string {
	var faults []string
	for i, s := range plan.Steps {
		if !s.Loose {
			continue
		}
		for _, j := range s.Fasten {
			later := slices.ContainsFunc(plan.Steps[i+1:], func(t *model.Step) bool { return slices.Contains(t.Tighten, j) })
			if !later {
				faults = append(faults, say("joint %q is left loose in step %d and never tightened", j.Name, s.Number))
			}
		}
	}
	return faults
}

// hardwareSums compares the hardware list with the fasteners of the joints.
func hardwareSums(plan *model.Plan) []string {
	count := map[*model.Hardware]int{}
	for _, j := range plan.Joints {
		if j.Hardware != nil {
			n := j.Each * j.Places
			if len(j.Fasteners) > 0 && len(j.Fasteners) != n {
				return []string{say("joint %q: %d × %d places is not its %d fasteners", j.Name, j.Each, j.Places, len(j.Fasteners))}
			}
			count[j.Hardware] += n
			for _, w := range j.With {
				count[w] += n
			}
		}
	}
	var faults []string
	for _, h := range plan.Hardware {
		if n := count[h]; n != 0 && n != h.Quantity {
			faults = append(faults, say("%s %s: the list has %d, the joints use %d", h.Code, h.Name, h.Quantity, n))
		}
		if h.Buy < h.Quantity {
			faults = append(faults, say("%s %s: %d are bought and %d used", h.Code, h.Name, h.Buy, h.Quantity))
		}
	}
	return faults
}

// Uses returns the steps in which a line of hardware is used, rising.
func Uses(plan *model.Plan, h *model.Hardware) []int {
	var out []int
	for _, s := range plan.Steps {
		for _, j := range s.Fasten {
			if (j.Hardware == h || slices.Contains(j.With, h)) && !slices.Contains(out, s.Number) {
				out = append(out, s.Number)
			}
		}
	}
	slices.Sort(out)
	return out
}
