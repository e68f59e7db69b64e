package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// TestWorkOrder puts steps in the wrong order.
func TestWorkOrder(t *testing.T) {
	frame := func(do string) (*model.Plan, *model.Joint) {
		p := yard(t, block{"Low", v3(0, 0, 0), v3(400, 40, 20)}, block{"High", v3(0, 0, 20), v3(400, 40, 20)})
		j := drive(p, testBolt, 0, 1, v3(200, 20, 0), v3(0, 0, 1), 40)
		work(p, do, []int{0, 1}, j)
		return p, j
	}
	look := func(p *model.Plan) []Finding { return workOrder(newShop(p, nil)) }

	p, j := frame("")
	st := work(p, "", nil)
	st.Tighten = []*model.Joint{j}
	assert.Empty(t, look(p))
	p.Steps[0].Tighten, p.Steps[1].Tighten = []*model.Joint{j}, nil
	assert.Empty(t, look(p), "tightened where it is made")
	p.Steps[0].Fasten, p.Steps[1].Fasten = nil, p.Steps[0].Fasten
	told1(t, look(p), Warning, "Joint: step 1 tightens what step 2 puts in", "tighten it in a step after 2", 1, "A", "B")

	p, _ = frame("")
	work(p, "", nil).Finish = true
	told1(t, look(p), Warning, "the first coat goes on in step 2, after the last joint: faces that lie on each other stay bare",
		"coat the hidden faces before step 1, and say so in the finish", 2)
	p.Finish.Text = []string{"Coat the faces before they are joined."}
	assert.Empty(t, look(p))
	p.Finish.Text = nil
	p.Steps[0].Finish = true
	assert.Empty(t, look(p), "the step that joins them also coats them")

	p, _ = frame("")
	p.Steps[0].Finish = true
	p.Finish.Text = []string{"Coat what is hidden later."}
	st = work(p, "Glue it.", nil)
	st.Glue = []*model.Joint{glue(p, 0, 1)}
	told1(t, look(p), Warning, "Glue: step 2 glues wood that step 1 has coated; glue does not hold on finish",
		"say in step 1 which faces stay bare, or glue before it", 2, "A", "B")
	p.Steps[0].Do = "Keep the finish off what is glued."
	assert.Empty(t, look(p))
}

// TestDryTry: three glued places at once are tried dry.
func TestDryTry(t *testing.T) {
	ring := func(n int, do string) []Finding {
		list := []block{{"Floor", v3(0, 0, 0), v3(400, 400, 20)}}
		for i := range n {
			list = append(list, block{"Post", v3(float64(i)*50, 0, 20), v3(20, 20, 100)})
		}
		p := yard(t, list...)
		j := &model.Joint{Key: "g", Name: "Posts", Glue: true, Bond: true, First: p.Parts[:1], Second: p.Parts[1:]}
		p.Joints = []*model.Joint{j}
		st := work(p, do, nil, j)
		st.Glue = []*model.Joint{j}
		return workOrder(newShop(p, nil))
	}
	list := ring(3, "Spread glue.")
	require.Len(t, list, 1)
	assert.Equal(t, "Posts: step 1 glues 3 places at once and nothing was tried dry", list[0].Text)
	assert.Equal(t, "let step 1 put them together dry first", list[0].Fix)
	assert.Empty(t, ring(2, "Spread glue."))
	assert.Empty(t, ring(3, "Try it dry, then spread glue."))
}

// TestGrainLine: two screws into a rail, one behind the other along its grain,
// or set off across it by 3 diameters of 4.5.
func TestGrainLine(t *testing.T) {
	pair := func(along, across float64) []Finding {
		p := yard(t, block{"Rail", v3(0, 0, 0), v3(400, 80, 80)}, block{"Slat", v3(100, 0, 80), v3(200, 80, 20)})
		j := drive(p, testScrew, 1, 0, v3(200, 20, 100), v3(0, 0, -1), 20)
		second := j.Fasteners[0]
		second.Head = v3(200+along, 20+across, 100)
		j.Fasteners = append(j.Fasteners, second)
		return grainLine(newShop(p, nil))
	}
	list := pair(18.7, 0)
	require.Len(t, list, 2, "both pieces have their grain along x")
	assert.Equal(t, "Rail A: two screws sit 18.5 mm apart in one line of the grain; 19 mm keeps the wood whole", list[0].Text)
	assert.Equal(t, "move one 0.5 mm along the grain, or 13.5 mm across it", list[0].Fix)
	assert.Empty(t, pair(18.8, 0))
	assert.Len(t, pair(10, 13.1), 2)
	assert.Empty(t, pair(10, 13.3))
}

