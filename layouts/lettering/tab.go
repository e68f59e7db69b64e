package lettering

import (
	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// Proportions of a tab, in multiples of its height.
const (
	tabPad    = 0.27 // left and right of the letters
	tabLetter = 0.56 // height of the letter
	tabHand   = 0.37 // height of the hand
	tabGap    = 0.09 // between letter and hand
	tabClip   = 0.30 // cut off the corner, along both edges
	tabLine   = 0.07 // width of the outline
	tabLeast  = 1.00 // the least width
)

// Tab draws a part's letter in its small tab, a board with one corner clipped,
// with the lower-left corner at at. Hand is "", "L" or "R". Height is the tab's
// height in mm; at 5 mm and more every letter in it is at least 1.8 mm high. It
// returns the items, one group named "tab" and the code, and the tab's width.
func Tab(at geom.Pt, code, hand string, height float64, accent render.Tone) ([]render.Item, float64) {
	width := TabWidth(code, hand, height)
	letter, small := tabStyles(height)
	board := render.Loop(
		at,
		geom.Pt{X: at.X + width, Y: at.Y},
		geom.Pt{X: at.X + width, Y: at.Y + height*(1-tabClip)},
		geom.Pt{X: at.X + width - height*tabClip, Y: at.Y + height},
		geom.Pt{X: at.X, Y: at.Y + height},
	)
	pen := render.Pen{Width: max(0.25, min(0.7, tabLine*height)), Tone: accent}
	base := geom.Pt{X: at.X + (width-lettersWidth(code, hand, height))/2, Y: at.Y + height*(1-tabLetter)/2}
	items := []render.Item{
		render.Fill{Paths: []render.Path{board}, Tone: render.White},
		render.Stroke{Paths: []render.Path{board}, Pen: pen},
	}
	items = append(items, Line(base, code, letter, render.Left)...)
	if hand != "" {
		base.X += Width(code, letter) + tabGap*height
		items = append(items, Line(base, hand, small, render.Left)...)
	}
	return []render.Item{render.Group{Name: "tab " + code + hand, Items: items}}, width
}

// TabWidth returns the width of the tab that Tab draws, in mm.
func TabWidth(code, hand string, height float64) float64 {
	return max(tabLeast*height, lettersWidth(code, hand, height)+2*tabPad*height)
}

func lettersWidth(code, hand string, height float64) float64 {
	letter, small := tabStyles(height)
	width := Width(code, letter)
	if hand != "" {
		width += tabGap*height + Width(hand, small)
	}
	return width
}

// tabStyles returns the styles of letter and hand in a tab.
func tabStyles(height float64) (letter, hand Style) {
	perPoint := fonts.CapHeight(fonts.CondBold, 1)
	letter = Style{Face: fonts.CondBold, Size: tabLetter * height / perPoint}
	hand = Style{Face: fonts.CondBold, Size: tabHand * height / perPoint}
	return letter, hand
}
