// Package source holds the text a plan was read from and the problems found in it.
//
// It knows files, places in them and how a problem is printed. It does not know
// what a plan means.
package source

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// A File is one text that was read, with the name to show for it.
type File struct {
	Name string // as the user named it, or relative to the plan's folder
	Text string
}

// A Span is a run of bytes of a file, half open. The zero Span is "nowhere".
type Span struct {
	File       *File
	Start, End int // byte offsets, Start <= End
}

// Level says how bad a problem is.
type Level int

// The levels, worst first.
const (
	Error   Level = iota // the plan cannot be built
	Warning              // it can, but someone should look
)

// String returns the word that is printed for l.
func (l Level) String() string {
	if l == Warning {
		return "warning"
	}
	return "error"
}

// A Note is another place that matters to a problem, or, with no place, a
// line that belongs to it.
type Note struct {
	At   Span
	Text string
}

// A Problem is one thing wrong with a plan.
type Problem struct {
	Rule  string // "unknown-key": stable, short
	Level Level
	At    Span
	Text  string // one sentence, no full stop
	Also  []Note // other places that matter
	Help  string // what to change, may be empty
}

// Place returns the line and the column of a byte offset, both counted from 1,
// columns in characters. An offset outside the text is moved to its nearest end.
func (f *File) Place(offset int) (line, col int) {
	before := f.Text[:clamp(offset, len(f.Text))]
	start := strings.LastIndexByte(before, '\n') + 1
	return strings.Count(before, "\n") + 1, utf8.RuneCountInString(before[start:]) + 1
}

// line returns the bounds of the line that offset stands on, without its end
// of line.
func (f *File) line(offset int) (start, end int) {
	offset = clamp(offset, len(f.Text))
	start = strings.LastIndexByte(f.Text[:offset], '\n') + 1
	end = len(f.Text)
	if n := strings.IndexByte(f.Text[start:], '\n'); n >= 0 {
		end = start + n
	}
	if end > start && f.Text[end-1] == '\r' {
		end--
	}
	return start, end
}

func clamp(offset, length int) int { return max(0, min(offset, length)) }

// Valid reports whether s names a place inside its file.
func (s Span) Valid() bool {
	return s.File != nil && s.Start >= 0 && s.Start <= s.End && s.End <= len(s.File.Text)
}

// Text returns the text under s, "" for nowhere.
func (s Span) Text() string {
	if !s.Valid() {
		return ""
	}
	return s.File.Text[s.Start:s.End]
}

// String returns where s begins as "file:line:col", only the file's name when
// the place is outside its text, and "" for nowhere.
func (s Span) String() string {
	switch {
	case s.File == nil:
		return ""
	case !s.Valid():
		return s.File.Name
	}
	line, col := s.File.Place(s.Start)
	return fmt.Sprintf("%s:%d:%d", s.File.Name, line, col)
}
