package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/geom"
)

// A child's body goes through an opening of 3 1/2 in, and the head does not go
// through one of less than 9 in (openings of play equipment, ASTM F1487, from
// memory).
const (
	headLow  = 88.9
	headHigh = 228.6
)

// headCaught finds openings between boards in which a child's head is caught, in
// a piece that children use.
func headCaught(s *shop) []Finding {
	if !s.Children {
		return nil
	}
	all := make([]int, len(s.Placed))
	for i := range all {
		all[i] = i
	}
	var t tally
	for _, i := range all {
		o, ok := s.nextOf(i, all, 2*headHigh)
		if !ok {
			continue
		}
		wide := math.Max(o.low, o.far)
		if wide <= headLow+slack || math.Min(o.low, o.far) >= headHigh-slack || s.barred(o) {
			continue
		}
		t.add(o.a.Part.Key+"\x00"+o.b.Part.Key, wide, Finding{Severity: Warning, Value: wide, Limit: headLow, Unit: "mm",
			Text: fmt.Sprintf("the opening between %s is %s; from %s to %s a child's head is caught", bothOf(o.a.Part, o.b.Part), s.long(wide), s.long(headLow), s.long(headHigh)),
			Fix:  fmt.Sprintf("close it by %s, or open it by %s", s.more(wide-headLow), s.more(headHigh-math.Min(o.low, o.far)))}, o.a.Part, o.b.Part)
	}
	return t.list()
}

// barNear is how far off the plane of two boards others still bar the opening
// between them, mm.
const barNear = 60

// barred reports whether boards that cross an opening leave no room in it for a
// head: the slats of a back cross what is between its rails.
func (s *shop) barred(o opening) bool {
	within := boxIn(o.a.Pose, o.a)
	other := boxIn(o.a.Pose, o.b)
	low, far := math.Min(within.Max.Y, other.Max.Y), math.Max(within.Min.Y, other.Min.Y)
	var bars [][2]float64
	for _, q := range s.Placed {
		b := boxIn(o.a.Pose, q)
		if q != o.a && q != o.b && b.Min.Y < low+1 && b.Max.Y > far-1 && b.Max.Z > -barNear && b.Min.Z < o.a.Part.Thick+barNear {
			bars = append(bars, [2]float64{b.Min.X, b.Max.X})
		}
	}
	slices.SortFunc(bars, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	at, end := math.Max(within.Min.X, other.Min.X), math.Min(within.Max.X, other.Max.X)
	for _, b := range bars {
		if b[0]-at > headLow {
			return false
		}
		at = math.Max(at, b[1])
	}
	return len(bars) > 0 && end-at <= headLow
}

// boxIn is the box around a piece in the frame of a pose.
func boxIn(pose geom.Pose, q *model.Placed) geom.Box3 {
	box := geom.NoBox3()
	for _, v := range q.Solid.Points() {
		box = box.With(pose.Local(v))
	}
	return box
}
