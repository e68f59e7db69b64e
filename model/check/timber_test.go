package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/cutting"
	"planset/model/expr"
	"planset/model/geom"
)

// TestShortGrain: an L whose foot is as thick along the grain as it may be.
func TestShortGrain(t *testing.T) {
	ell := func(foot float64) []Finding {
		p := yard(t, block{"Arm", v3(0, 0, 0), v3(300, 50, 20)})
		p.Parts[0].Board.Outline = geom.Polygon(geom.Pt{}, geom.Pt{X: 300}, geom.Pt{X: 300, Y: 50}, geom.Pt{X: foot, Y: 50}, geom.Pt{X: foot, Y: 150}, geom.Pt{Y: 150})
		p.Parts[0].Width = 150
		return shortGrain(newShop(p, nil))
	}
	list := ell(31)
	require.Len(t, list, 1)
	assert.Equal(t, Warning, list[0].Severity)
	assert.Contains(t, list[0].Text, "hangs by fibers 31 mm long; under 32 mm it snaps off along the grain")
	assert.Equal(t, "give it 1 mm more along the grain, or turn the grain", list[0].Fix)
	assert.Empty(t, ell(32))
	assert.Equal(t, Error, ell(15)[0].Severity)
	assert.Equal(t, Warning, ell(16)[0].Severity)

	way := func(long float64) []Finding {
		return shortGrain(newShop(yard(t, block{"Block", v3(0, 0, 0), v3(long, 125, 20)}), nil))
	}
	told1(t, way(99), Warning, "Block A: its grain runs the short way: 99 mm long and 125 mm across", "lay its grain along the 125 mm", 99, "A")
	assert.Empty(t, way(100))

	leaning := func(deg float64) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(600, 80, 20)})
		p.Parts[0].Free = true
		p.Parts[0].Board.Outline = geom.Rect(600, 80).Turn(deg * math.Pi / 180)
		return shortGrain(newShop(p, nil))
	}
	told1(t, leaning(21), Warning, "Leg A: its long way lies 21.0° off the grain, so the fibers run out of it", "turn its outline by 1.0° on the board", 21, "A")
	assert.Empty(t, leaning(20))
	assert.Empty(t, leaning(-19))
}

// TestRoundEnd: a half round on a tapered part shows the half taper as a
// shoulder, unless the arc is drawn to touch the sides.
func TestRoundEnd(t *testing.T) {
	end := func(deg, r float64) []Finding {
		p := yard(t, block{"Slat", v3(0, 0, 0), v3(400, 80, 20)})
		in := 300 * math.Tan(deg*math.Pi/180)
		o, err := geom.From(geom.Pt{Y: in}).LineTo(geom.Pt{X: 300}).ArcOver(geom.Pt{X: 340, Y: 40}, geom.Pt{X: 300, Y: 80}).LineTo(geom.Pt{Y: 80 - in}).Close()
		require.NoError(t, err)
		p.Parts[0].Board.Outline = o
		p.Parts[0].Ends[1] = model.EndCut{Shape: "half round", Radius: r}
		return roundEnd(newShop(p, nil))
	}
	told1(t, end(2.1, 40), Warning, "Slat A: a shoulder of 2.1° shows where the round of 40 mm meets the side",
		"move the round's center by 0.5 mm along the part to where it is wider, so that the side touches it", 2.1, "A")
	assert.Empty(t, end(2, 40))
	// Half the width is 40: 0.8 mm more is let be, and told where it is more.
	half := func(r float64) []Finding {
		p := yard(t, block{"Slat", v3(0, 0, 0), v3(400, 80, 20)})
		o, err := geom.From(geom.Pt{}).LineTo(geom.Pt{X: 300}).ArcTo(geom.Pt{X: 300, Y: 80}, r, geom.CCW, false).LineTo(geom.Pt{Y: 80}).Close()
		require.NoError(t, err)
		p.Parts[0].Board.Outline = o
		p.Parts[0].Ends[1] = model.EndCut{Shape: "half round", Radius: r}
		return roundEnd(newShop(p, nil))
	}
	list := half(41)
	require.Len(t, list, 2)
	assert.Contains(t, list[0].Text, "a shoulder of 12.7°", "acos(40/41)")
	assert.Equal(t, "Slat A: the half round has a radius of 41 mm, and half the width there is 40 mm", list[1].Text)
	assert.Equal(t, "make it 40 mm", list[1].Fix)
	assert.Len(t, half(40.9), 2)
	assert.Len(t, half(40.7), 1, "the shoulder alone")
}

