package sheets

import (
	"cmp"
	"slices"

	"planset/layouts/dims"
	"planset/model/geom"
	"planset/render"
)

// patternsDrawn draws the pattern of the type that is made most often in the
// right-hand column, and under it those with another count. It returns where
// the column ends, and the patterns that are too long for it. What is not drawn
// is told in words.
func (p *jointPage) patternsDrawn() (end float64, long []*pattern) {
	all := slices.Concat(p.rows...)
	slices.SortStableFunc(all, func(a, b *pattern) int { return cmp.Compare(b.places, a.places) })
	most := geom.Size{W: patternW, H: patternH}
	var counts []int
	for _, q := range all {
		n := len(q.spots)
		if slices.Contains(counts, n) {
			continue
		}
		counts = append(counts, n)
		v := newPatternView(q, p.d, most)
		if low := newPatternView(q, p.d, geom.Size{W: patternW, H: patternLow}); p.half && low.k >= patternLeast {
			v = low
		}
		if wide := newPatternView(q, p.d, geom.Size{W: patternBar, H: patternH}); wide.k >= 2*v.k-1e-9 && len(counts) > 1 {
			long = append(long, q)
			continue
		}
		if len(counts) > 1 {
			p.y -= 4
		}
		p.pattern(v, patternX, patternB)
	}
	return p.y, long
}

// longPatterns draws patterns across the page.
func (p *jointPage) longPatterns(list []*pattern) {
	for _, q := range list {
		p.y -= 2
		p.pattern(newPatternView(q, p.d, geom.Size{W: patternBar, H: patternH}), 0, bodyW)
	}
}

// pattern draws one pattern at the top of what is free, in a column.
func (p *jointPage) pattern(v *patternView, x, width float64) {
	high, wide := v.window.H()/2+26, min(width/2+4, v.window.W()/2+28)
	items, used, lost := v.draw(geom.Box{Min: pt(-wide, -high), Max: pt(wide, high)})
	for _, s := range lost {
		p.d.problem("joint %s, pattern: %s", p.j.Name, s)
	}
	left := min(x-used.Min.X, bodyW-used.Max.X)
	items = []render.Item{render.Group{Name: "pattern " + v.joint.Key, Items: items}}
	p.items = append(p.items, Moved(items, pt(left, p.y-used.Max.Y))...)
	p.y -= used.H() + 5.9
	caption, _ := dims.Caption(pt(x, p.y), v.caption(), v.k)
	p.items = append(p.items, caption...)
	p.y -= 2
}

// caption says from where one looks.
func (q *pattern) caption() string {
	return upper(faceTowards(q)) + " of " + q.first.Part.Code + ", on " + q.second.Part.Code
}

// faceTowards names the side of the first piece that is looked at.
func faceTowards(q *pattern) string {
	n, names := q.first.Pose.LocalDir(q.camera.Toward), q.first.Part.Names
	side := func(x float64) int {
		if x > 0 {
			return 1
		}
		return 0
	}
	switch a := (geom.V3{X: abs(n.X), Y: abs(n.Y), Z: abs(n.Z)}); {
	case a.Z >= a.X && a.Z >= a.Y:
		return names.Faces[side(n.Z)]
	case a.Y >= a.X:
		return names.Edges[side(n.Y)]
	}
	return names.Ends[side(n.X)]
}
