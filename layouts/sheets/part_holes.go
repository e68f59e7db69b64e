package sheets

import (
	"math"
	"slices"
	"strings"

	"planset/layouts/dims"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/wood"
	"planset/render"
)

// holeArt draws the holes and pockets of the face view. Ink is what text keeps
// clear of.
func (b *partPage) holeArt() (items []render.Item, ink []render.Path) {
	v := b.view
	var seen, hidden, axes []render.Path
	for _, h := range b.p.Holes {
		switch {
		case h.Into == "face":
			s, hd, ax := b.faceHole(h)
			seen, hidden, axes = append(seen, s...), append(hidden, hd...), append(axes, ax...)
		default:
			axes = append(axes, v.sideHole(h))
		}
	}
	for _, q := range b.p.Pockets {
		if q.Face == v.shown() {
			seen = append(seen, v.pocket(q))
		} else {
			hidden = append(hidden, v.pocket(q))
		}
	}
	thin := render.Pen{Width: 0.3, Round: true}
	items = []render.Item{
		render.Stroke{Paths: seen, Pen: thin}, render.Stroke{Paths: hidden, Pen: render.Pen{Width: 0.25, Dash: []float64{0.8, 0.5}}},
		render.Stroke{Paths: axes, Pen: render.Hairline},
	}
	return items, append(append(append(ink, seen...), hidden...), axes...)
}

// faceHole draws a hole into a face: its circle, the countersink round it, and
// the cross of its middle.
func (b *partPage) faceHole(h model.Hole) (seen, hidden, axes []render.Path) {
	v := b.view
	c, r := v.pt(h.Along, h.Across), h.Diam/2*v.k
	near := h.From == v.shown()
	if r >= 0.4 && (near || h.Depth == 0) {
		seen = append(seen, render.Circle(c, r))
	} else if r >= 0.4 {
		hidden = append(hidden, render.Circle(c, r))
	}
	if ring := ringOf(h) * v.k; ring > r+0.2 {
		if near {
			seen = append(seen, render.Circle(c, ring))
		} else {
			hidden = append(hidden, render.Circle(c, ring))
		}
	}
	arm := max(r, ringOf(h)*v.k) + 0.9
	if h.Matched && h.Kind == model.PilotHole {
		arm = 0.8
	}
	axes = append(axes, render.Lines(c.Add(pt(-arm, 0)), c.Add(pt(arm, 0))), render.Lines(c.Add(pt(0, -arm)), c.Add(pt(0, arm))))
	return seen, hidden, axes
}

// ringOf is the radius of what is wider than the hole at its mouth, in mm.
func ringOf(h model.Hole) float64 {
	switch {
	case h.BoreDiam > 0:
		return h.BoreDiam / 2
	case h.Sink && h.Hardware != nil:
		if s, ok := wood.Screw(h.Hardware.Size); ok {
			return s.Head / 2
		}
		return 0.95 * h.Hardware.Diam
	}
	return 0
}

// sideHole draws the axis of a hole drilled into an edge or an end.
func (v *plate) sideHole(h model.Hole) render.Path {
	a := pt(h.Along, h.Across)
	d := pt(h.Dir.X, h.Dir.Y)
	deep := h.Depth
	if deep == 0 {
		deep = v.p.Width
	}
	e := a.Add(d.Mul(deep))
	return render.Lines(v.pt(a.X, a.Y), v.pt(e.X, e.Y))
}

// pocket draws the mouth of a screw pocket: a slot as long as the slanted drill
// makes it, open toward the screw's end.
func (v *plate) pocket(q model.Pocket) render.Path {
	r := wood.PocketDrill / 2
	long := wood.PocketDrill / math.Sin(wood.PocketAngle*math.Pi/180) / 2
	var pts []geom.Pt
	for i := range 28 {
		a := 2 * math.Pi * float64(i) / 28
		pts = append(pts, v.pt(q.Along+long*math.Cos(a), q.Across+r*math.Sin(a)))
	}
	return render.Loop(pts...)
}

// A drilling is holes that are made alike.
type drilling struct {
	holes []model.Hole
	first model.Hole
}

