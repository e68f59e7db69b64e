// Package fonts has the typefaces of a plan set and how wide their letters are.
//
// It does not place text. Painters and layouts ask it the same questions, so
// that what is measured is what is painted.
package fonts

// A Face is one of the typefaces shipped with planset.
type Face int8

// The faces.
const (
	Sans Face = iota
	SansBold
	Cond
	CondBold
)
