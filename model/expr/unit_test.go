package expr

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/model/source"
)

func TestLengthsPrint(t *testing.T) {
	const in = 25.4
	for _, c := range []struct {
		unit Unit
		mm   float64
		f    Fineness
		want string
	}{
		{Inch, 35.5 * in, Coarse, "35 1⁄2″"},
		{Inch, 0, Coarse, "0″"},
		{Inch, 7 * in / 8, Coarse, "7⁄8″"},
		{Inch, 36 * in, Coarse, "36″"},
		{Inch, -0.875 * in, Coarse, "−7⁄8″"},
		{Inch, -in / 100, Coarse, "0″"},
		{Inch, 3 * in / 32, Coarse, "1⁄8″"}, // half a sixteenth goes up
		{Inch, -3 * in / 32, Coarse, "−1⁄8″"},
		{Inch, 3*in/32 - 1e-10, Coarse, "1⁄8″"},
		{Inch, 3*in/32 - 1e-6, Coarse, "1⁄16″"},
		{Inch, 3 * in / 32, Fine, "3⁄32″"},
		{Inch, 13 * in / 64, Drill, "13⁄64″"},
		{Inch, 35.99 * in, Coarse, "36″"},
		{MM, 902.4, Coarse, "902"},
		{MM, 902.5, Coarse, "903"},
		{MM, -902.5, Coarse, "−903"},
		{MM, 902.5 - 1e-10, Coarse, "903"},
		{MM, 2.4, Fine, "2.5"},
		{MM, 2.1, Fine, "2"},
		{MM, 6.35, Drill, "6.4"},
		{MM, -0.3, Coarse, "0"},
	} {
		assert.Equal(t, c.want, c.unit.Length(c.mm, c.f), "%v of %v", c.mm, c.unit)
	}
	assert.Equal(t, "35 1⁄2", Inch.Bare(901.7, Coarse))
	assert.Equal(t, "35 1⁄2″", Inch.Long(901.7))
	assert.Equal(t, "902 mm", MM.Long(901.7))
	assert.Equal(t, "6.4 mm", MM.LongTo(6.35, Drill))
	assert.NotPanics(t, func() { Inch.Length(math.Inf(1), Coarse); Inch.Length(math.NaN(), Fine); MM.Length(1e300, Drill) })
}

// TestRoundIsWhatPrints reads every printed length back and compares.
func TestRoundIsWhatPrints(t *testing.T) {
	for _, unit := range []Unit{Inch, MM} {
		for f := Coarse; f <= Drill; f++ {
			for i := -700; i < 700; i++ {
				mm := float64(i) * 0.731
				rounded := unit.Round(mm, f)
				assert.Equal(t, unit.Length(mm, f), unit.Length(rounded, f))
				assert.Equal(t, rounded, unit.Round(rounded, f), "rounding twice moves %v", mm)
				assert.LessOrEqual(t, math.Abs(rounded-mm), unit.mm(0.5)/unit.parts(f)+1e-8)
			}
		}
	}
}

func TestInchesMeetMillimetres(t *testing.T) {
	assert.Equal(t, 901.7, Inch.Round(901.7, Coarse))
	assert.Equal(t, 88.9, Inch.mm(3.5))
}

func TestChainAddsUp(t *testing.T) {
	for _, unit := range []Unit{Inch, MM} {
		for f := Coarse; f <= Drill; f++ {
			for n := 1; n < 40; n++ {
				pieces, total := make([]float64, n), 0.0
				for i := range pieces {
					pieces[i] = 17.3 + float64((i*i*7+n)%13)*3.377
					total += pieces[i]
				}
				sum := 0.0
				for i, piece := range unit.Chain(pieces, f) {
					sum += piece
					assert.InDelta(t, piece, unit.Round(piece, f), 1e-9, "a piece does not print as it is")
					assert.Less(t, math.Abs(piece-pieces[i]), unit.mm(1)/unit.parts(f), "a piece is off by a whole step")
				}
				assert.InDelta(t, unit.Round(total, f), sum, 1e-9)
			}
		}
	}
	assert.Empty(t, MM.Chain(nil, Coarse))
	assert.Equal(t, []float64{10, 11, 10}, MM.Chain([]float64{10.3, 10.3, 10.3}, Coarse))
}

func TestAngles(t *testing.T) {
	for _, c := range []struct {
		deg, step float64
		want      string
	}{
		{14, 0.5, "14°"}, {7.5, 0.5, "7.5°"}, {14.0362, 0.5, "14°"}, {14.0362, 0.1, "14°"}, {14.06, 0.1, "14.1°"},
		{7.25, 0.5, "7.5°"}, {-7.25, 0.5, "−7.5°"}, {-0.01, 0.5, "0°"}, {90, 1, "90°"}, {0.7, 0.1, "0.7°"}, {14.06, 0, "14.1°"},
	} {
		assert.Equal(t, c.want, Angle(c.deg*math.Pi/180, c.step), "%v by %v", c.deg, c.step)
	}
}

