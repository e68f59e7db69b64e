package check_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model"
	"planset/model/check"
)

// TestGrainLine: two screws along a rail's grain 19.05 mm apart, less 1/32 in;
// set off across it by 3 diameters of 4.5 they are in two lines.
func TestGrainLine(t *testing.T) {
	pair := func(run string, inset float64) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 80, 80)}, {"slat", "yx", p3(100, 0, 80), p3(200, 80, 20)}},
			joined("top", "slat", "rail", fmt.Sprintf("hardware = \"screw\"\ncount = 2\nrun = %q\ninset = %g", run, inset)))
	}
	along := func(apart float64) *model.Plan { return pair("across", (200-apart)/2) } // across the slat is along the rail
	across := func(apart float64) *model.Plan { return pair("along", (80-apart)/2) }
	one(t, along(18.2), "grain-line", find(check.Warning, `Rail A: two screws of "Top" sit 18 mm apart in one line of the grain; 19 mm keeps the wood whole`,
		"move one 1 mm along the grain, or 13.5 mm across it", "A"))
	quiet(t, along(18.3), "grain-line")
	quiet(t, along(18.2+1), "grain-line")
	// The slat's grain runs the way of these two.
	list := of(across(13.1), "grain-line")
	assert.Equal(t, []string{`Slat B: two screws of "Top" sit 13 mm apart in one line of the grain; 19 mm keeps the wood whole`}, texts(list), "in the rail they stand side by side")
	quiet(t, across(18.8), "grain-line")
}

// texts are what some findings say.
func texts(list []check.Finding) []string {
	var out []string
	for _, f := range list {
		out = append(out, f.Text)
	}
	return out
}

// TestPulledEnd: a post hangs from a beam by one bolt; 7 diameters of 8 in soft
// wood, 5 in hard.
func TestPulledEnd(t *testing.T) {
	hung := func(down float64, species string, more ...plank) *model.Plan {
		return scene(t, append([]plank{{"post", "zx", p3(0, 0, 100), p3(80, 20, 300)}, {"beam", "xz", p3(-200, 20, 300), p3(500, 40, 150)}}, more...),
			joined("hang", "post", "beam", "hardware = \"bolt\"\nholes = [\"one\"]"),
			"[part.post]\n", fmt.Sprintf("[part.post]\nhole.one = { at = [%g, 40], for = \"bolt\" }\n", 300-down),
			`species = "western redcedar"`, `species = "`+species+`"`)
	}
	one(t, hung(55.1, "western redcedar"), "bolt-edge", find(check.Warning, `Post A: a bolt of "Hang" sits 55 mm from the end that the load pulls off it; 56 mm is the least`, "move it in by 1 mm", "A"))
	quiet(t, hung(55.3, "western redcedar"), "bolt-edge")
	quiet(t, hung(55.1+1, "western redcedar"), "bolt-edge")
	one(t, hung(27.9, "western redcedar"), "bolt-edge", find(check.Error, `Post A: a bolt of "Hang" sits 28 mm from the end that the load pulls off it; 56 mm is the least`, "move it in by 28.5 mm", "A"))
	one(t, hung(39.1, "white oak"), "bolt-edge", find(check.Warning, `Post A: a bolt of "Hang" sits 39 mm from the end that the load pulls off it; 40 mm is the least`, "move it in by 1 mm", "A"))
	quiet(t, hung(39.3, "white oak"), "bolt-edge")
	// On a block it hangs no longer: the end is an end like others, 4 diameters.
	quiet(t, hung(40, "western redcedar", plank{"block", "xy", p3(0, -40, 50), p3(80, 100, 50)}), "bolt-edge")
}

// TestWasherByPocket: a pocket of 9.525 mm at 15 degrees, bored toward the middle
// of an end 36 thick, opens from 67.2 mm on by 13.6 and half its width, so that a
// washer of 12 and 1.6 mm round it want 99.2 mm, less the slack.
func TestWasherByPocket(t *testing.T) {
	bolted := func(along float64) *model.Plan {
		return scene(t, []plank{{"rung", "xz", p3(0, 0, 0), p3(300, 36, 100)}, {"leg", "zy", p3(-40, -40, -100), p3(40, 120, 300)}, {"cleat", "xz", p3(40, 36, 0), p3(200, 20, 100)}},
			joined("rungs", "rung", "leg", "hardware = \"pocket\"\nmouth = \"f2\"")+joined("cleats", "cleat", "rung", "hardware = \"bolt\"\nholes = [\"one\"]"),
			"[part.cleat]\n", fmt.Sprintf("[part.cleat]\nhole.one = { at = [%g, 50], for = \"bolt\" }\n", along-40))
	}
	one(t, bolted(98.8), "washer-seat", find(check.Error, "Cleats: the washer reaches 12 mm from the bolt and a hole opens at 13 mm", "move the bolt away from it by 0.5 mm", "A"))
	quiet(t, bolted(98.9), "washer-seat")
	quiet(t, bolted(98.8+0.5), "washer-seat")
}

