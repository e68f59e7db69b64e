package lettering

import (
	"strings"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// Wrap breaks s into lines no wider than width mm, at spaces; a word too long
// for a line is broken where it must be. A newline in s always breaks. A whole
// number is never parted from its fraction, and a no-break space never breaks.
// Every line has at least one letter, however narrow the width.
func Wrap(s string, width float64, st Style) []string {
	var lines []string
	for part := range strings.SplitSeq(s, "\n") {
		lines = wrapOne(lines, part, width, st)
	}
	return lines
}

// wrapOne adds the lines of a text without newlines; an empty one is one empty
// line.
func wrapOne(lines []string, s string, width float64, st Style) []string {
	space := Width(" ", st)
	all := words(s)
	first, used := 0, 0.0 // the line so far begins with this word
	for i, word := range all {
		w := Width(word, st)
		if i > first && used+space+w <= width+slack {
			used += space + w
			continue
		}
		if i > first {
			lines = append(lines, strings.Join(all[first:i], " "))
		}
		if w > width+slack {
			whole, rest := breakWord([]rune(word), width, st)
			lines = append(lines, whole...)
			all[i], w = rest, Width(rest, st)
		}
		first, used = i, w
	}
	return append(lines, strings.Join(all[first:], " "))
}

// words splits s at spaces, but keeps a whole number with its fraction.
func words(s string) []string {
	all := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\t' })
	out := all[:0]
	whole := false // the last word ends in a whole number
	for _, w := range all {
		first, last := digit(rune(w[0])), digit(rune(w[len(w)-1]))
		if whole && first && beginsWithFraction(w) {
			out[len(out)-1] += " " + w
		} else {
			out = append(out, w)
		}
		whole = last && endsInWhole([]rune(w))
	}
	return out
}

func beginsWithFraction(w string) bool {
	_, end := fractionAt([]rune(w), 0)
	return end > 0
}

// breakWord cuts the lines that fill width off a word, and returns what is
// left. Every line has a letter.
func breakWord(word []rune, width float64, st Style) (lines []string, rest string) {
	for {
		n := fitting(word, width, st)
		if n >= len(word) {
			return lines, string(word)
		}
		lines = append(lines, string(word[:n]))
		word = word[n:]
	}
}

// fitting returns how many of the letters of word, at least one, fit in width.
// It feels its way in steps that double, so that a long word costs no more
// than its lines.
func fitting(word []rune, width float64, st Style) int {
	fit, step := 1, 1
	for fit+step <= len(word) && fits(string(word[:fit+step]), width, st) {
		fit += step
		step *= 2
	}
	for ; step > 0; step /= 2 {
		if fit+step <= len(word) && fits(string(word[:fit+step]), width, st) {
			fit += step
		}
	}
	return fit
}

// slack allows for rounding, so that a text fits in its own width.
const slack = 1e-9

func fits(s string, width float64, st Style) bool { return Width(s, st) <= width+slack }

// Paragraph sets s wrapped to width with the top of its first line's capitals
// at top, and returns the items and the height used, to the last descender.
// An empty text uses no height.
func Paragraph(top geom.Pt, s string, width float64, st Style) ([]render.Item, float64) {
	if s == "" {
		return nil, 0
	}
	lines := Wrap(s, width, st)
	items := make([]render.Item, 0, len(lines))
	for i, line := range lines {
		at := geom.Pt{X: top.X, Y: top.Y - Cap(st) - float64(i)*Pitch(st)}
		items = append(items, Line(at, line, st, render.Left)...)
	}
	return items, Height(len(lines), st)
}

// Height returns the height of n lines of a paragraph in mm, from the top of
// the first line's capitals to the last descender.
func Height(n int, st Style) float64 {
	if n == 0 {
		return 0
	}
	return Cap(st) + float64(n-1)*Pitch(st) + fonts.Descent(st.Face, st.Size)
}

// Shorten returns s, or as much of its beginning as fits in width mm with an
// ellipsis after it.
func Shorten(s string, width float64, st Style) string {
	if fits(s, width, st) {
		return s
	}
	runes := []rune(s)
	room := width - Width("…", st)
	if !fits(string(runes[:1]), room, st) {
		return "…"
	}
	return strings.TrimRight(string(runes[:fitting(runes, room, st)]), " ") + "…"
}
