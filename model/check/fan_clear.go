package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
	"planset/model/people"
)

// A fan must pass what it is not fixed to by 1/8 in when it is wet, with half of
// the 1/32 in that a slat may be too wide; 1/4 in as made lets a cloth through
// (common practice).
const (
	fanRoom  = 3.175
	fanGood  = 6.35
	fanWide  = 0.4
	fanBinds = 0.8                 // 1/32 in: less is no gap
	fanTurn  = 0.1 * math.Pi / 180 // pieces that turn by less stand in a row
	fanLooks = 12                  // mm around a piece in which others are looked for
)

// fanClear finds parts, such as arms, that come too near the edge of a fanned
// slat anywhere along it.
func fanClear(s *shop) []Finding {
	fans := s.fans()
	sit, _ := people.SitOf(s.Plan)
	var t tally
	for _, a := range s.Placed {
		if !fans[a.Part.Key] {
			continue
		}
		for _, b := range s.Placed {
			if b.Part.Key == a.Part.Key || s.joined(a.Part.Key, b.Part.Key) {
				continue
			}
			way, near := apart(a.Solid, b.Solid, fanLooks)
			need := fanRoom + fanWide + swell(a, a.Pose.Across.Mul(a.Part.Width/2))
			gap := way.Len()
			// Only what stands beside the slat can bind on its edge.
			if !near || gap >= math.Max(need, fanGood)-slack || math.Abs(way.Dot(a.Pose.Across)) < 0.7*gap {
				continue
			}
			key := a.Part.Key + "\x00" + b.Part.Key
			if gap >= need-slack && !slices.Contains(sit.Arms, b.Index) {
				continue
			}
			if gap >= need-slack {
				is, good := s.against(gap, fanGood)
				t.add(key+"good", fanGood-gap, Finding{Severity: Note, Value: gap, Limit: fanGood, Unit: "mm",
					Text: fmt.Sprintf("%s passes %s at %s; it clears wet slats, and %s is easier to build and to clean", called(b.Part), called(a.Part), is, good),
					Fix:  fmt.Sprintf("move it away by %s", s.more(fanGood-gap))}, a.Part, b.Part)
				continue
			}
			has, wants := s.against(gap, need)
			level := Warning
			if gap < need-fanRoom+fanBinds { // wet, it binds
				level = Error
			}
			t.add(key, need-gap, Finding{Severity: level, Value: gap, Limit: need, Unit: "mm",
				Text: fmt.Sprintf("%s passes %s at %s; wet slats want %s", called(b.Part), called(a.Part), has, wants),
				Fix:  fmt.Sprintf("move it away by %s", s.more(need-gap))}, a.Part, b.Part)
		}
	}
	return t.list()
}

// fans are the keys of the parts whose pieces fan out.
func (s *shop) fans() map[string]bool {
	first, out := map[string]*model.Placed{}, map[string]bool{}
	for _, p := range s.Placed {
		q := first[p.Part.Key]
		if q == nil {
			first[p.Part.Key] = p
			continue
		}
		flat := q.Pose.Thick.Dot(p.Pose.Thick) > 1-1e-9
		turn := q.Pose.Along.Cross(p.Pose.Along).Len()
		if p.Hand == model.NoHand && flat && turn > fanTurn && turn < 0.5 {
			out[p.Part.Key] = true
		}
	}
	return out
}

// joined reports whether any joint holds two parts together.
func (s *shop) joined(a, b string) bool {
	for _, j := range s.Joints {
		if anyKey(j.First, a) && anyKey(j.Second, b) || anyKey(j.First, b) && anyKey(j.Second, a) {
			return true
		}
	}
	return false
}

func anyKey(list []*model.Part, key string) bool {
	for _, p := range list {
		if p.Key == key {
			return true
		}
	}
	return false
}
