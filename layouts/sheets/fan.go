package sheets

import (
	"cmp"
	"math"
	"slices"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/layouts/tables"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A fan is slats that lie in one plane and are turned about its middle.
type fan struct {
	slats  []*model.Placed // left to right
	pose   geom.Pose       // of the plane: along is up the middle line, across to the sitter's right
	lines  []fanLine       // cross members behind or before it
	bottom float64         // of the feet, up the middle line
}

// A fanLine is a member the slats are fastened to.
type fanLine struct {
	name string
	at   float64 // of the screws, up the middle line
}

// fans finds the fans of a plan: families of which the pieces share a plane
// but not a direction.
func fans(plan *model.Plan) []fan {
	var out []fan
	for _, set := range families(plan) {
		var slats []*model.Placed
		for _, p := range plan.Placed {
			if slices.Contains(set, p.Part) {
				slats = append(slats, p)
			}
		}
		if len(slats) < 3 || !turned(slats) {
			continue
		}
		out = append(out, fanOf(plan, slats))
	}
	return out
}

// turned reports whether the slats fan out in one plane.
func turned(slats []*model.Placed) bool {
	turn := false
	n := slats[0].Pose.Thick
	for _, s := range slats[1:] {
		if math.Abs(math.Abs(s.Pose.Thick.Dot(n))-1) > 1e-6 {
			return false
		}
		turn = turn || s.Pose.Along.Sub(slats[0].Pose.Along).Len() > 1e-3
	}
	return turn
}

// fanOf lays the plane of a fan: its origin on the middle line at the feet.
func fanOf(plan *model.Plan, slats []*model.Placed) fan {
	mean := geom.V3{}
	for _, s := range slats {
		mean = mean.Add(s.Pose.Along)
	}
	up := mean.Unit()
	n := slats[0].Pose.Thick
	f := fan{slats: slices.Clone(slats)}
	right := geom.V3{X: 1}
	right = right.Sub(n.Mul(right.Dot(n))).Sub(up.Mul(right.Dot(up))).Unit()
	f.pose = geom.Pose{Origin: slats[0].Pose.Origin, Along: up, Across: right, Thick: n}
	f.pose.Origin.X = 0
	slices.SortStableFunc(f.slats, func(a, b *model.Placed) int {
		return cmp.Compare(a.Center.X, b.Center.X)
	})
	low := math.Inf(1)
	for _, s := range f.slats {
		low = min(low, f.at(s, 0, s.Part.Width/2).Y)
	}
	f.pose.Origin = f.pose.Origin.Add(up.Mul(low))
	f.lines = fanLines(plan, &f)
	return f
}

func compare(a, b float64) int { return cmp.Compare(a, b) }

// at returns where a point of a slat's face lies in the fan: x from the middle
// line to the sitter's right, y up it from the feet.
func (f *fan) at(s *model.Placed, along, across float64) geom.Pt {
	q := f.pose.Local(s.Pose.Point(geom.V3{X: along, Y: across}))
	return geom.Pt{X: q.Y, Y: q.X}
}

// fanLines finds what the slats are fastened to.
func fanLines(plan *model.Plan, f *fan) []fanLine {
	var out []fanLine
	for _, j := range plan.Joints {
		sum, n := 0.0, 0
		name := ""
		for _, x := range j.Fasteners {
			a, b := plan.Placed[x.Pieces[0]], plan.Placed[x.Pieces[1]]
			if slices.Contains(f.slats, b) {
				a, b = b, a
			}
			if slices.Contains(f.slats, a) && !slices.Contains(f.slats, b) {
				sum += f.pose.Local(x.Head).X
				n++
				name = b.Part.Name
			}
		}
		if n > 1 {
			out = append(out, fanLine{lower(name), sum / float64(n)})
		}
	}
	slices.SortFunc(out, func(a, b fanLine) int { return cmp.Compare(a.at, b.at) })
	return out
}

// crossing returns how far from the middle line the left and the right edge of
// a slat are at height y. It is not ok where the slat does not reach.
func (f *fan) crossing(s *model.Placed, y float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	pts := s.Part.Board.Outline.Flatten(0.05)
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		p, q := f.at(s, a.X, a.Y), f.at(s, b.X, b.Y)
		if (p.Y < y-1e-6) == (q.Y < y-1e-6) {
			continue
		}
		x := p.X + (y-p.Y)/(q.Y-p.Y)*(q.X-p.X)
		left, right = min(left, x), max(right, x)
	}
	return left, right, right > left
}

// width is the fan's whole width at height y.
func (f *fan) width(y float64) (left, right float64) {
	left, right = math.Inf(1), math.Inf(-1)
	for _, s := range f.slats {
		if a, b, ok := f.crossing(s, y); ok {
			left, right = min(left, a), max(right, b)
		}
	}
	return left, right
}

