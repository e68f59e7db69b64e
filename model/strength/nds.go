package strength

import "math"

// Load duration factors of the NDS, from memory.
const (
	Permanent  = 0.9
	TenYears   = 1.0
	TwoMonths  = 1.15
	SevenDays  = 1.25
	TenMinutes = 1.6
	Impact     = 2.0
)

// Other factors of the NDS, from memory.
const (
	wetService = 0.7  // lateral and withdrawal, dowel-type fasteners, over 19 % in use
	endGrain   = 0.67 // lateral, driven into end grain
)

const (
	inch  = 25.4
	psi   = 6.894757293e-3 // MPa
	pound = 4.4482216153   // N
)

// BearingAlong returns the dowel bearing strength along the grain, MPa, for a
// specific gravity: 11,200 G psi (NDS), for dowels of 1/4 in and more.
func BearingAlong(g float64) float64 { return 11200 * g * psi }

// BearingAcross returns the dowel bearing strength across the grain, MPa, for a
// dowel of diameter d in mm: 6,100 G^1.45/√D psi (NDS), 1/4 in and more.
func BearingAcross(g, d float64) float64 {
	return 6100 * math.Pow(g, 1.45) / math.Sqrt(d/inch) * psi
}

// BearingThin returns the dowel bearing strength of dowels under 1/4 in, MPa, in
// any direction: 16,600 G^1.84 psi (NDS, from memory).
func BearingThin(g float64) float64 { return 16600 * math.Pow(g, 1.84) * psi }

// Hankinson returns a strength at theta radians to the grain.
func Hankinson(along, across, theta float64) float64 {
	s, c := math.Sincos(theta)
	return along * across / (along*s*s + across*c*c)
}

// Bearing returns the dowel bearing strength in MPa for a dowel of diameter d in
// mm at theta radians to the grain.
func Bearing(g, d, theta float64) float64 {
	if d < inch/4-1e-9 {
		return BearingThin(g)
	}
	return Hankinson(BearingAlong(g), BearingAcross(g, d), theta)
}

// A Dowel is one fastener in single shear.
type Dowel struct {
	Diam       float64 // mm: of a bolt its own, of a screw its root
	Main, Side float64 // mm of dowel in the holding and in the held part
	FeMain     float64 // dowel bearing strengths, MPa
	FeSide     float64
	Fyb        float64 // bending yield strength of the dowel, MPa
	Theta      float64 // the greatest angle of the load to either grain, radians
}

// The yield modes, in the order of Modes.
const (
	ModeIm = iota
	ModeIs
	ModeII
	ModeIIIm
	ModeIIIs
	ModeIV
)

// ModeName returns how a yield mode is called in the NDS.
func ModeName(mode int) string {
	return [...]string{"Im", "Is", "II", "IIIm", "IIIs", "IV"}[mode]
}

// Modes returns the reference design values of the six yield modes in N (NDS
// Table 12.3.1A, single shear; from memory, checked against its Table 12A).
func (d Dowel) Modes() [6]float64 {
	re, rt := d.FeMain/d.FeSide, d.Main/d.Side
	k1 := (math.Sqrt(re+2*re*re*(1+rt+rt*rt)+rt*rt*re*re*re) - re*(1+rt)) / (1 + re)
	k2 := -1 + math.Sqrt(2*(1+re)+2*d.Fyb*(1+2*re)*d.Diam*d.Diam/(3*d.FeMain*d.Main*d.Main))
	k3 := -1 + math.Sqrt(2*(1+re)/re+2*d.Fyb*(2+re)*d.Diam*d.Diam/(3*d.FeMain*d.Side*d.Side))
	one, two, more := d.reduction()
	return [6]float64{
		d.Diam * d.Main * d.FeMain / one,
		d.Diam * d.Side * d.FeSide / one,
		k1 * d.Diam * d.Side * d.FeSide / two,
		k2 * d.Diam * d.Main * d.FeMain / ((1 + 2*re) * more),
		k3 * d.Diam * d.Side * d.FeMain / ((2 + re) * more),
		d.Diam * d.Diam / more * math.Sqrt(2*d.FeMain*d.Fyb/(3*(1+re))),
	}
}

// reduction returns R_d for mode I, for II, and for III and IV.
func (d Dowel) reduction() (one, two, more float64) {
	in := d.Diam / inch
	if in < 0.25-1e-9 {
		k := 2.2
		if in > 0.17 {
			k = 10*in + 0.5
		}
		return k, k, k
	}
	k := 1 + 0.25*d.Theta/(math.Pi/2)
	return 4 * k, 3.6 * k, 3.2 * k
}

// Least returns the mode that governs and its reference value in N.
func (d Dowel) Least() (mode int, z float64) {
	modes := d.Modes()
	for i, v := range modes {
		if v < modes[mode] {
			mode = i
		}
	}
	return mode, modes[mode]
}

// ScrewWithdrawal returns the reference withdrawal value of a wood screw in side
// grain, N a mm of thread: 2850 G² D lb an inch (NDS); d is the shank, mm.
func ScrewWithdrawal(g, d float64) float64 { return 2850 * g * g * d / inch * pound / inch }

// Combined returns what a wood or lag screw may carry at an angle to the wood's
// surface, radians, N, when it may carry z across and w along its axis: Z W/(W cos²
// + Z sin²), which is Hankinson's (NDS 12.4.1, from memory; nails, 12.4.2, add the
// shares up).
func Combined(z, w, angle float64) float64 { return Hankinson(z, w, angle) }

// LagWithdrawal returns the reference withdrawal value of a lag screw in side
// grain, N a mm of thread: 1800 G^1.5 D^0.75 lb an inch (NDS).
func LagWithdrawal(g, d float64) float64 {
	return 1800 * math.Pow(g, 1.5) * math.Pow(d/inch, 0.75) * pound / inch
}

// NailWithdrawal returns the reference withdrawal value of a plain nail in side
// grain, N a mm of depth: 1380 G^2.5 D lb an inch (NDS, from memory).
func NailWithdrawal(g, d float64) float64 {
	return 1380 * math.Pow(g, 2.5) * d / inch * pound / inch
}

// screwSteel returns the root in mm and the bending yield strength in MPa of a
// numbered wood screw (NDS Table L3 and Table I1, from memory); ok is false for
// numbers that are not there.
func screwSteel(size string) (root, fyb float64, ok bool) {
	rows := []struct {
		size      string
		root, ksi float64
	}{
		{"#6", 0.113, 100}, {"#7", 0.122, 90}, {"#8", 0.131, 90}, {"#9", 0.142, 90},
		{"#10", 0.152, 80}, {"#12", 0.171, 80}, {"#14", 0.196, 70},
	}
	for _, r := range rows {
		if r.size == size {
			return r.root * inch, r.ksi * 1000 * psi, true
		}
	}
	return 0, 0, false
}

// Bending yield strengths taken where no table row fits, from memory: bolts as
// in NDS Table 12A, screws as the middle gauges.
const (
	boltFyb  = 45000 * psi
	otherFyb = 80000 * psi
)
