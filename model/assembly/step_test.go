package assembly_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/source"
)

// trestle is two legs, a leaning rail between them and a row of slats on top: all
// of its sizes are simple, so that what is measured on it can be worked out here.
const trestle = `
unit = "mm"
[plan]
title = "Trestle"
[size]
wide  = 600
tall  = 450
gap   = 12
recline = "20 deg"
[stock.frame]
section = [30, 90]
[stock.thin]
section = [20, 60]
[part.leg]
stock  = "frame"
hands  = "pair"
length = "tall"
ends   = ["foot", "top"]
faces  = ["inside", "outside"]
hole.dent  = { at = [100, 30], diameter = 20, deep = 10, face = "outside" }
taper.slim = { edge = "rear", from = [200, 90], to = [450, 50] }
[part.rail]
stock  = "frame"
length = "wide - 60"
edges  = ["bottom", "top"]
faces  = ["front", "rear"]
[part.slat]
stock  = "thin"
length = "wide"
arris.front.top = { round = 12 }
[group.back]
at   = { up = 100, rear = 200 }
lean = "recline"
[[place]]
part  = "leg"
lies  = { foot = "down", front = "front", inside = "in" }
meets = { foot = "floor", front = 0, outside = "wide/2" }
[[place]]
part  = "rail"
in    = "back"
lies  = { left = "left", top = "up" }
meets = { bottom = 0, front = 0 }
[[place]]
part  = "slat"
lies  = { left = "left", front = "front" }
meets = { bottom = "leg.top", front = 0 }
row   = { toward = "rear", count = 3, gap = "gap" }
[[step]]
title = "Legs"
add   = ["leg"]
[[step]]
title = "All"
add   = ["rail", "slat"]
`

// showing solves the trestle with lines added to its last step.
func showing(t *testing.T, unit expr.Unit, lines string) (*model.Step, *source.List) {
	t.Helper()
	plan, problems := solveFiles(fstest.MapFS{"plan.toml": {Data: []byte(trestle + lines)}}, unit)
	if plan == nil {
		return nil, problems
	}
	return plan.Steps[1], problems
}

// Values that a tape and a gauge read, by Pythagoras and by what was asked for.
func TestShowsReadWhatIsThere(t *testing.T) {
	lean := 20 * math.Pi / 180
	for _, c := range []struct {
		entry string
		value float64
		text  string
	}{
		{`{ from = "leg left.foot.front.outside", to = "leg right.top.front.outside" }`, math.Hypot(600, 450), "750"},
		{`{ from = "leg left.top.front.outside", to = "floor" }`, 450, "450"},
		{`{ from = "floor", to = "leg.top.front.outside" }`, 450, "450"},
		{`{ from = "leg left.inside", to = "leg right.inside" }`, 540, "540"},
		{`{ from = "slat.first.rear.top.left", to = "slat.last.rear.top.left" }`, 2 * 72, "144"},
		{`{ from = "rail.top.front.left", to = "floor" }`, 100 + 90*math.Cos(lean), "185"},
		{`{ from = "rail.bottom.front.left", to = "slat.bottom" }`, 350, "350"},
		{`{ as = "gap", from = "slat.first", to = "slat.last" }`, 12 + 60 + 12, "84 mm"},
		{`{ as = "gap", from = "leg left.inside", to = "leg right" }`, 540, "540 mm"},
		{`{ as = "gap", from = "leg right", to = "leg left.inside" }`, 540, "540 mm"},
		{`{ as = "plumb", from = "rail.front" }`, lean, "20° from plumb"},
		{`{ as = "level", from = "rail.front" }`, math.Pi/2 - lean, "70° from level"},
		{`{ as = "level", from = "rail.top" }`, lean, "20° from level"},
		{`{ as = "level", from = "slat.top" }`, 0, "level"},
		{`{ as = "plumb", from = "leg.outside" }`, 0, "plumb"},
		{`{ as = "square", from = "slat.bottom", to = "leg.outside" }`, 0, "square"},
		{`{ as = "flat", from = "leg left.top", to = "leg right.top" }`, 0, "no gap"},
		{`{ as = "flat", from = "slat.first", to = "slat.last" }`, 0, "no gap"},
	} {
		st, problems := showing(t, expr.MM, "shows = ["+c.entry+"]")
		if !assert.NotNil(t, st, "%s\n%s", c.entry, told(problems)) || !assert.Len(t, st.Shows, 1, c.entry) {
			continue
		}
		assert.InDelta(t, c.value, st.Shows[0].Value.V, 1e-6, c.entry)
		assert.Equal(t, c.text, st.Shows[0].Text, c.entry)
	}
}