func TestWideGlue(t *testing.T) {
	panel := func(wide float64, words string) []Finding {
		p := yard(t, block{"Left", v3(0, 0, 0), v3(400, wide/2, 20)}, block{"Right", v3(0, wide/2, 0), v3(400, wide/2, 20)})
		work(p, words, []int{0, 1}, glue(p, 0, 1))
		return wideGlue(newShop(p, nil))
	}
	told1(t, panel(153, "Spread exterior glue."), Warning, "Glue: a panel 153 mm wide glued edge to edge; outdoors it opens beyond 152.5 mm",
		"leave gaps between boards of 152.5 mm at most", 153, "A", "B")
	assert.Empty(t, panel(152, "Spread exterior glue."))
}

// TestWaterTrap: each kind of trap, and what keeps it quiet.
func TestWaterTrap(t *testing.T) {
	ponds := func(long float64, top bool) []Finding {
		p := yard(t, block{"Tray", v3(0, 0, 0), v3(200, 100, 30)})
		b := p.Parts[0].Board
		b.Recesses = []geom.Recess{{Outline: geom.Rect(long, 25.4).Move(geom.Pt{X: 50, Y: 30}), Top: top, Depth: 10}}
		s, err := b.Solid(0.1)
		require.NoError(t, err)
		p.Placed[0].Solid = s
		return waterTrap(newShop(p, nil))
	}
	told1(t, ponds(26, true), Warning, "Tray A: a hollow with a floor of 660 mm² looks up and has no drain", "drill a drain of 12.7 mm through it, or turn it over", 660.4, "A")
	assert.Empty(t, ponds(25, true))
	assert.Empty(t, ponds(26, false))

	// A post stands on its end: its grain goes up.
	post := func(deep float64, text string) []Finding {
		p := yard(t, block{"Post", v3(0, 0, 0), v3(300, 25.4, deep)})
		up := geom.Pose{Along: v3(0, 0, 1), Across: v3(1, 0, 0), Thick: v3(0, 1, 0)}
		s, err := p.Parts[0].Board.Solid(0.1)
		require.NoError(t, err)
		p.Placed[0].Pose, p.Placed[0].Solid = up, s.Transform(up)
		p.Finish.Text = []string{text}
		return waterTrap(newShop(p, nil))
	}
	told1(t, post(26, ""), Warning, "Post A: end grain of 660 mm² looks up to the rain", "say in end_grain of [finish] what it gets, or slope it by 21°", 660.4, "A")
	assert.Empty(t, post(25, ""))
	assert.Empty(t, post(26, "Soak the end grain twice."))

	lap := func(wide float64) []Finding {
		return waterTrap(newShop(yard(t, block{"Low", v3(0, 0, 0), v3(400, 100, 20)}, block{"High", v3(300, 0, 20), v3(wide, 100, 20)}), nil))
	}
	told1(t, lap(51), Warning, "Low A and High B: they lie flat on each other over 100 mm by 51 mm, where water stays", "say in the note of their joint that they are bedded in sealant, or set them 3 mm apart on washers", 51, "A", "B")
	assert.Empty(t, lap(50))

	pockets := func(dir geom.V3, plug bool) []Finding {
		p := yard(t, block{"Rung", v3(0, 0, 0), v3(300, 40, 20)}, block{"Leg", v3(-20, 0, 0), v3(20, 40, 40)})
		j := drive(p, &model.Hardware{Kind: model.PocketScrew, Diam: 4.5, Length: 32}, 0, 1, v3(20, 20, 10), dir, 20)
		j.Plug = plug
		return waterTrap(newShop(p, nil))
	}
	down := v3(-0.9659258, 0, -0.2588190)
	told1(t, pockets(down, false), Warning, "Rung A: Joint: the pockets open upward and fill with rain", "turn the mouths down with mouth, or plug them", 0, "A")
	assert.Empty(t, pockets(v3(down.X, 0, -down.Z), false))
	assert.Empty(t, pockets(down, true))
}

func TestLevelFlat(t *testing.T) {
	top := func(wide, fall float64, note string) []Finding {
		p := yard(t, block{"Arm", v3(0, 0, 0), v3(400, wide, 20)})
		sin, cos := math.Sincos(fall * math.Pi / 180)
		pose := geom.Pose{Along: v3(1, 0, 0), Across: v3(0, cos, sin), Thick: v3(0, -sin, cos)}
		s, err := p.Parts[0].Board.Solid(0.1)
		require.NoError(t, err)
		p.Placed[0].Solid, p.Parts[0].Note = s.Transform(pose), note
		return levelFlat(newShop(p, nil))
	}
	told1(t, top(77, 0, ""), Note, "Arm A: level and up to 77 mm wide; a board that cups holds water", `let a note say "Bark side up", or give it a fall of 2.5 mm over its width`, 77, "A")
	assert.Empty(t, top(75.8, 0, ""))
	assert.Len(t, top(77, 0.9, ""), 1)
	assert.Empty(t, top(77, 1, ""))
	assert.Empty(t, top(77, 0, "Bark side up."))
}

