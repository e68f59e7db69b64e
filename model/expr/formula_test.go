package expr

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/source"
)

// chair is what the names of the tests stand for.
type chair struct{ problems *source.List }

func (c chair) Lookup(name string, at source.Span) (Value, bool) {
	v, ok := sizes[name]
	if !ok {
		c.problems.Errorf(at, "unknown-name", "there is no %q", name)
	}
	return v, ok
}

var sizes = map[string]Value{
	"seat_w":         Length(21 * 25.4),
	"seat_h":         Bare(14.25),
	"slope":          Radians(14*math.Pi/180, Level),
	"fall":           Radians(3*math.Pi/180, Level),
	"recline":        Radians(27*math.Pi/180, Plumb),
	"end.miter":      Radians(math.Pi/4, Square),
	"half_taper":     Radians(0.5*math.Pi/180, None),
	"slats":          Count(6),
	"thin.thick":     Length(19),
	"hole.lower_2.x": Length(100),
	"zero":           Count(0),
}

// work reads and works out text as if it stood in quotes in a file.
func work(text string, unit Unit) (Value, *source.List, bool) {
	file := &source.File{Name: "p.toml", Text: `x = "` + text + `"`}
	problems := &source.List{}
	f := Parse(text, source.Span{File: file, Start: 5, End: 5 + len(text)}, problems)
	if f == nil {
		return Value{}, problems, false
	}
	v, ok := f.Eval(unit, chair{problems}, problems)
	return v, problems, ok
}

