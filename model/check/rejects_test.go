package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/check"
)

// TestPocketEdge: the middle of a pocket stays 3/8 in from the edge of its board,
// less 1/32, and its bore of 3/8 in breaks out under 6 mm.
func TestPocketEdge(t *testing.T) {
	rung := func(inset float64) *model.Plan {
		return scene(t, []plank{{"rung", "xz", p3(0, 0, 0), p3(300, 36, 100)}, {"leg", "zy", p3(-40, -40, -100), p3(40, 120, 300)}},
			joined("rungs", "rung", "leg", fmt.Sprintf("hardware = \"pocket\"\ncount = 2\ninset = %g\nmouth = \"f2\"", inset)))
	}
	one(t, rung(8.6), "screw-edge", find(check.Warning, `Rung A: a pocket of "Rungs" is bored 8.5 mm from the edge; 9.5 mm keeps its bore in the wood`, "move it in by 1 mm", "A"))
	quiet(t, rung(8.8), "screw-edge")
	quiet(t, rung(8.6+1), "screw-edge")
	one(t, rung(5.9), "screw-edge", find(check.Error, `Rung A: a pocket of "Rungs" is bored 6 mm from the edge; 9.5 mm keeps its bore in the wood`, "move it in by 4 mm", "A"))
}

// TestHeldByNone: a slat of three that lies a little over its rail is held by
// nothing, and so is a board that no joint names; moved as the finding says, the
// one is held.
func TestHeldByNone(t *testing.T) {
	slats := func(up, over float64) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 80, 80)}, {"one", "yx", p3(20, 0, 80), p3(80, 80, 20)}, {"two", "yx", p3(150, over, 80+up), p3(80, 80, 20)}},
			joined("top", "one", "rail", "hardware = \"screw\""), `from = "one"`, `from = ["one", "two"]`)
	}
	quiet(t, slats(0, 0), "held-by-none")
	one(t, slats(1.5, 0), "held-by-none", find(check.Warning, "Two C: no joint holds it: it misses Rail A by 1.5 mm", "move it 1.5 mm that way, so that they touch", "C"))
	one(t, slats(40, 0), "held-by-none", find(check.Warning, "Two C: no joint holds it", "name it in a joint, or waive this where it is meant to lie loose", "C"))
	two := []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 80, 80)}, {"lid", "xy", p3(0, 0, 80), p3(400, 80, 20)}}
	quiet(t, scene(t, two, ""), "held-by-none") // a plan without joints tells of none
}

// TestHangingFoot: two legs in front and one behind, 3 mm short. The whole rocks
// on to it, so that is the one thing told: it neither falls over by itself nor
// tips nor breaks for it.
func TestHangingFoot(t *testing.T) {
	errors := func(short float64) []check.Finding {
		leg := func(name string, x, y, low float64) plank {
			return plank{name, "zx", p3(x, y, low), p3(60, 40, 400-low)}
		}
		p := scene(t, []plank{{"top", "xy", p3(0, 0, 400), p3(600, 400, 40)}, leg("one", 0, 0, 0), leg("two", 540, 0, 0), leg("three", 270, 360, short)},
			joined("legs", "top", "one", "glue = true"), `into = "one"`, `into = ["one", "two", "three"]`)
		var out []check.Finding
		for _, f := range check.All(p, nil) {
			if f.Severity == check.Error || f.Rule == "tips" || f.Rule == "bends" {
				out = append(out, f)
			}
		}
		return out
	}
	assert.Empty(t, errors(0))
	list := errors(3)
	require.Len(t, list, 1)
	assert.Equal(t, "Three D: it hangs 3 mm above the floor beyond the feet that touch it, so the whole rocks", list[0].Text)
	assert.Equal(t, "lengthen it by 3 mm, or trim it by the floor", list[0].Fix)
}