// TestBoltHole: 8 mm bolts in holes of some sizes, 100 mm apart.
func TestBoltHole(t *testing.T) {
	bored := func(diam float64) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)}, block{"Rail", v3(0, 0, 20), v3(400, 80, 20)})
		j := drive(p, testBolt, 0, 1, v3(100, 40, 0), v3(0, 0, 1), 40)
		p.Parts[0].Holes = []model.Hole{{Joint: j, Diam: diam, InPart: v3(100, 40, 0)}, {Joint: j, Diam: diam, InPart: v3(200, 40, 0)}}
		return boltHole(newShop(p, nil))
	}
	assert.Empty(t, bored(8.5))
	assert.Empty(t, bored(9.5875))
	told1(t, bored(8.4), Warning, "Joint: a hole of 8.4 mm for a bolt of 8 mm; it does not push in", "drill 9 mm", 0.4, "A")
	assert.Equal(t, Error, bored(7.9)[0].Severity)
	// 2·1.7/100 radians are 1.95 degrees.
	told1(t, bored(9.7), Warning, "Joint: a hole of 9.7 mm for a bolt of 8 mm: until the bolts bite, the joint turns by 1.9°", "drill 9.6 mm at most", 1.7, "A")
}

// TestScrewRows: heads over a center rail, and over two that mirror each other.
func TestScrewRows(t *testing.T) {
	heads := func(x2, y2 float64) []Finding {
		p := yard(t, block{"Rail", v3(-200, 0, 0), v3(400, 80, 40)}, block{"Slat", v3(-100, 0, 40), v3(200, 80, 20)}, block{"Next", v3(-100, 0, 60), v3(200, 80, 20)})
		j := drive(p, testScrew, 1, 0, v3(-50, 40, 60), v3(0, 0, -1), 20)
		second := j.Fasteners[0]
		second.Head, second.Pieces = v3(x2, y2, 60), [2]int{2, 0}
		j.Fasteners = append(j.Fasteners, second)
		return screwRows(newShop(p, nil))
	}
	assert.Empty(t, heads(50, 40))
	assert.Empty(t, heads(50.7, 40))
	list := heads(51, 40)
	require.Len(t, list, 1)
	assert.Equal(t, "Slat B and Next C: Joint: a screw's head and its mirror image differ by 1 mm", list[0].Text)
	assert.Equal(t, "move one of them by 1 mm", list[0].Fix)
	list = heads(50, 42)
	require.Len(t, list, 2)
	assert.Equal(t, "Slat B and Next C: Joint: heads in one row stand 2 mm out of line", list[1].Text)
	assert.Equal(t, "give both the same inset; 2 mm more for one", list[1].Fix)
}

// TestRounding: two holes laid out in both parts whose printed distances differ.
func TestRounding(t *testing.T) {
	holes := func(shift float64, matched bool) []Finding {
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)}, block{"Rail", v3(0, 0, 20), v3(400, 80, 20)})
		j := drive(p, testBolt, 0, 1, v3(100, 40, 0), v3(0, 0, 1), 40)
		at := func(x float64, m bool) []model.Hole {
			return []model.Hole{{Joint: j, Along: x, Across: 40, Matched: m}, {Joint: j, Along: x + 100.3, Across: 40, Matched: m}}
		}
		p.Parts[0].Holes, p.Parts[1].Holes = at(100, false), at(100+shift, matched)
		return rounding(newShop(p, nil))
	}
	assert.Empty(t, holes(0, false), "both print as 100 and 200")
	// 100.3 and 200.6 print as 100 and 201.
	told1(t, holes(0.3, false), Error, "Joint: laid out by the printed numbers, the holes of Leg A and Rail B miss each other by 1 mm",
		"put the holes on multiples of 0.5 mm, or drill one through the other", 1, "A", "B")
	assert.Empty(t, holes(0.3, true), "drilled through")

	row := func(wide float64) []Finding {
		var list []block
		for i := range 5 {
			list = append(list, block{"Slat", v3(0, float64(i)*(wide+10), 0), v3(400, wide, 20)})
		}
		return rounding(newShop(yard(t, list...), nil))
	}
	assert.Empty(t, row(80.16), "five times 0.16 are 0.8")
	list := row(80.17)
	require.Len(t, list, 1)
	assert.Equal(t, "made to the printed widths and gaps the row of Slat A runs 1 mm off", list[0].Text)
	assert.Equal(t, "make each width or gap 0.2 mm other, so that it prints whole", list[0].Fix)

	angles := func(deg float64) []Finding {
		const d = math.Pi / 180
		p := yard(t, block{"Leg", v3(0, 0, 0), v3(400, 80, 20)})
		p.Measures = []model.Measure{{Name: "recline", Value: expr.Value{V: 27 * d, Dim: expr.Dim{Angle: 1}}}}
		p.Critical = []model.Critical{{Name: "recline", Within: 1 * d}}
		p.Proof = &model.Proof{Recline: deg * d}
		return rounding(newShop(p, nil))
	}
	assert.Empty(t, angles(27.49))
	told1(t, angles(27.51), Error, "built from the printed numbers the back leans by 27.51°, not 27.00°", "move the bolt holes onto multiples of 0.5 mm", 0.51)
}

