package tiles

import (
	"math"
	"slices"

	"planset/model/geom"
)

// mirrored is how far, in mm, a part may be from its own mirror image and still
// be printed as a half: less than paper can show.
const mirrored = 0.005

// halves returns the half templates of t: one for each of the two middle lines
// about which the part, its holes to lay out included, is its own mirror image.
// The half kept is the one at the datum end or the reference edge; its outline
// is closed along the fold.
func halves(t Template) []Template {
	var out []Template
	b := t.Outline.Box()
	mid := b.Min.Add(b.Max).Mul(0.5)
	for _, n := range []geom.Pt{{X: 1}, {Y: 1}} {
		if !t.mirrors(mid, n) {
			continue
		}
		if h, ok := t.halve(mid, n); ok {
			out = append(out, h)
		}
	}
	return out
}

// flip returns the mirror image of p about the line through mid square to n.
func flip(p, mid, n geom.Pt) geom.Pt { return p.Sub(n.Mul(2 * p.Sub(mid).Dot(n))) }

// mirrors reports whether t is its own mirror image.
func (t Template) mirrors(mid, n geom.Pt) bool {
	for _, s := range t.Outline {
		a, b, m := flip(s.A, mid, n), flip(s.B, mid, n), flip(s.Mid(), mid, n)
		if !slices.ContainsFunc(t.Outline, func(o geom.Seg) bool {
			return near2(o.A, b) && near2(o.B, a) && near2(o.Mid(), m)
		}) {
			return false
		}
	}
	for _, h := range t.Holes {
		at := flip(h.At, mid, n)
		if !h.Matched && !slices.ContainsFunc(t.Holes, func(o Hole) bool {
			return !o.Matched && near2(o.At, at) && math.Abs(o.Diam-h.Diam) < mirrored
		}) {
			return false
		}
	}
	return true
}

func near2(a, b geom.Pt) bool { return a.Sub(b).Len() < mirrored }

// halve cuts t along the line through mid square to n. It is not ok when the
// line crosses the part more than once: a ring has no one fold.
func (t Template) halve(mid, n geom.Pt) (Template, bool) {
	parts := t.Outline.ClipLine(mid, n)
	if len(parts) != 1 {
		return t, false
	}
	h := t
	h.Outline, h.Holes, h.Controls = parts[0], nil, nil
	folds := 0
	for _, s := range h.Outline {
		if s.Turn == geom.Straight && math.Abs(s.A.Sub(mid).Dot(n)) < onEdge && math.Abs(s.B.Sub(mid).Dot(n)) < onEdge {
			h.Fold = s
			folds++
		}
	}
	for _, o := range t.Holes {
		if o.At.Sub(mid).Dot(n) <= o.Diam/2 {
			h.Holes = append(h.Holes, o)
		}
	}
	return h, folds == 1
}

// folded reports whether t is a half template.
func (t Template) folded() bool { return t.Fold != geom.Seg{} }

// A pin says at which end of an axis the outermost window must end exactly: at
// a fold, which is cut along.
type pin int8

const (
	loose pin = iota
	pinLow
	pinHigh
)

// foldOn returns the end of an axis at which t is folded.
func foldOn(t Template, dir geom.Pt) pin {
	if !t.folded() || math.Abs(t.Fold.A.Sub(t.Fold.B).Dot(dir)) > onEdge {
		return loose
	}
	whole := extent(t.Outline.Box(), dir)
	if at := t.Fold.A.Dot(dir); at-whole.lo < whole.hi-at {
		return pinLow
	}
	return pinHigh
}

// edge returns the outline without the fold: what is cut, as runs of segments.
func (t Template) edge() []geom.Seg {
	if !t.folded() {
		return t.Outline
	}
	var out []geom.Seg
	for _, s := range t.Outline {
		if s != t.Fold {
			out = append(out, s)
		}
	}
	return out
}
