package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/check"
)

const screwed, glued = "hardware = \"screw\"", "glue = true"

// walled is a slat on a rail with a wall that stands some way from the line of
// the screw; the rail and the wall are joined before the slat comes, or after it.
func walled(t testing.TB, off, high float64, last, extra string) *model.Plan {
	first := step("add = [\"rail\", \"wall\", \"post\"]\nfasten = [\"low\", \"up\"]")
	second := step("add = \"slat\"\nfasten = \"top\"\ndo = \"Drive the screw with a long bit.\"\n" + extra)
	if last == "wall" {
		first, second = step("add = [\"rail\", \"slat\"]\nfasten = \"top\""), step("add = [\"wall\", \"post\"]\nfasten = [\"low\", \"up\"]")
	}
	return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 40, 80)}, {"slat", "yx", p3(170, 0, 80), p3(60, 40, 20)},
		{"wall", "xz", p3(0, 20+off, 0), p3(400, 20, high)}, {"post", "zx", p3(0, 40, 0), p3(20, off-20, 80)}},
		joined("top", "slat", "rail", screwed)+joined("low", "rail", "post", glued)+joined("up", "post", "wall", glued)+first+second)
}

// TestDriverRoom: a driver is 35 mm round, less the slack. Leaning by 5 degrees
// its body, whose round end stands 145 mm up the axis, comes out by 145·sin 5° =
// 12.6 mm. What the text says of a long bit does not count, the key does.
func TestDriverRoom(t *testing.T) {
	quiet(t, walled(t, 34.8, 400, "slat", ""), "driver-room")
	quiet(t, walled(t, 22.2, 400, "slat", ""), "driver-room")
	one(t, walled(t, 21.8, 400, "slat", ""), "driver-room", find(check.Warning, "Top: in step 2 Wall C stands in the way of the driver; it takes a bit of 150 mm",
		`write bit = "150 mm" in step 2, or move it 13.5 mm farther from Wall C`, "A", "B", "C"))
	quiet(t, walled(t, 21.8, 400, "slat", `bit = "150 mm"`), "driver-room")
	quiet(t, walled(t, 21.8, 400, "slat", `bit = "6 in"`), "driver-room")
	quiet(t, walled(t, 21.8+13.5, 400, "slat", ""), "driver-room")
	assert.Len(t, of(walled(t, 21.8, 400, "slat", "bit = 50"), "driver-room"), 1, "no longer than the usual one")
	quiet(t, walled(t, 21.8, 400, "wall", ""), "driver-room") // the wall comes later
	quiet(t, walled(t, 21.8, 140, "slat", ""), "driver-room") // it is no higher than the bit
}

// TestBitIsTold: the bit that a step takes is among its notes, in the reader's
// sizes.
func TestBitIsTold(t *testing.T) {
	p := walled(t, 40, 400, "slat", "bit = \"6 in\"\nright_angle = true")
	assert.Equal(t, []string{"Use a bit 150 mm long here.", "Use a right-angle driver here."}, p.Steps[1].Notes)
	assert.InDelta(t, 150, p.Steps[1].Bit, 1e-9)
	assert.True(t, p.Steps[1].Angled)
}

// TestDriverUnderLid: a right-angle driver is 102 mm from the bit's tip to its
// back, a drill 230; leaning by 5 degrees its round end reaches 195·cos 5° + 35.
func TestDriverUnderLid(t *testing.T) {
	lid := func(up float64, extra string) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 40, 80)}, {"slat", "xy", p3(0, 0, 80), p3(400, 40, 20)},
			{"post", "zx", p3(0, 40, 0), p3(40, 40, 100+up)}, {"lid", "xy", p3(0, -200, 100+up), p3(400, 440, 20)}},
			joined("top", "slat", "rail", screwed)+joined("low", "rail", "post", glued)+joined("up", "post", "lid", glued)+
				step("add = [\"rail\", \"post\", \"lid\"]\nfasten = [\"low\", \"up\"]")+step("add = \"slat\"\nfasten = \"top\"\n"+extra))
	}
	one(t, lid(20, ""), "driver-room", find(check.Error, "Top: in step 2 Lid D stands in the way of the driver; no driver reaches it", "move Lid D off by 210 mm along the screw", "A", "B", "D"))
	quiet(t, lid(20+210, ""), "driver-room")
	assert.Equal(t, check.Error, only(t, lid(101.6, ""), "driver-room").Severity)
	assert.Equal(t, check.Error, only(t, lid(101.6, "right_angle = true"), "driver-room").Severity, "the key helps only where the driver fits")
	f := only(t, lid(101.8, ""), "driver-room")
	assert.Equal(t, check.Warning, f.Severity)
	assert.Contains(t, f.Text, "it takes a right-angle driver of 102 mm")
	assert.Contains(t, f.Fix, "write right_angle = true in step 2, or ")
	quiet(t, lid(101.8, "right_angle = true"), "driver-room")
	assert.Len(t, of(lid(228.8, ""), "driver-room"), 1)
	quiet(t, lid(229.1, ""), "driver-room")
}

