package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/model/people"
)

// Slats side by side: gaps within 1/32 in of each other, edges parallel to a
// tenth of a degree, 1/4 in left when the wood is wet, and on a seat no more than
// 5/8 in, which pinches and takes a toe (common practice). Farther apart than
// slatFar they are not slats of one field.
const (
	slatSeat  = 15.875
	slatAlike = 0.8
	slatWet   = 6.35
	slatFar   = 25
	slatTurn  = 0.1 // degrees
)

// slatGap finds slats whose gaps are unequal, run together, or close when wet.
func slatGap(s *shop) []Finding {
	var out []Finding
	sit, _ := people.SitOf(s.Plan)
	for _, field := range s.fields() {
		out = append(out, s.fieldFaults(field)...)
	}
	return append(out, s.seatGaps(sit.Seats)...)
}

// slatSeatFar is how far apart two boards of a seat are no longer neighbors, mm.
const slatSeatFar = 150

// seatGaps finds gaps between the boards of a seat that are too wide to sit on.
func (s *shop) seatGaps(seats []int) []Finding {
	var t tally
	for _, i := range seats {
		o, ok := s.nextOf(i, seats, slatSeatFar)
		if !ok {
			continue
		}
		if wide := math.Max(o.low, o.far); wide > slatSeat+slack {
			t.add("wide", wide, Finding{Severity: Warning, Value: wide, Limit: slatSeat, Unit: "mm",
				Text: fmt.Sprintf("the gap between %s of the seat is %s; over %s it pinches and takes a toe", bothOf(o.a.Part, o.b.Part), s.long(wide), s.long(slatSeat)),
				Fix:  fmt.Sprintf("close it by %s", s.more(wide-slatSeat))}, o.a.Part, o.b.Part)
		}
	}
	return t.list()
}

// nextOf is the space between a board and the nearest of the others on its far
// side, up to most wide.
func (s *shop) nextOf(i int, others []int, most float64) (next opening, ok bool) {
	p := s.Placed[i]
	for _, k := range others {
		q := s.Placed[k]
		if k == i || q.Center.Sub(p.Center).Dot(p.Pose.Across) <= 0 || !beside(p, q) {
			continue
		}
		o, meets := between(p, q)
		if meets && o.mid() < most && (!ok || o.mid() < next.mid()) {
			next, ok = o, true
		}
	}
	return next, ok
}

// opening is the space between two neighbors in a field.
type opening struct {
	a, b     *model.Placed
	low, far float64 // the gap toward one end and toward the other
	turn     float64 // between the edges, degrees
}

func (o opening) mid() float64 { return (o.low + o.far) / 2 }

func (s *shop) fieldFaults(field []opening) []Finding {
	wide, narrow := field[0], field[0]
	var t tally
	for _, o := range field {
		if o.mid() > wide.mid() {
			wide = o
		}
		if o.mid() < narrow.mid() {
			narrow = o
		}
		if math.Abs(o.turn) > slatTurn {
			t.add("turn", math.Abs(o.turn), Finding{Severity: Warning, Value: math.Abs(o.turn), Limit: slatTurn, Unit: "deg",
				Text: fmt.Sprintf("the gap between %s runs from %s to %s", bothOf(o.a.Part, o.b.Part), s.long(o.low), s.long(o.far)),
				Fix:  fmt.Sprintf("turn each by %.2f° more or less from the next; a fan's turn is twice the taper of one edge", math.Abs(o.turn))}, o.a.Part, o.b.Part)
		}
		left := math.Min(o.low, o.far) - swell(o.a, o.a.Pose.Across.Mul(o.a.Part.Width))/2 - swell(o.b, o.b.Pose.Across.Mul(o.b.Part.Width))/2
		if left < slatWet-0.1 {
			t.add("wet", -left, Finding{Severity: Warning, Value: left, Limit: slatWet, Unit: "mm",
				Text: fmt.Sprintf("the gap between %s closes to %s when they are wet; %s drains and dries", bothOf(o.a.Part, o.b.Part), s.long(math.Max(0, left)), s.long(slatWet)),
				Fix:  fmt.Sprintf("widen the gap by %s", s.more(slatWet-left))}, o.a.Part, o.b.Part)
		}
	}
	if d := wide.mid() - narrow.mid(); d > slatAlike+0.01 {
		t.add("alike", d, Finding{Severity: Warning, Value: d, Limit: slatAlike, Unit: "mm",
			Text: fmt.Sprintf("gaps differ: %s between %s, %s between %s", s.long(wide.mid()), bothOf(wide.a.Part, wide.b.Part), s.long(narrow.mid()), bothOf(narrow.a.Part, narrow.b.Part)),
			Fix:  fmt.Sprintf("move %s by %s", called(narrow.b.Part), s.more(d/2))}, wide.a.Part, wide.b.Part, narrow.a.Part, narrow.b.Part)
	}
	return t.list()
}

