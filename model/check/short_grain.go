package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// Wood breaks along the grain: a horn or a neck in which the fibers run through
// less than 1 1/4 in snaps off when it stands out farther than that; under half
// of it, it will (common practice).
const (
	neckLeast  = 31.75
	neckBreaks = neckLeast / 2
	neckLooks  = 60   // lines of the grain looked at
	runOut     = 20   // degrees: beyond, fibers run out of a slim part
	slimLeast  = 2    // times as long as wide
	acrossMost = 1.25 // a part this much wider than long runs the wrong way
)

// shortGrain finds parts whose grain runs the short way, and horns that hang by
// short fibers.
func shortGrain(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		if p.Width > acrossMost*p.Length {
			t.add(p.Key+"way", p.Width/p.Length, Finding{Severity: Warning, Value: p.Length, Limit: p.Width / acrossMost, Unit: "mm",
				Text: fmt.Sprintf("its grain runs the short way: %s long and %s across", s.long(p.Length), s.long(p.Width)),
				Fix:  fmt.Sprintf("lay its grain along the %s", s.long(p.Width))}, p)
			continue
		}
		if deg, slim := leansOff(p.Board.Outline); p.Free && slim > slimLeast && deg > runOut+angleTol {
			t.add(p.Key+"runs", deg, Finding{Severity: Warning, Value: deg, Limit: runOut, Unit: "deg",
				Text: fmt.Sprintf("its long way lies %s off the grain, so the fibers run out of it", degrees(deg)),
				Fix:  fmt.Sprintf("turn its outline by %s on the board", degrees(deg-runOut))}, p)
			continue
		}
		chord, reach, ok := neck(p)
		if !ok {
			continue
		}
		level := Warning
		if chord < neckBreaks {
			level = Error
		}
		t.add(p.Key+"neck", neckLeast-chord, Finding{Severity: level, Value: chord, Limit: neckLeast, Unit: "mm",
			Text: fmt.Sprintf("a horn of %s hangs by fibers %s long; under %s it snaps off along the grain", s.long(reach), s.long(chord), s.long(neckLeast)),
			Fix:  fmt.Sprintf("give it %s more along the grain, or turn the grain", s.more(neckLeast-chord))}, p)
	}
	return t.named()
}

// run is a stretch of one line of the grain that lies in the wood.
type run struct{ a, b float64 }

// neck is the shortest stretch of grain by which a horn hangs that stands out
// farther than the stretch is long.
func neck(p *model.Part) (chord, reach float64, ok bool) {
	// Turned a quarter, the lines of the grain stand upright.
	upright := p.Board.Outline.Turn(-math.Pi / 2)
	box := upright.Box()
	step := box.W() / neckLooks
	levels := make([][]run, neckLooks)
	for k := range levels {
		ys := upright.Across(box.Min.X + (float64(k)+0.5)*step)
		for i := 0; i+1 < len(ys); i += 2 {
			levels[k] = append(levels[k], run{ys[i], ys[i+1]})
		}
	}
	chord = neckLeast - slack
	for k, list := range levels {
		for _, r := range list {
			long := r.b - r.a
			if long >= chord {
				continue
			}
			out := math.Min(standsOut(levels, k, 1, r), standsOut(levels, k, -1, r)) * step
			if out > long {
				chord, reach, ok = long, out, true
			}
		}
	}
	return chord, reach, ok
}

// standsOut is over how many lines the wood goes on from a stretch to one side.
func standsOut(levels [][]run, k, way int, from run) float64 {
	n := 0.0
	reach := []run{from}
	for k += way; k >= 0 && k < len(levels); k += way {
		var next []run
		for _, r := range levels[k] {
			for _, q := range reach {
				if r.a < q.b && q.a < r.b {
					next = append(next, r)
					break
				}
			}
		}
		if len(next) == 0 {
			break
		}
		reach, n = next, n+1
	}
	return n
}

// leansOff is how far the long way of a free outline lies off the grain, degrees,
// and how many times longer than wide it is.
func leansOff(o geom.Outline) (deg, slim float64) {
	c := o.Centroid()
	var xx, xy, yy float64
	pts := o.Flatten(0.5)
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		w := q.Sub(p).Len()
		m := p.Add(q).Mul(0.5).Sub(c)
		xx, xy, yy = xx+w*m.X*m.X, xy+w*m.X*m.Y, yy+w*m.Y*m.Y
	}
	half := math.Hypot((xx-yy)/2, xy)
	mean := (xx + yy) / 2
	return math.Abs(math.Atan2(2*xy, xx-yy)) / 2 * 180 / math.Pi, math.Sqrt((mean + half) / math.Max(mean-half, 1e-9))
}
