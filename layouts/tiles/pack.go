package tiles

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"planset/model/geom"
)

// Measures of a sheet that holds several pieces, in mm.
const (
	aisle    = 4.0 // between the cells of two pieces; the line to cut them apart runs along its middle
	gauge    = 8.0 // column at the right for the upright ruler
	cellW    = 46.0
	cellH    = 40.0 // least cell: room for a large label
	shuffles = 1500 // orders of the pieces tried
	tablet   = 10.0 // of the height of a cell, for the name of the piece
)

// pads are the widths of the rim kept free round a piece for its words, tried in
// order until all words find room.
var pads = [...]float64{2, 3, 5, 8, 12, 18}

// A spot names one tile of one layout.
type spot struct{ layout, tile int }

// A packing says which tiles are printed together.
type packing struct {
	layouts []Layout
	sheets  [][]spot
}

// alone prints every tile on a sheet of its own.
func alone(ls []Layout) packing {
	k := packing{layouts: ls}
	for n, l := range ls {
		for i := range l.Tiles {
			k.sheets = append(k.sheets, []spot{{n, i}})
		}
	}
	return k
}

// pack puts pieces that are not taped to anything together on sheets, as long as
// every word still finds its place. Of the rims that need the fewest sheets it
// takes the narrowest that leaves most words whole.
func pack(ls []Layout, look Look) packing {
	best, torn := alone(ls), 0
	for _, pad := range pads {
		k := packed(ls, pad)
		if len(k.sheets) > len(best.sheets) {
			break // a wider rim saves no sheet
		}
		c := k.crowded(look)
		fewer := len(k.sheets) < len(best.sheets)
		if c.lost == 0 && (fewer || len(k.sheets) == len(best.sheets) && c.torn < torn) {
			best, torn = k, c.torn
		}
		if torn == 0 && len(best.sheets) == len(k.sheets) {
			break
		}
	}
	return best
}

// crowded adds up what went wrong on the sheets that several pieces share.
func (k packing) crowded(look Look) crowding {
	var all crowding
	for _, s := range k.sheets {
		if len(s) > 1 {
			_, c := k.draw(s, 0, look)
			all.lost, all.torn = all.lost+c.lost, all.torn+c.torn
		}
	}
	return all
}

// A single is a tile by itself looking for a place.
type single struct {
	spot
	holds geom.Box  // what must be seen, in the layout's frame
	cell  geom.Size // the room it takes
}

// lone lists the tiles of l that are not taped to others and may be cut down to
// what they must show. A half template keeps its whole sheet: its fold is the
// edge of one.
func (l Layout) lone(n int, pad float64) []single {
	var out []single
	for _, set := range pieces(l.Tiles) {
		if len(set) > 1 || l.folded() {
			continue
		}
		b := l.holds(l.Tiles[set[0]].Window)
		out = append(out, single{spot{n, set[0]}, b, geom.Size{
			W: math.Max(cellW, b.W()+2*pad), H: math.Max(cellH, b.H()+2*pad+tablet),
		}})
	}
	return out
}

// holds returns the box round what must be seen of l in a window: the shaped
// stretches with the plain run beyond them.
func (l Layout) holds(w geom.Box) geom.Box {
	x := within1(needs(l.Template, geom.Pt{X: 1}), extent(w, geom.Pt{X: 1}))
	y := within1(needs(l.Template, geom.Pt{Y: 1}), extent(w, geom.Pt{Y: 1}))
	stretch := geom.Box{Min: geom.Pt{X: x.lo, Y: y.lo}, Max: geom.Pt{X: x.hi, Y: y.hi}}
	b := geom.NoBox()
	for _, s := range clip(l.Outline, stretch) {
		b = b.Union(s.Box())
	}
	for _, h := range l.Holes {
		if !h.Matched && stretch.Has(h.At) {
			b = b.Union(geom.Box{Min: h.At, Max: h.At}.Grow(h.Diam / 2))
		}
	}
	// The guide it is lined up by belongs to it.
	mid := b.Min.Add(b.Max).Mul(0.5)
	for _, upright := range []bool{true, false} {
		d, ok := l.guideAt(upright)
		at := geom.Pt{X: mid.X, Y: d}
		if !upright {
			at = geom.Pt{X: d, Y: mid.Y}
		}
		if ok && w.Has(at) {
			b = b.With(at)
		}
	}
	return b
}

// within1 returns the stretch of the needs that lie in w.
func within1(needs []span, w span) span {
	out := span{math.Inf(1), math.Inf(-1)}
	for _, s := range needs {
		if s.lo >= w.lo-1e-6 && s.hi <= w.hi+1e-6 {
			out = span{math.Min(out.lo, s.lo), math.Max(out.hi, s.hi)}
		}
	}
	if out.hi < out.lo {
		return w
	}
	return out
}

// A shelf is a row of pieces across a sheet.
type shelf struct {
	pieces []single
	w, h   float64
}

