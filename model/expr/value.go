// Package expr reads the numbers and formulas of a plan, works them out with
// their dimensions, and says how lengths and angles print.
//
// Inside, lengths are millimetres and angles radians, as float64. The package
// does not know where a name gets its value from (that is a Scope) nor which
// key wants a length (that is who calls AsLength).
//
// # Numbers
//
// "35 1/2" is one number and binds tighter than any operator: 2*35 1/2 is 71
// and -35 1/2 is -35.5. Only a whole number, blanks and a proper fraction
// written without blanks make one, so 2 1/2/2 is two and a half divided by two.
// A suffix in, ft, mm, cm, m or deg belongs to the number before it, and makes a
// lone fraction one number too: 1/2 in is half an inch.
//
// # Loose numbers
//
// A number without a suffix is loose: nobody said yet whether it counts or
// measures. Loose numbers stay loose among themselves. Added to or compared
// with a length, or asked for as one, a loose number is a length in the file's
// unit; multiplied it scales and, with a plain number, stays loose. Given to
// sin, cos or tan it is in degrees. It never becomes an angle otherwise, unless
// it is 0.
package expr

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Dim says how many lengths and angles were multiplied into a value.
type Dim struct{ Length, Angle int8 }

// The dimensions that have names.
var (
	plain  = Dim{}
	length = Dim{Length: 1}
	angle  = Dim{Angle: 1}
)

// maxPower is the highest power of a length or angle that may come up on the
// way; wood has no use for more, and the sums stay inside int8.
const maxPower = 8

func (d Dim) fits() bool {
	return max(d.Length, -d.Length) <= maxPower && max(d.Angle, -d.Angle) <= maxPower
}

func (d Dim) plus(e Dim) Dim  { return Dim{d.Length + e.Length, d.Angle + e.Angle} }
func (d Dim) minus(e Dim) Dim { return Dim{d.Length - e.Length, d.Angle - e.Angle} }

// String returns what a value of this dimension is called, with its article.
func (d Dim) String() string {
	switch d {
	case plain:
		return "a plain number"
	case length:
		return "a length"
	case angle:
		return "an angle"
	case Dim{Length: 2}:
		return "an area"
	case Dim{Length: 3}:
		return "a volume"
	}
	var parts []string
	for _, p := range []struct {
		word  string
		power int8
	}{{"length", d.Length}, {"angle", d.Angle}} {
		switch p.power {
		case 0:
		case 1:
			parts = append(parts, p.word)
		default:
			parts = append(parts, fmt.Sprintf("%s^%d", p.word, p.power))
		}
	}
	return "a " + strings.Join(parts, " times ")
}

// Zero says from where an angle is measured.
type Zero int8

// The zeros. None is a difference of two directions.
const (
	None   Zero = iota
	Level       // from the floor: slope, fall
	Plumb       // from upright: lean, recline, plumb, splay
	Square      // from square across the board: miter, bevel
)

// String returns the zero as it reads after "measured from", "" for None.
func (z Zero) String() string {
	switch z {
	case Level:
		return "level"
	case Plumb:
		return "plumb"
	case Square:
		return "square"
	}
	return ""
}

// ZeroOfName returns the zero that the last word of a name tells, words being
// parted by _ and dots. It is false when the name tells none.
func ZeroOfName(name string) (Zero, bool) {
	switch name[strings.LastIndexAny(name, "_.")+1:] {
	case "slope", "fall":
		return Level, true
	case "lean", "recline", "plumb", "splay":
		return Plumb, true
	case "miter", "bevel":
		return Square, true
	case "turn", "step", "taper", "fan":
		return None, true
	}
	return None, false
}

// A Value is a number with its dimension: millimetres to the power of
// Dim.Length times radians to the power of Dim.Angle. A loose value has no
// dimension yet and is in the file's unit.
type Value struct {
	V     float64
	Dim   Dim
	Loose bool
	Zero  Zero // of an angle
}

// Length returns a length of mm millimetres.
func Length(mm float64) Value { return Value{V: mm, Dim: length} }

// Radians returns an angle measured from z.
func Radians(rad float64, z Zero) Value { return Value{V: rad, Dim: angle, Zero: z} }

// Count returns a plain number that cannot become a length.
func Count(n float64) Value { return Value{V: n} }

// Bare returns a loose number, as one written without a suffix.
func Bare(n float64) Value { return Value{V: n, Loose: true} }

func (v Value) isLength() bool { return v.Dim == length }
func (v Value) isAngle() bool  { return v.Dim == angle }

// kind says what v is, with its article, for messages.
func (v Value) kind() string {
	if v.Loose {
		return "a number without a unit"
	}
	if v.isAngle() && v.Zero != None {
		return "an angle from " + v.Zero.String()
	}
	return v.Dim.String()
}

// Text returns v as one would type it in a plan that counts in unit, exact to
// about four places: "3 1/2 in", "14 deg", "902 mm", "6".
func (v Value) Text(unit Unit) string {
	switch v.Dim {
	case plain:
		return figures(v.V, 6)
	case length:
		if unit == MM {
			return figures(v.V, 2) + " mm"
		}
		return typedInches(v.V/mmPerInch) + " in"
	case angle:
		return figures(v.V*degPerRad, 3) + " deg"
	}
	if v.Dim.Angle == 0 {
		size, word := unit.mm(1), "mm"
		if unit == Inch {
			word = "in"
		}
		return fmt.Sprintf("%s %s^%d", figures(v.V/math.Pow(size, float64(v.Dim.Length)), 3), word, v.Dim.Length)
	}
	return figures(v.V, 4)
}

// typedInches writes x as a mixed number if it is one of 64ths.
func typedInches(x float64) string {
	n := math.Round(x * 64)
	if n == 0 || math.Abs(n) > 1e9 || math.Abs(x*64-n) > 1e-6 {
		return figures(x, 4)
	}
	text := mixed(int64(math.Abs(n)), 64, "/")
	if n < 0 {
		return "-" + text
	}
	return text
}

// figures writes x with at most places decimals and no idle zeros; a number too
// small or too large for that is written with a power of ten.
func figures(x float64, places int) string {
	if a := math.Abs(x); a != 0 && (a < math.Pow10(-places) || a >= 1e12) {
		return strconv.FormatFloat(x, 'g', 4, 64)
	}
	text := strconv.FormatFloat(x, 'f', places, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}
