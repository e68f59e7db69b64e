package sheets

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render/view"
)

// A pattern is where the fasteners of a joint sit at one place, and at every
// other place that is made alike: as one sees it who looks at the face that is
// drilled.
type pattern struct {
	joint         *model.Joint
	first, second *model.Placed
	patch         geom.Patch // where the two touch
	camera        view.Camera
	spots         []geom.V3 // middles of the heads, or of the pockets' mouths
	dirs          []geom.V3 // the ways they are driven
	face          [][]geom.Pt
	across, up    chain
	places        int
	firsts        []*model.Part // every part that is drilled so
	seconds       []*model.Part
}

// A chain is what can be measured along one axis of a pattern's picture, mm.
type chain struct {
	axis      geom.Pt
	throughAt float64   // the line through the middle of the fasteners, counted along axis.Left()
	spots     []float64 // each once, rising
	touch     [2]float64
	face      [2]float64
	hasTouch  bool // the touching area has edges along this axis
	hasFace   bool // the piece looked at has
	fromFace  bool // insets count from the piece's edges, else from the touching area's
	centred   bool // one row, in the middle of the touching area
}

// point is a place on the line through the middle of the fasteners, life size.
func (c chain) point(x float64) geom.Pt {
	return c.axis.Mul(x).Add(c.axis.Left().Mul(c.throughAt))
}

// sameSpot is how far apart two places on one axis may be to be one, mm.
const sameSpot = 0.05

// patterns returns the patterns of a joint, each once, in the order in which
// the model meets them. Mirror images are one pattern.
func (d *desk) patterns(j *model.Joint) []*pattern {
	var order [][2]int
	at := map[[2]int][]model.Fastener{}
	for _, f := range j.Fasteners {
		if _, had := at[f.Pieces]; !had {
			order = append(order, f.Pieces)
		}
		at[f.Pieces] = append(at[f.Pieces], f)
	}
	var out []*pattern
	byKey := map[string]*pattern{}
	for _, pieces := range order {
		p, ok := d.patternAt(j, at[pieces])
		if !ok {
			continue
		}
		key := p.key(d.plan.Unit)
		if q := byKey[key]; q != nil {
			p, q.places = q, q.places+1
		} else {
			byKey[key] = p
			out = append(out, p)
		}
		p.firsts = appendPart(p.firsts, d.plan.Placed[pieces[0]].Part)
		p.seconds = appendPart(p.seconds, d.plan.Placed[pieces[1]].Part)
	}
	return out
}

func appendPart(list []*model.Part, p *model.Part) []*model.Part {
	if slices.Contains(list, p) {
		return list
	}
	return append(list, p)
}

// patternAt measures the fasteners of one place.
func (d *desk) patternAt(j *model.Joint, fasteners []model.Fastener) (*pattern, bool) {
	f := fasteners[0]
	p := &pattern{joint: j, first: d.plan.Placed[f.Pieces[0]], second: d.plan.Placed[f.Pieces[1]], places: 1}
	if p.first.Solid == nil || p.second.Solid == nil {
		return nil, false
	}
	patch, ok := touchPatch(p.first, p.second)
	if !ok {
		return nil, false
	}
	p.patch = patch
	into := f.Dir
	if j.Hardware.Kind == model.PocketScrew {
		into = p.first.Pose.Thick
		if into.Dot(f.Dir) < 0 {
			into = into.Neg()
		}
	}
	p.camera = lookAlong(into, p.first.Pose)
	for _, f := range fasteners {
		p.spots, p.dirs = append(p.spots, p.mouth(f, into)), append(p.dirs, f.Dir)
	}
	for _, a := range view.Draw([]view.Body{{Solid: p.first.Solid, Pose: geom.Home()}}, p.camera).Areas {
		p.face = append(p.face, a.Loops...)
	}
	p.across, p.up = p.chainAlong(pt(1, 0)), p.chainAlong(pt(0, 1))
	return p, true
}

// touchPatch is the largest face that two pieces share.
func touchPatch(a, b *model.Placed) (best geom.Patch, ok bool) {
	const near = 0.3 // mm, of faces that are meant to touch
	for _, q := range geom.Contact(a.Solid, b.Solid, near) {
		if q.Area > best.Area+1e-6 {
			best = q
		}
	}
	return best, best.Area > 0
}

// mouth is where the axis of a fastener passes the face that is looked at.
func (p *pattern) mouth(f model.Fastener, into geom.V3) geom.V3 {
	if p.joint.Hardware.Kind != model.PocketScrew {
		return f.Head
	}
	deep := p.first.Pose.Local(f.Head).Z
	if into.Dot(p.first.Pose.Thick) < 0 {
		deep = p.first.Part.Thick - deep
	}
	return f.Head.Sub(f.Dir.Mul(deep / f.Dir.Dot(into)))
}