func TestValues(t *testing.T) {
	const in = 25.4
	deg := math.Pi / 180
	for _, c := range []struct {
		text string
		want Value
	}{
		// Mixed numbers.
		{"2*35 1/2", Bare(71)},
		{"-35 1/2", Bare(-35.5)},
		{"- 35 1/2", Bare(-35.5)},
		{"35 1/2", Bare(35.5)},
		{"1/2", Bare(0.5)},
		{"-3/4", Bare(-0.75)},
		{"1 1/2 * 2", Bare(3)},
		{"2 1/2/2", Bare(1.25)},
		{"10 - 2 1/2", Bare(7.5)},
		{"3 1/4 - 1/4", Bare(3)},
		{"2 1/2^2", Bare(6.25)},
		{"12/3 1/2", Bare(12 / 3.5)},
		{"8/2/2", Bare(2)},
		{"3.25", Bare(3.25)},
		{".5", Bare(0.5)},
		{"1e3 + 2E-1", Bare(1000.2)},
		// Units.
		{"3 1/2 in", Length(3.5 * in)},
		{"3 1/2in", Length(3.5 * in)},
		{"1/2 in", Length(in / 2)},
		{"1/2in * 3", Length(1.5 * in)},
		{"5 ft + 3 1/2 in", Length(63.5 * in)},
		{"2 ft", Length(609.6)},
		{"902 mm", Length(902)},
		{"90.2cm", Length(902)},
		{"2.4 m", Length(2400)},
		{"14 deg", Radians(14*deg, None)},
		{"7 1/2 deg", Radians(7.5*deg, None)},
		{"3 in/2", Length(1.5 * in)},
		{"6/1/2 in", Value{V: 12 / in, Dim: Dim{Length: -1}}},
		// Loose numbers take the unit of the file next to a length.
		{"seat_w + 3", Length(24 * in)},
		{"3 - seat_w", Length(-18 * in)},
		{"seat_w * 2", Length(42 * in)},
		{"seat_w/2 - 1/4", Length(10.25 * in)},
		{"max(seat_w, 3, 22)", Length(22 * in)},
		{"min(3, 30, seat_w)", Length(3 * in)},
		{"max(1, 2, 3)", Bare(3)},
		{"seat_h + 3/4*tan(slope)", Bare(14.25 + 0.75*math.Tan(14*deg))},
		{"thin.thick + 3/4*tan(slope)", Length(19 + in*0.75*math.Tan(14*deg))},
		{"2*slats", Bare(12)},
		{"slats - 1", Count(5)},
		{"0 + slope", Radians(14*deg, Level)},
		{"max(0, recline)", Radians(27*deg, Plumb)},
		// Dimensions.
		{"seat_w / 3 in", Count(7)},
		{"seat_w*seat_w", Value{V: 21 * in * 21 * in, Dim: Dim{Length: 2}}},
		{"sqrt(seat_w*seat_w)", Length(21 * in)},
		{"seat_w^2/seat_w", Length(21 * in)},
		{"sqrt((3 in)^2 + (4 in)^2)", Length(5 * in)},
		{"2^-2", Bare(0.25)},
		{"2^2^3", Bare(256)},
		{"-2^2", Bare(-4)},
		{"slope/half_taper", Count(28)},
		{"hole.lower_2.x", Length(100)},
		{"+3", Bare(3)},
		{"--3", Bare(3)},
		// Functions.
		{"sin(30)", Count(0.5)},
		{"cos(60 deg)", Count(0.5)},
		{"tan(45)", Count(1)},
		{"atan(1)", Radians(math.Pi/4, None)},
		{"asin(1)", Radians(math.Pi/2, None)},
		{"acos(0.5)", Radians(math.Pi/3, None)},
		{"atan2(-1, -1)", Radians(-135*deg, None)},
		{"atan2(seat_w, 21)", Radians(math.Pi/4, None)},
		{"atan(seat_w/21 in)", Radians(math.Pi/4, None)},
		{"floor(7/2)", Bare(3)},
		{"ceil(7/2)", Bare(4)},
		{"floor(-1/2)", Bare(-1)},
		{"floor(seat_w/0.1 in)", Count(210)}, // 533.4/2.54 misses 210 by its last digits
		{"floor(0.7/0.1)", Bare(7)},          // 6.999999999999999 in float64
		{"round_to(10.3, 1/4)", Bare(10.25)},
		{"round_to(-10.125, 1/4)", Bare(-10.25)},
		{"round_to(seat_w/7, 1/8)", Length(3 * in)},
		{"round_to(33.4 mm, 1/8 in)", Length(11 * 3.175)},
		{"round_to(slope, 5 deg)", Radians(15*deg, Level)},
		{"abs(3 - seat_w)", Length(18 * in)},
		{"abs(-slope)", Radians(14*deg, Level)},
		// From where an angle is measured.
		{"slope + 5 deg", Radians(19*deg, Level)},
		{"5 deg + slope", Radians(19*deg, Level)},
		{"slope - half_taper", Radians(13.5*deg, Level)},
		{"slope - fall", Radians(11*deg, None)},
		{"slope + fall", Radians(17*deg, Level)},
		{"90 deg - recline", Radians(63*deg, None)},
		{"90 deg - recline - slope", Radians(49*deg, None)},
		{"-slope", Radians(-14*deg, Level)},
		{"2*recline", Radians(54*deg, Plumb)},
		{"recline*2/3", Radians(18*deg, Plumb)},
		{"min(slope, fall)", Radians(3*deg, Level)},
		{"end.miter + slope", Radians(59*deg, None)},
		{"end.miter/2", Radians(22.5*deg, Square)},
		{"slope^1", Radians(14*deg, Level)},
	} {
		got, problems, ok := work(c.text, Inch)
		if !assert.True(t, ok, "%s: %v", c.text, problems.All()) {
			continue
		}
		assert.Zero(t, problems.Len(), "%s: %v", c.text, problems.All())
		assert.InDelta(t, c.want.V, got.V, 1e-12*max(1, math.Abs(c.want.V)), c.text)
		got.V = c.want.V
		assert.Equal(t, c.want, got, c.text)
	}
}

func TestFileUnitIsOnlyForLooseNumbers(t *testing.T) {
	v, _, ok := work("seat_w + 3 + 1 in", MM)
	require.True(t, ok)
	assert.InDelta(t, 22*25.4+3, v.V, 1e-9)
}

