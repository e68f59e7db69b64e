package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func areas(os []Outline) float64 {
	sum := 0.
	for _, o := range os {
		sum += o.Area()
	}
	return sum
}

// roundRect is a rectangle with quarter round corners of radius r.
func roundRect(t *testing.T, w, h, r float64) Outline {
	o := Rect(w, h)
	for i := range 4 {
		var err error
		o, err = o.RoundCorner(2*i, r)
		require.NoError(t, err)
	}
	return o
}

func TestRoundedRectangle(t *testing.T) {
	w, h, r := 120., 47., 11.3
	o := roundRect(t, w, h, r)
	require.NoError(t, o.Valid())
	assert.Len(t, o, 8)
	assert.InDelta(t, w*h-(4-math.Pi)*r*r, o.Area(), close6)
	assert.InDelta(t, 2*(w+h)-8*r+2*math.Pi*r, o.Length(), close6)
}

func TestOffsetsOfKnownShapes(t *testing.T) {
	w, h, r := 120., 47., 11.3
	o := roundRect(t, w, h, r)
	for _, d := range []float64{7, 0.01, -3, -11, -11.3, -15} {
		p, err := o.Offset(d)
		require.NoError(t, err)
		require.NoError(t, p.Valid())
		q := max(0, r+d)
		assert.InDelta(t, (w+2*d)*(h+2*d)-(4-math.Pi)*q*q, p.Area(), close6, "d %g", d)
	}
	s, err := stadium(100, 20).Offset(-5)
	require.NoError(t, err)
	assert.InDelta(t, 100*30+math.Pi*225, s.Area(), close6)
	_, err = stadium(100, 20).Offset(-20.5)
	assert.ErrorContains(t, err, "nothing is left")

	// A square grows round corners, and Steiner's formula holds for any convex
	// shape: area + length d + pi d².
	for _, o := range []Outline{Rect(30, 30), slat(66, 82, 900), stadium(100, 20)} {
		p, err := o.Offset(6)
		require.NoError(t, err)
		assert.InDelta(t, o.Area()+o.Length()*6+math.Pi*36, p.Area(), close6)
		assert.InDelta(t, o.Length()+2*math.Pi*6, p.Length(), close6)
		back, err := p.Offset(-6)
		require.NoError(t, err)
		assert.InDelta(t, o.Area(), back.Area(), close6)
	}
}

func TestOffsetOfADumbbellFallsApart(t *testing.T) {
	o := Polygon(Pt{0, 0}, Pt{40, 0}, Pt{40, 15}, Pt{60, 15}, Pt{60, 0}, Pt{100, 0}, Pt{100, 40}, Pt{60, 40}, Pt{60, 25}, Pt{40, 25}, Pt{40, 40}, Pt{0, 40})
	_, err := o.Offset(-6)
	assert.ErrorContains(t, err, "2 pieces")
	p, err := o.Offset(-4)
	require.NoError(t, err)
	// Two squares of 32, a neck 2 wide and 28 long, and in the four inward
	// corners what a circle of 4 leaves of its square.
	assert.InDelta(t, 2*32*32+2*28+4*(16-math.Pi*4), p.Area(), close6)
	for _, s := range p {
		assert.InDelta(t, 4, o.Distance(s.Mid()), close6)
	}
}

func TestOffsetKeepsItsDistance(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 60 {
		o := wobbly(rng)
		for _, d := range []float64{3, -3, 11} {
			p, err := o.Offset(d)
			require.NoError(t, err, "%v by %g", o, d)
			require.NoError(t, p.Valid())
			for _, s := range p {
				for _, k := range []float64{0, 0.3, 0.5, 0.9} {
					assert.InDelta(t, math.Abs(d), o.Distance(s.At(k)), 2e-5)
				}
			}
			assert.Equal(t, d > 0, p.Area() > o.Area())
		}
	}
}

func TestClipLineSharesOutTheArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 300 {
		o := wobbly(rng)
		p := Pt{rng.Float64()*160 - 80, rng.Float64()*160 - 80}
		n := Pt{1, 0}.Turn(rng.Float64() * 7)
		keep, away := o.ClipLine(p, n), o.ClipLine(p, n.Mul(-1))
		require.InDelta(t, o.Area(), areas(keep)+areas(away), 1e-5)
		for _, k := range keep {
			require.NoError(t, k.Valid())
			for _, s := range k {
				require.LessOrEqual(t, s.Mid().Sub(p).Dot(n), 1e-5)
			}
		}
	}
}

func TestClipThroughCornersAndAlongSides(t *testing.T) {
	r := Rect(100, 30)
	for _, c := range []struct {
		p, n  Pt
		area  float64
		sides int
	}{
		{Pt{0, 0}, Pt{0, -1}, 3000, 4},
		{Pt{0, 0}, Pt{0, 1}, 0, 0},
		{Pt{0, 30}, Pt{0, 1}, 3000, 4},
		{Pt{0, 0}, Pt{-30, 100}, 1500, 3},
		{Pt{40, 0}, Pt{1, 0}, 1200, 4},
		{Pt{200, 0}, Pt{1, 0}, 3000, 4},
	} {
		got := r.ClipLine(c.p, c.n)
		assert.InDelta(t, c.area, areas(got), close6)
		if c.sides > 0 {
			require.Len(t, got, 1)
			assert.Len(t, got[0], c.sides)
		}
	}
	// Half a stadium keeps its arc whole and exact.
	s := stadium(100, 20).ClipLine(Pt{0, 0}, Pt{1, 0})
	require.Len(t, s, 1)
	assert.InDelta(t, math.Pi*200, s[0].Area(), close6)
	assert.Len(t, s[0], 2)
	// A fork falls into its two prongs.
	u := Polygon(Pt{0, 0}, Pt{100, 0}, Pt{100, 30}, Pt{60, 30}, Pt{60, 10}, Pt{40, 10}, Pt{40, 30}, Pt{0, 30})
	prongs := u.ClipLine(Pt{0, 20}, Pt{0, -1})
	require.Len(t, prongs, 2)
	assert.InDelta(t, 800, areas(prongs), close6)
	assert.Len(t, u.ClipLine(Pt{0, 10}, Pt{0, -1}), 2)
	assert.Len(t, u.ClipLine(Pt{0, 10}, Pt{0, 1}), 1)
}

