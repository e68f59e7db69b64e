package assembly_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// solveFiles reads and solves plan.toml among some files, for one unit system.
func solveFiles(files fstest.MapFS, unit expr.Unit) (*model.Plan, *source.List) {
	var problems source.List
	d := reading.Load(files, "plan.toml", "", &problems)
	if d == nil {
		return nil, &problems
	}
	return assembly.Solve(d, assembly.Options{Unit: unit}, &problems), &problems
}

// seedTexts are plans to start from: the examples, the blocks of LANGUAGE.md and
// the error cases of the command.
func seedTexts(t testing.TB) []string {
	t.Helper()
	var out []string
	for _, pattern := range []string{"../../examples/*/plan.toml", "../../cmd/planset/testdata/*.txtar", "../LANGUAGE.md"} {
		names, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, name := range names {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			text := strings.ReplaceAll(string(data), "../range.toml", "range.toml")
			out = append(out, pieces(filepath.Ext(name), text)...)
		}
	}
	require.Greater(t, len(out), 100)
	return out
}

// pieces parts a file into the plans in it.
func pieces(kind, text string) []string {
	var out []string
	switch kind {
	case ".md":
		for i, block := range strings.Split(text, "```") {
			if rest, ok := strings.CutPrefix(block, "toml"); ok && i%2 == 1 {
				_, body, _ := strings.Cut(rest, "\n")
				out = append(out, body, "unit = \"in\"\ninclude = [\"base.toml\"]\n"+body)
			}
		}
	case ".txtar":
		for _, section := range strings.Split(text, "\n-- ") {
			if name, body, ok := strings.Cut(section, " --\n"); ok && strings.HasSuffix(name, ".toml") && !strings.HasPrefix(name, "$") {
				out = append(out, body+"\n")
			}
		}
	default:
		out = append(out, text)
	}
	return out
}

// rangeText is what the examples share.
func rangeText(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("../../examples/range.toml")
	require.NoError(t, err)
	return data
}

// fuzzBase is what a fuzzed plan may include: enough boards, parts and places for
// its own places and joints to mean something.
const fuzzBase = `unit = "in"
[plan]
title = "Base"
[size]
seat_w = 21
seat_h = 16
leg_h  = 18
gap    = "3/8"
slope  = "14 deg"
recline = "27 deg"
[stock.frame]
section = [1, "5 1/2"]
lengths = ["8 ft"]
species = "western redcedar"
[stock.wide]
section = [1, "7 1/4"]
[stock.thin]
section = ["3/4", "3 1/2"]
[hardware.bolt]
kind = "carriage bolt"
size = "3/8"
with = ["washer", "nut"]
[hardware.screw]
kind = "wood screw"
size = "#8"
[hardware.pocket]
kind = "pocket screw"
size = "#8"
[part.leg]
stock  = "frame"
hands  = "pair"
length = "leg_h"
ends   = ["foot", "top"]
edges  = ["front", "rear"]
faces  = ["inside", "outside"]
hole.lower = { at = [4, "2 3/4"], for = "bolt" }
[part.rail]
stock  = "frame"
width  = "3 1/2"
length = 30
edges  = ["bottom", "top"]
faces  = ["front", "rear"]
[part.slat]
stock  = "thin"
width  = "2 1/2"
length = 20
[[place]]
part  = "leg"
lies  = { foot = "down", front = "front", inside = "in" }
meets = { foot = "floor", front = 0, inside = 10 }
[[place]]
part  = "rail"
lies  = { left = "left", top = "up" }
meets = { top = "leg.top", rear = "leg.front" }
[[place]]
part  = "slat"
lies  = { left = "left", front = "front" }
meets = { bottom = "leg.top", front = 0 }
row   = { toward = "rear", count = 2, gap = "gap" }
`

// slow is how long one plan may take: a person waits for it, and a hostile one
// must not keep a server busy. Generous, since the machine may be loaded.
const slow = 10 * time.Second

// checkSolve solves a text in both unit systems and checks what must hold
// whatever it says: no panic, an end, and a plan only without errors.
func checkSolve(t *testing.T, text string) {
	start := time.Now()
	files := fstest.MapFS{"plan.toml": {Data: []byte(text)}, "base.toml": {Data: []byte(fuzzBase)}, "range.toml": {Data: rangeText(t)}}
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		p, problems := solveFiles(files, unit)
		if p == nil {
			require.True(t, problems.Failed(), "no plan and no reason")
			continue
		}
		for _, q := range p.Placed {
			o := q.Pose.Origin
			require.True(t, finite(o.X, o.Y, o.Z), "%s stands nowhere", q.Part.Key)
		}
		for _, q := range p.Parts {
			require.True(t, finite(q.Length, q.Width, q.Thick, q.Mass), "%s has no size", q.Key)
		}
	}
	require.Less(t, time.Since(start), slow)
}

func finite(list ...float64) bool {
	for _, x := range list {
		if x-x != 0 {
			return false
		}
	}
	return true
}

// FuzzSolve reads and solves any text.
func FuzzSolve(f *testing.F) {
	for _, text := range seedTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { checkSolve(t, text) })
}

// TestFuzzBase holds the base to what it is for: it solves by itself.
func TestFuzzBase(t *testing.T) {
	p, problems := solveFiles(fstest.MapFS{"plan.toml": {Data: []byte(fuzzBase)}}, expr.Inch)
	require.NotNil(t, p, told(problems))
	assert.NotEmpty(t, p.Placed)
}
