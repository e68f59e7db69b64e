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

var (
	testScrew = &model.Hardware{Key: "screw", Kind: model.WoodScrew, Size: "4.5", Diam: 4.5, Length: 50}
	testBolt  = &model.Hardware{Key: "bolt", Kind: model.CarriageBolt, Size: "M8", Diam: 8, Length: 60}
)

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

// walled is a slat on a rail with a wall that stands some way from the line of
// the screw; the rail and the wall are joined before the slat comes.
func walled(t testing.TB, off, high float64) *model.Plan {
	p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, 40, 80)}, block{"Slat", v3(170, 0, 80), v3(60, 40, 20)},
		block{"Wall", v3(0, 20+off, 0), v3(400, 20, high)}, block{"Post", v3(0, 40, 0), v3(20, off-20, 80)})
	screw := drive(p, testScrew, 1, 0, v3(200, 20, 100), v3(0, 0, -1), 20)
	work(p, "", []int{0, 2, 3}, glue(p, 0, 3), glue(p, 3, 2))
	work(p, "Drive the screw.", []int{1}, screw)
	return p
}

func TestDriverRoom(t *testing.T) {
	look := func(p *model.Plan) []Finding { return driverRoom(newShop(p, nil)) }
	assert.Empty(t, look(walled(t, 34.8, 400)), "a driver 35 mm thick, less the slack")
	// Leaning by 5 degrees the body, whose round end stands 145 mm up the axis,
	// comes out by 145·sin 5° = 12.6 mm.
	assert.Empty(t, look(walled(t, 22.2, 400)))
	told1(t, look(walled(t, 21.8, 400)), Warning, "Joint: in step 2 Wall C stands in the way of the driver; it takes a bit of 150 mm",
		"name a 150 mm bit in step 2, or move it 13.5 mm farther from Wall C", 21.8, "A", "B", "C")
	p := walled(t, 21.8, 400)
	p.Steps[1].Do = "Drive the screw with a long bit."
	assert.Empty(t, look(p), "the step says so")
	p = walled(t, 21.8, 400)
	p.Steps[0], p.Steps[1] = p.Steps[1], p.Steps[0]
	assert.Empty(t, look(p), "the wall comes later")
	assert.Empty(t, look(walled(t, 21.8, 140)), "the wall is no higher than the bit")
}

// TestDriverUnderLid: nothing fits between a head and a lid 20 mm over it, a
// right-angle driver under one 110 mm over it.
func TestDriverUnderLid(t *testing.T) {
	lid := func(up float64) []Finding {
		p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, 40, 80)}, block{"Slat", v3(0, 0, 80), v3(400, 40, 20)},
			block{"Post", v3(0, 40, 0), v3(40, 40, 100+up)}, block{"Lid", v3(0, -200, 100+up), v3(400, 440, 20)})
		screw := drive(p, testScrew, 1, 0, v3(200, 20, 100), v3(0, 0, -1), 20)
		work(p, "", []int{0, 2, 3}, glue(p, 0, 2), glue(p, 2, 3))
		work(p, "", []int{1}, screw)
		return driverRoom(newShop(p, nil))
	}
	told1(t, lid(20), Error, "Joint: in step 2 Lid D stands in the way of the driver; no driver reaches it", "move it 35 mm farther from Lid D", 0, "A", "B", "D")
	list := lid(110)
	require.Len(t, list, 1)
	assert.Equal(t, Warning, list[0].Severity)
	assert.Contains(t, list[0].Text, "it takes a right-angle driver of 102 mm")
	assert.Empty(t, lid(235))
}

// TestPocketRoom: a pocket screw at 15 degrees wants 330 mm along its slant.
func TestPocketRoom(t *testing.T) {
	far := func(gap float64) []Finding {
		p := yard(t, block{"Rung", v3(0, 0, 0), v3(gap, 60, 20)}, block{"Leg", v3(-20, 0, -100), v3(20, 60, 300)}, block{"Far leg", v3(gap, 0, -100), v3(20, 60, 300)})
		pocket := &model.Hardware{Key: "p", Kind: model.PocketScrew, Size: "4.5", Diam: 4.5, Length: 32}
		dir := v3(-0.9659258, 0, -0.2588190)
		j := drive(p, pocket, 0, 1, v3(20, 30, 14), dir, 20)
		work(p, "", []int{0, 2}, glue(p, 0, 2))
		work(p, "", []int{1}, j)
		return pocketRoom(newShop(p, nil))
	}
	// The rear of the body stands 20 + 330·cos 15° = 339 mm from the leg.
	list := far(335)
	require.Len(t, list, 1)
	assert.Equal(t, "Joint: in step 2 Far leg C is in the way of the driver at the pockets", list[0].Text)
	assert.Equal(t, []string{"B", "C"}, sortedParts(list[0])[1:])
	assert.Empty(t, far(345))
}

func sortedParts(f Finding) []string {
	out := append([]string(nil), f.Parts...)
	for i := range out {
		for k := i + 1; k < len(out); k++ {
			if out[k] < out[i] {
				out[i], out[k] = out[k], out[i]
			}
		}
	}
	return out
}

