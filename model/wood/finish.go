package wood

// Surface says what a finish goes on.
type Surface int

// The surfaces.
const (
	Smooth Surface = iota // planed or sanded
	Rough                 // rough-sawn or weathered: drinks twice as much
)

// A Coverage is the area in m² that a litre covers in one coat.
type Coverage struct {
	Least, Most float64
	Source      Source
}

// gallon of finish over a square foot, in m² a litre.
const perGallon = foot * foot * 1e-6 / 3.785411784

// Oil returns the coverage of penetrating oil, water repellent or semitransparent stain.
func Oil(on Surface) Coverage {
	from := Source{Practice, "penetrating finishes, ft² a gallon and coat"}
	if on == Rough {
		return Coverage{100 * perGallon, 200 * perGallon, from}
	}
	return Coverage{200 * perGallon, 400 * perGallon, from}
}

// Paint returns the coverage of a film of paint.
func Paint() Coverage {
	return Coverage{300 * perGallon, 400 * perGallon, Source{Memory, "film paint, ft² a gallon and coat"}}
}

// Litres returns how much to buy at least and at most for an area in mm² and a
// number of coats. End grain takes more than its area says.
func (c Coverage) Litres(area float64, coats int) (least, most float64) {
	m2 := area * 1e-6 * float64(coats)
	return m2 / c.Most, m2 / c.Least
}
