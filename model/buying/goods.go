package buying

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
)

// A Can is a size that finish or glue is sold in.
type Can struct {
	Name   string // "quart"
	Many   string // "quarts"
	Litres float64
}

// Conversions, exact by definition: the US gallon of 231 cubic inches.
const (
	gallon     = 3.785411784
	quart      = gallon / 4
	fluidOunce = gallon / 128
)

// finishCans are the usual cans of exterior oil and stain; common practice.
func finishCans(u expr.Unit) []Can {
	if u == expr.MM {
		return []Can{litreCan(5), litreCan(2.5), litreCan(0.75)}
	}
	return []Can{{"gallon", "gallons", gallon}, {"quart", "quarts", quart}}
}

func litreCan(n float64) Can {
	name := fmt.Sprintf("can of %g liters", n)
	return Can{name, strings.Replace(name, "can", "cans", 1), n}
}

// glueBottles are the usual bottles of wood glue; common practice.
func glueBottles(u expr.Unit) []Can {
	var out []Can
	sizes, unit, litre := []float64{16, 8, 4}, "oz", fluidOunce
	if u == expr.MM {
		sizes, unit, litre = []float64{750, 250, 75}, "ml", 0.001
	}
	for _, n := range sizes {
		name := fmt.Sprintf("bottle of %g %s", n, unit)
		out = append(out, Can{name, strings.Replace(name, "bottle", "bottles", 1), n * litre})
	}
	return out
}

// A Count is a number of cans of one size.
type Count struct {
	Can Can
	N   int
}

// mostCans is how many cans of one size may be left out for smaller ones.
const mostCans = 8

// Cans picks the cans for an amount in litres: the least that is enough, of
// equal amounts the fewest cans, largest size first. Nothing needed is nothing.
func Cans(litres float64, sizes []Can) []Count {
	const drop = 1e-9 // litres
	if litres <= drop || len(sizes) == 0 {
		return nil
	}
	sizes = slices.Clone(sizes)
	slices.SortFunc(sizes, func(a, b Can) int { return cmp.Compare(b.Litres, a.Litres) })
	var best []int
	bestLitres, bestCount := math.Inf(1), 0
	counts := make([]int, len(sizes))
	var pick func(at, cans int, sum float64)
	pick = func(at, cans int, sum float64) {
		if at == len(sizes) {
			if sum < bestLitres-drop || sum < bestLitres+drop && cans < bestCount {
				best, bestLitres, bestCount = slices.Clone(counts), sum, cans
			}
			return
		}
		most := max(0, int(math.Ceil((litres-sum)/sizes[at].Litres-drop)))
		least := max(0, most-mostCans)
		if at == len(sizes)-1 {
			least = most // the smallest cans fill up what is missing
		}
		for n := most; n >= least; n-- {
			counts[at] = n
			pick(at+1, cans+n, sum+float64(n)*sizes[at].Litres)
		}
	}
	pick(0, 0, 0)
	var out []Count
	for i, n := range best {
		if n > 0 {
			out = append(out, Count{sizes[i], n})
		}
	}
	return out
}

// canWords writes cans as asked for in a shop: "1 gallon and 2 quarts".
func canWords(cans []Count) string {
	var out []string
	for _, c := range cans {
		name := c.Can.Many
		if c.N == 1 {
			name = c.Can.Name
		}
		out = append(out, fmt.Sprintf("%d %s", c.N, name))
	}
	return strings.Join(out, " and ")
}

// FinishToBuy says which cans the finish of a plan comes in, "" where the plan
// does not say how far it goes. Litres is what all coats take.
func FinishToBuy(p *model.Plan, litres float64) string {
	return canWords(Cans(litres, finishCans(p.Unit)))
}

// Glue goes on one of two faces that meet, in litres a square metre, and half as
// much again is lost in the bottle, on the brush and squeezed out: common
// practice, from memory.
const (
	glueSpread = 0.2
	glueLost   = 1.5
)

// GlueToBuy says which bottles the glue of a plan comes in, and the area in
// square mm on which it goes; "" where nothing is glued.
func GlueToBuy(p *model.Plan) (string, float64) {
	area, glued := glueArea(p)
	if !glued {
		return "", 0
	}
	const few = 0.01 // litres: some is needed even where no area is known
	litres := max(few, area*1e-6*glueSpread*glueLost)
	return canWords(Cans(litres, glueBottles(p.Unit))), area
}

// touching is how far apart two faces may be and still be glued, mm.
const touching = 0.05

// glueArea is the area of all faces that are glued to each other, square mm,
// measured where the solids of the pieces touch.
func glueArea(p *model.Plan) (area float64, glued bool) {
	for _, j := range p.Joints {
		if !j.Glue && !j.Bond {
			continue
		}
		glued = true
		for _, a := range standing(p, j.First) {
			for _, b := range standing(p, j.Second) {
				if a == b {
					continue
				}
				for _, patch := range geom.Contact(a.Solid, b.Solid, touching) {
					area += patch.Area
				}
			}
		}
	}
	return area, glued
}

// standing are the pieces of some parts that have a place.
func standing(p *model.Plan, parts []*model.Part) []*model.Placed {
	var out []*model.Placed
	for _, q := range p.Placed {
		if q.Solid != nil && slices.Contains(parts, q.Part) {
			out = append(out, q)
		}
	}
	return out
}
