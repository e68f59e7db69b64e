package main

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contractPlan has something for every list of facts --json: a hole, a joint, a
// template, a buyable board, a finding.
const contractPlan = `unit = "in"
[plan]
title = "Small bench"
slug  = "small-bench"
[size]
high = 16
tip_slope = "3 deg"
[derive]
half = "high/2"
[stock.frame]
section = [1, "5 1/2"]
lengths = ["8 ft"]
prices  = [20]
species = "white oak"
[hardware.screw]
kind = "wood screw"
size = "#8"
box  = 100
[hardware.bolt]
kind = "carriage bolt"
size = "3/8"
with = ["washer", "nut"]
[part.leg]
name   = "Leg"
stock  = "frame"
hands  = "pair"
length = "high"
ends   = ["foot", "top"]
faces  = ["inside", "outside"]
hole.low = { at = [4, "2 1/2"], for = "bolt", fine = true }
[part.brace]
stock  = "frame"
length = 12
width  = 3
hands  = "pair"
edges  = ["bottom", "top"]
faces  = ["inner", "outer"]
hole.low = { through = "leg.hole.low" }
corner.right.top = { round = 1 }
[part.seat]
stock  = "frame"
length = 30
[[place]]
part  = "leg"
lies  = { foot = "down", front = "front", inside = "in" }
meets = { foot = "floor", inside = 10, front = 0 }
[[place]]
part  = "brace"
lies  = { left = "front", top = "up", outer = "out" }
meets = { bottom = 3, left = 1, outer = "leg.inside" }
[[place]]
part  = "seat"
lies  = { left = "left", front = "front" }
meets = { bottom = "leg.top", front = "leg.front" }
[joint.seat]
from = "seat"
into = "leg"
hardware = "screw"
count = 2
inset = 1
[joint.brace]
from = "leg"
into = "brace"
hardware = "bolt"
holes = "low"
`

// keysOf are the keys of a JSON object in the order of the alphabet.
func keysOf(t *testing.T, v any) []string {
	t.Helper()
	m, ok := v.(map[string]any)
	require.True(t, ok, "%v is no object", v)
	return slices.Sorted(maps.Keys(m))
}

// first is the first item of a list, which must not be empty.
func first(t *testing.T, v any) any {
	t.Helper()
	list, ok := v.([]any)
	require.True(t, ok, "%v is no list", v)
	require.NotEmpty(t, list)
	return list[0]
}

func factsOf(t *testing.T, args ...string) map[string]any {
	t.Helper()
	var out, errw bytes.Buffer
	require.Equal(t, exitDone, run(append([]string{"facts", "--json"}, args...), &out, &errw), errw.String())
	var facts map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &facts))
	return facts
}

// TestFactsKeys holds facts --json to the keys that scripts and shops lean on.
func TestFactsKeys(t *testing.T) {
	facts := factsOf(t, written(t, contractPlan))
	assert.Equal(t, []string{"boards", "bound", "buying", "findings", "hardware", "measures", "parts", "placed", "sheets", "templates", "title", "units", "variant"}, keysOf(t, facts))
	part := first(t, facts["parts"])
	tile := first(t, first(t, facts["templates"]).(map[string]any)["tiles"])
	for _, c := range []struct {
		name string
		of   any
		keys []string
	}{
		{"part", part, []string{"code", "hand", "holes", "length", "mass", "name", "quantity", "rough_length", "rough_width", "stock", "template", "thickness", "width"}},
		{"hole", first(t, part.(map[string]any)["holes"]), []string{"across", "along", "diameter", "matched", "name"}},
		{"placed", first(t, facts["placed"]), []string{"across", "along", "code", "hand", "name", "origin", "thick"}},
		{"hardware", first(t, facts["hardware"]), []string{"buy", "length", "name", "quantity", "size"}},
		{"board", first(t, facts["boards"]), []string{"cost", "length", "pieces", "stock"}},
		{"piece", first(t, first(t, facts["boards"]).(map[string]any)["pieces"]), []string{"across", "along", "code", "length", "width"}},
		{"buying", first(t, facts["buying"]), []string{"cost", "length", "quantity", "stock"}},
		{"bound", facts["bound"], []string{"cost", "proved"}},
		{"template", first(t, facts["templates"]), []string{"code", "holes", "outline", "tiles"}},
		{"tile", tile, []string{"at", "column", "page", "paper", "row", "window"}},
		{"sheet", first(t, facts["sheets"]), []string{"page", "paper", "title"}},
	} {
		assert.Equal(t, c.keys, keysOf(t, c.of), c.name)
	}
	if list := facts["findings"].([]any); len(list) > 0 {
		assert.Equal(t, []string{"fix", "limit", "parts", "rule", "severity", "text", "unit", "value", "waived"}, keysOf(t, list[0]))
	}
}