func TestProblems(t *testing.T) {
	for _, c := range []struct{ text, at, under, says, with, fix string }{
		{"seat_w + slope", "1:6", "seat_w + slope", "cannot add seat_w = 21 in (a length) and slope = 14 deg (an angle from level)", "with seat_w = 21 in, slope = 14 deg", "take sin"},
		{"2*(seat_w - 3 deg)", "1:8", "(seat_w - 3 deg)", "cannot subtract seat_w = 21 in (a length) and 3 deg (an angle)", "with seat_w = 21 in", ""},
		{"seat_w + slats", "1:6", "seat_w + slats", "cannot add seat_w = 21 in (a length) and slats = 6 (a plain number)", "slats = 6", "multiply it"},
		{"slope + 5", "1:6", "slope + 5", "cannot add slope = 14 deg (an angle from level) and 5 (a number without a unit)", "slope = 14 deg", "write 5 deg"},
		{"recline + slope", "1:6", "recline + slope", "cannot add recline = 27 deg (from plumb) and slope = 14 deg (from level)", "", "write 90 deg - recline in the place of recline"},
		{"min(slope, recline)", "1:6", "min(slope, recline)", "cannot compare slope", "", "write 90 deg - recline in the place of recline"},
		{"1/0", "1:6", "1/0", "this divides by zero", "", ""},
		{"3/zero", "1:6", "3/zero", "this divides by zero: zero is 0", "with zero = 0", ""},
		{"0^-1", "1:6", "0^-1", "this divides by zero", "", ""},
		{"35 1/0", "1:9", "1/0", "divides by zero", "", ""},
		{"35 3/2", "1:6", "35 3/2", "is no mixed number", "", "write + between"},
		{"1e300*1e300", "1:6", "1e300*1e300", "is too large", "", ""},
		{"1e999", "1:6", "1e999", "too large", "", ""},
		{"1e308 m", "1:6", "1e308 m", "too large", "", ""},
		{"max(1e308, 1 mm)", "1:6", "max(1e308, 1 mm)", "too large", "", ""},
		{"(seat_w^8)*seat_w", "1:6", "(seat_w^8)*seat_w", "too many lengths", "", ""},
		{"seat_w^9", "1:6", "seat_w^9", "whole number up to 8", "", "sqrt"},
		{"2^0.5", "1:6", "2^0.5", "whole number up to 8", "", "sqrt"},
		{"sqrt(seat_w)", "1:6", "sqrt(seat_w)", "square root of a length", "with seat_w = 21 in", ""},
		{"sqrt(-1)", "1:6", "sqrt(-1)", "not below 0", "", ""},
		{"tan(90)", "1:6", "tan(90)", "tan has no value", "", ""},
		{"sin(seat_w)", "1:6", "sin(seat_w)", "sin takes an angle", "", "atan(rise / run)"},
		{"sin(slats)", "1:6", "sin(slats)", "sin takes an angle", "", ""},
		{"asin(2)", "1:6", "asin(2)", "from -1 to 1", "", ""},
		{"atan(seat_w)", "1:6", "atan(seat_w)", "takes a ratio", "", "divide two lengths"},
		{"atan2(0, 0)", "1:6", "atan2(0, 0)", "no value", "", ""},
		{"floor(seat_w)", "1:6", "floor(seat_w)", "floor counts whole numbers", "", "round_to"},
		{"round_to(3, 0)", "1:6", "round_to(3, 0)", "step above 0", "", ""},
		// The text itself.
		{"", "1:6", "", "missing", "", "3 1/2"},
		{"3 +", "1:9", "", "ends where a number", "", ""},
		{"(3", "1:6", "(", "not closed", "", ""},
		{"3)", "1:7", ")", "never opened", "", ""},
		{"3 4", "1:8", "4", "no operator", "", "mixed number"},
		{"3 seat_w", "1:8", "seat_w", "no operator", "", "write + - * or /"},
		{"2(3)", "1:7", "(", "no operator", "", "write * between"},
		{"5 ft 3 in", "1:11", "3 in", "no operator", "", "5 ft + 3 1/2 in"},
		{"3 inches", "1:8", "inches", "not a unit", "", "write in"},
		{"seat_w in", "1:13", "in", "does not follow a number", "", "1 in"},
		{"in", "1:6", "in", "does not follow a number", "", ""},
		{"35½", "1:8", "½", "no meaning", "", "35 1/2"},
		{"3″", "1:7", "″", "no meaning", "", "write in"},
		{"35\u00a01/2", "1:8", "\u00a0", "blank is not an ordinary", "", "space bar"},
		{"14°", "1:8", "°", "no meaning", "", "write deg"},
		{"3 − 2", "1:8", "−", "no meaning", "", "keyboard"},
		{"3,5", "1:7", ",", "comma", "", "3.5"},
		{"2**3", "1:7", "**", "not an operator", "", "^"},
		{"1.2.3", "1:6", "1.2.", "one decimal point", "", ""},
		{"leg.", "1:6", "leg.", "end in a dot", "", ""},
		{"flor(3)", "1:6", "flor", "no function", "", `"floor"`},
		{"seat_w(3)", "1:6", "seat_w", "no function", "", "write *"},
		{"sin", "1:6", "sin", "needs its values in brackets", "", "sin(angle)"},
		{"sin(1, 2)", "1:6", "sin(1, 2)", "does not take 2", "", ""},
		{"max()", "1:6", "max()", "does not take 0", "", ""},
		{"min(1, )", "1:13", ")", "stands where a number", "", ""},
		{"min(1", "1:9", "(", "not closed", "", ""},
		{"* 3", "1:6", "*", "stands where a number", "", ""},
		{"35-1/2", "1:6", "35-1/2", "is a subtraction", "", "35 1/2"},
		{strings.Repeat("(", 70), "", "", "nested more than 64", "", "names of their own"},
		{strings.Repeat("-", 70) + "1", "", "", "nested more than 64", "", ""},
		{strings.Repeat("2^", 70) + "1", "", "", "nested more than 64", "", ""},
		{strings.Repeat("1+", 500) + "1", "1:6", strings.Repeat("1+", 500) + "1", "longer than 1000", "", ""},
	} {
		_, problems, _ := work(c.text, Inch)
		if !assert.Len(t, problems.All(), 1, c.text) {
			continue
		}
		p := problems.All()[0]
		assert.Contains(t, p.Text, c.says, c.text)
		assert.Contains(t, p.Help, c.fix, c.text)
		if c.at != "" {
			assert.Equal(t, "p.toml:"+c.at, p.At.String(), c.text)
			assert.Equal(t, c.under, p.At.Text(), c.text)
		}
		if c.with != "" && assert.NotEmpty(t, p.Also, c.text) {
			assert.Contains(t, p.Also[0].Text, c.with, c.text)
		}
	}
}

