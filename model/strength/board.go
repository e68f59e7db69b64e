package strength

import (
	"math"

	"planset/model"
	"planset/model/geom"
)

// A Board is how hard the worst load bends the worst piece of a part.
type Board struct {
	Part   *model.Part
	Case   string  // which load
	Stress float64 // MPa, bending
	Edge   float64 // MPa of that, from bending edgewise
	MOR    float64 // MPa, of clear wood
	Margin float64 // MOR over stress
	Used   float64 // stress over a third of MOR: what knots, time and wet leave (common practice)
	Sag    float64 // mm off the line between the outer supports
	Span   float64 // mm between them
	Free   float64 // mm between the supports on either side of the greatest stress; 0 for a board that is not loaded itself
	At     float64 // mm from the datum end: the place of the greatest stress
}

// working is what part of clear wood's strength a board may work at.
const working = 1.0 / 3

// stations is at how many places along a board bending is looked at.
const stations = 81

// bend follows a piece from end to end: the forces on one side of a place bend
// it there. Boards bend through the thickness and edgewise at once.
func bend(p *model.Placed, forces, supports []Force) Board {
	w := species(p.Part)
	b := Board{Part: p.Part, MOR: w.MOR, Margin: math.Inf(1)}
	flatOutline := p.Part.Board.Outline.Flatten(chord)
	box := p.Part.Board.Outline.Box()
	step := (box.Max.X - box.Min.X) / (stations - 1)
	curve := [stations][2]float64{}
	for i := range stations {
		x := box.Min.X + step*float64(i)
		lo, hi, ok := widthAt(flatOutline, math.Min(math.Max(x, box.Min.X+1), box.Max.X-1))
		if !ok {
			continue
		}
		m := moment(p.Pose, forces, geom.V3{X: x, Y: (lo + hi) / 2, Z: p.Part.Thick / 2})
		through := Section{hi - lo, p.Part.Thick}
		edge := Section{p.Part.Thick, hi - lo}
		lostWidth, lostInertia := drilled(p.Part, x, step/2, (lo+hi)/2)
		left := math.Max(through.Wide-lostWidth, 1) / through.Wide
		leftEdge := math.Max(edge.Inertia()-lostInertia, 1) / edge.Inertia()
		edgewise := math.Abs(m.Z) / (leftEdge * edge.Modulus())
		if s := math.Abs(m.Y)/(left*through.Modulus()) + edgewise; s > b.Stress {
			b.Stress, b.Edge, b.At = s, edgewise, x
		}
		curve[i] = [2]float64{m.Y / (w.MOE * through.Inertia()), m.Z / (w.MOE * edge.Inertia())}
	}
	if b.Stress > 0 {
		b.Margin, b.Used = b.MOR/b.Stress, b.Stress/(working*b.MOR)
	}
	b.sag(p, supports, curve, box.Min.X, step)
	return b
}

// Thicker returns how many times as thick the board must be to work at a share
// of MOR: through its thickness the stress falls with the square of it, edgewise
// with itself.
func (b *Board) Thicker(share float64) float64 {
	// flat/k² + edge/k = share·MOR
	flat, most := b.Stress-b.Edge, share*b.MOR
	return (b.Edge + math.Sqrt(b.Edge*b.Edge+4*most*flat)) / (2 * most)
}

// drilled is what the holes in a board's face near a place take from its width,
// and from its second moment of area edgewise about the middle of the width.
func drilled(p *model.Part, x, near, middle float64) (width, inertia float64) {
	for _, h := range p.Holes {
		if h.Into != "face" || math.Abs(h.Along-x) > math.Max(near, h.Diam/2) {
			continue
		}
		off := h.Across - middle
		width += h.Diam
		inertia += p.Thick * (h.Diam*h.Diam*h.Diam/12 + h.Diam*off*off)
	}
	return width, inertia
}

// moment is what the forces before a place do about it, in the board's frame.
func moment(pose geom.Pose, forces []Force, at geom.V3) geom.V3 {
	var m geom.V3
	for _, f := range forces {
		if q := pose.Local(f.At); q.X < at.X-1e-9 {
			m = m.Add(q.Sub(at).Cross(pose.LocalDir(f.Push)))
		}
	}
	return m
}

// sag integrates the curve twice and measures from the line between the outer
// supports.
func (b *Board) sag(p *model.Placed, supports []Force, curve [stations][2]float64, from, step float64) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, f := range supports {
		x := p.Pose.Local(f.At).X
		lo, hi = math.Min(lo, x), math.Max(hi, x)
	}
	if b.Span = hi - lo; !(b.Span > 1) {
		b.Span = 0
		return
	}
	var off [stations][2]float64
	for k := range 2 {
		tilt := 0.0
		for i := 1; i < stations; i++ {
			mean := (curve[i-1][k] + curve[i][k]) / 2
			off[i][k] = off[i-1][k] + tilt*step + mean*step*step/2
			tilt += mean * step
		}
	}
	read := func(x float64, k int) float64 {
		t := math.Min(math.Max((x-from)/step, 0), stations-1)
		i := min(int(t), stations-2)
		return off[i][k] + (t-float64(i))*(off[i+1][k]-off[i][k])
	}
	for i := range stations {
		x := from + step*float64(i)
		t := (x - lo) / b.Span
		y := read(x, 0) - (1-t)*read(lo, 0) - t*read(hi, 0)
		z := read(x, 1) - (1-t)*read(lo, 1) - t*read(hi, 1)
		b.Sag = math.Max(b.Sag, math.Hypot(y, z))
	}
}

// widthAt is where an outline begins and ends across at one place along.
func widthAt(outline []geom.Pt, x float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.X < x) == (b.X < x) {
			continue
		}
		y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		lo, hi = math.Min(lo, y), math.Max(hi, y)
	}
	return lo, hi, hi-lo > 1
}
