package sheets

import (
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// heroView is where the cover looks from: arm and back are seen.
const heroView = "front right high"

// hero draws the finished piece into a box, as large as it goes: faces white,
// edges light, end grain darker, the nearest line weight for what is seen.
// It returns nothing when no piece has a solid.
func (d *desk) hero(box geom.Box) []render.Item {
	var bodies []view.Body
	for i, p := range d.plan.Placed {
		if p.Solid != nil {
			bodies = append(bodies, view.Body{ID: i, Solid: p.Solid, Pose: geom.Home()})
		}
	}
	cam, err := view.Words(heroView)
	if len(bodies) == 0 || err != nil {
		return nil
	}
	pic := view.Draw(bodies, cam)
	if pic.Box.Empty() || pic.Box.W() == 0 || pic.Box.H() == 0 {
		return nil
	}
	k := min(box.W()/pic.Box.W(), box.H()/pic.Box.H())
	mid := geom.Pt{X: (box.Min.X + box.Max.X) / 2, Y: box.Min.Y + k*pic.Box.H()/2}
	center := geom.Pt{X: (pic.Box.Min.X + pic.Box.Max.X) / 2, Y: (pic.Box.Min.Y + pic.Box.Max.Y) / 2}
	put := func(p geom.Pt) geom.Pt { return mid.Add(p.Sub(center).Mul(k)) }
	return []render.Item{render.Group{Name: "hero", Items: append(tones(pic, put), lines(pic, put)...)}}
}

// tones fills the faces from far to near.
func tones(d *view.Drawing, put func(geom.Pt) geom.Pt) []render.Item {
	var items []render.Item
	for _, a := range d.Areas {
		tone := render.Paper
		switch a.Kind {
		case geom.Side:
			tone = render.Gray(0.10)
		case geom.End:
			tone = render.Gray(0.28)
		case geom.Hollow:
			tone = render.Grain
		}
		f := render.Fill{Tone: tone}
		for _, loop := range a.Loops {
			pts := make([]geom.Pt, len(loop))
			for i, p := range loop {
				pts[i] = put(p)
			}
			f.Paths = append(f.Paths, render.Loop(pts...))
		}
		items = append(items, f)
	}
	return items
}

// lines strokes the edges that are seen.
func lines(d *view.Drawing, put func(geom.Pt) geom.Pt) []render.Item {
	s := render.Stroke{Pen: render.Pen{Width: 0.35, Round: true}}
	for _, e := range d.Edges {
		if e.Visible {
			s.Paths = append(s.Paths, render.Lines(put(e.A), put(e.B)))
		}
	}
	return []render.Item{s}
}
