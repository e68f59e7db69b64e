package assembly

import (
	"math"

	"planset/model"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/wood"
)

// joinAll works out every joint: where its fasteners sit, how long they are and
// which holes they need in both parts.
func (s *solver) joinAll() {
	if s.problems.Failed() {
		return
	}
	for _, d := range s.d.Joints {
		j := &join{s: s, d: d, out: &model.Joint{Key: d.Key, Name: d.Name.Text, Glue: d.Glue, Plug: d.Plug, Note: d.Note.Text}}
		if j.out.Name == "" {
			j.out.Name = model.Spoken(d.Key)
		}
		if j.run() {
			s.plan.Joints = append(s.plan.Joints, j.out)
		}
	}
	s.countGoods()
	s.sortHoles()
}

// join is one joint being worked out.
type join struct {
	s     *solver
	d     *reading.Joint
	out   *model.Joint
	from  []*part
	into  []*part
	goods *goods
	end   float64 // inset at the far end of the row
	spots []spot
}

// spot is one fastener to be: where it passes from one piece into the other.
type spot struct {
	a, b *model.Placed
	at   geom.V3 // on the touching faces
	dir  geom.V3 // from a into b
	held float64 // wood of a under the head
	hold float64 // wood of b ahead
	hole *reading.Hole
}

func (j *join) run() bool {
	if !j.readParts() {
		return false
	}
	if !j.d.Hardware.Given() {
		return j.glueOnly()
	}
	j.goods = j.s.goods[j.d.Hardware.Text]
	if j.goods == nil {
		if !j.declared(j.d.Hardware.Text) {
			var known []string
			for _, h := range j.s.d.Hardware {
				known = append(known, h.Key)
			}
			j.s.problems.Errorf(j.d.Hardware.At, "unknown-hardware", "there is no hardware %q", j.d.Hardware.Text).Suggest(j.d.Hardware.Text, known)
		}
		return false
	}
	ok := false
	switch {
	case j.goods.isBolt() && len(j.d.Holes) == 0:
		j.s.problems.Errorf(j.d.At, "joint", "joint %q is bolted, but it does not say through which holes", j.d.Key).
			Fix("write holes = [...] with the names of holes that part %q has", j.d.From[0].Text)
		return false
	case len(j.d.Holes) > 0:
		ok = j.boltSpots()
	default:
		ok = j.screwSpots()
	}
	if !ok {
		return false
	}
	if len(j.spots) == 0 {
		j.s.problems.Errorf(j.d.At, "no-contact", "the parts of joint %q do not touch anywhere", j.d.Key).Fix("look at where they are placed, or take the joint out")
		return false
	}
	return j.fasten()
}

func (j *join) declared(key string) bool {
	for _, h := range j.s.d.Hardware {
		if h.Key == key {
			return true
		}
	}
	return false
}

// readParts finds the parts a joint holds together.
func (j *join) readParts() bool {
	if len(j.d.From) == 0 || len(j.d.Into) == 0 {
		j.s.problems.Errorf(j.d.At, "joint", "joint %q does not say from which part into which", j.d.Key).Fix(`write from = "..." (under the head) and into = "..."`)
		return false
	}
	find := func(list []reading.Word) (out []*part, ok bool) {
		for _, w := range list {
			p := j.s.parts[w.Text]
			if p == nil {
				if !j.s.droppedPart(w.Text) {
					j.s.problems.Errorf(w.At, "unknown-part", "there is no part %q", w.Text).Suggest(w.Text, j.s.partNames())
					return nil, false
				}
				continue
			}
			out = append(out, p)
		}
		return out, true
	}
	var ok1, ok2 bool
	j.from, ok1 = find(j.d.From)
	j.into, ok2 = find(j.d.Into)
	return ok1 && ok2 && len(j.from) > 0 && len(j.into) > 0
}

// droppedPart reports whether the file has the part but the variant leaves it out.
func (s *solver) droppedPart(key string) bool {
	for _, d := range s.d.Parts {
		if d.Key == key {
			return true
		}
	}
	return false
}

func (j *join) pieces(list []*part) []*model.Placed {
	var out []*model.Placed
	for _, p := range list {
		for _, i := range j.s.placed[p.decl.Key] {
			out = append(out, j.s.plan.Placed[i])
		}
	}
	return out
}

