// Package source holds the text a plan was read from and the problems found in it.
//
// It knows files, places in them and how a problem is printed. It does not know
// what a plan means.
package source

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

// A Note is another place that matters to a problem.
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
