package dims

import (
	"math"

	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

// A setAngle is an angle with a place for its arc and text.
type setAngle struct {
	Angle
	words  words
	r      float64
	inside bool // arrows between the arms
	quad   inspect.Quad
	stem   []geom.Pt
}

const angleTail = 4.5 // of an arc whose arrows point inward, mm beyond each arm

func (a Angle) tasks(*Field) []task {
	a.To = a.From + turn(a.To-a.From)
	s := setAngle{Angle: a, words: a.words()}
	return []task{{name: "the angle " + a.Text, group: "dim", rank: rankCorner, options: s.options}}
}

// turn returns the anticlockwise turn that a is, above 0 and at most full.
func turn(a float64) float64 {
	if a = math.Mod(a, 2*math.Pi); a <= 0 {
		a += 2 * math.Pi
	}
	return a
}

func (a *setAngle) on(r, at float64) geom.Pt {
	return a.At.Add(geom.Pt{X: r}.Turn(at))
}

func (a setAngle) options(*scene) offer {
	var list []choice
	for _, r := range [...]float64{14, 16, 18, 11.5, 20, 22, 25, 29, 33, 38, 44, 50, 57} {
		a.setRadius(r)
		for i, w := range a.ways() {
			list = append(list, choice{base: w.base(), which: i, far: r})
		}
	}
	return offer{list, func(c *choice) option {
		at := a
		at.setRadius(c.far)
		o := at.ways()[c.which].option()
		o.base = c.base
		return o
	}}
}

// setRadius sets how far from its point the arc runs.
func (a *setAngle) setRadius(r float64) {
	a.r = r
	a.inside = (a.To-a.From)*r >= 2*arrowLen+2
}

// base is the price of a before anything is crossed.
func (a *setAngle) base() float64 {
	mid := a.on(a.r, (a.From+a.To)/2)
	price := math.Abs(a.r-14)*0.3 + 0.3*a.quad.C.Sub(mid).Len()
	if a.stem != nil {
		price += 5
	}
	return price
}

// ways offers the places of the text: beyond the arc, within it, beyond its
// tails, on a leader.
func (a setAngle) ways() []setAngle {
	mid := (a.From + a.To) / 2
	ways := make([]setAngle, 0, 37)
	for _, at := range [...]float64{mid, mid*0.6 + a.From*0.4, mid*0.6 + a.To*0.4} {
		ways = append(ways, a.textAt(at, 1), a.textAt(at, -1))
	}
	if !a.inside {
		tail := angleTail / a.r
		for _, at := range [...]float64{a.To + tail, a.From - tail} {
			ways = append(ways, a.textAt(at, 1), a.textAt(at, -1), a.textAfter(at))
		}
	}
	for _, far := range [...]float64{6, 9, 13, 18, 24} {
		for _, lean := range [...]float64{0, 0.4, -0.4, 0.8, -0.8} {
			ways = append(ways, a.onStem(mid+lean, far))
		}
	}
	return ways
}

// textAt puts the text just outside the arc (side 1) or inside it (-1).
func (a setAngle) textAt(at, side float64) setAngle {
	dir := geom.Pt{X: 1}.Turn(at)
	sz := a.words.size()
	reach := (math.Abs(dir.X)*sz.W+math.Abs(dir.Y)*sz.H)/2 + clear + pen + 0.3
	a.quad = a.words.quad(a.on(a.r+side*reach, at), 0)
	return a
}

// textAfter puts the text at the end of a tail of the arc.
func (a setAngle) textAfter(at float64) setAngle {
	dir := geom.Pt{X: 1}.Turn(at).Left()
	if at < a.From {
		dir = dir.Mul(-1)
	}
	sz := a.words.size()
	reach := (math.Abs(dir.X)*sz.W+math.Abs(dir.Y)*sz.H)/2 + clear + pen
	a.quad = a.words.quad(a.on(a.r, at).Add(dir.Mul(reach)), 0)
	return a
}

// onStem puts the text on a leader from the middle of the arc.
func (a setAngle) onStem(at, far float64) setAngle {
	foot := a.on(a.r, (a.From+a.To)/2)
	dir := geom.Pt{X: 1}.Turn(at)
	knee := foot.Add(dir.Mul(far))
	side := 1.0
	if dir.X < 0 {
		side = -1
	}
	end := knee.Add(geom.Pt{X: side * 2})
	a.stem = []geom.Pt{foot, knee, end}
	a.quad = a.words.quad(end.Add(geom.Pt{X: side * (clear + pen + a.words.size().W/2)}), 0)
	return a
}

// arcs returns the arc: one piece between the arms, with tails where the
// arrows point inward.
func (a *setAngle) arc() geom.Seg {
	from, to := a.From, a.To
	if !a.inside {
		from, to = from-angleTail/a.r, to+angleTail/a.r
	}
	return geom.Seg{A: a.on(a.r, from), B: a.on(a.r, to), C: a.At, R: a.r, Turn: geom.CCW}
}

func (a *setAngle) arms() [2][]geom.Pt {
	return [2][]geom.Pt{
		{a.on(gap, a.From), a.on(a.r+overshoot, a.From)},
		{a.on(gap, a.To), a.on(a.r+overshoot, a.To)},
	}
}

// heads returns the tips of the arrows and their directions. An arrowhead on
// an arc is turned by half its own angle so that it lies on the arc.
func (a *setAngle) heads() (tips, dirs [2]geom.Pt) {
	half := arrowLen / a.r / 2
	sign := 1.0
	if !a.inside {
		sign = -1
	}
	tips = [2]geom.Pt{a.on(a.r, a.From), a.on(a.r, a.To)}
	dirs[0] = geom.Pt{X: 1}.Turn(a.From + sign*half).Left().Mul(-sign)
	dirs[1] = geom.Pt{X: 1}.Turn(a.To - sign*half).Left().Mul(sign)
	return tips, dirs
}

// option is the angle as it stands.
func (a setAngle) option() option {
	o := option{texts: []inspect.Quad{a.quad}}
	o.add(dimLine, inspect.Chords(a.arc())...)
	for _, arm := range a.arms() {
		o.add(extLine, arm...)
	}
	tips, dirs := a.heads()
	for i := range tips {
		o.addArrow(dimLine, tips[i], dirs[i])
	}
	if a.stem != nil {
		o.add(leader, a.stem...)
	}
	o.draw, o.move = a.items, a.moved
	return o
}

func (a setAngle) items() []render.Item {
	arms := a.arms()
	lines := []render.Path{render.Lines(arms[0]...), render.Lines(arms[1]...), {Segs: []geom.Seg{a.arc()}}}
	tips, dirs := a.heads()
	return append([]render.Item{
		thin(lines...), black(arrow(tips[0], dirs[0]), arrow(tips[1], dirs[1])),
		a.words.draw(a.quad.C, 0),
	}, stemItems(a.stem)...)
}
