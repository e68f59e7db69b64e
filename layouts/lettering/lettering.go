// Package lettering sets words on a page: lines, paragraphs, stacked fractions
// and the part tabs.
//
// It knows type. It does not know what the words mean nor which sheet they are on.
package lettering

import (
	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// A Style is how a text looks.
type Style struct {
	Face fonts.Face
	Size float64 // points
	Tone render.Tone
	Lead float64 // baseline to baseline in multiples of Size; 0 means 1.32
}

// Line sets one line with its baseline at at. A fraction written with the
// fraction slash, as in 35 1⁄2, is set with small figures round a slanted
// stroke, so that it never reads as 351/2.
func Line(at geom.Pt, s string, st Style, align render.Align) []render.Item {
	return Turned(at, s, st, align, 0)
}

// Turned sets one line like Line, turned anticlockwise about at by angle radians.
func Turned(at geom.Pt, s string, st Style, align render.Align, angle float64) []render.Item {
	panic("being written")
}

// Width returns how wide Line sets s, in mm.
func Width(s string, st Style) float64 { panic("being written") }

// Wrap breaks s into lines no wider than width mm, at spaces; a word too long
// for a line is broken where it must be. A newline in s always breaks.
func Wrap(s string, width float64, st Style) []string { panic("being written") }

// Paragraph sets s wrapped to width with the top of its first line's capitals
// at top, and returns the items and the height used, to the last descender.
func Paragraph(top geom.Pt, s string, width float64, st Style) ([]render.Item, float64) {
	panic("being written")
}

// Cap returns the height of a capital in mm.
func Cap(st Style) float64 { panic("being written") }

// Pitch returns the distance between baselines in mm.
func Pitch(st Style) float64 { panic("being written") }

// Tab draws a part's letter in its small tab, a board with one corner clipped,
// with the lower-left corner at at. Hand is "", "L" or "R". Height is the tab's
// height in mm. It returns the items and the tab's width.
func Tab(at geom.Pt, code, hand string, height float64, accent render.Tone) ([]render.Item, float64) {
	panic("being written")
}
