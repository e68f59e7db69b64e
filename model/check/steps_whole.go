package check

import (
	"fmt"
	"slices"

	"planset/model"
)

// stepsWhole finds pieces that no step adds, or two do, joints that no step
// makes or that are made before their pieces are there, and parts that no step
// cuts. A plan without steps is left alone.
func stepsWhole(s *shop) []Finding {
	if len(s.Steps) == 0 {
		return nil
	}
	return slices.Concat(s.unadded(), s.unmade(), s.tooSoon(), s.uncut())
}

func (s *shop) unadded() []Finding {
	added := make([]int, len(s.Placed))
	for _, st := range s.Steps {
		for _, i := range st.Add {
			added[i]++
		}
	}
	var t tally
	for i, n := range added {
		text, key := "no step adds it", "none"
		switch {
		case n == 1:
			continue
		case n > 1:
			text, key = fmt.Sprintf("%d steps add the same piece", n), "twice"
		}
		p := s.Placed[i].Part
		t.add(p.Key+key, 0, Finding{Severity: Error, Value: float64(n), Limit: 1, Text: text, Fix: "name each piece in the add of 1 step"}, p)
	}
	return t.named()
}

func (s *shop) unmade() []Finding {
	var out []Finding
	for _, j := range s.Joints {
		n := s.timesMade(j)
		if n == 1 {
			continue
		}
		out = append(out, Finding{Severity: Error, Parts: lettersOf(j), Value: float64(n), Limit: 1,
			Text: fmt.Sprintf("%s: %s make this joint", jointName(j), plural(n, "step")), Fix: "name it in the fasten of 1 step"})
	}
	return out
}

// timesMade is how many steps make a joint.
func (s *shop) timesMade(j *model.Joint) int {
	n := 0
	for _, st := range s.Steps {
		if slices.Contains(st.Fasten, j) {
			n++
		}
	}
	return n
}

// tooSoon finds joints that a step makes with a piece that a later step adds.
func (s *shop) tooSoon() []Finding {
	var t tally
	for _, j := range s.Joints {
		made := s.stepOf(j)
		if made < 0 || s.timesMade(j) > 1 { // that is told
			continue
		}
		for _, pair := range s.gripped(j) {
			k := pair[0]
			if s.addedIn(pair[1]) > s.addedIn(k) {
				k = pair[1]
			}
			added := s.addedIn(k)
			if added <= made {
				continue // one that none adds has its own finding
			}
			p, st := s.Placed[k].Part, s.Steps[made]
			t.add(j.Key+"\x00"+p.Key, float64(added), Finding{Severity: Error, Value: float64(s.Steps[added].Number), Limit: float64(st.Number),
				Text: fmt.Sprintf("%s: step %d makes it, but %s comes in step %d", jointName(j), st.Number, called(p), s.Steps[added].Number),
				Fix:  fmt.Sprintf("name it in the fasten of step %d, or add %s in step %d", s.Steps[added].Number, called(p), st.Number)}, p)
		}
	}
	return t.list()
}

// uncut looks for parts that no step cuts, once the steps cut anything.
func (s *shop) uncut() []Finding {
	var made []*model.Part
	for _, st := range s.Steps {
		made = append(made, st.Make...)
	}
	if len(made) == 0 {
		return nil
	}
	var t tally
	for _, p := range s.Parts {
		if !has(made, p) {
			t.add(p.Key, 0, Finding{Severity: Warning, Value: 0, Limit: 1, Text: "no step cuts it", Fix: "name it in the make of 1 step"}, p)
		}
	}
	return t.named()
}
