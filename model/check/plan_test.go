package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/buying"
	"planset/model/check"
)

// joint is a joint of a plan by its key.
func joint(t testing.TB, p *model.Plan, key string) *model.Joint {
	t.Helper()
	for _, j := range p.Joints {
		if j.Key == key {
			return j
		}
	}
	require.Fail(t, "no joint "+key)
	return nil
}

// TestHands: as many left as right.
func TestHands(t *testing.T) {
	p := built(t, nil)
	for _, q := range p.Placed {
		if q.Part.Code == "A" && q.Hand == model.LeftHand {
			q.Hand = model.RightHand
		}
	}
	one(t, p, "hands", find(check.Error, "Rail A: 2 more right than left", "place 2 more of the left hand", "A"))
	for _, q := range p.Placed {
		if q.Part.Code == "A" {
			q.Hand = model.LeftHand
		}
	}
	one(t, p, "hands", find(check.Error, "Rail A: 2 more left than right", "place 2 more of the right hand", "A"))
	quiet(t, built(t, nil), "hands")
}

// TestSums spoils each list in turn.
func TestSums(t *testing.T) {
	p := built(t, nil)
	cuts := buying.Boards(p)
	sums := func() []check.Finding {
		var out []check.Finding
		for _, f := range check.All(p, cuts) {
			if f.Rule == "sums" {
				out = append(out, f)
			}
		}
		return out
	}
	require.Empty(t, sums())
	texts := func(want ...string) {
		t.Helper()
		var got []string
		for _, f := range sums() {
			assert.Equal(t, check.Error, f.Severity)
			got = append(got, f.Text+"; "+f.Fix)
		}
		assert.Equal(t, want, got)
	}
	slat := p.Parts[1]
	slat.Quantity++
	texts("Slat B: the boards give 4, and the cut list has 5; make it 5", "Slat B: the cut list has 5, and 4 are placed; make it 4")
	slat.Quantity--

	screw := p.Hardware[0]
	screw.Quantity--
	texts("4.5 wood screw: the list has 15, and the joints use 16; make it 16")
	screw.Quantity++
	screw.Buy = 15
	texts("4.5 wood screw: 15 are bought, and 16 are used; make it 16")
	screw.Buy = 16

	cuts.Buying[0].Quantity++
	require.Len(t, sums(), 1)
	assert.Contains(t, sums()[0].Text, "are bought and")
	cuts.Buying[0].Spare++
	assert.Empty(t, sums(), "a spare board is on no layout")
}

// TestSteps takes things out of the chair's steps and puts things in twice.
func TestSteps(t *testing.T) {
	step := func(p *model.Plan, title string) *model.Step {
		for _, s := range p.Steps {
			if s.Title == title {
				return s
			}
		}
		require.Fail(t, "no step "+title)
		return nil
	}
	p := chair(t, nil)
	quiet(t, p, "steps-whole")
	quiet(t, p, "left-loose")

	arms := step(p, "Fit the arms")
	add := arms.Add
	arms.Add = nil
	one(t, p, "steps-whole", find(check.Error, "Arm C: no step adds it", "name each piece in the add of 1 step", "C"))
	arms.Add = append(add, add[0])
	one(t, p, "steps-whole", find(check.Error, "Arm C: 2 steps add the same piece", "name each piece in the add of 1 step", "C"))
	arms.Add = add

	fasten := arms.Fasten
	arms.Fasten = fasten[:1]
	one(t, p, "steps-whole", find(check.Error, "Arms to back rail: 0 steps make this joint", "name it in the fasten of 1 step", "C", "E"))
	arms.Fasten = fasten

	batten := step(p, "Fit the batten")
	batten.Fasten = append(batten.Fasten, joint(t, p, "arm_rail_screws"))
	one(t, p, "steps-whole", find(check.Error, "Arms to back rail: 2 steps make this joint", "name it in the fasten of 1 step", "C", "E"))
	batten.Fasten = batten.Fasten[:1]

	shaped := step(p, "Shape the arms and the caps")
	shaped.Make = shaped.Make[1:]
	one(t, p, "steps-whole", find(check.Warning, "Arm C: no step cuts it", "name it in the make of 1 step", "C"))

	step(p, "Tighten the frame").Tighten = nil
	one(t, p, "left-loose", find(check.Warning, "Leg to stringer: left loose in step 8 and never tightened", "name it in the tighten of a step after 8", "A", "B"))
}

// TestWaiver: a waiver holds for its rule, for the parts it names, by letter or
// by family, and for values no worse than when it was written.
func TestWaiver(t *testing.T) {
	waived := func(sz sizes, w model.Waiver) bool {
		p := built(t, sz)
		p.Waivers = []model.Waiver{w}
		list := of(p, "screw-edge")
		require.Len(t, list, 1)
		if list[0].Waived {
			assert.Equal(t, w.Reason, list[0].Reason)
		}
		return list[0].Waived
	}
	at := sizes{"inset": 9}
	assert.True(t, waived(at, model.Waiver{Rule: "screw-edge", Reason: "soft wood"}))
	assert.False(t, waived(at, model.Waiver{Rule: "screw-end", Reason: "soft wood"}))
	assert.True(t, waived(at, model.Waiver{Rule: "screw-edge", Parts: []string{"C", "B"}, Reason: "soft wood"}))
	assert.False(t, waived(at, model.Waiver{Rule: "screw-edge", Parts: []string{"C"}, Reason: "soft wood"}))
	assert.True(t, waived(at, model.Waiver{Rule: "screw-edge", Value: 9, Reason: "soft wood"}))
	assert.True(t, waived(sizes{"inset": 9.5}, model.Waiver{Rule: "screw-edge", Value: 9, Reason: "it got better"}))
	assert.False(t, waived(sizes{"inset": 8.8}, model.Waiver{Rule: "screw-edge", Value: 9, Reason: "it got worse"}))

	// The other way round: bigger is worse.
	p := built(t, sizes{"dig": 0.2})
	p.Waivers = []model.Waiver{{Rule: "overlap", Value: 0.2, Reason: "pressed in"}}
	assert.True(t, of(p, "overlap")[0].Waived)
	p.Waivers[0].Value = 0.15
	assert.False(t, of(p, "overlap")[0].Waived)

	// A family is waived by its own letter.
	p = chair(t, sizes{"arm_gap": 3.9})
	p.Waivers = []model.Waiver{{Rule: "fan-clear", Parts: []string{"C", "D"}, Reason: "indoors"}}
	assert.True(t, of(p, "fan-clear")[0].Waived)
}

// TestOrder: dearest first, the same every time.
func TestOrder(t *testing.T) {
	bad := func() []check.Finding {
		p := built(t, sizes{"lift": -2, "bolt_y": 49, "inset": 6, "gap": 7, "dig": 0.3, "slat_at": 0})
		return check.All(p, buying.Boards(p))
	}
	list := bad()
	var rules []string
	for _, f := range list {
		rules = append(rules, f.Rule+" "+string(f.Severity))
	}
	assert.Equal(t, []string{"stands error", "pinch warning", "overlap error", "screw-edge error", "screw-end error", "bolt-edge warning", "slat-gap warning"}, rules)
	for range 5 {
		assert.Equal(t, list, bad())
	}
	assert.NotPanics(t, func() { check.All(&model.Plan{}, nil) })
}

// TestNames: joints without a name are told by what they join, never by a key.
func TestNames(t *testing.T) {
	for _, f := range of(built(t, nil, screws("37.5")...), "screw-bite") {
		assert.Contains(t, f.Text, "Slat to rail")
		assert.NotContains(t, f.Text, "slats")
	}
}