// The points of a measure are where it says, and it is as long as it reads.
func TestShowsAreWhereTheyAreMeasured(t *testing.T) {
	st, problems := showing(t, expr.Inch, `shows = [
  { from = "leg left.top.front.outside", to = "floor" },
  { as = "gap", from = "slat" },
  { as = "plumb", from = "rail.front" },
  { as = "square", from = "slat.bottom", to = "leg right.inside" },
]`)
	require.NotNil(t, st, told(problems))
	require.Len(t, st.Shows, 5, "both gaps of three slats")
	drop := st.Shows[0]
	assert.InDelta(t, 0, drop.A.Sub(geom.V3{X: -300, Z: 450}).Len(), 1e-6)
	assert.InDelta(t, 0, drop.B.Sub(geom.V3{X: -300}).Len(), 1e-6)
	assert.Equal(t, model.Floor, drop.Pieces[1])
	for i, y := range []float64{60, 132} { // where the gaps begin
		g := st.Shows[1+i]
		assert.InDelta(t, y, math.Min(g.A.Y, g.B.Y), 1e-6)
		assert.InDelta(t, 12, g.B.Sub(g.A).Len(), 1e-6)
		assert.InDelta(t, 1, math.Abs(g.Along.X), 1e-9, "along the slats")
		assert.Equal(t, st.Shows[1].Mates, g.Mates)
		assert.Positive(t, g.Mates)
	}
	assert.NotEqual(t, st.Shows[1].Text == "", st.Shows[2].Text == "", "one of them tells the width")
	plumb := st.Shows[3]
	assert.InDelta(t, plumb.Value.V, math.Acos(plumb.Along.Dot(plumb.Into)), 1e-9, "the blade and the stock stand at what is read")
	assert.InDelta(t, 0, plumb.Along.Dot(plumb.Out), 1e-9)
	sq := st.Shows[4]
	assert.InDelta(t, 270, sq.A.X, 1e-6, "against the inside of the leg")
	assert.InDelta(t, 450, sq.A.Z, 1e-6, "under the slat")
	assert.InDelta(t, 0, sq.Along.Dot(sq.Into), 1e-9)
}

// A named value is known in the texts of its step and nowhere else.
func TestShowsAreNamedInTexts(t *testing.T) {
	st, problems := showing(t, expr.MM, `test = "It is {high} high."
shows = [{ from = "leg.top.front.outside", to = "floor", name = "high" }]`)
	require.NotNil(t, st, told(problems))
	assert.Equal(t, "It is 450 mm high.", st.Test)
	_, problems = showing(t, expr.MM, `shows = [{ from = "leg.top.front.outside", to = "floor", name = "high" }]
[[step]]
title = "Later"
test  = "It is {high} high."
add   = []`)
	assert.Contains(t, told(problems), `there is no "high"`)
}

// What can not be measured is told, with what would help.
func TestShowsThatCanNotBe(t *testing.T) {
	for entry, says := range map[string]string{
		`{ from = "post.top", to = "floor" }`:                                                                   `there is no part "post"`,
		`{ from = "leg middle.top", to = "floor" }`:                                                             `"leg middle.top" names no piece`,
		`{ from = "leg.head", to = "floor" }`:                                                                   `part "leg" has no side "head"`,
		`{ from = "leg.top" }`:                                                                                  `does not say where it ends`,
		`{ to = "floor" }`:                                                                                      `does not say where it is taken`,
		`{ from = "leg", to = "floor" }`:                                                                        `a tape needs a point`,
		`{ from = "leg.foot", to = "floor" }`:                                                                   `there is nothing between`,
		`{ from = "slat.front.top.left", to = "floor" }`:                                                        `off the wood`,
		`{ from = "leg.top.rear.outside", to = "floor" }`:                                                       `off the wood`,
		`{ from = "rail.front", to = "leg.outside" }`:                                                           `do not run along each other`,
		`{ as = "level", from = "rail.top", to = "floor" }`:                                                     `by itself`,
		`{ as = "level", from = "rail.top.front" }`:                                                             `not one side`,
		`{ as = "square", from = "rail.front", to = "slat.bottom" }`:                                            `off square`,
		`{ as = "flat", from = "slat.top", to = "leg.top" }`:                                                    `lie in one plane`,
		`{ as = "gap", from = "rail" }`:                                                                         `across a gap`,
		`{ as = "gap", from = "leg left.inside.top", to = "leg right" }`:                                        `not at a corner`,
		`{ as = "tape", from = "rail" }`:                                                                        `"tape" is not understood`,
		`{ from = "leg.top.front.outside", to = "floor", same = "a" }`:                                          `nothing else in this step`,
		`{ from = "leg.top.front.outside", to = "floor", name = "wide" }`:                                       `named twice`,
		`{ from = "leg.top.front.outside", to = "floor", same = "a" }, { from = "slat", to = "a", same = "a" }`: `there is no part "a"`,
		`{ from = "leg.top.front.outside", to = "floor", same = "a" }, { from = "rail.top.front", to = "floor", same = "a" }`: `reads 450 mm and 184.57 mm`,
	} {
		_, problems := showing(t, expr.MM, "shows = ["+entry+"]")
		assert.Contains(t, told(problems), says, entry)
		assert.NotContains(t, told(problems), "\n\n", entry)
	}
}

