package tiles

import (
	"math"
	"slices"
	"strings"

	"planset/model/geom"
)

// Registration marks, in mm.
const (
	apart  = 100.0 // least distance of the marks of a joint, where it is that long
	ring   = 2.5   // radius of the circle
	hairs  = 4.5   // half length of the hairlines
	corner = 20.0  // kept free at the ends of a seam, where others cross it
	clear  = 7.5   // wished from a mark to the outline: room for its letter too
)

// joints finds the seams of a layout and puts two marks on each.
func joints(l Layout) []Joint {
	var out []Joint
	for i, a := range l.Tiles {
		for j, b := range l.Tiles {
			right := b.Row == a.Row && b.Col == a.Col+1
			above := b.Col == a.Col && b.Row == a.Row+1
			if right || above {
				out = append(out, Joint{On: i, Under: j, Upright: right})
			}
		}
	}
	for i := range out {
		for _, p := range crosses(l, out[i]) {
			out[i].Marks = append(out[i].Marks, Mark{At: p})
		}
	}
	n := 0
	for i := range out {
		for k := range out[i].Marks {
			m := &out[i].Marks[k]
			m.Key = strings.ToLower(rowName(n))
			m.letter = beside(l, m.At)
			n++
		}
	}
	return out
}

// beside chooses at which corner of a mark its letter stands: where the outline
// is farthest. Both sheets then show it alike.
func beside(l Layout, at geom.Pt) geom.Pt {
	corners := []geom.Pt{{X: 1, Y: 1}, {X: -1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}}
	return farthest(corners, func(c geom.Pt) float64 {
		middle := at.Add(geom.Pt{X: 3.5 * c.X, Y: 3.45 * c.Y})
		return math.Min(clear, l.Outline.Distance(middle)) // more is no better
	})
}

// Seam returns the strip that both tiles of a joint show.
func (l Layout) Seam(j Joint) geom.Box {
	a, b := l.Tiles[j.On].Window, l.Tiles[j.Under].Window
	return geom.Box{
		Min: geom.Pt{X: math.Max(a.Min.X, b.Min.X), Y: math.Max(a.Min.Y, b.Min.Y)},
		Max: geom.Pt{X: math.Min(a.Max.X, b.Max.X), Y: math.Min(a.Max.Y, b.Max.Y)},
	}
}

// crosses picks two places on the middle line of a seam: far apart, and clear
// of the outline and the holes where that can be had.
func crosses(l Layout, j Joint) []geom.Pt {
	s := l.Seam(j)
	mid := s.Min.Add(s.Max).Mul(0.5)
	at := func(d float64) geom.Pt { return geom.Pt{X: d, Y: mid.Y} }
	lo, hi := s.Min.X+corner, s.Max.X-corner
	if j.Upright {
		at = func(d float64) geom.Pt { return geom.Pt{X: mid.X, Y: d} }
		lo, hi = s.Min.Y+corner, s.Max.Y-corner
	}
	middle := (lo + hi) / 2
	half := math.Min(apart, hi-lo) / 2
	first := clearest(lo, middle-half, func(d float64) float64 { return gap(l, at(d)) })
	last := clearest(hi, middle+half, func(d float64) float64 { return gap(l, at(d)) })
	return []geom.Pt{at(first), at(last)}
}

// clearest walks from one place to another in millimetres and returns the first
// with room enough, or else the one with the most.
func clearest(from, to float64, room func(float64) float64) float64 {
	best, most := from, room(from)
	n := int(math.Abs(to - from))
	for i := 1; i <= n && most < clear; i++ {
		d := from + (to-from)*float64(i)/float64(n)
		if r := room(d); r > most {
			best, most = d, r
		}
	}
	return best
}

// gap returns how far p is from the outline and from the rims of the holes.
func gap(l Layout, p geom.Pt) float64 {
	d := l.Outline.Distance(p)
	for _, h := range l.Holes {
		d = math.Min(d, math.Abs(h.At.Sub(p).Len()-math.Max(h.Diam/2, holeRing)))
	}
	return d
}

// flat returns points along segments no farther apart than step mm.
func flat(segs []geom.Seg, step float64) []geom.Pt {
	var pts []geom.Pt
	for _, s := range segs {
		n := int(math.Ceil(s.Length()/step)) + 1
		for i := range n + 1 {
			pts = append(pts, s.At(float64(i)/float64(n)))
		}
	}
	return pts
}

func ordered(set []int) []int {
	slices.Sort(set)
	return set
}
