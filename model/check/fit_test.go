package check_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/check"
	"planset/model/expr"
)

// written solves a plan of its own in millimetres, with text replaced.
func written(t testing.TB, text string, replace ...string) *model.Plan {
	t.Helper()
	return solved(t, fstest.MapFS{"plan.toml": {Data: []byte(edited(t, text, replace))}}, "plan.toml", assembly.Options{Unit: expr.MM})
}

// unlaid are the findings of one rule, without the boards.
func unlaid(p *model.Plan, rule string) []check.Finding {
	var out []check.Finding
	for _, f := range check.All(p, nil) {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// TestOverlapAtTheLimit: 0.127 mm, which is 0.005 in, and cut back by what the
// finding says it is gone.
func TestOverlapAtTheLimit(t *testing.T) {
	one(t, built(t, sizes{"dig": 0.13}), "overlap", find(check.Error, "Rail A and Cheek C fill the same space, 0.1 mm deep", "move one of them 0.5 mm, or cut it back by that", "A", "C"))
	quiet(t, built(t, sizes{"dig": 0.125}), "overlap")
	quiet(t, built(t, sizes{"dig": 0.13 - 0.5}), "overlap")
}

// TestTouchingShare: a groove under each slat leaves half of what lies over a
// rail, 40 by 80 mm, to bear.
func TestTouchingShare(t *testing.T) {
	relieved := func(wide string) *model.Plan {
		at := `note   = "Bark side up."` + "\n"
		return built(t, nil, at, at+`groove.left = { face = "bottom", along = [40, "40 + `+wide+`"], across = [0, 80], deep = 2 }`+"\n"+
			`groove.right = { face = "bottom", along = ["420 - `+wide+`", 420], across = [0, 80], deep = 2 }`+"\n")
	}
	one(t, relieved("20.5"), "touching", find(check.Warning,
		"Slat to rail: Slat B and Rail A touch over 1560 mm², 49 % of the 3200 mm² with which they face each other; half is little", "let them meet over 40 mm² more", "A", "B"))
	quiet(t, relieved("19.9"), "touching")
}

// TestFanNear: by the arm 1/4 in is better than what wet slats want.
func TestFanNear(t *testing.T) {
	list := of(chair(t, sizes{"arm_gap": 5.9}), "fan-clear")
	require.Len(t, list, 1)
	assert.Equal(t, check.Note, list[0].Severity)
	assert.Equal(t, "Arm C passes Back slat D3 at 7⁄32″; it clears wet slats, and 1⁄4″ is easier to build and to clean", list[0].Text)
	assert.Equal(t, "move it away by 1⁄32″", list[0].Fix)
	quiet(t, chair(t, sizes{"arm_gap": 6.1}), "fan-clear")
}

// TestSeatGaps: 5/8 in between the boards of a seat.
func TestSeatGaps(t *testing.T) {
	wide := func(in string) []check.Finding {
		p := chair(t, nil, `row   = { toward = "rear", count = 5, gap = "gap" }`, `row   = { toward = "rear", count = 4, gap = "`+in+`" }`,
			`front = "front_slat.rear + gap"`, `front = "front_slat.rear + `+in+`"`)
		return of(p, "slat-gap")
	}
	list := wide("41/64")
	require.Len(t, list, 1)
	assert.Equal(t, "the gap between Front slat G and Seat slat H of the seat is 21⁄32″; over 5⁄8″ it pinches and takes a toe", list[0].Text)
	assert.Equal(t, "close it by 1⁄32″", list[0].Fix)
	assert.Empty(t, wide("5/8"))
}

// hung is a bar that one bolt holds to a base, and a stop screwed beside it.
const hung = `
unit = "mm"
[plan]
title = "Gate"
[size]
gap = 30
[stock.board]
section = [40, 100]
lengths = ["2.4 m"]
species = "western redcedar"
[hardware.bolt]
kind     = "carriage bolt"
size     = "M8"
with     = ["washer", "nut"]
material = "stainless steel"
[hardware.screw]
kind     = "wood screw"
size     = "4.5"
material = "stainless steel"
[part.base]
stock  = "board"
length = 400
edges  = ["low", "high"]
faces  = ["near", "far"]
hole.one = { at = [200, 50], for = "bolt" }
[part.bar]
stock  = "board"
length = 300
faces  = ["near", "far"]
hole.one = { at = [50, 50], for = "bolt" }
[part.stop]
stock  = "board"
length = 90
width  = 60
edges  = ["low", "high"]
faces  = ["near", "far"]
[[place]]
part  = "base"
lies  = { low = "down", near = "front" }
meets = { near = 0, low = "floor" }
[[place]]
part  = "bar"
lies  = { left = "down", near = "front" }
meets = { hole.one = "base.hole.one", far = "base.near", left = 0 }
[[place]]
part  = "stop"
lies  = { low = "down", near = "front" }
meets = { far = "base.near", left = "50 + gap", low = 20 }
[joint.pivot]
from     = "bar"
into     = "base"
hardware = "bolt"
holes    = "one"
[joint.stop]
from     = "stop"
into     = "base"
hardware = "screw"
count    = 2
run      = "along"
inset    = 20
`

// TestPinch: a finger is caught from 8 to 25 mm beside what turns on a bolt, and
// not where two bolts hold it.
func TestPinch(t *testing.T) {
	at := func(gap string) *model.Plan { return written(t, hung, "gap = 30", "gap = "+gap) }
	one(t, at("24.5"), "pinch", find(check.Warning, "bar B turns on one bolt and passes stop C at 24.5 mm; from 8 mm to 25 mm a finger is caught",
		"close the gap by 16.5 mm, or open it by 0.5 mm", "B", "C"))
	quiet(t, at("25"), "pinch")
	require.Len(t, of(at("8"), "pinch"), 1)
	quiet(t, at("7.5"), "pinch")
	const hole = `hole.one = { at = [200, 50], for = "bolt" }`
	two := written(t, hung, "gap = 30", "gap = 15", hole, hole+"\nhole.two = { at = [200, 80], for = \"bolt\" }",
		`hole.one = { at = [50, 50], for = "bolt" }`, "hole.one = { at = [50, 50], for = \"bolt\" }\nhole.two = { at = [80, 50], for = \"bolt\" }", `holes    = "one"`, `holes    = ["one", "two"]`)
	quiet(t, two, "pinch")
	quiet(t, chair(t, nil), "pinch")
}