// TestWrenchRoom: a bolt between two planks that stand apart, its nut or its head
// inside.
func TestWrenchRoom(t *testing.T) {
	inside := func(gap float64, inward bool) []Finding {
		p := yard(t, block{"Plank", v3(0, 0, 0), v3(400, 20, 400)}, block{"Cleat", v3(0, -20, 0), v3(400, 20, 400)},
			block{"Far plank", v3(0, 20+gap, 0), v3(400, 20, 400)}, block{"Base", v3(0, -20, -20), v3(400, 60+gap, 20)})
		head, dir := v3(200, -20, 200), v3(0, 1, 0)
		a, b := 1, 0
		if inward {
			head, dir, a, b = v3(200, 20, 200), v3(0, -1, 0), 0, 1
		}
		bolt := drive(p, testBolt, a, b, head, dir, 40)
		work(p, "", []int{0, 2, 3}, glue(p, 0, 3), glue(p, 2, 3))
		work(p, "", []int{1}, bolt)
		return wrenchRoom(newShop(p, nil))
	}
	// Washer 2, half of a nut 6.8, half of a wrench 3: 8.4 mm.
	told1(t, inside(7.5, false), Error, "Joint: in step 2 a wrench on the nut swings through 0°, and 60° are needed; no socket gets there either",
		"keep 150 mm free on one side of the nut, or turn the bolt round", 0, "A", "B")
	assert.Empty(t, inside(9, false))
	list := inside(60, true)
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "in step 2 Far plank C keeps the bolts from going in: 60 mm is free before the hole, and the bolt is 60 mm long")
	assert.Empty(t, inside(90, true), "60 of bolt and its head")
}

// TestWayIn: a block between two walls comes out upward; under a lid along the
// walls; with stops at both ends it is shut in.
func TestWayIn(t *testing.T) {
	shut := func(more ...block) []Finding {
		list := append([]block{{"Block", v3(0, 0, 0), v3(100, 50, 20)}, {"Floor", v3(-20, -20, -20), v3(140, 90, 20)},
			{"Wall", v3(0, 50, 0), v3(100, 20, 45)}, {"Other wall", v3(0, -20, 0), v3(100, 20, 45)}}, more...)
		p := yard(t, list...)
		var fixed []*model.Joint
		var add []int
		for i := 2; i < len(list); i++ {
			fixed, add = append(fixed, glue(p, 1, i)), append(add, i)
			if i > 3 { // a lid or a stop is held by a wall
				fixed = append(fixed, glue(p, 2, i))
			}
		}
		work(p, "", append(add, 1), fixed...)
		work(p, "", []int{0}, glue(p, 0, 1))
		return wayIn(newShop(p, nil))
	}
	low := block{"Low lid", v3(0, 0, 20), v3(100, 50, 20)}
	stops := []block{{"Stop", v3(100, 0, 0), v3(20, 70, 40)}, {"Other stop", v3(-20, 0, 0), v3(20, 70, 40)}}
	assert.Empty(t, shut())
	assert.Empty(t, shut(low))
	assert.Empty(t, shut(stops...))
	list := shut(append(stops, low)...)
	require.Len(t, list, 1)
	assert.Equal(t, Error, list[0].Severity)
	assert.Equal(t, "in step 2 Block A is shut in on all sides", list[0].Text)
	assert.Equal(t, "leave it 40 mm to one side, or add it in an earlier step", list[0].Fix)
	list = shut(append(stops, block{"Lid", v3(0, -20, 45), v3(100, 90, 20)})...)
	require.Len(t, list, 1, "it rises by 25 and strikes the lid")
	assert.Equal(t, Warning, list[0].Severity)
	assert.Equal(t, "in step 2 Block A has no straight way in; it must be tilted past", list[0].Text)
}

// TestHeldUp: a board across a rail rests while its mass lies 25 mm inside the
// rail's edges.
func TestHeldUp(t *testing.T) {
	set := func(wide float64, change func(*model.Plan)) []Finding {
		p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, wide, 80)}, block{"Board", v3(100, -50, 80), v3(100, wide+100, 20)})
		work(p, "", []int{0})
		work(p, "Drive two screws.", []int{1}, drive(p, testScrew, 1, 0, v3(150, 20, 100), v3(0, 0, -1), 20))
		if change != nil {
			change(p)
		}
		return heldUp(newShop(p, nil))
	}
	told1(t, set(50, nil), Warning, "Board B: in step 2 its weight lies 25 mm inside what carries it; it tips over before it is fixed",
		"name a clamp or write people = 2, or let it rest on 0.5 mm more", 25, "B")
	assert.Empty(t, set(51, nil))
	assert.Empty(t, set(50, func(p *model.Plan) { p.Steps[1].People = 2 }))
	assert.Empty(t, set(50, func(p *model.Plan) { p.Steps[1].Do = "Clamp it and drive two screws." }))
	list := set(60, func(p *model.Plan) { p.Steps[1].Turned = "Upside down from here on." })
	require.Len(t, list, 1)
	assert.Equal(t, "Board B: in step 2 nothing carries it while it is fixed, and the text names neither clamp nor helper", list[0].Text)
}