// A piece that comes later is not measured earlier.
func TestShowsOfWhatIsNotThere(t *testing.T) {
	early := strings.Replace(trestle, `add   = ["leg"]`, `add   = ["leg left"]
shows = [{ from = "slat.top", to = "floor" }, { from = "leg.top.front", to = "floor" }]`, 1)
	_, problems := solveFiles(fstest.MapFS{"plan.toml": {Data: []byte(early)}}, expr.MM)
	assert.Contains(t, told(problems), "the slat is not in the picture of step 1")
	assert.Contains(t, told(problems), "the right leg is not in the picture of step 1")
}

// What is wrong is as it was said to be wrong, and stays the piece it was.
func TestWrongWays(t *testing.T) {
	for how, want := range map[string]geom.V3{ // where the leg's front foot corner, outside, goes
		"flipped": {X: -270, Y: 90}, "turned": {X: -300, Y: 90, Z: 450}, "swapped": {X: -270}, "same hand": {X: -270}, "left out": {X: -300},
	} {
		st, problems := showing(t, expr.MM, fmt.Sprintf(`mistake = "So."
wrong = { part = "leg left", how = %q }`, how))
		if !assert.NotNil(t, st, "%s: %s", how, told(problems)) {
			continue
		}
		require.NotNil(t, st.Wrong)
		require.Len(t, st.Wrong.Solids, 1)
		assert.InDelta(t, 0, st.Wrong.Solids[0].Distance(want), 1e-6, how)
		assert.Len(t, st.Wrong.Pieces, 1)
	}
}

func TestWrongThatCanNotBe(t *testing.T) {
	for lines, says := range map[string]string{
		`wrong = { part = "rail", how = "turned" }`:                           `needs words`,
		"mistake = \"So.\"\nwrong = { part = \"rail\" }":                      `needs part and how`,
		"mistake = \"So.\"\nwrong = { how = \"turned\" }":                     `needs part and how`,
		"mistake = \"So.\"\nwrong = { part = \"rail\", how = \"so\" }":        `"so" is not understood`,
		"mistake = \"So.\"\nwrong = { part = \"rail\", how = \"turned\" }":    `looks the same as it should`,
		"mistake = \"So.\"\nwrong = { part = \"rail\", how = \"same hand\" }": `has no other hand`,
		"mistake = \"So.\"\nwrong = { part = \"rail\", how = \"both ends\" }": `a mistake of the saw`,
		"mistake = \"So.\"\nwrong = { part = \"leg.top\", how = \"turned\" }": `is not a piece`,
	} {
		_, problems := showing(t, expr.MM, lines)
		assert.Contains(t, told(problems), says, lines)
		assert.Equal(t, 1, strings.Count(told(problems), "error:"), "told once: %s", lines)
	}
}

// Sawn wrong: the cut of one end at both, the round end trimmed, two of one hand.
func TestWrongMade(t *testing.T) {
	const parts = `
unit = "mm"
[plan]
title = "Parts"
[stock.thin]
section = [20, 60]
[part.rail]
stock  = "thin"
length = 400
end.right = { miter = "30 deg", long = "front" }
[part.brace]
stock  = "thin"
length = 400
end.left  = { miter = "30 deg", long = "rear" }
end.right = { miter = "30 deg", long = "front" }
[part.slat]
stock  = "thin"
length = 400
trim_later = "left"
end.right = { shape = "half round" }
[part.leg]
stock  = "thin"
hands  = "pair"
length = 300
faces  = ["inside", "outside"]
end.right = { bevel = "20 deg", long_face = "outside" }
[[step]]
make    = ["rail", "brace", "slat", "leg"]
mistake = "So."
`
	solve := func(wrong string) (*model.Plan, *source.List) {
		return solveFiles(fstest.MapFS{"plan.toml": {Data: []byte(parts + wrong)}}, expr.MM)
	}
	plan, problems := solve(`wrong = { part = "rail", how = "both ends" }`)
	require.NotNil(t, plan, told(problems))
	w := plan.Steps[0].Wrong
	require.Len(t, w.Solids, 1)
	// A rectangle less two triangles: 400 · 60 − 60² tan 30°.
	assert.InDelta(t, 20*(400*60-60*60*math.Tan(math.Pi/6)), w.Solids[0].Volume(), 1)

	plan, problems = solve(`wrong = { part = "slat", how = "other end" }`)
	require.NotNil(t, plan, told(problems))
	assert.InDelta(t, 20*370*60, plan.Steps[0].Wrong.Solids[0].Volume(), 1, "the half round is gone")

	plan, problems = solve(`wrong = { part = "leg", how = "same hand" }`)
	require.NotNil(t, plan, told(problems))
	assert.Len(t, plan.Steps[0].Wrong.Solids, 2)

	for _, wrong := range []string{`part = "brace", how = "both ends"`, `part = "rail", how = "same hand"`, `part = "rail", how = "other end"`, `part = "slat", how = "turned"`} {
		_, problems = solve("wrong = { " + wrong + " }")
		assert.Contains(t, told(problems), "cannot be shown of part", wrong)
	}
	_, problems = solve(`wrong = { part = "post", how = "both ends" }`)
	assert.Contains(t, told(problems), `does not make "post"`)
}
