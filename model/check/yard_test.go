package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// block is a rectangular piece for tests: grain along x.
type block struct {
	name     string
	at, size geom.V3
}

func v3(x, y, z float64) geom.V3 { return geom.V3{X: x, Y: y, Z: z} }

// yard is a plan of blocks, each a part of its own with letters A, B, C.
func yard(t testing.TB, blocks ...block) *model.Plan {
	t.Helper()
	p := &model.Plan{Unit: expr.MM, Kerf: 3}
	for i, b := range blocks {
		board := geom.Board{Outline: geom.Rect(b.size.X, b.size.Y), Thick: b.size.Z}
		part := &model.Part{Key: b.name, Code: string(rune('A' + i)), Name: b.name, Quantity: 1, Stock: &model.Stock{Key: "s", Species: "western redcedar"},
			Length: b.size.X, Width: b.size.Y, Thick: b.size.Z, Board: board, Mass: b.size.X * b.size.Y * b.size.Z * 4e-7}
		s, err := board.Solid(0.1)
		require.NoError(t, err)
		pose := geom.Home()
		pose.Origin = b.at
		p.Parts = append(p.Parts, part)
		p.Placed = append(p.Placed, &model.Placed{Part: part, Pose: pose, Solid: s.Transform(pose), Index: i, Center: b.at.Add(b.size.Mul(0.5))})
	}
	return p
}

// glue holds two pieces together where they touch.
func glue(p *model.Plan, a, b int) *model.Joint {
	j := &model.Joint{Key: "glue " + p.Parts[a].Code + p.Parts[b].Code, Name: "Glue", Glue: true, Bond: true, First: []*model.Part{p.Parts[a]}, Second: []*model.Part{p.Parts[b]}}
	p.Joints = append(p.Joints, j)
	return j
}

// drive puts a screw or bolt through a into b.
func drive(p *model.Plan, h *model.Hardware, a, b int, head, dir geom.V3, grip float64) *model.Joint {
	j := &model.Joint{Key: h.Size + p.Parts[a].Code + p.Parts[b].Code, Name: "Joint", Hardware: h, First: []*model.Part{p.Parts[a]}, Second: []*model.Part{p.Parts[b]}}
	j.Fasteners = []model.Fastener{{Hardware: h, Joint: j, Head: head, Dir: dir, Length: h.Length, Grip: grip, Pieces: [2]int{a, b}}}
	p.Joints = append(p.Joints, j)
	return j
}

var testBolt = &model.Hardware{Key: "bolt", Kind: model.CarriageBolt, Size: "M8", Diam: 8, Length: 60}

// work adds a step.
func work(p *model.Plan, do string, add []int, fasten ...*model.Joint) *model.Step {
	st := &model.Step{Number: len(p.Steps) + 1, Do: do, Add: add, Fasten: fasten}
	p.Steps = append(p.Steps, st)
	return st
}

// told1 asks that a rule finds one thing in those words.
func told1(t testing.TB, list []Finding, level Severity, text, fix string, value float64, parts ...string) {
	t.Helper()
	require.Len(t, list, 1)
	assert.Equal(t, level, list[0].Severity)
	assert.Equal(t, text, list[0].Text)
	assert.Equal(t, fix, list[0].Fix)
	assert.InDelta(t, value, list[0].Value, 0.02)
	assert.ElementsMatch(t, parts, list[0].Parts)
}

// TestRod: the room round a bar of space is that to a face, an edge and a
// corner; a bar through the wood or in it has none.
func TestRod(t *testing.T) {
	s := box(t, v3(0, 0, 0), v3(100, 50, 20))
	b := s.Box3(geom.Home())
	room := func(p, u geom.V3) float64 { return rod{segment{p, u}, 30}.room(s, b) }
	assert.InDelta(t, 7, room(v3(50, 25, 27), v3(0, 0, 100)), 1e-9, "over a face")
	assert.InDelta(t, 5, room(v3(50, -3, 24), v3(0, 0, 100)), 1e-9, "by an edge, 3 and 4")
	assert.InDelta(t, 7, room(v3(-2, -3, 26), v3(0, 0, 100)), 1e-9, "by a corner, 2, 3 and 6")
	assert.InDelta(t, 12, room(v3(50, -12, -50), v3(0, 0, 200)), 1e-9, "along a face")
	assert.Zero(t, room(v3(50, 25, -50), v3(0, 0, 200)), "through it")
	assert.Zero(t, room(v3(50, 25, 10), v3(1, 0, 0)), "in it")
	k := bar(v3(0, 0, 0), v3(1, 0, 0), 10, 110, 20)
	assert.InDelta(t, 30, k.P.X, 1e-12)
	assert.InDelta(t, 60, k.U.X, 1e-12)
	k = bar(v3(0, 0, 0), v3(1, 0, 0), 10, 20, 20)
	assert.InDelta(t, 5, k.r, 1e-12, "a disc becomes a ball inside it")
}
