package check

import (
	"fmt"
	"slices"
)

// leftLoose finds joints that a step leaves loose and none tightens later.
func leftLoose(s *shop) []Finding {
	var out []Finding
	for i, st := range s.Steps {
		if !st.Loose {
			continue
		}
		for _, j := range st.Fasten {
			later := false
			for _, next := range s.Steps[i+1:] {
				later = later || slices.Contains(next.Tighten, j)
			}
			if !later {
				out = append(out, Finding{Severity: Warning, Parts: lettersOf(j), Value: float64(st.Number),
					Text: fmt.Sprintf("%s: left loose in step %d and never tightened", jointName(j), st.Number), Fix: fmt.Sprintf("name it in the tighten of a step after %d", st.Number)})
			}
		}
	}
	return out
}
