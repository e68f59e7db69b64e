package sheets

import (
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Sizes of a pattern's picture, mm on paper.
const (
	patternW     = 42.0 // what is shown of the wood at most
	patternH     = 46.0
	patternLow   = 26.0  // its height where a page is to be saved
	patternBar   = 104.0 // the width of a row that goes across the page
	patternLeast = 0.2   // the scale below which none is drawn lower to save a page
	patternRim   = 3.0   // of wood shown round what is measured
	patternFar   = 60.0  // life size: as far off an edge of the piece is still shown
)

// A patternView is a pattern drawn to scale.
type patternView struct {
	*pattern
	unit   expr.Unit
	accent render.Tone
	most   geom.Size // of what is shown
	edges  bool      // of the piece are shown
	k      float64
	from   geom.Pt  // life-size point that is at the origin of the page
	window geom.Box // of the page
}

// newPatternView chooses the window and the largest standard scale for it. The
// edges of the piece are shown when that costs no scale, or when one measures
// from them.
func newPatternView(p *pattern, d *desk, most geom.Size) *patternView {
	near := &patternView{pattern: p, unit: d.plan.Unit, accent: d.accent, most: most}
	whole := *near
	whole.edges = true
	near.frame()
	whole.frame()
	if p.fromFace() || whole.k >= near.k-1e-9 {
		return &whole
	}
	return near
}

// frame sets scale and window.
func (v *patternView) frame() {
	var want geom.Box
	for _, s := range standardScales(v.unit) {
		v.k = 1 / s
		want = v.shown(1.6 * patternRim / v.k)
		if want.W()*v.k <= v.most.W && want.H()*v.k <= v.most.H {
			break
		}
	}
	v.from = want.Min.Add(want.Max).Mul(0.5)
	v.window = geom.Box{Min: v.put(want.Min), Max: v.put(want.Max)}.Grow(patternRim)
}

// shown is what the picture is about, life size: the touching area, the
// fasteners, and the edges of the piece that are near.
func (v *patternView) shown(margin float64) geom.Box {
	x, y := v.side(v.across, margin), v.side(v.up, margin)
	b := geom.Box{Min: pt(x[0], y[0]), Max: pt(x[1], y[1])}
	if v.bolted() {
		return b
	}
	for _, q := range v.flats(v.patch.Loops[0]) {
		b = b.With(q)
	}
	for _, l := range v.mouths() {
		for _, q := range l {
			b = b.With(q)
		}
	}
	return b
}

func (v *patternView) bolted() bool { return isBolt(v.joint.Hardware) }

// side is what is shown along one axis.
func (v *patternView) side(c chain, margin float64) [2]float64 {
	lo, hi := c.spots[0], c.spots[len(c.spots)-1]
	if c.hasTouch && !v.bolted() {
		lo, hi = min(lo, c.touch[0]), max(hi, c.touch[1])
	}
	far := patternFar
	if !v.edges {
		far = margin
	}
	out := [2]float64{lo - margin, hi + margin}
	if c.hasFace && lo-c.face[0] < far {
		out[0] = min(lo, c.face[0])
	}
	if c.hasFace && c.face[1]-hi < far {
		out[1] = max(hi, c.face[1])
	}
	return out
}

// put takes a life-size point of the picture to the page.
func (v *patternView) put(q geom.Pt) geom.Pt { return q.Sub(v.from).Mul(v.k) }

// lines are the edges of a piece that are seen when it is alone, in the window.
func (v *patternView) lines(w *model.Placed) (ink []render.Path, shapes [][]geom.Pt) {
	drawing := view.Draw([]view.Body{{Solid: w.Solid, Pose: geom.Home()}}, v.camera)
	for _, e := range drawing.Edges {
		if !e.Visible {
			continue
		}
		if a, b, ok := cutToBox(v.put(e.A), v.put(e.B), v.window); ok {
			ink = append(ink, render.Lines(a, b))
		}
	}
	for _, a := range drawing.Areas {
		if len(a.Loops) > 0 {
			shapes = append(shapes, v.onPage(a.Loops[0]))
		}
	}
	return ink, shapes
}

func (v *patternView) onPage(loop []geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(loop))
	for i, q := range loop {
		out[i] = v.put(q)
	}
	return out
}

