package wood

import (
	"math"
	"slices"
)

// A ScrewSize is one diameter of wood screw, flat head.
type ScrewSize struct {
	Size      string  // "#8", or the diameter in mm: "4.5"
	Metric    bool    //
	Diameter  float64 // shank and thread outside, mm
	Root      float64 // thread root, mm
	Head      float64 // head diameter, mm; sharp-cornered for the inch sizes
	HeadAngle float64 // of the countersink, degrees
	Clearance float64 // drill for the upper part, mm
	PilotSoft float64 // drill for softwood: nearest to 70 % of the root, mm
	PilotHard float64 // drill for hardwood: nearest to 90 % of the root, mm
	Source    Source  // of diameter and head; lengths are common practice
	Roots     Source  // of the root, on which the pilots rest

	sold []float64 // mm
}

// Lengths returns the lengths that are commonly sold, shortest first, mm.
func (s ScrewSize) Lengths() []float64 { return slices.Clone(s.sold) }

// Pilot returns the pilot drill for a wood: the hardwood size from a specific
// gravity of 0.5 up, whatever the leaf.
func (s ScrewSize) Pilot(w Wood) float64 {
	if w.SG12 >= 0.5 {
		return s.PilotHard
	}
	return s.PilotSoft
}

// Gauge returns the shank diameter in mm of a numbered screw: 0.060 in and
// 0.013 in a number (the rule from memory; it gives the published diameters).
func Gauge(number int) float64 { return (60 + 13*float64(number)) * inch / 1000 }

// The drills one can buy: inch sizes by 1/64, metric by half a millimetre.
const (
	drillInch   = inch / 64
	drillMetric = 0.5
)

var (
	screwHeads = Source{Published, "flat-head screw table, 82° heads, largest sharp diameter"}
	rootChart  = Source{Published, "pilot-hole chart, root about two-thirds of the shank"}
	rootThirds = Source{Computed, "two-thirds of the shank, Wood Handbook ch. 8"}
	metricWood = Source{Practice, "metric wood screws, countersunk 90°"}
)

// inchScrew makes a numbered screw from its root and head in inches and its
// lengths in eighths of an inch.
func inchScrew(number int, root, head float64, eighths ...float64) ScrewSize {
	s := ScrewSize{
		Size: "#" + itoa(number), Diameter: Gauge(number), Root: root * inch, Head: head * inch,
		HeadAngle: 82, Source: screwHeads, Roots: rootChart,
	}
	if root == 0 {
		s.Root, s.Roots = s.Diameter*2/3, rootThirds
	}
	// The next sixty-fourth at or above the shank lets the shank turn freely
	// and is inside the range of every chart.
	s.Clearance = math.Ceil(s.Diameter/drillInch-1e-9) * drillInch
	s.PilotSoft, s.PilotHard = nearest(0.7*s.Root, drillInch), nearest(0.9*s.Root, drillInch)
	for _, e := range eighths {
		s.sold = append(s.sold, e*inch/8)
	}
	return s
}

// metricScrew makes a metric screw from its diameter, core and head in mm.
func metricScrew(name string, d, core, head float64, lengths ...float64) ScrewSize {
	return ScrewSize{
		Size: name, Metric: true, Diameter: d, Root: core, Head: head, HeadAngle: 90, Clearance: d + 0.5,
		PilotSoft: nearest(0.7*core, drillMetric), PilotHard: nearest(0.9*core, drillMetric),
		Source: metricWood, Roots: metricWood, sold: lengths,
	}
}

func nearest(x, step float64) float64 { return math.Round(x/step) * step }

// Screws returns every screw size, inch gauges first, thin to thick.
func Screws() []ScrewSize {
	return []ScrewSize{
		inchScrew(4, 0.075, 0.225, 4, 5, 6, 8),
		inchScrew(5, 0, 0.252, 4, 5, 6, 8, 10),
		inchScrew(6, 0.094, 0.279, 4, 5, 6, 8, 10, 12, 13, 16),
		inchScrew(7, 0, 0.305, 6, 8, 10, 12, 13, 16, 18),
		inchScrew(8, 0.112, 0.332, 6, 8, 10, 12, 13, 14, 16, 20, 24),
		inchScrew(9, 0, 0.358, 8, 10, 12, 14, 16, 20, 24),
		inchScrew(10, 0.130, 0.385, 8, 10, 12, 14, 16, 20, 24, 28, 32),
		inchScrew(12, 0.148, 0.438, 10, 12, 14, 16, 20, 24, 28, 32),
		inchScrew(14, 0.165, 0.491, 12, 16, 20, 24, 28, 32, 40, 48),
		metricScrew("3.5", 3.5, 2.2, 7, 16, 20, 25, 30, 35, 40, 45, 50),
		metricScrew("4", 4, 2.5, 8, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70),
		metricScrew("4.5", 4.5, 2.8, 9, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80),
		metricScrew("5", 5, 3.2, 10, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100),
		metricScrew("6", 6, 3.9, 12, 40, 50, 60, 70, 80, 90, 100, 120, 140, 160),
	}
}

// Screw returns the screw of a size: "#8" or "8" is not the same, the first is
// a gauge and a bare number is millimetres ("4.5", "4.5 mm").
func Screw(size string) (ScrewSize, bool) {
	size = sizeName(size)
	for _, s := range Screws() {
		if s.Size == size {
			return s, true
		}
	}
	return ScrewSize{}, false
}

// A ScrewStack is what one screw goes through, along its axis, mm.
type ScrewStack struct {
	Held    float64 // the part under the head
	Holding float64 // the part the point bites in
	Sunk    float64 // head below the surface: countersink or counterbore
	Left    float64 // wood to be left in front of the point; 0 means TipLeft
}

// Rules for the length of a screw.
const (
	TipLeft  = inch / 8 // mm of wood in front of the point; common practice
	PlugDeep = inch / 4 // mm that the head of a plugged screw lies under the face; common practice
	biteWeak = 4.0      // diameters: less does not hold
	biteLow  = 6.0      // diameters: NDS least penetration, from memory
	biteMost = 10.0     // diameters: more buys nothing
)

// ScrewLength picks the sold length for a stack: the longest that leaves the
// wood it must in front of the point, but not one that bites more than ten
// diameters (or the thickness it holds, if that is more) where a shorter one
// bites six diameters and the thickness it holds. The sum is itemised for
// printing: held part, sunk head, bite. ok is false when the size is unknown or
// no length bites four diameters; a bite under six diameters is for model/check
// to point out.
func ScrewLength(size string, stack ScrewStack) (length float64, sum []Term, ok bool) {
	s, known := Screw(size)
	if !known {
		return 0, nil, false
	}
	left := stack.Left
	if left == 0 {
		left = TipLeft
	}
	gone := stack.Held - stack.Sunk // the part of the screw that holds nothing
	want := max(biteLow*s.Diameter, stack.Held)
	most := max(biteMost*s.Diameter, stack.Held)
	for _, l := range s.sold {
		if l > stack.Held+stack.Holding-stack.Sunk-left+touch {
			break
		}
		if l-gone > most+touch && length-gone >= want-touch {
			break
		}
		length = l
	}
	bite := length - gone
	if bite < biteWeak*s.Diameter-touch {
		return 0, nil, false
	}
	return length, []Term{{"held part", stack.Held}, {"head sunk", -stack.Sunk}, {"bite", bite}}, true
}

// touch is how near two lengths must be to count as the same, mm.
const touch = 1e-6
