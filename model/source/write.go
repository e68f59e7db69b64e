package source

import (
	"fmt"
	"io"
	"strings"
	"unicode"
)

// width is how many characters of a source line are shown at most.
const width = 100

// gutter is the room for line numbers: they are set flush right in it.
const gutter = 6

// Write prints the problems of list for a person: where and what, the line it
// is about with a mark under the place, the other places that matter, and what
// would help. Colour is by the ANSI codes that every terminal knows.
func Write(w io.Writer, list *List, color bool) {
	for _, p := range list.All() {
		io.WriteString(w, printer{color}.problem(p))
	}
}

// ink is an ANSI colour code.
type ink string

const (
	bold   ink = "1"
	red    ink = "1;31"
	yellow ink = "1;33"
	faint  ink = "2"
	green  ink = "32"
)

type printer struct{ color bool }

func (pr printer) in(c ink, text string) string {
	if !pr.color || text == "" {
		return text
	}
	return "\x1b[" + string(c) + "m" + text + "\x1b[0m"
}

func (pr printer) problem(p Problem) string {
	var b strings.Builder
	mark := red
	if p.Level == Warning {
		mark = yellow
	}
	if place := p.At.String(); place != "" {
		b.WriteString(pr.in(bold, place+":") + " ")
	}
	b.WriteString(pr.in(mark, p.Level.String()+":") + " " + pr.in(bold, visible(p.Text)))
	if p.Help == "" && p.Rule != "" {
		b.WriteString("   " + pr.in(faint, "["+p.Rule+"]"))
	}
	b.WriteByte('\n')
	also := p.Also
	if p.At.Valid() {
		// A note on the problem's own place shares its mark.
		text := ""
		if len(also) > 0 && also[0].At == p.At {
			text, also = also[0].Text, also[1:]
		}
		b.WriteString(pr.excerpt(p.At, mark, '^', text))
	}
	for _, n := range also {
		b.WriteString(pr.note(p, n))
	}
	if p.Help != "" {
		b.WriteString("   " + pr.in(green, "help:") + " " + visible(p.Help))
		if p.Rule != "" {
			b.WriteString("   " + pr.in(faint, "["+p.Rule+"]"))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func (pr printer) note(p Problem, n Note) string {
	switch {
	case n.At.File == nil:
		return strings.Repeat(" ", gutter) + "   " + visible(n.Text) + "\n"
	case !n.At.Valid():
		return "   " + n.At.String() + ": " + visible(n.Text) + "\n"
	case n.At.File != p.At.File:
		return "   " + n.At.String() + ":\n" + pr.excerpt(n.At, faint, '-', n.Text)
	}
	return pr.excerpt(n.At, faint, '-', n.Text)
}

// excerpt shows the line under at (the first, if there are several), a run of
// marks under the place and text after it.
func (pr printer) excerpt(at Span, c ink, mark rune, text string) string {
	start, end := at.File.line(at.Start)
	from := min(at.Start, end)
	to := min(max(at.End, from), end)
	line := at.File.Text[start:end]
	shown, lead, run := cut(line, from-start, to-start)
	number, _ := at.File.Place(at.Start)
	marks := strings.Repeat(string(mark), max(run, 1))
	if text != "" {
		text = " " + visible(text)
	}
	return fmt.Sprintf("%s %s %s\n%s %s %s%s%s\n",
		pr.in(faint, fmt.Sprintf("%*d", gutter, number)), pr.in(faint, "|"), shown,
		strings.Repeat(" ", gutter), pr.in(faint, "|"), strings.Repeat(" ", lead), pr.in(c, marks), text)
}

// cut makes a line fit for printing. It returns the shown text, the columns
// before the place [from, to) of the line and the columns under it. A long line
// keeps a stretch around the place, with "…" for what is left away.
func cut(line string, from, to int) (shown string, lead, run int) {
	before, under, after := []rune(visible(line[:from])), []rune(visible(line[from:to])), []rune(visible(line[to:]))
	if len(before)+len(under)+len(after) <= width {
		return string(before) + string(under) + string(after), len(before), len(under)
	}
	if len(under) > width*3/4 {
		under = append(under[:width*3/4], '…')
		after = nil
	}
	room := width - len(under)
	keep := min(len(before), max(room/2, room-len(after)))
	if keep < len(before) {
		before = append([]rune{'…'}, before[len(before)-keep:]...)
	}
	if rest := room - keep; rest < len(after) {
		after = append(after[:max(rest, 0)], '…')
	}
	return string(before) + string(under) + string(after), len(before), len(under)
}

// visible returns text as it may go to a terminal: a tab becomes four blanks,
// and nothing gets through that would steer the terminal or turn the reading
// direction round.
func visible(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\t':
			b.WriteString("    ")
		case r == '\n':
			b.WriteByte(' ')
		case unicode.In(r, unicode.Cc, unicode.Bidi_Control):
			b.WriteRune('·')
		default:
			b.WriteRune(r) // a broken byte arrives as U+FFFD
		}
	}
	return b.String()
}