// TestEndGrain: a board screwed on by its end only, one that is glued to a plate
// by its end besides, and one with the cleat that the fix tells of.
func TestEndGrain(t *testing.T) {
	butt := func(more string, planks ...plank) *model.Plan {
		list := append([]plank{{"plate", "yz", p3(0, 0, 0), p3(20, 100, 140)}, {"board", "xy", p3(20, 0, 40), p3(300, 100, 36)}}, planks...)
		return scene(t, list, joined("butt", "plate", "board", "hardware = \"screw\"\ncount = 2\nrun = \"along\"\ninset = 30")+more)
	}
	want := find(check.Warning, "Board B: Butt: nothing holds it but 2 screws in its end grain, and 0 may be all; they pull out",
		"hold it with 2 pocket screws from its own face, or set a cleat of 25 mm into the corner", "B")
	one(t, butt(""), "end-grain", want)
	assert.InDelta(t, 2, only(t, butt(""), "end-grain").Value, 0)
	one(t, butt(joined("glue", "plate", "board", "glue = true")), "end-grain", want)
	cleat := plank{"cleat", "yz", p3(20, 0, 15), p3(25, 100, 25)}
	quiet(t, butt(joined("cleats", "cleat", "board", "hardware = \"screw\"\ncount = 2\nrun = \"along\"\ninset = 20"), cleat), "end-grain")
	quiet(t, butt(joined("cleats", "cleat", "board", "glue = true"), cleat), "end-grain")
	quiet(t, butt(joined("pockets", "board", "plate", "hardware = \"pocket\"\ncount = 2\ninset = 30")), "end-grain")
}

// TestSteel: plain steel blackens cedar; zinc and steel without its coat rust in
// any wood.
func TestSteel(t *testing.T) {
	const fix = `write material = "stainless steel" or "hot-dip galvanized steel"`
	fir := []string{"western redcedar", "white fir", "western redcedar", "white fir"}
	of := func(material string, text ...string) *model.Plan {
		return built(t, nil, append(text, `material = "stainless steel"`, material)...)
	}
	one(t, of(""), "steel-in-tannin", find(check.Warning, "Slat B and Rail A: nothing says what the wood screw is made of; plain steel in western redcedar rusts and leaves black streaks", fix, "A", "B"))
	one(t, of(`material = "brown"`), "steel-in-tannin", find(check.Warning, "Slat B and Rail A: the wood screw of brown in western redcedar is not known to last; steel rusts and leaves black streaks", fix, "A", "B"))
	one(t, of(`material = "steel"`), "steel-in-tannin", find(check.Error, "Slat B and Rail A: the wood screw of steel in western redcedar rusts and leaves black streaks", fix, "A", "B"))
	for _, m := range []string{"zinc-plated steel", "uncoated steel", "electro-galvanized steel"} {
		one(t, of(`material = "`+m+`"`, fir...), "steel-in-tannin", find(check.Error, "Slat B and Rail A: the wood screw of "+m+" rusts outdoors", fix, "A", "B"))
	}
	one(t, of("", fir...), "steel-in-tannin", find(check.Warning, "Slat B and Rail A: nothing says what the wood screw is made of; plain steel rusts outdoors", fix, "A", "B"))
	for _, m := range []string{"hot-dip galvanized steel", "coated steel", "silicon bronze", "A2", "A4-70", "316 grade", "inox", "stainless steel or hot-dip galvanized"} {
		quiet(t, of(`material = "`+m+`"`, fir...), "steel-in-tannin")
	}
	one(t, built(t, nil, "hot-dip galvanized steel\"", "hot-dip galvanized steel\"\nwith_material = \"steel\""), "steel-in-tannin",
		find(check.Error, "Cheek C and Rail A: the washer of steel in western redcedar rusts and leaves black streaks", `write with_material = "stainless steel" or "hot-dip galvanized steel"`, "A", "C"))
}

