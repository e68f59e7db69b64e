package expr

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

const (
	mmPerInch = 25.4 // exact, by the international yard of 1959
	mmPerFoot = 12 * mmPerInch
	degPerRad = 180 / math.Pi
)

// inches returns x inches in millimetres. 25.4 itself is no float64; by way of
// 127/5 every sixteenth gets the float64 that its millimetres are written as, so
// that 35 1/2 in is the same value as 901.7 mm.
func inches(x float64) float64 { return x * 127 / 5 }

// noise is how far, in millimetres or degrees, a computed value may miss the
// middle between two printed steps and still be taken as the middle.
const noise = 1e-9

// Unit is what a bare number means in a file, and the system a reader is shown.
type Unit int8

// The units.
const (
	Inch Unit = iota
	MM
)

// String returns the suffix that is typed for u.
func (u Unit) String() string {
	if u == MM {
		return "mm"
	}
	return "in"
}

// mm returns how long x of u is.
func (u Unit) mm(x float64) float64 {
	if u == MM {
		return x
	}
	return inches(x)
}

// Fineness is how finely a length prints.
type Fineness int8

// The finenesses: inches to 1/16, 1/32, 1/64; millimetres to 1, 0.5, 0.1.
const (
	Coarse Fineness = iota // lengths, cut lists
	Fine                   // marked features
	Drill                  // hole diameters
)

// parts returns into how many printed steps one of u is divided.
func (u Unit) parts(f Fineness) float64 {
	inch, mm := [...]float64{16, 32, 64}, [...]float64{1, 2, 10}
	if u == MM {
		return mm[f]
	}
	return inch[f]
}

// steps returns mm in printed steps.
func (u Unit) steps(mm float64, f Fineness) float64 {
	perMM := u.parts(f) / u.mm(1)
	return nearest(mm*perMM, noise*perMM)
}

// nearest rounds x to a whole number, halves (give or take slack) away from zero.
func nearest(x, slack float64) float64 {
	n := math.Floor(math.Abs(x) + 0.5 + slack)
	if x < 0 && n != 0 {
		return -n
	}
	return n
}

// Step returns the step to which lengths are printed, in millimetres.
func (u Unit) Step(f Fineness) float64 { return u.mm(1 / u.parts(f)) }

// Round returns mm as it would be printed, in millimetres.
func (u Unit) Round(mm float64, f Fineness) float64 {
	return u.mm(u.steps(mm, f) / u.parts(f))
}

// Chain rounds consecutive lengths so that the printed pieces add up to the
// printed total. Each mark of the chain is rounded where it stands, so the
// pieces also agree with running dimensions from the first mark.
func (u Unit) Chain(mm []float64, f Fineness) []float64 {
	out := make([]float64, len(mm))
	sum, last := 0.0, 0.0
	for i, piece := range mm {
		sum += piece
		mark := u.steps(sum, f)
		out[i] = u.mm((mark - last) / u.parts(f))
		last = mark
	}
	return out
}

// Length returns a length as a dimension shows it: inches as "35 1⁄2″",
// reduced, with U+2044 between the figures; millimetres as "902" or "2.5",
// without the unit that is said once for a whole set.
func (u Unit) Length(mm float64, f Fineness) string {
	if u == MM {
		return u.Bare(mm, f)
	}
	return u.Bare(mm, f) + "″"
}

// Bare returns a length as Length does, without the inch mark.
func (u Unit) Bare(mm float64, f Fineness) string {
	n := u.steps(mm, f)
	if !(math.Abs(n) <= 1<<53) {
		return figures(mm/u.mm(1), 0)
	}
	text := ""
	if u == MM {
		text = figures(math.Abs(n)/u.parts(f), 1)
	} else {
		text = mixed(int64(math.Abs(n)), int64(u.parts(f)), "⁄")
	}
	if n < 0 {
		return "−" + text
	}
	return text
}

// Long returns a length for prose, with its unit: "35 1⁄2″" or "902 mm".
func (u Unit) Long(mm float64) string { return u.LongTo(mm, Coarse) }

// LongTo returns a length for prose in the given fineness.
func (u Unit) LongTo(mm float64, f Fineness) string {
	if u == MM {
		return u.Bare(mm, f) + " mm"
	}
	return u.Length(mm, f)
}

// BoardLength returns the length a board is sold in: "8 ft" or "2.4 m". A
// length that is no whole foot, or no whole centimetre, keeps its inches or
// millimetres.
func (u Unit) BoardLength(mm float64) string {
	if u == MM {
		places := 3
		if whole(mm / 10) {
			places = 2
		}
		return figures(mm/1000, places) + " m"
	}
	if feet := mm / mmPerFoot; whole(feet) {
		return fmt.Sprintf("%.0f ft", feet)
	}
	return u.Length(mm, Coarse)
}

func whole(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-6 }

// mixed writes n/parts as a reduced mixed number with slash in the fraction.
func mixed(n, parts int64, slash string) string {
	over := n % parts
	if over == 0 {
		return strconv.FormatInt(n/parts, 10)
	}
	for over%2 == 0 {
		over, parts, n = over/2, parts/2, n/2
	}
	fraction := strconv.FormatInt(over, 10) + slash + strconv.FormatInt(parts, 10)
	if n < parts {
		return fraction
	}
	return strconv.FormatInt(n/parts, 10) + " " + fraction
}

// Angle returns an angle of rad radians rounded to step degrees: "14°", "7.5°".
// A step of 0 or less is taken as a tenth of a degree.
func Angle(rad, step float64) string {
	if !(step > 0) {
		step = 0.1
	}
	deg := nearest(rad*degPerRad/step, noise/step) * step
	text := strings.TrimPrefix(figures(deg, 4), "-")
	if deg < 0 && text != "0" {
		return "−" + text + "°"
	}
	return text + "°"
}
