package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// What a jig and a saw want of a part (common practice): 6 in of straight edge
// along the fence, no loose strip under 1/2 in, and for a slanted end a board no
// wider or thicker than a 10 in miter saw cuts: 5 1/2 by 3 1/2 in square, 4 in wide
// turned to 45 degrees, 1 1/2 in thick tilted to 45 (the last from memory).
const (
	fenceLeast = 152.4
	stripLeast = 12.7
	sawSquare  = 139.7
	sawSlanted = 101.6
	sawDeep    = 88.9 // through the board, square
	sawTilted  = 38.1 // and tilted to 45 degrees
)

// otherSaw are the words for a saw that is not held to the width of a miter saw,
// in a step that makes the part.
var otherSaw = []string{"circular saw", "jigsaw", "hand saw", "handsaw", "miter gauge", "table saw", "sliding saw"}

// jig finds parts that a jig cannot hold, strips that a blade throws, and slanted
// ends too wide for a miter saw.
func jig(s *shop) []Finding {
	var t tally
	for _, p := range s.Parts {
		if p.Width < stripLeast-slack {
			t.add(p.Key+"strip", stripLeast-p.Width, Finding{Severity: Error, Value: p.Width, Limit: stripLeast, Unit: "mm",
				Text: fmt.Sprintf("a strip of %s; under %s the blade catches and throws it", s.long(p.Width), s.long(stripLeast)),
				Fix:  fmt.Sprintf("make it %s wide", s.long(stripLeast))}, p)
		}
		for _, c := range p.Tapers {
			if run := s.fenceRun(p, c); run < fenceLeast-slack {
				t.add(p.Key+"fence", -run, Finding{Severity: Warning, Value: run, Limit: fenceLeast, Unit: "mm",
					Text: fmt.Sprintf("its taper jig has %s of straight edge along the fence; %s holds it steady", s.long(run), s.long(fenceLeast)),
					Fix:  fmt.Sprintf("taper it on a blank %s longer and cut it off afterwards", s.more(fenceLeast-run))}, p)
			}
		}
		s.slanted(&t, p)
	}
	return t.named()
}

// fenceRun is the longest straight edge on the side that a taper leaves.
func (s *shop) fenceRun(p *model.Part, c model.Taper) float64 {
	blank := math.Max(p.Length, p.RoughLength)
	if c.Edge == 2 {
		return blank // the first edge is sawn against the blank's own
	}
	best := 0.0
	low := c.Edge == 1 // the fence is at the other edge
	mid := p.Width / 2
	for _, g := range p.Board.Outline {
		if m := g.Mid(); g.Turn == geom.Straight && (m.Y < mid) == low && math.Abs(g.Tangent(0).X) > 0.99 {
			best = math.Max(best, g.Length())
		}
	}
	return math.Max(best, best+blank-p.Length)
}

// slanted looks at the ends that a miter saw would cut: turned to a miter it
// reaches less far across the board, tilted to a bevel less deep.
func (s *shop) slanted(t *tally, p *model.Part) {
	if p.Template || p.Free || s.madeWith(p, otherSaw...) {
		return
	}
	for _, e := range p.Ends {
		miter, bevel := math.Abs(e.Miter)*180/math.Pi, math.Abs(e.Bevel)*180/math.Pi
		across := sawSquare - (sawSquare-sawSlanted)*miter/45
		deep := sawDeep - (sawDeep-sawTilted)*bevel/45
		if miter >= 1 && miter <= sawTilt && p.Width > across+slack {
			t.add(p.Key+"end", p.Width-across, Finding{Severity: Warning, Value: p.Width, Limit: across, Unit: "mm",
				Text: fmt.Sprintf("an end at %s across %s; a miter saw cuts %s there", degrees(miter), s.long(p.Width), s.long(across)),
				Fix:  fmt.Sprintf("name another saw in the step that cuts it, or make it %s narrower", s.more(p.Width-across))}, p)
		}
		if bevel >= 1 && bevel <= sawTilt && p.Thick > deep+slack {
			t.add(p.Key+"deep", p.Thick-deep, Finding{Severity: Warning, Value: p.Thick, Limit: deep, Unit: "mm",
				Text: fmt.Sprintf("an end beveled by %s through %s; a miter saw cuts %s there", degrees(bevel), s.long(p.Thick), s.long(deep)),
				Fix:  fmt.Sprintf("name another saw in the step that cuts it, or make it %s thinner", s.more(p.Thick-deep))}, p)
		}
	}
}

// madeWith reports whether a step that makes a part has one of some words.
func (s *shop) madeWith(p *model.Part, words ...string) bool {
	for _, st := range s.Steps {
		if has(st.Make, p) && says(st, words...) {
			return true
		}
	}
	return false
}