// glueOnly is a joint of glue: its parts must touch.
func (j *join) glueOnly() bool {
	if !j.d.Glue {
		j.s.problems.Errorf(j.d.At, "joint", "joint %q has neither hardware nor glue", j.d.Key).Fix(`write hardware = "...", or glue = true`)
		return false
	}
	j.out.Kind, j.out.Bond = "glued", true
	for _, a := range j.pieces(j.from) {
		for _, b := range j.pieces(j.into) {
			if !j.worthLooking() {
				return false
			}
			if _, ok := biggest(geom.Contact(a.Solid, b.Solid, touching)); ok {
				j.out.Places++
				j.note(a.Part, b.Part)
			}
		}
	}
	if j.out.Places == 0 {
		j.s.problems.Errorf(j.d.At, "no-contact", "the parts of joint %q do not touch anywhere", j.d.Key).Fix("look at where they are placed, or take the joint out")
		return false
	}
	return true
}

// touching is how far apart two faces may be and still count as touching, mm.
const touching = 0.05

func biggest(list []geom.Patch) (geom.Patch, bool) {
	var best geom.Patch
	for _, p := range list {
		if p.Area > best.Area+1e-6 {
			best = p
		}
	}
	return best, best.Area > 25
}

func (j *join) note(a, b *model.Part) {
	add := func(list []*model.Part, p *model.Part) []*model.Part {
		for _, q := range list {
			if q == p {
				return list
			}
		}
		return append(list, p)
	}
	j.out.First, j.out.Second = add(j.out.First, a), add(j.out.Second, b)
}

// boltSpots puts a bolt through each named hole of the first part, into the
// piece its axis enters next.
func (j *join) boltSpots() bool {
	for _, a := range j.pieces(j.from) {
		p := j.s.parts[a.Part.Key]
		for _, w := range j.d.Holes {
			h := j.s.hole(p, w.Text, w.At)
			if h == nil {
				return false
			}
			along, across, ok := j.s.holePlace(p, h.Name, a.Part.Rank, w.At)
			if !ok {
				return false
			}
			sp, ok := j.enter(a, geom.V3{X: along, Y: across})
			if !ok {
				j.s.problems.Errorf(w.At, "no-contact", "the hole %q of part %q leads into none of %s", w.Text, p.decl.Key, j.intoNames()).
					Fix("let the parts lie face to face where the hole is")
				return false
			}
			sp.hole = h
			j.spots = append(j.spots, sp)
		}
	}
	return true
}

func (j *join) intoNames() string {
	out := ""
	for i, w := range j.d.Into {
		if i > 0 {
			out += ", "
		}
		out += w.Text
	}
	return out
}

// enter finds the piece a hole leads into, on either face.
func (j *join) enter(a *model.Placed, hole geom.V3) (spot, bool) {
	for _, side := range []float64{0, 1} {
		dir := a.Pose.Thick.Mul(2*side - 1)
		at := a.Pose.Point(geom.V3{X: hole.X, Y: hole.Y, Z: a.Part.Thick * side})
		for _, b := range j.pieces(j.into) {
			q := b.Pose.Local(at)
			flush := math.Min(math.Abs(q.Z), math.Abs(q.Z-b.Part.Thick)) < 0.5
			if !flush || math.Abs(b.Pose.Thick.Dot(dir)) < 1-1e-9 || !b.Part.Board.Outline.Contains(geom.Pt{X: q.X, Y: q.Y}) {
				continue
			}
			deeper := b.Pose.Local(at.Add(dir))
			if deeper.Z > 0 && deeper.Z < b.Part.Thick {
				return spot{a: a, b: b, at: at, dir: dir, held: a.Part.Thick, hold: b.Part.Thick}, true
			}
		}
	}
	return spot{}, false
}

// screwSpots spreads fasteners over every place where the parts touch.
func (j *join) screwSpots() bool {
	c := &scope{s: j.s}
	n, ok := 1, true
	if j.d.Count.Given() {
		n, ok = j.s.count(j.s.main(j.d.Count), c, 1, "the count of a joint")
	}
	inset, ok2 := j.s.lengthOr(j.d.Inset, c, 0)
	end, ok3 := j.s.lengthOr(j.d.InsetEnd, c, inset)
	if !ok || !ok2 || !ok3 || !j.s.notLess(j.d.Inset, inset, "an inset") || !j.s.notLess(j.d.InsetEnd, end, "an inset") {
		return false
	}
	j.end = end
	j.out.Each, j.out.Inset = n, inset
	for _, a := range j.pieces(j.from) {
		for _, b := range j.pieces(j.into) {
			if a == b || !j.worthLooking() {
				continue
			}
			patch, ok := biggest(geom.Contact(a.Solid, b.Solid, touching))
			if !ok {
				continue
			}
			if !j.spread(a, b, patch, n, inset) {
				return false
			}
		}
	}
	return true
}

