package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// close6 is the 1e-6 mm (mm²) that exact outlines are held to.
const close6 = 1e-6

// slat is a back slat: straight foot, both edges widening to a half round top.
func slat(foot, top, long float64) Outline {
	r := top / 2
	o, err := From(Pt{0, -foot / 2}).LineTo(Pt{long - r, -r}).ArcOver(Pt{long, 0}, Pt{long - r, r}).LineTo(Pt{0, foot / 2}).Close()
	if err != nil {
		panic(err)
	}
	return o
}

// stadium is a rectangle of length l between two half rounds of radius r.
func stadium(l, r float64) Outline {
	o, err := From(Pt{0, -r}).LineTo(Pt{l, -r}).ArcTo(Pt{l, r}, r, CCW, false).LineTo(Pt{0, r}).ArcTo(Pt{0, -r}, r, CCW, false).Close()
	if err != nil {
		panic(err)
	}
	return o
}

// wobbly is a random outline of lines and arcs, star-shaped about the origin.
func wobbly(rng *rand.Rand) Outline {
	for {
		n := 5 + rng.IntN(7)
		at := func(i int) Pt {
			return Pt{60 + 40*rng.Float64(), 0}.Turn(2 * math.Pi * float64(i) / float64(n))
		}
		start := at(0)
		t := From(start)
		last := start
		for i := 1; i <= n; i++ {
			p := start
			if i < n {
				p = at(i)
			}
			chord := p.Sub(last)
			switch rng.IntN(3) {
			case 0:
				t.LineTo(p)
			default:
				h := chord.Left().Mul((rng.Float64() - 0.5) * 0.5)
				t.ArcOver(last.Add(chord.Mul(0.5)).Add(h), p)
			}
			last = p
		}
		if o, err := t.Close(); err == nil {
			return o
		}
	}
}

func TestSlatAreaLengthCentre(t *testing.T) {
	foot, top, long := 66.675, 82.55, 901.7
	o := slat(foot, top, long)
	r := top / 2
	h := long - r
	trapeze, half := (foot+top)/2*h, math.Pi*r*r/2
	assert.InDelta(t, trapeze+half, o.Area(), close6)
	assert.InDelta(t, foot+2*math.Hypot(h, (top-foot)/2)+math.Pi*r, o.Length(), close6)
	cx := (trapeze*h/3*(foot+2*top)/(foot+top) + half*(h+4*r/(3*math.Pi))) / (trapeze + half)
	assert.InDelta(t, cx, o.Centroid().X, close6)
	assert.InDelta(t, 0, o.Centroid().Y, close6)
	b := o.Box()
	assert.InDelta(t, long, b.Max.X, close6)
	assert.InDelta(t, top, b.H(), close6)
	assert.NoError(t, o.Valid())
}

// Segments of circles: radius, angle and arc from chord and sagitta, the
// closed forms and values of the reference sheet.
func TestArcFromChordAndSagitta(t *testing.T) {
	for _, c := range []struct{ chord, sag, r, deg, arc float64 }{
		{20, 1.5, 34.0833, 34.1231, 20.2987},
		{24, 2, 37.0000, 37.8493, 24.4420},
		{500, 30, 1056.667, 27.3711, 504.786},
	} {
		s := ArcThrough(Pt{0, 0}, Pt{c.chord / 2, c.sag}, Pt{c.chord, 0})
		assert.Equal(t, CW, s.Turn)
		assert.InDelta(t, c.r, s.R, 5e-4)
		assert.InDelta(t, c.deg, -s.Sweep()*180/math.Pi, 5e-4)
		assert.InDelta(t, c.arc, s.Length(), 5e-4)
		r := (c.chord*c.chord/4 + c.sag*c.sag) / (2 * c.sag)
		assert.InDelta(t, r, s.R, 1e-9)
		o := Outline{s, Line(Pt{c.chord, 0}, Pt{0, 0})}.Reverse()
		a := 2 * math.Asin(c.chord/2/r)
		assert.InDelta(t, r*r/2*(a-math.Sin(a)), o.Area(), close6)
		assert.InDelta(t, c.sag, o.Box().H(), 1e-9)
		assert.InDelta(t, 2*r*math.Asin(c.chord/2/r), s.Length(), 1e-9)
	}
}

func TestLargeArcIsTheRestOfTheCircle(t *testing.T) {
	o, err := From(Pt{10, 0}).ArcTo(Pt{0, 10}, 10, CCW, true).Close()
	require.NoError(t, err)
	// Three quarters of a circle and the triangle over its chord.
	assert.InDelta(t, 0.75*math.Pi*100+50, o.Area(), close6)
	b := o.Box()
	assert.InDelta(t, 20, b.W(), close6)
	assert.InDelta(t, 20, b.H(), close6)
}

