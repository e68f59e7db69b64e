package assembly_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

const (
	inch = 25.4
	deg  = math.Pi / 180
	chk  = 0.01 // mm: what the independent calculation must agree to
)

// solve solves one of the examples.
func solve(t testing.TB, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
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

func measureOf(t testing.TB, p *model.Plan, name string) float64 {
	t.Helper()
	v, found := 0.0, false
	for _, m := range p.Measures {
		if m.Name == name {
			v, found = m.Value.V, true
		}
	}
	require.True(t, found, name)
	return v
}

func partOf(t testing.TB, p *model.Plan, key string, rank int) *model.Part {
	t.Helper()
	for _, q := range p.Parts {
		if q.Key == key && q.Rank == rank {
			return q
		}
	}
	require.Fail(t, "no part "+key)
	return nil
}

func holeOf(t testing.TB, p *model.Part, name string) model.Hole {
	t.Helper()
	for _, h := range p.Holes {
		if h.Name == name {
			return h
		}
	}
	require.Fail(t, "no hole "+name)
	return model.Hole{}
}

// sizes of the brief, in mm and radians, for one variant.
type sizes struct {
	seatW, seatH, seatD, armH, slatTop, slatFoot, slatLong float64
	thick, wide, thin                                      float64 // of the stock
	gap                                                    float64
}

func standard() sizes {
	return sizes{21 * inch, 14.25 * inch, 18 * inch, 21.5 * inch, 3.25 * inch, 2.625 * inch, 35.5 * inch, inch, 5.5 * inch, 0.75 * inch, 0.375 * inch}
}

func tall() sizes {
	return sizes{23 * inch, 15.75 * inch, 19.25 * inch, 23 * inch, 3.5 * inch, 2.9375 * inch, 38 * inch, inch, 5.5 * inch, 0.75 * inch, 0.375 * inch}
}

func metric(s sizes) sizes {
	s.thick, s.wide, s.thin = 27, 145, 19
	s.slatTop, s.slatFoot, s.gap = 83, 67, 10 // that print whole
	return s
}

// wideSlats: the tall metric chair takes its slats as wide as the board.
func wideSlats(s sizes) sizes {
	s.slatTop, s.slatFoot = 90, 75
	return s
}

const (
	slope   = 14 * deg
	recline = 27 * deg
	ahead   = 0.75 * inch
	flat    = 3.5 * inch
	step    = 1.75 * inch
)

// TestPetrelByHand works the side view out again with plane trigonometry, from
// the brief alone, and compares.
func TestPetrelByHand(t *testing.T) {
	cases := map[string]struct {
		s   sizes
		opt assembly.Options
	}{
		"standard in": {standard(), assembly.Options{Unit: expr.Inch}},
		"tall in":     {tall(), assembly.Options{Unit: expr.Inch, Variant: "tall"}},
		"standard mm": {metric(standard()), assembly.Options{Unit: expr.MM}},
		"tall mm":     {wideSlats(metric(tall())), assembly.Options{Unit: expr.MM, Variant: "tall"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			p := solve(t, "petrel-chair/plan.toml", c.opt)
			stringerByHand(t, p, c.s)
			fanByHand(t, p, c.s)
			assert.InDelta(t, slope, measureOf(t, p, "seat_slope"), 1e-9)
			assert.InDelta(t, recline, measureOf(t, p, "recline"), 1e-9)
			assert.InDelta(t, recline, measureOf(t, p, "rail_bevel"), 1e-9, "a rail that leans bears flat with its lean as bevel")
			assert.InDelta(t, slope, measureOf(t, p, "seat_slope_as_printed"), 0.05*deg)
			assert.InDelta(t, recline, measureOf(t, p, "recline_as_printed"), 0.05*deg)
		})
	}
}

// stringerByHand: the stringer's top edge passes seat_h over the leg's front
// edge and falls at slope; y is measured to the rear, z up.
func stringerByHand(t *testing.T, p *model.Plan, s sizes) {
	sin, cos, tan := math.Sin(slope), math.Cos(slope), math.Tan(slope)
	frontY, frontZ := -ahead, s.seatH+ahead*tan
	along := func(y, z float64) float64 { return (y-frontY)*cos - (z-frontZ)*sin }
	across := func(y, z float64) float64 { return -(y-frontY)*sin - (z-frontZ)*cos }

	heelFront := (s.seatH - s.wide/cos) / tan // where the lower edge meets the floor
	heelRear := heelFront + flat
	part := partOf(t, p, "stringer", 0)
	assert.InDelta(t, math.Max(along(heelRear, 0), along(heelRear, s.seatH-heelRear*tan)), part.Length, chk, "length")
	for _, at := range [][2]float64{{heelFront, 0}, {heelRear, 0}, {heelRear, s.seatH - heelRear*tan}} {
		i := part.Board.Outline.Corner(ptOf(along(at[0], at[1]), across(at[0], at[1])))
		v := part.Board.Outline[i].A
		assert.InDelta(t, along(at[0], at[1]), v.X, chk, "heel corner")
		assert.InDelta(t, across(at[0], at[1]), v.Y, chk, "heel corner")
	}
	for name, at := range map[string][2]float64{"lower": {1.75 * inch, s.seatH - 4.65*inch}, "upper": {3.75 * inch, s.seatH - 2.15*inch}} {
		h := holeOf(t, part, name)
		assert.True(t, h.Matched)
		assert.InDelta(t, along(at[0], at[1]), h.Along, chk, name)
		assert.InDelta(t, across(at[0], at[1]), h.Across, chk, name)
	}
	assert.InDelta(t, slope, part.Ends[1].Then, 1e-9, "the plumb cut is off square by the slope")
	assert.InDelta(t, 90*deg-slope, part.Ends[1].Miter, 1e-9, "the floor cut is off square by the rest of the right angle")
}

// fanByHand: in the plane of the back every edge leans one taper more than the
// one before it, so the right edge of the outermost of six slats leans by six.
func fanByHand(t *testing.T, p *model.Plan, s sizes) {
	taper := math.Atan((s.slatTop - s.slatFoot) / 2 / (s.slatLong - s.slatTop/2))
	assert.InDelta(t, taper, measureOf(t, p, "half_taper"), 1e-12)
	edgeX, edgeY, lean := s.gap/2, 0.0, 0.0 // a point on the next left edge, its lean
	var half float64
	for k := range 3 {
		turn := lean + taper
		half = s.slatFoot/2 + float64(k)*step*math.Tan(taper) // later feet are trimmed higher up the taper
		// The left foot corner lies on the left edge; both feet stand at y = 0 in
		// the middle, so the corner is at half·sin(turn) above and the middle is
		// found from it.
		cornerY := half * math.Sin(turn)
		cornerX := edgeX + (cornerY-edgeY)*math.Tan(lean)
		mid := cornerX + half*math.Cos(turn)
		rightX, rightY := mid+half*math.Cos(turn), -half*math.Sin(turn)
		lean = turn + taper
		edgeX, edgeY = rightX+s.gap*math.Cos(lean), rightY-s.gap*math.Sin(lean)
		if k == 2 {
			armByHand(t, p, s, rightX, rightY, lean)
		}
	}
}

// armByHand: the arm passes the fan between its own underside and top. The
// widest point it meets is on the rear faces of the slats, at the arm's top.
func armByHand(t *testing.T, p *model.Plan, s sizes, edgeX, edgeY, lean float64) {
	originZ := s.seatH + ahead*math.Tan(slope) - s.seatD*math.Sin(slope) + s.thin*math.Cos(slope)
	up := (s.armH + s.thick - originZ + s.thin*math.Sin(recline)) / math.Cos(recline) // along the back
	fromFoot := up + 4.5*inch
	x := edgeX + (fromFoot-edgeY)*math.Tan(lean)
	assert.InDelta(t, x+0.25*inch, measureOf(t, p, "arm_inset"), chk, "arm inset")
}

// TestLeftIsRightMirrored: what stands left is the right piece seen in a mirror.
func TestLeftIsRightMirrored(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{Unit: expr.Inch})
	count := map[model.Hand]int{}
	for i, q := range p.Placed {
		count[q.Hand]++
		if q.Hand != model.RightHand {
			continue
		}
		left := p.Placed[i+1]
		require.Equal(t, model.LeftHand, left.Hand)
		assert.Equal(t, q.Pose.Mirror(), left.Pose)
		assert.True(t, left.Pose.Mirrored())
		assert.InDelta(t, q.Solid.Volume(), left.Solid.Volume(), 1e-6)
	}
	assert.Equal(t, count[model.LeftHand], count[model.RightHand])
	assert.Equal(t, 8, count[model.LeftHand]+count[model.RightHand])
}