// breaks are the break lines where the window ends a piece.
func (v *patternView) breaks(shapes [][]geom.Pt) []render.Path {
	var out []render.Path
	b := v.window.Grow(-1e-4)
	for _, side := range [...]struct {
		at, dir geom.Pt
		long    float64
	}{
		{b.Min, pt(0, 1), b.H()}, {pt(b.Max.X, b.Min.Y), pt(0, 1), b.H()},
		{b.Min, pt(1, 0), b.W()}, {pt(b.Min.X, b.Max.Y), pt(1, 0), b.W()},
	} {
		var parts [][2]float64
		for _, s := range shapes {
			parts = append(parts, woodwork.Stretches([][]geom.Pt{s}, side.at, side.dir)...)
		}
		for _, s := range joined(parts) {
			lo, hi := max(s[0], 0), min(s[1], side.long)
			if hi-lo > 1 {
				out = append(out, render.Lines(woodwork.BreakLine(side.at.Add(side.dir.Mul(lo)), side.at.Add(side.dir.Mul(hi)))...))
			}
		}
	}
	return out
}

// draw returns the picture with its dimensions and the box round it all.
func (v *patternView) draw(field geom.Box) ([]render.Item, geom.Box, []string) {
	ink, shapes := v.lines(v.first)
	ghost, _ := v.lines(v.second)
	breaks := v.breaks(shapes)
	var items []render.Item
	touch := v.onPage(v.flats(v.patch.Loops[0]))
	var area []render.Path
	if geom.Polygon(touch...).Area() != 0 {
		for _, l := range woodwork.Clipped(touch, v.window) {
			area = append(area, render.Loop(l...))
		}
	}
	items = append(items, render.Fill{Paths: area, Tone: render.Edge},
		render.Stroke{Paths: ghost, Pen: render.Pen{Width: 0.25, Tone: render.Gray(0.6), Dash: []float64{3.2, 1}}},
		render.Stroke{Paths: area, Pen: render.Hidden},
		render.Stroke{Paths: ink, Pen: render.CutLine}, render.Stroke{Paths: breaks, Pen: render.Break})
	heads, boxes := v.heads()
	items = append(items, heads...)
	tab, taken := v.tab(outlines(shapes), boxes, slices.Concat(ghost, area))
	items = append(items, tab...)
	f := dims.Field{Box: field, Body: v.window, Ink: ink, Keep: taken}
	placed, used, lost := dims.Place(f, v.wishes()...)
	return append(items, placed...), used.Union(v.window), lost
}

// heads are circles as large as the heads, with crosses through them, and the
// boxes they take.
func (v *patternView) heads() (items []render.Item, boxes []geom.Box) {
	const over = 1.3
	r := max(woodwork.SizesOf(v.joint.Hardware).Head/2*v.k, 0.8)
	var rounds, crosses []render.Path
	for _, q := range v.flats(v.spots) {
		c := v.put(q)
		rounds = append(rounds, render.Circle(c, r))
		crosses = append(crosses, render.Lines(c.Sub(pt(r+over, 0)), c.Add(pt(r+over, 0))), render.Lines(c.Sub(pt(0, r+over)), c.Add(pt(0, r+over))))
		boxes = append(boxes, geom.Box{Min: c, Max: c}.Grow(r+over))
	}
	if v.joint.Hardware.Kind == model.PocketScrew {
		rounds = nil
		for _, l := range v.mouths() {
			mouth, box := v.onPage(l), geom.NoBox()
			for _, q := range mouth {
				box = box.With(q)
			}
			rounds, boxes = append(rounds, render.Loop(mouth...)), append(boxes, box)
		}
	}
	return []render.Item{render.Fill{Paths: rounds, Tone: render.White},
		render.Stroke{Paths: rounds, Pen: render.CutLine}, render.Stroke{Paths: crosses, Pen: render.Thin}}, boxes
}

// mouths are the slanted bores of pockets where they pass the face, life size:
// as wide as the drill, longer by the slant. Other joints have none.
func (v *patternView) mouths() [][]geom.Pt {
	const sides = 48
	if v.joint.Hardware.Kind != model.PocketScrew {
		return nil
	}
	r := v.joint.Clear / 2
	var out [][]geom.Pt
	for i, q := range v.flats(v.spots) {
		way := v.camera.Flat(v.dirs[i]).Unit()
		loop := make([]geom.Pt, sides)
		for n := range sides {
			s, c := math.Sincos(2 * math.Pi * float64(n) / sides)
			loop[n] = q.Add(way.Mul(c * r / math.Sin(math.Abs(v.joint.Angle)))).Add(way.Left().Mul(s * r))
		}
		out = append(out, loop)
	}
	return out
}

