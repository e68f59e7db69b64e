package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model/geom"
	"planset/render"
)

// explodedView draws pieces apart with hardware, trails and balloons.
func (d *desk) explodedView(v stageView, box geom.Box) []render.Item {
	e, placed, lost := d.setApart(v, box)
	for _, p := range lost {
		d.problem("exploded view: %s", p)
	}
	return []render.Item{render.Group{Name: "exploded", Items: append(e.items, placed...)}}
}

// setApart takes a thing apart and places its balloons. When a leader has to run
// over a part it does not name, that is done once more with more room for balloons,
// and the best of it is kept.
func (d *desk) setApart(v stageView, box geom.Box) (best *takenApart, balloons []render.Item, lost []string) {
	least := math.Inf(1)
	for _, roomy := range [...]float64{1.3, 2, 1.6, 1} {
		e := d.takeApart(v, box, roomy)
		placed, _, problems := dims.Place(e.field, e.balloons...)
		stray := e.astray(placed) + 1000*float64(len(problems))
		if stray < least {
			least, best, balloons, lost = stray, e, placed, problems
		}
		if stray < leastStray {
			break
		}
	}
	return best, balloons, lost
}

// leastStray is how much of the leaders, mm, may run over other parts before
// that is seen.
const leastStray = 0.6

// astray is how much of the leaders, mm, runs over parts they do not name. A
// placed balloon begins with its leader.
func (e *takenApart) astray(placed []render.Item) float64 {
	seen := e.pic.Seen()
	sum := 0.0
	for _, item := range placed {
		g, ok := item.(render.Group)
		if !ok || len(g.Items) < 2 {
			continue
		}
		leader, ok := g.Items[0].(render.Stroke)
		if !ok {
			continue
		}
		l := leader.Paths[0].Segs[0]
		own := e.keyAt(seen.At(l.A))
		seen.Along(l.A, l.B, func(i int, long float64) bool {
			if k := e.keyAt(i); k != "" && k != own {
				sum += long
			}
			return false
		})
	}
	return sum
}

// keyAt is what the balloon of a piece of the picture says; nothing for hardware.
func (e *takenApart) keyAt(i int) string {
	if i < 0 || i >= len(e.keys) {
		return ""
	}
	return e.keys[i]
}

// A takenApart is an exploded picture that has no balloons yet.
type takenApart struct {
	pic      *woodwork.Picture
	keys     []string // of the pieces of the picture, which come before hardware
	solids   []*geom.Solid
	items    []render.Item
	field    dims.Field
	balloons []dims.Wish
}

// Room for a row of balloons beside an exploded picture, and over and under it.
const besideExploded, overExploded = 13.0, 11.0

// takeApart draws pieces apart into a box, with more room for balloons where roomy
// is more than 1.
func (d *desk) takeApart(v stageView, box geom.Box, roomy float64) *takenApart {
	cam := lookFrom(v.words)
	inner := geom.Box{Min: box.Min.Add(pt(besideExploded, overExploded)), Max: box.Max.Sub(pt(besideExploded, overExploded))}
	u := d.undo(v.pieces)
	j := newJudge(u, cam, geom.Size{W: inner.W(), H: inner.H()})
	j.roomy = roomy
	off := u.offsets(j.best(u, v.apart))
	e := &takenApart{}
	s := &scene{plan: d.plan}
	for _, i := range v.pieces {
		s.wood(i, woodwork.Natural, off[i])
		e.keys = append(e.keys, d.balloonKey(i))
	}
	driven, seated := u.shown()
	for _, f := range driven {
		s.driveOff(f)
	}
	pic := woodwork.Fit(s.pieces, cam, inner, 0.5)
	g := newGaze(s, cam)
	trails, cues := g.trails(s, pic), cuesIn(cam, box)
	for i := range e.keys {
		e.solids = append(e.solids, s.pieces[i].Solid)
	}
	e.pic, e.balloons = pic, d.explodedBalloons(v.pieces, pic)
	e.items = append(pic.Items(), render.Stroke{Paths: trails, Pen: trailPen})
	if heads := g.heads(s, seated, pic); len(heads) > 0 {
		e.items = append(e.items, render.Fill{Paths: heads})
	}
	e.items = append(e.items, cues...)
	e.field = dims.Field{Box: box, Ink: append(pic.Ink(), trails...), Body: pic.Box, Faces: s.allFaces(pic), Inside: true}
	for _, c := range cues {
		e.field.Keep = append(e.field.Keep, render.Bounds(c))
	}
	return e
}

// allFaces are what is seen of wood and hardware, far ones first.
func (s *scene) allFaces(pic *woodwork.Picture) []dims.Face {
	var out []dims.Face
	for _, a := range pic.Patches() {
		f := dims.Face{Small: a.ID >= hardwareID, Loop: a.Loop}
		if !f.Small {
			w := s.plan.Placed[a.ID]
			f.Code, f.Hand = w.Part.Code, handLetter(w.Hand)
		}
		out = append(out, f)
	}
	return out
}

// balloonKey is what a balloon says of a piece: its letter and hand.
func (d *desk) balloonKey(i int) string {
	p := d.plan.Placed[i]
	return p.Part.Code + handLetter(p.Hand)
}

// explodedBalloons names each part and hand once.
func (d *desk) explodedBalloons(pieces []int, pic *woodwork.Picture) []dims.Wish {
	const spots = 16
	var order []string
	like := map[string][]int{}
	for _, i := range pieces {
		k := d.balloonKey(i)
		if like[k] == nil {
			order = append(order, k)
		}
		like[k] = append(like[k], i)
	}
	var out []dims.Wish
	for _, key := range order {
		var at []geom.Pt
		for _, i := range like[key] {
			s := pic.Spots(i)
			at = append(at, s[:min(len(s), max(4, spots/len(like[key])))]...)
		}
		if len(at) == 0 {
			d.problem("exploded view: part %s is not seen", key)
			continue
		}
		p := d.plan.Placed[like[key][0]]
		b := dims.Balloon{At: at[0], Or: at[1:min(len(at), spots)], Code: p.Part.Code, Hand: handLetter(p.Hand), Accent: d.accent}
		if n := len(like[key]); n > 1 {
			b.Count = digits(n)
		}
		out = append(out, b)
	}
	return out
}
