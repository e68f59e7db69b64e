package assembly

import (
	"slices"
	"strings"

	"planset/model"
	"planset/model/reading"
)

// steps works out the building steps: which pieces each adds, which joints it
// makes, and its texts with their numbers.
func (s *solver) steps() {
	stages := map[string]bool{}
	for _, d := range s.d.Stages {
		stages[d.Key] = true
		s.plan.Stages = append(s.plan.Stages, model.Stage{Key: d.Key, Title: d.Title.Text, Text: s.text(d.Text), Exploded: s.exploded(d.Exploded)})
	}
	var last *model.Step
	for i, d := range s.d.Steps {
		st := s.step(d, i+1)
		s.camera(d.View)
		if d.Stage.Given() && !stages[d.Stage.Text] {
			s.problems.Errorf(d.Stage.At, "unknown-stage", "there is no stage %q", d.Stage.Text).Suggest(d.Stage.Text, keysOf(s.d.Stages))
		}
		if st.Stage == "" && last != nil {
			st.Stage = last.Stage
		}
		if st.View == "" && last != nil && last.Stage == st.Stage {
			st.View = last.View
		}
		s.plan.Steps = append(s.plan.Steps, st)
		last = st
	}
}

// step works out one step: what it adds and joins, what it measures, and then
// its texts, which may speak of what it measures.
func (s *solver) step(d *reading.Step, number int) *model.Step {
	st := &model.Step{Number: number, Stage: d.Stage.Text, Loose: d.Loose, Dry: d.Dry, Finish: d.Finish, People: d.People, Minutes: d.Minutes, View: d.View.Text}
	st.Make = s.madeIn(d.Make)
	st.Add = s.addedIn(d.Add)
	st.Fasten, st.Tighten, st.Glue = s.jointsIn(d.Fasten), s.jointsIn(d.Tighten), s.jointsIn(d.Glue)
	names := s.shows(d, st)
	st.Wrong = s.wrong(d, st)
	st.Title, st.Do, st.Test, st.Watch = s.text(d.Title), s.text(d.Do), s.text(d.Test), s.text(d.Watch)
	st.Mistake, st.Turned = s.text(d.Mistake), s.text(d.Turned)
	for _, n := range d.Notes {
		st.Notes = append(st.Notes, s.text(n))
	}
	s.driver(d, st)
	for _, name := range names {
		delete(s.measured, name) // known in this step only
	}
	return st
}

func keysOf(list []reading.Stage) []string {
	var out []string
	for _, d := range list {
		out = append(out, d.Key)
	}
	return out
}

// madeIn finds the parts that a step cuts and shapes, or a change speaks of.
func (s *solver) madeIn(list []reading.Word) []*model.Part {
	var out []*model.Part
	for _, w := range list {
		found := false
		for _, p := range s.plan.Parts {
			if p.Key == w.Text {
				out, found = append(out, p), true
			}
		}
		if !found && !s.droppedPart(w.Text) {
			s.problems.Errorf(w.At, "unknown-part", "there is no part %q", w.Text).Suggest(w.Text, s.partNames())
		}
	}
	return out
}

// addedIn finds the pieces a step adds: "leg", "leg left", "leg right".
func (s *solver) addedIn(list []reading.Word) []int {
	var out []int
	for _, w := range list {
		key, hand, _ := strings.Cut(w.Text, " ")
		if s.parts[key] == nil {
			if !s.droppedPart(key) {
				s.problems.Errorf(w.At, "unknown-part", "there is no part %q", key).Suggest(key, s.partNames())
			}
			continue
		}
		if hand != "" && hand != "left" && hand != "right" {
			s.problems.Errorf(w.At, "unknown-word", "%q names no piece", w.Text).Fix(`write "%s", "%s left" or "%s right"`, key, key, key)
			continue
		}
		n := len(out)
		for _, i := range s.placed[key] {
			if hand == "" || string(s.plan.Placed[i].Hand) == hand {
				out = append(out, i)
			}
		}
		if len(out) == n {
			s.problems.Errorf(w.At, "not-placed", "no piece %q is placed, so no step can add it", w.Text)
		}
	}
	return out
}

// jointNames are the joints of the file in the order of the alphabet.
func (s *solver) jointNames() []string {
	var out []string
	for k := range s.joints {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

func (s *solver) jointsIn(list []reading.Word) []*model.Joint {
	var out []*model.Joint
	for _, w := range list {
		i := slices.IndexFunc(s.plan.Joints, func(j *model.Joint) bool { return j.Key == w.Text })
		if i >= 0 {
			out = append(out, s.plan.Joints[i])
			continue
		}
		if s.joints[w.Text] == nil {
			s.problems.Errorf(w.At, "unknown-joint", "there is no joint %q", w.Text).Suggest(w.Text, s.jointNames())
		}
	}
	return out
}