func TestNotches(t *testing.T) {
	r := Rect(100, 30)
	notch := func(x0, y0, x1, y1 float64) Outline { return Rect(x1-x0, y1-y0).Move(Pt{x0, y0}) }
	for _, c := range []struct {
		name   string
		tool   Outline
		area   float64
		pieces int
	}{
		{"at an edge, flush", notch(40, 20, 60, 30), 2800, 1},
		{"at an edge, past it", notch(40, 20, 60, 50), 2800, 1},
		{"at a corner", notch(90, 20, 100, 30), 2900, 1},
		{"right across", notch(40, -5, 60, 50), 2400, 2},
		{"right across, flush", notch(40, 0, 60, 30), 2400, 2},
		{"a window", notch(40, 10, 60, 20), 2800, 2},
		{"beside", notch(100, 0, 120, 30), 3000, 1},
		{"all", notch(-1, -1, 120, 31), 0, 0},
		{"half round", Circle(Pt{50, 30}, 10), 3000 - math.Pi*50, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := r.Minus(c.tool)
			assert.Len(t, got, c.pieces)
			assert.InDelta(t, c.area, areas(got), close6)
			assert.InDelta(t, 3000, areas(got)+areas(r.And(c.tool)), close6)
		})
	}
}

func TestMinusAndAndShareOutTheArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		a := wobbly(rng)
		b := wobbly(rng).Move(Pt{rng.Float64()*200 - 100, rng.Float64()*200 - 100})
		both := areas(a.And(b))
		require.InDelta(t, a.Area(), both+areas(a.Minus(b)), 1e-5)
		require.InDelta(t, b.Area(), both+areas(b.Minus(a)), 1e-5)
		require.InDelta(t, both, areas(b.And(a)), 1e-5)
		require.InDelta(t, a.Area(), areas(a.And(a)), 1e-5)
		require.Empty(t, a.Minus(a))
	}
}

func TestRoundCornerBetweenLineAndArc(t *testing.T) {
	// Half disc: the fillet of radius r in its corner touches the straight side
	// and, from within, the arc; its centre is R-r from the disc's centre.
	R, r := 50., 8.
	o, err := From(Pt{-R, 0}).LineTo(Pt{R, 0}).ArcTo(Pt{-R, 0}, R, CCW, false).Close()
	require.NoError(t, err)
	p, err := o.RoundCorner(1, r)
	require.NoError(t, err)
	require.NoError(t, p.Valid())
	require.Len(t, p, 3)
	f := p[1]
	assert.InDelta(t, r, f.R, 1e-9)
	assert.InDelta(t, r, f.C.Y, close6)
	assert.InDelta(t, R-r, f.C.Len(), close6)
	for i := range 2 {
		assert.InDelta(t, 0, p[i].Tangent(1).Sub(p[i+1].Tangent(0)).Len(), 1e-6)
	}
	_, err = o.RoundCorner(1, 30)
	assert.ErrorContains(t, err, "too short")

	// An inward corner is filled, not cut.
	l := Polygon(Pt{0, 0}, Pt{60, 0}, Pt{60, 20}, Pt{20, 20}, Pt{20, 60}, Pt{0, 60})
	q, err := l.RoundCorner(3, 10)
	require.NoError(t, err)
	assert.InDelta(t, l.Area()+(1-math.Pi/4)*100, q.Area(), close6)
	_, err = l.RoundCorner(3, 41)
	assert.Error(t, err)
	_, err = l.RoundCorner(9, 1)
	assert.ErrorContains(t, err, "no corner 9")
}

func TestRoundAndClipEveryCornerOfRandomShapes(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	done := 0
	for range 60 {
		o := wobbly(rng)
		for i := range o {
			if p, err := o.RoundCorner(i, 2); err == nil {
				done++
				require.NoError(t, p.Valid())
				require.Less(t, math.Abs(p.Area()-o.Area()), 20.)
				prev := p[(i+len(p)-1)%len(p)]
				require.InDelta(t, 0, prev.Tangent(1).Sub(p[i].Tangent(0)).Len(), 1e-5)
			}
			p, err := o.ClipCorner(i, 3, 2)
			require.NoError(t, err)
			require.InDelta(t, 0, p.Area()-o.Area(), 4)
		}
	}
	assert.Greater(t, done, 300)
}

func TestClipCorner(t *testing.T) {
	o, err := Rect(100, 30).ClipCorner(2, 10, 25)
	require.NoError(t, err)
	assert.InDelta(t, 3000-125, o.Area(), close6)
	require.Len(t, o, 5)
	assert.InDelta(t, 0, o[2].A.Sub(Pt{100, 20}).Len(), close6)
	assert.InDelta(t, 0, o[2].B.Sub(Pt{75, 30}).Len(), close6)
	_, err = Rect(100, 30).ClipCorner(2, 31, 25)
	assert.ErrorContains(t, err, "30.000 long")
	whole, err := Rect(100, 30).ClipCorner(0, 30, 10)
	require.NoError(t, err)
	assert.Len(t, whole, 4)
	assert.NoError(t, whole.Valid())
}
