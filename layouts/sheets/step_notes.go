package sheets

import (
	"math"
	"slices"

	"planset/fonts"
	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// noteStyle is the type of notes on leaders, as the layouts set them.
var noteStyle = lettering.Style{Face: fonts.Sans, Size: render.Note}

// Sizes of a note on a leader, mm, and how its places are tried.
const (
	noteShelf  = 2.5  // level end of the leader
	noteClear  = 1.4  // from the text to any line
	noteShort  = 6.0  // shortest leader
	noteLong   = 95.0 // longest
	noteStep   = 2.0  // from one length to the next
	noteTurn   = 8    // degrees from one direction to the next
	mostAsked  = 8    // of many alike things, how many a note is tried on
	woodPrice  = 4.0  // of a mm over wood, in mm of leader
	crossPrice = 6.0  // of crossing a tape
)

// A note is what is said of some pieces that are alike: one leader to one of them.
type note struct {
	ids  []int
	text string
	at   *geom.Pt // where it points when none of them is seen; nil leaves it out
}

// driveNotes names the hardware, one note for each kind.
func (n *stepDrawing) driveNotes() []note {
	var order []*model.Hardware
	ids := map[*model.Hardware][]int{}
	for _, v := range n.s.drives {
		h := v.f.Hardware
		if len(ids[h]) == 0 {
			order = append(order, h)
		}
		ids[h] = append(ids[h], v.id)
	}
	var out []note
	for _, h := range order {
		out = append(out, note{ids: ids[h], text: digits(len(ids[h])) + " × " + hardwareName(h, n.d.plan.Unit)})
	}
	return out
}

// toolNotes says what the tools in the picture read.
func (n *stepDrawing) toolNotes() []note {
	var out []note
	for i, sh := range n.st.Shows {
		text := sh.Text
		switch {
		case sh.Kind == model.ShowDistance || text == "":
			continue
		case sh.Kind == model.ShowGap:
			text += " spacer"
		}
		var ids []int
		for k, other := range n.st.Shows {
			if k == i || sh.Mates > 0 && other.Mates == sh.Mates && other.Text == "" {
				ids = append(ids, toolID+4*k)
			}
		}
		at := n.pic.Point(sh.A)
		out = append(out, note{ids, text, &at})
	}
	return out
}

// callouts places notes and tabs: the notes first, then, where that leaves one out
// or runs over wood, the tabs first, and then in other orders until none is left
// out. What runs over least is kept, and what found no place is returned.
func (n *stepDrawing) callouts() []dims.Wish {
	list := append(n.driveNotes(), n.toolNotes()...)
	start := *n
	var left []dims.Wish
	price := math.Inf(1)
	for i := range 4 {
		if i > 1 && len(left) == 0 || i > 0 && len(left) == 0 && n.over() == 0 {
			break
		}
		try := start
		try.items, try.keep = slices.Clone(start.items), slices.Clone(start.keep)
		if i == 2 {
			slices.Reverse(list)
		}
		none := try.inOrder(list, i%2 == 1)
		if p := float64(len(none))*noSeat + try.price; p < price {
			*n, left, price = try, none, p
		}
	}
	return left
}

// inOrder places notes and tabs, one kind after the other.
func (n *stepDrawing) inOrder(list []note, tabsFirst bool) []dims.Wish {
	if tabsFirst {
		left := n.balloons()
		return append(left, n.notes(list)...)
	}
	left := n.notes(list)
	return append(left, n.balloons()...)
}

// noSeat is the price of a note or tab without a place, in mm of leader.
const noSeat = 200.0

// over is how many mm of the leaders that are placed run over wood.
func (n *stepDrawing) over() float64 {
	sum := 0.0
	for _, l := range n.leaders {
		own := n.ground.at(l[0])
		sum += n.ground.over(l[0], l[1], func(id int) bool { return id == own || n.alike(id, own) })
	}
	return sum
}

// notes places the notes of a picture. Each takes the piece, the direction and
// the length of leader that run over the least wood it does not name. One that
// has no such place is returned, to be placed wherever there is room.
func (n *stepDrawing) notes(list []note) []dims.Wish {
	var left []dims.Wish
	for _, t := range list {
		if best, ok := n.place(t); ok {
			n.setNote(best)
			continue
		}
		if at := n.seen(t); len(at) > 0 {
			left = append(left, dims.Callout{At: at[0], Ring: 0.6, Text: []string{t.text}})
		}
	}
	return left
}

// A placedNote is a note with its place.
type placedNote struct {
	text      string
	tip, knee geom.Pt
	end       geom.Pt // of the shelf, where the text begins or ends
	box       geom.Box
	price     float64
}

// place tries a note on its pieces.
func (n *stepDrawing) place(t note) (placedNote, bool) {
	best := placedNote{text: t.text, price: math.Inf(1)}
	size := inspect.Bounds(lettering.Line(geom.Pt{}, t.text, noteStyle, toLeft))
	high := max(size.H(), lettering.Cap(noteStyle))
	for _, at := range n.seen(t) {
		for deg := -180; deg < 180; deg += noteTurn {
			dir := geom.Pt{X: 1}.Turn(float64(deg) * math.Pi / 180)
			if math.Abs(dir.Y) > 0.2 {
				n.tryRay(&best, at, dir, geom.Size{W: size.W(), H: high})
			}
		}
	}
	return best, !math.IsInf(best.price, 1)
}

// seen are places where the pieces of a note are seen: one on each of some of
// them, taken from all over the picture, then others on the same pieces.
func (n *stepDrawing) seen(t note) []geom.Pt {
	var first, more []geom.Pt
	stride := 1 + len(t.ids)/mostAsked
	for from := range stride {
		for k := from; k < len(t.ids) && len(first) < mostAsked; k += stride {
			if spots := n.pic.Spots(t.ids[k]); len(spots) > 0 {
				first, more = append(first, spots[0]), append(more, spots[1:]...)
			}
		}
	}
	if len(first) == 0 && t.at != nil {
		first = append(first, *t.at)
	}
	return append(first, more[:min(len(more), mostAsked-len(first))]...)
}

// tryRay tries the lengths of a leader along one direction.
func (n *stepDrawing) tryRay(best *placedNote, at, dir geom.Pt, size geom.Size) {
	price, done := 0.0, 0.0
	if flat := math.Abs(dir.Y); flat < 0.45 || flat > 0.97 { // leaders lean, as a rule
		price = 4
	}
	own := func(id int) bool { return false }
	for long := noteShort; long <= noteLong; long += noteStep {
		price += woodPrice * n.ground.over(at.Add(dir.Mul(done)), at.Add(dir.Mul(long)), own)
		done = long
		if price+0.25*long >= best.price {
			return
		}
		p := placedNote{text: best.text, tip: at, knee: at.Add(dir.Mul(long)), price: price + 0.25*long}
		side := math.Copysign(1, dir.X)
		p.end = p.knee.Add(pt(side*noteShelf, 0))
		low := pt(p.end.X+side*noteClear, p.end.Y-size.H/2)
		if side < 0 {
			low.X -= size.W
		}
		p.box = geom.Box{Min: low, Max: low.Add(pt(size.W, size.H))}
		if p.price += n.meets(p); p.price < best.price {
			*best = p
		}
	}
}

// meets is the price of what a note is in the way of, infinite where it can not
// stand.
func (n *stepDrawing) meets(p placedNote) float64 {
	never := math.Inf(1)
	room := p.box.Grow(noteClear)
	if !n.crowd.clear(room) || !n.apart(room) {
		return never
	}
	return n.crossing(p.box.Grow(noteClear), [2]geom.Pt{p.tip, p.knee}, [2]geom.Pt{p.knee, p.end})
}

// apart reports whether a box keeps off what is placed.
func (n *stepDrawing) apart(b geom.Box) bool {
	return !slices.ContainsFunc(n.keep, func(k geom.Box) bool { return k.Meets(b) })
}

// crossing is the price of a leader of some lines and a text in a box crossing
// what is placed; infinite where it may not.
func (n *stepDrawing) crossing(text geom.Box, lines ...[2]geom.Pt) float64 {
	sum := 0.0
	for _, l := range lines {
		for _, k := range n.keep {
			if inspect.QuadOf(k).Gap(l[0], l[1]) < noteClear {
				return math.Inf(1)
			}
		}
		for _, m := range n.loose {
			if inspect.Cross(l[0], l[1], m[0], m[1]) {
				sum += crossPrice
			}
		}
		for _, m := range n.leaders {
			if inspect.Cross(l[0], l[1], m[0], m[1]) || nearLines(l, m) {
				return math.Inf(1)
			}
		}
	}
	for _, m := range n.leaders {
		if inspect.QuadOf(text).Gap(m[0], m[1]) == 0 {
			return math.Inf(1)
		}
	}
	return sum
}

// nearLines reports whether two leaders run close beside each other.
func nearLines(l, m [2]geom.Pt) bool {
	const close = 1.5
	return inspect.Distance(l[0], m[0], m[1]) < close || inspect.Distance(l[1], m[0], m[1]) < close ||
		inspect.Distance(m[0], l[0], l[1]) < close || inspect.Distance(m[1], l[0], l[1]) < close
}

// setNote draws a note and keeps others off it.
func (n *stepDrawing) setNote(p placedNote) {
	const ring = 0.6
	u := p.knee.Sub(p.tip).Unit()
	tip := p.tip.Add(u.Mul(ring))
	back := tip.Add(u.Mul(tapeArrow))
	w := u.Left().Mul(tapeArrow / 6)
	size := inspect.Bounds(lettering.Line(geom.Pt{}, p.text, noteStyle, toLeft))
	base := pt(p.box.Min.X-size.Min.X, (p.box.Min.Y+p.box.Max.Y)/2-lettering.Cap(noteStyle)/2)
	n.items = append(n.items, render.Group{Name: "leader", Items: []render.Item{
		render.Stroke{Paths: []render.Path{render.Lines(tip, p.knee, p.end)}, Pen: render.Thin},
		render.Fill{Paths: []render.Path{render.Loop(tip, back.Add(w), back.Sub(w))}},
		render.Group{Name: "text note", Items: lettering.Line(base, p.text, noteStyle, toLeft)},
	}})
	n.leaders = append(n.leaders, [2]geom.Pt{p.tip, p.knee}, [2]geom.Pt{p.knee, p.end})
	n.keep = append(n.keep, p.box)
	n.price += p.price
}

// leaderBoxes are small boxes along the leaders that are placed: nothing else
// crosses them.
func (n *stepDrawing) leaderBoxes() []geom.Box {
	var out []geom.Box
	for _, l := range n.leaders {
		d := l[1].Sub(l[0])
		steps := int(d.Len()/1.2) + 1
		for i := range steps + 1 {
			p := l[0].Add(d.Mul(float64(i) / float64(steps)))
			out = append(out, geom.Box{Min: p, Max: p}.Grow(0.05))
		}
	}
	return out
}
