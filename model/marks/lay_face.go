package marks

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// sawn is one sawn side of a board that bears on something.
type sawn struct {
	what  string
	angle bool    // it was cut at an angle, so its two ends are two marks
	n     geom.V3 // out of the wood, in the board
	dist  float64 // from the board's origin
}

// faceMarks are the lengths, widths and angled cuts whose faces bear or stand.
func (f *frame) faceMarks(pieces []int) {
	first := f.placed[pieces[0]].Part
	var order []string
	marks := map[string][]off{}
	add := func(what string, o off) {
		if marks[what] == nil {
			order = append(order, what)
		}
		marks[what] = append(marks[what], o)
	}
	for _, i := range pieces {
		for _, s := range f.sawnSides(i) {
			faces := f.facesOn(i, s)
			add(s.what, off{kind: faceSlip, piece: i, faces: faces})
			if s.angle {
				if o, ok := f.angled(i, s, faces); ok {
					add(s.what+", its angle", o)
				}
			}
		}
	}
	for _, what := range order {
		f.row(Row{Part: first, Parts: f.codes(pieces), What: what}, marks[what])
	}
}

// sawnSides is the sides of a piece that bear or stand and that the builder
// saws to a mark. The datum end, the reference edge and faces as bought are not.
func (f *frame) sawnSides(i int) []sawn {
	p := f.placed[i]
	var out []sawn
	seen := map[string]bool{}
	for _, k := range f.working(i) {
		face := p.Solid.Faces[k]
		n := p.Pose.LocalDir(face.N)
		s, ok := sideOf(p.Part, n)
		if !ok || face.Smooth > 0 || seen[s.what] {
			continue
		}
		seen[s.what] = true
		s.n, s.dist = n, p.Pose.Local(face.Loops[0][0]).Dot(n)
		out = append(out, s)
	}
	return out
}

// working is the faces of a piece that bear on another or stand on the floor,
// in rising order.
func (f *frame) working(i int) []int {
	used := make([]bool, len(f.placed[i].Solid.Faces))
	for _, t := range f.ties {
		if t.joint >= 0 {
			continue
		}
		if t.a == i {
			used[t.faceA] = true
		}
		if t.b == i {
			used[t.faceB] = true
		}
	}
	for _, g := range f.feet {
		if g.piece == i && g.face >= 0 {
			used[g.face] = true
		}
	}
	var out []int
	for k, u := range used {
		if u {
			out = append(out, k)
		}
	}
	return out
}

// sideOf names a sawn side by its normal in the board.
func sideOf(p *model.Part, n geom.V3) (sawn, bool) {
	switch axis, side := squareTo(n); {
	case axis == 0 && side == 1:
		return sawn{what: "length"}, true
	case axis == 1 && side == 1 && !p.AsBought:
		return sawn{what: "width"}, true
	case axis >= 0:
		return sawn{}, false
	}
	// A long cut at a flat angle, as of a heel on the floor, belongs to its end.
	end, edge := 0, 0
	if n.X > 0 {
		end = 1
	}
	if n.Y > 0 {
		edge = 1
	}
	if math.Abs(n.X) > 0.1 && p.Ends[end].Shape != "square" {
		return sawn{what: p.Names.Ends[end] + " cut", angle: true}, true
	}
	return sawn{what: p.Names.Edges[edge] + " edge's bevel", angle: true}, true
}

// facesOn is the faces of a piece in the plane of a side.
func (f *frame) facesOn(i int, s sawn) map[int]int {
	p := f.placed[i]
	out := map[int]int{}
	for k, face := range p.Solid.Faces {
		if p.Pose.LocalDir(face.N).Dot(s.n) > near1 && math.Abs(p.Pose.Local(face.Loops[0][0]).Dot(s.n)-s.dist) < touching {
			out[k] = k
		}
	}
	return out
}

// angled is the slip of an angled cut at one end of its line only. The line of
// an end's cut lies in the board's face, that of an edge's bevel on its end.
func (f *frame) angled(i int, s sawn, faces map[int]int) (off, bool) {
	p := f.placed[i].Pose
	line := s.n.Cross(geom.V3{X: 1})
	if math.Hypot(s.n.X, s.n.Y) > math.Abs(s.n.Z) && math.Abs(s.n.X) > 0.05 {
		line = s.n.Cross(geom.V3{Z: 1})
	}
	line = line.Unit()
	if line.X < 0 || line.X == 0 && line.Z < 0 {
		line = line.Neg()
	}
	dir := p.Dir(line)
	lo, hi := math.Inf(1), math.Inf(-1)
	var low geom.V3
	for k := range len(f.placed[i].Solid.Faces) {
		if _, ok := faces[k]; !ok {
			continue
		}
		for _, v := range f.placed[i].Solid.Faces[k].Loops[0] {
			d := v.Dot(dir)
			if d < lo {
				lo, low = d, v
			}
			hi = math.Max(hi, d)
		}
	}
	if hi-lo < 5 {
		return off{}, false
	}
	return off{kind: faceSlip, piece: i, faces: faces, dir: dir, pivot: low, slope: 1 / (hi - lo)}, true
}
