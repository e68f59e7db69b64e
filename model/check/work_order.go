package check

import (
	"fmt"
	"slices"

	"planset/model"
)

// gluedAtOnce is how many glued places are no longer put together without a dry
// try (common practice).
const gluedAtOnce = 3

// workOrder finds steps in the wrong order: bolts tightened before they are in,
// glue without a dry try, hidden faces that close bare, glue on finished wood.
func workOrder(s *shop) []Finding {
	return slices.Concat(s.tightSoon(), s.gluedUntried(), s.closedBare(), s.gluedAfter())
}

// stepOf is the index of the step that makes a joint, -1 when none does.
func (s *shop) stepOf(j *model.Joint) int {
	return slices.IndexFunc(s.Steps, func(st *model.Step) bool { return slices.Contains(st.Fasten, j) })
}

func (s *shop) tightSoon() []Finding {
	var out []Finding
	for i, st := range s.Steps {
		for _, j := range st.Tighten {
			if made := s.stepOf(j); made > i {
				out = append(out, Finding{Severity: Warning, Parts: lettersOf(j), Value: float64(st.Number), Limit: float64(s.Steps[made].Number),
					Text: fmt.Sprintf("%s: step %d tightens what step %d puts in", jointName(j), st.Number, s.Steps[made].Number),
					Fix:  fmt.Sprintf("tighten it in a step after %d", s.Steps[made].Number)})
			}
		}
	}
	return out
}

func (s *shop) gluedUntried() []Finding {
	var out []Finding
	for i, st := range s.Steps {
		for _, j := range st.Glue {
			n := len(s.gripped(j))
			tried := slices.ContainsFunc(s.Steps[:i+1], func(st *model.Step) bool { return st.Dry })
			if j.Bond && n >= gluedAtOnce && !tried {
				out = append(out, Finding{Severity: Warning, Parts: lettersOf(j), Value: float64(n), Limit: gluedAtOnce - 1,
					Text: fmt.Sprintf("%s: step %d glues %d places at once and nothing was tried dry", jointName(j), st.Number, n),
					Fix:  fmt.Sprintf("write dry = true in step %d, or in one before it that puts them together", st.Number)})
			}
		}
	}
	return out
}

// closedBare finds plans that finish the wood only after the last joint and do
// not coat the faces that no brush reaches then.
func (s *shop) closedBare() []Finding {
	last := -1
	coat := -1
	for i, st := range s.Steps {
		if len(st.Fasten) > 0 {
			last = i
		}
		if st.Finish && coat < 0 {
			coat = i
		}
	}
	if coat < 0 || last < 0 || coat <= last || s.Finish.Hidden != "" {
		return nil
	}
	return []Finding{{Severity: Warning, Value: float64(s.Steps[coat].Number), Limit: float64(s.Steps[last].Number),
		Text: fmt.Sprintf("the first coat goes on in step %d, after the last joint: faces that lie on each other stay bare", s.Steps[coat].Number),
		Fix:  fmt.Sprintf("write in the finish, as hidden, what they get before step %d", s.Steps[s.firstJoint()].Number)}}
}

func (s *shop) firstJoint() int {
	return slices.IndexFunc(s.Steps, func(st *model.Step) bool { return len(st.Fasten) > 0 })
}

// gluedAfter finds glue on finished wood: a coat goes on before it, and its step
// does not leave the faces of the joint bare.
func (s *shop) gluedAfter() []Finding {
	var out []Finding
	for i, st := range s.Steps {
		for _, j := range st.Glue {
			coat := slices.IndexFunc(s.Steps[:i], func(c *model.Step) bool { return c.Finish && !slices.Contains(c.Bare, j) })
			if coat < 0 {
				continue
			}
			out = append(out, Finding{Severity: Warning, Parts: lettersOf(j), Value: float64(st.Number), Limit: float64(s.Steps[coat].Number),
				Text: fmt.Sprintf("%s: step %d glues wood that step %d has coated; glue does not hold on finish", jointName(j), st.Number, s.Steps[coat].Number),
				Fix:  fmt.Sprintf("name it in the bare of step %d, or glue before it", s.Steps[coat].Number)})
		}
	}
	return out
}
