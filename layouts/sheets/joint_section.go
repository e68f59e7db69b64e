package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/wood"
	"planset/render"
)

// The section's cell, mm: dimensions at the left, the wood, labels at the right.
const (
	sectionW = 110.0
	sectionX = 22.0 // where the wood begins
	windowW  = 42.0
	railX    = sectionX + windowW + 7
	fullHigh = 64.0 // the highest section drawn at full size
)

// sectionHatch is the grain of the second part in a section; the first has it
// half as dense, so that the two differ where all tones are lost.
var sectionHatch = render.Pen{Width: 0.18, Tone: render.Dark}

// plane lays the section through the fastener: the second part across its
// grain, or a slanted pocket in full; the faces that touch are level.
func (p *jointPage) plane() {
	pl := p.d.plan.Placed
	first, second := pl[p.f.Pieces[0]], pl[p.f.Pieces[1]]
	n, into := second.Pose.Along, p.f.Dir
	if p.pocket() {
		n = first.Pose.Across
		if patch, ok := touchPatch(first, second); ok {
			into = patch.N
		}
	}
	flat := func(v geom.V3) geom.V3 { return v.Sub(into.Mul(v.Dot(into))) }
	if flat(n).Len() < 0.7 {
		n = second.Pose.Thick
	}
	n = flat(n).Unit()
	p.cut = woodwork.Cut{At: p.f.Head.Add(p.f.Dir.Mul(p.held())), Up: into.Neg(), Right: into.Cross(n)}
	turned := p.cut.Right.X < -0.1 // as little turned from the furniture as can be
	if p.pocket() {
		turned = p.cut.Right.Dot(p.f.Dir) > 0 // the mouth to the right, where the labels are
	}
	if turned {
		p.cut.Right = p.cut.Right.Neg()
	}
	above, below := p.reach()
	p.cut.Scale = 1
	if p.half || above+below > fullHigh {
		p.cut.Scale = 0.5
	}
	k := p.cut.Scale
	p.cut.Page = pt(sectionX+windowW/2, 0)
	p.cut.Window = geom.Box{Min: pt(sectionX, -below*k), Max: pt(sectionX+windowW, above*k)}
	dir := p.cut.Flat(p.f.Dir).Unit()
	if p.pocket() {
		p.cut.Page.X -= windowW / 5 // leaves air before the mouth for its angle
	}
	p.axis = woodwork.Axis{Head: p.cut.Point(p.f.Head), Dir: dir, Scale: k}
}

// held is how thick the first part is under the head, along the fastener.
func (p *jointPage) held() float64 {
	if isBolt(p.j.Hardware) && len(p.j.Stack) > 0 {
		return p.j.Stack[0].Thick
	}
	return p.f.Grip
}

func (p *jointPage) pocket() bool { return p.j.Hardware.Kind == model.PocketScrew }

// reach is how far the section shows the wood above and below the faces that
// touch, life size.
func (p *jointPage) reach() (above, below float64) {
	bite := p.f.Length - p.held()
	hold := 0.0
	if len(p.j.Stack) > 1 {
		hold = p.j.Stack[1].Thick
	}
	below = max(bite+5, min(hold+3, bite+7))
	switch {
	case isBolt(p.j.Hardware):
		return p.held() + 8, bite + 2
	case p.pocket():
		a := math.Abs(p.j.Angle)
		thick := p.d.plan.Placed[p.f.Pieces[0]].Part.Thick
		return thick/2/math.Tan(a) + wood.PocketDrill/2/math.Sin(a) + 5, below
	}
	return p.f.Grip + 4, below
}

func isBolt(h *model.Hardware) bool {
	return h.Kind == model.CarriageBolt || h.Kind == model.HexBolt
}

// along is a point of the fastener's axis on the page: s mm from where the head
// bears, t to its left.
func (p *jointPage) along(s, t float64) geom.Pt {
	k := p.cut.Scale
	return p.axis.Head.Add(p.axis.Dir.Mul(s * k)).Add(p.axis.Dir.Left().Mul(t * k))
}

