package sheets

import (
	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// hardwareID is the first number of hardware among the pieces of a picture.
const hardwareID = 100000

// A scene is what a picture of the work shows: pieces, hardware, trails.
type scene struct {
	plan    *model.Plan
	pieces  []woodwork.Piece
	trails  [][2]geom.V3
	drives  []drive
	shifted map[int]geom.V3 // how far a piece stands from its place
}

// A drive is one bolt or screw drawn off its hole.
type drive struct {
	id   int
	f    model.Fastener
	head geom.V3
}

// wood adds a piece.
func (s *scene) wood(i int, look woodwork.Look, off geom.V3) {
	p := s.plan.Placed[i]
	if p.Solid == nil {
		return
	}
	solid := p.Solid
	if off != (geom.V3{}) {
		home := geom.Home()
		home.Origin = off
		solid = solid.Transform(home)
	}
	if s.shifted == nil {
		s.shifted = map[int]geom.V3{}
	}
	s.shifted[i] = off
	s.pieces = append(s.pieces, woodwork.Piece{ID: i, Solid: solid, Grain: p.Pose.Along, Origin: p.Pose.Origin.Add(off), Look: look})
}

// drive adds a bolt or screw, off its hole on its axis, with its trail. The
// head stands free of the first piece; nut and washer free of the second.
func (s *scene) drive(f model.Fastener) {
	first, second := s.shifted[f.Pieces[0]], s.shifted[f.Pieces[1]]
	gap := offHole(f)
	head := f.Head.Add(first).Sub(f.Dir.Mul(f.Length + gap))
	id := hardwareID + len(s.drives)*4
	s.drives = append(s.drives, drive{id, f, head})
	s.pieces = append(s.pieces, woodwork.Piece{ID: id, Solid: woodwork.Driven(f.Hardware, head, f.Dir), Look: woodwork.Metal})
	end := f.Head.Add(second)
	if isBolt(f.Hardware) {
		end = f.Head.Add(second).Add(f.Dir.Mul(f.Grip + 0.6*gap))
		s.pieces = append(s.pieces,
			woodwork.Piece{ID: id + 1, Solid: woodwork.Washer(f.Hardware, end, f.Dir), Look: woodwork.Metal},
			woodwork.Piece{ID: id + 2, Solid: woodwork.Nut(f.Hardware, end.Add(f.Dir.Mul(0.8*f.Hardware.Diam)), f.Dir), Look: woodwork.Metal})
	}
	s.trails = append(s.trails, [2]geom.V3{head.Add(f.Dir.Mul(f.Length)), f.Head.Add(first)})
	under := f.Head.Add(f.Dir.Mul(f.Grip))
	if isBolt(f.Hardware) { // the nut's side is the far side of the second piece
		under = f.Head.Add(f.Dir.Mul(f.Grip / 2))
		s.trails = append(s.trails, [2]geom.V3{f.Head.Add(second).Add(f.Dir.Mul(f.Grip)), end})
	}
	if second.Sub(first).Len() > 3 {
		s.trails = append(s.trails, [2]geom.V3{under.Add(first), under.Add(second)})
	}
}

// offHole is how far from its hole the point of a bolt or screw is drawn, mm.
func offHole(f model.Fastener) float64 { return 0.35*f.Length + 8 }

// seated adds a bolt or screw in its place, to show what is tightened.
func (s *scene) seated(f model.Fastener) {
	id := hardwareID + len(s.drives)*4
	s.drives = append(s.drives, drive{id, f, f.Head})
	s.pieces = append(s.pieces, woodwork.Piece{ID: id, Solid: woodwork.Driven(f.Hardware, f.Head, f.Dir), Look: woodwork.Metal})
	if isBolt(f.Hardware) {
		end := f.Head.Add(f.Dir.Mul(f.Grip))
		thick := woodwork.SizesOf(f.Hardware).WasherThick
		s.pieces = append(s.pieces,
			woodwork.Piece{ID: id + 1, Solid: woodwork.Washer(f.Hardware, end, f.Dir), Look: woodwork.Metal},
			woodwork.Piece{ID: id + 2, Solid: woodwork.Nut(f.Hardware, end.Add(f.Dir.Mul(thick)), f.Dir), Look: woodwork.Metal})
	}
}

// trailPaths draws the trails on the page.
func (s *scene) trailPaths(p *woodwork.Picture) []render.Path {
	var out []render.Path
	for _, t := range s.trails {
		out = append(out, render.Lines(p.Point(t[0]), p.Point(t[1])))
	}
	return out
}

var trailPen = render.Pen{Width: 0.18, Dash: []float64{1.4, 0.9}}

// faces are the silhouettes a balloon's leader should not run over.
func (s *scene) faces(p *woodwork.Picture, only map[int]bool) []dims.Face {
	var out []dims.Face
	for _, a := range p.Patches() {
		if a.ID >= hardwareID || only != nil && !only[a.ID] || a.Area() < 8 {
			continue
		}
		w := s.plan.Placed[a.ID]
		out = append(out, dims.Face{Code: w.Part.Code, Hand: handLetter(w.Hand), Loop: a.Loop})
	}
	return out
}
