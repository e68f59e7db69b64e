package check_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/geom"
)

const deg = math.Pi / 180

// TestWoodRules trips each rule about the parts just beyond its limit and keeps
// it quiet just inside.
func TestWoodRules(t *testing.T) {
	// White oak moves 0.00365 of its width for each of 8 %: 3.175 mm in 108.7.
	oak := []string{"section = [20, 100]", "section = [20, 250]", "western redcedar", "white oak", "count = 4", "count = 2"}
	eased := func(s string) []string { return []string{`width  = "slat_w"`, "width  = \"slat_w\"\n" + s} }
	cases := []struct {
		rule         string
		bad, good    sizes
		change, mend []string
		want         check.Finding
	}{
		{"stands", sizes{"lift": -0.9}, sizes{"lift": -0.7}, nil, nil, find(check.Error, "Rail A reaches 1 mm through the floor", "raise it by 1 mm, or trim it by the floor", "A")},
		{"stands", sizes{"lift": 0.9}, sizes{"lift": 0.7}, nil, nil, find(check.Error, "nothing touches the floor; Rail A comes nearest and is 1 mm above it", "lower it by 1 mm", "A")},
		{"overlap", sizes{"dig": 0.2}, sizes{"dig": 0.1}, nil, nil,
			find(check.Error, "Rail A and Cheek C fill the same space, 0.2 mm deep", "move one of them 0.5 mm, or cut it back by that", "A", "C")},
		{"touching", sizes{"slat_l": 307}, sizes{"slat_l": 307.6}, nil, nil, // 3.5 and 3.8 by 80
			find(check.Warning, "Slat to rail: Slat B and Rail A touch over only 280 mm²; 300 mm² is little", "let them meet over 20 mm² more", "A", "B")},
		{"short-board", sizes{"slat_l": 2377}, sizes{"slat_l": 2376}, nil, nil, // 2.4 m less two trims of 12
			find(check.Error, "Slat B: it needs 2377 mm, and the longest board gives 2376 mm between its end trims", "shorten it by 1 mm, or add a longer board", "B")},
		{"movement", sizes{"slat_w": 139.5}, sizes{"slat_w": 138}, oak, oak, // 30 less between the screws
			find(check.Warning, "Slat B: held across the grain over 109.5 mm, where it moves 3.2 mm in a year; 3.2 mm is the most",
				"bring the outer fasteners within 108.5 mm, or make slots for one of them", "B")},
		{"movement", sizes{"slat_w": 193.5, "slat_at": 0}, sizes{"slat_w": 193.5, "slat_at": 0, "inset": 45}, oak, oak, // 163.5 mm make 4.77
			find(check.Error, "Slat B: held across the grain over 163.5 mm, where it moves 5 mm in a year; 3 mm is the most",
				"bring the outer fasteners within 108.5 mm, or make slots for one of them", "B")},
		{"slat-gap", sizes{"gap": 7.7}, sizes{"gap": 7.8}, nil, nil, // 80 mm of cedar swell by 1.5
			find(check.Warning, "the gap between two pieces of Slat B closes to 6 mm when they are wet; 6.5 mm drains and dries", "widen the gap by 0.5 mm", "B")},
		{"arris", nil, nil, eased("arris.front.top = { round = 10.2 }"), eased("arris.front.top = { round = 10 }"),
			find(check.Warning, "Slat B: its front edge is eased by 10.2 mm, more than half of its thickness, 10 mm", "ease it by 10 mm at most", "B")},
		{"arris", nil, nil, eased("arris.front.top = { round = 8.5 }\narris.front.bottom = { round = 8.6 }"), eased("arris.front.top = { round = 8.4 }\narris.front.bottom = { round = 8.4 }"),
			find(check.Warning, "Slat B: both arrises of its front edge take 17 mm of 20 mm; nothing is left for the cutter's bearing", "ease each by 8.5 mm at most", "B")},
	}
	for _, c := range cases {
		t.Run(c.rule+" "+string(c.want.Severity), func(t *testing.T) {
			one(t, built(t, c.bad, c.change...), c.rule, c.want)
			quiet(t, built(t, c.good, c.mend...), c.rule)
		})
	}
}