// TestPocketRoom: the rear of the driver stands 330 mm up the slant from the head
// of a pocket screw.
func TestPocketRoom(t *testing.T) {
	far := func(gap float64) *model.Plan {
		return scene(t, []plank{{"rung", "xy", p3(0, 0, 0), p3(gap, 60, 20)}, {"leg", "zy", p3(-20, 0, -100), p3(20, 60, 300)}, {"far", "zy", p3(gap, 0, -100), p3(20, 60, 300)}},
			joined("near", "rung", "leg", "hardware = \"pocket\"\nmouth = \"f2\"")+joined("end", "rung", "far", glued)+
				step("add = [\"rung\", \"far\"]\nfasten = \"end\"")+step("add = \"leg\"\nfasten = \"near\""))
	}
	// The head stands 16 mm, half of a screw of 32, up the slant from the leg; the
	// body is round at its rear: 305·cos 15° + 25 mm on.
	f := far(16*0.96593 + 305*0.96593 + 25 - 0.5)
	one(t, f, "pocket-room", find(check.Error, "Near: in step 2 Far C is in the way of the driver at the pockets", "move it 0.5 mm farther from Far C", "A", "B", "C"))
	quiet(t, far(16*0.96593+305*0.96593+25+0.5), "pocket-room")
	// Right across the slant it must go along it: 335.1 mm less 250, over cos 15°.
	assert.Equal(t, "move Far C off by 88.5 mm along the screw", only(t, far(250), "pocket-room").Fix)
	quiet(t, far(250+88.5*0.96593), "pocket-room")
}

// between is a bolt in two planks with a third some way off, its nut or its head
// toward the third.
func between(t testing.TB, gap float64, inward bool) *model.Plan {
	from, into := "cleat", "plank"
	if inward {
		from, into = into, from
	}
	return scene(t, []plank{{"plank", "xz", p3(0, 0, 0), p3(400, 20, 400)}, {"cleat", "xz", p3(0, -20, 0), p3(400, 20, 400)},
		{"far", "xz", p3(0, 20+gap, 0), p3(400, 20, 400)}, {"base", "xy", p3(0, -20, -20), p3(400, 60+gap, 20)}},
		joined("bolts", from, into, "hardware = \"bolt\"\nholes = [\"one\"]")+joined("low", "plank", "base", glued)+joined("more", "far", "base", glued)+
			step("add = [\"plank\", \"far\", \"base\"]\nfasten = [\"low\", \"more\"]")+step("add = \"cleat\"\nfasten = \"bolts\""),
		"[part."+from+"]\n", "[part."+from+"]\nhole.one = { at = [200, 200], for = \"bolt\" }\n", "size = \"M8\"\n", "size = \"M8\"\nlength = 60\n")
}

// TestNutGoesOn: behind 40 mm of wood a bolt of 60 sticks out 20, and its nut of
// 6.8 goes on over that.
func TestNutGoesOn(t *testing.T) {
	list := of(between(t, 26.4, false), "wrench-room")
	require.Len(t, list, 1)
	assert.Equal(t, "Bolts: in step 2 Far C stands 26.5 mm behind the wood where the nut goes on, and bolt and nut take 27 mm", list[0].Text)
	assert.Equal(t, "move it off by 0.5 mm, or make the joint before it is there", list[0].Fix)
	quiet(t, between(t, 26.6, false), "wrench-room")
	quiet(t, between(t, 26.4+0.5, false), "wrench-room")
}

