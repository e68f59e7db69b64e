package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/check"
)

// TestBlank: 1/8 in over the width of a part that is ripped, or what the stock
// says of one edge; as wide as the board it is let be.
func TestBlank(t *testing.T) {
	wide := func(mm, cleanup string) *model.Plan {
		return built(t, nil, "slat_w   = 80", "slat_w   = "+mm, "section = [20, 100]", "section = [20, 100]\n"+cleanup)
	}
	one(t, wide("97", ""), "blank", find(check.Error, "Slat B: 97 mm of board leaves 3 mm to straighten its edges with; 3.2 mm is needed", "make it 0.5 mm narrower, or write as_bought = true", "B"))
	quiet(t, wide("96.5", ""), "blank")
	quiet(t, wide("100", ""), "blank")
	quiet(t, wide("98", "cleanup = 1.5"), "blank")
	require.Len(t, of(wide("99", "cleanup = 1.5"), "blank"), 1)

	trimmed := func(mm string) *model.Plan {
		return built(t, nil, "[size]", "[shop]\nend_trim = "+mm+"\n[size]")
	}
	list := of(trimmed("11"), "blank")
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "the layouts trim 11 mm off each end of a bought board; its ends are checked")
	quiet(t, trimmed("12"), "blank")
}

// TestPlaned: a part thinner than its stock wants a step that planes it.
func TestPlaned(t *testing.T) {
	const slat, end = "width  = \"slat_w\"\n", "[joint.slats]"
	thin := func(mm, step string) *model.Plan {
		return built(t, nil, slat, slat+"thick  = "+mm+"\n", end, step+end)
	}
	step := func(do string) string { return "[[step]]\ndo = \"" + do + "\"\nmake = [\"slat\"]\n" }
	want := find(check.Error, "Slat B: it is 18 mm thick, board is 20 mm, and no step planes it", "leave it 20 mm thick, or let the step that makes it plane it to 18 mm", "B")
	one(t, thin("18", step("Rip it.")), "blank", want)
	quiet(t, thin("18", step("Rip it and plane it to its thickness.")), "blank")
	quiet(t, thin("19.8", step("Rip it.")), "blank")
}

// lid is a board whose grain runs front to rear on two bearers that rungs hold
// apart, so that it cannot move across them.
const lid = `
unit = "mm"
[plan]
title = "Lid"
[size]
apart = 150
[stock.plank]
section = [20, 250]
lengths = ["2.4 m"]
species = "white oak"
[hardware.screw]
kind     = "wood screw"
size     = "4.5"
material = "stainless steel"
[part.bearer]
name   = "Bearer"
stock  = "plank"
width  = 60
length = 400
edges  = ["low", "high"]
faces  = ["near", "far"]
[part.rung]
name   = "Rung"
stock  = "plank"
width  = 60
length = "apart - 20"
ends   = ["fore", "aft"]
edges  = ["low", "high"]
faces  = ["near", "far"]
[part.top]
name   = "Top"
stock  = "plank"
length = 400
width  = 240
[[place]]
part  = "bearer"
lies  = { low = "down", near = "front" }
meets = { low = "floor", near = 0 }
[[place]]
part  = "bearer"
lies  = { low = "down", near = "front" }
meets = { low = "floor", near = "apart" }
[[place]]
part  = "rung"
lies  = { low = "down", fore = "front" }
meets = { low = "floor", fore = 20 }
[[place]]
part  = "top"
lies  = { left = "left", top = "up" }
meets = { bottom = 60, front = -20 }
[joint.top]
from     = "top"
into     = "bearer"
hardware = "screw"
count    = 1
run      = "across"
inset    = 5
[joint.rungs]
from     = "bearer"
into     = "rung"
hardware = "screw"
count    = 1
`

// TestHeldApart: white oak moves 0.00365 of its width for each of 8 %, 3.175 mm
// in 108.7 and 4.76 in 163.1; the bearers stand still on the rung.
func TestHeldApart(t *testing.T) {
	at := func(mm string) []check.Finding { return of(written(t, lid, "apart = 150", "apart = "+mm), "movement") }
	list := at("110")
	require.Len(t, list, 1)
	assert.Equal(t, check.Warning, list[0].Severity)
	assert.Equal(t, "Top C: held across the grain over 110 mm, where it moves 3.2 mm in a year; 3.2 mm is the most", list[0].Text)
	assert.Equal(t, "bring the outer fasteners within 108.5 mm, or make slots for one of them", list[0].Fix)
	assert.Empty(t, at("108.5"), "as the finding says")
	list = at("164")
	require.Len(t, list, 1)
	assert.Equal(t, check.Error, list[0].Severity)
	assert.Equal(t, check.Warning, at("162")[0].Severity)
	assert.Empty(t, of(written(t, lid, "[joint.rungs]\nfrom     = \"bearer\"\ninto     = \"rung\"\nhardware = \"screw\"\ncount    = 1\n", ""), "movement"), "nothing holds the bearers apart")
}

// TestDrainedHollow: a hollow of more than a square inch drains over an open side,
// or through a hole of 1/2 in.
func TestDrainedHollow(t *testing.T) {
	const slat = `note   = "Bark side up."` + "\n"
	hollow := func(groove string) *model.Plan { return built(t, nil, slat, slat+groove) }
	const shut = "groove.tray = { face = \"top\", along = [200, 226], across = [25, 50], deep = 5 }\n"
	one(t, hollow(shut), "water-trap", find(check.Warning, "Slat B: a hollow with a floor of 650 mm² looks up and has no drain", "drill a drain of 12.7 mm through it, or turn it over", "B"))
	quiet(t, hollow("groove.tray = { face = \"top\", along = [200, 225.5], across = [25, 50], deep = 5 }\n"), "water-trap")
	quiet(t, hollow(shut+"hole.drain = { at = [213, 37], diameter = 12.7 }\n"), "water-trap")
	assert.Len(t, of(hollow(shut+"hole.drain = { at = [213, 37], diameter = 12 }\n"), "water-trap"), 0, "what the hole takes leaves less than a square inch")
	quiet(t, hollow("groove.tray = { face = \"top\", along = [0, 460], across = [25, 50], deep = 5 }\n"), "water-trap")
}