// TestFactsValues checks units, counts and hands of the small plan by hand.
func TestFactsValues(t *testing.T) {
	facts := factsOf(t, written(t, contractPlan))
	assert.Equal(t, []any{"Small bench", "standard", "in"}, []any{facts["title"], facts["variant"], facts["units"]})
	measures := facts["measures"].(map[string]any)
	for name, want := range map[string]float64{"high": 16 * 25.4, "tip_slope": 3, "half": 8 * 25.4, "overall_width": 30 * 25.4, "overall_depth": 13 * 25.4, "overall_height": 17 * 25.4} {
		assert.InDelta(t, want, measures[name], 1e-6, name)
	}
	leg := first(t, facts["parts"]).(map[string]any)
	assert.Equal(t, []any{"A", "Leg", 2.0, "pair", "frame"}, []any{leg["code"], leg["name"], leg["quantity"], leg["hand"], leg["stock"]})
	hole := first(t, leg["holes"]).(map[string]any)
	assert.InDelta(t, 4*25.4, hole["along"], 1e-6)
	assert.InDelta(t, 2.5*25.4, hole["across"], 1e-6)
	// A leg's wood: 16 x 5 1/2 x 1 in, but for the bolt hole, of white oak.
	assert.InDelta(t, 16*5.5*16387.064e-9*750, leg["mass"], 0.2)
	brace := facts["parts"].([]any)[1].(map[string]any)
	matched := first(t, brace["holes"]).(map[string]any)
	assert.Equal(t, true, matched["matched"])
	// The brace begins 1 in behind the leg's front and 3 in above the floor.
	assert.InDelta(t, 1.5*25.4, matched["along"], 1e-6)
	sides := map[string]float64{}
	for _, p := range facts["placed"].([]any) {
		q := p.(map[string]any)
		if q["name"] == "Leg" {
			sides[q["hand"].(string)] = q["origin"].([]any)[0].(float64)
		}
	}
	assert.Len(t, sides, 2)
	assert.InDelta(t, 0, sides["left"]+sides["right"], 1e-9, "the left one is the mirror of the right")
	assert.Greater(t, sides["right"], 0.0, "right is to the sitter's right")
	screw := first(t, facts["hardware"]).(map[string]any)
	assert.Equal(t, []any{4.0, 100.0}, []any{screw["quantity"], screw["buy"]}, "two screws at two legs, a box of a hundred")
}

// TestCheckKeys holds check --json to its keys.
func TestCheckKeys(t *testing.T) {
	var out, errw bytes.Buffer
	run([]string{"check", "--json", "--variant=all", written(t, contractPlan)}, &out, &errw)
	var got map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &got), errw.String())
	assert.Equal(t, []string{"variants"}, keysOf(t, got))
	assert.Equal(t, []string{"findings", "variant"}, keysOf(t, first(t, got["variants"])))
}

// TestPartsOnly: a plan of parts that stand nowhere has everything but places.
func TestPartsOnly(t *testing.T) {
	facts := factsOf(t, written(t, `unit = "mm"
[plan]
title = "Boards"
[stock.pine]
section = [18, 140]
lengths = ["2.4 m"]
[part.shelf]
stock  = "pine"
length = 640
hands  = "pair"
corner.left.front = { round = 20 }
[part.back]
stock  = "pine"
width  = 60
length = 600
`))
	assert.Empty(t, facts["placed"])
	parts := facts["parts"].([]any)
	require.Len(t, parts, 2)
	assert.Equal(t, 2.0, parts[0].(map[string]any)["quantity"])
	assert.Equal(t, 1.0, parts[1].(map[string]any)["quantity"])
	pieces := 0
	for _, b := range facts["boards"].([]any) {
		pieces += len(b.(map[string]any)["pieces"].([]any))
	}
	assert.Equal(t, 3, pieces, "every piece is cut from a board")
	assert.Len(t, facts["templates"], 1, "the round corner needs a template")
	assert.NotEmpty(t, facts["sheets"])
}

// TestNothingIsWritten: a plan with errors leaves no file and no folder behind,
// whichever of its editions has them.
func TestNothingIsWritten(t *testing.T) {
	for _, broken := range []string{
		contractPlan + "\n[variant.tall]\nsize = { high = \"-3\" }\n",
		contractPlan + "\n[metric]\nsize = { high = -4 }\n",
		contractPlan + "\n[joint.x]\nfrom = \"seat\"\ninto = \"nothing\"\n",
	} {
		name := written(t, broken)
		var out, errw bytes.Buffer
		code := run([]string{"build", name, "--variant", "all", "--units", "both"}, &out, &errw)
		assert.Equal(t, exitProblems, code)
		assert.Empty(t, out.String())
		assert.NotEmpty(t, errw.String())
		left, err := os.ReadDir(filepath.Dir(name))
		require.NoError(t, err)
		assert.Len(t, left, 1, "only the plan itself")
	}
}

// TestUnwritable: a folder that cannot be made or written ends in exit 2, also
// for a user who may write anywhere.
func TestUnwritable(t *testing.T) {
	name := written(t, contractPlan)
	for _, dir := range []string{name, filepath.Join(name, "deep")} {
		var out, errw bytes.Buffer
		code := run([]string{"templates", name, "--out", dir}, &out, &errw)
		assert.Equal(t, exitUsage, code)
		assert.Empty(t, out.String())
		assert.Contains(t, errw.String(), "cannot be made")
	}
}

// TestNoColorWithoutTerminal: what goes to a file or a pipe has no color, with
// NO_COLOR or without.
func TestNoColorWithoutTerminal(t *testing.T) {
	name := written(t, "unit = 3")
	var plain []string
	for _, v := range []string{"", "1"} {
		t.Setenv("NO_COLOR", v)
		var out, errw bytes.Buffer
		assert.Equal(t, exitProblems, run([]string{"check", name}, &out, &errw))
		assert.NotContains(t, errw.String(), "\x1b")
		plain = append(plain, errw.String())
	}
	assert.Equal(t, plain[0], plain[1])
}
