package dims

import (
	"math"

	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// A note is text on a leader, with a sketch in front of it perhaps.
type note struct {
	words  words
	sketch sketch
	head   int8 // of the leader
	prefer geom.Pt
}

const (
	headArrow int8 = iota
	headDot
)

// A sketch is a small picture in a box; draw puts its lower-left corner at p.
type sketch struct {
	size  geom.Size
	level float64 // where a leader meets it, from its bottom
	draw  func(p geom.Pt) []render.Item
}

const (
	shelf     = 2.5 // level end of a leader, mm
	sketchGap = 2.0
	dotRadius = 0.7
)

// A ray is where a leader may go: from the tip outward.
type ray struct {
	tip, dir geom.Pt
	price    float64
}

func (c Callout) tasks(*Field) []task {
	n := note{words: noteWords(c.Text, c.Key), prefer: c.Prefer.Unit()}
	if c.Dot {
		n.head = headDot
	}
	return []task{n.task("the note "+quoted(c.Text), func(s *scene) []ray { return leaderRays(c.At, c.Ring, s.wide) })}
}

// quoted returns the first line in quotes.
func quoted(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return `"` + lines[0] + `"`
}

// usual are the angles of leaders to the level, degrees, with their prices:
// near 60, 45 and 30 first, then steeper and flatter ones.
var usual = [...]struct{ deg, price float64 }{
	{60, 0}, {45, 0}, {52, 0.5}, {37, 0.5}, {30, 1}, {68, 1}, {75, 3}, {20, 6}, {82, 7},
}

// leaderRays are the directions of a leader, best first. Wide offers every 5
// degrees besides.
func leaderRays(at geom.Pt, ring float64, wide bool) []ray {
	var rays []ray
	add := func(deg, price float64) {
		for _, deg := range [4]float64{deg, 180 - deg, -deg, deg - 180} {
			dir := geom.Pt{X: 1}.Turn(deg * math.Pi / 180)
			rays = append(rays, ray{tip: at.Add(dir.Mul(ring)), dir: dir, price: price})
		}
	}
	for _, e := range usual {
		add(e.deg, e.price)
	}
	if wide {
		for deg := 8.0; deg < 90; deg += 5 {
			add(deg, 4+0.1*math.Abs(deg-50))
		}
	}
	return rays
}

func (r Radius) tasks(*Field) []task {
	n := note{words: noteWords([]string{r.Text}, r.Key)}
	sweep := turn(r.To - r.From)
	var rays []ray
	for _, share := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
		dir := geom.Pt{X: 1}.Turn(r.From + share*sweep)
		tip := r.C.Add(dir.Mul(r.R))
		price := 4 * math.Abs(share-0.5)
		if flat := math.Min(math.Abs(dir.X), math.Abs(dir.Y)); flat < 0.2 {
			price += 5
		}
		rays = append(rays, ray{tip, dir, price}, ray{tip, dir.Mul(-1), price + 2})
	}
	return []task{n.task("the radius "+r.Text, func(*scene) []ray { return rays })}
}

func (g Gauge) tasks(*Field) []task {
	n := note{words: noteWords(g.Text, g.Key), sketch: gaugeSketch(g.Off), prefer: g.Prefer.Unit()}
	n.words.also = g.Also
	return []task{n.task("the gauge "+quoted(g.Text), func(s *scene) []ray { return leaderRays(g.At, 0, s.wide) })}
}

func (n note) task(name string, rays func(*scene) []ray) task {
	t := task{name: name, group: "leader", rank: rankCallout}
	if n.sketch.draw != nil {
		t.order = -1 // bigger things first
	}
	t.options = func(s *scene) offer { return n.options(s, rays(s)) }
	return t
}

// options offers the ends of every ray, on the rails first.
func (n *note) options(s *scene, rays []ray) offer {
	rails, lengths := s.rails(), [...]float64{7, 9, 11.5, 14, 17, 21, 26, 32, 39, 47, 57, 70, 85, 105}
	list := make([]choice, 0, len(rays)*(len(rails)+len(lengths)))
	add := func(i int, length, price float64) {
		if r := &rays[i]; s.field.Box.Has(r.tip.Add(r.dir.Mul(length))) {
			list = append(list, choice{base: n.base(s, r, length, price), which: i, far: length})
		}
	}
	for i, r := range rays {
		for _, l := range lengths {
			add(i, l, r.price+1.5)
		}
		if math.Abs(r.dir.Y) < 0.2 {
			continue
		}
		for _, y := range rails {
			if l := (y - r.tip.Y) / r.dir.Y; l >= 6 && l <= 110 {
				add(i, l, r.price)
			}
		}
	}
	return offer{list, func(c *choice) option { return n.at(&rays[c.which], c) }}
}

// rails are the heights, above and below the drawing, on which notes like to
// line up.
func (s *scene) rails() []float64 {
	b := s.field.Body
	ys := make([]float64, 0, 12)
	for k := range 6 {
		d := first + float64(k)*pitch
		ys = append(ys, b.Max.Y+d, b.Min.Y-d)
	}
	return ys
}

// A setNote is a note with a place.
type setNote struct {
	note
	spot
}

// A spot is where the parts of a note are.
type spot struct {
	lead [3]geom.Pt
	text inspect.Quad
	pic  geom.Box
}

// end puts the text at the end of a leader with its knee length along r.
func (n *note) end(r *ray, length float64) spot {
	side := -1.0
	if r.dir.X >= 0 { // text on the right of the leader
		side = 1
	}
	knee := r.tip.Add(r.dir.Mul(length))
	end := knee.Add(geom.Pt{X: side * shelf})
	p := spot{lead: [3]geom.Pt{r.tip, knee, end}}
	n.put(&p, end, side)
	return p
}