// TestSlatsAlike moves one slat: the gaps on both sides of it then differ by
// twice as much, and 1/32 in is let be.
func TestSlatsAlike(t *testing.T) {
	shifted := func(by float64) *model.Plan {
		p := built(t, nil)
		for _, q := range p.Placed {
			if q.Part.Code == "B" && math.Abs(q.Center.Y-152) < 1 {
				q.Pose.Origin.Y += by
				q.Center.Y += by
				return p
			}
		}
		require.Fail(t, "no second slat")
		return nil
	}
	one(t, shifted(0.45), "slat-gap", find(check.Warning, "gaps differ: 12.5 mm between two pieces of Slat B, 11.5 mm between two pieces of Slat B", "move Slat B by 0.5 mm", "B"))
	quiet(t, shifted(0.4), "slat-gap")
}

// TestFan: an arm must clear the fan, and a fan's step must be twice its taper.
func TestFan(t *testing.T) {
	p := chair(t, sizes{"arm_gap": 3.9})
	one(t, p, "fan-clear", find(check.Warning, "Arm C passes Back slat D3 at 5⁄32″; wet slats want 11⁄64″", "move it away by 1⁄32″", "C", "D3"))
	// A slat that swells by 0.8 mm on this side, and is made 0.4 too wide, binds.
	assert.Equal(t, check.Error, only(t, chair(t, sizes{"arm_gap": 1.8}), "fan-clear").Severity)
	assert.Equal(t, check.Warning, only(t, chair(t, sizes{"arm_gap": 2.1}), "fan-clear").Severity)
	near := of(chair(t, sizes{"arm_gap": 4.4}), "fan-clear")
	require.Len(t, near, 1)
	assert.Equal(t, check.Note, near[0].Severity, "wet slats pass")

	// A spacer shown between the slats wants them parallel.
	const step, spacer = "fan_step   = \"2*half_taper", `shows = [{ as = "gap", from = "back_slat" }]`
	one(t, chair(t, nil, step, step+" + 0.11 deg", spacer, ""), "slat-gap", find(check.Warning, "the gap between Back slat D2, D3 runs from 3⁄8″ to 7⁄16″",
		"turn each by 0.11° more or less from the next; a fan's turn is twice the taper of one edge", "D1", "D2", "D3"))
	quiet(t, chair(t, nil, step, step+" + 0.09 deg", spacer, ""), "slat-gap")
}

// TestSeat holds the chair against what adults find comfortable, by its own sizes.
func TestSeat(t *testing.T) {
	one(t, chair(t, sizes{"recline": 32.2 * deg, "slope": 15 * deg}), "seat", find(check.Warning,
		"recline: 32.2°; most adults sit well from 18.0° to 32.0°: upright tires, flatter needs a headrest", "make it 0.2° less"))
	quiet(t, chair(t, sizes{"recline": 31.9 * deg, "slope": 15 * deg}), "seat")
	has := func(text string, sz sizes) {
		t.Helper()
		for _, f := range unlaid(chair(t, sz), "seat") {
			if strings.HasPrefix(f.Text, text) {
				return
			}
		}
		assert.Fail(t, "nothing says "+text, "%v", unlaid(chair(t, sz), "seat"))
	}
	lacks := func(text string, sz sizes) {
		t.Helper()
		for _, f := range unlaid(chair(t, sz), "seat") {
			assert.False(t, strings.HasPrefix(f.Text, text), f.Text)
		}
	}
	has("seat slope: 16.2°; most adults sit well from 8.0° to 16.0°", sizes{"slope": 16.2 * deg})
	lacks("seat slope", sizes{"slope": 15.9 * deg})
	has("angle between seat and back: 112.1°; most adults sit well from 98.0° to 112.0°", sizes{"slope": 8 * deg, "recline": 30.1 * deg})
	lacks("angle between seat and back", sizes{"slope": 8 * deg, "recline": 29.9 * deg})
	has("seat height: 17 3⁄32″; most adults sit well from 13″ to 17″", sizes{"seat_h": 411, "arm_h": 586})
	lacks("seat height", sizes{"seat_h": 405, "arm_h": 586})
	has("seat depth: 20 1⁄16″; most adults sit well from 16″ to 20″", sizes{"seat_d": 20.06 * 25.4})
	lacks("seat depth", sizes{"seat_d": 19.99 * 25.4})
	has("arm over the seat: 10 1⁄32″; most adults sit well from 7″ to 10″", sizes{"arm_h": 614.4})
	lacks("arm over the seat", sizes{"arm_h": 610})
	has("seat width: 19 7⁄8″; most adults sit well at 20″ and more", sizes{"seat_w": 20 * 25.4})
	lacks("seat width", sizes{"seat_w": 20.13 * 25.4})
	quiet(t, built(t, nil), "seat")
}

