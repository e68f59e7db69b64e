package sheets

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
	"planset/render"
)

// gate is parts and stock alone: tapered slats that pair in the boards, rails
// beside them, blocks that are short.
const gate = `unit = "in"
[plan]
title = "Gate"
date  = "2026-10-30"
[stock.board]
name    = "1 x 6"
section = ["3/4", "5 1/2"]
nominal = [1, 6]
lengths = ["6 ft", "8 ft"]
prices  = [9, 12]
cleanup = "1/16"
species = "western redcedar"
[part.slat]
name   = "Slat"
stock  = "board"
length = 34
width  = 3
ends   = ["foot", "head"]
pieces = 7
spare  = 1
taper.rear = { edge = "rear", from = [0, "1 7/8"], to = [34, 3] }
[part.block]
name   = "Block"
stock  = "board"
width  = 4
length = 6
pieces = 3
`

// gateInput solves the gate for a reader.
func gateInput(t *testing.T, unit expr.Unit, paper string) Input {
	t.Helper()
	var problems source.List
	fsys := fstest.MapFS{"p.toml": {Data: []byte(gate)}}
	p := assembly.Solve(reading.Load(fsys, "p.toml", "", &problems), assembly.Options{Unit: unit, Variant: "standard"}, &problems)
	require.NotNil(t, p)
	require.False(t, problems.Failed())
	return Input{Plan: p, Cuts: buying.Boards(p), Paper: paper}
}

// sheetsCalled are the pages of a book with a title.
func sheetsCalled(in Input, title string) []render.Page {
	book, _ := Compose(in)
	var out []render.Page
	for _, p := range book.Pages {
		if p.Title == title {
			out = append(out, p)
		}
	}
	return out
}

// TestPairsAndOffcutsOnThePages: what the layouts did is told where the builder
// reads it, in both unit systems, and nothing stands in anything's way.
func TestPairsAndOffcutsOnThePages(t *testing.T) {
	for unit, paper := range map[expr.Unit]string{expr.Inch: "letter", expr.MM: "a4"} {
		in := gateInput(t, unit, paper)
		blanks, rests := 0, 0
		for _, b := range in.Cuts.Boards {
			blanks += len(b.Blanks)
			rests += len(b.Rests)
		}
		require.Equal(t, 4, blanks, "seven slats and a spare one")
		require.Positive(t, rests)
		said := map[string]string{}
		for _, title := range []string{"Board layouts", "Cut list", "Shopping list"} {
			for _, page := range sheetsCalled(in, title) {
				assert.Empty(t, inspect.Collisions(page.Items), "%s %s", unit, title)
				said[title] += strings.Join(strings.Fields(says(page)), " ") + " "
			}
		}
		assert.Contains(t, said["Board layouts"], "Parts in pairs lie head to tail.")
		assert.Contains(t, said["Board layouts"], ", for B")
		assert.Contains(t, said["Board layouts"], "taper")
		assert.Contains(t, said["Board layouts"], "spare")
		assert.Contains(t, said["Cut list"], "head to tail")
		assert.Contains(t, said["Cut list"], "7+1")
		assert.Contains(t, said["Cut list"], "offcut of")
		assert.Contains(t, said["Shopping list"], "spare pieces: 1 slat (A)")
		assert.Contains(t, said["Shopping list"], "2026-10-30")
	}
}