func TestTightSubtractionIsStillOne(t *testing.T) {
	v, problems, ok := work("35-1/2", Inch)
	require.True(t, ok)
	assert.Equal(t, Bare(34.5), v)
	assert.False(t, problems.Failed())
	for _, fine := range []string{"35 - 1/2", "seat_h-1/2", "35-5/2", "35-1"} {
		_, problems, _ := work(fine, Inch)
		assert.Zero(t, problems.Len(), fine)
	}
}

func TestMissingNameIsToldOnceByTheScope(t *testing.T) {
	_, problems, ok := work("2*nobody + 3 deg", Inch)
	assert.False(t, ok)
	require.Len(t, problems.All(), 1)
	assert.Equal(t, "nobody", problems.All()[0].At.Text())
}

func TestNoScope(t *testing.T) {
	var problems source.List
	v, ok := Parse("35 1/2 in", source.Span{}, &problems).Eval(Inch, nil, &problems)
	assert.True(t, ok)
	assert.Equal(t, Length(901.7), v)
	_, ok = Parse("leg", source.Span{}, &problems).Eval(Inch, nil, &problems)
	assert.False(t, ok)
	assert.Equal(t, 1, problems.Len())
}

func TestNames(t *testing.T) {
	file := &source.File{Name: "p.toml", Text: "leg.hole.x + max(a_1, leg.hole.x)"}
	var problems source.List
	f := Parse(file.Text, source.Span{File: file, End: len(file.Text)}, &problems)
	require.NotNil(t, f)
	var got []string
	for _, r := range f.Names() {
		assert.Equal(t, r.Name, r.At.Text())
		got = append(got, r.Name)
	}
	assert.Equal(t, []string{"leg.hole.x", "a_1", "leg.hole.x"}, got)
}

