package sheets

import (
	"cmp"
	"math"
	"slices"

	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// A railTag is a label that stands in the column beside a section and points
// into it.
type railTag struct {
	at   geom.Pt
	text string
}

// Measures of the column of labels, mm.
const (
	railGap  = 2.2 // between labels
	railKnee = 4.0 // level end of a leader
)

// rail sets labels in a column of a width that begins at x, in the order of
// what they point at, each as level with it as the others let it be, and draws
// their leaders. It returns the leaders' lines besides, and the box of the text.
func rail(x, width float64, tags []railTag) (items []render.Item, lines []render.Path, used geom.Box) {
	slices.SortStableFunc(tags, func(a, b railTag) int { return cmp.Compare(b.at.Y, a.at.Y) })
	high := make([]float64, len(tags))
	tops := make([]float64, len(tags))
	half := lettering.Cap(narrow) / 2
	for i, t := range tags {
		high[i] = lettering.Height(len(lettering.Wrap(t.text, width, narrow)), narrow)
		tops[i] = t.at.Y + half
	}
	levelled(tops, high)
	used = geom.NoBox()
	for i, t := range tags {
		text, h := lettering.Paragraph(pt(x, tops[i]), t.text, width, narrow)
		y := tops[i] - half
		line := render.Lines(t.at, pt(x-1.3-railKnee, y), pt(x-1.3, y))
		lines = append(lines, line)
		items = append(items, render.Group{Name: "leader", Items: []render.Item{
			render.Stroke{Paths: []render.Path{line}, Pen: render.Thin}, render.Fill{Paths: []render.Path{render.Circle(t.at, 0.7)}},
		}}, render.Group{Name: "text note", Items: text})
		used = used.Union(geom.Box{Min: pt(x, tops[i]-h), Max: pt(x+width, tops[i])})
	}
	return items, lines, used
}

// levelled moves the tops of labels apart so that none lies over the next, as
// little as can be: labels that touch move together by the middle of what each
// of them would like.
func levelled(tops, high []float64) {
	type heap struct {
		from, to int
		off      float64 // of the heap's top from where its labels would like it, summed
	}
	want := slices.Clone(tops)
	var heaps []heap
	top := func(h heap) float64 { return h.off / float64(h.to-h.from) }
	deep := func(h heap) float64 {
		sum := 0.0
		for i := h.from; i < h.to; i++ {
			sum += high[i] + railGap
		}
		return sum
	}
	for i, w := range want {
		heaps = append(heaps, heap{i, i + 1, w})
		for n := len(heaps); n > 1 && top(heaps[n-2])-deep(heaps[n-2]) < top(heaps[n-1]); n = len(heaps) {
			a, b := heaps[n-2], heaps[n-1]
			b.off += float64(b.to-b.from) * deep(a)
			heaps = append(heaps[:n-2], heap{a.from, b.to, a.off + b.off})
		}
	}
	for _, h := range heaps {
		y := top(h)
		for i := h.from; i < h.to; i++ {
			tops[i] = y
			y -= high[i] + railGap
		}
	}
}

// kept moves an anchor inside a window, so that its leader begins on what is
// drawn.
func kept(q geom.Pt, b geom.Box) geom.Pt {
	return pt(math.Min(math.Max(q.X, b.Min.X+1), b.Max.X-1), math.Min(math.Max(q.Y, b.Min.Y+1), b.Max.Y-1))
}
