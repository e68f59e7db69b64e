package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/wood"
)

// soldLengths are the lengths in which a fastener is commonly sold.
func soldLengths(h *model.Hardware) []float64 {
	switch h.Kind {
	case model.CarriageBolt, model.HexBolt:
		if b, ok := wood.Bolt(h.Size); ok {
			return b.Lengths()
		}
	case model.WoodScrew:
		if sc, ok := wood.Screw(h.Size); ok {
			return sc.Lengths()
		}
	case model.PocketScrew:
		sc, _ := wood.Screw(h.Size)
		var out []float64
		for _, p := range wood.Pockets(sc.Metric) {
			out = append(out, p.Length)
		}
		return out
	}
	return nil
}

// leastLength is how long the bolts of a hardware must be, by the thickest wood
// they go through; 0 for screws.
func (s *shop) leastLength(h *model.Hardware) float64 {
	least := 0.0
	for _, f := range s.fasteners() {
		if size, ok := wood.Bolt(h.Size); ok && f.Hardware == h && isBolt(f) {
			need, _ := boltNeeds(f, size)
			least = math.Max(least, need)
		}
	}
	return least
}

// lengthSold finds fasteners of lengths that no shop has (common practice).
func lengthSold(s *shop) []Finding {
	var out []Finding
	for _, h := range s.Hardware {
		sold := soldLengths(h)
		if len(sold) == 0 || h.Length == 0 {
			continue
		}
		if slices.ContainsFunc(sold, func(l float64) bool { return math.Abs(l-h.Length) < slack }) {
			continue
		}
		near, least := sold[0], s.leastLength(h)
		for _, l := range sold {
			if math.Abs(l-h.Length) < math.Abs(near-h.Length) || near < least-slack {
				near = l
			}
		}
		out = append(out, Finding{Severity: Warning, Value: h.Length, Limit: near, Unit: "mm",
			Text: fmt.Sprintf("the %s %s is hardly sold in %s", h.Size, h.Name, s.long(h.Length)),
			Fix:  fmt.Sprintf("the nearest that is sold is %s", s.long(near))})
	}
	return out
}
