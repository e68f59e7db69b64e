package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/dims"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// A sawSet is one setting of saw and gauge for compound cuts, and what is cut
// with it. The wood lies left of the blade with its longer face down, and the
// blade leans over it; then the gauge is swung forward at the blade for some of
// the ends, backward for the others.
type sawSet struct {
	miter, tilt string
	m, t        float64 // radians
	swung       [2][]sawn
}

// A sawn is one kind of end and the parts whose ends are cut like it.
type sawn struct {
	end   string // "foot end of "
	parts []string
}

// The two ways the gauge is swung.
const (
	swungForward  = iota // its end at the blade away from the user: the edge away from the gauge stays longer
	swungBackward        // the edge against the gauge stays longer
)

// compoundSets gathers the cuts that go through the face and the thickness at an
// angle by their settings, in the order of the parts.
func (d *desk) compoundSets() []sawSet {
	var out []sawSet
	for _, set := range families(d.plan) {
		p := set[0]
		for i, e := range p.Ends {
			if e.Miter == 0 || e.Bevel == 0 || math.Abs(e.Miter) > math.Pi/4 {
				continue
			}
			s := sawSet{miter: expr.Angle(math.Abs(e.Miter), 0.5), tilt: expr.Angle(math.Abs(e.Bevel), 0.5), m: math.Abs(e.Miter), t: math.Abs(e.Bevel)}
			k := slices.IndexFunc(out, func(o sawSet) bool { return o.miter == s.miter && o.tilt == s.tilt })
			if k < 0 {
				k = len(out)
				out = append(out, s)
			}
			out[k].add(p, i)
		}
	}
	return out
}

// add enters an end of a part. A left piece is the mirror of the right one, so
// the gauge is swung the other way for it.
func (s *sawSet) add(p *model.Part, end int) {
	way, name := gaugeSwing(p, end), orElse(p.Names.Ends[end], [2]string{"datum", "far"}[end])+" end of "
	if p.Hand != model.Pair {
		s.enter(way, name, familyOr(p))
		return
	}
	s.enter(way, name, "the right "+familyOr(p))
	s.enter(1-way, name, "the left "+familyOr(p))
}

func (s *sawSet) enter(way int, end, part string) {
	i := slices.IndexFunc(s.swung[way], func(w sawn) bool { return w.end == end })
	if i < 0 {
		i = len(s.swung[way])
		s.swung[way] = append(s.swung[way], sawn{end: end})
	}
	s.swung[way][i].parts = append(s.swung[way][i].parts, part)
}

// words lists what is cut with the gauge swung one way.
func (s *sawSet) words(way int) string {
	var out []string
	for _, w := range s.swung[way] {
		out = append(out, w.end+join(w.parts))
	}
	return strings.Join(out, ", ")
}

// gaugeSwing tells which way the gauge is swung for an end of a right or unhanded
// piece. Looked down on with its first face up and its far end at the blade, a
// part has its second edge away from the gauge; with the second face up, or the
// datum end at the blade, the first; with both, the second again.
func gaugeSwing(p *model.Part, end int) int {
	e := p.Ends[end]
	away := e.LongFace & 1 // that face is down, the other one up
	if end == 0 {
		away = 1 - away
	}
	if e.LongEdge == away {
		return swungForward
	}
	return swungBackward
}

// sawBlocks are the pictures of the settings.
func (d *desk) sawBlocks() []block {
	var out []block
	for _, s := range d.compoundSets() {
		out = append(out, d.sawBlock(s))
	}
	return out
}

// sawBlock is the saw from above and from the front, with what is cut so.
func (d *desk) sawBlock(s sawSet) block {
	const high = 40.5
	var items []render.Item
	for _, make := range [...]func(sawSet) ([]render.Item, []string){sawFromAbove, sawFromFront} {
		art, lost := make(s)
		items = append(items, art...)
		for _, l := range lost {
			d.problem("saw picture %s, %s: %s", s.miter, s.tilt, l)
		}
	}
	way := func(k int, words string) string {
		if len(s.swung[k]) == 0 {
			return ""
		}
		return words + s.words(k) + "."
	}
	y := -high
	for _, text := range [...]string{
		"Lay the longer face on the table, so that the blade leans over the wood.",
		way(swungForward, "Gauge as drawn, longer edge away from it: "),
		way(swungBackward, "Gauge swung the other way, longer edge against it: "),
	} {
		p, h := lettering.Paragraph(pt(0, y), text, evened(text, sketchW, plain), plain)
		items = append(items, p...)
		if h > 0 {
			y -= h + 1
		}
	}
	return block{items, -y}
}

// seenAngle is an angle as a picture shows it: no less than 10 degrees, so that
// one sees which way it goes.
func seenAngle(a float64) float64 { return math.Max(a, 10*math.Pi/180) }

