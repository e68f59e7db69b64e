package sheets

import (
	"planset/model/geom"
	"planset/render"
)

// roomFor looks for the best place of a box in a window: score is below 0 where
// it can not be. It looks closer when at first it finds none, and returns the
// lower left corner.
func roomFor(size geom.Size, window geom.Box, score func(geom.Box) float64) (at geom.Pt, ok bool) {
	const rim = 2.6 // break lines swing as far
	for _, step := range [...]float64{1.5, 0.35} {
		best := 0.0
		for y := window.Min.Y + rim; y+size.H+rim <= window.Max.Y; y += step {
			for x := window.Min.X + rim; x+size.W+rim <= window.Max.X; x += step {
				b := geom.Box{Min: pt(x, y), Max: pt(x+size.W, y+size.H)}
				if s := score(b); s >= 0 && (!ok || s > best+1e-6) {
					best, at, ok = s, b.Min, true
				}
			}
		}
		if ok {
			break
		}
	}
	return at, ok
}

// within reports whether a box lies in one of the shapes, corners and middle.
func within(shapes []geom.Outline, b geom.Box) bool {
	corners := [...]geom.Pt{b.Min.Add(b.Max).Mul(0.5), b.Min, b.Max, pt(b.Min.X, b.Max.Y), pt(b.Max.X, b.Min.Y)}
	for _, o := range shapes {
		in := true
		for _, q := range corners {
			if in = o.Contains(q); !in {
				break
			}
		}
		if in {
			return true
		}
	}
	return false
}

// crossed reports whether straight lines pass through a box.
func crossed(lines []render.Path, b geom.Box) bool {
	for _, p := range lines {
		if runThrough(p.Segs, b) {
			return true
		}
	}
	return false
}

// runThrough reports whether straight segments run through a box.
func runThrough(segs []geom.Seg, b geom.Box) bool {
	for i := range segs {
		g := &segs[i]
		// Most lie wholly to one side.
		if g.A.X < b.Min.X && g.B.X < b.Min.X || g.A.X > b.Max.X && g.B.X > b.Max.X ||
			g.A.Y < b.Min.Y && g.B.Y < b.Min.Y || g.A.Y > b.Max.Y && g.B.Y > b.Max.Y {
			continue
		}
		if _, _, ok := cutToBox(g.A, g.B, b); ok {
			return true
		}
	}
	return false
}

// cutToBox returns the part of a line inside a box (Liang and Barsky).
func cutToBox(a, b geom.Pt, box geom.Box) (geom.Pt, geom.Pt, bool) {
	d := b.Sub(a)
	t0, t1 := 0.0, 1.0
	for _, e := range [...][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return a, b, false
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t1-t0 < 1e-9 {
		return a, b, false
	}
	return a.Add(d.Mul(t0)), a.Add(d.Mul(t1)), true
}

// outlines are loops of points as outlines.
func outlines(loops [][]geom.Pt) []geom.Outline {
	var out []geom.Outline
	for _, l := range loops {
		out = append(out, geom.Polygon(l...))
	}
	return out
}

// touches reports whether a box meets one of some outlines of lines that are
// larger than it is.
func touches(list []geom.Outline, b geom.Box) bool {
	for _, o := range list {
		if o.Contains(b.Min.Add(b.Max).Mul(0.5)) || runThrough(o, b) {
			return true
		}
	}
	return false
}
