package sheets

import (
	"math"
	"slices"

	"planset/layouts/lettering"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
)

// tags are the labels of the section: what is drilled, how wide and how deep,
// and on which side the head and the nut are.
func (p *jointPage) tags() []railTag {
	switch {
	case isBolt(p.j.Hardware):
		return p.boltTags()
	case p.pocket():
		return p.pocketTags()
	}
	return p.screwTags()
}

// drill prints the diameter of a drill.
func (p *jointPage) drill(mm float64) string { return "⌀" + p.d.plan.Unit.Length(mm, expr.Drill) }

func (p *jointPage) boltTags() []railTag {
	s := woodwork.SizesOf(p.j.Hardware)
	first, second := p.both()
	head := "Head on " + first
	if p.j.Hardware.Kind == model.CarriageBolt {
		head += "; its square neck is drawn into the wood"
	}
	out := []railTag{
		{p.along(-s.HeadHigh/2, s.Head/4*p.rightward()), head},
		{p.along((p.held()+s.Neck)/2, p.j.Clear/2*p.rightward()), "Hole " + p.drill(p.j.Clear) + " through both, clamped together"},
	}
	end := p.f.Grip
	if len(p.j.With) > 1 {
		out = append(out, railTag{p.along(end+s.WasherThick/2, s.Washer*0.42*p.rightward()), "Washer"})
		end += s.WasherThick
	}
	nut := "Nut"
	if p.j.NutSide != "" {
		nut += " on the " + p.j.NutSide + " face of " + second
	}
	return append(out, railTag{p.along(end+s.NutThick/2, s.Flats/4*p.rightward()), nut})
}

// rightward is the side of the axis that is at the right of the page.
func (p *jointPage) rightward() float64 {
	if p.axis.Dir.Left().X > 0 {
		return 1
	}
	return -1
}

func (p *jointPage) screwTags() []railTag {
	u, s := p.d.plan.Unit, woodwork.SizesOf(p.j.Hardware)
	first, second := p.both()
	side := p.rightward()
	var out []railTag
	if p.j.Sink {
		head := "Countersink ⌀" + u.Length(s.Head, expr.Fine) + ", " + u.LongTo(s.HeadHigh, expr.Fine) + " deep: head flush"
		out = append(out, railTag{p.along(s.HeadHigh*0.3, s.Head*0.3*side), head})
	}
	if p.j.Clear > 0 {
		out = append(out, railTag{p.along(max(p.f.Grip*0.6, s.HeadHigh+1), p.j.Clear/2*side), "Clearance hole " + p.drill(p.j.Clear) + ", right through " + first})
	}
	if p.j.Glue {
		out = append(out, p.glueTag())
	}
	if p.j.Pilot > 0 {
		out = append(out, railTag{p.along(p.f.Grip+p.j.PilotDeep*0.6, s.Diam/2*side), "Pilot hole " + p.drill(p.j.Pilot) + ", " + u.LongTo(p.j.PilotDeep, expr.Fine) + " deep in " + second})
	}
	return out
}

func (p *jointPage) pocketTags() []railTag {
	u, s := p.d.plan.Unit, woodwork.SizesOf(p.j.Hardware)
	first, second := p.both()
	side := p.rightward()
	_, foot := p.mouthFace()
	mouth := "Pocket " + p.drill(p.j.Clear)
	if p.j.Mouth != "" {
		mouth += "; its mouth is in the " + p.j.Mouth + " face of " + first
	}
	out := []railTag{{kept(foot, p.cut.Window), mouth}}
	if p.j.Glue {
		out = append(out, p.glueTag())
	}
	bite := p.f.Length - p.f.Grip
	return append(out, railTag{p.along(p.f.Grip+bite*0.5, s.Diam/2*side), "The screw bites " + u.LongTo(bite, expr.Fine) + " into " + second + "; no pilot hole"})
}

// glueTag points at the glued faces, beside the fastener.
func (p *jointPage) glueTag() railTag {
	at := p.cut.Point(p.f.Head.Add(p.f.Dir.Mul(p.held())))
	return railTag{at.Add(pt(7, 0)), "Exterior wood glue on both faces"}
}

// words tells what the section does not, and where the joint is used. They
// stand across both columns, side by side, or under the shorter one, where they
// cost the least height.
func (p *jointPage) words(left, right float64) {
	const gap = 2.0
	bottom := min(left, right)
	ways := []func(*jointPage){
		func(q *jointPage) { q.y = bottom - gap; q.sentences(0, bodyW, 0, len(q.rows)) },
		func(q *jointPage) { q.y = left - gap; q.sentences(0, sectionW, 0, len(q.rows)) },
		func(q *jointPage) { q.y = right - gap; q.sentences(patternX, patternB, 0, len(q.rows)) },
	}
	if n := len(p.rows); n > 1 {
		ways = append(ways, func(q *jointPage) {
			q.y = bottom - gap
			q.sentences(0, bodyW/2-4, 0, (n+1)/2)
			low := q.y
			q.y = bottom - gap
			half := *q
			half.t.first = nil // the notes stand once
			half.sentences(bodyW/2+4, bodyW/2-4, (n+1)/2, n)
			q.items, q.y = half.items, min(low, half.y)
		})
	}
	best, lowest := *p, math.Inf(-1)
	for _, way := range ways {
		q := *p
		q.items = slices.Clone(p.items)
		way(&q)
		if q.y = min(q.y, bottom); q.y > lowest+0.5 {
			best, lowest = q, q.y
		}
	}
	p.items, p.y = best.items, best.y
}

