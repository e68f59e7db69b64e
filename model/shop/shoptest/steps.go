package shoptest

import (
	"slices"

	"planset/model"
)

// steps writes the work, each piece added once and each joint made once.
func (b *bench) steps() {
	b.plan.Stages = []model.Stage{
		{Key: "parts", Title: "Parts"}, {Key: "frames", Title: "Side frames"},
		{Key: "seat", Title: "Seat"}, {Key: "back", Title: "Back"}, {Key: "arms", Title: "Arms and finish"},
	}
	b.step("parts", "Cut the frame parts", []string{"stringer", "leg", "rail", "batten"}, nil)
	b.step("parts", "Cut the slats", []string{"D1", "D2", "D3", "front", "seat"}, nil)
	b.step("parts", "Cut the arms and caps", []string{"arm", "cap"}, nil)
	b.step("frames", "Bolt leg and stringer", nil, []string{"leg", "stringer"}, "Legs to stringers").Loose = true
	b.step("seat", "Screw the batten in", nil, []string{"batten"}, "Batten to stringers")
	b.step("seat", "Screw the seat slats on", nil, []string{"front", "seat"}, "Seat slats to stringers")
	b.step("back", "Set the middle slats", nil, []string{"D1"}, "Back slats to batten")
	b.step("back", "Set the other slats", nil, []string{"D2", "D3"})
	b.step("back", "Screw the back rail on", nil, []string{"rail"}, "Back slats to back rail")
	b.step("arms", "Glue the arm caps", nil, []string{"cap"}, "Arm caps to legs")
	b.step("arms", "Screw the arms down", nil, []string{"arm"}, "Arms to arm caps", "Arms to back rail")
	tight := b.step("arms", "Tighten every bolt", nil, nil)
	tight.Tighten = b.plan.Joints[:1]
	b.step("arms", "Oil the chair", nil, nil).Finish = true
}

func (b *bench) step(stage, title string, made, added []string, joints ...string) *model.Step {
	s := &model.Step{Number: len(b.plan.Steps) + 1, Stage: stage, Title: title, Do: title + ".", People: 1}
	for _, key := range made {
		s.Make = append(s.Make, b.parts[key])
	}
	for i, p := range b.plan.Placed {
		if slices.Contains(added, p.Part.Key) {
			s.Add = append(s.Add, i)
		}
	}
	for _, j := range b.plan.Joints {
		if slices.Contains(joints, j.Name) {
			s.Fasten = append(s.Fasten, j)
		}
	}
	b.plan.Steps = append(b.plan.Steps, s)
	return s
}