// maxLooks is how many pairs of pieces all joints of a plan may be looked at
// for touching; a plan of a hundred pieces and ten joints looks at some thousand.
const maxLooks = 250_000

// worthLooking counts a pair of pieces that is looked at and tells, once, when
// there are too many.
func (j *join) worthLooking() bool {
	j.s.looks++
	if j.s.looks == maxLooks {
		j.s.problems.Errorf(j.d.At, "too-many", "the joints of this plan would have to be looked for between more than %d pairs of pieces", maxLooks).
			Fix("let each joint name only the parts it joins")
	}
	return j.s.looks < maxLooks
}

// spread sets n fasteners in a row across the patch, or along it.
func (j *join) spread(a, b *model.Placed, patch geom.Patch, n int, inset float64) bool {
	run := a.Pose.Across
	if j.d.Run.Text == "along" {
		run = a.Pose.Along
	}
	if math.Abs(run.Dot(patch.N)) > 0.7 {
		run = a.Pose.Thick
	}
	run = run.Sub(patch.N.Mul(run.Dot(patch.N))).Unit()
	center := middle(patch)
	lo, hi := span(patch, center, run)
	room := hi - lo - inset - j.end
	if n == 1 && !j.d.InsetEnd.Given() {
		room += inset // it sits in the middle
	}
	if room < 0 || n > 1 && room < 2 {
		j.s.problems.Errorf(orAt(j.d.Inset.At, j.d.At), "joint", "%s %s from each end do not fit: %s and %s touch over only %s", plural(n, "fastener", "fasteners"), j.s.opt.Unit.Long(inset), a.Part.Name, b.Part.Name, j.s.opt.Unit.Long(hi-lo)).
			Fix("take fewer, or a smaller inset")
		return false
	}
	if n > 1 {
		j.out.Spacing = room / float64(n-1)
	}
	for i := range n {
		t := (lo + hi) / 2
		if j.d.InsetEnd.Given() {
			t = lo + inset
		}
		if n > 1 {
			t = lo + inset + room*float64(i)/float64(n-1)
		}
		at := center.Add(run.Mul(t))
		j.spots = append(j.spots, spot{a: a, b: b, at: at, dir: patch.N,
			held: through(a.Solid, at, patch.N.Neg()), hold: through(b.Solid, at, patch.N)})
	}
	return true
}

// middle is the center of area of a patch's outside.
func middle(p geom.Patch) geom.V3 {
	loop := p.Loops[0]
	var sum geom.V3
	area := 0.0
	for i := 1; i+1 < len(loop); i++ {
		u, v := loop[i].Sub(loop[0]), loop[i+1].Sub(loop[0])
		a := u.Cross(v).Dot(p.N) / 2
		sum = sum.Add(u.Add(v).Mul(a / 3))
		area += a
	}
	return loop[0].Add(sum.Mul(1 / area))
}

// span is how far the line through c along d runs inside the patch.
func span(p geom.Patch, c, d geom.V3) (lo, hi float64) {
	q := p.N.Cross(d)
	loop := p.Loops[0]
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range loop {
		b := loop[(i+1)%len(loop)]
		ya, yb := a.Sub(c).Dot(q), b.Sub(c).Dot(q)
		if ya > 0 == (yb > 0) {
			continue
		}
		x := a.Sub(c).Dot(d) + b.Sub(a).Dot(d)*ya/(ya-yb)
		lo, hi = math.Min(lo, x), math.Max(hi, x)
	}
	if lo > hi {
		return 0, 0
	}
	return lo, hi
}

// fasten settles the length, opens the hardware lines and drills the holes.
func (j *join) fasten() bool {
	switch {
	case j.goods.isBolt():
		return j.bolt()
	case j.goods.kind == model.PocketScrew:
		return j.pocket()
	}
	return j.screw()
}

// tooShort tells that no sold fastener suits, with the sum.
func (j *join) tooShort(at source.Span, sum []wood.Term) {
	text := ""
	for i, t := range sum {
		if i > 0 {
			text += " + "
		}
		text += t.What + " " + j.s.opt.Unit.Long(t.Length)
	}
	p := j.s.problems.Errorf(at, "no-length", "no %s of size %s is sold that suits joint %q", j.goods.kind, j.goods.bought.Size.Text, j.d.Key)
	if text != "" {
		p.Fix("it must span %s", text)
	}
}
