package people

import "math"

// A Size is one measure of a seat and what a person would ask instead.
type Size struct {
	Name   string
	Has    float64 // mm
	Wants  float64 // mm
	Change float64 // mm, Wants − Has
	From   string  // the body dimension it follows
}

// Ask returns what a person of a stature in mm would change about a seat, made
// for the middle of men and women: each measure scales as the body dimension it
// follows. Angles stay. It is linear, so a guess outside the table's 5th to 95th
// percentile of stature.
func Ask(s Seat, x Sex, stature float64) []Size {
	var out []Size
	add := func(name string, has, wants float64, from string) {
		if has > 0 {
			out = append(out, Size{name, has, wants, wants - has, from})
		}
	}
	scale := func(m Measure) float64 { return For(m, x, stature) / middle(m) }
	height := s.Height * scale(PoplitealHeight)
	add("seat height", s.Height, height, "popliteal height")
	add("seat depth", s.Depth, s.Depth*scale(ButtockPopliteal), "buttock-popliteal length")
	// Hips do not grow as the seat does: the room beside them stays.
	wider := For(HipBreadth, x, stature) - middle(HipBreadth)
	add("seat width", s.Width, s.Width+wider, "hip breadth, sitting")
	add("between the arms", s.Between, between(s, wider), "hip breadth, sitting")
	if s.Arm > 0 {
		add("arm height", s.Height+s.Arm, height+s.Arm*scale(ElbowRest), "popliteal height and elbow rest height")
	}
	add("back over the seat", s.Back, s.Back*scale(SittingHeight), "sitting height")
	return out
}

func between(s Seat, wider float64) float64 {
	if s.Between == 0 {
		return 0
	}
	return s.Between + wider
}

// middle is the mean of the medians of men and women.
func middle(m Measure) float64 { return (Of(m, Men).P50 + Of(m, Women).P50) / 2 }

// Larger proposes the sizes of a larger variant: for men of the table's 95th
// percentile of stature, each rounded to a step in mm, such as 1/4 in or 5 mm. A
// seat is never made narrower than the broad hips of the table and clothes ask,
// nor higher or deeper than a lounge chair usually is: the tall stretch their
// legs, and the short still sit in it.
func Larger(s Seat, step float64) []Size {
	out := Ask(s, Men, Of(Stature, Men).P95)
	broad := math.Max(Of(HipBreadth, Men).P95, Of(HipBreadth, Women).P95) + Clothes
	highest, lowered := map[string]float64{}, 0.0
	for _, f := range Compare(s) {
		highest[f.Name] = math.Max(f.High, f.Has)
	}
	for i := range out {
		o := &out[i]
		switch o.Name {
		case "seat width", "between the arms":
			o.Wants = math.Max(o.Wants, broad)
		case "seat height", "seat depth":
			kept := math.Min(o.Wants, highest[o.Name])
			if o.Name == "seat height" {
				lowered = o.Wants - kept
			}
			o.Wants = kept
		case "arm height":
			o.Wants -= lowered // the arm stays where it is over the seat
		}
		o.Wants = math.Round(o.Wants/step) * step
		o.Change = o.Wants - o.Has
	}
	return out
}
