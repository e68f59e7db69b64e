package wood

// Durability is how well heartwood stands decay outdoors, uncoated and off the ground.
type Durability int

// The grades of durability.
const (
	Slight    Durability = iota // little or no resistance
	Moderate                    // some resistance
	Resistant                   // resistant or very resistant
)

// String returns the grade in a word.
func (d Durability) String() string {
	return [...]string{"slightly resistant", "moderately resistant", "resistant"}[d]
}

// A Wood is one species. A strength of zero means that no value is held.
type Wood struct {
	Name     string
	Hardwood bool

	SGGreen, SG12 float64 // specific gravity: oven-dry weight on green volume, on volume at 12 %
	MOR, MOE      float64 // at 12 %, MPa; MOE includes shear deflection (a pure bending E is 10 % more)
	Strength      Source

	Radial, Tangential, Volumetric float64 // shrinkage green to oven-dry, %
	Shrinkage                      Source

	CR, CT       float64 // change of size per 1 % moisture between 6 and 14 %, radial and tangential
	Coefficients Source

	Durability Durability // Wood Handbook ch. 14, from memory
	Sensitises bool       // the dust is a known sensitiser
	Carcinogen string     // group of the dust in the ACGIH list, "A1", "A2" or "A4"
	Tannin     bool       // stains plain steel black
}

// DesignGravity returns the specific gravity that fastener formulas want: on
// volume at 12 % moisture.
func (w Wood) DesignGravity() float64 { return w.SG12 }

// The tables the rows were read from.
var (
	table53  = Source{Published, "Wood Handbook FPL-GTR-282 (2021), Table 5-3b"}
	table55  = Source{Published, "Wood Handbook FPL-GTR-190 (2010), Table 5-5b; gravity at 12 % computed from volumetric shrinkage"}
	mem53    = Source{Memory, "Wood Handbook, Tables 5-3b and 5-5b"}
	table43  = Source{Published, "Wood Handbook FPL-GTR-190 (2010), Tables 4-3 and 4-4"}
	mem43    = Source{Memory, "Wood Handbook, Tables 4-3 and 4-4"}
	table135 = Source{Published, "Wood Handbook FPL-GTR-190 (2010), Table 13-5"}
	mem135   = Source{Memory, "Wood Handbook, Table 13-5, agreeing with the footnote rule"}
	foot135  = Source{Computed, "footnote rule of Wood Handbook Table 13-5 on the shrinkage values"}
)

// A strength row: gravity green and at 12 %, MOR in psi and MOE in million psi at 12 %.
func (w Wood) strong(from Source, green, at12, mor, moe float64) Wood {
	w.SGGreen, w.SG12, w.MOR, w.MOE, w.Strength = green, at12, mor*psi, moe*mpsi, from
	return w
}

// A shrinkage row in per cent, and the gravity at 12 % if the table has only the green one.
func (w Wood) shrinks(from Source, radial, tangential, volumetric float64) Wood {
	w.Radial, w.Tangential, w.Volumetric, w.Shrinkage = radial, tangential, volumetric, from
	if w.SG12 == 0 {
		w.SG12 = w.SGGreen / (1 - volumetric/100*(1-12/saturation))
	}
	return w
}

// A row of coefficients; without one the footnote rule gives them.
func (w Wood) moves(from Source, radial, tangential float64) Wood {
	w.CR, w.CT, w.Coefficients = radial, tangential, from
	return w
}

// byRule fills the coefficients from the shrinkage with the footnote rule.
func (w Wood) byRule() Wood {
	return w.moves(foot135, Coefficient(w.Radial, saturation), Coefficient(w.Tangential, saturation))
}

// outdoors sets what matters to a bench in the rain and to the one who saws it.
func (w Wood) outdoors(d Durability, sensitises, tannin bool, group string) Wood {
	w.Durability, w.Sensitises, w.Tannin, w.Carcinogen = d, sensitises, tannin, group
	return w
}

func soft(name string) Wood { return Wood{Name: name} }
func hard(name string) Wood { return Wood{Name: name, Hardwood: true} }