// TestRest: a seat 400 deep with a back square to it.
func TestRest(t *testing.T) {
	chair := func(deep, high, round float64) []Finding {
		p := yard(t, block{"Seat", v3(-250, 0, 380), v3(500, deep+20, 20)}, block{"Back", v3(-50, deep, 400), v3(high, 100, 20)})
		// The back board stands: its grain goes up and its face looks forward.
		up := geom.Pose{Origin: v3(50, deep, 400), Along: v3(0, 0, 1), Across: v3(-1, 0, 0), Thick: v3(0, 1, 0)}
		s, err := p.Parts[1].Board.Solid(0.1)
		require.NoError(t, err)
		p.Placed[1].Pose, p.Placed[1].Solid = up, s.Transform(up)
		p.Parts[0].Arrises = []model.Arris{{Side: "front", Size: round}}
		flat := expr.Value{Dim: expr.Dim{Angle: 1}}
		p.Measures = []model.Measure{{Name: "seat_slope", Value: flat}, {Name: "recline", Value: flat}}
		return rest(newShop(p, nil))
	}
	assert.Empty(t, chair(400, 610, 8), "with the round of 8 the seat is 408 deep")
	told1(t, chair(396, 610, 8), Warning, "the seat's depth to the back is 404 mm; adults want at least 405 mm", "change it by 1 mm", 404)
	told1(t, chair(503, 610, 8), Warning, "the seat's depth to the back is 511 mm; adults want at most 510 mm", "change it by 1 mm", 511)
	told1(t, chair(450, 609, 8), Warning, "the back's height over the seat is 609 mm; adults want at least 610 mm", "change it by 1 mm", 609)
	told1(t, chair(450, 610, 6), Warning, "the round of the seat's front edge is 6 mm; adults want at least 6 mm", "change it by 0.5 mm", 6, "A")
	assert.Empty(t, chair(450, 610, 6.35))
}

// TestScrewTwins: a slat of which only one end is screwed has no mates.
func TestScrewTwins(t *testing.T) {
	p := yard(t, block{"Rail", v3(-200, 0, 0), v3(400, 80, 40)}, block{"Slat", v3(-100, 0, 40), v3(200, 80, 20)})
	j := drive(p, testScrew, 1, 0, v3(-50, 40, 60), v3(0, 0, -1), 20)
	list := screwRows(newShop(p, nil))
	require.Len(t, list, 1)
	assert.Equal(t, "Slat B: Joint: a screw has no mate on the other side", list[0].Text)
	assert.Equal(t, "set one 50 mm from the center line there", list[0].Fix)
	j.Fasteners[0].Head = v3(0, 40, 60)
	assert.Empty(t, screwRows(newShop(p, nil)), "on the center line it is its own mate")
}

// TestEndGrain: a board screwed on by its end only, and one that a side screw
// holds as well.
func TestEndGrain(t *testing.T) {
	butt := func(lean float64) (*model.Plan, []Finding) {
		p := yard(t, block{"Plate", v3(0, 0, 0), v3(20, 100, 100)}, block{"Board", v3(20, 0, 0), v3(300, 100, 100)})
		sin, cos := math.Sincos(lean * math.Pi / 180)
		drive(p, testScrew, 0, 1, v3(0, 50, 50), v3(cos, sin, 0), 20)
		return p, endGrain(newShop(p, nil))
	}
	p, list := butt(45)
	told1(t, list, Warning, "Board B: Joint: nothing but screws in its end grain holds it; they pull out",
		"hold it with 2 pocket screws across the grain, or set a cleat of 25.5 mm into the corner", 45, "B")
	_, list = butt(46)
	assert.Empty(t, list)
	drive(p, &model.Hardware{Kind: model.WoodScrew, Size: "5", Diam: 5, Length: 40}, 1, 0, v3(30, 50, 0), v3(-0.8, 0, 0.6), 15)
	assert.Empty(t, endGrain(newShop(p, nil)), "something else holds it too")
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
	told1(t, curve(25, "Saw it."), Warning, "Rail A: an inside curve of 25 mm is too tight for a saw blade", "make it 25.5 mm, or let a step drill it with a bit of 50 mm", 25, "A")
	assert.Empty(t, curve(25.2, "Saw it."))
	assert.Empty(t, curve(25, "Drill the curve, then saw."))
}

// TestNarrowFoot: a foot an inch wide, or with its arrises eased.
func TestNarrowFoot(t *testing.T) {
	foot := func(wide float64) *model.Plan {
		return yard(t, block{"Runner", v3(0, 0, 0), v3(300, wide, 100)})
	}
	told1(t, feet(newShop(foot(24.5), nil)), Warning, "Runner A: it stands on a flat of 24.5 mm and no text eases its arrises", "make it 25.5 mm, or chamfer it by 3 mm", 24.5, "A")
	assert.Empty(t, feet(newShop(foot(24.7), nil)))
	p := foot(20)
	p.Notes = []string{"Chamfer the runners."}
	assert.Empty(t, feet(newShop(p, nil)))
}