// room is a box round the axis, from and to mm along it, d wide.
func (p *jointPage) room(d, from, to float64) []geom.Pt {
	return []geom.Pt{p.along(from, -d/2), p.along(to, -d/2), p.along(to, d/2), p.along(from, d/2)}
}

// section draws the cut with its dimensions and labels.
func (p *jointPage) section() {
	p.plane()
	p.cut.Hatch.Keep = p.taken()
	pieces := [2]*model.Placed{p.d.plan.Placed[p.f.Pieces[0]], p.d.plan.Placed[p.f.Pieces[1]]}
	labels, leaders, labeled := rail(railX, sectionW-railX, p.tags())
	tabs := p.tabs(pieces, leaders)
	art := p.wood(pieces)
	art = append(art, p.glue(pieces)...)
	art = append(art, p.holes()...)
	if isBolt(p.j.Hardware) {
		art = append(art, p.axis.Bolt(p.j.Hardware, p.f.Grip, len(p.j.With) > 1)...)
	} else {
		art = append(art, p.axis.Screw(p.j.Hardware)...)
	}
	if p.pocket() {
		art = append(art, p.pocketAxis())
	}
	art = append(art, tabs...)
	art = append(art, labels...)
	b := p.cut.Window
	f := dims.Field{Box: geom.Box{Min: pt(0, b.Min.Y-12), Max: pt(railX-2, b.Max.Y+12)}, Body: b}
	placed, used, lost := dims.Place(f, p.wishes()...)
	for _, s := range lost {
		p.d.problem("joint %s: %s", p.j.Name, s)
	}
	used = used.Union(b).Union(labeled).Union(swing(b))
	p.items = append(p.items, Moved(append(art, placed...), pt(0, p.y-used.Max.Y))...)
	p.y -= used.H()
	p.sectionCaption("Section", p.cut.Scale)
}

// swing is a window with the swing of break lines at its foot.
func swing(b geom.Box) geom.Box {
	b.Min.Y -= 1.7
	return b
}

// taken are the places of the section that hatch and letters keep free: round
// the fastener, its head and its holes.
func (p *jointPage) taken() [][]geom.Pt {
	s, rim := woodwork.SizesOf(p.j.Hardware), 1/p.cut.Scale
	if p.pocket() {
		return [][]geom.Pt{p.room(max(s.Diam, s.Head)+rim, -2*s.HeadHigh, s.HeadHigh), p.room(s.Diam+1.6*rim, 0, p.f.Length+0.5), p.room(p.j.Clear+rim, -pocketFar, 0)}
	}
	wide := max(s.Diam, p.j.Clear) + 1.6*rim
	return [][]geom.Pt{p.room(wide, -2*s.HeadHigh, p.f.Length+0.5), p.room(max(s.Head, wide)+rim, -s.HeadHigh, s.HeadHigh)}
}

// wood draws the second piece, then the first, each in its tone and hatch.
func (p *jointPage) wood(pieces [2]*model.Placed) []render.Item {
	var art []render.Item
	for i := 1; i >= 0; i-- {
		w := pieces[i]
		if w.Solid == nil {
			continue
		}
		c := p.cut
		c.Hatch.Pen, c.Hatch.Pitch = sectionHatch, [2]float64{3, 1.7}[i]
		art = append(art, c.Wood(w.Solid, w.Pose.Along, [2]render.Tone{render.White, render.Edge}[i])...)
	}
	return art
}