// softwoods returns the needle-leaved half of the table.
func softwoods() []Wood {
	return []Wood{
		soft("western redcedar").strong(table53, 0.31, 0.32, 7500, 1.11).shrinks(table43, 2.4, 5.0, 6.8).
			moves(mem135, 0.00111, 0.00234).outdoors(Resistant, true, true, "A4"),
		soft("northern white-cedar").strong(table53, 0.29, 0.31, 6500, 0.80).shrinks(table43, 2.2, 4.9, 7.2).
			moves(mem135, 0.00101, 0.00229).outdoors(Resistant, false, true, "A4"),
		soft("Atlantic white-cedar").strong(table53, 0.31, 0.32, 6800, 0.93).shrinks(table43, 2.9, 5.4, 8.8).
			byRule().outdoors(Resistant, false, true, "A4"),
		soft("eastern redcedar").strong(table53, 0.44, 0.47, 8800, 0.88).shrinks(table43, 3.1, 4.7, 7.8).
			byRule().outdoors(Resistant, true, true, "A4"),
		soft("incense-cedar").strong(table53, 0.35, 0.37, 8000, 1.04).shrinks(table43, 3.3, 5.2, 7.7).
			byRule().outdoors(Resistant, true, true, "A4"),
		soft("Port-Orford-cedar").strong(table53, 0.39, 0.43, 12700, 1.70).shrinks(table43, 4.6, 6.9, 10.1).
			byRule().outdoors(Resistant, true, true, "A4"),
		soft("yellow-cedar").strong(table53, 0.42, 0.44, 11100, 1.42).shrinks(table43, 2.8, 6.0, 9.2).
			moves(mem135, 0.00095, 0.00208).outdoors(Resistant, false, true, "A4"),
		soft("baldcypress").strong(table53, 0.42, 0.46, 10600, 1.44).shrinks(mem43, 3.8, 6.2, 10.5).
			moves(mem135, 0.00130, 0.00216).outdoors(Resistant, false, false, "A4"),
		soft("redwood, old-growth").strong(mem53, 0.38, 0.40, 10000, 1.34).shrinks(mem43, 2.6, 4.4, 6.8).
			moves(mem135, 0.00120, 0.00205).outdoors(Resistant, true, true, "A4"),
		soft("redwood, young-growth").strong(mem53, 0.34, 0.35, 7900, 1.10).shrinks(mem43, 2.2, 4.9, 7.0).
			moves(mem135, 0.00101, 0.00229).outdoors(Moderate, true, true, "A4"),
		soft("Douglas-fir, coast").strong(table53, 0.45, 0.48, 12400, 1.95).shrinks(table43, 4.8, 7.6, 12.4).
			moves(mem135, 0.00165, 0.00267).outdoors(Moderate, false, false, "A4"),
		soft("western larch").strong(table53, 0.48, 0.52, 13000, 1.87).shrinks(mem43, 4.5, 9.1, 14.0).
			moves(mem135, 0.00155, 0.00323).outdoors(Moderate, false, false, "A4"),
		soft("eastern white pine").strong(table53, 0.34, 0.35, 8600, 1.24).shrinks(mem43, 2.1, 6.1, 8.2).
			moves(mem135, 0.00071, 0.00212).outdoors(Slight, false, false, "A4"),
		soft("loblolly pine").strong(table53, 0.47, 0.51, 12800, 1.79).shrinks(mem43, 4.8, 7.4, 12.3).
			moves(mem135, 0.00165, 0.00259).outdoors(Slight, false, false, "A4"),
		soft("longleaf pine").strong(table53, 0.54, 0.59, 14500, 1.98).shrinks(mem43, 5.1, 7.5, 12.2).
			moves(mem135, 0.00176, 0.00263).outdoors(Moderate, false, false, "A4"),
		soft("shortleaf pine").strong(table53, 0.47, 0.51, 13100, 1.75).shrinks(mem43, 4.6, 7.7, 12.3).
			byRule().outdoors(Slight, false, false, "A4"),
		soft("slash pine").strong(table53, 0.54, 0.59, 16300, 1.98).shrinks(mem43, 5.4, 7.6, 12.1).
			byRule().outdoors(Slight, false, false, "A4"),
		soft("ponderosa pine").strong(table53, 0.38, 0.40, 9400, 1.29).shrinks(mem43, 3.9, 6.2, 9.7).
			byRule().outdoors(Slight, false, false, "A4"),
		soft("white fir").strong(mem53, 0.37, 0.39, 9800, 1.50).shrinks(table43, 3.3, 7.0, 9.8).
			moves(table135, 0.00112, 0.00245).outdoors(Slight, false, false, "A4"),
	}
}

