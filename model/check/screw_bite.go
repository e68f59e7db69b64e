package check

import (
	"fmt"

	"planset/model"
	"planset/model/wood"
)

// The bite of a screw in diameters: below the first it is weak, below the second
// it does not hold (NDS minimum penetration of 6 diameters, from memory).
const (
	biteWeak = 6
	biteNone = 4
)

// screwBite finds screws that hold too little. Where thin wood lets no longer
// one in, a bite between the limits is the best there is and stands, as a screw
// with 5/8 in in 3/4 in stock does in every workshop.
func screwBite(s *shop) []Finding {
	var t tally
	for _, f := range s.fasteners() {
		d, bite := f.Hardware.Diam, f.Length-f.Grip
		if !isScrew(f) || bite >= biteWeak*d-slack {
			continue
		}
		longer := s.longerFits(f)
		level, limit, rule := Error, float64(biteNone), "under 4 it does not hold"
		if bite >= biteNone*d-slack {
			level, limit, rule = Warning, biteWeak, "6 hold well"
		}
		fix := s.thinner(f)
		switch {
		case longer > 0:
			fix = fmt.Sprintf("there is wood for one of %s", s.long(longer))
		case level == Warning:
			continue
		}
		t.add(f.Joint.Key, limit*d-bite, Finding{Severity: level, Value: bite, Limit: limit * d, Unit: "mm",
			Text: fmt.Sprintf("%s: the screw bites %s, %.1f times its diameter; %s", jointName(f.Joint), s.long(bite), bite/d, rule), Fix: fix},
			s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part)
	}
	return t.list()
}

// longerFits is the shortest sold screw that bites enough and still leaves wood
// in front of its point everywhere in the joint, else the longest that does; 0
// when none is longer.
func (s *shop) longerFits(f model.Fastener) float64 {
	room := f.Length + s.ahead(f) - tipLeft
	for _, g := range f.Joint.Fasteners {
		room = min(room, g.Length+s.ahead(g)-tipLeft)
	}
	best := 0.0
	for _, l := range soldLengths(f.Hardware) {
		if l > f.Length+slack && l <= room+0.1 && best-f.Grip < biteWeak*f.Hardware.Diam {
			best = l
		}
	}
	return best
}

// ahead is the wood in front of a screw's point.
func (s *shop) ahead(f model.Fastener) float64 {
	b := s.bores(f)[1]
	mm, _ := leaves(b.piece.Solid, b.mouth.Add(f.Dir.Mul(inside)), f.Dir)
	return mm + inside - b.deep
}

// thinner names the thickest screw that holds in the same wood.
func (s *shop) thinner(f model.Fastener) string {
	now, known := wood.Screw(f.Hardware.Size)
	best, length := "", 0.0
	for _, sc := range wood.Screws() {
		if !known || sc.Metric != now.Metric || sc.Diameter >= now.Diameter {
			continue
		}
		if l, _, ok := wood.ScrewLength(sc.Size, wood.ScrewStack{Held: f.Grip, Holding: f.Length - f.Grip + s.ahead(f)}); ok {
			best, length = sc.Size, l
		}
	}
	if best == "" {
		return fmt.Sprintf("take a screw %s longer, driven into thicker wood", s.long(biteNone*f.Hardware.Diam-f.Length+f.Grip))
	}
	return fmt.Sprintf("take a screw of size %s, %s long", best, s.long(length))
}