// tab puts the letter of the piece that is looked at on it, clear of lines and
// of where extension lines run. Without room for it the caption alone names the
// piece.
func (v *patternView) tab(shapes []geom.Outline, heads []geom.Box, lines []render.Path) ([]render.Item, []geom.Box) {
	hand := handLetter(v.first.Hand)
	w := lettering.TabWidth(v.first.Part.Code, hand, 5)
	mid := v.put(v.middle())
	at, ok := roomFor(geom.Size{W: w, H: 5}, v.window, func(b geom.Box) float64 {
		g := b.Grow(1.2)
		if slices.ContainsFunc(heads, g.Meets) || v.extended(g) || crossed(lines, g) || !within(shapes, g) {
			return -1
		}
		return max(0, 100-b.Min.Add(b.Max).Mul(0.5).Sub(mid).Len())
	})
	if !ok {
		return nil, nil
	}
	items, _ := lettering.Tab(at, v.first.Part.Code, hand, 5, v.accent)
	return items, []geom.Box{{Min: at, Max: at.Add(pt(w, 5))}}
}

// extended reports whether an extension line may run through a box.
func (v *patternView) extended(b geom.Box) bool {
	for _, c := range [...]chain{v.across, v.up} {
		for _, x := range slices.Concat(c.touch[:], c.face[:], c.spots) {
			if at := v.put(c.point(x)).Dot(c.axis); at > b.Min.Dot(c.axis) && at < b.Max.Dot(c.axis) {
				return true
			}
		}
	}
	return false
}

// wishes are the dimensions. On one side stand the insets from the edges of the
// touching area, on the other what is from fastener to fastener, and beyond it
// the way to the edges of the piece where these are other ones. Bolts are
// measured from the edges of the piece alone.
func (v *patternView) wishes() []dims.Wish {
	return append(v.axis(v.across, dims.Below, dims.Above), v.axis(v.up, dims.LeftOf, dims.RightOf)...)
}

func (v *patternView) axis(c chain, near, far dims.Side) []dims.Wish {
	n := len(c.spots) - 1
	first, last := c.spots[0], c.spots[n]
	out := v.apart(c, far)
	lo, hi := c.shownEdge(0, v), c.shownEdge(1, v)
	beyond := far
	switch {
	case c.fromFace || !c.hasTouch:
		beyond = near
	default:
		out = append(out, v.span(c.touch[0], first, near, c)...)
		if !c.centred {
			out = append(out, v.span(last, c.touch[1], near, c)...)
		}
		lo = lo && c.touch[0]-c.face[0] > 0.3
		hi = hi && c.face[1]-c.touch[1] > 0.3
	}
	if lo {
		out = append(out, v.span(c.face[0], first, beyond, c)...)
	}
	if hi {
		out = append(out, v.span(last, c.face[1], beyond, c)...)
	}
	return out
}

// apart are the dimensions from fastener to fastener: each once, or one for
// all when they are equal.
func (v *patternView) apart(c chain, side dims.Side) []dims.Wish {
	n := len(c.spots) - 1
	if n < 1 {
		return nil
	}
	each := (c.spots[n] - c.spots[0]) / float64(n)
	var out []dims.Wish
	for i := 1; i <= n; i++ {
		if math.Abs(c.spots[i]-c.spots[i-1]-each) > sameSpot {
			for k := 1; k <= n; k++ {
				out = append(out, v.span(c.spots[k-1], c.spots[k], side, c)...)
			}
			return out
		}
	}
	text := v.unit.Length(each, expr.Coarse)
	if n > 1 {
		text = digits(n) + " × " + text
	}
	return []dims.Wish{dims.Span{Side: side, A: v.put(c.point(c.spots[0])), B: v.put(c.point(c.spots[n])), Label: dims.Label{Text: text}}}
}

// shownEdge reports whether an edge of the piece is near enough to be in the
// picture.
func (c chain) shownEdge(i int, v *patternView) bool {
	if !c.hasFace {
		return false
	}
	end := c.spots[i*(len(c.spots)-1)]
	return math.Abs(c.face[i]-end) < patternFar+1 && v.window.Has(v.put(c.point(c.face[i])))
}

// span is the dimension from one coordinate of a chain to another; none when
// they are one.
func (v *patternView) span(from, to float64, side dims.Side, c chain) []dims.Wish {
	if to-from < 0.3 {
		return nil
	}
	return []dims.Wish{dims.Span{Side: side, A: v.put(c.point(from)), B: v.put(c.point(to)), Label: dims.Label{Text: v.unit.Length(to-from, expr.Coarse)}}}
}
