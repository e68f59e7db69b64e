package buying_test

import (
	"math"
	"slices"

	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/cutting"
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
		require.Equal(t, part.Quantity, n, "pieces of %s", part.Code)
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
		ripped = ripped || c.Kind == cutting.Rip
		if c.Kind == cutting.Trim || c.Kind == cutting.Crosscut {
			require.False(t, ripped, "crosscuts come before rips")
		}
		slabs = cutThrough(t, slabs, c, p.Kerf)
	}
	for _, piece := range b.Pieces {
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
