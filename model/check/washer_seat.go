package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/wood"
)

// Around a washer there must be this much flat wood, mm: 1/16 in (common
// practice).
const (
	seatRim  = 1.5875
	seatSpan = 16 // directions looked at
	seatRise = 5  // mm from one height looked at to the next
)

// washerSeat finds washers and heads that do not lie on wood all round, and nuts
// or heads that another piece covers.
func washerSeat(s *shop) []Finding {
	var t tally
	for _, f := range s.fasteners() {
		size, known := wood.Bolt(f.Hardware.Size)
		if !isBolt(f) || !known {
			continue
		}
		r := washerRadius(f, size)
		nut := f.Head.Add(f.Dir.Mul(f.Grip))
		b := s.bores(f)[1]
		under := s.bores(f)[0]
		s.unseated(&t, b, seatRoom{"washer", flatRound(b, nut.Sub(f.Dir.Mul(inside))), r, "the wood ends", "move the bolt in by"})
		s.unseated(&t, b, seatRoom{"washer", s.nearestHole(b, nut), r, "a hole opens", "move the bolt away from it by"})
		s.unseated(&t, under, seatRoom{"head", flatRound(under, f.Head.Add(f.Dir.Mul(inside))), size.Head.Max / 2, "the wood ends", "move the bolt in by"})
		s.covered(&t, f, covering{"nut", nut, f.Dir, f.Length - f.Grip, r, size.Wide.Thick + size.Nut.Thick.Max})
		s.covered(&t, f, covering{"head", f.Head, f.Dir.Neg(), size.HeadHeight.Max, size.Head.Max / 2, size.HeadHeight.Max})
	}
	return t.list()
}

// flatRound is how far the wood reaches all round a bolt from a point under its
// seat.
func flatRound(b bore, at geom.V3) float64 {
	got := math.Inf(1)
	for _, d := range spokes(b.Dir, seatSpan) {
		if mm, ok := leaves(b.piece.Solid, at, d); ok {
			got = math.Min(got, mm)
		}
	}
	return got
}

// seatRoom is what lies on the wood, how far that is flat round a bolt, how far
// the thing reaches, what ends the wood and what to do.
type seatRoom struct {
	who       string
	got, r    float64
	what, fix string
}

func (s *shop) unseated(t *tally, b bore, room seatRoom) {
	least := room.r + seatRim
	if room.got >= least-slack {
		return
	}
	t.add(b.joint("seat "+room.who+room.what), least-room.got, Finding{Severity: Error, Value: room.got, Limit: least, Unit: "mm",
		Text: fmt.Sprintf("%s: the %s reaches %s from the bolt and %s at %s", jointName(b.Joint), room.who, s.long(room.r), room.what, s.long(math.Max(0, room.got))),
		Fix:  fmt.Sprintf("%s %s", room.fix, s.more(least-room.got))}, b.piece.Part)
}

// nearestHole is how far it is from a bolt to the rim of the nearest other hole
// or pocket that opens in the face its nut is on.
func (s *shop) nearestHole(b bore, nut geom.V3) float64 {
	p := b.piece.Part
	at, face := b.piece.Pose.Local(nut), 0
	if b.piece.Pose.LocalDir(b.Dir).Z > 0 {
		face = 1
	}
	flat := segment{P: geom.V3{X: at.X, Y: at.Y}}
	best := math.Inf(1)
	for _, h := range p.Holes {
		off := flat.to(segment{P: geom.V3{X: h.InPart.X, Y: h.InPart.Y}}).Len()
		if h.Into == "face" && off > sameHole && (h.From == face || h.Depth == 0) {
			best = math.Min(best, off-mouthRadius(h, face))
		}
	}
	for _, k := range p.Pockets {
		if k.Face == face {
			best = math.Min(best, flat.to(pocketMouth(k)).Len()-wood.PocketDrill/2)
		}
	}
	return best
}

// sameHole is how near two holes are one, mm.
const sameHole = 0.5

// mouthRadius is half as wide as a hole opens in a face.
func mouthRadius(h model.Hole, face int) float64 {
	r := h.Diam / 2
	if h.From != face {
		return r
	}
	if sc, ok := wood.Screw(sizeOf(h.Hardware)); ok && h.Sink {
		r = math.Max(r, sc.Head/2)
	}
	return math.Max(r, h.BoreDiam/2)
}

func sizeOf(h *model.Hardware) string {
	if h == nil {
		return ""
	}
	return h.Size
}

// pocketMouth is the middle line of a pocket's mouth: a slanting drill opens as
// long as its width over the sine of the slant.
func pocketMouth(k model.Pocket) segment {
	half := wood.PocketDrill / 2 * (1/math.Sin(wood.PocketAngle*math.Pi/180) - 1)
	return segment{geom.V3{X: k.Along - half, Y: k.Across}, geom.V3{X: 2 * half}}
}

// washerRadius is half of what lies on the wood: the washer, else the nut.
func washerRadius(f model.Fastener, size wood.BoltSize) float64 {
	for _, h := range f.Joint.With {
		if h.Kind == model.Washer {
			return size.Wide.Outside / 2
		}
	}
	return math.Max(size.Nut.Corners.Max, size.Nut.Flats.Max) / 2
}

// covering is a nut or head that wants to stand free: where it is seated, which
// way it rises and how high, how far round it reaches, and up to which height;
// above that there is only the end of the bolt.
type covering struct {
	what         string
	at, up       geom.V3
	high, r, low float64
}

func (s *shop) covered(t *tally, f model.Fastener, c covering) {
	for _, p := range s.Placed {
		if p.Index == f.Pieces[0] || p.Index == f.Pieces[1] {
			continue
		}
		free := s.freeOver(p, c)
		if free >= c.high-slack {
			continue
		}
		text := fmt.Sprintf("%s lies %s over the seat of the %s of a bolt, which rises %s", called(p.Part), s.long(free), c.what, s.long(c.high))
		if free < slack {
			text = fmt.Sprintf("%s stands where the %s of a bolt is seated, which rises %s", called(p.Part), c.what, s.long(c.high))
		}
		t.add(f.Joint.Key+c.what+p.Part.Key, c.high-free, Finding{Severity: Error, Value: free, Limit: c.high, Unit: "mm", Text: jointName(f.Joint) + ": " + text,
			Fix: fmt.Sprintf("keep it %s from the bolt's center, or %s more off", s.long(c.r), s.more(c.high-free))}, p.Part)
	}
}

// freeOver is how high a nut or head may rise before a piece is in its way, up to
// its own height.
func (s *shop) freeOver(p *model.Placed, c covering) float64 {
	if !s.boxes[p.Index].Grow(c.high + c.r).Has(c.at) {
		return c.high
	}
	free := c.high
	round := append(spokes(c.up, seatSpan), geom.V3{}) // and the axis itself
	for k := range int(c.high/seatRise) + 2 {
		rise := math.Min(c.high, inside+seatRise*float64(k))
		r := c.r
		if rise > c.low {
			r = 0
		}
		for _, d := range round {
			if at := c.at.Add(d.Mul(r)).Add(c.up.Mul(rise)); p.Solid.Inside(at) {
				free = math.Min(free, under(p, at, c.up, rise))
			}
		}
	}
	return free
}

// under is how high above the seat the underside of a piece is, below a point in
// it that lies rise over the seat.
func under(p *model.Placed, at, up geom.V3, rise float64) float64 {
	down, ok := leaves(p.Solid, at, up.Neg())
	if !ok {
		return 0
	}
	return math.Max(0, rise-down)
}
