package sheets

import (
	"slices"

	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// Sizes of the pictures of steps, mm. A picture is measured by how large it draws
// the work, as a share of how large the least box would show it; so a wide and low
// thing may stand in a low box, and a narrow one leave its words more room, without
// anything being drawn smaller than in the least box.
const (
	mainLeast  = 90.0 // each way, of the box for a step that puts something together
	idleLeast  = 60.0 // likewise, where nothing changes: the work to know it by
	idleMost   = 1.9  // times that, at most
	lowPicture = 52.0 // no box is lower, so that its notes find their places
	growthStep = 0.5  // from one height that is tried to the next
	growthSeen = 1.01 // times as large as before, or the height is not worth it
)

// A form is one way to set a step. Under the title stands a strip of what is
// needed, then what to mind, if it is above; the picture is at the left with the
// words beside it, or as wide as the page with the words under it.
type form struct {
	strip *leaf // all set round the origin, to be moved to their place
	band  *leaf // empty where what to mind is among the words
	words *leaf // beside the picture, or the left column under it
	proof *leaf // the right column under the picture; nil when the words stand beside
	picW  float64
}

// fixed is the height that does not depend on the picture.
func (f *form) fixed() float64 {
	h := -f.strip.y - f.band.y
	if f.proof != nil {
		h += underGap + max(-f.words.y, -f.proof.y)
	}
	return h
}

// beside is the height that the words beside the picture need, 0 for none.
func (f *form) beside() float64 {
	if f.proof != nil {
		return 0
	}
	return -f.words.y
}

// A rung is a height that a step may take, with the form that makes most of it.
type rung struct {
	high float64 // below the title
	size float64 // of the picture, of its least: see mainLeast
	form *form
}

// A stepForms is one step on its way to a page: its heights, each with a larger
// picture than the one before.
type stepForms struct {
	step  *model.Step
	main  bool // it puts something together
	rungs []rung
}

// least is the lowest height of a step with its title.
func (s *stepForms) least() float64 { return stepHead + s.rungs[0].high }

// pictureWs are the widths that a picture beside words may have, mm; those of parts
// by themselves, which are long and low, are in makeWs.
var (
	pictureWs = [...]float64{82, 91, 100, 109, 118}
	makeWs    = [...]float64{66, 78, 91}
)

// formsOf climbs through the heights of a step up to room, in mm without its title.
func (d *desk) formsOf(st *model.Step, room float64) *stepForms {
	s := &stepForms{step: st, main: !onlyMakes(st) && !idle(st)}
	forms := d.formsTried(st)
	size := d.pictureSize(st)
	more := 1 - 1e-9 // what the picture must be at the next rung
	for high := growthStep; high <= room; high += growthStep {
		if r := bestAt(high, forms, size); r.form != nil && r.size > more {
			s.rungs = append(s.rungs, r)
			more = r.size * growthSeen
		}
	}
	if len(s.rungs) > 0 {
		return s
	}
	// Its words leave no picture its least size on a page: it gets the page.
	r := bestAt(room, forms, size)
	if r.form == nil {
		r = rung{high: room, form: forms[0]}
		d.problem("step %d: its words leave no room for its picture", st.Number)
	}
	s.rungs = append(s.rungs, r)
	return s
}

// bestAt is the form whose picture is largest at a height; none when no form fits.
func bestAt(high float64, forms []*form, size func(geom.Box) float64) rung {
	best := rung{high: high}
	for _, f := range forms {
		r := rung{high: high, form: f}
		if high-f.fixed() < f.beside() {
			continue
		}
		if r.size = size(r.picture()); r.size > best.size {
			best = r
		}
	}
	return best
}

// tight takes back what is free at the foot of a scratch column.
func (l *leaf) tight() *leaf {
	low := 0.0
	for _, item := range l.items {
		b := render.Bounds(item)
		if g, ok := item.(render.Group); ok && g.Name == wrongName {
			b = g.Clip
		}
		if !b.Empty() {
			low = min(low, b.Min.Y)
		}
	}
	l.y = max(l.y, low)
	return l
}

// idle reports whether the picture of a step shows only what was there before.
func idle(st *model.Step) bool {
	return len(st.Make) == 0 && len(st.Add) == 0 && len(st.Fasten) == 0 && len(st.Tighten) == 0 && len(st.Shows) == 0
}

// formsTried are the ways to set a step.
func (d *desk) formsTried(st *model.Step) []*form {
	strip := d.scratch(bodyW)
	strip.stepStrip(st)
	none, band := d.scratch(bodyW), d.cautionBand(st)
	if d.shows(st) == nil {
		words := d.scratch(bodyW)
		words.stepDo(st)
		return []*form{{strip: strip, band: band, words: words.tight()}}
	}
	widths := pictureWs[:]
	if onlyMakes(st) {
		widths = makeWs[:]
	}
	var out []*form
	for _, w := range widths {
		words := d.scratch(bodyW - w - wordsGap)
		words.stepDo(st)
		out = append(out, &form{strip: strip, band: band, words: words.tight(), picW: w})
		if band.y == 0 {
			continue
		}
		words = d.scratch(bodyW - w - wordsGap)
		words.stepCautions(st)
		words.stepDo(st)
		out = append(out, &form{strip: strip, band: none, words: words.tight(), picW: w})
	}
	if !onlyMakes(st) {
		const wide = (bodyW - columnGap) / 2
		words, proof := d.scratch(wide), d.scratch(wide)
		words.stepSay(st)
		proof.stepProof(st)
		out = append(out, &form{strip: strip, band: band, words: words.tight(), proof: proof.tight(), picW: bodyW})
	}
	return out
}

// shows are the pieces that the picture of a step is of, by their numbers, or the
// parts of one that only makes; nil where there is nothing to show.
func (d *desk) shows(st *model.Step) []int {
	switch {
	case len(st.Make) > 0 && onlyMakes(st):
		return []int{}
	case st.OnBench() && len(st.Add) > 0:
		return st.Add
	}
	return d.present(st)
}

// pictureSize tells how large the picture of a step is in a box, as a share of its
// least size; 0 where the box is too small to try.
func (d *desk) pictureSize(st *model.Step) func(geom.Box) float64 {
	if d.shows(st) == nil {
		return func(geom.Box) float64 { return 1 }
	}
	if onlyMakes(st) {
		list := d.madeList(st)
		return func(box geom.Box) float64 { return list.scaleIn(box) / list.least() }
	}
	cam := lookFrom(viewOf(st))
	b, kinds := d.stepReach(st, cam)
	lines := map[float64]int{} // of the words at the foot, by the width of the box
	drawn := func(box geom.Box) float64 {
		if lines[box.W()] == 0 {
			lines[box.W()] = len(d.viewText(st, box))
		}
		return max(0, scaleIn(b, roomIn(b, kinds, box, lines[box.W()], 1)))
	}
	side := mainLeast
	if idle(st) {
		side = idleLeast
	}
	least := drawn(geom.Box{Max: pt(side, side)})
	if least == 0 || b.Empty() {
		return func(geom.Box) float64 { return 1 }
	}
	return func(box geom.Box) float64 {
		size := drawn(box) / least
		if box.H() < lowPicture || idle(st) && size > idleMost {
			return 0
		}
		return size
	}
}

// stepReach is about how far the picture of a step reaches, in mm of wood as a
// camera sees it, and how many kinds of hardware it shows: from the blanks of its
// pieces, its tools and the places of the hardware, without drawing them.
func (d *desk) stepReach(st *model.Step, cam view.Camera) (b geom.Box, kinds int) {
	b = geom.NoBox()
	for _, i := range d.shows(st) {
		p := d.plan.Placed[i]
		o := p.Part.Board.Outline.Box()
		for _, c := range corners(geom.V3{X: o.Min.X, Y: o.Min.Y}, geom.V3{X: o.Max.X, Y: o.Max.Y, Z: p.Part.Board.Thick}) {
			b = b.With(cam.Flat(p.Pose.Point(c)))
		}
	}
	for _, sh := range st.Shows {
		for _, s := range sticks(sh) {
			deep := s.way.Cross(s.side).Mul(s.deep / 2)
			for _, c := range corners(geom.V3{Z: -1}, geom.V3{X: s.long, Y: s.wide, Z: 1}) {
				b = b.With(cam.Flat(s.from.Add(s.way.Mul(c.X)).Add(s.side.Mul(c.Y)).Add(deep.Mul(c.Z))))
			}
		}
	}
	seen := map[*model.Hardware]bool{}
	for _, j := range st.Fasten {
		for _, f := range j.Fasteners {
			seen[f.Hardware] = true
			b = b.With(cam.Flat(f.Head.Sub(f.Dir.Mul(f.Length + offHole(f)))))
		}
	}
	for _, j := range st.Tighten {
		for _, f := range j.Fasteners {
			seen[f.Hardware] = true
		}
	}
	delete(seen, nil) // a joint that is only glued
	return b, len(seen)
}

// corners are those of an upright box.
func corners(lo, hi geom.V3) []geom.V3 {
	var out []geom.V3
	for _, x := range [2]float64{lo.X, hi.X} {
		for _, y := range [2]float64{lo.Y, hi.Y} {
			out = append(out, geom.V3{X: x, Y: y, Z: lo.Z}, geom.V3{X: x, Y: y, Z: hi.Z})
		}
	}
	return out
}

// without drops a rung on which a picture does not come out, and those below it of
// the same width. It reports whether others are left.
func (s *stepForms) without(bad rung) bool {
	left := slices.DeleteFunc(slices.Clone(s.rungs), func(r rung) bool { return r.form.picW == bad.form.picW && r.high <= bad.high })
	if len(left) == 0 {
		return false
	}
	s.rungs = left
	return true
}

// picture is the box for the picture of a rung, its lower left corner at the origin.
func (r rung) picture() geom.Box { return geom.Box{Max: pt(r.form.picW, r.high-r.form.fixed())} }

// putStep sets a step at the top of what is free on a page, below its title.
func (l *leaf) putStep(st *model.Step, r rung, picture block) {
	f, box := r.form, r.picture()
	x, top := l.left(), l.y
	l.addStep(st, Moved(f.strip.items, pt(x, l.y)))
	l.skip(-f.strip.y)
	l.add(Moved(f.band.items, pt(x, l.y))...)
	l.skip(-f.band.y)
	l.add(render.Group{Name: "picture", Items: Moved(picture.items, pt(x, l.y-box.H()))})
	switch {
	case f.proof == nil && f.picW > 0:
		l.addStep(st, Moved(f.words.items, pt(x+f.picW+wordsGap, l.y)))
	case f.proof == nil:
		l.addStep(st, Moved(f.words.items, pt(x, l.y)))
	default:
		l.skip(box.H() + underGap/2)
		l.rule(x, x+bodyW, l.y, render.Rule)
		l.skip(underGap / 2)
		l.addStep(st, Moved(f.words.items, pt(x, l.y)))
		l.addStep(st, Moved(f.proof.items, pt(x+(bodyW+columnGap)/2, l.y)))
	}
	l.y = min(l.y, top-r.high)
}
