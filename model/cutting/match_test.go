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
