package inspect

import (
	"strings"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// How far letters reach, in ems of the house face, measured on its outlines:
// ascenders and brackets above capitals, tails and brackets below the baseline.
const (
	round = 0.71 // round figures and letters, a hair over the capitals
	tall  = 0.76
	crown = 0.98 // capitals with an accent
	deep  = 0.212
)

// TextQuad returns the ink box of t: its width on the baseline by the height
// its letters reach.
func TextQuad(t render.Text) Quad {
	em := t.Size * fonts.MM
	w := fonts.Width(t.Face, t.Size, t.Text)
	hi, lo := round*em, 0.0
	switch {
	case strings.ContainsAny(t.Text, "ÀÁÂÃÄÅÈÉÊËÌÍÎÏÑÒÓÔÕÖÙÚÛÜÝ"):
		hi = crown * em
	case strings.ContainsAny(t.Text, "bdfhijklßàáâãäåèéêëìíîïñòóôõöùúûüý()[]{}|/\"'*†‡@"):
		hi = tall * em
	}
	if strings.ContainsAny(t.Text, "gjpqyç,;()[]{}|/Q@µ") {
		lo = -deep * em
	}
	start := 0.0
	switch t.Align {
	case render.Middle:
		start = -w / 2
	case render.Right:
		start = -w
	}
	c := geom.Pt{X: start + w/2, Y: (hi + lo) / 2}
	return Quad{C: t.At.Add(c.Turn(t.Angle)), U: geom.Pt{X: 1}.Turn(t.Angle), W: w, H: hi - lo}
}
