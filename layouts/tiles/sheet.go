package tiles

import (
	"fmt"
	"math"
	"strconv"

	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// A canvas is what all that is drawn on one page shares.
type canvas struct {
	desk  *desk.Desk
	items []render.Item
	words []geom.Box // where notes came to lie
	crowding
	first order
}

// An order says which words get their places before others.
type order struct {
	breaks bool // those of break lines before those of the tape's points and the guides
	label  bool // the large label of a piece before its caption
	guide  bool // those of the guides before the large label
	low    bool // the caption in one line, how many to cut wherever that fits
}

// A crowding counts what went wrong with the words of a page for want of room.
type crowding struct {
	lost int // notes that found no room and are missed
	torn int // notes whose lines are not together, or that stand where one looks for them last
}

// A sheet is one tile being drawn.
type sheet struct {
	*canvas
	l     Layout
	n     int // index of the tile
	tile  Tile
	look  Look
	marks []geom.Box // where registration marks are
	cell  bool       // shares its page with others
}

// draw makes the page of some tiles and tells how crowded it is. Words get their
// places one after the other; of several orders the first of the least crowded pages is kept.
func (k packing) draw(spots []spot, page int, look Look) (render.Page, crowding) {
	best, least := k.drawn(&canvas{}, spots, page, look)
	others := []order{
		{breaks: true}, {label: true}, {breaks: true, label: true}, {low: true}, {breaks: true, low: true},
		{guide: true}, {breaks: true, guide: true, low: true},
	}
	if len(spots) == 1 {
		others = others[:1] // the rest matters in small windows
	}
	for _, first := range others {
		if least == (crowding{}) {
			break
		}
		if other, c := k.drawn(&canvas{first: first}, spots, page, look); c.less(least) {
			best, least = other, c
		}
	}
	return best, least
}

// less reports whether fewer words are missing, or as few and fewer torn.
func (c crowding) less(than crowding) bool {
	return c.lost < than.lost || c.lost == than.lost && c.torn < than.torn
}

// drawn makes the page of some tiles on a canvas.
func (k packing) drawn(c *canvas, spots []spot, page int, look Look) (render.Page, crowding) {
	var all []*sheet
	for _, p := range spots {
		l := k.layouts[p.layout]
		all = append(all, &sheet{canvas: c, l: l, n: p.tile, tile: l.Tiles[p.tile], look: look, cell: len(spots) > 1})
	}
	first := all[0]
	p := first.l.Paper
	title := fmt.Sprintf("Template %s, %s, sheet %s", first.l.Code, first.l.Name, first.tile.Label())
	c.desk = desk.New(first.window())
	if len(all) > 1 {
		live := p.Live()
		c.desk = desk.New(geom.Box{Min: p.at(), Max: p.at().Add(geom.Pt{X: live.W, Y: live.H})})
		title = "Templates " + names(all, func(s *sheet) string { return s.l.Code })
		parting(all)
	}
	for _, s := range all {
		s.lines()
	}
	for _, s := range all {
		s.notes()
	}
	if len(all) > 1 {
		sharedFoot(all)
	} else {
		first.sideRuler()
		first.footStrip()
	}
	c.items = append(c.items, footLine(p, look, page, "Full size: print at 100 %")...)
	return render.Page{Name: strconv.Itoa(page), Title: title, Size: p.Size, Items: c.items}, c.crowding
}

// lines draws all that has its place.
func (s *sheet) lines() {
	s.strips()
	s.outline()
	s.foldLine()
	s.registration()
	s.trims()
	s.holes()
	s.datums()
	s.guides()
	s.breakLines()
	s.controlLines()
}

// to takes a point of the layout's frame to the page.
func (s *sheet) to(p geom.Pt) geom.Pt { return p.Sub(s.tile.Window.Min).Add(s.tile.At) }

func (s *sheet) seg(g geom.Seg) geom.Seg {
	g.A, g.B = s.to(g.A), s.to(g.B)
	if g.Turn != geom.Straight {
		g.C = s.to(g.C)
	}
	return g
}

func (s *sheet) box(b geom.Box) geom.Box { return geom.Box{Min: s.to(b.Min), Max: s.to(b.Max)} }

// window is the tile's window on the page.
func (s *sheet) window() geom.Box { return s.box(s.tile.Window) }

func (s *sheet) add(name string, items ...render.Item) {
	if len(items) > 0 {
		s.items = append(s.items, render.Group{Name: name, Items: items})
	}
}

// joined lists the joints of this tile: over is true where this tile is trimmed
// and lies on top.
func (s *sheet) joined(f func(j Joint, over bool)) {
	for _, j := range s.l.Joints {
		if j.On == s.n || j.Under == s.n {
			f(j, j.On == s.n)
		}
	}
}

// outline draws the edge of the part: the middle of the line is the finished
// edge.
func (s *sheet) outline() {
	var segs []geom.Seg
	for _, g := range clip(s.l.edge(), s.tile.Window) {
		g = s.seg(g)
		segs = append(segs, g)
		s.desk.BlockLine(g, 0.8)
	}
	if paths := strung(segs); len(paths) > 0 {
		s.add("outline", render.Stroke{Paths: paths, Pen: render.CutLine})
	}
}

// strung joins segments that follow each other into paths, so that corners are
// drawn as corners.
func strung(segs []geom.Seg) []render.Path {
	var paths []render.Path
	for _, g := range segs {
		if n := len(paths); n > 0 {
			last := paths[n-1].Segs
			if geom.Same(last[len(last)-1].B, g.A) {
				paths[n-1].Segs = append(last, g)
				continue
			}
		}
		paths = append(paths, render.Path{Segs: []geom.Seg{g}})
	}
	if n := len(paths); n > 0 {
		first, last := paths[0].Segs, paths[n-1].Segs
		closes := geom.Same(last[len(last)-1].B, first[0].A)
		if closes && n == 1 {
			paths[0].Closed = true
		} else if closes {
			paths[0].Segs = append(last, first...)
			paths = paths[:n-1]
		}
	}
	return paths
}

// strips tints what will lie under the neighbour on the left or below, and says
// so.
func (s *sheet) strips() {
	s.joined(func(j Joint, over bool) {
		if over {
			return
		}
		strip := s.box(s.l.Seam(j))
		s.add("strip", render.Fill{Paths: []render.Path{render.Rect(strip)}, Tone: render.Gray(0.08)})
	})
}

// registration draws the circles of every joint and their letters.
func (s *sheet) registration() {
	s.joined(func(j Joint, _ bool) {
		for _, m := range j.Marks {
			at := s.to(m.At)
			items := cross(at)
			key := m.keyBox(at)
			items = append(items, lettering.Line(key.Min, m.Key, boldNote, render.Left)...)
			s.add("registration "+m.Key, items...)
			whole := key.Union(geom.Box{Min: at, Max: at}.Grow(hairs)).Grow(0.8)
			s.desk.Block(whole)
			s.marks = append(s.marks, whole)
		}
	})
}

// keyBox returns where the letter of a mark drawn at a place stands: in the
// corner between two hairlines, clear of the ring and of the lines along the seam.
func (m Mark) keyBox(at geom.Pt) geom.Box {
	w, h := lettering.Width(m.Key, boldNote), lettering.Cap(boldNote)
	b := geom.Box{Min: geom.Pt{X: at.X + 2.6, Y: at.Y + 2.2}}
	if m.letter.X < 0 {
		b.Min.X = at.X - 2.6 - w
	}
	if m.letter.Y < 0 {
		b.Min.Y = at.Y - 2.2 - h
	}
	b.Max = b.Min.Add(geom.Pt{X: w, Y: h})
	return b
}

// trims draws the line to cut along wherever this tile lies on top, with the
// scissors on it and the words beyond it, where they are cut away.
func (s *sheet) trims() {
	w := s.window()
	s.joined(func(j Joint, over bool) {
		if !over {
			return
		}
		h, long := hand{at: geom.Pt{X: w.Min.X, Y: w.Max.Y}}, w.W()
		if j.Upright {
			h, long = hand{at: geom.Pt{X: w.Max.X, Y: w.Max.Y}, angle: -math.Pi / 2}, w.H()
		}
		from := s.scissorsAt(h, long)
		snip := hand{at: h.pt(from, 0), angle: h.angle}
		pen := render.Pen{Width: 0.35, Dash: []float64{6, 1, 0.8, 1}}
		line := render.Stroke{Paths: []render.Path{h.line(0, 0, from-1, 0), h.line(from+8.5, 0, long, 0)}, Pen: pen}
		items := append([]render.Item{line}, scissors(snip)...)
		words := "Trim this edge along the line, then lay it over " + s.l.Tiles[j.Under].Label()
		items = append(items, h.text(from+14, 1.7, words, boldSmall, render.Left)...)
		s.add("trim", items...)
		s.desk.Block(geom.NoBox().With(h.pt(from-1, 0)).With(h.pt(from+9, 0)).Grow(2.8))
	})
}

// scissorsAt finds where along a trim line the scissors touch nothing.
func (s *sheet) scissorsAt(h hand, long float64) float64 {
	for from := 14.0; from < long-90; from += 2 {
		spot := geom.NoBox().With(h.pt(from-1, 0)).With(h.pt(from+9, 0)).Grow(2.8)
		if s.desk.Free(spot) {
			return from
		}
	}
	return 14
}

// footStrip says below the window what the sheet is.
func (s *sheet) footStrip() {
	p := s.l.Paper
	left, base := p.at().X, margin+5.4
	right := left + field - rulerSize().W
	tab, w := lettering.Tab(geom.Pt{X: left, Y: base}, s.l.Code, s.l.Hand, 10.5, s.look.Accent)
	items := tab
	x := left + w + 3
	room := right - x - 6
	head := lettering.Style{Face: codeType.Face, Size: 13}
	name := s.l.Name
	if len(s.l.Tiles) > 1 {
		name += fmt.Sprintf(", tile %d of %d: %s", s.n+1, len(s.l.Tiles), s.tile.Label())
	} else {
		name += ", the whole on this sheet"
	}
	items = append(items, lettering.Line(geom.Pt{X: x, Y: base + 7}, lettering.Shorten(name, room, head), head, render.Left)...)
	note := "Middle of the line = finished edge"
	if s.l.Note != "" {
		note = s.l.Note + ".  " + note
	}
	items = append(items, lettering.Line(geom.Pt{X: x, Y: base + 1.4}, lettering.Shorten(note, room, noteType), noteType, render.Left)...)
	items = append(items, lettering.Line(geom.Pt{X: right, Y: base + 8.3}, "Actual size, 100 %, no fit to page", boldSmall, render.Left)...)
	s.add("foot", items...)
	s.add("ruler", ruler(hand{at: geom.Pt{X: right, Y: base + 0.6}})...)
}

// footLine is the line at the bottom of every page of the set.
func footLine(p Paper, look Look, page int, what string) []render.Item {
	left := (p.Size.W - field) / 2
	rule := render.Lines(geom.Pt{X: left, Y: margin + 3.9}, geom.Pt{X: left + field, Y: margin + 3.9})
	items := []render.Item{render.Stroke{Paths: []render.Path{rule}, Pen: render.Rule}}
	right := fmt.Sprintf("%s  ·  page %d of %d", what, page, look.Total)
	y := margin + 0.8
	title := ""
	for _, part := range []string{look.Title, look.Edition, look.Revision, look.Date} {
		if title != "" && part != "" {
			title += "  ·  "
		}
		title += part
	}
	room := field - lettering.Width(right, smallType) - 6
	items = append(items, lettering.Line(geom.Pt{X: left, Y: y}, lettering.Shorten(title, room, smallType), smallType, render.Left)...)
	items = append(items, lettering.Line(geom.Pt{X: left + field, Y: y}, right, smallType, render.Right)...)
	return []render.Item{render.Group{Name: "foot line", Items: items}}
}
