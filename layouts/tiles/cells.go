package tiles

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
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

// caption names a piece that shares its sheet: which part, which of its tiles,
// and how many to cut.
func (s *sheet) caption() {
	if !s.cell {
		return
	}
	const high = 6.0
	words := s.l.Name
	if len(s.l.Tiles) > 1 {
		words += fmt.Sprintf(", tile %s, %d of %d", s.tile.Label(), s.n+1, len(s.l.Tiles))
	}
	_, tab := lettering.Tab(geom.Pt{}, s.l.Code, s.l.Hand, high, s.look.Accent)
	w := s.window()
	size := geom.Size{W: tab + 2 + lettering.Width(words, boldNote), H: high}
	at, ok := s.desk.Room(desk.Want{Size: size, Near: geom.Pt{X: w.Min.X, Y: w.Max.Y}, Within: w, Pad: pad})
	if !ok {
		s.lost++
		return
	}
	s.words = append(s.words, at)
	items, _ := lettering.Tab(at.Min, s.l.Code, s.l.Hand, high, s.look.Accent)
	text := geom.Pt{X: at.Min.X + tab + 2, Y: at.Min.Y + (high-lettering.Cap(boldNote))/2}
	s.add("caption", append(items, lettering.Line(text, words, boldNote, render.Left)...)...)
	if s.l.Note != "" {
		s.put("caption note", note{words: s.l.Note, style: noteType, near: geom.Pt{X: (at.Min.X + at.Max.X) / 2, Y: at.Min.Y - 2.5}})
	}
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
