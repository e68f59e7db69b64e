package check

import (
	"fmt"
	"math"
	"slices"

	"planset/model"
)

// Between boards that move against each other a finger is caught from 5/16 to 1
// in (the gap band of EN 581-1, 8 to 25 mm, from memory).
const (
	pinchLow  = 8.0
	pinchHigh = 25.0
)

// pinch finds gaps beside what turns on one bolt.
func pinch(s *shop) []Finding {
	var t tally
	for _, lump := range s.swinging() {
		for _, i := range lump {
			s.pinched(&t, i, lump)
		}
	}
	return t.list()
}

// pinched looks at one piece of a lump that turns.
func (s *shop) pinched(t *tally, i int, lump []int) {
	p := s.Placed[i]
	for k, q := range s.Placed {
		if slices.Contains(lump, k) || s.ties[[2]int{i, k}] {
			continue
		}
		way, near := apart(p.Solid, q.Solid, pinchHigh)
		gap := way.Len()
		if !near || gap < pinchLow-slack || gap > pinchHigh-slack {
			continue
		}
		// Seen from the other side it is the same gap.
		key := min(p.Part.Key, q.Part.Key) + "\x00" + max(p.Part.Key, q.Part.Key)
		t.add(key, pinchHigh-gap, Finding{Severity: Warning, Value: gap, Limit: pinchLow, Unit: "mm",
			Text: fmt.Sprintf("%s turns on one bolt and passes %s at %s; from %s to %s a finger is caught", called(p.Part), called(q.Part), s.long(gap), s.long(pinchLow), s.long(pinchHigh)),
			Fix:  fmt.Sprintf("close the gap by %s, or open it by %s", s.more(gap-pinchLow), s.more(pinchHigh-gap))}, p.Part, q.Part)
	}
}

// swinging are the lumps of pieces that all the bolts that hold them let turn,
// because they lie in one line; of two such the smaller.
func (s *shop) swinging() [][]int {
	now := make([]int, len(s.Placed))
	for i := range now {
		now[i] = i
	}
	for _, j := range s.Joints {
		for _, pair := range s.gripped(j) {
			if !s.hinged(pair) {
				merge(now, pair[0], pair[1])
			}
		}
	}
	var out [][]int
	for l := range now {
		var lump []int
		for i, n := range now {
			if n == l {
				lump = append(lump, i)
			}
		}
		if len(lump) > 0 && 2*len(lump) <= len(now) && s.turns(now, l) {
			out = append(out, lump)
		}
	}
	return out
}

// hinged reports whether two pieces are held together by bolts in one line alone.
func (s *shop) hinged(pair [2]int) bool {
	var all []model.Fastener
	for _, j := range s.Joints {
		if (j.Glue || j.Bond) && s.glues(j, pair) {
			return false
		}
		for _, f := range j.Fasteners {
			if f.Pieces == pair || f.Pieces == [2]int{pair[1], pair[0]} {
				all = append(all, f)
			}
		}
	}
	return len(all) > 0 && oneLine(all)
}

// glues reports whether a joint glues two pieces.
func (s *shop) glues(j *model.Joint, pair [2]int) bool {
	a, b := s.Placed[pair[0]].Part, s.Placed[pair[1]].Part
	return has(j.First, a) && has(j.Second, b) || has(j.First, b) && has(j.Second, a)
}

// turns reports whether all fasteners between a lump and the rest are bolts in
// one line.
func (s *shop) turns(lumps []int, lump int) bool {
	var all []model.Fastener
	for _, f := range s.fasteners() {
		if (lumps[f.Pieces[0]] == lump) != (lumps[f.Pieces[1]] == lump) {
			all = append(all, f)
		}
	}
	return len(all) > 0 && oneLine(all)
}

// oneLine reports whether fasteners are bolts whose axes lie in one line.
func oneLine(list []model.Fastener) bool {
	for _, f := range list {
		off := f.Head.Sub(list[0].Head)
		if !isBolt(f) || math.Abs(f.Dir.Dot(list[0].Dir)) < 1-1e-6 || off.Cross(f.Dir).Len() > slack {
			return false
		}
	}
	return true
}