// TestMixedMetals: a galvanized bolt under a stainless washer, brass on steel,
// and metals that lie near each other.
func TestMixedMetals(t *testing.T) {
	washers := func(bolt, washer string) *model.Plan {
		return built(t, nil, `material = "hot-dip galvanized steel"`, fmt.Sprintf("material = %q\nwith_material = %q", bolt, washer))
	}
	one(t, washers("hot-dip galvanized steel", "stainless steel"), "mixed-metals",
		find(check.Error, "Cheeks: a carriage bolt of zinc-coated steel touches a washer of stainless steel; they lie 0.70 V apart, and 0.15 V is the most in the rain", "take both of stainless steel", "A", "C"))
	one(t, washers("steel", "brass"), "mixed-metals",
		find(check.Error, "Cheeks: a carriage bolt of plain steel touches a washer of brass; they lie 0.40 V apart, and 0.15 V is the most in the rain", "take both of brass", "A", "C"))
	one(t, washers("aluminum", "zinc-plated steel"), "mixed-metals",
		find(check.Error, "Cheeks: a carriage bolt of aluminum touches a washer of zinc-coated steel; they lie 0.30 V apart, and 0.15 V is the most in the rain", "take both of aluminum", "A", "C"))
	assert.Equal(t, check.Warning, only(t, washers("stainless steel or hot-dip galvanized", "A4"), "mixed-metals").Severity, "one of the two agrees")
	quiet(t, washers("A2", "stainless steel"), "mixed-metals")
	quiet(t, washers("copper", "stainless steel"), "mixed-metals") // 0.15 V, the limit itself
	quiet(t, washers("brass", "stainless steel"), "mixed-metals")
	quiet(t, washers("stainless steel", "coated steel"), "mixed-metals")
	quiet(t, washers("stainless steel or hot-dip galvanized", "stainless steel or hot-dip galvanized"), "mixed-metals")
	quiet(t, washers("stainless steel", "stainless steel"), "mixed-metals")
	// A bolt that a screw runs into touches it; half a millimetre off it does not.
	run := built(t, sizes{"bolt_x": 119, "bolt_y": 44})
	one(t, run, "mixed-metals", find(check.Error, "Slat to rail and Cheeks: a wood screw of stainless steel touches a carriage bolt of zinc-coated steel; they lie 0.70 V apart, and 0.15 V is the most in the rain",
		"take both of stainless steel", "A", "B", "C"))
	quiet(t, built(t, sizes{"bolt_x": 119, "bolt_y": 38}), "mixed-metals") // 50 - 43 - 6.25 = 0.75
	// Heads of 20.65 and 9 mm beside each other on the cheek.
	beside := func(off float64) *model.Plan {
		return built(t, nil, "holes    = [\"one\"]\n", fmt.Sprintf("holes    = [\"one\"]\n[joint.more]\nname = \"More\"\nfrom = \"cheek\"\ninto = \"rail\"\nhardware = \"screw\"\nrun = \"along\"\ninset = %g\ninset_end = 0\n", 100-off))
	}
	one(t, beside(15.2), "mixed-metals", find(check.Error, "Cheeks and More: a carriage bolt of zinc-coated steel touches a wood screw of stainless steel; they lie 0.70 V apart, and 0.15 V is the most in the rain",
		"take both of stainless steel", "A", "C"))
	quiet(t, beside(15.4), "mixed-metals")
	quiet(t, built(t, sizes{"bolt_x": 119, "bolt_y": 44}, `material = "hot-dip galvanized steel"`, `material = "stainless steel"`), "mixed-metals")
}

