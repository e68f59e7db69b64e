package cutting

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// boardsOf counts the boards that hold pieces of a code.
func boardsOf(plan Plan, code string) int {
	n := 0
	for _, b := range plan.Boards {
		for _, p := range b.Pieces {
			if p.Code == code {
				n++
				break
			}
		}
	}
	return n
}

// TestMatchingPiecesShareABoard: kept together, three pieces of 400 mm and two
// of 700 mm need boards of 1300 and 1500; apart, two of 1200 would do.
func TestMatchingPiecesShareABoard(t *testing.T) {
	for _, match := range []bool{false, true} {
		job := one(100, 1200, Rules{}, Piece{Code: "A", Length: 400, Width: 100, Count: 3, Match: match}, Piece{Code: "B", Length: 700, Width: 100, Count: 1})
		job.Stocks[0].Lengths = []Sold{{900, 9, 0}, {1100, 11, 0}, {1200, 13, 0}}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		assert.True(t, plan.Bound.Proved)
		if match {
			assert.Equal(t, 1, boardsOf(plan, "A"))
			assert.Equal(t, 22.0, plan.Cost)
		} else {
			assert.Equal(t, 20.0, plan.Cost, "a board of 1100 and one of 900")
		}
	}
}

// TestTooManyToMatchTakeFewBoards: where no board is long enough for all, each
// board is filled with them.
func TestTooManyToMatchTakeFewBoards(t *testing.T) {
	job := one(100, 1000, Rules{Kerf: 3}, Piece{Code: "A", Length: 240, Width: 100, Count: 9, Spare: 1, Match: true}, Piece{Code: "B", Length: 500, Width: 100, Count: 4})
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	assert.Equal(t, 3, boardsOf(plan, "A"))
}

// TestMatchingStripsAreRipped: matching pieces narrower than the stock are
// ripped from one length of it.
func TestMatchingStripsAreRipped(t *testing.T) {
	job := one(140, 2000, Rules{Kerf: 3, EdgeCleanup: 1}, Piece{Code: "A", Length: 600, Width: 60, Count: 3, Match: true}, Piece{Code: "B", Length: 700, Width: 60, Count: 2})
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	assert.Equal(t, 1, boardsOf(plan, "A"))
	assert.Len(t, plan.Boards, 1)
}

// TestRowsAreAsLongAsTheBoardsThatAreLeft: the one board on hand takes a row of
// six, the sold boards rows of four. Rows of six throughout would need a second
// board like it, and the pieces would not all be cut.
func TestRowsAreAsLongAsTheBoardsThatAreLeft(t *testing.T) {
	matching := Piece{Code: "A", Length: 480, Width: 140, Count: 12, Match: true}
	job := one(140, 2000, Rules{Kerf: 3, EndTrim: 12}, matching)
	job.Stocks[0].OnHand = []OnHand{{Name: "shed", Length: 3000}}
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	assert.Equal(t, 3, boardsOf(plan, "A"), "6, 4 and 2")
	assert.Equal(t, 20.0, plan.Cost)

	job = one(140, 2000, Rules{Kerf: 3, EndTrim: 12}, matching)
	job.Stocks[0].Lengths = append(job.Stocks[0].Lengths, Sold{Length: 3000, Price: 12, Limit: 1})
	plan = Pack(job)
	require.Empty(t, plan.Left)
	assert.Equal(t, 3, boardsOf(plan, "A"))
	assert.Equal(t, 32.0, plan.Cost)
}

// TestMatchingPiecesAreNotLaidOverARoughSpot: a piece alone on the board on hand,
// over its knot, would not match the other three.
func TestMatchingPiecesAreNotLaidOverARoughSpot(t *testing.T) {
	for _, match := range []bool{false, true} {
		job := one(140, 2000, Rules{Kerf: 3, EndTrim: 10, EdgeCleanup: 1},
			Piece{Code: "A", Length: 500, Width: 60, Count: 3, Face: Clear},
			Piece{Code: "B", Length: 720, Width: 140, Count: 2, Spare: 1},
			Piece{Code: "C", Length: 400, Width: 80, Count: 4, Match: match})
		job.Stocks[0].Lengths = []Sold{{2000, 10, 0}, {3000, 14.5, 0}}
		job.Stocks[0].OnHand = []OnHand{{Name: "shed", Length: 1500, Width: 135, Bad: []Stretch{{From: 400, To: 450}, {From: 800, To: 820, Edge: "near", Face: "down"}}}}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		if match {
			assert.Equal(t, 1, boardsOf(plan, "C"))
			assert.Equal(t, 24.5, plan.Cost, "four of C leave a board of 2000 no room for B, and three of B need 3000")
		} else {
			assert.Greater(t, boardsOf(plan, "C"), 1)
			assert.Equal(t, 20.0, plan.Cost, "two boards of 2000 do, with some of C from the shed")
		}
	}
}

// TestRowsOfTwoPartsStayApart: two parts of one size each keep to one board,
// though one of them has a spare piece in its row.
func TestRowsOfTwoPartsStayApart(t *testing.T) {
	job := one(100, 2000, Rules{Kerf: 3},
		Piece{Code: "A", Length: 450, Width: 100, Count: 3, Spare: 1, Match: true},
		Piece{Code: "B", Length: 450, Width: 100, Count: 4, Match: true})
	plan := Pack(job)
	require.Empty(t, plan.Left)
	requireSawable(t, job, plan)
	assert.Equal(t, 1, boardsOf(plan, "A"))
	assert.Equal(t, 1, boardsOf(plan, "B"))
}