// TestBoltGoesIn: a bolt of 60 and its head of 4.88 want so much before the hole.
func TestBoltGoesIn(t *testing.T) {
	one(t, between(t, 64.4, true), "wrench-room", find(check.Error, "Bolts: in step 2 Far C keeps the bolts from going in: 64.5 mm is free before the hole, and bolt and head take 65 mm",
		"turn the bolt round, push it in before Far C is there, or move that off by 0.5 mm", "A", "B", "C"))
	quiet(t, between(t, 64.7, true), "wrench-room")
	quiet(t, between(t, 64.4+0.5, true), "wrench-room")
}

// boxed is a nut in a box: walls to its left and right, a roof above it, open at
// its ends. A socket wrench has no room under the roof; an open-ended one swings
// between the walls.
func boxed(t testing.TB, off float64) *model.Plan {
	return scene(t, []plank{{"plank", "zx", p3(-200, 0, 0), p3(400, 20, 400)}, {"cleat", "zx", p3(-200, -20, 0), p3(400, 20, 400)},
		{"left", "zy", p3(-off-20, 20, 0), p3(20, 40, 400)}, {"right", "zy", p3(off, 20, 0), p3(20, 40, 400)}, {"roof", "zx", p3(-200, 60, 0), p3(400, 20, 400)}},
		joined("bolts", "cleat", "plank", "hardware = \"bolt\"\nholes = [\"one\"]")+joined("walls", "plank", "left", glued)+joined("roofs", "roof", "left", glued)+
			step("add = [\"plank\", \"left\", \"right\", \"roof\"]\nfasten = [\"walls\", \"roofs\"]")+step("add = \"cleat\"\nfasten = \"bolts\""),
		"[part.cleat]\n", "[part.cleat]\nhole.one = { at = [200, 200], for = \"bolt\" }\n", "size = \"M8\"\n", "size = \"M8\"\nlength = 60\n",
		`into = "left"`, `into = ["left", "right"]`, `into = "left"`, `into = ["left", "right"]`)
}

// TestWrenchSwing: the middle of a handle's round end stands 147 mm from the nut
// and comes within 3 mm, less the slack, of a wall: 60 degrees between two walls
// are 147·sin 30° + 2.7 = 76.2 mm to each.
func TestWrenchSwing(t *testing.T) {
	f := only(t, boxed(t, 75.5), "wrench-room")
	assert.Equal(t, check.Error, f.Severity)
	assert.Equal(t, "Bolts: in step 2 a wrench on the nut swings through 56°, and 60° are needed; no socket gets there either", f.Text)
	assert.Equal(t, "keep 150 mm free on one side of the nut, or turn the bolt round", f.Fix)
	assert.Equal(t, []string{"A", "B"}, f.Parts)
	quiet(t, boxed(t, 77), "wrench-room")
	quiet(t, boxed(t, 150), "wrench-room")
}

// shut is a block between two walls on a floor, with more round it.
func shut(t testing.TB, more ...plank) *model.Plan { return walls(t, 45, more...) }

// walls is shut with walls of some height.
func walls(t testing.TB, high float64, more ...plank) *model.Plan {
	list := append([]plank{{"block", "xy", p3(0, 0, 0), p3(100, 50, 20)}, {"floors", "xy", p3(-20, -20, -20), p3(140, 90, 20)},
		{"wall", "xz", p3(0, 50, 0), p3(100, 20, high)}, {"other", "xz", p3(0, -20, 0), p3(100, 20, high)}}, more...)
	text, add, fasten := joined("in", "block", "floors", glued), `"floors"`, ""
	for i, p := range list[2:] {
		on := "floors"
		if i > 1 { // a lid or a stop is held by a wall
			on = "wall"
		}
		text += joined("j"+p.name, p.name, on, glued)
		add, fasten = add+fmt.Sprintf(", %q", p.name), fasten+fmt.Sprintf(", %q", "j"+p.name)
	}
	return scene(t, list, text+step("add = ["+add+"]\nfasten = ["+fasten[2:]+"]")+step("add = \"block\"\nfasten = \"in\""))
}