// TestPairIsDrawnByItsOutlines: each piece of a pair is drawn inside its blank,
// and the two, with the kerf between them, nowhere overlap.
func TestPairIsDrawnByItsOutlines(t *testing.T) {
	in := gateInput(t, expr.Inch, "letter")
	for n, b := range in.Cuts.Boards {
		w := &barWriter{d: &desk{plan: in.Plan, in: in}, n: n, b: b, k: 1}
		for i, blank := range b.Blanks {
			var shapes []render.Path
			for _, p := range b.Pieces {
				if p.Pair == i+1 {
					shapes = append(shapes, w.taperedPiece(p))
				}
			}
			require.Len(t, shapes, 2)
			box := geom.Box{Min: geom.Pt{X: blank.Along, Y: blank.Across}, Max: geom.Pt{X: blank.Along + blank.Length, Y: blank.Across + blank.Width}}
			c := b.Cuts[blank.Cut-1]
			line := geom.Line(geom.Pt{X: c.From, Y: c.At}, geom.Pt{X: c.To, Y: c.Stop})
			dir := line.B.Sub(line.A).Unit()
			sides := map[bool]bool{}
			for _, s := range shapes {
				for _, seg := range s.Segs {
					assert.True(t, box.Grow(0.05).Has(seg.A), "%v in %v", seg.A, box)
					above := dir.Cross(seg.A.Sub(line.A)) > in.Cuts.Rules.Kerf/2
					sides[above] = true
					d := dir.Cross(seg.A.Sub(line.A))
					assert.True(t, d < 0.05 || d > in.Cuts.Rules.Kerf-0.05, "%g in the kerf", d)
				}
			}
			assert.Len(t, sides, 2, "one on either side of the cut")
		}
	}
}

// TestOffcutsHaveOneNumberEach: what is left is numbered through the set, and
// what is kept of an offcut that is used has no number of its own.
func TestOffcutsHaveOneNumberEach(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		for _, name := range []string{"petrel-chair", "petrel-footstool", "petrel-side-table"} {
			plan := solved(t, name+"/plan.toml", assembly.Options{Unit: unit})
			c := buying.Boards(plan)
			names := offcutsOf(c)
			next := 1
			for i, b := range c.Boards {
				for _, n := range names.rests[i] {
					assert.Equal(t, next, n)
					next++
				}
				for j, o := range b.Offcuts {
					if !o.Keep || restOf(b, o) > 0 {
						assert.Zero(t, names.kept[i][j])
						continue
					}
					assert.Equal(t, next, names.kept[i][j])
					next++
				}
			}
		}
	}
}

// TestAlternativesAreCutInFull: the words for a lacking length name every piece
// of the stock, or say that nothing changes.
func TestAlternativesAreCutInFull(t *testing.T) {
	for _, in := range []Input{petrel(t, expr.Inch, "letter"), petrel(t, expr.MM, "a4")} {
		require.NotEmpty(t, in.Cuts.Alternatives)
		for _, a := range in.Cuts.Alternatives {
			words := recutWords(in.Cuts, a)
			pieces := 0
			for _, b := range a.Boards {
				pieces += len(b.Pieces)
			}
			want := 0
			for _, p := range in.Plan.Parts {
				if p.Stock.Key == a.Stock {
					want += p.Quantity
					if words != "Cut them as drawn." {
						assert.Contains(t, words, p.Code)
					}
				}
			}
			assert.Equal(t, want, pieces)
		}
	}
}

// TestBoxesOnTheShoppingList: screws are asked for by the box, bolts by the piece.
func TestBoxesOnTheShoppingList(t *testing.T) {
	assert.Equal(t, "4", boxWords(&model.Hardware{Buy: 4}))
	assert.Equal(t, "1 × 100", boxWords(&model.Hardware{Buy: 100, Box: 100}))
	assert.Equal(t, "3 × 50", boxWords(&model.Hardware{Buy: 150, Box: 50}))
}

// TestLongBoardsAreDrawnLargeEnough: a metric yard's 4.8 m fill more of the page
// than half, and no board runs over its edge.
func TestLongBoardsAreDrawnLargeEnough(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		in := gateInput(t, unit, "a4")
		for _, long := range []float64{600, 1830, 2440, 3000, 3810, 4800, 6000} {
			for i := range in.Cuts.Boards {
				in.Cuts.Boards[i].Length = long
			}
			wide := long / barScale(&desk{in: in, plan: in.Plan})
			assert.LessOrEqual(t, wide, bodyW+1e-9, "%v %v", unit, long)
			assert.Greater(t, wide, 0.55*bodyW, "%v %v", unit, long)
		}
	}
}