// TestSaw: blades tilt to 45 degrees, and a jig tapers up to 15.
func TestSaw(t *testing.T) {
	p := built(t, nil)
	p.Parts[0].Edges[1].Bevel = 45.2 * deg
	one(t, p, "saw", find(check.Error, "Rail A: a bevel of 45.2°; blades tilt to 45°", "take 0.2° off the angle at which it meets its neighbor", "A"))
	p.Parts[0].Edges[1].Bevel = 45 * deg
	p.Parts[0].Ends[0].Bevel = -45 * deg
	p.Parts[1].Tapers = []model.Taper{{Angle: 15 * deg}}
	quiet(t, p, "saw")
	// 20 mm in at 16 degrees take 69.7 mm, at 15 degrees 74.6.
	p.Parts[1].Tapers = []model.Taper{{Angle: 16 * deg, OffsetEdge: 20}}
	one(t, p, "saw", find(check.Warning, "Slat B: a taper of 16.0° against the grain; a jig runs true up to 15°", "start it 5 mm sooner", "B"))
}

// TestSmallPart: the plan set warns of short pieces by itself, unless the maker's
// own messages leave no room.
func TestSmallPart(t *testing.T) {
	p := built(t, nil)
	quiet(t, p, "small-part")
	for range 9 {
		p.Cautions = append(p.Cautions, model.Caution{Key: "own", Signal: model.Warn})
	}
	one(t, p, "small-part", find(check.Note, "Cheek C is 200 mm long, too short to be held by hand at a saw", "let a step shape it on a piece at least 305 mm long", "C"))
	p.Parts[2].Length = 304.8
	quiet(t, p, "small-part")
}

// TestBalance: what rests on one edge, or has its weight beside its feet, falls.
func TestBalance(t *testing.T) {
	p := built(t, nil)
	for _, q := range p.Placed {
		q.Center.Y += 210
	}
	list := of(p, "stands")
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Text, "outside its feet, so it falls over by itself")
	for _, q := range p.Placed {
		q.Center.Y -= 30
	}
	quiet(t, p, "stands")

	solid, err := geom.Board{Outline: geom.Rect(100, 30), Thick: 30}.Solid(0.1)
	require.NoError(t, err)
	edge := geom.Home()
	edge.Across, edge.Thick = edge.Across.Spin(edge.Along, 45*deg), edge.Thick.Spin(edge.Along, 45*deg)
	stick := &model.Placed{Part: &model.Part{Name: "Stick", Code: "A"}, Pose: edge, Solid: solid.Transform(edge)}
	one(t, &model.Plan{Unit: expr.MM, Placed: []*model.Placed{stick}}, "stands",
		find(check.Error, "fewer than three points apart touch the floor, so it rocks or falls", "let three feet or more meet the floor"))
}
