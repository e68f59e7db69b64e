package cutting

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHiddenPiecesTakeTheRough has a board on hand that holds all three pieces
// only if one of them lies over the knot.
func TestHiddenPiecesTakeTheRough(t *testing.T) {
	knot := Stretch{From: 600, To: 650}
	for _, c := range []struct {
		name string
		face string
		bad  Stretch
		cost float64
	}{
		{"hidden", Hidden, knot, 0},
		{"clear", Clear, knot, 10},
		{"no need", "", knot, 10},
		{"no need, knot in one face", "", Stretch{From: 600, To: 650, Face: "down"}, 0},
		{"clear, knot in one face", Clear, Stretch{From: 600, To: 650, Face: "down"}, 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := one(100, 2000, Rules{Kerf: 3, EndTrim: 10},
				Piece{Name: "shelf", Length: 580, Width: 100, Count: 2, Face: Clear},
				Piece{Name: "batten", Length: 200, Width: 100, Count: 1, Face: c.face})
			job.Stocks[0].OnHand = []OnHand{{Name: "shed", Length: 1400, Bad: []Stretch{c.bad}}}
			plan := Pack(job)
			require.Empty(t, plan.Left)
			requireSawable(t, job, plan)
			assert.Equal(t, c.cost, plan.Cost)
			assert.LessOrEqual(t, plan.Bound.Cost, plan.Cost)
		})
	}
}

// TestTrueWidthOfBoardsOnHand: a narrower board takes what it is wide enough
// for, with its clean-up, and nothing else.
func TestTrueWidthOfBoardsOnHand(t *testing.T) {
	for _, c := range []struct{ width, cost float64 }{{100, 0}, {99, 10}, {64, 10}, {62, 0}, {61, 0}, {60.5, 10}, {60, 0}} {
		piece := Piece{Length: 500, Width: 60, Count: 1}
		if c.width > 64 || c.width == 64 {
			piece.Width = 100
		}
		if c.width == 64 {
			piece.Width = 63.5
		}
		job := one(100, 1000, Rules{Kerf: 3, EdgeCleanup: 1}, piece)
		job.Stocks[0].OnHand = []OnHand{{Name: "narrow", Length: 600, Width: c.width}}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		assert.Equal(t, c.cost, plan.Cost, "%g", c.width)
	}
}

// TestRandomBoardsOnHand saws random jobs with boards of many widths and flaws.
func TestRandomBoardsOnHand(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	needs := []string{"", Clear, Hidden}
	rough := 0
	for i := range 40 {
		job := random(r, 6+i/2)
		job.Rules.Work = 400_000
		for k := range job.Pieces {
			job.Pieces[k].Face = needs[r.IntN(3)]
		}
		for s := range job.Stocks {
			for range 1 + r.IntN(3) {
				on := OnHand{Length: 800 + 10*float64(r.IntN(150)), Width: job.Stocks[s].Width - float64(r.IntN(4))*5}
				for range r.IntN(3) {
					from := float64(r.IntN(int(on.Length) - 100))
					on.Bad = append(on.Bad, Stretch{From: from, To: from + 20 + float64(r.IntN(80)), Face: []string{"", "up"}[r.IntN(2)]})
				}
				job.Stocks[s].OnHand = append(job.Stocks[s].OnHand, on)
			}
		}
		plan := Pack(job)
		require.Empty(t, plan.Left)
		requireSawable(t, job, plan)
		require.LessOrEqual(t, plan.Bound.Cost, plan.Cost+1e-9)
		for _, b := range plan.Boards {
			for _, p := range b.Pieces {
				for _, bad := range b.Bad {
					if p.Along < bad.To-near && p.Along+p.Length > bad.From+near {
						rough++
					}
				}
			}
		}
	}
	assert.Positive(t, rough, "some pieces lie on bad stretches")
}