// packed shelves all lone pieces, in the order that needs the fewest sheets; the
// order of the parts among equals, so that a part's pieces stay together.
func packed(ls []Layout, pad float64) packing {
	var all []single
	for n, l := range ls {
		all = append(all, l.lone(n, pad)...)
	}
	if len(all) < 2 {
		return alone(ls)
	}
	room := ls[all[0].layout].Paper.Live()
	room.W -= gauge
	best := shelve(all, room)
	try := func(order []single) {
		if other := shelve(order, room); len(other) < len(best) {
			best = other
		}
	}
	for _, by := range []func(single) float64{
		func(p single) float64 { return p.cell.H },
		func(p single) float64 { return p.cell.W },
		func(p single) float64 { return p.cell.W * p.cell.H },
	} {
		order := slices.Clone(all)
		slices.SortStableFunc(order, func(a, b single) int { return cmp.Compare(by(b), by(a)) })
		try(order)
	}
	order, dice := slices.Clone(all), rand.New(rand.NewPCG(1, 1)) // the same throws every time
	for range shuffles {
		dice.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		try(order)
	}
	return settled(ls, best, room)
}

// shelve puts pieces on sheets, each where it first fits. A piece larger than a
// sheet less its rim gets a sheet to itself.
func shelve(all []single, room geom.Size) [][]shelf {
	var out [][]shelf
	for _, p := range all {
		done := false
		for i := range out {
			if done = add(&out[i], p, room); done {
				break
			}
		}
		if !done {
			out = append(out, []shelf{{[]single{p}, p.cell.W, p.cell.H}})
		}
	}
	return out
}

// add puts p on a sheet if it fits: on the first shelf with room, which may grow
// higher, else on a new one.
func add(sheet *[]shelf, p single, room geom.Size) bool {
	high := -aisle
	for _, s := range *sheet {
		high += s.h + aisle
	}
	for i := range *sheet {
		s := &(*sheet)[i]
		grown := math.Max(s.h, p.cell.H)
		if s.w+aisle+p.cell.W <= room.W && high+grown-s.h <= room.H {
			s.pieces = append(s.pieces, p)
			s.w, s.h = s.w+aisle+p.cell.W, grown
			return true
		}
	}
	if high+aisle+p.cell.H > room.H || p.cell.W > room.W {
		return false
	}
	*sheet = append(*sheet, shelf{[]single{p}, p.cell.W, p.cell.H})
	return true
}

// settled gives every piece its window. What room is left is shared out among
// the cells; a piece alone on its sheet keeps its whole window.
func settled(ls []Layout, sheets [][]shelf, room geom.Size) packing {
	k := packing{layouts: make([]Layout, len(ls))}
	taken := map[spot]bool{}
	for n, l := range ls {
		l.Tiles = slices.Clone(l.Tiles)
		k.layouts[n] = l
	}
	for _, sheet := range sheets {
		var spots []spot
		for _, s := range sheet {
			for _, p := range s.pieces {
				spots = append(spots, p.spot)
			}
		}
		if len(spots) > 1 {
			for _, s := range spots {
				taken[s] = true
			}
			k.spread(sheet, room)
			k.sheets = append(k.sheets, spots)
		}
	}
	for n, l := range ls {
		for i := range l.Tiles {
			if s := (spot{n, i}); !taken[s] {
				k.sheets = append(k.sheets, []spot{s})
			}
		}
	}
	slices.SortStableFunc(k.sheets, func(a, b []spot) int {
		if d := cmp.Compare(a[0].layout, b[0].layout); d != 0 {
			return d
		}
		return cmp.Compare(a[0].tile, b[0].tile)
	})
	return k
}

// spread sets the windows of the pieces on one sheet, from the top down and from
// the left.
func (k packing) spread(sheet []shelf, room geom.Size) {
	high := room.H + aisle
	for _, s := range sheet {
		high -= s.h + aisle
	}
	at := k.layouts[sheet[0].pieces[0].layout].Paper.at()
	y := at.Y + room.H
	for _, s := range sheet {
		h := s.h + high/float64(len(sheet))
		wide := (room.W - s.w) / float64(len(s.pieces))
		x := at.X
		for _, p := range s.pieces {
			w := p.cell.W + wide
			t := &k.layouts[p.layout].Tiles[p.tile]
			mid := p.holds.Min.Add(p.holds.Max).Mul(0.5)
			t.At = geom.Pt{X: x, Y: y - h}
			t.Window.Min = mid.Sub(geom.Pt{X: w / 2, Y: h / 2})
			t.Window.Max = mid.Add(geom.Pt{X: w / 2, Y: h / 2})
			x += w + aisle
		}
		y -= h + aisle
	}
}

// on tells for every tile of every layout the index of its page when the first
// sheet has index first.
func (k packing) on(first int) [][]int {
	out := make([][]int, len(k.layouts))
	for n, l := range k.layouts {
		out[n] = make([]int, len(l.Tiles))
	}
	for i, s := range k.sheets {
		for _, p := range s {
			out[p.layout][p.tile] = first + i
		}
	}
	return out
}
