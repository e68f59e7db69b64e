package lettering

import (
	"planset/fonts"
)

// A piece is a run of a line that is set in one go: letters of one size, or
// one drawn sign.
type piece struct {
	text    string
	sign    rune // drawn by us when not 0
	size    float64
	face    fonts.Face
	x, rise float64 // mm from the start of the line and above its baseline
}

// A row is a line cut into pieces.
type row struct {
	pieces []piece
	width  float64 // mm
}

// Proportions of a fraction, in ems of the full size, judged by eye on paper.
const (
	figures    = 0.72  // size of the small figures
	figuresMax = 0.92  // size they may grow to, to stay legible
	legible    = 1.82  // mm: small figures are this high if figuresMax lets them
	lift       = 0.12  // how far the numerator stands above the capitals
	clear      = 0.055 // between the ink of figures and stroke
	wholeGap   = 0.14  // between a whole number and its fraction
	tail       = 0.03  // after the denominator
)

const slash = '⁄'

// plainly reports whether s is letters only: no fraction, no sign that is drawn.
func plainly(s string, f fonts.Face) bool {
	for _, r := range s {
		if r < 0x80 {
			continue
		}
		if r == slash || drawable(r) && !fonts.Covers(f, r) {
			return false
		}
	}
	return true
}

// cut cuts s into pieces and finds where each starts.
func cut(s string, st Style) row {
	var r row
	if plainly(s, st.Face) {
		if s != "" {
			r.pieces = []piece{{text: s, face: st.Face, size: st.Size}}
			r.width = fonts.Width(st.Face, st.Size, s)
		}
		return r
	}
	runes := []rune(s)
	plain := 0 // start of the letters not yet in a piece
	flush := func(end int) {
		if end > plain {
			text := string(runes[plain:end])
			r.pieces = append(r.pieces, piece{text: text, face: st.Face, size: st.Size, x: r.width})
			r.width += fonts.Width(st.Face, st.Size, text)
		}
	}
	for i := 0; i < len(runes); {
		if drawable(runes[i]) && !fonts.Covers(st.Face, runes[i]) {
			flush(i)
			r.pieces = append(r.pieces, piece{sign: runes[i], size: st.Size, x: r.width})
			r.width += signWidth(runes[i]) * st.Size * fonts.MM
			i++
			plain = i
			continue
		}
		if mid, end := fractionAt(runes, i); end > 0 {
			flush(i)
			if i > 1 && gap(runes[i-1]) && endsInWhole(runes[:i-1]) {
				// The gap after a whole number is thinner than a word space.
				r.width += wholeGap*st.Size*fonts.MM - fonts.Width(st.Face, st.Size, string(runes[i-1]))
			}
			r.fraction(string(runes[i:mid]), string(runes[mid+1:end]), st)
			i, plain = end, end
			continue
		}
		i++
	}
	flush(len(runes))
	return r
}

// fraction adds a fraction to r. The figures stand off the stroke by their ink,
// not by their widths: the stroke of the faces is made for smaller figures and
// would run through these.
func (r *row) fraction(over, under string, st Style) {
	em := st.Size * fonts.MM
	scale := min(max(figures, legible/Cap(st)), figuresMax)
	small := st.Size * scale
	rise := Cap(st)*(1-scale) + lift*em
	num, den := fonts.Ink(st.Face, small, over), fonts.Ink(st.Face, small, under)
	stroke := strokeFace(st.Face)
	bar := fonts.Ink(stroke, st.Size, string(slash))
	thick := stem(st.Face) * 1.25 * em // measured level, not across
	lean := (bar.Right - bar.Left - thick) / bar.Top

	barAt := r.width + num.Right + clear*em - lean*rise - bar.Left
	denAt := barAt + bar.Left + lean*den.Top + thick + clear*em - den.Left
	r.pieces = append(r.pieces,
		piece{text: over, face: st.Face, size: small, x: r.width, rise: rise},
		piece{text: string(slash), face: stroke, size: st.Size, x: barAt},
		piece{text: under, face: st.Face, size: small, x: denAt},
	)
	r.width = max(denAt+fonts.Width(st.Face, small, under), barAt+bar.Right) + tail*em
}

// strokeFace returns the face that has the stroke of a fraction set in f. The
// condensed faces draw theirs with a gap in the middle, too faint to part
// figures of this size.
func strokeFace(f fonts.Face) fonts.Face {
	switch f {
	case fonts.Cond:
		return fonts.Sans
	case fonts.CondBold:
		return fonts.SansBold
	}
	return f
}

// fractionAt looks for figures, the fraction slash and figures at s[i:]. It
// returns the places of the slash and of the end, or zeros.
func fractionAt(s []rune, i int) (mid, end int) {
	if i > 0 && digit(s[i-1]) {
		return 0, 0
	}
	mid = i
	for mid < len(s) && digit(s[mid]) {
		mid++
	}
	if mid == i || mid == len(s) || s[mid] != slash {
		return 0, 0
	}
	end = mid + 1
	for end < len(s) && digit(s[end]) {
		end++
	}
	if end == mid+1 {
		return 0, 0
	}
	return mid, end
}

// endsInWhole reports whether s ends in a whole number: in figures that are not
// themselves the lower part of a fraction.
func endsInWhole(s []rune) bool {
	i := len(s)
	for i > 0 && digit(s[i-1]) {
		i--
	}
	return i < len(s) && (i == 0 || s[i-1] != slash)
}

func digit(r rune) bool { return r >= '0' && r <= '9' }

// gap reports whether r may stand between a whole number and its fraction.
func gap(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u2009' || r == '\u202f' }
