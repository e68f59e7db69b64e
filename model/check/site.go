package check

import (
	"slices"
	"strings"

	"planset/model"
)

// site is the work as it grows: which pieces are in one lump at each step. Two
// lumps are two things on the bench, and neither is in the other's way.
type site struct {
	lumps [][]int // before each step and after the last: the lump of each piece
}

// newSite follows the joints through the steps.
func newSite(s *shop) *site {
	now := make([]int, len(s.Placed))
	for i := range now {
		now[i] = i
	}
	out := &site{lumps: [][]int{now}}
	for _, st := range s.Steps {
		now = slices.Clone(now)
		for _, j := range st.Fasten {
			for _, pair := range s.gripped(j) {
				merge(now, pair[0], pair[1])
			}
		}
		out.lumps = append(out.lumps, now)
	}
	return out
}

// merge makes two lumps one.
func merge(lumps []int, a, b int) {
	from, to := lumps[a], lumps[b]
	for i, l := range lumps {
		if l == from {
			lumps[i] = to
		}
	}
}

// gripped are the pairs of pieces that a joint really holds: by its fasteners, or
// by glue where they touch.
func (s *shop) gripped(j *model.Joint) [][2]int {
	if !j.Bond {
		return s.pairs(j)
	}
	var out [][2]int
	for _, p := range s.pairs(j) {
		if p[0] != p[1] && len(s.contact(p[0], p[1])) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// with are the pieces that stand in one lump with a or b before a step: what
// the hand has to work round.
func (w *site) with(step int, pieces ...int) []int {
	var out []int
	for i, l := range w.lumps[step] {
		for _, p := range pieces {
			if l == w.lumps[step][p] && !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
	}
	return out
}

// addedIn is the index of the step that adds a piece, -1 when none does.
func (s *shop) addedIn(piece int) int {
	return slices.IndexFunc(s.Steps, func(st *model.Step) bool { return slices.Contains(st.Add, piece) })
}

// says reports whether a step's text has one of some words.
func says(st *model.Step, words ...string) bool {
	return hasWord(strings.Join(append([]string{st.Title, st.Do, st.Watch, st.Test, st.Mistake, st.Turned}, st.Notes...), " "), words...)
}

func hasWord(text string, words ...string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, w) })
}

// A meeting is two lumps that a step brings together: the mover is the smaller.
type meeting struct {
	step        int // index
	mover, rest []int
}

// meetings are all of them, in the order of the work.
func (s *shop) meetings() []meeting {
	var out []meeting
	for i, st := range s.Steps {
		seen := map[[2]int]bool{}
		lumps := s.site.lumps[i]
		for _, j := range st.Fasten {
			for _, p := range s.gripped(j) {
				a, b := min(lumps[p[0]], lumps[p[1]]), max(lumps[p[0]], lumps[p[1]])
				if a == b || seen[[2]int{a, b}] {
					continue
				}
				seen[[2]int{a, b}] = true
				m := meeting{i, s.site.with(i, p[0]), s.site.with(i, p[1])}
				if len(m.mover) > len(m.rest) || len(m.mover) == len(m.rest) && m.mover[0] < m.rest[0] {
					m.mover, m.rest = m.rest, m.mover
				}
				out = append(out, m)
			}
		}
	}
	return out
}

// partsAt are the parts of some pieces, each once.
func (s *shop) partsAt(pieces []int) []*model.Part {
	var out []*model.Part
	for _, i := range pieces {
		if !has(out, s.Placed[i].Part) {
			out = append(out, s.Placed[i].Part)
		}
	}
	return out
}