// tabs puts the letter of each piece on it, clear of lines, and keeps the hatch
// off.
func (p *jointPage) tabs(pieces [2]*model.Placed, lines []render.Path) []render.Item {
	var items []render.Item
	busy, mid := outlines(p.cut.Hatch.Keep), p.cut.Page.X
	for _, w := range pieces {
		if w.Solid == nil {
			continue
		}
		code := familyOr(w.Part)
		size := geom.Size{W: lettering.TabWidth(code, "", 5), H: 5}
		seen := outlines(p.cut.Seen(w.Solid))
		at, ok := roomFor(size, p.cut.Window, func(b geom.Box) float64 {
			g := b.Grow(1.05)
			if crossed(lines, g) || touches(busy, g) || !within(seen, g) {
				return -1
			}
			q := b.Min.Add(b.Max).Mul(0.5)
			score := 100 - math.Abs(q.X-(mid-12))
			for _, o := range seen {
				score += min(4, o.Distance(q))
			}
			return score
		})
		if !ok {
			continue
		}
		tab, _ := lettering.Tab(at, code, "", 5, p.d.accent)
		items = append(items, tab...)
		b := geom.Box{Min: at, Max: at.Add(pt(size.W, size.H))}.Grow(0.95)
		p.cut.Hatch.Keep = append(p.cut.Hatch.Keep, []geom.Pt{b.Min, pt(b.Max.X, b.Min.Y), b.Max, pt(b.Min.X, b.Max.Y)})
	}
	return items
}

// glue is the heavy line where the glued faces are cut.
func (p *jointPage) glue(pieces [2]*model.Placed) []render.Item {
	if !p.j.Glue || pieces[0].Solid == nil || pieces[1].Solid == nil {
		return nil
	}
	patch, ok := touchPatch(pieces[0], pieces[1])
	if !ok {
		return nil
	}
	return glueLine(p.cut, patch)
}

// glueLine is where a plane cuts a glued face, heavy.
func glueLine(c woodwork.Cut, patch geom.Patch) []render.Item {
	run := c.Right.Cross(c.Up).Cross(patch.N)
	if run.Len() < 0.05 {
		return nil
	}
	run = run.Unit()
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range patch.Loops[0] {
		s := v.Sub(c.At).Dot(run)
		lo, hi = min(lo, s), max(hi, s)
	}
	a, b, ok := cutToBox(c.Point(c.At.Add(run.Mul(lo))), c.Point(c.At.Add(run.Mul(hi))), c.Window)
	if !ok {
		return nil
	}
	return []render.Item{render.Group{Name: "glue", Items: []render.Item{render.Stroke{Paths: []render.Path{render.Lines(a, b)}, Pen: render.Heavy}}}}
}

// holes whitens the drilled room round the fastener: clearance above, pilot
// below, as far as they are wider than it.
func (p *jointPage) holes() []render.Item {
	var out []render.Item
	add := func(d, from, to float64) {
		path := render.Loop(p.room(d, from, to)...)
		out = append(out, render.Group{Name: "hole", Clip: p.cut.Window, Items: []render.Item{
			render.Fill{Paths: []render.Path{path}, Tone: render.White}, render.Stroke{Paths: []render.Path{path}, Pen: render.Hairline},
		}})
	}
	switch {
	case isBolt(p.j.Hardware):
		add(p.j.Clear, 0, p.f.Grip)
	case p.pocket():
		out = p.pocketHole()
	default:
		if p.j.Clear > 0 {
			add(p.j.Clear, 0, p.f.Grip)
		}
		if p.j.Pilot > 0 {
			add(p.j.Pilot, p.f.Grip, p.f.Grip+p.j.PilotDeep)
		}
	}
	return out
}

// pocketFar is how far from the head a pocket's bore is out of every board, mm.
const pocketFar = 200.0

