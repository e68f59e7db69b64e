package tiles

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// parting draws the lines along which pieces that share a sheet are cut apart.
func parting(all []*sheet) {
	pen := render.Pen{Width: 0.18, Dash: []float64{2, 1.5}}
	var paths []render.Path
	for i, a := range all {
		for _, b := range all[i+1:] {
			p, q := a.window(), b.window()
			switch {
			case q.Min.X > p.Max.X-1e-6 && math.Abs(p.Max.Y-q.Max.Y) < 1e-6 && q.Min.X-p.Max.X < aisle+1e-6:
				x := (p.Max.X + q.Min.X) / 2
				paths = append(paths, render.Lines(geom.Pt{X: x, Y: p.Min.Y}, geom.Pt{X: x, Y: p.Max.Y}))
			case p.Min.Y > q.Max.Y-1e-6 && math.Abs(p.Min.X-q.Min.X) < 1e-6 && p.Min.Y-q.Max.Y < aisle+1e-6:
				y, live := (p.Min.Y+q.Max.Y)/2, a.l.Paper.Live()
				x := a.l.Paper.at().X
				paths = append(paths, render.Lines(geom.Pt{X: x, Y: y}, geom.Pt{X: x + live.W - gauge, Y: y}))
			}
		}
	}
	all[0].add("parting", render.Stroke{Paths: paths, Pen: pen})
}

// Measures of a caption, in mm: the height of its tab, and how far a second line
// hangs below that.
const (
	captionTab  = 6.0
	captionDrop = 3.5
	tabGap      = 2.0 // from the tab to the words
)

// A caption names a piece that shares its sheet, and says how many to cut: below
// the name, behind it, or not at all.
type caption struct {
	words, below, behind string
	at                   geom.Box
}

// size is the room c takes behind a tab of the given width.
func (c caption) size(tab float64) geom.Size {
	name := lettering.Width(c.words, boldNote)
	if c.behind != "" {
		name += 2*tabGap + lettering.Width(c.behind, noteType)
	}
	size := geom.Size{W: tab + tabGap + math.Max(name, lettering.Width(c.below, noteType)), H: captionTab}
	if c.below != "" {
		size.H += captionDrop
	}
	return size
}

// caption names a piece that shares its sheet: which part, which of its tiles,
// and how many to cut.
func (s *sheet) caption() {
	if !s.cell {
		return
	}
	words := s.l.Name
	if len(s.l.Tiles) > 1 {
		words += fmt.Sprintf(", tile %s, %d of %d", s.tile.Label(), s.n+1, len(s.l.Tiles))
	}
	forms := []caption{{words: words}}
	if s.l.Note != "" && !s.first.low {
		forms = []caption{{words: words, below: s.l.Note}, {words: words, behind: s.l.Note}, {words: words}}
	}
	c, ok := s.captionRoom(forms)
	if !ok {
		s.lost++
		return
	}
	corner := geom.Pt{X: c.at.Min.X, Y: c.at.Max.Y - captionTab}
	items, tab := lettering.Tab(corner, s.l.Code, s.l.Hand, captionTab, s.look.Accent)
	text := corner.Add(geom.Pt{X: tab + tabGap, Y: (captionTab - lettering.Cap(boldNote)) / 2})
	items = append(items, lettering.Line(text, c.words, boldNote, render.Left)...)
	if c.behind != "" {
		next := text.Add(geom.Pt{X: lettering.Width(c.words, boldNote) + 2*tabGap})
		items = append(items, lettering.Line(next, c.behind, noteType, render.Left)...)
	}
	if c.below != "" {
		items = append(items, lettering.Line(geom.Pt{X: text.X, Y: c.at.Min.Y + 0.7}, c.below, noteType, render.Left)...)
	}
	s.add("caption", items...)
	if s.l.Note != "" && c.below+c.behind == "" {
		s.torn++
		s.put("caption note", note{words: s.l.Note, style: noteType, near: geom.Pt{X: (c.at.Min.X + c.at.Max.X) / 2, Y: c.at.Min.Y - 2.5}})
	}
}

// captionRoom takes room in the upper left corner of the window for the first of
// the forms of a caption that comes as near to it as any.
func (s *sheet) captionRoom(forms []caption) (caption, bool) {
	_, tab := lettering.Tab(geom.Pt{}, s.l.Code, s.l.Hand, captionTab, s.look.Accent)
	w := s.window()
	corner := geom.Pt{X: w.Min.X, Y: w.Max.Y}
	far := func(c caption) float64 { return geom.Pt{X: c.at.Min.X, Y: c.at.Max.Y}.Sub(corner).Len() }
	var best caption
	found := false
	for _, c := range forms {
		var ok bool
		if c.at, ok = s.free(note{near: corner}, c.size(tab)); ok && (!found || far(c) < far(best)-carry) {
			best, found = c, true
		}
	}
	if found {
		s.desk.Block(best.at.Grow(pad))
		s.words = append(s.words, best.at)
	}
	return best, found
}

// sharedFoot says below pieces that share a sheet what to do with them, and puts
// both rulers on the page.
func sharedFoot(all []*sheet) {
	s := all[0]
	p := s.l.Paper
	left, base := p.at().X, margin+5.4
	right := left + field - rulerSize().W
	room := right - left - 6
	head := lettering.Style{Face: codeType.Face, Size: 13}
	name := names(all, func(s *sheet) string { return s.l.Code + " " + s.l.Name })
	items := lettering.Line(geom.Pt{X: left, Y: base + 7}, lettering.Shorten(name, room, head), head, render.Left)
	note := fmt.Sprintf("%d pieces: cut them apart along the dashed lines.  Middle of the line = finished edge", len(all))
	items = append(items, lettering.Line(geom.Pt{X: left, Y: base + 1.4}, lettering.Shorten(note, room, noteType), noteType, render.Left)...)
	items = append(items, lettering.Line(geom.Pt{X: right, Y: base + 8.3}, "Actual size, 100 %, no fit to page", boldSmall, render.Left)...)
	s.add("foot", items...)
	s.add("ruler", ruler(hand{at: geom.Pt{X: right, Y: base + 0.6}})...)
	s.add("ruler", ruler(hand{at: geom.Pt{X: left + p.Live().W, Y: p.at().Y + 1}, angle: math.Pi / 2})...)
}

// names joins what is said of each sheet, each thing once: "A, C and J".
func names(all []*sheet, say func(*sheet) string) string {
	var out []string
	for _, s := range all {
		if n := say(s); !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	if n := len(out) - 1; n > 0 {
		return strings.Join(out[:n], ", ") + " and " + out[n]
	}
	return out[0]
}