// base is the price of a note before anything is crossed.
func (n *note) base(s *scene, r *ray, length, price float64) float64 {
	price += 0.25*length + 6*(1-n.prefer.Dot(r.dir))*n.prefer.Len()
	p := n.end(r, length)
	text := p.text.Box()
	if s.field.Body.Meets(text) {
		price += 10
	}
	if s.field.Low {
		const rise = 0.6 // for each mm above or below the drawing
		price += rise * math.Max(0, math.Max(text.Max.Y-s.field.Body.Max.Y, s.field.Body.Min.Y-text.Min.Y))
	}
	return price
}

// at is the note with its leader along r.
func (n *note) at(r *ray, c *choice) option {
	p := &setNote{*n, n.end(r, c.far)}
	p.words.right = r.dir.X < 0
	o := p.option(r.dir)
	o.base = c.base
	return o
}

// option is the note as it stands, its leader's first stretch along dir.
func (p *setNote) option(dir geom.Pt) option {
	o := option{lines: make([]line, 0, 3)}
	if p.sketch.draw != nil {
		o.texts = []inspect.Quad{p.text, inspect.QuadOf(p.pic)}
	} else {
		o.texts = []inspect.Quad{p.text}
	}
	o.add(leader, p.lead[:]...)
	if p.head == headArrow {
		o.addArrow(leader, p.lead[0], dir.Mul(-1))
	}
	o.draw, o.move = p.items, p.moved
	return o
}

// put places text and sketch beside the end of the leader, which points at the
// middle of the first line.
func (n *note) put(p *spot, end geom.Pt, side float64) {
	sz := n.words.size()
	x := end.X + side*(clear+pen)
	if n.sketch.draw != nil {
		// The sketch is at the leader, the text behind it.
		pw := n.sketch.size
		low := geom.Pt{X: x, Y: end.Y - n.sketch.level}
		if side < 0 {
			low.X = x - pw.W
		}
		p.pic = geom.Box{Min: low, Max: low.Add(geom.Pt{X: pw.W, Y: pw.H})}
		far := x + side*(pw.W+sketchGap+sz.W/2)
		p.text = n.words.quad(geom.Pt{X: far, Y: low.Y + pw.H/2}, 0)
		return
	}
	// The middle of the first line's capitals is level with the leader.
	y := end.Y - lettering.Cap(n.words.style)/2 + n.words.mid()
	p.text = n.words.quad(geom.Pt{X: x + side*sz.W/2, Y: y}, 0)
}

func (p *setNote) items() []render.Item {
	tip, knee := p.lead[0], p.lead[1]
	items := []render.Item{thin(render.Lines(p.lead[:]...))}
	if p.head == headDot {
		items = append(items, black(render.Circle(tip, dotRadius)))
	} else {
		items = append(items, black(arrow(tip, tip.Sub(knee))))
	}
	if p.sketch.draw != nil {
		items = append(items, render.Group{Name: "sketch", Items: p.sketch.draw(p.pic.Min)})
	}
	return append(items, p.words.draw(p.text.C, 0))
}

// gaugeSketch draws a bevel gauge: its stock along an edge, its blade leaning
// off square, the square direction dashed, and the arc between.
func gaugeSketch(off float64) sketch {
	const w, h, stock = 14.0, 13.0, 2.2
	return sketch{size: geom.Size{W: w, H: h}, level: stock / 2, draw: func(p geom.Pt) []render.Item {
		// A small angle is drawn at 10 degrees at least, so that one sees
		// which way it leans.
		lean := math.Copysign(math.Min(math.Max(math.Abs(off), 10*math.Pi/180), 60*math.Pi/180), off)
		foot := p.Add(geom.Pt{X: w/2 + 2.5*math.Sin(lean), Y: stock + 0.6})
		up := geom.Pt{Y: 1}
		dir := up.Turn(lean)
		blade := (h - stock - 1.6) / math.Max(dir.Y, 0.4)
		blade = math.Min(blade, w/2/math.Max(math.Abs(dir.X), 0.1))
		side := dir.Left().Mul(0.8)
		body := render.Rect(geom.Box{Min: p.Add(geom.Pt{X: 0.5}), Max: p.Add(geom.Pt{X: w - 0.5, Y: stock})})
		arm := render.Loop(foot.Sub(side), foot.Add(dir.Mul(blade)).Sub(side), foot.Add(dir.Mul(blade)).Add(side), foot.Add(side))
		r := blade * 0.8
		// The arc ends at the near side of the blade.
		near := up.Turn(lean - math.Copysign(math.Asin(0.8/r), lean))
		arc := geom.Seg{A: foot.Add(up.Mul(r)), B: foot.Add(near.Mul(r)), C: foot, R: r, Turn: geom.CCW}
		if lean < 0 {
			arc.Turn = geom.CW
		}
		return []render.Item{
			render.Fill{Paths: []render.Path{body}, Tone: render.Edge},
			render.Fill{Paths: []render.Path{arm}, Tone: render.White},
			render.Stroke{Paths: []render.Path{body, arm}, Pen: render.Thin},
			render.Stroke{Paths: []render.Path{render.Lines(foot, foot.Add(up.Mul(h-stock-1)))}, Pen: render.Hidden},
			render.Stroke{Paths: []render.Path{{Segs: []geom.Seg{arc}}}, Pen: render.Thin},
			black(render.Circle(foot, 0.5)),
		}
	}}
}