// drillings sorts the holes of a part by how they are made.
func drillings(p *model.Part) []drilling {
	var out []drilling
	at := map[string]int{}
	for _, h := range p.Holes {
		key := strings.Join([]string{string(h.Kind), h.Into, digits(h.From), expr.MM.Bare(h.Diam, expr.Drill), expr.MM.Bare(h.BoreDiam, expr.Drill), yes(h.Sink), yes(h.Matched), jointKey(h)}, "|")
		if i, ok := at[key]; ok {
			out[i].holes = append(out[i].holes, h)
			continue
		}
		at[key] = len(out)
		out = append(out, drilling{holes: []model.Hole{h}, first: h})
	}
	return out
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// jointKey keeps matched holes of different joints apart, and clearance holes
// together.
func jointKey(h model.Hole) string {
	if h.Matched && h.Joint != nil {
		return h.Joint.Key
	}
	return ""
}

// holeNotes are the callouts of the holes and pockets, one for all that are
// made alike.
func (b *partPage) holeNotes() []called {
	v := b.view
	var out []called
	names := counter{}
	for _, g := range drillings(b.p) {
		h := g.pick(v, b.other)
		at := v.pt(h.Along, h.Across)
		c := dims.Callout{At: at, Ring: max(h.Diam/2, ringOf(h)) * v.k, Text: b.holeWords(g), Key: 0}
		if h.Into != "face" {
			c.Ring = 0
			c.Prefer = pt(h.Along-v.p.Length/2, 0).Unit()
		}
		if c.Ring < 0.6 {
			c.Ring = 0.6
		}
		out = append(out, called{Wish: c, name: names.name("note " + holeBase(g.first))})
	}
	for end := range 2 {
		n, first := 0, model.Pocket{}
		for _, q := range b.p.Pockets {
			if q.End == end {
				if n == 0 {
					first = q
				}
				n++
			}
		}
		if n > 0 {
			note := dims.Callout{At: v.pt(first.Along, first.Across), Dot: true, Text: []string{pocketWords(n), "mouth in the " + faceName(b.p, first.Face)}}
			out = append(out, called{Wish: note, name: names.name("note pocket")})
		}
	}
	return out
}

// pocketWords count the pockets at one end.
func pocketWords(n int) string {
	if n == 1 {
		return "pocket"
	}
	return digits(n) + " × pocket"
}

// pick is the hole of g that a callout points at: near an end, where there is
// room beside the part; other picks the next ones.
func (g drilling) pick(v *plate, other int) model.Hole {
	byEnd := slices.Clone(g.holes)
	slices.SortStableFunc(byEnd, func(a, b model.Hole) int {
		return compare(math.Round(math.Abs(b.Along-v.p.Length/2)), math.Round(math.Abs(a.Along-v.p.Length/2)))
	})
	return byEnd[other%len(byEnd)]
}

// holeWords says how a group of holes is drilled.
func (b *partPage) holeWords(g drilling) []string {
	u, h := b.unit(), g.first
	n := ""
	if len(g.holes) > 1 {
		n = digits(len(g.holes)) + " × "
	}
	deep := " through"
	if h.Depth > 0 {
		deep = ", " + u.Length(g.depth(), expr.Coarse) + " deep"
	}
	size := "⌀" + u.Length(h.Diam, expr.Drill)
	if h.Kind == model.PilotHole {
		size = "pilot " + size
	}
	lines := []string{}
	if h.BoreDiam > 0 {
		lines = append(lines, n+"counterbore ⌀"+u.Length(h.BoreDiam, expr.Drill)+", "+u.Length(h.BoreDepth, expr.Coarse)+" deep, then")
		n = ""
	}
	text := n + size + deep
	if h.Hardware != nil && h.Kind == model.BoltHole {
		text += " (" + sizeName(h.Hardware, u) + " bolt)"
	}
	lines = append(lines, text)
	if h.Matched {
		with := b.throughWords(g)
		return append(lines, "drill through "+with+" clamped on, do not lay out")
	}
	if h.Into != "face" {
		lines = append(lines, b.mouthPlace(h))
	} else if h.Sink {
		lines = append(lines, "countersink from the "+faceName(b.p, h.From))
	} else if h.Into == "face" && h.Depth > 0 {
		lines = append(lines, "from the "+faceName(b.p, h.From))
	}
	return lines
}

// mouthPlace tells where a hole is marked on an edge or an end, which the face
// view does not show.
func (b *partPage) mouthPlace(h model.Hole) string {
	n := b.p.Names
	side := orElse(n.Edges[h.From&1], "marked") + " edge"
	if h.Into == "end" {
		side = orElse(n.Ends[h.From&1], "marked") + " end"
	}
	if math.Abs(h.Thick-b.p.Thick/2) < 0.4 {
		return "into the " + side + ", in the middle of the thickness"
	}
	return "into the " + side + ", " + b.unit().Length(h.Thick, expr.Coarse) + " from the " + faceName(b.p, 0)
}

// depth is the deepest of a group.
func (g drilling) depth() float64 {
	d := 0.0
	for _, h := range g.holes {
		d = max(d, h.Depth)
	}
	return d
}

// throughWords names the parts that a group of holes is drilled through.
func (b *partPage) throughWords(g drilling) string {
	var codes []string
	for _, h := range g.holes {
		code := h.Through
		if h.Joint != nil {
			for _, q := range h.Joint.First {
				codes = appendNew(codes, familyOr(q))
			}
			continue
		}
		codes = appendNew(codes, code)
	}
	return join(codes)
}

func familyOr(p *model.Part) string {
	if p.Family != "" {
		return p.Family
	}
	return p.Code
}

func appendNew(list []string, s string) []string {
	for _, t := range list {
		if t == s {
			return list
		}
	}
	return append(list, s)
}

// join writes "G and H", "G, H and J".
func join(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// sizeName prints a hardware size: "3⁄8″", "M10", "#8".
func sizeName(h *model.Hardware, u expr.Unit) string {
	s := strings.ReplaceAll(h.Size, "/", "⁄")
	if strings.Contains(s, "⁄") && u == expr.Inch {
		s += "″"
	}
	return s
}

// wordLetters finds the sizes that differ within a family and gives each a
// letter; those of one kind that differ alike share it.
func (b *partPage) wordLetters() {
	if len(b.set) < 2 {
		return
	}
	u := b.unit()
	next := 'a'
	take := func(key string, of func(p *model.Part) (float64, bool)) {
		c := column{keys: []string{key}}
		for _, p := range b.set {
			x, ok := of(p)
			if !ok {
				return
			}
			c.values = append(c.values, u.Length(x, expr.Coarse))
		}
		if len(slices.Compact(slices.Clone(c.values))) == 1 {
			return // it does not differ
		}
		for i, o := range b.view.letters {
			if o.kind() == c.kind() && slices.Equal(o.values, c.values) {
				b.view.letters[i].keys = append(o.keys, key)
				return
			}
		}
		c.letter = string(next)
		next++
		b.view.letters = append(b.view.letters, c)
	}
	take("width", footWidth)
	for _, h := range b.laidOut() {
		take("x "+h.Name, func(p *model.Part) (float64, bool) { g, ok := holeNamed(p, h.Name); return g.Along, ok })
		if h.Across > b.p.Width/2 {
			continue // told by the one on the other side of the middle
		}
		take("pair "+h.Name, func(p *model.Part) (float64, bool) {
			g, ok := holeNamed(p, h.Name)
			return math.Abs(p.Width - 2*g.Across), ok
		})
	}
}

// footWidth is the width of a part at its datum end when both edges taper.
func footWidth(p *model.Part) (float64, bool) {
	for _, t := range p.Tapers {
		if t.Edge == 2 {
			return t.FromWidth + (0-t.FromAlong)/(t.ToAlong-t.FromAlong)*(t.ToWidth-t.FromWidth), true
		}
	}
	return 0, false
}

func holeNamed(p *model.Part, name string) (model.Hole, bool) {
	for _, h := range p.Holes {
		if h.Name == name {
			return h, true
		}
	}
	return model.Hole{}, false
}

// faceName names a face in words: "inside face", but "face" for one called so.
func faceName(p *model.Part, i int) string {
	switch n := p.Names.Faces[i&1]; n {
	case "", "face":
		return orElse(n, "marked face")
	default:
		return n + " face"
	}
}
