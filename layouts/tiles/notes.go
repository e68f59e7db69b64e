package tiles

import (
	"math"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// pad is the least room between words and anything else, in mm.
const pad = 1.0

// notes puts every word of the window where it touches nothing. What is hardest
// to place comes first; what is fixed to a spot comes before what may wander.
func (s *sheet) notes() {
	s.seamWords()
	s.joined(func(j Joint, _ bool) { s.desk.Block(s.box(s.l.Seam(j))) })
	if s.cell && s.first.label {
		s.bigLabel()
	}
	s.caption()
	if s.first.guide {
		s.guideWords()
	}
	if s.cell && !s.first.label {
		s.bigLabel()
	}
	if s.first.breaks {
		s.holeNotes()
		s.breakWords()
		s.tapeWords()
	} else {
		if !s.first.guide {
			s.guideWords()
		}
		s.holeNotes()
		s.tapeWords()
		s.breakWords()
	}
	if s.first.breaks && !s.first.guide {
		s.guideWords()
	}
	s.foldWords()
	s.neighbours()
	if !s.cell {
		s.bigLabel()
	}
	s.datumWords()
	s.grain()
}

// A note is words looking for a place, in lines under each other.
type note struct {
	words   string // lines parted by line feeds
	style   lettering.Style
	near    geom.Pt
	upright bool // reads from below
	within  geom.Box
	spare   bool // may be left out when there is no room
}

// Words that follow others in one line are read as one with them: they keep apart
// along the line, in mm, unless that would carry them much farther from their wish.
const (
	aside = 2.5
	carry = 8.0
)

// reach is how far from a line its words may reach, in mm.
const reach = 12.0

// put places a note and reports where its box came to lie. The zero within
// means the whole window.
func (s *sheet) put(name string, n note) (geom.Box, bool) {
	lines := strings.Split(n.words, "\n")
	size := geom.Size{H: textBox("", n.style).H + float64(len(lines)-1)*lettering.Pitch(n.style)}
	for _, line := range lines {
		size.W = math.Max(size.W, lettering.Width(line, n.style))
	}
	if n.upright {
		size = geom.Size{W: size.H, H: size.W}
	}
	at, ok := s.free(n, size)
	if !ok {
		if !n.spare {
			s.lost++
		}
		return at, false
	}
	s.desk.Block(at.Grow(pad))
	s.words = append(s.words, at)
	mid := at.Min.Add(at.Max).Mul(0.5)
	angle := 0.0
	if n.upright {
		angle = math.Pi / 2
	}
	h := hand{at: mid, angle: angle}
	first := float64(len(lines)-1)/2*lettering.Pitch(n.style) - lettering.Cap(n.style)/2
	var items []render.Item
	for i, line := range lines {
		items = append(items, h.text(0, first-float64(i)*lettering.Pitch(n.style), line, n.style, render.Middle)...)
	}
	s.add(name, items...)
	return at, true
}

// free finds room of a size for a note.
func (s *sheet) free(n note, size geom.Size) (geom.Box, bool) {
	w := desk.Want{Size: size, Near: n.near, Within: n.within, Pad: pad}
	if w.Within == (geom.Box{}) {
		w.Within = s.window()
	}
	at, ok := s.desk.Look(w)
	if !ok {
		return at, false
	}
	wide, more := w, geom.Pt{X: aside}
	if n.upright {
		more = geom.Pt{Y: aside}
	}
	wide.Size.W, wide.Size.H = size.W+2*more.X, size.H+2*more.Y
	if free, ok := s.desk.Look(wide); ok {
		free.Min, free.Max = free.Min.Add(more), free.Max.Sub(more)
		if off(free, n.near) < off(at, n.near)+carry {
			at = free
		}
	}
	return at, true
}

// along is the room in which words are still read as those of a line that has
// no leader.
func (s *sheet) along(g geom.Seg) geom.Box {
	return render.Overlap(s.window(), g.Box().Grow(reach))
}

// off is how far the middle of b is from p.
func off(b geom.Box, p geom.Pt) float64 { return b.Min.Add(b.Max).Mul(0.5).Sub(p).Len() }

// seamWords says on the tinted strips which tile lies over them.
func (s *sheet) seamWords() {
	s.joined(func(j Joint, over bool) {
		if over {
			return
		}
		strip := s.box(s.l.Seam(j))
		s.put("strip words", note{
			words: s.l.Tiles[j.On].Label() + " lies over this strip", style: noteType,
			near: strip.Min.Add(strip.Max).Mul(0.5), upright: j.Upright, within: strip,
		})
	})
}

// holeNotes writes beside each hole what it is.
func (s *sheet) holeNotes() {
	w := s.tile.Window
	for _, h := range s.l.Holes {
		if !w.Grow(-holeRing).Has(h.At) {
			continue
		}
		words := h.Note
		if h.Matched {
			words = strings.TrimPrefix(h.Note+": match-drill, do not lay out", ": ")
		}
		if words == "" {
			continue
		}
		at := s.to(h.At)
		box, ok := s.put("hole note", note{words: words, style: noteType, near: at.Add(geom.Pt{X: 4, Y: h.Diam/2 + 6})})
		if ok {
			s.leader(at, math.Max(h.Diam/2, holeRing)+3, box) // from beyond the cross
		}
	}
}

// leader ties words to a round mark of radius r when they had to stand away from
// it. It goes to whichever side of the words it reaches without crossing others,
// and is left out when there is none: then it reports that one is missed.
func (s *sheet) leader(at geom.Pt, r float64, words geom.Box) (ok bool) {
	foot := geom.Pt{
		X: math.Min(math.Max(at.X, words.Min.X), words.Max.X),
		Y: math.Min(math.Max(at.Y, words.Min.Y), words.Max.Y),
	}
	if foot.Sub(at).Len() < r+6 {
		return true
	}
	mid := words.Min.Add(words.Max).Mul(0.5)
	const off = 1.0 // from the words
	near := foot.Sub(foot.Sub(at).Unit().Mul(off))
	ends := []geom.Pt{near, {X: words.Min.X - off, Y: mid.Y}, {X: words.Max.X + off, Y: mid.Y}, {X: mid.X, Y: words.Min.Y - off}, {X: mid.X, Y: words.Max.Y + off}}
	for _, end := range ends {
		g := geom.Line(at.Add(end.Sub(at).Unit().Mul(r)), end)
		if s.crossesWords(g, words) {
			continue
		}
		s.add("leader", render.Stroke{Paths: []render.Path{{Segs: []geom.Seg{g}}}, Pen: render.Hairline})
		s.desk.BlockLine(g, 0.8)
		return true
	}
	s.torn++
	return false
}

// crossesWords reports whether g goes through any words, those it leads to apart.
func (s *sheet) crossesWords(g geom.Seg, own geom.Box) bool {
	for _, b := range s.words {
		if b != own && len(clipSeg(g, b.Grow(0.6))) > 0 {
			return true
		}
	}
	return len(clipSeg(g, own.Grow(0.85))) > 0
}

// datumWords names the datum edges from outside the wood if there is room.
func (s *sheet) datumWords() {
	for _, d := range s.datumEdges() {
		mid := s.quiet(d.seg, 4)
		s.put("datum words", note{
			words: d.words, style: noteType, near: mid.Sub(d.in.Mul(3.5)), spare: true,
			upright: math.Abs(d.in.X) > math.Abs(d.in.Y), within: s.along(d.seg),
		})
	}
}

// tapeWords names each tape point and what the tape must read.
func (s *sheet) tapeWords() {
	for i, c := range s.l.Controls {
		for k, p := range []geom.Pt{c.A, c.B} {
			if !s.tile.Window.Has(p) {
				continue
			}
			other := c.B
			if k == 1 {
				other = c.A
			}
			words := tapeName(i) + ": " + s.look.Unit.Long(c.length())
			if to := s.l.shows(other, s.n); to != "" && to != s.tile.Label() {
				words += " to " + to
			}
			at := s.to(p)
			box, ok := s.put("tape words", note{words: words, style: boldNote, near: s.inward(at)})
			if ok {
				s.leader(at, 2, box)
			}
		}
	}
}

// inward moves a point a little toward the middle of the window.
func (s *sheet) inward(p geom.Pt) geom.Pt {
	w := s.window()
	return p.Add(w.Min.Add(w.Max).Mul(0.5).Sub(p).Unit().Mul(9))
}

// shows names the tile a point is on: this one if it can be, else the first.
func (l Layout) shows(p geom.Pt, mine int) string {
	if l.Tiles[mine].Window.Has(p) {
		return l.Tiles[mine].Label()
	}
	for _, t := range l.Tiles {
		if t.Window.Has(p) {
			return t.Label()
		}
	}
	return ""
}

// neighbours writes the code of the next tile against each joined edge, with a
// filled pointer towards it.
func (s *sheet) neighbours() {
	w := s.window()
	mid := w.Min.Add(w.Max).Mul(0.5)
	s.joined(func(j Joint, over bool) {
		code := s.l.Tiles[j.Under].Label()
		if !over {
			code = s.l.Tiles[j.On].Label()
		}
		size := geom.Size{W: lettering.Width(code, codeType) + 6, H: lettering.Cap(codeType)}
		near, angle := mid, 0.0
		switch {
		case j.Upright && over:
			near.X = w.Max.X
		case j.Upright:
			near.X, angle = w.Min.X, math.Pi
		case over:
			near.Y, angle = w.Max.Y, math.Pi/2
		default:
			near.Y, angle = w.Min.Y, -math.Pi/2
		}
		at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: w, Pad: pad + 0.5})
		if !ok {
			return
		}
		// The pointer's tip is 2 mm ahead of its middle, whichever way it points.
		hub := geom.Pt{X: at.Max.X - 2, Y: (at.Min.Y + at.Max.Y) / 2}
		ahead := hand{at: hub, angle: angle}
		tip := hand{at: ahead.pt(2, 0), angle: angle + math.Pi}
		items := lettering.Line(at.Min, code, codeType, render.Left)
		s.add("neighbour", append(items, pointer(tip, 4, render.Tone{}))...)
	})
}

