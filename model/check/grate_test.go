package check_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// grate is a boot grate: two rails on the floor, four slats screwed across them,
// and a cheek bolted to the outside of each rail. As written it has no faults.
const grate = `
unit = "mm"

[plan]
title = "Boot grate"

[stock.board]
section = [20, 100]
lengths = ["2.4 m"]
species = "western redcedar"

[stock.beam]
section = [40, 100]
lengths = ["2.4 m"]
species = "western redcedar"

[hardware.screw]
kind     = "wood screw"
size     = "4.5"
material = "stainless steel"

[hardware.bolt]
kind     = "carriage bolt"
size     = "M8"
with     = ["washer", "nut"]
material = "hot-dip galvanized steel"

[size]
rail_w   = 90
rail_in  = 150
lift     = 0
slat_w   = 80
slat_l   = 460
slat_at  = 20
gap      = 12
inset    = 15
cheek_up = 5
dig      = 0
bolt_x   = 100
bolt_y   = 40

[part.rail]
name   = "Rail"
stock  = "beam"
hands  = "pair"
width  = "rail_w"
length = 400
ends   = ["front", "rear"]
edges  = ["bottom", "top"]
faces  = ["inside", "outside"]

[part.slat]
name   = "Slat"
stock  = "board"
width  = "slat_w"
length = "slat_l"
note   = "Bark side up."

[part.cheek]
name   = "Cheek"
stock  = "board"
hands  = "pair"
width  = 80
length = 200
ends   = ["front", "rear"]
edges  = ["bottom", "top"]
faces  = ["inside", "outside"]
hole.one = { at = ["bolt_x", "bolt_y"], for = "bolt" }

[[place]]
part  = "rail"
lies  = { front = "front", top = "up", outside = "out" }
meets = { front = 0, bottom = "lift", inside = "rail_in" }

[[place]]
part  = "slat"
lies  = { left = "left", front = "front" }
meets = { bottom = "rail.top", front = "slat_at" }
row   = { toward = "rear", count = 4, gap = "gap" }

[[place]]
part  = "cheek"
lies  = { front = "front", top = "up", outside = "out" }
meets = { inside = "rail.outside - dig", front = 100, bottom = "cheek_up" }

[joint.slats]
from     = "slat"
into     = "rail"
hardware = "screw"
count    = 2
run      = "across"
inset    = "inset"

[joint.cheeks]
name     = "Cheeks"
from     = "cheek"
into     = "rail"
hardware = "bolt"
holes    = ["one"]
`

// sizes replace sizes of a plan, in mm (or radians).
type sizes = map[string]float64

// built solves the grate with other sizes and with text replaced, old by new.
func built(t testing.TB, sz sizes, replace ...string) *model.Plan {
	t.Helper()
	return solved(t, fstest.MapFS{"plan.toml": {Data: []byte(edited(t, grate, replace))}}, "plan.toml", assembly.Options{Unit: expr.MM, Sizes: sz})
}

// chair solves the example chair likewise, in inches.
func chair(t testing.TB, sz sizes, replace ...string) *model.Plan {
	t.Helper()
	files := fstest.MapFS{}
	for _, name := range []string{"petrel-chair/plan.toml", "range.toml"} {
		data, err := os.ReadFile("../../examples/" + name)
		require.NoError(t, err)
		if strings.HasSuffix(name, "plan.toml") {
			data = []byte(edited(t, string(data), replace))
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	return solved(t, files, "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch, Sizes: sz})
}

func edited(t testing.TB, text string, replace []string) string {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		require.Contains(t, text, replace[i])
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return text
}

func solved(t testing.TB, files fs.FS, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(files, name, "", &problems)
	require.NotNil(t, d, told(&problems))
	p := assembly.Solve(d, opt, &problems)
	require.False(t, problems.Failed(), told(&problems))
	return p
}

func told(l *source.List) string {
	var b strings.Builder
	source.Write(&b, l, false)
	return b.String()
}

// of are the findings of one rule.
func of(p *model.Plan, rule string) []check.Finding {
	var out []check.Finding
	for _, f := range check.All(p, buying.Boards(p)) {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// one asks that a rule finds one thing, of that severity, in those words.
func one(t testing.TB, p *model.Plan, rule string, want check.Finding) {
	t.Helper()
	list := of(p, rule)
	require.Len(t, list, 1, "%s", rule)
	f := list[0]
	assert.Equal(t, want.Severity, f.Severity)
	assert.Equal(t, want.Text, f.Text)
	assert.Equal(t, want.Fix, f.Fix)
	assert.Equal(t, want.Parts, f.Parts)
}

// quiet asks that a rule finds nothing.
func quiet(t testing.TB, p *model.Plan, rule string) {
	t.Helper()
	assert.Empty(t, of(p, rule), rule)
}

func find(s check.Severity, text, fix string, parts ...string) check.Finding {
	return check.Finding{Severity: s, Text: text, Fix: fix, Parts: parts}
}

// TestGrateIsGood: the plan that the other tests spoil has no faults of its own.
func TestGrateIsGood(t *testing.T) {
	p := built(t, nil)
	assert.Empty(t, check.All(p, buying.Boards(p)))
}
