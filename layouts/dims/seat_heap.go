package dims

import "planset/model/geom"

// A rowPoint is the centre of a tab that a leader from tip could reach.
type rowPoint struct {
	tip, at geom.Pt
	price   float64
	n       int // in the order in which they were found
}

// A heap is row points with the cheapest first, of equal ones the one found
// first. There are thousands round a picture and only the first few hundred are
// looked at, so they are not sorted.
type heap []rowPoint

// cheapest makes a heap of points, which it keeps.
func cheapest(points []rowPoint) heap {
	h := heap(points)
	for i := range h {
		h[i].n = i
	}
	for i := len(h)/2 - 1; i >= 0; i-- {
		h.sink(i)
	}
	return h
}

func (h heap) before(i, j int) bool {
	return h[i].price < h[j].price || h[i].price == h[j].price && h[i].n < h[j].n
}

func (h heap) sink(i int) {
	for {
		k := 2*i + 1
		if k >= len(h) {
			return
		}
		if k+1 < len(h) && h.before(k+1, k) {
			k++
		}
		if h.before(i, k) {
			return
		}
		h[i], h[k] = h[k], h[i]
		i = k
	}
}

// next takes the first point off the heap.
func (h *heap) next() rowPoint {
	p, last := (*h)[0], len(*h)-1
	(*h)[0] = (*h)[last]
	*h = (*h)[:last]
	h.sink(0)
	return p
}