// TestFeet: a runner of 2 ft, air under its middle third, end grain on the ground.
func TestFeet(t *testing.T) {
	rail := func(long, hollow float64) []Finding {
		p := yard(t, block{"Runner", v3(0, 0, 0), v3(long, 40, 40)})
		if hollow > 0 {
			// On edge: the outline is seen from the side.
			b := &p.Parts[0].Board
			b.Outline = geom.Polygon(geom.Pt{}, geom.Pt{X: 100}, geom.Pt{X: 100, Y: hollow}, geom.Pt{X: long - 100, Y: hollow}, geom.Pt{X: long - 100}, geom.Pt{X: long}, geom.Pt{X: long, Y: 40}, geom.Pt{Y: 40})
			pose := geom.Pose{Along: v3(1, 0, 0), Across: v3(0, 0, 1), Thick: v3(0, -1, 0)}
			solid, err := b.Solid(0.1)
			require.NoError(t, err)
			p.Placed[0].Pose, p.Placed[0].Solid = pose, solid.Transform(pose)
		}
		return feet(newShop(p, nil))
	}
	told1(t, rail(611, 0), Warning, "Runner A: it lies on the ground over 611 mm with 0 mm of air under its middle; 12.5 mm lets it dry and keeps it from rocking", "hollow the middle third by 13 mm more", 0, "A")
	assert.Empty(t, rail(609, 0))
	told1(t, rail(800, 12), Warning, "Runner A: it lies on the ground over 800 mm with 12 mm of air under its middle; 12.5 mm lets it dry and keeps it from rocking", "hollow the middle third by 1 mm more", 12, "A")
	assert.Empty(t, rail(800, 13), "as the finding says")

	p := yard(t, block{"Leg", v3(0, 0, 0), v3(300, 40, 40)})
	up := geom.Pose{Along: v3(0, 0, 1), Across: v3(1, 0, 0), Thick: v3(0, 1, 0)}
	s, err := p.Parts[0].Board.Solid(0.1)
	require.NoError(t, err)
	p.Placed[0].Pose, p.Placed[0].Solid = up, s.Transform(up)
	bare := func(change func()) []Finding {
		change()
		return feet(newShop(p, nil))
	}
	told1(t, bare(func() { p.Care = []string{"Seal the end grain. Stand the feet on pads."} }), Warning, "Leg A: it stands on end grain, and no coat is named for that",
		"say in end_grain of [finish] what the feet get, or set them on pads of 6.5 mm", 0, "A")
	assert.Empty(t, bare(func() { p.Finish.EndGrain = "Soak it twice." }))
	p.Finish.EndGrain = ""
	work(p, "Soak the end grain.", nil)
	assert.NotEmpty(t, feet(newShop(p, nil)), "a step that puts nothing on")
	p.Steps[0].Finish = true
	assert.Empty(t, feet(newShop(p, nil)))
}

// TestNarrowFoot: a foot an inch wide, or with both its arrises eased.
func TestNarrowFoot(t *testing.T) {
	foot := func(wide float64, eased ...float64) []Finding {
		p := yard(t, block{"Runner", v3(0, 0, 0), v3(300, wide, 100)})
		p.Parts[0].Names = model.Names{Edges: [2]string{"front", "rear"}, Faces: [2]string{"bottom", "top"}}
		for i, size := range eased {
			p.Parts[0].Arrises = append(p.Parts[0].Arrises, model.Arris{Side: p.Parts[0].Names.Edges[i], Face: "bottom", Size: size})
		}
		p.Notes = []string{"Chamfer and ease every edge."}
		return feet(newShop(p, nil))
	}
	told1(t, foot(24.5), Warning, "Runner A: it stands on a flat of 24.5 mm with sharp arrises, which splinters", "chamfer both its arrises by 3 mm, or make it 25 mm wide", 24.5, "A")
	assert.Empty(t, foot(24.7))
	assert.Len(t, foot(20, 3.2), 1, "one arris")
	assert.Len(t, foot(20, 3, 3.2), 1)
	assert.Empty(t, foot(20, 3.2, 3.2))

	p := yard(t, block{"Leg", v3(0, 0, 0), v3(300, 80, 24.5)})
	p.Finish.EndGrain = "Soak it."
	up := geom.Pose{Along: v3(0, 0, 1), Across: v3(1, 0, 0), Thick: v3(0, 1, 0)}
	s, err := p.Parts[0].Board.Solid(0.1)
	require.NoError(t, err)
	p.Placed[0].Pose, p.Placed[0].Solid = up, s.Transform(up)
	list := feet(newShop(p, nil))
	require.Len(t, list, 1)
	assert.Equal(t, Warning, list[0].Severity, "end grain too: the author may have left easing it unsaid")
	p.Parts[0].Names = model.Names{Ends: [2]string{"foot", "head"}, Faces: [2]string{"near", "far"}}
	p.Parts[0].Arrises = []model.Arris{{Side: "foot", Face: "near", Size: 3.2}, {Side: "foot", Face: "far", Size: 3.2}}
	assert.Empty(t, feet(newShop(p, nil)))
}

