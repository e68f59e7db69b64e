package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/check"
	"planset/model/strength"
)

// trough is a planter: a floor between four walls that stand on the ground.
const trough = `
unit = "mm"
[plan]
title = "Trough"
kind  = "planter"
[size]
inside_l = 600
inside_w = 200
wall_h   = 200
floor_up = 30
[stock.plank]
section = [20, 250]
lengths = ["2.4 m"]
species = "western redcedar"
[hardware.screw]
kind     = "wood screw"
size     = "4.5"
material = "stainless steel"
[part.floor_board]
name   = "Floor"
stock  = "plank"
length = "inside_l"
width  = "inside_w"
[part.wall]
name   = "Wall"
stock  = "plank"
length = "inside_l + 40"
width  = "wall_h"
edges  = ["low", "high"]
faces  = ["inner", "outer"]
[part.cheek]
name   = "Cheek"
stock  = "plank"
hands  = "pair"
length = "inside_w"
width  = "wall_h"
ends   = ["fore", "aft"]
edges  = ["low", "high"]
faces  = ["inner", "outer"]
[[place]]
part  = "floor_board"
lies  = { left = "left", bottom = "down" }
meets = { bottom = "floor_up", front = 0 }
[[place]]
part  = "wall"
lies  = { low = "down", outer = "front" }
meets = { low = "floor", inner = 0 }
[[place]]
part  = "wall"
lies  = { low = "down", outer = "rear" }
meets = { low = "floor", inner = "inside_w" }
[[place]]
part  = "cheek"
lies  = { low = "down", fore = "front", inner = "in" }
meets = { low = "floor", inner = "inside_l/2", fore = 0 }
[joint.corners]
from     = "wall"
into     = "cheek"
hardware = "screw"
count    = 2
run      = "across"
inset    = 20
[joint.bed]
from     = "wall"
into     = "floor_board"
hardware = "screw"
count    = 2
run      = "along"
inset    = 40
`

// TestVessel measures the trough by hand: 600 by 200 by 150 mm is 18 liters.
func TestVessel(t *testing.T) {
	list := strength.Vessels(written(t, trough))
	require.Len(t, list, 1)
	v := list[0]
	assert.InEpsilon(t, 18e6, v.Volume, 1e-3)
	assert.InDelta(t, 150, v.Deep, 0.6)
	assert.InDelta(t, 600, v.Long, 1e-6)
	assert.InDelta(t, 50+75, v.Center.Z, 0.5)
	assert.InDelta(t, 100, v.Center.Y, 0.5)
	assert.InEpsilon(t, 18*strength.WetSoil, v.Mass(), 1e-3)
	assert.Equal(t, []int{0}, v.Floor)
	assert.Empty(t, strength.Vessels(chair(t, nil)))
	assert.Empty(t, strength.Vessels(built(t, nil)))
	// A rim of 15 mm is a dish.
	assert.Empty(t, strength.Vessels(written(t, trough, "wall_h   = 200", "wall_h   = 65")))
}

// TestDrains: two drains for 600 mm, 12.7 mm wide, right through; three for 620.
func TestDrains(t *testing.T) {
	const floor = `width  = "inside_w"`
	drilled := func(long, holes string) []check.Finding {
		return of(written(t, trough, "inside_l = 600", "inside_l = "+long, floor, floor+"\n"+holes), "drains")
	}
	const one, two, three = "hole.a = { at = [100, 100], diameter = 12.7 }\n", "hole.b = { at = [400, 100], diameter = 12.7 }\n", "hole.c = { at = [500, 100], diameter = 12.7 }\n"
	list := drilled("600", one)
	require.Len(t, list, 1)
	assert.Equal(t, check.Warning, list[0].Severity)
	assert.Equal(t, "Floor A: a floor 600 mm long with walls round it has 1 drain of 12.7 mm; one for every 305 mm keeps it from rotting", list[0].Text)
	assert.Equal(t, "drill 2 of 12.7 mm right through it, 300 mm apart, or leave 3 mm between its boards", list[0].Fix)
	assert.Empty(t, drilled("600", one+two))
	assert.Empty(t, drilled("609", one+two), "two times 304.8")
	assert.Len(t, drilled("611", one+two), 1)
	assert.Empty(t, drilled("611", one+two+three))
	assert.Len(t, drilled("600", one+"hole.b = { at = [400, 100], diameter = 12 }"), 1, "too narrow")
	assert.Len(t, drilled("600", one+"hole.b = { at = [400, 100], diameter = 12.7, deep = 10 }"), 1, "not through")
}

// TestFullPlanter: a narrow one that is filled above its feet falls on a slope of
// 3 degrees when its center of mass is 19 times as high as it is from the edge.
func TestFullPlanter(t *testing.T) {
	list := of(written(t, trough), "planter")
	require.Len(t, list, 1)
	assert.Equal(t, check.Note, list[0].Severity)
	p := written(t, trough)
	b, ok := strength.BaseOf(p)
	require.True(t, ok)
	assert.InDelta(t, b.Mass+28.8, list[0].Value, 0.05)
	assert.Contains(t, list[0].Text, "full of wet soil it weighs 32 kg, empty 3 kg, and stands on")
	require.Empty(t, of(written(t, trough, `kind  = "planter"`, `kind  = "table"`), "planter"))
	require.Len(t, of(written(t, trough, `kind  = "planter"`+"\n", ""), "planter"), 1, "4 in deep without a kind")
	require.Empty(t, of(written(t, trough, `kind  = "planter"`+"\n", "", "wall_h   = 200", "wall_h   = 150"), "planter"))
}