// pocketHole is the pocket in the first piece, open at its mouth.
func (p *jointPage) pocketHole() []render.Item {
	bore := geom.Polygon(p.room(p.j.Clear, -pocketFar, 0)...)
	if bore.Area() < 0 {
		bore = bore.Reverse()
	}
	var fill, walls, open []render.Path
	solid := p.d.plan.Placed[p.f.Pieces[0]].Solid
	if solid == nil {
		return nil
	}
	for _, l := range p.cut.Seen(solid) {
		wood := geom.Polygon(l...)
		for _, hole := range wood.And(bore) {
			fill = append(fill, render.Path{Segs: hole})
			for _, g := range hole {
				if wood.Distance(g.Mid()) < 1e-3 {
					open = append(open, render.Path{Segs: []geom.Seg{g}})
				} else {
					walls = append(walls, render.Path{Segs: []geom.Seg{g}})
				}
			}
		}
	}
	return []render.Item{render.Group{Name: "hole", Items: []render.Item{
		render.Fill{Paths: fill, Tone: render.White},
		render.Stroke{Paths: open, Pen: render.Pen{Width: 0.6, Tone: render.White}},
		render.Stroke{Paths: walls, Pen: render.Thin},
	}}}
}

// wishes are the lengths along the axis: the part under the head and what holds
// beyond it, then the whole fastener. A pocket shows its angle besides.
func (p *jointPage) wishes() []dims.Wish {
	u := p.d.plan.Unit
	left := p.cut.Window.Min.X
	at := func(s float64) geom.Pt { return pt(left, p.along(s, 0).Y) }
	note := func(mm float64) dims.Label { return dims.Label{Text: u.Length(mm, expr.Fine), Note: true} }
	span := func(from, to float64) dims.Wish {
		return dims.Span{Side: dims.LeftOf, A: at(to), B: at(from), Label: note(to - from)}
	}
	switch {
	case isBolt(p.j.Hardware):
		return []dims.Wish{span(0, p.f.Grip), span(0, p.f.Length)}
	case p.pocket():
		return p.pocketWishes()
	}
	return []dims.Wish{span(0, p.f.Grip), span(p.f.Grip, p.f.Length), span(0, p.f.Length)}
}

// pocketWishes are the screw's length beside it and the angle of its axis to
// the face of the mouth.
func (p *jointPage) pocketWishes() []dims.Wish {
	u, dir := p.d.plan.Unit, p.axis.Dir
	left := p.cut.Window.Min.X
	side := dir.Left()
	if side.X > 0 {
		side = side.Mul(-1)
	}
	// The extension lines begin at the window's edge, square to the screw.
	at := func(s float64) geom.Pt {
		q := p.along(s, 0)
		return q.Add(side.Mul((left - q.X) / side.X))
	}
	face, foot := p.mouthFace()
	return []dims.Wish{
		// Walking down, the left of the page is at the right hand.
		dims.Span{Side: dims.Along, A: at(0), B: at(p.f.Length), Label: dims.Label{Text: u.Length(p.f.Length, expr.Fine), Note: true}},
		dims.Angle{At: foot, From: math.Atan2(-dir.Y, -dir.X), To: math.Atan2(face.Y, face.X), Label: dims.Label{Text: expr.Angle(math.Abs(p.j.Angle), 0.5), Note: true}},
	}
}

// mouthFace is the way the face of the pocket's mouth runs up the page, and
// where the axis leaves the wood through it.
func (p *jointPage) mouthFace() (face, foot geom.Pt) {
	pose := p.d.plan.Placed[p.f.Pieces[0]].Pose
	face = p.cut.Flat(pose.Along).Unit()
	if face.Y < 0 {
		face = face.Mul(-1)
	}
	deep := p.d.plan.Placed[p.f.Pieces[0]].Part.Thick / 2 / math.Sin(math.Abs(p.j.Angle))
	return face, p.along(p.held()-deep, 0)
}

// pocketAxis is the line the drill goes, from the head out into the air.
func (p *jointPage) pocketAxis() render.Item {
	_, foot := p.mouthFace()
	out := foot.Sub(p.axis.Dir.Mul(17))
	if _, b, ok := cutToBox(foot, out, p.cut.Window); ok {
		out = b
	}
	return render.Stroke{Paths: []render.Path{render.Lines(p.axis.Head, out)}, Pen: render.Center}
}
