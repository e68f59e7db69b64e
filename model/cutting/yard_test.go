package cutting

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSpareBoardsAreThoseTheYardHas: of three spare boards one is of the cheaper
// length, since the yard has two and the layout takes one; nothing is bought
// that is not there.
func TestSpareBoardsAreThoseTheYardHas(t *testing.T) {
	for _, c := range []struct {
		name      string
		short     int // of 3000
		want      []Buy
		wantPrice float64
	}{
		{"the next length", 0, []Buy{{"s", 2000, 2, 1, 20}, {"s", 3000, 2, 2, 32}}, 52},
		{"as many as there are", 1, []Buy{{"s", 2000, 2, 1, 20}, {"s", 3000, 1, 1, 16}}, 36},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := one(100, 2000, Rules{Kerf: 3}, Piece{Code: "A", Length: 900, Width: 100, Count: 2})
			job.Stocks[0].Lengths = []Sold{{2000, 10, 2}, {3000, 16, c.short}}
			job.Stocks[0].Spare = 3
			plan := Pack(job)
			require.Empty(t, plan.Left)
			assert.Equal(t, c.want, plan.Buying)
			assert.Equal(t, c.wantPrice, plan.Cost)
			assert.True(t, plan.Bound.Proved)
			assert.Equal(t, plan.Cost, plan.Bound.Cost)
		})
	}
}

// TestNarrowBoardsAreNoBoards: a board on hand that is too narrow for a piece is
// not counted when it is told how long or how wide the boards are.
func TestNarrowBoardsAreNoBoards(t *testing.T) {
	piece := Piece{Code: "A", Length: 1431, Width: 67, Count: 2}
	narrow := OnHand{Length: 2000, Width: 50}

	job := one(140, 600, Rules{Kerf: 3, EndTrim: 12}, piece)
	job.Stocks[0].OnHand = []OnHand{narrow}
	plan := Pack(job)
	require.Len(t, plan.Left, 1)
	assert.Equal(t, TooLong, plan.Left[0].Why)
	assert.Equal(t, 600.0-24, plan.Left[0].Has)

	job.Stocks[0].Lengths = nil
	plan = Pack(job)
	require.Len(t, plan.Left, 1)
	assert.Equal(t, TooWide, plan.Left[0].Why)
	assert.Equal(t, 50.0, plan.Left[0].Has)
}

// TestNoOtherLengthTakesThePair: without its long board the yard has none, and
// what is on hand is too narrow, so there is no alternative to print.
func TestNoOtherLengthTakesThePair(t *testing.T) {
	job := one(140, 600, Rules{Kerf: 3, EndTrim: 12, Alternatives: true}, Piece{Code: "A", Length: 1431, Width: 67, Count: 2})
	job.Stocks[0].Lengths = append(job.Stocks[0].Lengths, Sold{Length: 2000, Price: 12})
	job.Stocks[0].OnHand = []OnHand{{Length: 2000, Width: 50}}
	plan := Pack(job)
	require.Empty(t, plan.Left)
	assert.Equal(t, 12.0, plan.Cost)
	assert.Empty(t, plan.Alternatives)
}

// TestHighPricesAreCounted: whatever the money, four of a price are four times
// as much.
func TestHighPricesAreCounted(t *testing.T) {
	for _, price := range []float64{0.01, 250_000, 1e12, 1e18, 1e290} {
		job := one(100, 1000, Rules{}, Piece{Code: "A", Length: 500, Width: 100, Count: 8})
		job.Stocks[0].Lengths = []Sold{{1000, price, 0}, {1600, 1.9 * price, 0}}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		assert.InEpsilon(t, 4*price, plan.Cost, 1e-9)
		assert.True(t, plan.Bound.Proved)
	}
	job := one(140, 2000, Rules{EndTrim: 12}, Piece{Code: "A", Length: 480, Width: 140, Count: 12})
	job.Stocks[0].Lengths = []Sold{{2000, 1e18, 0}, {2400, 1e300, 0}}
	assert.InEpsilon(t, 3e18, Pack(job).Cost, 1e-9)
}

