package check

import (
	"fmt"

	"planset/model"
)

// stepsWhole finds pieces that no step adds, or two do, and joints that no step
// makes. A plan without steps is left alone.
func stepsWhole(s *shop) []Finding {
	if len(s.Steps) == 0 {
		return nil
	}
	added := make([]int, len(s.Placed))
	made := map[string]int{}
	for _, st := range s.Steps {
		for _, i := range st.Add {
			added[i]++
		}
		for _, j := range st.Fasten {
			made[j.Key]++
		}
	}
	var w worst
	for i, n := range added {
		if n == 1 {
			continue
		}
		text := "no step adds %s"
		if n > 1 {
			text = "more than one step adds %s"
		}
		p := s.Placed[i].Part
		w.add(Finding{Severity: Error, Parts: []string{p.Code}, Value: float64(n), Limit: 1, Text: fmt.Sprintf(text, called(p)), Fix: "name each piece in the add of one step"})
	}
	out := w.list()
	for _, j := range s.Joints {
		if n := made[j.Key]; n != 1 {
			out = append(out, Finding{Severity: Error, Parts: lettersOf(j), Value: float64(n), Limit: 1,
				Text: fmt.Sprintf("joint %q is made in %d steps", j.Name, n), Fix: "name it in the fasten of one step"})
		}
	}
	return out
}

func lettersOf(j *model.Joint) []string {
	var out []string
	for _, p := range append(append([]*model.Part{}, j.First...), j.Second...) {
		out = append(out, p.Code)
	}
	return out
}