// bigLabel sets the tile's label large and pale, smaller if it must be.
func (s *sheet) bigLabel() {
	const caps = 20.2
	w := s.window()
	label := s.tile.Label()
	if len(s.l.Tiles) == 1 {
		label = s.l.Code
	}
	shrink, room := []float64{1, 0.8, 0.6}, 2.0
	if s.cell {
		shrink, room = shrink[:1], 0.6 // rather a sheet of its own
	}
	for _, k := range shrink {
		st := lettering.Style{Face: fonts.CondBold, Tone: render.Edge}
		st.Size = caps * k / fonts.CapHeight(st.Face, 1)
		tail := 0.0
		if strings.ContainsAny(label, "QJ") {
			tail = lettering.Cap(st) * 0.2
		}
		size := geom.Size{W: lettering.Width(label, st), H: lettering.Cap(st) + tail}
		near := w.Min.Add(w.Max).Mul(0.5)
		if s.cell {
			near.X = w.Max.X // out of the way of the words
		}
		if at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: w, Pad: room}); ok {
			s.words = append(s.words, at)
			s.add("tile label", lettering.Line(at.Min.Add(geom.Pt{Y: tail}), label, st, render.Left)...)
			return
		}
	}
	s.lost++
}

// sideRuler draws the second ruler, across the first.
func (s *sheet) sideRuler() {
	r := rulerSize()
	w := s.window()
	size := geom.Size{W: r.H, H: r.W}
	for _, room := range []float64{1.5, 0.8} {
		at, ok := s.desk.Room(desk.Want{Size: size, Near: geom.Pt{X: w.Max.X, Y: w.Min.Y}, Within: w, Pad: room})
		if ok {
			s.add("ruler", ruler(hand{at: geom.Pt{X: at.Max.X, Y: at.Min.Y}, angle: math.Pi / 2})...)
			return
		}
	}
}
