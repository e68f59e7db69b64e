package wood

import (
	"slices"
	"strconv"
	"strings"
)

// Limits are the greatest and least size a standard allows, mm.
type Limits struct{ Max, Min float64 }

// A Washer is one plain washer, mm. Thick is nominal.
type Washer struct {
	Inside, Outside, Thick float64
	Source                 Source
}

// A Nut is one hex nut, mm.
type Nut struct {
	Flats, Thick Limits
	Corners      Limits // a limit that is not held is zero
	Source       Source
}

// A BoltSize is one size of carriage bolt with the nut and washers that go
// with it. The length of a carriage bolt is measured from under its head.
type BoltSize struct {
	Size         string  // "3/8", "M10"
	Metric       bool    //
	Diameter     float64 // nominal, mm
	Pitch        float64 // mm a turn
	Hole         float64 // drill, within D + 1/32 to D + 1/16 in, mm
	Head         Limits  // diameter of the round head
	HeadHeight   Limits  //
	Square       Limits  // width of the square neck
	Neck         Limits  // depth of the square neck
	Nut          Nut     //
	Narrow, Wide Washer  //
	Source       Source  // of the bolt; sold lengths are common practice
	short, long  float64 // thread on bolts up to the break, and above, mm
	breakAt      float64 // mm
	sold         []float64
}

// Thread returns the threaded length of a bolt of a length, mm. Short bolts are
// threaded to the neck.
func (b BoltSize) Thread(length float64) float64 {
	if length <= b.breakAt {
		return min(b.short, length-b.Neck.Max)
	}
	return b.long
}

// Lengths returns the lengths that are commonly sold, shortest first, mm.
func (b BoltSize) Lengths() []float64 { return slices.Clone(b.sold) }

// Fit says which washer goes under the nut.
type Fit int

// The washers.
const (
	WideWasher   Fit = iota // wide, "USS", ISO 7093
	NarrowWasher            // narrow, "SAE", ISO 7089
	NoWasher
)

// Bolt returns the carriage bolt of a size: "1/4" to "1/2", "M5" to "M16".
func Bolt(size string) (BoltSize, bool) {
	size = sizeName(size)
	for _, b := range Bolts() {
		if b.Size == size {
			return b, true
		}
	}
	return BoltSize{}, false
}

// Bolts returns every bolt size, inch first, thin to thick.
func Bolts() []BoltSize { return append(inchBolts(), metricBolts()...) }

// BoltLength picks the sold length of a carriage bolt for a grip in mm (the
// wood between head and washer): grip, washer, nut at its thickest, and two
// threads beyond. The neck is pulled into the wood and adds nothing. The sum is
// itemised for printing. ok is false when the size is unknown, or no sold
// length is long enough.
func BoltLength(size string, grip float64, fit Fit) (length float64, sum []Term, ok bool) {
	b, known := Bolt(size)
	if !known {
		return 0, nil, false
	}
	sum = []Term{{"grip", grip}}
	switch fit {
	case WideWasher:
		sum = append(sum, Term{"washer", b.Wide.Thick})
	case NarrowWasher:
		sum = append(sum, Term{"washer", b.Narrow.Thick})
	case NoWasher:
	}
	sum = append(sum, Term{"nut", b.Nut.Thick.Max}, Term{"2 threads", 2 * b.Pitch})
	need := 0.0
	for _, term := range sum {
		need += term.Length
	}
	for _, l := range b.sold {
		if l >= need-touch {
			return l, sum, true
		}
	}
	return 0, sum, false
}

// Twin returns the usual size in the other unit system of a screw ("#8" and
// "4.5") or a bolt ("3/8" and "M10"). Common practice: near in diameter, never
// equal, so holes must be drilled for the one that is used.
func Twin(size string) (string, bool) {
	pairs := [...][2]string{
		{"1/4", "M6"}, {"5/16", "M8"}, {"3/8", "M10"}, {"1/2", "M12"},
		{"#6", "3.5"}, {"#7", "4"}, {"#8", "4.5"}, {"#10", "5"}, {"#14", "6"},
		{"#9", "4.5"}, {"#12", "5"}, {"7/16", "M10"}, {"#5", "3.5"}, {"#4", "3.5"},
	}
	size = sizeName(size)
	for _, p := range pairs {
		if p[0] == size {
			return p[1], true
		}
	}
	for _, p := range pairs {
		if p[1] == size {
			return p[0], true
		}
	}
	return "", false
}

// sizeName folds the ways of writing a size: `3/8"`, "3/8 in", "No. 8", "m10", "4.5 mm".
func sizeName(size string) string {
	size = strings.ToLower(strings.ReplaceAll(size, " ", ""))
	for _, unit := range []string{"in", `"`, "mm"} {
		size = strings.TrimSuffix(size, unit)
	}
	for _, number := range []string{"no.", "no", "gauge"} {
		if rest, cut := strings.CutPrefix(size, number); cut {
			return "#" + rest
		}
	}
	return strings.ToUpper(size)
}

func itoa(n int) string { return strconv.Itoa(n) }
