package render

import "planset/model/geom"

// Lines returns the open path through pts.
func Lines(pts ...geom.Pt) Path {
	var p Path
	for i := 1; i < len(pts); i++ {
		p.Segs = append(p.Segs, geom.Seg{A: pts[i-1], B: pts[i]})
	}
	return p
}

// Loop returns the closed path through pts.
func Loop(pts ...geom.Pt) Path {
	if len(pts) < 2 {
		return Path{}
	}
	p := Lines(pts...)
	p.Segs = append(p.Segs, geom.Seg{A: pts[len(pts)-1], B: pts[0]})
	p.Closed = true
	return p
}

// Rect returns the border of b, anticlockwise.
func Rect(b geom.Box) Path {
	return Loop(b.Min, geom.Pt{X: b.Max.X, Y: b.Min.Y}, b.Max, geom.Pt{X: b.Min.X, Y: b.Max.Y})
}

// Circle returns the circle of radius r mm round c, as two exact halves,
// anticlockwise.
func Circle(c geom.Pt, r float64) Path {
	right, left := geom.Pt{X: c.X + r, Y: c.Y}, geom.Pt{X: c.X - r, Y: c.Y}
	return Path{Closed: true, Segs: []geom.Seg{
		{A: right, B: left, C: c, R: r, Turn: geom.CCW},
		{A: left, B: right, C: c, R: r, Turn: geom.CCW},
	}}
}

// FromOutline returns o as a closed path. The segments are shared, not copied.
func FromOutline(o geom.Outline) Path { return Path{Segs: o, Closed: true} }

// FromSegs returns each segment as a path of its own: marks that do not join.
func FromSegs(segs ...geom.Seg) []Path {
	paths := make([]Path, len(segs))
	for i := range segs {
		paths[i] = Path{Segs: segs[i : i+1 : i+1]}
	}
	return paths
}

// FromRegion returns the outside of r and its holes, ready to be filled.
func FromRegion(r geom.Region) []Path {
	paths := []Path{FromOutline(r.Outer)}
	for _, h := range r.Holes {
		paths = append(paths, FromOutline(h))
	}
	return paths
}

// Clipped reports whether the items of g show only inside its box. A zero box
// and an empty one clip nothing.
func (g Group) Clipped() bool { return g.Clip != geom.Box{} && !g.Clip.Empty() }
