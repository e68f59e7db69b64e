package assembly

import (
	"strings"

	"planset/model/source"
)

// answer is what came of a question: done, and whether it went well.
type answer struct{ ok bool }

// asking is a question being worked on.
type asking struct {
	what string
	at   source.Span
}

// once answers a question the first time it is asked and remembers whether that
// went well. A question that leads back to itself is a circle, told by the names
// along it; it is told once.
func (s *solver) once(what string, at source.Span, work func() bool) bool {
	if a, ok := s.asked[what]; ok {
		return a.ok
	}
	for i, q := range s.stack {
		if q.what == what {
			s.circle(i, at)
			return false
		}
	}
	s.stack = append(s.stack, asking{what, at})
	ok := work()
	s.stack = s.stack[:len(s.stack)-1]
	if a, done := s.asked[what]; done {
		return a.ok
	}
	s.asked[what] = &answer{ok}
	return ok
}

// circle tells a circle and marks every question in it as failed.
func (s *solver) circle(from int, at source.Span) {
	var names []string
	for _, q := range s.stack[from:] {
		names = append(names, q.what)
		s.asked[q.what] = &answer{false}
	}
	names = append(names, s.stack[from].what)
	if !at.Valid() {
		at = s.stack[from].at
	}
	p := s.problems.Errorf(at, "circle", "this goes round in a circle: %s", strings.Join(names, " needs "))
	p.Fix("give one of them a value of its own")
}
