package buying_test

import (
	"math"
	"slices"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/buying"
	"planset/model/cutting"
	"planset/model/geom"
)

// A slab is a rectangle of a board, mm: along from the left end, across from
// the lower edge.
type slab struct{ left, right, low, high float64 }

const hair = 0.02 // mm, of the cutting list's rounding

// validate saws every board of a plan's layouts, cut by cut, and compares what
// falls off with the parts of the plan. It knows nothing of how the layouts were
// found.
func validate(t require.TestingT, p *model.Plan, c *cutting.Plan) {
	require.Empty(t, c.Left)
	for i := range c.Boards {
		sawn(t, p, &c.Boards[i])
	}
	for _, part := range p.Parts {
		n := 0
		for _, b := range c.Boards {
			for _, piece := range b.Pieces {
				if piece.Code != part.Code {
					continue
				}
				n++
				require.Equal(t, part.Stock.Key, b.Stock, "%s is cut from its own stock", part.Code)
				require.InDelta(t, part.RoughLength, piece.Length, hair, "%s runs along the grain of its board", part.Code)
				require.GreaterOrEqual(t, piece.Width, part.Width-hair, "%s is wide enough", part.Code)
			}
		}
		require.Equal(t, part.Quantity+buying.Spare(p, part), n, "pieces of %s", part.Code)
	}
	bought := map[string]float64{}
	for _, b := range c.Boards {
		if !b.OnHand {
			bought[b.Stock] += b.Length
		}
	}
	for _, row := range c.Buying {
		bought[row.Stock] -= row.Length * float64(row.Quantity-row.Spare)
	}
	for stock, rest := range bought {
		require.InDelta(t, 0, rest, hair, "length of %s bought and laid out", stock)
	}
	require.LessOrEqual(t, c.Bound.Cost, c.Cost+1e-6)
}

// sawn makes the cuts of one board in their order.
func sawn(t require.TestingT, p *model.Plan, b *cutting.Board) {
	stock := p.Stocks[slices.IndexFunc(p.Stocks, func(s *model.Stock) bool { return s.Key == b.Stock })]
	slabs := []slab{{0, b.Length, 0, b.Width}}
	ripped := false
	for n, c := range b.Cuts {
		require.Equal(t, n+1, c.N)
		if c.Kind == cutting.Slant {
			continue
		}
		ripped = ripped || c.Kind == cutting.Rip
		if c.Kind == cutting.Trim || c.Kind == cutting.Crosscut {
			require.False(t, ripped && !inRest(b, c), "crosscuts come before rips")
		}
		slabs = cutThrough(t, slabs, c, p.Kerf)
	}
	for i, blank := range b.Blanks {
		slabs = pairSawn(t, p, b, i+1, slabs)
		require.LessOrEqual(t, blank.Sawn-blank.Width, 2*stock.Cleanup+hair, "a blank is ripped to its width")
	}
	for _, piece := range b.Pieces {
		if piece.Pair > 0 {
			clearOfBad(t, b, piece)
			continue
		}
		at := slices.IndexFunc(slabs, func(s slab) bool {
			return near(s.left, piece.Along) && near(s.right, piece.Along+piece.Length) &&
				s.low < piece.Across+hair && s.high > piece.Across+piece.Width-hair
		})
		require.GreaterOrEqual(t, at, 0, "%s falls off board %s as one piece", piece.Code, b.Stock)
		s := slabs[at]
		slabs = slices.Delete(slabs, at, at+1)
		require.InDelta(t, s.high-s.low, piece.Sawn, hair, "%s is sawn as wide as the layout says", piece.Code)
		require.LessOrEqual(t, piece.Sawn-piece.Width, 2*stock.Cleanup+hair, "%s is ripped to its width", piece.Code)
		require.GreaterOrEqual(t, piece.Along, p.EndTrim-hair)
		require.LessOrEqual(t, piece.Along+piece.Length, b.Length-p.EndTrim+hair)
		clearOfBad(t, b, piece)
	}
}

