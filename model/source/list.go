package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A List gathers problems in any order. The zero List is ready to use; it is
// not for several goroutines at once.
type List struct{ problems []*Problem }

// Errorf adds an error and returns it, so that notes and help can be hung on.
func (l *List) Errorf(at Span, rule, format string, args ...any) *Problem {
	return l.put(Problem{Rule: rule, Level: Error, At: at, Text: fmt.Sprintf(format, args...)})
}

// Warnf adds a warning and returns it.
func (l *List) Warnf(at Span, rule, format string, args ...any) *Problem {
	return l.put(Problem{Rule: rule, Level: Warning, At: at, Text: fmt.Sprintf(format, args...)})
}

// Add adds a finished problem.
func (l *List) Add(p Problem) { l.put(p) }

// Append adds all problems of other, which may be nil.
func (l *List) Append(other *List) {
	if other != nil {
		l.problems = append(l.problems, other.problems...)
	}
}

func (l *List) put(p Problem) *Problem {
	l.problems = append(l.problems, &p)
	return &p
}

// Failed reports whether any problem is an error.
func (l *List) Failed() bool {
	return slices.ContainsFunc(l.problems, func(p *Problem) bool { return p.Level == Error })
}

// Len returns how many problems were added, repeats included.
func (l *List) Len() int { return len(l.problems) }

// All returns the problems by file, place, level, rule and text. A problem that
// was found twice (same place, level, rule and text) is told once.
func (l *List) All() []Problem {
	all := make([]Problem, len(l.problems))
	for i, p := range l.problems {
		all[i] = *p
	}
	slices.SortStableFunc(all, compare)
	return slices.CompactFunc(all, func(p, q Problem) bool { return compare(p, q) == 0 })
}

func compare(p, q Problem) int {
	return cmp.Or(
		cmp.Compare(p.At.name(), q.At.name()),
		cmp.Compare(p.At.Start, q.At.Start),
		cmp.Compare(p.At.End, q.At.End),
		cmp.Compare(p.Level, q.Level),
		cmp.Compare(p.Rule, q.Rule),
		cmp.Compare(p.Text, q.Text),
	)
}

func (s Span) name() string {
	if s.File == nil {
		return ""
	}
	return s.File.Name
}

// Note adds another place that matters and returns p. With the zero Span the
// text stands on a line of its own.
func (p *Problem) Note(at Span, format string, args ...any) *Problem {
	p.Also = append(p.Also, Note{At: at, Text: fmt.Sprintf(format, args...)})
	return p
}

// Fix says what to change and returns p.
func (p *Problem) Fix(format string, args ...any) *Problem {
	p.Help = fmt.Sprintf(format, args...)
	return p
}

// longestHelp is how many bytes of known words are worth listing.
const longestHelp = 300

// Suggest asks for the known word nearest to the one that was written, or, when
// none is near enough, lists the known words if they are few. It returns p.
func (p *Problem) Suggest(word string, known []string) *Problem {
	if near, ok := Nearest(word, known); ok {
		return p.Fix("did you mean %q?", near)
	}
	if list := strings.Join(known, ", "); list != "" && len(list) <= longestHelp {
		p.Fix("known here: %s", list)
	}
	return p
}