// TestBarredOpening: bars across the space between two rails, 88 mm apart, leave
// no room for a head; a bar less does.
func TestBarredOpening(t *testing.T) {
	rails := func(count, gap int) *model.Plan {
		return written(t, rack, "open = 100", "open = 150", "[[place]]", fmt.Sprintf(`[part.bar]
name = "Bar"
stock = "plank"
width = 30
length = 350
ends = ["low", "high"]
edges = ["left", "right"]
faces = ["near", "far"]
[[place]]
part = "bar"
lies = { low = "down", near = "front" }
meets = { low = 0, near = 20, left = %d }
row = { toward = "right", count = %d, gap = %d }
[[place]]`, -300+gap, count, gap))
	}
	quiet(t, rails(5, 75), "head-caught")
	for _, f := range of(rails(4, 75), "head-caught") {
		assert.Contains(t, f.Text, "the opening between")
	}
	assert.NotEmpty(t, of(rails(4, 75), "head-caught"))
}

// TestJointFix: screws that are asked too much of, and the number the finding
// names.
func TestJointFix(t *testing.T) {
	sat := func(count int) []check.Finding {
		var out []check.Finding
		for _, f := range of(chair(t, nil, "[joint.arm_rail_screws]\nname     = \"Arms to back rail\"\nfrom     = \"arm\"\ninto     = \"back_rail\"\nhardware = \"screw\"\ncount    = 2\nrun      = \"across\"\ninset    = \"3/4\"",
			fmt.Sprintf("[joint.arm_rail_screws]\nname     = \"Arms to back rail\"\nfrom     = \"arm\"\ninto     = \"back_rail\"\nhardware = \"screw\"\ncount    = %d\nrun      = \"across\"\ninset    = \"3/4\"", count)), "bends") {
			out = append(out, f)
		}
		return out
	}
	list := sat(1)
	require.Len(t, list, 1)
	assert.Equal(t, []string{"C", "E"}, list[0].Parts, "the two that the worst one holds")
	var n int
	_, err := fmt.Sscanf(list[0].Fix, "put %d at each place", &n)
	require.NoError(t, err, list[0].Fix)
	assert.Empty(t, sat(n))
}

// TestNoBite: a screw that ends in what it holds is one error, and its joint is
// not told to take a score of them.
func TestNoBite(t *testing.T) {
	p := built(t, nil, append(boards(50), screws("45")...)...)
	f := only(t, p, "screw-bite")
	assert.Equal(t, check.Error, f.Severity)
	assert.Contains(t, f.Text, "a screw of 45 mm ends in the wood it should hold and does not reach the next")
	quiet(t, p, "bends")
}

// TestLastPocket: a rung between two broad cheeks. Either end can be screwed
// first; the last one only where a driver of 330 mm, at 15 degrees to the rung,
// passes the other cheek or ends before it.
func TestLastPocket(t *testing.T) {
	between := func(long, broad float64) *model.Plan {
		cheek := func(name string, x float64) plank {
			return plank{name, "zy", p3(x, -broad, -100), p3(20, 2*broad+36, 300)}
		}
		return scene(t, []plank{{"rung", "xz", p3(0, 0, 0), p3(long, 36, 100)}, cheek("left", -20), cheek("right", long)},
			joined("rungs", "rung", "left", "hardware = \"pocket\"\ncount = 2\ninset = 20\nmouth = \"f2\"")+step("add = [\"rung\", \"left\", \"right\"]\nfasten = \"rungs\""),
			`into = "left"`, `into = ["left", "right"]`)
	}
	f := only(t, between(250, 100), "pocket-room")
	assert.Equal(t, check.Error, f.Severity)
	assert.Contains(t, f.Text, "is in the way of the driver at the pockets")
	quiet(t, between(450, 100), "pocket-room")
	quiet(t, between(250, 10), "pocket-room") // cheeks that stand 10 mm proud of it
}

// TestMadeTooSoon: a step cannot screw on what comes later.
func TestMadeTooSoon(t *testing.T) {
	plan := func(first, second string) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 80, 80)}, {"slat", "yx", p3(100, 0, 80), p3(200, 80, 20)}},
			joined("top", "slat", "rail", "hardware = \"screw\"")+step("add = \"rail\"\n"+first)+step("add = \"slat\"\n"+second))
	}
	one(t, plan(`fasten = "top"`, ""), "steps-whole", find(check.Error, "Top: step 1 makes it, but Slat B comes in step 2", "name it in the fasten of step 2, or add Slat B in step 1", "B"))
	quiet(t, plan("", `fasten = "top"`), "steps-whole")
}