// sawFromAbove draws the table, the blade, the gauge swung forward and the wood
// against it.
func sawFromAbove(s sawSet) (items []render.Item, lost []string) {
	const blade = 37.0 // x of the blade
	a := seenAngle(s.m)
	table := render.Rect(geom.Box{Min: pt(1, -32), Max: pt(50, -2)})
	u := pt(1, 0).Turn(a)
	n := u.Left()
	near := pt(blade, -17) // where the gauge's face meets the blade
	back := func(along, off float64) geom.Pt { return near.Sub(u.Mul(along)).Add(n.Mul(off)) }
	// The wood: its edges run along the gauge, its end along the blade.
	wide, long := 9.0, 29.0
	far := near.Add(pt(0, wide/math.Cos(a)))
	wood := render.Loop(near, far, back(long, wide), back(long, 0))
	waste := render.Loop(near, near.Add(u.Mul(7)), near.Add(u.Mul(7)).Add(n.Mul(wide)), far)
	gauge := render.Loop(back(3, 0), back(26, 0), back(26, -2.6), back(3, -2.6))
	bar := render.Rect(geom.Box{Min: pt(22, -32), Max: pt(24, -32+9)})
	kerf := render.Rect(geom.Box{Min: pt(blade-0.4, -30), Max: pt(blade+0.4, -4)})
	items = []render.Item{
		render.Fill{Paths: []render.Path{table}, Tone: render.Edge}, render.Stroke{Paths: []render.Path{table}, Pen: render.Thin},
		render.Fill{Paths: []render.Path{bar, gauge}, Tone: render.Grain}, render.Stroke{Paths: []render.Path{bar, gauge}, Pen: render.Thin},
		render.Fill{Paths: []render.Path{wood, waste}, Tone: render.Paper},
		render.Stroke{Paths: []render.Path{waste}, Pen: render.Ghost}, render.Stroke{Paths: []render.Path{wood}, Pen: render.Outline},
		render.Fill{Paths: []render.Path{kerf}},
	}
	items = append(items, captionAt(pt(1, -37), "From above")...)
	f := dims.Field{
		Box: geom.Box{Min: pt(0, -33), Max: pt(54, 0)}, Ink: []render.Path{table, wood, kerf}, Body: geom.Box{Min: pt(1, -32), Max: pt(50, -2)},
	}
	corner := back(26, -2.6)
	level := render.Lines(corner, corner.Add(pt(11, 0)))
	items = append(items, render.Stroke{Paths: []render.Path{level}, Pen: render.Hidden})
	placed, _, lost := dims.Place(f, dims.Angle{At: corner, From: 0, To: a, Label: dims.Label{Text: s.miter, Note: true}})
	return append(items, placed...), lost
}

// sawFromFront draws the tilted blade and the wood under it, seen by the user.
func sawFromFront(s sawSet) (items []render.Item, lost []string) {
	const table, foot, thick, right = -29.0, 74.0, 8.0, 88.0
	a := seenAngle(s.t)
	lean := pt(0, 1).Turn(a)
	top := pt(foot, table).Add(lean.Mul(thick / math.Cos(a)))
	left := 57.0
	wood := render.Loop(pt(left, table), pt(foot, table), top, pt(left, table+thick))
	waste := render.Loop(pt(foot, table), pt(right-4, table), pt(right-4, table+thick), top)
	side := lean.Left().Mul(0.4)
	from, to := pt(foot, table).Sub(lean.Mul(3/math.Cos(a))), top.Add(lean.Mul(7))
	kerf := render.Loop(from.Add(side), to.Add(side), to.Sub(side), from.Sub(side))
	top2 := render.Rect(geom.Box{Min: pt(left-3, table-2.4), Max: pt(right, table)})
	upright := render.Lines(pt(foot, table+thick+1), pt(foot, table+thick+14))
	items = []render.Item{
		render.Fill{Paths: []render.Path{top2}, Tone: render.Edge}, render.Stroke{Paths: []render.Path{top2}, Pen: render.Thin},
		render.Fill{Paths: []render.Path{wood, waste}, Tone: render.Paper},
		render.Stroke{Paths: []render.Path{waste}, Pen: render.Ghost}, render.Stroke{Paths: []render.Path{wood}, Pen: render.Outline},
		render.Fill{Paths: []render.Path{kerf}}, render.Stroke{Paths: []render.Path{upright}, Pen: render.Hidden},
	}
	items = append(items, captionAt(pt(left-3, -37), "From the front")...)
	f := dims.Field{
		Box: geom.Box{Min: pt(left-3, -33), Max: pt(right, 0)}, Ink: []render.Path{wood, kerf, upright}, Body: geom.Box{Min: pt(left-3, table-2.4), Max: pt(right, table+thick+8)},
	}
	placed, _, lost := dims.Place(f, dims.Angle{At: pt(foot, table), From: math.Pi / 2, To: math.Pi/2 + a, Label: dims.Label{Text: s.tilt, Note: true}})
	return append(items, placed...), lost
}

// captionAt names a small picture.
func captionAt(at geom.Pt, s string) []render.Item {
	return lettering.Line(at, s, caption, render.Left)
}
