package check

import (
	"fmt"
	"math"

	"planset/model/geom"
)

// A rail that lies on the ground over 2 ft rocks on whatever is under its middle
// and rots there: it is hollowed by 1/2 in between its ends (common practice).
const (
	railLong   = 609.6
	railHollow = 12.7
	footLeast  = 25.4 // a narrower foot splinters when it is dragged, unless its arrises are eased
)

// padded are the words by which a text sees to feet that stand on end grain.
var padded = []string{"end grain", "seal", "soak", "pads", "pad ", "glide"}

// eased are the words for arrises that are broken.
var eased = []string{"chamfer", "ease", "break every edge", "break the edge", "break all edges", "round over"}

// feet finds end grain that stands bare on the ground and long rails that lie on
// it.
func feet(s *shop) []Finding {
	var t tally
	for _, p := range s.Placed {
		low, far := math.Inf(1), math.Inf(-1)
		ends := false
		for _, f := range p.Solid.Faces {
			if f.N.Z > -looksUp || !onFloor(f) {
				continue
			}
			ends = ends || f.Kind == geom.End
			if _, short := spread(f.Loops[0], f.N); short < footLeast-floorTol && !s.told(eased...) {
				t.add(p.Part.Key+"foot", -short, Finding{Severity: Warning, Value: short, Limit: footLeast, Unit: "mm",
					Text: fmt.Sprintf("it stands on a flat of %s and no text eases its arrises", s.long(short)),
					Fix:  fmt.Sprintf("make it %s, or chamfer it by %s", s.long(footLeast), s.long(3.175))}, p.Part)
			}
			for _, v := range f.Loops[0] {
				at := v.Dot(p.Pose.Along)
				low, far = math.Min(low, at), math.Max(far, at)
			}
		}
		if ends && !s.told(padded...) && !hasWord(p.Part.Note, padded...) {
			t.add(p.Part.Key+"end", 0, Finding{Severity: Warning, Text: "it stands on end grain, and nothing seals it or keeps it off the ground",
				Fix: fmt.Sprintf("soak the end grain in a finishing step, or set it on pads of %s", s.long(6.35))}, p.Part)
		}
		if long := far - low; long > railLong+slack {
			t.add(p.Part.Key+"rail", long, Finding{Severity: Warning, Value: long, Limit: railLong, Unit: "mm",
				Text: fmt.Sprintf("it lies on the ground over %s", s.long(long)),
				Fix:  fmt.Sprintf("hollow it by %s between its ends", s.long(railHollow))}, p.Part)
		}
	}
	return t.named()
}

// onFloor reports whether a whole face lies on the floor.
func onFloor(f geom.Face) bool {
	for _, v := range f.Loops[0] {
		if math.Abs(v.Z) > floorTol {
			return false
		}
	}
	return true
}