// TestWayIn: a block between two walls comes out upward, under a lid along the
// walls, with stops at both ends and a lid not at all.
func TestWayIn(t *testing.T) {
	low := plank{"low", "xy", p3(0, 0, 20), p3(100, 70, 20)}
	low.size[1] = 50
	stops := []plank{{"stop", "yz", p3(100, 0, 0), p3(20, 70, 40)}, {"end", "yz", p3(-20, 0, 0), p3(20, 70, 40)}}
	lid := func(up float64) plank { return plank{"lid", "xy", p3(0, -20, up), p3(100, 90, 20)} }
	quiet(t, shut(t), "way-in")
	quiet(t, shut(t, low), "way-in")
	quiet(t, shut(t, stops...), "way-in")
	one(t, shut(t, append(stops, low)...), "way-in", find(check.Error, "in step 2 Block A is shut in on all sides", "leave it 40 mm to one side, or add it in an earlier step", "A", "B", "C", "D", "E", "F", "G"))
	f := only(t, shut(t, append(stops, lid(45))...), "way-in")
	assert.Equal(t, check.Error, f.Severity)
	assert.Equal(t, "in step 2 Block A has no way in, straight or tilted", f.Text)
	// Twice its thickness is the way it must come, less what may rub.
	assert.InDelta(t, 0.4*40, f.Value, 1e-9, "of 4, 16 and 40 mm, it comes 16")
	assert.Len(t, of(walls(t, 59.4, append(stops, lid(59.4))...), "way-in"), 1)
	quiet(t, walls(t, 59.6, append(stops, lid(59.6))...), "way-in")
	quiet(t, walls(t, 20+40, append(stops, lid(20+40))...), "way-in")
	// With one stop left out it comes out along the walls.
	quiet(t, shut(t, stops[0], lid(45)), "way-in")
}

// TestTiltIn: a shelf of 300 by 20 lies in a box with a lip over its rear end: it
// rises by 20 and strikes the lip. Its front turned up about its upper rear edge
// by a, it is 300·cos a + 20·sin a long, 300.67 at most, and comes out over the
// front: with 0.17 mm of play and the half millimetre that it may rub. An edge
// that reaches over the shelf too shuts it in.
func TestTiltIn(t *testing.T) {
	shelf := func(play, edge float64) *model.Plan {
		return scene(t, []plank{{"shelf", "yx", p3(0, 0, 0), p3(100, 300, 20)}, {"bed", "yx", p3(0, -20-play, -20), p3(100, 340+play, 20)},
			{"stop", "xz", p3(0, 300, 0), p3(100, 20, 40)}, {"front", "xz", p3(0, -20-play, 0), p3(100, 20, 40)},
			{"lip", "xy", p3(0, 280, 40), p3(100, 40, 20)}, {"cheek", "yz", p3(100, -20-play, -20), p3(20, 340+play, 100)}, {"other", "yz", p3(-20, -20-play, -20), p3(20, 340+play, 100)},
			{"edge", "xy", p3(0, -20-play, 40), p3(100, edge, 20)}},
			joined("in", "shelf", "bed", glued)+joined("a", "stop", "bed", glued)+joined("b", "front", "bed", glued)+joined("c", "lip", "stop", glued)+
				joined("d", "cheek", "bed", glued)+joined("e", "other", "bed", glued)+joined("g", "edge", "front", glued)+
				step("add = [\"bed\", \"stop\", \"front\", \"lip\", \"cheek\", \"other\", \"edge\"]\nfasten = [\"a\", \"b\", \"c\", \"d\", \"e\", \"g\"]")+step("add = \"shelf\"\nfasten = \"in\""))
	}
	quiet(t, shelf(0.3, 20), "way-in")
	quiet(t, shelf(2, 20), "way-in")
	assert.Len(t, of(shelf(0.1, 20), "way-in"), 1)
	f := only(t, shelf(2, 150), "way-in")
	assert.Equal(t, check.Error, f.Severity)
	assert.Equal(t, "in step 2 Shelf A has no way in, straight or tilted", f.Text)
	assert.InDelta(t, 40, f.Limit, 1e-9)
	assert.Less(t, f.Value, 40.0)
}