func TestEscapedTextPointsAtTheWhole(t *testing.T) {
	file := &source.File{Name: "p.toml", Text: `x = "1\u002f0"`}
	at := source.Span{File: file, Start: 5, End: 13}
	var problems source.List
	_, ok := Parse("1/0", at, &problems).Eval(Inch, nil, &problems)
	require.False(t, ok)
	assert.Equal(t, at, problems.All()[0].At)
}

func TestNilFormula(t *testing.T) {
	var f *Formula
	_, ok := f.Eval(Inch, nil, nil)
	assert.False(t, ok)
	assert.Empty(t, f.Names())
}

func TestSimple(t *testing.T) {
	for text, want := range map[string]bool{
		"35 1/2": true, "-3/4": true, "14 deg": true, "1/2": true, "(3)": true,
		"1+2": false, "leg": false, "sin(3)": false, "2*3": false, "-leg": false, "--3": false,
	} {
		var problems source.List
		f := Parse(text, source.Span{}, &problems)
		require.NotNil(t, f, text)
		assert.Equal(t, want, f.Simple(), text)
	}
}

func TestConstant(t *testing.T) {
	var problems source.List
	v, ok := Constant(21, source.Span{}).Eval(Inch, nil, &problems)
	assert.True(t, ok)
	assert.Equal(t, Bare(21), v)
	assert.True(t, Constant(21, source.Span{}).Simple())
	assert.Nil(t, Constant(math.Inf(1), source.Span{}))
	assert.Nil(t, Constant(math.NaN(), source.Span{}))
}

func TestReserved(t *testing.T) {
	for _, name := range append(Functions(), "in", "ft", "mm", "cm", "m", "deg") {
		assert.True(t, Reserved(name), name)
	}
	assert.False(t, Reserved("seat_w"))
	assert.Len(t, Functions(), 14)
}

// FuzzParse demands a finite value or a problem, never a panic, in bounded time.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"2*35 1/2", "max(seat_w, 3, 22) - -slope^2", "1e308*seat_w*10", "((((", "5 ft + 3 1/2 in", "atan2(0,0)", "tan(90)",
		"round_to(1e300, 1e-300)", "0^-8", "sqrt(1e308*1e308)", "35 1/0", "1/2 in", "½", "\xff", "min(,)", "a.b.c", "1/1e-320",
		"floor(1e300)", "recline-slope", "-----1", "8 1/2/2^2", "round_to(seat_w, 1e-320)", "zero/zero", "1e-320 deg", "m m m",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		v, problems, ok := work(text, Inch)
		if ok && (math.IsInf(v.V, 0) || math.IsNaN(v.V)) {
			t.Errorf("%q is %v", text, v.V)
		}
		if ok == problems.Failed() {
			t.Errorf("%q: ok %v with %v", text, ok, problems.All())
		}
		for _, convert := range []func() float64{
			func() float64 { x, _ := v.AsLength(Inch); return x },
			func() float64 { x, _, _ := v.AsAngle(Inch); return x },
			func() float64 { x, _ := v.AsNumber(Inch); return x },
		} {
			if x := convert(); x-x != 0 {
				t.Errorf("%q converts to %v", text, x)
			}
		}
		_ = v.Text(Inch) + v.Text(MM)
		if took := time.Since(start); took > 5*time.Second {
			t.Errorf("%q took %v", text, took)
		}
	})
}

func BenchmarkEval(b *testing.B) {
	var problems source.List
	f := Parse("atan((seat_w - 2 5/8 in)/2 / (35 1/2 in - seat_w/2))", source.Span{}, &problems)
	b.ReportAllocs()
	for b.Loop() {
		f.Eval(Inch, chair{&problems}, &problems)
	}
}