// fields are the runs of two gaps or more between pieces that lie in one plane
// with nearly one direction.
func (s *shop) fields() [][]opening {
	var out [][]opening
	done := map[*model.Placed]bool{}
	for _, p := range s.Placed {
		if done[p] {
			continue
		}
		var row []*model.Placed
		for _, q := range s.Placed {
			if beside(p, q) && !done[q] {
				row = append(row, q)
			}
		}
		side := func(q *model.Placed) float64 { return q.Center.Dot(p.Pose.Across) }
		slices.SortStableFunc(row, func(a, b *model.Placed) int { return cmp.Compare(side(a), side(b)) })
		var run []opening
		for i, q := range row {
			done[q] = true
			if i+1 == len(row) {
				break
			}
			o, ok := between(q, row[i+1])
			ok = ok && o.mid() > slack && o.mid() < slatFar
			if ok {
				run = append(run, o)
			}
			if (!ok || i+2 == len(row)) && len(run) > 0 {
				if len(run) > 1 {
					out = append(out, run)
				}
				run = nil
			}
		}
	}
	return out
}

// beside reports whether q lies in the plane of p and runs nearly as it does.
func beside(p, q *model.Placed) bool {
	const nearly = 0.97 // the cosine of 14 degrees: the whole of a fan
	level := math.Abs(q.Pose.Point(geom.V3{Z: q.Part.Thick / 2}).Sub(p.Pose.Point(geom.V3{Z: p.Part.Thick / 2})).Dot(p.Pose.Thick))
	return math.Abs(p.Pose.Thick.Dot(q.Pose.Thick)) > 1-1e-6 && math.Abs(p.Pose.Along.Dot(q.Pose.Along)) > nearly && level < slack
}

// between measures the space between two neighbors near both ends of the
// shorter one; not ok when an edge is not straight or they are no neighbors.
func between(a, b *model.Placed) (opening, bool) {
	ea, ok1 := edgeToward(a, b.Center)
	eb, ok2 := edgeToward(b, a.Center)
	if !ok1 || !ok2 {
		return opening{}, false
	}
	u, v := ea.U.Unit(), eb.U.Unit()
	if u.Dot(v) < 0 {
		v = v.Neg()
	}
	square := a.Pose.Thick.Cross(u)
	if square.Dot(b.Center.Sub(a.Center)) < 0 {
		square = square.Neg()
	}
	gap := func(at geom.V3) float64 {
		t := at.Sub(eb.P).Dot(v)
		return eb.P.Add(v.Mul(t)).Sub(at).Dot(square)
	}
	o := opening{a: a, b: b, low: gap(ea.P), far: gap(ea.P.Add(ea.U)), turn: math.Asin(math.Max(-1, math.Min(1, v.Dot(square)))) * 180 / math.Pi}
	return o, overlaps(a, b)
}

// overlaps reports whether two pieces run beside each other for most of the
// shorter one.
func overlaps(a, b *model.Placed) bool {
	mid := b.Center.Sub(a.Center).Dot(a.Pose.Along)
	return math.Abs(mid) < math.Max(a.Part.Length, b.Part.Length)/2
}

// edgeToward is the long edge of a piece on the side of a point, between a sixth
// and five sixths of its length, if it is straight there.
func edgeToward(p *model.Placed, to geom.V3) (segment, bool) {
	far := p.Pose.Local(to).Y > p.Pose.Local(p.Center).Y
	at := func(share float64) (geom.V3, bool) {
		x := p.Part.Length * share
		ys := p.Part.Board.Outline.Across(x)
		if len(ys) < 2 {
			return geom.V3{}, false
		}
		y := ys[0]
		if far {
			y = ys[len(ys)-1]
		}
		return p.Pose.Point(geom.V3{X: x, Y: y, Z: p.Part.Thick / 2}), true
	}
	low, ok1 := at(1.0 / 6)
	mid, ok2 := at(1.0 / 2)
	high, ok3 := at(5.0 / 6)
	if !ok1 || !ok2 || !ok3 {
		return segment{}, false
	}
	return segment{low, high.Sub(low)}, low.Add(high).Mul(0.5).Sub(mid).Len() < 0.1
}