// lookAlong is a camera that looks along into at a piece, with the piece's
// length level or upright, whichever it is nearer to, and as little turned from
// the furniture as can be. Like all cameras of furniture it is left-handed.
func lookAlong(into geom.V3, pose geom.Pose) view.Camera {
	flat := func(v geom.V3) geom.V3 { return v.Sub(into.Mul(v.Dot(into))) }
	up := flat(geom.V3{Z: 1})
	if up.Len() < 0.3 { // from above the rear is up, from below the front
		up = flat(geom.V3{Y: math.Copysign(1, -into.Z)})
	}
	right := up.Unit().Cross(into)
	long := flat(pose.Along)
	if long.Len() < 0.5 {
		long = flat(pose.Across)
	}
	long = long.Unit()
	if math.Abs(long.Dot(right)) < 0.7 { // upright: its side is level then
		long = long.Cross(into)
	}
	if long.Dot(right) < 0 {
		long = long.Neg()
	}
	return view.Camera{Right: long, Up: into.Cross(long), Toward: into.Neg()}
}

// flats are points of the world as the camera sees them, life size.
func (p *pattern) flats(points []geom.V3) []geom.Pt {
	out := make([]geom.Pt, len(points))
	for i, v := range points {
		out[i] = p.camera.Flat(v)
	}
	return out
}

// middle is the middle of the fasteners, life size.
func (p *pattern) middle() geom.Pt {
	var sum geom.Pt
	for _, q := range p.flats(p.spots) {
		sum = sum.Add(q.Mul(1 / float64(len(p.spots))))
	}
	return sum
}

// chainAlong measures along an axis of the picture, on the line through the
// middle of the fasteners.
func (p *pattern) chainAlong(axis geom.Pt) chain {
	mid := p.middle()
	c := chain{axis: axis, throughAt: mid.Dot(axis.Left()), fromFace: p.fromFace()}
	base := mid.Dot(axis)
	for _, q := range p.flats(p.spots) {
		c.spots = append(c.spots, q.Dot(axis))
	}
	slices.Sort(c.spots)
	c.spots = slices.CompactFunc(c.spots, func(a, b float64) bool { return math.Abs(a-b) < sameSpot })
	loop := p.flats(p.patch.Loops[0])
	if math.Abs(p.patch.N.Dot(p.camera.Toward)) > 0.7 {
		c.touch, c.hasTouch = around(woodwork.Stretches([][]geom.Pt{loop}, mid, axis), base)
	} else {
		// Seen from its side the area is a line: its ends are what there is.
		c.touch = reach(loop, axis)
		c.hasTouch = c.touch[1]-c.touch[0] > 1
	}
	var parts [][2]float64
	for _, l := range p.face {
		parts = append(parts, woodwork.Stretches([][]geom.Pt{l}, mid, axis)...)
	}
	c.face, c.hasFace = around(joined(parts), base)
	if c.hasTouch && !c.fromFace && len(c.spots) == 1 {
		c.centred = math.Abs(c.touch[0]+c.touch[1]-2*c.spots[0]) < 2*sameSpot
	}
	return c
}

// fromFace reports whether one measures from the edges of the piece that is
// drilled: a bolt's hole is laid out on it, and a pocket's mouth shows nothing
// of where the end touches. Screws stand in the area where the parts touch.
func (p *pattern) fromFace() bool {
	return isBolt(p.joint.Hardware) || p.joint.Hardware.Kind == model.PocketScrew
}

// reach is from where to where points reach along an axis.
func reach(points []geom.Pt, axis geom.Pt) [2]float64 {
	out := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, q := range points {
		out[0], out[1] = min(out[0], q.Dot(axis)), max(out[1], q.Dot(axis))
	}
	return out
}

// around is the stretch that has 0 in it, counted from base.
func around(list [][2]float64, base float64) ([2]float64, bool) {
	for _, s := range list {
		if s[0] < 1e-6 && s[1] > -1e-6 {
			return [2]float64{base + s[0], base + s[1]}, true
		}
	}
	return [2]float64{}, false
}

// joined puts stretches together that overlap or meet.
func joined(list [][2]float64) [][2]float64 {
	const meet = 0.01
	slices.SortFunc(list, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	for _, s := range list {
		if n := len(out); n > 0 && s[0] <= out[n-1][1]+meet {
			out[n-1][1] = max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}

// edges are what insets count from.
func (c chain) edges() (e [2]float64, ok bool) {
	if c.fromFace {
		return c.face, c.hasFace
	}
	return c.touch, c.hasTouch
}

// gaps are the lengths from edge to edge, over the fasteners: inset, spacings,
// inset.
func (c chain) gaps() []float64 {
	at := c.spots
	if e, ok := c.edges(); ok {
		at = slices.Concat([]float64{e[0]}, at, []float64{e[1]})
	}
	var out []float64
	for i := 1; i < len(at); i++ {
		out = append(out, at[i]-at[i-1])
	}
	return out
}

// key is what two places that are made alike have in common: their measures as
// they are printed, read from either end.
func (p *pattern) key(u expr.Unit) string {
	one := func(c chain) string {
		var way []string
		for _, g := range c.gaps() {
			way = append(way, u.Bare(g, expr.Coarse))
		}
		back := slices.Clone(way)
		slices.Reverse(back)
		return min(strings.Join(way, "+"), strings.Join(back, "+"))
	}
	return digits(len(p.spots)) + "|" + one(p.across) + "|" + one(p.up)
}

// row is the chain the fasteners stand along, if they stand in one row.
func (p *pattern) row() (chain, bool) {
	switch n := len(p.spots); {
	case len(p.across.spots) == n && len(p.up.spots) == 1:
		return p.across, true
	case len(p.up.spots) == n && len(p.across.spots) == 1:
		return p.up, true
	}
	return chain{}, false
}
