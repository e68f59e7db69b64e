package sheets

import (
	"planset/layouts/dims"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/geom"
	"planset/render"
	"planset/render/view"
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
	gap := 0.35*f.Length + 8
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
	if far := f.Head.Add(first).Add(f.Dir.Mul(f.Grip)); far.Sub(end).Len() > 3 {
		s.trails = append(s.trails, [2]geom.V3{far, end})
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

// camera reads the words of a step; what is not understood is a gentle view.
func camera(words string) view.Camera {
	if cam, err := view.Words(words); err == nil {
		return cam
	}
	cam, _ := view.Words(heroView)
	return cam
}

// spots returns points of a piece that are seen, the middle of its largest
// face first.
func spots(p *woodwork.Picture, id int) []geom.Pt {
	patches := p.Patches()
	var out []geom.Pt
	best := 0.0
	for i, a := range patches {
		if a.ID != id {
			continue
		}
		area := area2(a.Loop)
		for _, q := range within(a.Loop) {
			if covered(patches[i+1:], q) {
				continue
			}
			if area > best {
				best = area
				out = append([]geom.Pt{q}, out...)
			} else if len(out) < 12 {
				out = append(out, q)
			}
		}
	}
	return out
}

func area2(l []geom.Pt) float64 {
	sum := 0.0
	for i, q := range l {
		sum += q.Cross(l[(i+1)%len(l)])
	}
	if sum < 0 {
		return -sum
	}
	return sum
}

// within returns some points inside a loop: its middle, and places toward its
// corners.
func within(l []geom.Pt) []geom.Pt {
	c := geom.Pt{}
	for _, q := range l {
		c = c.Add(q.Mul(1 / float64(len(l))))
	}
	out := []geom.Pt{}
	if inLoop(l, c) {
		out = append(out, c)
	}
	step := max(1, len(l)/6)
	for i := 0; i < len(l); i += step {
		for _, t := range [...]float64{0.45, 0.75} {
			if q := c.Add(l[i].Sub(c).Mul(t)); inLoop(l, q) {
				out = append(out, q)
			}
		}
	}
	return out
}

func inLoop(l []geom.Pt, q geom.Pt) bool {
	in := false
	for i, a := range l {
		b := l[(i+1)%len(l)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

func covered(over []woodwork.Patch, q geom.Pt) bool {
	for _, a := range over {
		if inLoop(a.Loop, q) {
			return true
		}
	}
	return false
}

// faces are the silhouettes a balloon's leader should not run over.
func (s *scene) faces(p *woodwork.Picture, only map[int]bool) []dims.Face {
	var out []dims.Face
	for _, a := range p.Patches() {
		if a.ID >= hardwareID || only != nil && !only[a.ID] || area2(a.Loop) < 8 {
			continue
		}
		w := s.plan.Placed[a.ID]
		out = append(out, dims.Face{Code: w.Part.Code, Hand: handLetter(w.Hand), Loop: a.Loop})
	}
	return out
}