// TestPairNeedsABoardLongAndWideEnough: the wide board on hand is too short for
// the pair, the long ones are too narrow.
func TestPairNeedsABoardLongAndWideEnough(t *testing.T) {
	job := one(146, 1067, Rules{Kerf: 4, EndTrim: 13},
		Piece{Code: "A", Length: 950, Width: 89, Count: 4, Nest: Nest{Key: "a", Width: 166, Start: 80, Stop: 80}})
	job.Stocks[0].OnHand = []OnHand{{Name: "wide", Length: 759, Width: 168}, {Name: "long", Length: 2286, Width: 146}}
	plan := Pack(job)
	require.Empty(t, plan.Left)
	for _, b := range plan.Boards {
		assert.Empty(t, b.Blanks)
		for _, p := range b.Pieces {
			assert.LessOrEqual(t, p.Across+p.Width, b.Width+fine)
		}
	}
	assert.Equal(t, 20.0, plan.Cost, "two from the shed, one from each of two boards")
}

// TestWhatFitsNoBoardIsNotFound: one of the pieces is wider than every board, so
// there is no plan, whatever the other takes.
func TestWhatFitsNoBoardIsNotFound(t *testing.T) {
	job := one(146, 1067, Rules{}, Piece{Code: "A", Length: 950, Width: 89, Count: 1}, Piece{Code: "B", Length: 950, Width: 200, Count: 1})
	tk := newTask(job, job.Stocks[0], []int{0, 1}, longRows)
	tk.listSections()
	assert.False(t, tk.pack(defaultWork).found)
}

// TestLongPiecesRaiseTheBound: ten pieces are longer than half a board of 3200
// and lie four abreast at most, so they take three such boards, and the short
// ones fit beside them. Reckoned all together, two and a half would do.
func TestLongPiecesRaiseTheBound(t *testing.T) {
	job := one(238, 950, Rules{Kerf: 1.5, EndTrim: 10, EdgeCleanup: 2},
		Piece{Code: "B", Length: 180, Width: 48, Count: 8}, Piece{Code: "C", Length: 254, Width: 87, Count: 8},
		Piece{Code: "D", Length: 1680, Width: 57, Count: 7}, Piece{Code: "E", Length: 541, Width: 78, Count: 1},
		Piece{Code: "G", Length: 273, Width: 160, Count: 1}, Piece{Code: "H", Length: 325, Width: 25, Count: 4},
		Piece{Code: "J", Length: 1588, Width: 49, Count: 3})
	job.Stocks[0].Lengths = []Sold{{950, 4.19, 0}, {3200, 16.91, 0}}
	plan := Pack(job)
	require.Empty(t, plan.Left)
	assert.InDelta(t, 3*16.91, plan.Cost, 1e-9)
	assert.True(t, plan.Bound.Proved)
}

// TestKnotsInOneFaceAreNoneWithoutClearPieces: two pieces fill the board, each
// with a knot below. Only a piece that must be clear makes the knots count.
func TestKnotsInOneFaceAreNoneWithoutClearPieces(t *testing.T) {
	for _, face := range []string{"", Hidden, Clear} {
		job := one(100, 1000, Rules{Kerf: 3}, Piece{Code: "A", Length: 950, Width: 100, Count: 2, Face: face})
		knots := []Stretch{{From: 300, To: 320, Face: "down"}, {From: 600, To: 620, Face: "down"}, {From: 1500, To: 1520, Face: "up"}}
		job.Stocks[0].OnHand = []OnHand{{Name: "shed", Length: 1903, Bad: knots}}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		if face == Clear {
			assert.Equal(t, 20.0, plan.Cost)
			continue
		}
		assert.Zero(t, plan.Cost)
		require.Len(t, plan.Boards, 1)
		assert.Equal(t, knots, plan.Boards[0].Bad, "they are drawn all the same")
	}
}
