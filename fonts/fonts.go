// Package fonts has the typefaces of a plan set and how wide their letters are.
//
// It does not place text. Painters and layouts ask it the same questions, so
// that what is measured is what is painted.
package fonts

import (
	_ "embed"
	"fmt"
	"sync"
)

// MM is the length of one point in millimetres.
const MM = 25.4 / 72

// A Face is one of the typefaces shipped with planset.
type Face int8

// The faces.
const (
	Sans Face = iota
	SansBold
	Cond
	CondBold

	count
)

//go:embed IBMPlexSans_400Regular.ttf
var sans []byte

//go:embed IBMPlexSans_600SemiBold.ttf
var sansBold []byte

//go:embed IBMPlexSansCondensed_400Regular.ttf
var cond []byte

//go:embed IBMPlexSansCondensed_600SemiBold.ttf
var condBold []byte

// Faces returns every face, in order.
func Faces() []Face { return []Face{Sans, SansBold, Cond, CondBold} }

// Valid reports whether f is one of the faces.
func (f Face) Valid() bool { return f >= 0 && f < count }

// String returns the name of the face, as "sans-bold".
func (f Face) String() string {
	if !f.Valid() {
		return fmt.Sprintf("face(%d)", int8(f))
	}
	return [count]string{"sans", "sans-bold", "cond", "cond-bold"}[f]
}

// Family returns the name the face's maker gives its family, as style sheets
// use it, and its weight there.
func (f Face) Family() (name string, weight int) {
	name, weight = "IBM Plex Sans", 400
	if f == Cond || f == CondBold {
		name = "IBM Plex Sans Condensed"
	}
	if f == SansBold || f == CondBold {
		weight = 600
	}
	return name, weight
}

// Data returns the TrueType file of f. It must not be changed.
func Data(f Face) []byte {
	return [count][]byte{sans, sansBold, cond, condBold}[f]
}

// Width returns how far s set in f at size points moves along its baseline, in
// millimetres. There is no kerning and there are no ligatures: it is the sum
// of the widths of the letters. A letter the face lacks counts as wide as the
// box that would stand for it.
func Width(f Face, size float64, s string) float64 {
	t := tableOf(f)
	units := 0
	for _, r := range s {
		units += t.advance(r)
	}
	return float64(units) / float64(t.unitsPerEm) * size * MM
}

// Covers reports whether f has a drawing of r.
func Covers(f Face, r rune) bool { return tableOf(f).glyph(r) != 0 }

// Missing returns the runes of s that f lacks, each once, in the order they
// come. It is nil when s can be set whole.
func Missing(f Face, s string) []rune {
	t := tableOf(f)
	var lost []rune
	seen := map[rune]bool{}
	for _, r := range s {
		if t.glyph(r) == 0 && !seen[r] {
			seen[r] = true
			lost = append(lost, r)
		}
	}
	return lost
}

// An Extent is the upright rectangle round the ink of a text in millimetres,
// seen from the start of its baseline, y up.
type Extent struct{ Left, Low, Right, Top float64 }

// Ink returns what s set in f at size points covers; the zero Extent when it
// shows nothing.
func Ink(f Face, size float64, s string) Extent {
	t := tableOf(f)
	var left, low, right, top, x int
	inked := false
	for _, r := range s {
		b := t.boxes[t.glyph(r)]
		if b != (box{}) {
			l, w, h, u := x+int(b.left), int(b.low), x+int(b.right), int(b.top)
			if !inked {
				left, low, right, top, inked = l, w, h, u, true
			}
			left, low, right, top = min(left, l), min(low, w), max(right, h), max(top, u)
		}
		x += t.advance(r)
	}
	return Extent{t.mm(left, size), t.mm(low, size), t.mm(right, size), t.mm(top, size)}
}

// CapHeight returns the height of f's capitals at size points, in millimetres.
func CapHeight(f Face, size float64) float64 { return tableOf(f).mm(tableOf(f).capHeight, size) }

// XHeight returns the height of f's small x at size points, in millimetres.
func XHeight(f Face, size float64) float64 { return tableOf(f).mm(tableOf(f).xHeight, size) }

// Ascent returns how far letters of f at size points rise above the baseline,
// in millimetres: the typographic ascender of its OS/2 table.
func Ascent(f Face, size float64) float64 { return tableOf(f).mm(tableOf(f).ascent, size) }

// Descent returns how far letters of f at size points hang below the
// baseline, in millimetres; it is positive.
func Descent(f Face, size float64) float64 { return tableOf(f).mm(-tableOf(f).descent, size) }

// tables reads the shipped files once. They are part of the program, so a file
// that cannot be read is a fault of the program and not of its user.
var tables = sync.OnceValue(func() [count]*table {
	var all [count]*table
	for _, f := range Faces() {
		t, err := parse(Data(f))
		if err != nil {
			panic(fmt.Sprintf("fonts: %s: %v", f, err))
		}
		all[f] = t
	}
	return all
})

func tableOf(f Face) *table { return tables()[f] }