// inRest reports whether a crosscut is made in what is left of a board.
func inRest(b *cutting.Board, c cutting.Cut) bool {
	return slices.ContainsFunc(b.Rests, func(r cutting.Rest) bool { return c.At > r.Along && c.At < r.Along+r.Length })
}

// pairSawn finds the blank of a pair among what the straight cuts left, makes
// the slanted cut and finds one piece on either side of it, by their outlines.
func pairSawn(t require.TestingT, p *model.Plan, b *cutting.Board, pair int, slabs []slab) []slab {
	blank := b.Blanks[pair-1]
	at := slices.IndexFunc(slabs, func(s slab) bool {
		return near(s.left, blank.Along) && near(s.right, blank.Along+blank.Length) && s.low < blank.Across+hair && s.high > blank.Across+blank.Width-hair
	})
	require.GreaterOrEqual(t, at, 0, "the blank falls off as one piece")
	c := b.Cuts[blank.Cut-1]
	require.Equal(t, cutting.Slant, c.Kind)
	require.True(t, near(c.From, blank.Along) && near(c.To, blank.Along+blank.Length), "the cut runs from end to end")
	a := geom.Pt{X: c.From, Y: c.At}
	dir := geom.Pt{X: c.To, Y: c.Stop}.Sub(a).Unit()
	var sides []bool
	for _, piece := range b.Pieces {
		if piece.Pair != pair {
			continue
		}
		part := p.Parts[slices.IndexFunc(p.Parts, func(q *model.Part) bool { return q.Code == piece.Code })]
		o := part.Board.Outline
		if part.TrimLater == part.Names.Ends[0] {
			o = o.Move(geom.Pt{X: part.RoughLength - part.Length})
		}
		if piece.Turned {
			o = o.MirrorX().MirrorY().Move(geom.Pt{X: piece.Length, Y: piece.Width})
		}
		o = o.Move(geom.Pt{X: piece.Along, Y: piece.Across})
		least, most := math.Inf(1), math.Inf(-1)
		for _, q := range o.Flatten(0.01) {
			require.Greater(t, q.Y, blank.Across-hair)
			require.Less(t, q.Y, blank.Across+blank.Width+hair)
			d := dir.Cross(q.Sub(a))
			least, most = min(least, d), max(most, d)
		}
		require.True(t, most < hair || least > p.Kerf-hair, "%s keeps to one side of the cut: %g to %g", piece.Code, least, most)
		sides = append(sides, most < hair)
	}
	require.ElementsMatch(t, []bool{true, false}, sides, "one piece below the cut and one above")
	return slices.Delete(slabs, at, at+1)
}

func near(a, b float64) bool { return math.Abs(a-b) < hair }

// cutThrough parts the one slab that a cut goes through, from edge to edge.
func cutThrough(t require.TestingT, slabs []slab, c cutting.Cut, kerf float64) []slab {
	rip := c.Kind == cutting.Rip
	at := slices.IndexFunc(slabs, func(s slab) bool {
		if rip {
			return c.At > s.low-hair && c.At < s.high-hair && near(c.From, s.left) && near(c.To, s.right)
		}
		return c.At > s.left-hair && c.At < s.right-hair && c.From < s.high-hair && c.To > s.low+hair
	})
	require.GreaterOrEqual(t, at, 0, "cut %d at %g has a whole edge to go through", c.N, c.At)
	s := slabs[at]
	a, b := s, s
	if rip {
		a.high, b.low = c.At, c.At+kerf
	} else {
		a.right, b.left = c.At, c.At+kerf
	}
	slabs[at] = a
	return append(slabs, b)
}

// clearOfBad checks that a piece lies on a bad stretch only if it may.
func clearOfBad(t require.TestingT, b *cutting.Board, piece cutting.Placed) {
	for _, bad := range b.Bad {
		if piece.Along > bad.To-hair || piece.Along+piece.Length < bad.From+hair || piece.Face == "hidden" {
			continue
		}
		require.True(t, piece.Face == "" && bad.Face != "", "%s shows the bad stretch from %g to %g", piece.Code, bad.From, bad.To)
	}
}