// hardwoods returns the broad-leaved half of the table.
func hardwoods() []Wood {
	return []Wood{
		hard("white oak").strong(mem53, 0.60, 0.68, 15200, 1.78).shrinks(table43, 5.6, 10.5, 16.3).
			moves(table135, 0.00180, 0.00365).outdoors(Resistant, false, true, "A1"),
		hard("red oak").strong(mem53, 0.56, 0.63, 14300, 1.82).shrinks(mem43, 4.0, 8.6, 13.7).
			moves(table135, 0.00158, 0.00369).outdoors(Slight, false, true, "A1"),
		hard("black locust").strong(mem53, 0.66, 0.69, 19400, 2.05).shrinks(mem43, 4.6, 7.2, 10.2).
			moves(table135, 0.00158, 0.00252).outdoors(Resistant, false, true, "A4"),
		hard("white ash").strong(mem53, 0.55, 0.60, 15000, 1.74).shrinks(mem43, 4.9, 7.8, 13.3).
			moves(table135, 0.00169, 0.00274).outdoors(Slight, false, false, "A4"),
		hard("black cherry").strong(mem53, 0.47, 0.50, 12300, 1.49).shrinks(mem43, 3.7, 7.1, 11.5).
			moves(table135, 0.00126, 0.00248).outdoors(Moderate, false, false, "A4"),
		hard("sugar maple").strong(mem53, 0.56, 0.63, 15800, 1.83).shrinks(mem43, 4.8, 9.9, 14.7).
			moves(table135, 0.00165, 0.00353).outdoors(Slight, false, false, "A4"),
		hard("black walnut").strong(mem53, 0.51, 0.55, 14600, 1.68).shrinks(table43, 5.5, 7.8, 12.8).
			moves(table135, 0.00190, 0.00274).outdoors(Moderate, true, true, "A2"),
		hard("teak").strong(table55, 0.55, 0, 14600, 1.55).shrinks(mem43, 2.5, 5.8, 7.0).
			moves(mem135, 0.00101, 0.00186).outdoors(Resistant, true, false, "A2"),
		hard("iroko").strong(mem53, 0.54, 0, 12400, 1.46).shrinks(mem43, 2.8, 3.8, 8.8).
			byRule().outdoors(Resistant, true, false, "A4"),
		hard("mahogany").strong(mem53, 0.45, 0, 11500, 1.50).shrinks(mem43, 3.0, 4.1, 7.8).
			byRule().outdoors(Resistant, true, true, "A2"),
		hard("Spanish-cedar").strong(table55, 0.41, 0, 11500, 1.44).shrinks(mem43, 4.2, 6.3, 10.3).
			byRule().outdoors(Resistant, true, true, "A4"),
		hard("dark red meranti").strong(table55, 0.46, 0, 12700, 1.77).shrinks(mem43, 4.6, 8.7, 14.3).
			byRule().outdoors(Moderate, true, false, "A4"),
		hard("ipe").strong(mem53, 0.92, 0, 25400, 3.14).shrinks(mem43, 6.6, 8.0, 13.2).
			byRule().outdoors(Resistant, true, true, "A4"),
	}
}

// alias gives the other names under which a species is asked for.
func alias(name string) string {
	switch name {
	case "western red cedar", "wrc", "red cedar", "cedar":
		return "western redcedar"
	case "white cedar", "northern white cedar":
		return "northern white cedar"
	case "port orford cedar":
		return "port orford cedar"
	case "alaska cedar", "alaskan yellow cedar", "yellow cypress":
		return "yellow cedar"
	case "cypress", "bald cypress":
		return "baldcypress"
	case "redwood", "redwood young growth":
		return "redwood young growth"
	case "douglas fir", "douglas fir larch", "doug fir":
		return "douglas fir coast"
	case "larch":
		return "western larch"
	case "southern pine", "southern yellow pine", "treated pine":
		return "loblolly pine"
	case "white pine":
		return "eastern white pine"
	case "oak":
		return "white oak"
	case "locust", "robinia":
		return "black locust"
	case "ash":
		return "white ash"
	case "cherry":
		return "black cherry"
	case "maple", "hard maple":
		return "sugar maple"
	case "walnut":
		return "black walnut"
	case "true mahogany", "genuine mahogany":
		return "mahogany"
	case "meranti":
		return "dark red meranti"
	}
	return name
}

// Species returns the species of that name. Case, hyphens and commas do not
// matter, and the usual short names ("cedar", "southern pine") are known.
func Species(name string) (Wood, bool) {
	name = alias(plain(name))
	if name == "" {
		return Wood{}, false
	}
	for _, table := range [2]func() []Wood{softwoods, hardwoods} {
		for _, w := range table() {
			// Most are told apart by length and first letter: the plain name is
			// never longer.
			if len(w.Name) >= len(name) && w.Name[0]|0x20 == name[0] && plain(w.Name) == name {
				return w, true
			}
		}
	}
	return Wood{}, false
}

// SpeciesNames returns every name in the table, softwoods first.
func SpeciesNames() []string {
	var names []string
	for _, w := range append(softwoods(), hardwoods()...) {
		names = append(names, w.Name)
	}
	return names
}
