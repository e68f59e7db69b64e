package check

import (
	"fmt"
	"math"

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
		if !isScrew(f) {
			continue
		}
		d, bite := f.Hardware.Diam, f.Length+sunk(f)-f.Grip
		level, limit, rule := Error, biteNone*d, "under 4 it does not hold"
		switch want := wantedBite(f); {
		case bite < biteNone*d-slack:
		case bite < biteWeak*d-slack:
			level, limit, rule = Warning, biteWeak*d, "6 hold well"
		case bite < want-slack:
			_, held := s.against(bite, want)
			level, limit, rule = Warning, want, "as much as the "+held+" it holds is good"
		default:
			continue
		}
		fix := ""
		switch longer := s.longerFits(f); {
		case longer > 0:
			fix = fmt.Sprintf("there is wood for one of %s", s.long(longer)) + s.eachItsOwn(f.Hardware)
		case level == Warning:
			continue
		default:
			fix = s.thinner(f)
		}
		text := fmt.Sprintf("the screw bites %s, %.1f times its diameter; %s", s.long(bite), bite/d, rule)
		if bite < slack {
			text = fmt.Sprintf("a screw of %s ends in the wood it should hold and does not reach the next", s.long(f.Length))
		}
		t.add(f.Joint.Key, limit-bite, Finding{Severity: level, Value: bite, Limit: limit, Unit: "mm", Text: jointName(f.Joint) + ": " + text, Fix: fix},
			s.Placed[f.Pieces[0]].Part, s.Placed[f.Pieces[1]].Part)
	}
	return t.list()
}

// eachItsOwn tells of the length that is found for each joint, where one length
// that the author gave serves several.
func (s *shop) eachItsOwn(h *model.Hardware) string {
	n := 0
	for _, j := range s.Joints {
		if j.Hardware == h {
			n++
		}
	}
	if h.Length == 0 || n < 2 {
		return ""
	}
	return `, or write length = "auto", which finds one for each joint`
}

// hardlyBites reports whether a screw bites so little that it does not hold.
func hardlyBites(f model.Fastener) bool {
	return isScrew(f) && f.Length+sunk(f)-f.Grip < biteNone*f.Hardware.Diam-slack
}

// wantedBite is 6 diameters, and as much as the thickness that is held (common
// practice). A pocket screw's grip is slanted and is no thickness.
func wantedBite(f model.Fastener) float64 {
	if f.Hardware.Kind == model.PocketScrew {
		return biteWeak * f.Hardware.Diam
	}
	return math.Max(biteWeak*f.Hardware.Diam, f.Grip-sunk(f))
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
		if l > f.Length+slack && l <= room+0.1 && best+sunk(f)-f.Grip < wantedBite(f)-slack {
			best = l
		}
	}
	return best
}

// ahead is the wood in front of a screw's point.
func (s *shop) ahead(f model.Fastener) float64 {
	b := s.bores(f)[1]
	mm, _ := leaves(b.piece.Solid, b.mouth.Add(f.Dir.Mul(inside)), f.Dir)
	return mm + inside - b.deep - sunk(f)
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
