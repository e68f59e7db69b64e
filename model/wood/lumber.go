package wood

import "strings"

// A Dressed is one row of a size table: what the yard says and what one gets.
type Dressed struct {
	Nominal    string  // "2", "5/4"
	Says       float64 // the nominal size, mm
	Dry, Green float64 // actual size at 19 % moisture or less, and unseasoned, mm
	Source     Source
}

var ps20 = Source{Published, "PS 20, American Softwood Lumber Standard"}

// SoftwoodThicknesses returns the dressed thicknesses of PS 20, thinnest first.
func SoftwoodThicknesses() []Dressed {
	return []Dressed{
		{"3/4", 0.75 * inch, 5.0 / 8 * inch, 11.0 / 16 * inch, ps20},
		{"1", 1 * inch, 3.0 / 4 * inch, 25.0 / 32 * inch, ps20},
		{"5/4", 1.25 * inch, 1 * inch, 33.0 / 32 * inch, ps20},
		{"6/4", 1.5 * inch, 5.0 / 4 * inch, 41.0 / 32 * inch, ps20},
		{"2", 2 * inch, 3.0 / 2 * inch, 25.0 / 16 * inch, ps20},
		{"2-1/2", 2.5 * inch, 2 * inch, 33.0 / 16 * inch, ps20},
		{"3", 3 * inch, 5.0 / 2 * inch, 41.0 / 16 * inch, ps20},
		{"4", 4 * inch, 7.0 / 2 * inch, 57.0 / 16 * inch, ps20},
	}
}

// SoftwoodWidths returns the dressed widths of PS 20, narrowest first.
func SoftwoodWidths() []Dressed {
	return []Dressed{
		{"2", 2 * inch, 3.0 / 2 * inch, 25.0 / 16 * inch, ps20},
		{"3", 3 * inch, 5.0 / 2 * inch, 41.0 / 16 * inch, ps20},
		{"4", 4 * inch, 7.0 / 2 * inch, 57.0 / 16 * inch, ps20},
		{"5", 5 * inch, 9.0 / 2 * inch, 37.0 / 8 * inch, ps20},
		{"6", 6 * inch, 11.0 / 2 * inch, 45.0 / 8 * inch, ps20},
		{"7", 7 * inch, 13.0 / 2 * inch, 53.0 / 8 * inch, ps20},
		{"8", 8 * inch, 29.0 / 4 * inch, 15.0 / 2 * inch, ps20},
		{"9", 9 * inch, 33.0 / 4 * inch, 17.0 / 2 * inch, ps20},
		{"10", 10 * inch, 37.0 / 4 * inch, 19.0 / 2 * inch, ps20},
		{"11", 11 * inch, 41.0 / 4 * inch, 21.0 / 2 * inch, ps20},
		{"12", 12 * inch, 45.0 / 4 * inch, 23.0 / 2 * inch, ps20},
	}
}

// A Section is a board's cross-section as named at the yard.
type Section struct {
	Name         string  // "5/4 x 6"
	Thick, Width float64 // dry, mm
	Source       Source
}

// Softwood returns the dry section of a softwood board named thickness by
// width, such as "1x6", "2 x 4" or "5/4 x 6". Radius-edge decking ("5/4 x 6
// decking") has the same inch by five and a half, as common practice.
func Softwood(name string) (Section, bool) {
	words, decking := strings.CutSuffix(plain(name), " decking")
	t, w, ok := strings.Cut(strings.ReplaceAll(words, " ", ""), "x")
	thick, okT := nominal(SoftwoodThicknesses(), t)
	width, okW := nominal(SoftwoodWidths(), w)
	if !ok || !okT || !okW {
		return Section{}, false
	}
	s := Section{t + " x " + w, thick.Dry, width.Dry, ps20}
	if decking {
		s.Name, s.Source = s.Name+" decking", Source{Practice, "radius-edge decking as sold"}
	}
	return s, true
}

// nominal finds a row by its name; "1-1/4" and "1-1/2" are the older names of
// five and six quarters.
func nominal(rows []Dressed, name string) (Dressed, bool) {
	switch name {
	case "1-1/4", "11/4":
		name = "5/4"
	case "1-1/2", "11/2":
		name = "6/4"
	case "4/4":
		name = "1"
	}
	for _, row := range rows {
		if row.Nominal == name {
			return row, true
		}
	}
	return Dressed{}, false
}

// A Surfaced is one row of the hardwood thickness table, mm. OneSide is zero
// where the table prints none.
type Surfaced struct {
	Quarters                 string // "5/4"
	Rough, OneSide, BothSide float64
	Source                   Source
}

// HardwoodThicknesses returns the rough and surfaced hardwood thicknesses, thinnest first.
func HardwoodThicknesses() []Surfaced {
	nhla := Source{Published, "NHLA hardwood thicknesses, S1S and S2S"}
	one := Source{Memory, "NHLA hardwood thicknesses; the one value taken as S2S"}
	return []Surfaced{
		{"3/4", 0.75 * inch, 5.0 / 8 * inch, 9.0 / 16 * inch, nhla},
		{"4/4", 1 * inch, 7.0 / 8 * inch, 13.0 / 16 * inch, nhla},
		{"5/4", 1.25 * inch, 9.0 / 8 * inch, 17.0 / 16 * inch, nhla},
		{"6/4", 1.5 * inch, 11.0 / 8 * inch, 21.0 / 16 * inch, nhla},
		{"7/4", 1.75 * inch, 0, 3.0 / 2 * inch, one},
		{"8/4", 2 * inch, 29.0 / 16 * inch, 7.0 / 4 * inch, nhla},
		{"12/4", 3 * inch, 45.0 / 16 * inch, 11.0 / 4 * inch, nhla},
		{"16/4", 4 * inch, 61.0 / 16 * inch, 15.0 / 4 * inch, nhla},
	}
}

// BoardFeet returns the board feet of one board from its nominal thickness and
// width in mm (rough thickness for hardwood) and its length in mm. Stock under
// an inch counts as an inch. One board foot is 144 cubic inches.
func BoardFeet(thick, width, length float64) float64 {
	return max(thick, inch) * width * length / (144 * inch * inch * inch)
}

// SoldLengths returns the board lengths in mm that a yard usually keeps,
// shortest first: whole feet in steps of two, or metres in steps of 0.3. Both
// are common practice; PS 20 allows whole feet.
func SoldLengths(metric bool) []float64 {
	var lengths []float64
	if metric {
		for dm := 18; dm <= 60; dm += 3 {
			lengths = append(lengths, float64(dm)*100)
		}
		return lengths
	}
	for ft := 6; ft <= 16; ft += 2 {
		lengths = append(lengths, float64(ft)*foot)
	}
	return lengths
}
