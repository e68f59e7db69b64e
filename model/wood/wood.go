// Package wood holds what the trade knows in tables: species, sold lumber sizes,
// screws, bolts, nuts, washers, finish; and the few formulas that go with them.
//
// Lengths are millimetres (inch tables are converted exactly, 25.4 mm to the
// inch), stresses megapascals, densities kilograms per cubic metre, moisture
// content per cent. Every row says where it comes from. Nothing here knows a
// plan, a part or a page, and nothing here judges one: that is model/check.
package wood

import (
	"strings"
	"unicode"
)

// Units in which the published tables are printed.
const (
	inch = 25.4           // mm, exact
	foot = 12 * inch      // mm, exact
	psi  = 6.894757293e-3 // MPa
	mpsi = 1e6 * psi      // MPa in one million psi
)

// A Mark says how far a table may be leaned on.
type Mark int

// The marks, strongest first.
const (
	Published Mark = iota // read in the standard or handbook, or in a reprint of it
	Computed              // follows from published values by a stated formula
	Memory                // remembered from the standard, not looked up
	Practice              // common practice of the trade, no standard behind it
)

// String returns the mark as it is printed beside a value.
func (m Mark) String() string {
	switch m {
	case Published:
		return "published"
	case Computed:
		return "computed"
	case Memory:
		return "from memory"
	}
	return "common practice"
}

// A Source names where a row of a table comes from.
type Source struct {
	Mark  Mark
	Where string // title, edition, table
}

// String returns the source in one phrase: "PS 20 (published)".
func (s Source) String() string { return s.Where + " (" + s.Mark.String() + ")" }

// A Term is one item of a sum that is printed, such as a bolt's length.
type Term struct {
	What   string  // "grip", "washer", "nut", "2 threads"
	Length float64 // mm
}

// plain folds a name so that case, hyphens, commas and doubled spaces do not
// matter: "Western Red-Cedar" and "western red cedar" are one.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r == '-' || r == ',' || r == '_' || unicode.IsSpace(r)
	}), " ")
}