// TestScrewMates: a lone head over a rail is its own mirror image on the center
// line, to 1/32 in between it and its image.
func TestScrewMates(t *testing.T) {
	lone := func(x float64) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(-200, 0, 0), p3(400, 80, 40)}, {"slat", "yx", p3(-100, 0, 40), p3(200, 80, 20)}},
			joined("top", "slat", "rail", fmt.Sprintf("hardware = \"screw\"\ninset = %g\ninset_end = 0", 100+x)))
	}
	quiet(t, lone(0), "screw-rows")
	quiet(t, lone(0.39), "screw-rows")
	one(t, lone(0.41), "screw-rows", find(check.Warning, "Slat B: Top: a screw's head and its mirror image differ by 1 mm", "move one of them by 1 mm", "B"))
	one(t, lone(-50), "screw-rows", find(check.Warning, "Slat B: Top: a screw has no mate on the other side", "set one 50 mm from the center line there", "B"))
	// Two heads on one side have no mates either, however even their number.
	two := scene(t, []plank{{"rail", "xy", p3(-200, 0, 0), p3(400, 80, 40)}, {"slat", "yx", p3(-100, 0, 40), p3(200, 80, 20)}},
		joined("top", "slat", "rail", "hardware = \"screw\"\ncount = 2\ninset = 20\ninset_end = 120"))
	one(t, two, "screw-rows", find(check.Warning, "Slat B: Top: a screw has no mate on the other side", "set one 80 mm from the center line there", "B"))
	mated := joined("more", "slat", "rail", "hardware = \"screw\"\ncount = 2\ninset = 120\ninset_end = 20")
	quiet(t, scene(t, []plank{{"rail", "xy", p3(-200, 0, 0), p3(400, 80, 40)}, {"slat", "yx", p3(-100, 0, 40), p3(200, 80, 20)}},
		joined("top", "slat", "rail", "hardware = \"screw\"\ncount = 2\ninset = 20\ninset_end = 120")+mated), "screw-rows")
}

// TestScrewRow: the heads of two slats side by side stand in line to 1/32 in.
func TestScrewRow(t *testing.T) {
	shifted := func(by float64) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(-200, 0, 0), p3(400, 200, 40)}, {"one", "yx", p3(-100, 20, 40), p3(90, 100, 20)}, {"two", "yx", p3(10, 20+by, 40), p3(90, 100, 20)}},
			joined("top", "one", "rail", "hardware = \"screw\"\ncount = 1")+joined("next", "two", "rail", "hardware = \"screw\"\ncount = 1"),
			`from = "one"`, `from = ["one", "two"]`, joined("next", "two", "rail", "hardware = \"screw\"\ncount = 1"), "")
	}
	quiet(t, shifted(0.7), "screw-rows")
	quiet(t, shifted(9), "screw-rows")
	one(t, shifted(0.9), "screw-rows", find(check.Warning, "One B and Two C: Top: heads in one row stand 1 mm out of line", "shift one of the two pieces by 1 mm", "B", "C"))
}

// TestScrewInsets: heads stand alike from the edges of one piece to 1/8 in, and
// from the same edge of two pieces of a part to 1/32.
func TestScrewInsets(t *testing.T) {
	ends := func(second float64) *model.Plan {
		return built(t, nil, `inset    = "inset"`, fmt.Sprintf("inset = \"inset\"\ninset_end = %g", second))
	}
	quiet(t, ends(18.1), "screw-rows")
	one(t, ends(18.3), "screw-rows", find(check.Warning, "Slat B: Slat to rail: heads stand 15 mm and 18.5 mm from the two edges of one piece",
		"bring the farther one 3.5 mm nearer to its edge", "B"))
	quiet(t, ends(18.3-3.5), "screw-rows")
	quiet(t, ends(24), "screw-rows") // plainly meant
	// The first slat hangs over the front ends of the rails, and its row begins there.
	quiet(t, built(t, sizes{"slat_at": -0.7}), "screw-rows")
	one(t, built(t, sizes{"slat_at": -0.9}), "screw-rows", find(check.Warning, "Slat B: Slat to rail: heads stand 15 mm and 16 mm from the same edge of two pieces",
		"give both the same inset: 1 mm more for one", "B"))
}

// TestScrewsOfOneJoint: two screws side by side want 3.2 mm of wood between them,
// less a tenth.
func TestScrewsOfOneJoint(t *testing.T) {
	apart := func(mm float64) *model.Plan {
		return scene(t, []plank{{"rail", "xy", p3(0, 0, 0), p3(400, 80, 80)}, {"slat", "yx", p3(100, 0, 80), p3(200, 80, 20)}},
			joined("top", "slat", "rail", fmt.Sprintf("hardware = \"screw\"\ncount = 2\ninset = %g", (200-mm)/2)))
	}
	one(t, apart(7.5), "fastener-clash", find(check.Error, `two fasteners of "Top" pass 3 mm apart; 3.2 mm of wood is needed between them`, "move one 0.5 mm straight away from the other", "A", "B"))
	quiet(t, apart(7.6), "fastener-clash")
	quiet(t, apart(7.5+0.5), "fastener-clash")
}
