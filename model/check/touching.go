package check

import (
	"fmt"
	"math"

	"planset/model"
	"planset/model/geom"
)

// Joined pieces touch over half of what faces the other at least, and over more
// than a line or a corner, mm² (common practice). Faces up to touchTol, 1/64 in,
// apart are pulled together by a screw.
const (
	touchShare = 0.5
	touchLeast = 300
	touchTol   = 0.4
)

// touching finds joined pieces that hardly touch. Those that do not touch at all,
// such as a rail whose edge was not bevelled, the solver refuses.
func touching(s *shop) []Finding {
	var t tally
	for _, j := range s.Joints {
		faced := s.facings(j)
		for _, pair := range s.pairs(j) {
			a, b := s.Placed[pair[0]], s.Placed[pair[1]]
			area := 0.0
			for _, p := range s.contact(pair[0], pair[1]) {
				area += p.Area
			}
			share := 1.0
			if faced[pair] > 0 {
				share = area / faced[pair]
			}
			key, who := j.Key+"\x00"+a.Part.Key+"\x00"+b.Part.Key, jointName(j)+": "+bothOf(a.Part, b.Part)
			switch {
			case area == 0 && j.Bond:
			case area < touchLeast:
				t.add(key, -area, Finding{Severity: Warning, Value: area, Limit: touchLeast, Unit: "mm2",
					Text: fmt.Sprintf("%s touch over only %s; %s is little", who, s.area(area), s.area(touchLeast)),
					Fix:  fmt.Sprintf("let them meet over %s more", s.area(touchLeast-area))}, a.Part, b.Part)
			case share < touchShare:
				t.add(key, -share, Finding{Severity: Warning, Value: share * 100, Limit: touchShare * 100, Unit: "%",
					Text: fmt.Sprintf("%s touch over %s, %.0f %% of the %s with which they face each other; half is little", who, s.area(area), share*100, s.area(faced[pair])),
					Fix:  fmt.Sprintf("let them meet over %s more", s.area(touchShare*faced[pair]-area))}, a.Part, b.Part)
			}
		}
	}
	return t.list()
}

// facings are, for the pairs of a joint that have fasteners, the areas with which
// they face each other along those, mm²: hollows up to 10 mm deep between them
// count.
func (s *shop) facings(j *model.Joint) map[[2]int]float64 {
	out := map[[2]int]float64{}
	for _, f := range j.Fasteners {
		if _, seen := out[f.Pieces]; !seen {
			out[f.Pieces] = facing(s.Placed[f.Pieces[0]].Solid, s.Placed[f.Pieces[1]].Solid, f.Dir)
		}
	}
	return out
}

// facing is how much of the faces of a that look along dir lies over those of b
// that look back, mm².
func facing(a, b *geom.Solid, dir geom.V3) float64 {
	const looking, deep = 0.6, 10.0
	sum := 0.0
	for _, fa := range a.Faces {
		if fa.N.Dot(dir) < looking {
			continue
		}
		for _, fb := range b.Faces {
			gap := fb.Loops[0][0].Sub(fa.Loops[0][0]).Dot(fa.N)
			if fb.N.Dot(dir) < -looking && fb.N.Dot(fa.N) < -0.99 && math.Abs(gap) < deep {
				sum += shadow(fa, fb, dir)
			}
		}
	}
	return sum
}

// shadow is how much of one face lies in the shadow of another when light falls
// along dir, mm², holes filled.
func shadow(fa, fb geom.Face, dir geom.V3) float64 {
	u := dir.Cross(geom.V3{X: 1})
	if v := dir.Cross(geom.V3{Y: 1}); v.Len() > u.Len() {
		u = v
	}
	u = u.Unit()
	v := dir.Cross(u)
	flat := func(f geom.Face) geom.Outline {
		var pts []geom.Pt
		for _, p := range f.Loops[0] {
			pts = append(pts, geom.Pt{X: p.Dot(u), Y: p.Dot(v)})
		}
		o := geom.Polygon(pts...)
		if o.Area() < 0 {
			return o.Reverse()
		}
		return o
	}
	sum := 0.0
	for _, o := range flat(fa).And(flat(fb)) {
		sum += o.Area()
	}
	return sum
}

// pairs are the pieces that a joint holds together: by its fasteners, or all
// that glue could reach.
func (s *shop) pairs(j *model.Joint) [][2]int {
	var out [][2]int
	seen := map[[2]int]bool{}
	add := func(p [2]int) {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	for _, f := range j.Fasteners {
		add(f.Pieces)
	}
	if !j.Bond {
		return out
	}
	for _, a := range s.Placed {
		for _, b := range s.Placed {
			if has(j.First, a.Part) && has(j.Second, b.Part) {
				add([2]int{a.Index, b.Index})
			}
		}
	}
	return out
}