func TestBoardLengths(t *testing.T) {
	assert.Equal(t, "8 ft", Inch.BoardLength(2438.4))
	assert.Equal(t, "10 ft", Inch.BoardLength(10*304.8))
	assert.Equal(t, "92 5⁄8″", Inch.BoardLength(92.625*25.4))
	assert.Equal(t, "2.4 m", MM.BoardLength(2400))
	assert.Equal(t, "3 m", MM.BoardLength(3000))
	assert.Equal(t, "2.438 m", MM.BoardLength(2438.4))
}

func TestZeroOfName(t *testing.T) {
	for name, want := range map[string]Zero{
		"slope": Level, "seat_slope": Level, "seat.fall": Level, "recline": Plumb, "back_lean": Plumb, "plumb": Plumb,
		"leg_splay": Plumb, "end_miter": Square, "bevel": Square, "fan_step": None, "half_taper": None, "turn": None, "fan": None,
	} {
		got, ok := ZeroOfName(name)
		assert.True(t, ok, name)
		assert.Equal(t, want, got, name)
	}
	for _, name := range []string{"", "angle", "slope_a", "aslope", "back_angle"} {
		_, ok := ZeroOfName(name)
		assert.False(t, ok, name)
	}
}

func TestConversions(t *testing.T) {
	mm, bad := Bare(3.5).AsLength(Inch)
	assert.Nil(t, bad)
	assert.Equal(t, 88.9, mm)
	mm, bad = Bare(3.5).AsLength(MM)
	assert.Nil(t, bad)
	assert.Equal(t, 3.5, mm)
	rad, zero, bad := Radians(0.2, Plumb).AsAngle(Inch)
	assert.Nil(t, bad)
	assert.Equal(t, 0.2, rad)
	assert.Equal(t, Plumb, zero)
	_, _, bad = Bare(0).AsAngle(Inch)
	assert.Nil(t, bad)
	n, bad := Count(6).AsNumber(Inch)
	assert.Nil(t, bad)
	assert.Equal(t, 6.0, n)

	_, bad = Count(6).AsLength(Inch)
	assert.Equal(t, "this should be a length, but it is a plain number (6)", bad.Text)
	assert.Contains(t, bad.Fix, "6 * 1 in")
	_, bad = Radians(math.Pi/4, Level).AsLength(Inch)
	assert.Equal(t, "this should be a length, but it is an angle from level (45 deg)", bad.Text)
	_, bad = Value{V: 645.16, Dim: Dim{Length: 2}}.AsLength(Inch)
	assert.Equal(t, "this should be a length, but it is an area (1 in^2)", bad.Text)
	_, _, bad = Bare(14).AsAngle(Inch)
	assert.Equal(t, "this should be an angle, but it is a number without a unit (14)", bad.Text)
	assert.Contains(t, bad.Fix, "14 deg")
	_, bad = Length(88.9).AsNumber(Inch)
	assert.Equal(t, "this should be a plain number, but it is a length (3 1/2 in)", bad.Text)
}

func TestFrom(t *testing.T) {
	for _, c := range []struct{ was, to Zero }{{None, Level}, {None, Plumb}, {Level, Level}, {Level, Square}, {Square, Plumb}, {Level, None}} {
		v, bad := Radians(0.2, c.was).From(c.to, Inch)
		assert.Nil(t, bad)
		assert.Equal(t, Radians(0.2, c.to), v)
	}
	_, bad := Radians(math.Pi/4, Level).From(Plumb, Inch)
	assert.Equal(t, "this angle is measured from level, but it should be from plumb (45 deg)", bad.Text)
	_, bad = Radians(math.Pi/4, Plumb).From(Level, Inch)
	assert.NotNil(t, bad)
	_, bad = Bare(14).From(Plumb, Inch)
	assert.Contains(t, bad.Fix, "14 deg")
	v, bad := Bare(0).From(Plumb, Inch)
	assert.Nil(t, bad)
	assert.Equal(t, Radians(0, Plumb), v)
}

func TestMismatchReports(t *testing.T) {
	_, bad := Count(6).AsLength(MM)
	var problems source.List
	bad.Report(&problems, source.Span{})
	assert.Equal(t, "dimension", problems.All()[0].Rule)
	assert.Equal(t, bad.Fix, problems.All()[0].Help)
	assert.EqualError(t, bad, bad.Text)
}

func TestValuesAsTyped(t *testing.T) {
	for want, v := range map[string]Value{
		"3 1/2 in": Length(88.9), "-3 1/2 in": Length(-88.9), "0 in": Length(0), "0.3937 in": Length(10), "1/64 in": Length(25.4 / 64),
		"14 deg": Radians(14*math.Pi/180, Level), "14.036 deg": Radians(14.0362*math.Pi/180, None), "6": Count(6), "0.333333": Bare(1.0 / 3),
	} {
		assert.Equal(t, want, v.Text(Inch))
	}
	assert.Equal(t, "88.9 mm", Length(88.9).Text(MM))
}

func BenchmarkLength(b *testing.B) {
	for b.Loop() {
		Inch.Length(901.7, Coarse)
	}
}