// TestHanging: a foot 1/32 in short is let be, and so is one inside the others.
func TestHanging(t *testing.T) {
	table := func(x, y, short float64) []Finding {
		post := func(name string, x, y, short float64) block {
			return block{name, v3(x, y, short), v3(40, 40, 300-short)}
		}
		p := yard(t, post("One", 0, 0, 0), post("Two", 400, 0, 0), post("Three", 0, 400, 0), post("Four", x, y, short), block{"Top", v3(-10, -10, 300), v3(460, 460, 20)})
		return stands(newShop(p, nil))
	}
	told1(t, table(400, 400, 0.9), Error, "Four D: it hangs 1 mm above the floor beyond the feet that touch it, so the whole rocks", "lengthen it by 1 mm, or trim it by the floor", 0.9, "D")
	assert.Empty(t, table(400, 400, 0.7))
	assert.Len(t, table(400, 400, 3.1), 1)
	assert.Empty(t, table(400, 400, 3.3), "the underside of a board is not meant to touch")
	assert.Empty(t, table(100, 200, 2), "between the others nothing rocks on it")
}

// TestCutter: an inside curve of an inch.
func TestCutter(t *testing.T) {
	curve := func(r float64, do string) []Finding {
		p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, 100, 20)})
		o, err := geom.From(geom.Pt{}).LineTo(geom.Pt{X: 200 - r}).ArcTo(geom.Pt{X: 200 + r}, r, geom.CW, false).LineTo(geom.Pt{X: 400}).LineTo(geom.Pt{X: 400, Y: 100}).LineTo(geom.Pt{Y: 100}).Close()
		require.NoError(t, err)
		p.Parts[0].Board.Outline = o
		work(p, do, nil).Make = p.Parts
		return cutter(newShop(p, nil))
	}
	told1(t, curve(25, "Saw it and drill the bolt holes."), Warning, "Rail A: an inside curve of 25 mm is too tight for a saw blade", "make it 25.5 mm, or let the step that makes it drill it with a bit of 50 mm", 25, "A")
	assert.Empty(t, curve(25.2, "Saw it."))
	assert.Empty(t, curve(25, "Drill the curve with a bit of 50 mm, then saw."))

	groove := func(from, to float64, do string) []Finding {
		p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, 100, 20)})
		p.Parts[0].Grooves = []model.Groove{{Box: geom.Box{Min: geom.Pt{X: from, Y: 40}, Max: geom.Pt{X: to, Y: 60}}}}
		work(p, do, nil).Make = p.Parts
		return cutter(newShop(p, nil))
	}
	told1(t, groove(0, 399, ""), Note, "Rail A: a groove stops with square corners, where a cutter leaves round ones", "let the step that makes it square them with a chisel, or run the groove out at its ends", 0, "A")
	assert.Empty(t, groove(0, 400, ""))
	assert.Empty(t, groove(10, 399, "Rout the groove and square it with a chisel."))
}

func TestSpare(t *testing.T) {
	row := func(n, spares int, offcut, kerf float64) []Finding {
		p := yard(t, block{"Slat", v3(0, 0, 0), v3(400, 80, 20)})
		p.Kerf, p.Parts[0].Quantity, p.Parts[0].RoughLength = kerf, n, 420
		p.Parts[0].Stock.Spare = spares
		p.Stocks = []*model.Stock{{Key: "s", Name: "1 x 4"}}
		cuts := &cutting.Plan{Boards: []cutting.Board{{Stock: "s", Offcuts: []cutting.Offcut{{Length: offcut, Width: 90}}}}}
		return spare(newShop(p, cuts))
	}
	told1(t, row(5, 0, 399, 3), Warning, "Slat A: when one splits no offcut of 1 x 4 gives another", "write spare = 1 for 1 x 4; one takes 420 mm of it", 0, "A")
	assert.Empty(t, row(5, 0, 400, 3))
	assert.Empty(t, row(5, 1, 0, 3))
	assert.Empty(t, row(4, 0, 0, 3))
	list := row(4, 0, 0, 2)
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "the layouts reckon with a kerf of 2 mm; thin blades take 2.4 mm")
	assert.Empty(t, row(4, 0, 0, 2.4))
}

