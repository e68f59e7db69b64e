package assembly_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
)

// hundredth of a degree, the agreement asked of saw settings.
const hundredth = 0.01 * math.Pi / 180

// tilts are the splays tried, besides the table's own 8 degrees.
var tilts = []float64{4, 8, 12, 15}

func splayed(t *testing.T, deg float64, unit expr.Unit) *model.Plan {
	t.Helper()
	_, p := clean(t, sideTable, assembly.Options{Unit: unit, Sizes: map[string]float64{"splay": deg * math.Pi / 180}})
	return p
}

// The aprons are a frame of four sides tilted t from plumb: REFERENCE section 8,
// miter = atan(tan a · sin t), bevel = asin(sin a · cos t), a = 180°/4.
func TestTableApronMiters(t *testing.T) {
	for _, deg := range tilts {
		tilt, a := deg*math.Pi/180, math.Pi/4
		miter, bevel := math.Atan(math.Tan(a)*math.Sin(tilt)), math.Asin(math.Sin(a)*math.Cos(tilt))
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			p := splayed(t, deg, unit)
			for _, key := range []string{"front_apron", "side_apron"} {
				mp := partNamed(t, p, key)
				for i, e := range mp.Ends {
					assert.InDelta(t, miter, e.Miter, hundredth, "%s %g° end %d", key, deg, i)
					assert.InDelta(t, bevel, e.Bevel, hundredth, "%s %g° end %d", key, deg, i)
					assert.Equal(t, "bottom", mp.Names.Edges[e.LongEdge])
					assert.Equal(t, "outside", mp.Names.Faces[e.LongFace])
				}
				assert.InDelta(t, tilt, mp.Edges[1].Bevel, hundredth, "the top edge is sawn level")
			}
		}
	}
}

// The published row for 15° (REFERENCE section 8): 14.511° and 43.080°.
func TestTableApronMitersPublished(t *testing.T) {
	e := partNamed(t, splayed(t, 15, expr.Inch), "front_apron").Ends[1]
	assert.InDelta(t, 14.511, e.Miter*180/math.Pi, 0.001)
	assert.InDelta(t, 43.080, e.Bevel*180/math.Pi, 0.001)
}

// A leg lies in the plane of the front apron and runs down the line where that
// plane meets the side apron's. With the planes' normals n = (0, −cos t, sin t)
// and m = (cos t, 0, sin t) the leg's axis is u = n × m, its width runs along
// v = n × u, and a level cut has the normal z. In the leg's own frame z is
// (z·u, z·v, z·n), so the bevel is asin(z·n) = t and the miter is
// atan(|z·v| / |z·u|), which comes to atan(sin t): the apron's miter again.
func TestTableLegEnds(t *testing.T) {
	for _, deg := range tilts {
		s, c := math.Sincos(deg * math.Pi / 180)
		n, m, z := geom.V3{Y: -c, Z: s}, geom.V3{X: c, Z: s}, geom.V3{Z: 1}
		u := n.Cross(m).Unit()
		v := n.Cross(u)
		miter, bevel := math.Atan(math.Abs(z.Dot(v)/z.Dot(u))), math.Asin(z.Dot(n))
		assert.InDelta(t, math.Atan(s), miter, 1e-12)
		p := splayed(t, deg, expr.MM)
		leg := partNamed(t, p, "leg")
		for i, e := range leg.Ends {
			assert.InDelta(t, miter, e.Miter, hundredth, "%g° end %d", deg, i)
			assert.InDelta(t, bevel, e.Bevel, hundredth, "%g° end %d", deg, i)
		}
		assert.Equal(t, [2]string{"inner", "outer"}, [2]string{leg.Names.Edges[leg.Ends[0].LongEdge], leg.Names.Edges[leg.Ends[1].LongEdge]})
		assert.Equal(t, [2]string{"inside", "outside"}, [2]string{leg.Names.Faces[leg.Ends[0].LongFace], leg.Names.Faces[leg.Ends[1].LongFace]})
		assert.InDelta(t, math.Asin(n.Dot(m)), leg.Edges[0].Bevel, hundredth, "the outer edge bears on the side apron")
		assert.Equal(t, "inside", leg.Names.Faces[leg.Edges[0].LongFace])
		assert.InDelta(t, measured(t, p, "leg_long"), leg.Length, 1e-6, "the floor cuts the foot where the formula says")
		standsLevel(t, p)
		noOverlap(t, p)
	}
}

// Seen square from the front and from the side, the outer arris of a leg leans
// by the splay: that is what splayed both ways means.
func TestTableLegsSplayBothWays(t *testing.T) {
	p := splayed(t, 8, expr.Inch)
	legs := 0
	for _, pl := range p.Placed {
		if pl.Part.Key != "leg" {
			continue
		}
		legs++
		a := pl.Pose.Along
		assert.InDelta(t, 8, math.Atan2(math.Abs(a.X), math.Abs(a.Z))*180/math.Pi, 1e-6)
		assert.InDelta(t, 8, math.Atan2(math.Abs(a.Y), math.Abs(a.Z))*180/math.Pi, 1e-6)
		assert.Positive(t, a.X*pl.Center.X, "it leans outward to the side")
		assert.Positive(t, a.Y*pl.Center.Y, "and to the front or rear")
	}
	assert.Equal(t, 4, legs)
}

// What must lie flat does: miters close, legs bear on both aprons and the top
// rests on legs and aprons.
func TestTableTouches(t *testing.T) {
	p := splayed(t, 8, expr.Inch)
	area := func(a, b string) (least float64, pairs int) {
		least = math.Inf(1)
		for _, x := range p.Placed {
			for _, y := range p.Placed {
				if x.Part.Key != a || y.Part.Key != b {
					continue
				}
				sum := 0.0
				for _, patch := range geom.Contact(x.Solid, y.Solid, 0.01) {
					sum += patch.Area
				}
				if sum > 1 {
					least, pairs = math.Min(least, sum), pairs+1
				}
			}
		}
		return least, pairs
	}
	// A miter face is the apron's width by its thickness over cos(bevel), nearly.
	least, pairs := area("front_apron", "side_apron")
	assert.Equal(t, 4, pairs)
	assert.InDelta(t, 4.5*25.4*25.4/math.Cos(44.445*math.Pi/180), least, 200)
	least, pairs = area("leg", "side_apron")
	assert.Equal(t, 4, pairs)
	assert.InDelta(t, 4.4*25.4*25.4, least, 150)
	// The leg's own width, but for the sliver the outer bevel takes off the
	// outside face, leaning over the apron's width, without the two bolt holes.
	least, pairs = area("leg", "front_apron")
	assert.Equal(t, 4, pairs)
	wide := measured(t, p, "leg_w") - 25.4*math.Tan(measured(t, p, "edge_bevel"))
	hole := math.Pi / 4 * math.Pow(partNamed(t, p, "front_apron").Holes[0].Diam, 2)
	assert.InDelta(t, wide/math.Cos(measured(t, p, "leg_splay"))*measured(t, p, "apron_w")-2*hole, least, 5)
	_, pairs = area("slat", "side_apron")
	assert.Equal(t, 6, pairs)
	_, pairs = area("edge_slat", "leg")
	assert.Equal(t, 4, pairs)
}
