package strength

// A Section is a rectangular cross-section: Wide square to the load, Deep along it.
type Section struct{ Wide, Deep float64 }

// Inertia returns the second moment of area, mm⁴.
func (s Section) Inertia() float64 { return s.Wide * s.Deep * s.Deep * s.Deep / 12 }

// Modulus returns the section modulus, mm³.
func (s Section) Modulus() float64 { return s.Wide * s.Deep * s.Deep / 6 }

// A Span is how a load lies on a beam.
type Span int

// The spans: bending and shear factors k of δ = k·W·L³/(E·I), Wood Handbook
// Eq. 9-2; those of the centre load from memory.
const (
	SimpleUniform Span = iota // load spread, ends free to turn
	SimpleCenter              // load in the middle
	FixedUniform              // load spread, both ends held
	TipLoad                   // one end held, load at the other
)

// Deflection returns how far a beam of length l bends under w newtons, mm.
// e is the modulus of elasticity in MPa; the table values have shear in them.
func Deflection(how Span, w, l, e float64, s Section) float64 {
	k := [...]float64{5.0 / 384, 1.0 / 48, 1.0 / 384, 1.0 / 3}[how]
	return k * w * l * l * l / (e * s.Inertia())
}

// Stress returns the greatest bending stress of a beam under w newtons, MPa.
func Stress(how Span, w, l float64, s Section) float64 {
	k := [...]float64{1.0 / 8, 1.0 / 4, 1.0 / 12, 1}[how]
	return k * w * l / s.Modulus()
}
