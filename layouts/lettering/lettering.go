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
// stroke, so that it never reads as 351/2. Signs the face lacks but a plan
// needs (see Signs) are drawn; any other missing sign stays in the text, where
// the painter reports it. A line in more than one piece comes as one group named
// "text" that reads as s.
func Line(at geom.Pt, s string, st Style, align render.Align) []render.Item {
	return Turned(at, s, st, align, 0)
}

// Turned sets one line like Line, turned anticlockwise about at by angle radians.
func Turned(at geom.Pt, s string, st Style, align render.Align, angle float64) []render.Item {
	if s == "" {
		return nil
	}
	row := cut(s, st)
	if len(row.pieces) == 1 && row.pieces[0].sign == 0 {
		return []render.Item{render.Text{
			At: at, Text: s, Face: st.Face, Size: st.Size, Align: align, Angle: angle, Tone: st.Tone,
		}}
	}
	start := 0.0
	switch align {
	case render.Middle:
		start = -row.width / 2
	case render.Right:
		start = -row.width
	}
	var items []render.Item
	for _, p := range row.pieces {
		put := placing{at: at, off: geom.Pt{X: start + p.x, Y: p.rise}, angle: angle}
		if p.sign != 0 {
			items = append(items, drawn(p.sign, put, st)...)
			continue
		}
		items = append(items, render.Text{
			At: put.point(geom.Pt{}), Text: p.text, Face: p.face, Size: p.size, Angle: angle, Tone: st.Tone,
		})
	}
	return []render.Item{render.Group{Name: "text", Reads: s, Items: items}}
}

// A placing puts the corner of a piece on the page: off away from at along and
// above the line's baseline, turned with the line.
type placing struct {
	at, off geom.Pt
	angle   float64
}

func (p placing) point(q geom.Pt) geom.Pt {
	q = p.off.Add(q)
	if p.angle != 0 {
		q = q.Turn(p.angle)
	}
	return p.at.Add(q)
}

// Width returns how wide Line sets s, in mm.
func Width(s string, st Style) float64 {
	if plainly(s, st.Face) {
		return fonts.Width(st.Face, st.Size, s)
	}
	return cut(s, st).width
}

// Cap returns the height of a capital in mm.
func Cap(st Style) float64 { return fonts.CapHeight(st.Face, st.Size) }

// Pitch returns the distance between baselines in mm.
func Pitch(st Style) float64 {
	lead := st.Lead
	if lead == 0 {
		lead = 1.32
	}
	return st.Size * lead * fonts.MM
}

// Missing returns the signs of s that can neither be set in st's face nor be
// drawn, each once.
func Missing(s string, st Style) []rune {
	var lost []rune
	for _, r := range fonts.Missing(st.Face, s) {
		if !drawable(r) && r != '\n' {
			lost = append(lost, r)
		}
	}
	return lost
}