func TestJig(t *testing.T) {
	made := func(change func(p *model.Part)) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 120, 20)})
		change(p.Parts[0])
		return jig(newShop(p, nil))
	}
	told1(t, made(func(p *model.Part) { p.Width = 12 }), Error, "Leg A: a strip of 12 mm; under 12.5 mm the blade catches and throws it", "make it 12.5 mm wide", 12, "A")
	assert.Empty(t, made(func(p *model.Part) { p.Width = 12.6 }))
	tapered := func(long float64) []Finding {
		return made(func(p *model.Part) {
			p.Length = long
			p.Board.Outline = geom.Rect(long, 120)
			p.Tapers = []model.Taper{{Edge: 1, ToAlong: long}}
		})
	}
	told1(t, tapered(152), Warning, "Leg A: its taper jig has 152 mm of straight edge along the fence; 152.5 mm holds it steady", "taper it on a blank 0.5 mm longer and cut it off afterwards", 152, "A")
	assert.Empty(t, tapered(152.4))
	slanted := func(wide float64) []Finding {
		return made(func(p *model.Part) { p.Width, p.Ends[0].Miter = wide, 22.5*math.Pi/180 })
	}
	// Half way from 139.7 to 101.6 at 22.5 degrees: 120.65 mm.
	told1(t, slanted(121.5), Warning, "Leg A: an end at 22.5° across 121.5 mm; a miter saw cuts 120.5 mm there", "name another saw in the step that cuts it, or make it 1 mm narrower", 121.5, "A")
	assert.Empty(t, slanted(120.6))
	tilted := func(thick float64) []Finding {
		return made(func(p *model.Part) { p.Thick, p.Ends[1].Bevel = thick, 22.5*math.Pi/180 })
	}
	// Half way from 88.9 to 38.1: 63.5 mm; the width is no matter.
	told1(t, tilted(64), Warning, "Leg A: an end beveled by 22.5° through 64 mm; a miter saw cuts 63.5 mm there", "name another saw in the step that cuts it, or make it 0.5 mm thinner", 64, "A")
	assert.Empty(t, tilted(63.7))
}

// TestTips: a block falls over the edge of its base; closed forms by hand.
func TestTips(t *testing.T) {
	// Its centre 100 high and 5 from the edge: it falls at atan(5/100) = 2.86°.
	slim := func(wide float64) []Finding {
		return tips(newShop(yard(t, block{"Post", v3(-200, -wide/2, 0), v3(400, wide, 200)}), nil))
	}
	list := slim(10)
	require.Len(t, list, 2, "forward and rearward")
	assert.Equal(t, "empty, it falls forward on ground that slopes by 2.9°", list[0].Text)
	assert.InDelta(t, math.Atan2(5, 100)*180/math.Pi, list[0].Value, 1e-9)
	assert.Equal(t, "move the feet on that side out by 0.5 mm", list[0].Fix, "100·tan 3° - 5 = 0.24 mm")
	assert.Empty(t, slim(10.5))

	// A seat on one post: 600 N push down 60 mm behind its front edge, which is
	// over mm in front of the foot.
	seatOn := func(over float64) []Finding {
		p := yard(t, block{"Foot", v3(-200, 0, 0), v3(400, 400, 380)}, block{"Seat", v3(-200, -over, 380), v3(400, 400, 20)})
		p.Measures = []model.Measure{{Name: "seat_slope", Value: expr.Value{V: 0, Dim: expr.Dim{Angle: 1}}}}
		return tips(newShop(p, nil))
	}
	assert.Empty(t, seatOn(60), "pushed over its edge only 20 N tip it: 600·0 against 20·400")
	list = seatOn(250)
	require.NotEmpty(t, list)
	assert.Equal(t, Error, list[0].Severity)
	// The weight acts at the common centre; 600·(250-60) + 20·400 N·mm tip it.
	foot, top := 4e-7*400*400*380, 4e-7*400*400*20
	hold := 9.80665 * (foot*200 + top*(200-250))
	assert.InDelta(t, hold/(600*190+20*400), list[0].Value, 1e-6)
}