// top is the highest point of a slat.
func (f *fan) top(s *model.Placed) geom.Pt {
	best := geom.Pt{Y: math.Inf(-1)}
	for _, q := range s.Part.Board.Outline.Flatten(0.05) {
		if p := f.at(s, q.X, q.Y); p.Y > best.Y {
			best = p
		}
	}
	return best
}

// fanSheet draws each fan flat with what is needed to strike it on a bench.
func fanSheet(d *desk, s sheet) {
	for _, f := range fans(d.plan) {
		l := d.leaf(s, s.title, "Strike these lines on the bench and lay the slats to them, faces up.")
		l.state = scalesMarked
		d.drawFan(l, &f)
	}
}

// fanScale is the largest standard scale at which the fan fits.
func (d *desk) fanScale(f *fan, wide, high float64) float64 {
	b := f.box()
	for _, s := range standardScales(d.plan.Unit) {
		if b.W()/s <= wide && b.H()/s <= high {
			return 1 / s
		}
	}
	return 1.0 / 16
}

func (f *fan) box() geom.Box {
	b := geom.NoBox()
	for _, s := range f.slats {
		for _, q := range s.Part.Board.Outline.Flatten(0.5) {
			b = b.With(f.at(s, q.X, q.Y))
		}
	}
	return b
}

func (d *desk) drawFan(l *leaf, f *fan) {
	u := d.plan.Unit
	laid, faults := tables.Lay(d.fanTable(f), bodyW)
	d.problems = append(d.problems, faults...)
	words := f.words(d.plan)
	foot := laid.Height(0, laid.Rows()) + lettering.Height(len(lettering.Wrap(words, 0.6*bodyW, plain)), plain) + 15
	box := geom.Box{Min: pt(l.left(), l.body.Min.Y+foot), Max: pt(l.left()+bodyW, l.y)}
	k := d.fanScale(f, box.W()-80, box.H()-30)
	b := f.box()
	base := box.Min.Y + 20 + max(0, box.H()-b.H()*k-36)/2
	// Seen from the front, as the slats lie face up: the sitter's right is at
	// the left of the page.
	at := func(p geom.Pt) geom.Pt {
		return pt((box.Min.X+box.Max.X)/2-p.X*k, base+(p.Y-b.Min.Y)*k)
	}
	var ink []render.Path
	for _, s := range f.slats {
		var loop []geom.Pt
		for _, q := range s.Part.Board.Outline.Flatten(0.1) {
			loop = append(loop, at(f.at(s, q.X, q.Y)))
		}
		ink = append(ink, render.Loop(loop...))
	}
	l.add(render.Fill{Paths: ink, Tone: render.Gray(0.06)}, render.Stroke{Paths: ink, Pen: render.Outline})
	var keep []geom.Box
	for _, s := range f.slats {
		c := at(f.top(s)).Add(pt(0, fanTab/2+3.2))
		w := lettersTab(s.Part.Code)
		l.add(d.tabAt(c, s.Part.Code)...)
		keep = append(keep, geom.Box{Min: c.Sub(pt(w/2, fanTab/2)), Max: c.Add(pt(w/2, fanTab/2))})
	}
	middle := render.Lines(at(pt(0, -14/k)), at(pt(0, f.shoulder())))
	members := append(f.memberLines(at), f.feetLine(at, k))
	l.add(render.Stroke{Paths: []render.Path{middle}, Pen: render.Center}, render.Stroke{Paths: members[:len(f.lines)], Pen: render.Hidden})
	l.add(render.Stroke{Paths: members[len(f.lines):], Pen: render.Thin})
	l.add(f.screws(d.plan, at)...)
	field := dims.Field{Box: box, Ink: append(append(ink, middle), members...), Keep: keep}
	field.Body = geom.Box{Min: at(pt(b.Max.X, b.Min.Y)), Max: at(pt(b.Min.X, b.Max.Y))}
	placed, _, lost := dims.Place(field, d.fanWishes(f, at)...)
	for _, p := range lost {
		d.problem("fan layout: %s", p)
	}
	l.add(placed...)
	y := box.Min.Y - 4
	items, w := dims.Caption(pt(l.left(), y), "Seen from the front, faces up", k)
	l.add(items...)
	bar, _ := dims.ScaleBar(pt(l.left()+max(w+10, 100), y), k, u)
	l.add(bar...)
	l.y = y - 6
	l.para(0, bodyW, words, plain)
	l.skip(4)
	rows, h := laid.Draw(pt(l.left(), l.y), 0, laid.Rows())
	l.add(rows...)
	l.skip(h)
}