// sentences sets the notes and where the joints from one to before another are
// used.
func (p *jointPage) sentences(x, width float64, from, to int) {
	if p.t.first != nil {
		for _, s := range p.notes() {
			p.bullet(x, width, s)
		}
	}
	for i := from; i < to; i++ {
		p.used(x, width, i)
	}
}

// notes are what is told of the type in words.
func (p *jointPage) notes() []string {
	var out []string
	if p.j.Plug {
		out = append(out, "Glue a plug over each head and cut it flush.")
	}
	for _, j := range p.t.joints {
		if j.Note != "" {
			out = appendNew(out, j.Note)
		}
	}
	return out
}

// bullet sets one sentence.
func (p *jointPage) bullet(x, width float64, s string) {
	p.items = append(p.items, lettering.Line(pt(x, p.y-lettering.Cap(plain)), "·", strong, toLeft)...)
	p.para(x+3.4, width-3.4, s, plain)
	p.y -= 0.9
}

func glueWords(j *model.Joint) string {
	if j.Glue {
		return " and glued"
	}
	return ", no glue"
}

// both are the letters of the first and the second parts of all joints of the
// type, families once.
func (p *jointPage) both() (first, second string) {
	var a, b []*model.Part
	for _, j := range p.t.joints {
		a, b = append(a, j.First...), append(b, j.Second...)
	}
	return lettersOf(a), lettersOf(b)
}

// lettersOf lists the letters of parts, families once.
func lettersOf(parts []*model.Part) string {
	return join(familyCodes(parts))
}

// used is one line for each pattern of a joint: which parts, how many, how far
// from the edges, which step.
func (p *jointPage) used(x, width float64, i int) {
	j, list := p.t.joints[i], p.rows[i]
	s := digits(len(j.Fasteners)) + " in all"
	if j.Places > 0 && len(j.Fasteners)%j.Places == 0 {
		s = digits(len(j.Fasteners)/j.Places) + " at each of " + digits(j.Places) + " places, " + s
	}
	if n := p.d.stepsOf(j); n != "" {
		s += "; " + stepWord(n)
	}
	if len(list) == 1 {
		if where := list[0].inWords(p.d.plan.Unit); where != "" {
			s += "; " + where
		}
	}
	p.usedLine(x, width, [2][]string{familyCodes(j.First), familyCodes(j.Second)}, s)
	if len(list) < 2 {
		return
	}
	for _, q := range list {
		where := q.inWords(p.d.plan.Unit)
		if where == "" {
			continue
		}
		p.usedLine(x+6, width-6, [2][]string{codesOf(q.firsts), codesOf(q.seconds)}, where)
	}
}

// inWords tells a row of fasteners: "5⁄8″ from both edges, 1 1⁄4″ apart". What
// stands in no row is told by its drawing alone.
func (q *pattern) inWords(u expr.Unit) string {
	c, ok := q.row()
	if !ok || q.joint.Inset == 0 {
		return ""
	}
	gaps := c.gaps()
	if _, ok := c.edges(); !ok {
		return ""
	}
	lo, hi := u.Long(gaps[0]), u.Long(gaps[len(gaps)-1])
	edge := "edge" // what the insets count from: of the piece, or of the gray
	if !c.fromFace {
		edge = "gray edge"
	}
	s := lo + " from both " + edge + "s"
	if lo != hi {
		s = lo + " from one " + edge + " and " + hi + " from the other"
	}
	var apart []string
	for _, g := range gaps[1 : len(gaps)-1] {
		apart = appendNew(apart, u.Long(g))
	}
	if len(apart) > 0 {
		s += ", " + join(apart) + " apart"
	}
	return s
}

// familyCodes are the letters of parts, a family once.
func familyCodes(parts []*model.Part) []string {
	var out []string
	for _, q := range parts {
		out = appendNew(out, familyOr(q))
	}
	return out
}

// codesOf are the letters and numbers of parts.
func codesOf(parts []*model.Part) []string {
	var out []string
	for _, q := range parts {
		out = appendNew(out, q.Code)
	}
	return out
}

// usedLine sets the tabs of both sides of a joint, and a text after them.
func (p *jointPage) usedLine(x, width float64, tabs [2][]string, s string) {
	left := x
	for i, set := range tabs {
		for _, c := range set {
			items, w := lettering.Tab(pt(x, p.y-5), c, "", 5, p.d.accent)
			p.items = append(p.items, items...)
			x += w + 1.2
		}
		if i == 0 {
			p.items = append(p.items, lettering.Line(pt(x+0.6, p.y-2.5-lettering.Cap(plain)/2), "to", plain, toLeft)...)
			x += 5.6
		}
	}
	top := p.y
	p.y -= 2.5 - lettering.Cap(narrow)/2
	p.para(x+1.4, left+width-x-1.4, s, narrow)
	p.y = min(p.y, top-5) - 1
}
