package people

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// A Seat is what a piece offers a sitter. What it does not have is zero.
type Seat struct {
	Height   float64 // floor to the front edge
	Depth    float64 // along the seat, front edge to the face of the back
	Width    float64 // of the seat
	Between  float64 // between the arms
	Slope    float64 // radians from level
	Recline  float64 // radians from plumb
	Included float64 // radians between seat and back
	Arm      float64 // top of the arm over the front edge of the seat
	Elbow    float64 // top of the arm over the seat where the hips are
	Back     float64 // length of the back over the seat, along it
}

// Measured returns what a place to sit offers.
func (s *Sit) Measured() Seat {
	out := Seat{Height: s.Front.Z, Width: 2 * s.Side, Slope: s.Slope, Depth: s.Rear.Sub(s.Front).Len()}
	if len(s.Arms) > 0 {
		out.Between, out.Arm, out.Elbow = 2*s.ArmIn, s.ArmEnd.Z-s.Front.Z, s.ArmEnd.Z-s.Depth(hips).Z
	}
	if len(s.Backs) > 0 {
		up := geom.V3{Y: math.Sin(s.Recline), Z: math.Cos(s.Recline)}
		out.Depth = s.Meet.Sub(s.Front).Len()
		out.Recline, out.Included = s.Recline, math.Pi/2+s.Recline-s.Slope
		out.Back = s.BackTop.Sub(s.Meet).Dot(up)
	}
	return out
}

// hips is how far from the front the hips are, of the seat's depth; from memory.
const hips = 0.75

// SeatOf measures a solved plan. ok is false for a piece that is not sat on.
func SeatOf(p *model.Plan) (Seat, bool) {
	s, ok := SitOf(p)
	if !ok {
		return Seat{}, false
	}
	return s.Measured(), true
}

// Allowances, from memory: shoes lift the knee, clothes widen the hips.
const (
	Shoes   = 25.0
	Clothes = 25.0
)

// A Fit is one measure of a seat beside what lounge chairs for adults have, and
// the part of men and of women whom it suits.
type Fit struct {
	Name       string
	Has        float64 // mm, or radians when Angle
	Low, High  float64 // usual range for a lounge chair; High is +Inf when there is none
	Angle      bool
	Men, Women float64 // 0 to 1; NaN where no body dimension decides
	Why        string
}

// Within reports whether the measure lies in the usual range, a hair over let go.
func (f Fit) Within() bool { return f.Has >= f.Low-1e-6 && f.Has <= f.High+1e-6 }

const (
	inch   = 25.4
	degree = math.Pi / 180
)

// Compare holds a seat against people. The ranges are common practice for
// reclining outdoor chairs; the shares come from the table by normal spread.
// Measures the seat does not have are left out.
func Compare(s Seat) []Fit {
	var out []Fit
	add := func(f Fit, share func(Sex) float64) {
		if f.Has == 0 {
			return
		}
		f.Men, f.Women = math.NaN(), math.NaN()
		if share != nil {
			f.Men, f.Women = share(Men), share(Women)
		}
		out = append(out, f)
	}
	reaches := func(m Measure, less float64) func(Sex) float64 {
		return func(x Sex) float64 { return 1 - Share(m, x, less) }
	}
	inf := math.Inf(1)
	add(Fit{Name: "seat height", Has: s.Height, Low: 13 * inch, High: 17 * inch, Why: "feet reach the floor in shoes"}, reaches(PoplitealHeight, s.Height-Shoes))
	add(Fit{Name: "seat depth", Has: s.Depth, Low: 16 * inch, High: 20 * inch, Why: "the back is reached before the edge presses the knee"}, reaches(ButtockPopliteal, s.Depth))
	add(Fit{Name: "seat width", Has: s.Width, Low: 20 * inch, High: inf, Why: "hips and clothes fit on the seat"},
		func(x Sex) float64 { return Share(HipBreadth, x, s.Width-Clothes) })
	add(Fit{Name: "between the arms", Has: s.Between, Low: 20 * inch, High: inf, Why: "hips and clothes fit between the arms"},
		func(x Sex) float64 { return Share(HipBreadth, x, s.Between-Clothes) })
	add(Fit{Name: "seat slope", Has: s.Slope, Low: 8 * degree, High: 16 * degree, Angle: true, Why: "steeper is hard to leave"}, nil)
	add(Fit{Name: "recline", Has: s.Recline, Low: 18 * degree, High: 32 * degree, Angle: true, Why: "upright tires, flatter needs a headrest"}, nil)
	add(Fit{Name: "angle between seat and back", Has: s.Included, Low: 98 * degree, High: 112 * degree, Angle: true, Why: "less folds the belly, more slides forward"}, nil)
	add(Fit{Name: "arm over the seat", Has: s.Arm, Low: 7 * inch, High: 10 * inch, Why: "the arm meets the elbow within two inches where the hips are"},
		func(x Sex) float64 {
			return Share(ElbowRest, x, s.Elbow+2*inch) - Share(ElbowRest, x, s.Elbow-2*inch)
		})
	add(Fit{Name: "back over the seat", Has: s.Back, Low: 24 * inch, High: inf, Why: "shoulders are supported"},
		func(x Sex) float64 { return shoulders(x, s.Back) })
	return out
}

// Share returns the part of a group that has less of a dimension than v, as if
// it were spread normally.
func Share(m Measure, x Sex, v float64) float64 {
	d := Of(m, x)
	return normal((v - d.Mean) / d.SD)
}

func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// shoulders is the part whose shoulders a back reaches: sitting shoulder height
// is taken as elbow rest and shoulder to elbow, as if the two were independent.
func shoulders(x Sex, back float64) float64 {
	a, b := Of(ElbowRest, x), Of(ShoulderElbow, x)
	return normal((back - a.Mean - b.Mean) / math.Hypot(a.SD, b.SD))
}
