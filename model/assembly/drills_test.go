package assembly_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/wood"
)

// crate is a lid screwed or bolted on a block, in mm.
const crate = `
unit = "mm"
[plan]
title = "Crate"
[stock.board]
section = [20, 100]
lengths = ["2 m"]
species = "western redcedar"
[stock.beam]
section = [80, 100]
lengths = ["2 m"]
species = "western redcedar"
[hardware.screw]
kind = "wood screw"
size = "4.5"
[hardware.bolt]
kind = "carriage bolt"
size = "M8"
with = ["washer", "nut"]
material = "steel"
[part.block]
stock = "beam"
length = 400
[part.lid]
stock = "board"
length = 400
hole.one = { at = [100, 50], for = "bolt" }
[[place]]
part = "block"
lies = { left = "left", front = "front" }
meets = { bottom = 0, front = 0 }
[[place]]
part = "lid"
lies = { left = "left", front = "front" }
meets = { bottom = "block.top", front = 0 }
[joint.lid]
from = "lid"
into = "block"
`

// crated solves the crate with its joint completed, old by new.
func crated(t *testing.T, joint string, replace ...string) (*model.Plan, string) {
	t.Helper()
	text := strings.NewReplacer(replace...).Replace(crate) + joint
	var problems source.List
	d := reading.Load(fstest.MapFS{"plan.toml": {Data: []byte(text)}}, "plan.toml", "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, assembly.Options{Unit: expr.MM}, &problems)
	var b strings.Builder
	source.Write(&b, &problems, false)
	return p, b.String()
}

// TestDrills: a joint's drills are those of the screw and the wood, or what the
// author says; a pilot of nothing drills no hole.
func TestDrills(t *testing.T) {
	holes := func(p *model.Plan, kind model.HoleKind) (out []float64) {
		for _, q := range p.Parts {
			for _, h := range q.Holes {
				if h.Kind == kind {
					out = append(out, h.Diam, h.Depth)
				}
			}
		}
		return out
	}
	screw, _ := wood.Screw("4.5")
	p, told := crated(t, "hardware = \"screw\"")
	require.Empty(t, told)
	j := p.Joints[0]
	bite := j.Hardware.Length - 20
	assert.Equal(t, []float64{screw.PilotSoft, bite}, holes(p, model.PilotHole))
	assert.Equal(t, []float64{screw.Clearance, 0}, holes(p, model.ClearanceHole))
	assert.InDelta(t, bite, j.PilotDeep, 1e-9)

	p, told = crated(t, "hardware = \"screw\"\npilot = 2.2\nclearance = 4.8")
	require.Empty(t, told)
	assert.Equal(t, []float64{2.2, bite}, holes(p, model.PilotHole))
	assert.Equal(t, []float64{4.8, 0}, holes(p, model.ClearanceHole))
	assert.Equal(t, [2]float64{2.2, 4.8}, [2]float64{p.Joints[0].Pilot, p.Joints[0].Clear})

	p, told = crated(t, "hardware = \"screw\"\npilot = 0")
	require.Empty(t, told)
	assert.Empty(t, holes(p, model.PilotHole))
	assert.Zero(t, p.Joints[0].PilotDeep)
}

// TestDrillsRefused: a drill of nothing for the shank, one below nothing, and one
// for a bolt.
func TestDrillsRefused(t *testing.T) {
	for joint, want := range map[string]string{
		"hardware = \"screw\"\nclearance = 0":                 "a clearance drill is 0 mm; it must be more than nothing",
		"hardware = \"screw\"\npilot = -1":                    "a pilot drill is -1 mm; it cannot be less than nothing",
		"hardware = \"bolt\"\nholes = \"one\"\npilot = 2":     `joint "lid" has no drill of its own: only wood screws have a pilot and a clearance`,
		"hardware = \"bolt\"\nholes = \"one\"\nclearance = 9": `joint "lid" has no drill of its own: only wood screws have a pilot and a clearance`,
	} {
		_, told := crated(t, joint)
		assert.Contains(t, told, want)
	}
}

// TestPlugSinks: the head of a plugged screw lies a quarter of an inch deep, so a
// shorter one does, and the pilot reaches as deep as its point.
func TestPlugSinks(t *testing.T) {
	flat, told := crated(t, "hardware = \"screw\"", "section = [80, 100]", "section = [33, 100]")
	require.Empty(t, told)
	sunk, told := crated(t, "hardware = \"screw\"\nplug = true", "section = [80, 100]", "section = [33, 100]")
	require.Empty(t, told)
	// 20 and 33 less 3.2 are 49.8, or 43.5 with the head 6.35 deep.
	assert.InDelta(t, 45, flat.Joints[0].Hardware.Length, 1e-9)
	assert.InDelta(t, 40, sunk.Joints[0].Hardware.Length, 1e-9)
	assert.InDelta(t, 40+6.35-20, sunk.Joints[0].PilotDeep, 1e-9)
}

// TestWithMaterial: washers and nuts are of the bolt's material unless said
// otherwise.
func TestWithMaterial(t *testing.T) {
	of := func(more string) (out []string) {
		p, told := crated(t, "hardware = \"bolt\"\nholes = \"one\"", "material = \"steel\"", "material = \"steel\"\n"+more)
		require.Empty(t, told)
		for _, h := range p.Joints[0].With {
			out = append(out, h.Material)
		}
		return append(out, p.Joints[0].Hardware.Material)
	}
	assert.Equal(t, []string{"steel", "steel", "steel"}, of(""))
	assert.Equal(t, []string{"brass", "brass", "steel"}, of("with_material = \"brass\""))
}