func TestReverseNegatesAndMovesKeep(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		o := wobbly(rng)
		a := o.Area()
		require.Positive(t, a)
		r := o.Reverse()
		assert.InDelta(t, -a, r.Area(), close6)
		assert.Equal(t, o[0].A, r[0].A)
		assert.Equal(t, o, r.Reverse())
		d := Pt{rng.Float64() * 500, -rng.Float64() * 500}
		for _, m := range []Outline{o.Move(d), o.Turn(rng.Float64() * 7), o.MirrorX(), o.MirrorY()} {
			assert.InDelta(t, a, m.Area(), close6)
			assert.InDelta(t, o.Length(), m.Length(), close6)
			assert.NoError(t, m.Valid())
		}
		assert.InDelta(t, 0, o.Move(d).Centroid().Sub(o.Centroid()).Sub(d).Len(), close6)
		mx := o.MirrorX().Centroid()
		assert.InDelta(t, 0, mx.Sub(Pt{-o.Centroid().X, o.Centroid().Y}).Len(), close6)
	}
}

func TestFlattenKeepsToTheChord(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 30 {
		o := wobbly(rng)
		for _, chord := range []float64{1, 0.1, 0.01} {
			p := Polygon(o.Flatten(chord)...)
			for _, s := range p {
				assert.LessOrEqual(t, o.Distance(s.Mid()), chord+close6)
				assert.LessOrEqual(t, o.Distance(s.A), 2*Grid)
			}
			assert.InDelta(t, o.Area(), p.Area(), chord*o.Length())
		}
	}
}

func TestContainsAgreesWithAFineFlattening(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 20 {
		o := wobbly(rng)
		p := Polygon(o.Flatten(1e-3)...)
		for range 100 {
			q := Pt{rng.Float64()*240 - 120, rng.Float64()*240 - 120}
			if o.Distance(q) > 2e-3 {
				assert.Equal(t, p.Contains(q), o.Contains(q), "%v", q)
			}
		}
	}
	// The ray passes exactly through corners and the tops of arcs.
	s := stadium(100, 20)
	assert.True(t, s.Contains(Pt{50, 0}))
	assert.False(t, s.Contains(Pt{-30, 0}))
	assert.False(t, s.Contains(Pt{-30, 20}))
	assert.False(t, s.Contains(Pt{-30, -20}))
}

func TestAcrossGivesWidths(t *testing.T) {
	foot, top, long := 66.675, 82.55, 901.7
	o := slat(foot, top, long)
	r := top / 2
	for _, x := range []float64{0, 100, 500, long - r} {
		ys := o.Across(x)
		require.Len(t, ys, 2)
		assert.InDelta(t, foot+(top-foot)*x/(long-r), ys[1]-ys[0], close6)
	}
	ys := o.Across(long - r/2)
	require.Len(t, ys, 2)
	assert.InDelta(t, math.Sqrt(3)*r, ys[1]-ys[0], close6)
	assert.Equal(t, []float64{0, 30}, Rect(100, 30).Across(100))
	assert.Equal(t, []float64{0, 30}, Rect(100, 30).Across(0))
	assert.Empty(t, Rect(100, 30).Across(101))

	u := Polygon(Pt{0, 0}, Pt{100, 0}, Pt{100, 30}, Pt{60, 30}, Pt{60, 10}, Pt{40, 10}, Pt{40, 30}, Pt{0, 30})
	assert.Equal(t, []float64{0, 10}, u.Across(50))
	turned := u.Turn(math.Pi / 2)
	assert.Len(t, turned.Across(-20), 4)
}

func TestSegmentParts(t *testing.T) {
	s := ArcBy(Pt{10, 0}, Pt{0, 10}, Pt{}, CCW)
	a, b := s.Split(1. / 3)
	assert.InDelta(t, s.Length(), a.Length()+b.Length(), 1e-12)
	assert.InDelta(t, math.Pi/6, a.Sweep(), 1e-12)
	assert.Equal(t, a.B, b.A)
	assert.InDelta(t, 0, s.Tangent(0).Sub(Pt{0, 1}).Len(), 1e-12)
	assert.InDelta(t, 0, s.Reverse().Tangent(1).Sub(Pt{0, -1}).Len(), 1e-12)
	assert.InDelta(t, 0.25, s.Param(s.At(0.25).Mul(3)), 1e-12)
	assert.Equal(t, 1., s.Param(Pt{-1, 5}))
	assert.InDelta(t, 5, s.Distance(Pt{15, 0}), 1e-12)
	assert.Equal(t, Straight, ArcThrough(Pt{0, 0}, Pt{5, 0}, Pt{10, 0}).Turn)
	assert.Equal(t, 2, Rect(100, 30).Corner(Pt{98, 29}))
}
