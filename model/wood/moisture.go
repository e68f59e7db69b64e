package wood

import "math"

// saturation is the fibre saturation point, %: wood swells no further above it.
const saturation = 30.0

// EMC returns the moisture content, %, at which wood comes to rest in air of
// that temperature in °C and relative humidity in %. The humidity is held
// between 0 and 100.
//
// Simpson 1998, FPL-RN-0268, the form in °C. Mean error under 0.13 %, worst
// case 0.9 % of moisture.
func EMC(tempC, humidity float64) float64 {
	t, h := tempC, math.Max(0, math.Min(100, humidity))/100
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	water := k1*kh + 2*k1*k2*kh*kh
	return 1800 / w * (kh/(1-kh) + water/(1+k1*kh+k1*k2*kh*kh))
}

// Movement returns how much a size in mm grows (or, negative, shrinks) between
// two moisture contents in %. c is the wood's CT for the width of a flat-sawn
// board and CR for a quarter-sawn one.
//
// Wood Handbook Eq. 13-2, made for 6 to 14 %; beyond that it is a fair guess.
func Movement(size, c, fromMC, toMC float64) float64 {
	return size * c * (math.Min(toMC, saturation) - math.Min(fromMC, saturation))
}

// WideMovement is Movement outside 6 to 14 %, from the shrinkage in % green to
// oven-dry (Wood Handbook Eq. 13-3, its form from memory).
func WideMovement(size, shrinkage, fromMC, toMC float64) float64 {
	fromMC, toMC = math.Min(fromMC, saturation), math.Min(toMC, saturation)
	return size * (toMC - fromMC) / (saturation*100/shrinkage - saturation + fromMC)
}

// Coefficient returns the change of size per 1 % of moisture that a shrinkage
// in % gives, with f the fibre saturation point in % (30, or 22 for western
// redcedar, northern white-cedar and redwood). The rule is that of the footnote
// of Wood Handbook Table 13-5, from memory; it starts from 10 % moisture.
func Coefficient(shrinkage, f float64) float64 {
	s := shrinkage / 100
	return s / f / (1 - s*(f-10)/f)
}

// Gravity returns the specific gravity on the volume at a moisture content in
// %, from that at 12 % and the volumetric shrinkage.
func (w Wood) Gravity(mc float64) float64 {
	volume := func(mc float64) float64 {
		return 1 - w.Volumetric/100*(1-math.Min(mc, saturation)/saturation)
	}
	return w.SG12 * volume(12) / volume(mc)
}

// Density returns kilograms per cubic metre of wood at a moisture content in %,
// on the volume it has there: 1000 G (1 + MC/100), Wood Handbook ch. 4.
func (w Wood) Density(mc float64) float64 { return 1000 * w.Gravity(mc) * (1 + mc/100) }

// Mass returns the kilograms of a volume in mm³ at a moisture content in %.
func (w Wood) Mass(volume, mc float64) float64 { return volume * 1e-9 * w.Density(mc) }
