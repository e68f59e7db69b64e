package view

import "planset/model/geom"

// speck is the shortest stretch of a longer line that is worth telling from
// the rest of it, in millimetres.
const speck = 5 * Touch

// A piece is a stretch of a line that is seen or hidden all along.
type piece struct {
	a, b    geom.Pt
	body    int32
	kind    EdgeKind
	visible bool
}

// A hider finds the hidden stretches of one line after the other.
type hider struct {
	*scene
	seen        []int32 // by face: the last line it was held against
	scan        scan
	left, right []span // hidden stretches of the two sides
	long        float64
	u           geom.Pt
	live        [2]bool // sides not wholly hidden yet
}

// hide splits lines into seen and hidden pieces.
func (s *scene) hide(lines []line) []piece {
	h := hider{scene: s, seen: make([]int32, len(s.faces))}
	pieces := make([]piece, 0, len(lines)+len(lines)/2)
	for i := range lines {
		l := &lines[i]
		way := geom.Pt{X: l.b.X - l.a.X, Y: l.b.Y - l.a.Y}
		h.long = way.Len()
		h.u = way.Mul(1 / h.long)
		for _, p := range h.split(l, int32(i)+1) {
			pieces = append(pieces, piece{
				a: flat(l.a).Add(h.u.Mul(p.lo)), b: flat(l.a).Add(h.u.Mul(p.hi)),
				body: l.body, kind: l.kind, visible: p.visible,
			})
		}
	}
	return pieces
}

func flat(p geom.V3) geom.Pt { return geom.Pt{X: p.X, Y: p.Y} }

// A stretch is a span that is seen or hidden.
type stretch struct {
	span
	visible bool
}

// split returns the stretches of l in order. A line is seen where a face that
// begins on one of its sides is seen.
func (h *hider) split(l *line, stamp int32) []stretch {
	h.left, h.right = h.left[:0], h.right[:0]
	h.live = [2]bool{l.left, l.right}
	if l.left || l.right {
		h.walk(l, stamp)
	}
	if !h.live[0] && !h.live[1] {
		return []stretch{{span{0, h.long}, false}}
	}
	hidden := union(h.left)
	switch {
	case !h.live[0]:
		hidden = union(h.right)
	case h.live[1]:
		hidden = common(hidden, union(h.right))
	}
	return h.clean(hidden)
}

// walk holds l against the faces in the cells along it until it is wholly
// hidden.
func (h *hider) walk(l *line, stamp int32) {
	lo := geom.V3{X: min(l.a.X, l.b.X), Y: min(l.a.Y, l.b.Y), Z: min(l.a.Z, l.b.Z)}
	hi := geom.V3{X: max(l.a.X, l.b.X), Y: max(l.a.Y, l.b.Y)}
	for cell := range h.cells.along(l.a, l.b) {
		// Nearest first: after the first face that lies wholly behind the
		// line, all do.
		for _, i := range h.cells.in(cell) {
			f := &h.faces[i]
			if f.reach.max.Z <= lo.Z {
				break
			}
			if h.seen[i] == stamp || f.reach.misses(lo, hi) {
				continue
			}
			h.seen[i] = stamp
			if h.against(l, f); !h.live[0] && !h.live[1] {
				return
			}
		}
	}
}

// against adds the stretches of l that f hides.
func (h *hider) against(l *line, f *face) {
	ga, gb := f.over(l.a), f.over(l.b)
	if ga >= -Touch && gb >= -Touch {
		return
	}
	h.scan.picture(f, l.a, h.u)
	if h.live[0] {
		h.left = h.cover(h.left, h.scan.inside(true), ga, gb)
		h.live[0] = !h.whole(h.left)
	}
	if h.live[1] {
		h.right = h.cover(h.right, h.scan.inside(false), ga, gb)
		h.live[1] = !h.whole(h.right)
	}
}

// whole reports whether the span added last hides everything.
func (h *hider) whole(s []span) bool {
	return len(s) > 0 && s[len(s)-1].lo <= 0 && s[len(s)-1].hi >= h.long
}

// cover appends to out where the line, inside a face between the cuts, runs
// behind it; ga and gb are how far its ends are in front of the face's plane.
func (h *hider) cover(out []span, cuts []float64, ga, gb float64) []span {
	for i := 0; i+1 < len(cuts); i += 2 {
		p := span{max(cuts[i], 0), min(cuts[i+1], h.long)}
		if p.lo >= p.hi {
			continue
		}
		g0 := ga + (gb-ga)*p.lo/h.long
		g1 := ga + (gb-ga)*p.hi/h.long
		if g0 >= -Touch && g1 >= -Touch {
			continue
		}
		// Where the line comes out through the face it is cut exactly there.
		if g0 > 0 {
			p.lo += (p.hi - p.lo) * g0 / (g0 - g1)
		} else if g1 > 0 {
			p.hi -= (p.hi - p.lo) * g1 / (g1 - g0)
		}
		out = append(out, p)
	}
	return out
}

// clean turns hidden spans into stretches and drops specks.
func (h *hider) clean(hidden []span) []stretch {
	least := min(speck, h.long/3)
	n := 0
	for _, p := range hidden {
		if p.lo < least {
			p.lo = 0
		}
		if p.hi > h.long-least {
			p.hi = h.long
		}
		if n > 0 && p.lo-hidden[n-1].hi < least {
			hidden[n-1].hi = p.hi
			continue
		}
		hidden[n] = p
		n++
	}
	var out []stretch
	at := 0.0
	for _, p := range hidden[:n] {
		if p.hi-p.lo < least {
			continue
		}
		if p.lo > at {
			out = append(out, stretch{span{at, p.lo}, true})
		}
		out = append(out, stretch{p, false})
		at = p.hi
	}
	if at < h.long {
		out = append(out, stretch{span{at, h.long}, true})
	}
	return out
}
