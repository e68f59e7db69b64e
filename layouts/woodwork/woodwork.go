// Package woodwork draws boards and hardware: faces white, edges light, end
// grain dark, a few fine lines along the grain, and bolts and screws as solids
// or cut open along their axis.
//
// It knows how wood looks. It does not know what a part is called, which step
// it belongs to, or where dimensions and letters go.
package woodwork

import (
	"planset/layouts/sight"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
)

// A Look is how a piece stands out in a picture.
type Look int8

// The looks.
const (
	Natural Look = iota // whole furniture, nothing stands out: toned, middling lines
	Fresh               // what this picture is about: toned, heavy outline, grain
	Done                // what was there before: white and thin
	Metal               // hardware
)

// A Piece is one thing in a picture, standing in the world. Grain is the way
// its fibers run; zero draws none.
type Piece struct {
	ID     int // the caller's, carried through; not negative
	Solid  *geom.Solid
	Grain  geom.V3
	Origin geom.V3 // the grain lines are counted from here, so that they hold still
	Look   Look
}

// A Picture is pieces drawn to scale on the page.
type Picture struct {
	Scale   float64 // page mm for each mm of wood
	Box     geom.Box
	drawing *view.Drawing
	camera  view.Camera
	from    geom.Pt // point of the drawing that is at the page's origin
	pieces  []Piece
	byID    map[int]int
	patches []Patch // made when first asked for, and what follows too
	seen    *sight.Map
	spots   [][]geom.Pt
}

// Fit draws pieces as cam sees them, as large as box lets them and no larger
// than most times life size, in the middle of box.
func Fit(pieces []Piece, cam view.Camera, box geom.Box, most float64) *Picture {
	p := see(pieces, cam)
	d := p.drawing.Box
	if d.Empty() || d.W() <= 0 || d.H() <= 0 {
		return p
	}
	p.place(min(box.W()/d.W(), box.H()/d.H(), most), middle(box))
	return p
}

// At draws pieces at a given scale with the middle of the picture at c.
func At(pieces []Piece, cam view.Camera, c geom.Pt, scale float64) *Picture {
	p := see(pieces, cam)
	p.place(scale, c)
	return p
}

func see(pieces []Piece, cam view.Camera) *Picture {
	p := &Picture{camera: cam, pieces: pieces, byID: map[int]int{}}
	var bodies []view.Body
	for i, w := range pieces {
		p.byID[w.ID] = i
		bodies = append(bodies, view.Body{ID: w.ID, Solid: w.Solid, Pose: geom.Home()})
	}
	p.drawing = view.Draw(bodies, cam)
	return p
}

// place sets the scale and puts the middle of the drawing at c.
func (p *Picture) place(scale float64, c geom.Pt) {
	p.Scale, p.patches, p.seen, p.spots = scale, nil, nil, nil
	p.from = middle(p.drawing.Box).Sub(c.Mul(1 / scale))
	p.Box = geom.Box{Min: p.put(p.drawing.Box.Min), Max: p.put(p.drawing.Box.Max)}
}

func middle(b geom.Box) geom.Pt { return b.Min.Add(b.Max).Mul(0.5) }

// put takes a point of the drawing to the page.
func (p *Picture) put(q geom.Pt) geom.Pt { return q.Sub(p.from).Mul(p.Scale) }

// Point returns where a point of the world is on the page.
func (p *Picture) Point(v geom.V3) geom.Pt { return p.put(p.camera.Flat(v)) }

// Ink returns every line that is seen, for what has to keep clear of it.
func (p *Picture) Ink() []render.Path {
	var paths []render.Path
	for _, e := range p.drawing.Edges {
		if e.Visible {
			paths = append(paths, render.Lines(p.put(e.A), p.put(e.B)))
		}
	}
	return paths
}

// Items paints the picture.
func (p *Picture) Items() []render.Item {
	var items []render.Item
	for _, a := range p.drawing.Areas {
		w := p.pieces[p.byID[a.Body]]
		loops := p.loops(a)
		f := render.Fill{Tone: tone(w.Look, a.Kind)}
		for _, l := range loops {
			f.Paths = append(f.Paths, render.Loop(l...))
		}
		items = append(items, f)
		if g := p.grain(w, a, loops); len(g) > 0 {
			items = append(items, render.Stroke{Paths: g, Pen: fiber})
		}
	}
	return append(items, p.lines()...)
}

// fiber is the pen of grain lines.
var fiber = render.Pen{Width: 0.18, Tone: render.Gray(0.38)}

// tone is the ink of a face. The steps survive a mono printer.
func tone(l Look, k geom.FaceKind) render.Tone {
	switch {
	case l == Done && k == geom.End:
		return render.Gray(0.08)
	case l == Done:
		return render.Paper
	case l == Metal && k == geom.Flat:
		return render.Gray(0.25)
	case l == Metal:
		return render.Gray(0.55)
	case k == geom.Side && l == Fresh:
		return render.Gray(0.24)
	case k == geom.Side:
		return render.Gray(0.12)
	case k == geom.End:
		return render.Grain
	case k == geom.Hollow:
		return render.Grain
	case l == Fresh:
		return render.Gray(0.09)
	}
	return render.Paper
}
