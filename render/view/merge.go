package view

import (
	"math"
	"slices"

	"planset/model/geom"
)

// single keeps each line of the picture once. Visible pieces go before hidden
// ones, bodies named first before later ones; of every later piece only the
// stretches that lie on none before it stay.
func (s *scene) single(pieces []piece) []piece {
	slices.SortStableFunc(pieces, func(a, b piece) int {
		if a.visible != b.visible {
			if a.visible {
				return -1
			}
			return 1
		}
		return int(a.body - b.body)
	})
	k := keeper{grid: newGrid(boxed(pieces), len(pieces))}
	k.head = make([]int32, k.grid.nx*k.grid.ny)
	k.kept = make([]piece, 0, len(pieces))
	for i := range pieces {
		k.add(&pieces[i])
	}
	return k.kept
}

func boxed(pieces []piece) reach {
	r := nowhere()
	for i := range pieces {
		r = r.with(deep(pieces[i].a)).with(deep(pieces[i].b))
	}
	return r
}

func deep(p geom.Pt) geom.V3 { return geom.V3{X: p.X, Y: p.Y} }

// A keeper holds the pieces kept so far in the cells they run through.
type keeper struct {
	grid  grid
	head  []int32 // by cell: 1 + its last entry
	entry []entry
	kept  []piece
	seen  []int32 // by kept piece: the last piece held against it
	stamp int32
	under []span
}

// An entry is one thing in a list, and 1 + the entry before it.
type entry struct{ of, next int32 }

// add keeps what of p lies on no piece kept before.
func (k *keeper) add(p *piece) {
	k.stamp++
	k.under = k.under[:0]
	way := p.b.Sub(p.a)
	long := way.Len()
	if long < Touch/10 {
		return
	}
	u := way.Mul(1 / long)
	for cell := range k.grid.along(deep(p.a), deep(p.b)) {
		for e := k.head[cell]; e > 0; e = k.entry[e-1].next {
			i := k.entry[e-1].of
			if k.seen[i] == k.stamp {
				continue
			}
			k.seen[i] = k.stamp
			if c, ok := shared(p.a, u, long, &k.kept[i]); ok {
				k.under = append(k.under, c)
			}
		}
	}
	if len(k.under) == 0 {
		k.keep(*p)
		return
	}
	for _, free := range without(union(k.under), long) {
		if free.hi-free.lo >= min(speck, long/3) {
			part := *p
			part.a, part.b = p.a.Add(u.Mul(free.lo)), p.a.Add(u.Mul(free.hi))
			k.keep(part)
		}
	}
}

func (k *keeper) keep(p piece) {
	i := int32(len(k.kept))
	k.kept = append(k.kept, p)
	k.seen = append(k.seen, 0)
	for cell := range k.grid.along(deep(p.a), deep(p.b)) {
		k.entry = append(k.entry, entry{i, k.head[cell]})
		k.head[cell] = int32(len(k.entry))
	}
}

// shared returns the stretch of the line from a along u, long millimetres,
// that q lies on.
func shared(a geom.Pt, u geom.Pt, long float64, q *piece) (span, bool) {
	qa, qb := q.a.Sub(a), q.b.Sub(a)
	d0, d1 := u.Cross(qa), u.Cross(qb)
	if d0 > Touch && d1 > Touch || d0 < -Touch && d1 < -Touch {
		return span{}, false
	}
	s0, s1 := u.Dot(qa), u.Dot(qb)
	if s0 > s1 {
		s0, s1, d0, d1 = s1, s0, d1, d0
	}
	lo, hi := max(s0, 0), min(s1, long)
	if hi-lo < Touch/10 {
		return span{}, false
	}
	at := func(s float64) float64 { return math.Abs(d0 + (d1-d0)*(s-s0)/(s1-s0)) }
	return span{lo, hi}, at(lo) <= Touch && at(hi) <= Touch
}

// chain joins pieces of one body and one sort that run on straight from each
// other, so that each line is one stroke.
func chain(pieces []piece) []piece {
	c := chainer{pieces: pieces, at: make(map[[2]int64]int32, len(pieces)), gone: make([]bool, len(pieces))}
	c.ends = make([]entry, 0, 2*len(pieces))
	for i := range pieces {
		c.link(int32(2 * i))
		c.link(int32(2*i + 1))
	}
	for i := range pieces {
		if !c.gone[i] {
			for c.extend(int32(i)) {
			}
		}
	}
	out := pieces[:0]
	for i := range pieces {
		if !c.gone[i] {
			out = append(out, pieces[i])
		}
	}
	return out
}

// A chainer knows which ends of pieces are at one place. End 2i is the start of
// piece i, end 2i+1 its finish.
type chainer struct {
	pieces []piece
	at     map[[2]int64]int32 // 1 + the last of the ends at a place
	ends   []entry            // an end and 1 + the one before it at its place
	gone   []bool
}

func (c *chainer) end(e int32) geom.Pt {
	if e%2 == 0 {
		return c.pieces[e/2].a
	}
	return c.pieces[e/2].b
}

// spot rounds a place; a join that falls across the border of two spots is
// missed, which costs a stroke and nothing else.
func spot(p geom.Pt) [2]int64 {
	return [2]int64{int64(math.Floor(p.X/Touch + 0.37)), int64(math.Floor(p.Y/Touch + 0.37))}
}

func (c *chainer) link(e int32) {
	key := spot(c.end(e))
	c.ends = append(c.ends, entry{e, c.at[key]})
	c.at[key] = int32(len(c.ends))
}

// extend joins one more piece to an end of piece i, if any runs on from it.
func (c *chainer) extend(i int32) bool {
	for end := 2 * i; end < 2*i+2; end++ {
		here := c.end(end)
		for at := c.at[spot(here)]; at > 0; at = c.ends[at-1].next {
			e := c.ends[at-1].of
			if !c.runsOn(end, e) {
				continue
			}
			c.gone[e/2] = true
			if end%2 == 0 {
				c.pieces[i].a = c.end(e ^ 1)
			} else {
				c.pieces[i].b = c.end(e ^ 1)
			}
			c.link(end)
			return true
		}
	}
	return false
}

// runsOn reports whether the piece with end e runs straight on from end.
func (c *chainer) runsOn(end, e int32) bool {
	p, q := &c.pieces[end/2], &c.pieces[e/2]
	if e/2 == end/2 || c.gone[e/2] || q.body != p.body || q.visible != p.visible || q.kind != p.kind {
		return false
	}
	// A piece that has grown is still listed where it used to end.
	here := c.end(end)
	return c.end(e).Sub(here).Len() <= Touch && straightOn(c.end(end^1), here, c.end(e^1))
}

// straightOn reports whether the way from a over b to c is one straight line.
func straightOn(a, b, c geom.Pt) bool {
	in, out := b.Sub(a), c.Sub(b)
	if in.Dot(out) <= 0 {
		return false
	}
	way := c.Sub(a).Unit()
	return math.Abs(way.Cross(in)) < Touch/4 && math.Abs(in.Unit().Cross(out.Unit())) < 1e-3
}

// edges gives pieces their body's ID.
func (s *scene) edges(pieces []piece) []Edge {
	out := make([]Edge, len(pieces))
	for i, p := range pieces {
		out[i] = Edge{A: p.a, B: p.b, Body: s.bodies[p.body].id, Visible: p.visible, Kind: p.kind}
	}
	return out
}