// step is how far one slat is turned from the next.
func (f *fan) step() float64 {
	a, b := f.slats[0].Pose.Along, f.slats[1].Pose.Along
	return math.Acos(min(1, a.Dot(b)))
}

// shoulder is the height up to which every slat has its straight edges.
func (f *fan) shoulder() float64 {
	least := math.Inf(1)
	for _, s := range f.slats {
		e := s.Part.Length
		if r := s.Part.Ends[1].Radius; r > 0 {
			e -= r
		}
		least = min(least, f.at(s, e, 0).Y, f.at(s, e, s.Part.Width).Y)
	}
	return least
}

// memberLines are the rows of screws of what the slats are fastened to.
func (f *fan) memberLines(at func(geom.Pt) geom.Pt) []render.Path {
	var out []render.Path
	for _, m := range f.lines {
		l, r := f.width(m.at)
		out = append(out, render.Lines(at(pt(l, m.at)), at(pt(r, m.at))))
	}
	return out
}

// heights are the levels at which the fan is measured: feet, cross members, and
// the shoulder of the outermost slats.
func (f *fan) heights() []fanLine {
	feet := 0.0
	for _, s := range f.slats { // the feet are sawn square to each slat
		feet = max(feet, f.at(s, 0, 0).Y, f.at(s, 0, s.Part.Width).Y)
	}
	out := append([]fanLine{{"the feet", feet + 0.1}}, f.lines...)
	least := f.shoulder()
	if n := len(out); least > out[n-1].at+50 {
		out = append(out, fanLine{"the shoulder", least - 1})
	}
	return out
}

// fanWishes are the widths at each height, the heights, and the middle line.
func (d *desk) fanWishes(f *fan, at func(geom.Pt) geom.Pt) []dims.Wish {
	u := d.plan.Unit
	var out []dims.Wish
	run := dims.Run{Side: dims.RightOf}
	for i, h := range f.heights() {
		_, right := f.width(h.at)
		left, _ := f.width(h.at)
		y := h.at
		if i == 0 {
			y = 0
		}
		label := dims.Label{Text: u.Length(y, expr.Coarse)}
		if i == 0 {
			label.Text = "0"
		}
		run.Stops = append(run.Stops, dims.Stop{At: at(pt(left, y)), Label: label})
		if i == 0 {
			out = append(out, d.gapWishes(f, at)...)
			out = append(out, dims.Span{Side: dims.Below, A: at(pt(right, y)), B: at(pt(left, y)), Label: dims.Label{Text: u.Length(right-left, expr.Coarse)}})
			continue
		}
		out = append(out, dims.Callout{At: at(pt(right, y)), Text: []string{u.Length(right-left, expr.Coarse) + " over all", "at " + theName(h.name)}, Prefer: pt(-1, 0.3)})
	}
	return append(out, run)
}

func theName(s string) string {
	if len(s) > 4 && s[:4] == "the " {
		return s
	}
	return "the " + s
}

// fanTable lists where each slat of one half lies: its inner edge from the
// middle line at each height, and its top.
func (d *desk) fanTable(f *fan) *tables.Table {
	u := d.plan.Unit
	t := &tables.Table{Accent: d.accent, Columns: []tables.Column{{Title: "Slat", Width: 16}}}
	hs := f.heights()
	for _, h := range hs {
		t.Columns = append(t.Columns, tables.Column{Group: "Center line to the slat's inner and outer edge, both sides alike", Title: "at " + theName(h.name), Share: 1, Align: tables.Left})
	}
	t.Columns = append(t.Columns, tables.Column{Title: "Top above the feet", Share: 0.8, Align: tables.OnFraction})
	for i, s := range f.slats {
		if i < len(f.slats)/2 {
			continue // the other half is its mirror
		}
		row := tables.Row{Cells: []tables.Cell{{Tabs: []tables.Tab{{Code: s.Part.Code}}, Page: d.tabPage(s.Part)}}}
		for _, h := range hs {
			l, r, ok := f.crossing(s, h.at)
			text := "–"
			if ok {
				text = u.Length(l, expr.Coarse) + " to " + u.Length(r, expr.Coarse)
			}
			row.Cells = append(row.Cells, cell(text))
		}
		row.Cells = append(row.Cells, cell(u.Length(f.top(s).Y, expr.Coarse)))
		t.Rows = append(t.Rows, row)
	}
	return t
}

const fanTab = 6.0

func lettersTab(code string) float64 { return lettering.TabWidth(code, "", fanTab) }

// tabAt draws a part's tab with its middle at c.
func (d *desk) tabAt(c geom.Pt, code string) []render.Item {
	items, _ := lettering.Tab(c.Sub(pt(lettersTab(code)/2, fanTab/2)), code, "", fanTab, d.accent)
	return items
}
