// Package people fits a seat to the people who sit in it: published body
// dimensions, what a chair offers against them, and what another stature asks.
//
// Lengths are millimetres, mass kilograms, angles radians. Comparisons are advice
// for the author, not findings: those are in model/check.
package people

import (
	"math"
	"slices"
)

// Sex says which half of the table is meant.
type Sex int

// The halves of the table.
const (
	Men Sex = iota
	Women
)

// A Measure is one body dimension of the table.
type Measure int

// The body dimensions, sitting where they can be.
const (
	Stature Measure = iota
	Mass            // kg
	SittingHeight
	EyeHeight        // sitting
	PoplitealHeight  // floor to the hollow of the knee, barefoot
	KneeHeight       // sitting
	ButtockPopliteal // back of the buttocks to the hollow of the knee
	ButtockKnee
	HipBreadth      // sitting
	ElbowRest       // seat to elbow
	ForearmBreadth  // forearm to forearm
	ShoulderBreadth // bideltoid
	ThighClearance
	ShoulderElbow
	ForearmGrip
	FootLength
	measures // how many
)

// A Spread is how a dimension is spread over a group of people.
type Spread struct {
	P5, P50, P95 float64
	Mean, SD     float64
}

// A Row is one dimension for men and women.
type Row struct {
	Measure Measure
	Name    string
	Column  string // in the public data file
	Spread  [2]Spread
}

// Source names where the table comes from: 4,082 men and 1,986 women, soldiers,
// who are fitter and less broad than the public.
const Source = "ANSUR II, 2012 US Army, public data file; percentiles by linear interpolation"

// Table returns every row, in the order of the measures.
func Table() []Row {
	row := func(m Measure, name, column string, men, women Spread) Row {
		return Row{m, name, column, [2]Spread{men, women}}
	}
	return []Row{
		row(Stature, "stature", "stature", Spread{1648, 1755, 1870, 1756.2, 68.6}, Spread{1525, 1626, 1740, 1628.5, 64.2}),
		row(Mass, "body mass", "weightkg", Spread{64.4, 84.6, 110.7, 85.5, 14.2}, Spread{51.3, 66.8, 87.1, 67.8, 11.0}),
		row(SittingHeight, "sitting height", "sittingheight", Spread{860, 918, 977, 918.3, 35.7}, Spread{803, 857, 912, 856.6, 33.1}),
		row(EyeHeight, "eye height, sitting", "eyeheightsitting", Spread{750, 804, 860, 804.5, 33.2}, Spread{698, 748, 799, 747.7, 30.4}),
		row(PoplitealHeight, "popliteal height", "poplitealheight", Spread{390, 430, 471, 429.8, 24.8}, Spread{350, 387, 428, 388.2, 23.6}),
		row(KneeHeight, "knee height, sitting", "kneeheightsitting", Spread{509, 553, 602, 554.2, 27.9}, Spread{469, 510, 557, 511.3, 27.1}),
		row(ButtockPopliteal, "buttock-popliteal length", "buttockpopliteallength", Spread{459, 502, 548, 502.9, 27.4}, Spread{441, 483, 535, 485.1, 28.7}),
		row(ButtockKnee, "buttock-knee length", "buttockkneelength", Spread{569, 617, 669, 618.0, 30.6}, Spread{541, 589, 646, 590.6, 32.6}),
		row(HipBreadth, "hip breadth, sitting", "hipbreadthsitting", Spread{333, 378, 431, 379.3, 30.2}, Spread{348, 397, 456, 399.0, 32.7}),
		row(ElbowRest, "elbow rest height", "elbowrestheight", Spread{197, 246, 291, 245.0, 28.7}, Spread{189, 233, 276, 232.4, 26.3}),
		row(ForearmBreadth, "forearm-forearm breadth", "forearmforearmbreadth", Spread{497, 579, 667, 579.9, 50.9}, Spread{432, 492, 564, 494.8, 41.0}),
		row(ShoulderBreadth, "shoulder breadth", "bideltoidbreadth", Spread{459, 509, 567, 510.4, 32.5}, Spread{406, 450, 499, 450.3, 28.7}),
		row(ThighClearance, "thigh clearance", "thighclearance", Spread{157, 180, 207, 180.5, 15.6}, Spread{145, 167, 191, 167.9, 14.1}),
		row(ShoulderElbow, "shoulder-elbow length", "shoulderelbowlength", Spread{334, 363, 394, 363.7, 18.2}, Spread{307, 334, 363, 334.3, 17.3}),
		row(ForearmGrip, "forearm to centre of grip", "forearmcenterofgriplength", Spread{320, 348.5, 379, 349.0, 18.0}, Spread{290, 316, 350, 317.7, 18.0}),
		row(FootLength, "foot length", "footlength", Spread{250, 271, 293, 271.2, 13.1}, Spread{226, 246, 268, 246.3, 12.4}),
	}
}

// Of returns the spread of one dimension.
func Of(m Measure, s Sex) Spread { return Table()[m].Spread[s] }

// Percentile returns the value that part per hundred of a list lie below, by
// linear interpolation between the two nearest ranks. The list is not changed.
func Percentile(list []float64, part float64) float64 {
	sorted := slices.Clone(list)
	slices.Sort(sorted)
	at := part / 100 * float64(len(sorted)-1)
	low := int(math.Floor(at))
	high := min(low+1, len(sorted)-1)
	return sorted[low] + (at-float64(low))*(sorted[high]-sorted[low])
}

// For returns what a person of a stature has of a dimension: the median scaled
// by stature between the table's 5th and 95th percentiles of stature, the way
// the two percentiles of the dimension lie. Beyond them it holds the last slope.
//
// People of one stature differ: this is the middle of them.
func For(m Measure, s Sex, stature float64) float64 {
	if m == Stature {
		return stature
	}
	tall, d := Of(Stature, s), Of(m, s)
	if stature < tall.P50 {
		return d.P50 + (d.P50-d.P5)*(stature-tall.P50)/(tall.P50-tall.P5)
	}
	return d.P50 + (d.P95-d.P50)*(stature-tall.P50)/(tall.P95-tall.P50)
}
