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
	s.caption()
	if s.cell {
		s.bigLabel()
	}
	s.holeNotes()
	s.breakWords()
	s.tapeWords()
	s.guideWords()
	s.foldWords()
	s.neighbours()
	if !s.cell {
		s.bigLabel()
	}
	s.datumWords()
	s.grain()
}

// A note is a line of words looking for a place.
type note struct {
	words   string
	style   lettering.Style
	near    geom.Pt
	upright bool // reads from below
	within  geom.Box
	spare   bool // may be left out when there is no room
}

// put places a note and reports where its box came to lie. The zero within
// means the whole window.
func (s *sheet) put(name string, n note) (geom.Box, bool) {
	size := textBox(n.words, n.style)
	w := desk.Want{Size: size, Near: n.near, Within: n.within, Pad: pad}
	if w.Within == (geom.Box{}) {
		w.Within = s.window()
	}
	if n.upright {
		w.Size = geom.Size{W: size.H, H: size.W}
	}
	at, ok := s.desk.Room(w)
	if !ok {
		if !n.spare {
			s.lost++
		}
		return at, false
	}
	s.words = append(s.words, at)
	mid := at.Min.Add(at.Max).Mul(0.5)
	half := lettering.Cap(n.style) / 2
	if n.upright {
		s.add(name, lettering.Turned(geom.Pt{X: mid.X + half, Y: mid.Y}, n.words, n.style, render.Middle, math.Pi/2)...)
	} else {
		s.add(name, lettering.Line(geom.Pt{X: mid.X, Y: mid.Y - half}, n.words, n.style, render.Middle)...)
	}
	return at, true
}

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
// and is left out when there is none.
func (s *sheet) leader(at geom.Pt, r float64, words geom.Box) {
	foot := geom.Pt{
		X: math.Min(math.Max(at.X, words.Min.X), words.Max.X),
		Y: math.Min(math.Max(at.Y, words.Min.Y), words.Max.Y),
	}
	if foot.Sub(at).Len() < r+6 {
		return
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
		return
	}
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
			upright: math.Abs(d.in.X) > math.Abs(d.in.Y),
		})
	}
}

// breakWords tells how far a datum line is from the datum end and from its mate.
func (s *sheet) breakWords() {
	for _, b := range s.l.Breaks {
		before, after := s.l.Lines(b, s.look)
		for _, d := range []float64{before, after} {
			g, ok := s.l.crossing(d, b.Upright, s.tile.Window)
			if !ok {
				continue
			}
			other := before
			if d == before {
				other = after
			}
			s.wordsAt(b, s.seg(g), d, other)
		}
	}
}

// wordsAt writes the words of the break line g at d, whose mate is at other. They
// stand on the side where nothing more is printed, so that a piece broken at
// both ends does not mix up its lines.
func (s *sheet) wordsAt(b Break, g geom.Seg, d, other float64) {
	mid, ahead := g.Mid(), float64(sign(other-d))
	beyond, near, edge := s.window(), mid.Add(geom.Pt{Y: 5 * ahead}), mid
	switch {
	case b.Upright && ahead > 0:
		beyond.Min.X, near, edge.X = mid.X, mid.Add(geom.Pt{X: 5}), beyond.Max.X
	case b.Upright:
		beyond.Max.X, near, edge.X = mid.X, mid.Sub(geom.Pt{X: 5}), beyond.Min.X
	case ahead > 0:
		beyond.Min.Y, edge.Y = mid.Y, beyond.Max.Y
	default:
		beyond.Max.Y, edge.Y = mid.Y, beyond.Min.Y
	}
	for _, line := range s.lineWords(b, d, other) {
		n := note{words: line, style: boldNote, near: near, upright: b.Upright, within: beyond, spare: true}
		if _, ok := s.put("datum line words", n); !ok {
			n.within, n.spare = s.window(), false
			s.put("datum line words", n)
		}
	}
	s.put("break words", note{words: "the board runs on, straight", style: noteType, near: edge, upright: b.Upright, within: beyond, spare: true})
}

// lineWords says where the datum line at d is, and how far it is to its mate.
func (s *sheet) lineWords(b Break, d, other float64) []string {
	base := "the datum end"
	if b.Upright == s.l.Turned {
		base = "the reference edge"
	}
	mate := s.l.mate(b, other, s.tile)
	return []string{
		"Break line, " + s.look.Unit.Long(s.l.measured(d, b.Upright)) + " from " + base,
		s.look.Unit.Long(math.Abs(other-d)) + " by tape to the break line of " + mate,
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

// grain draws which way the grain runs and which face is up.
func (s *sheet) grain() {
	words := "grain"
	if s.l.Face != "" {
		words += ", " + s.l.Face
	}
	if s.l.Askew != 0 {
		s.slantedGrain(words, s.box(s.l.Outline.Box()).Min.Add(s.box(s.l.Outline.Box()).Max).Mul(0.5))
		return
	}
	long := math.Max(30, lettering.Width(words, noteType)+4)
	size := geom.Size{W: long, H: 6.4}
	if s.l.Turned {
		size = geom.Size{W: size.H, H: size.W}
	}
	part := s.box(s.l.Outline.Box())
	w := s.window()
	near := geom.Pt{X: (part.Min.X + part.Max.X) / 2, Y: (w.Min.Y + w.Max.Y) / 2}
	if !s.l.Turned {
		near = geom.Pt{X: (w.Min.X + w.Max.X) / 2, Y: (part.Min.Y + part.Max.Y) / 2}
	}
	at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: w, Pad: pad + 0.5})
	if !ok {
		s.shortGrain(words, near)
		return
	}
	h := hand{at: geom.Pt{X: at.Min.X, Y: at.Min.Y + 1}}
	if s.l.Turned {
		h = hand{at: geom.Pt{X: at.Max.X - 1, Y: at.Min.Y}, angle: math.Pi / 2}
	}
	s.add("grain", grainArrow(h, long, words)...)
}

// shortGrain draws a short arrow by itself, with the words wherever they fit.
func (s *sheet) shortGrain(words string, near geom.Pt) {
	const long = 14
	size := geom.Size{W: long, H: 3}
	if s.l.Turned {
		size = geom.Size{W: size.H, H: size.W}
	}
	at, ok := s.desk.Room(desk.Want{Size: size, Near: near, Within: s.window(), Pad: pad})
	if !ok {
		s.lost++
		return
	}
	h := hand{at: geom.Pt{X: at.Min.X, Y: at.Min.Y + 1.5}}
	if s.l.Turned {
		h = hand{at: geom.Pt{X: at.Min.X + 1.5, Y: at.Min.Y}, angle: math.Pi / 2}
	}
	s.add("grain", grainArrow(h, long, "")...)
	s.put("grain words", note{words: words, style: noteType, near: at.Min.Add(at.Max).Mul(0.5)})
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
