package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A lot is pieces of one length, mm.
type lot struct{ length, count int }

// TestPublicCuttingFromAPlanFile: parts and stock, no assembly, no kerf and no
// trim make a plan file a one-dimensional cutting problem. Two public ones with
// their optima go in as TOML and come out of facts --json.
func TestPublicCuttingFromAPlanFile(t *testing.T) {
	for _, c := range []struct {
		name   string
		length int
		lots   []lot
		boards int
	}{
		// The rolls of a paper machine: the example of the encyclopedia article
		// "Cutting stock problem", 73 rolls. Seen there and solved again by two
		// solvers.
		{"paper rolls", 5600, []lot{{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18}, {1880, 18}, {1930, 20},
			{2000, 10}, {2050, 12}, {2100, 14}, {2140, 16}, {2150, 18}, {2200, 20}}, 73},
		// Boards of 17 ft for 25 pieces of 3 ft, 20 of 5 ft, 15 of 9 ft: a
		// textbook example of column generation (Winston, Operations Research;
		// from memory). 310 ft of pieces need 18.2 boards, so 19 is the least.
		{"17 ft boards", 17000, []lot{{9000, 15}, {5000, 20}, {3000, 25}}, 19},
	} {
		t.Run(c.name, func(t *testing.T) {
			var text strings.Builder
			fmt.Fprintf(&text, "unit = \"mm\"\n[plan]\ntitle = \"Lengths\"\n[shop]\nkerf = 0\nend_trim = 0\n"+
				"[stock.board]\nsection = [20, 100]\nlengths = [%d]\nprices = [1]\n", c.length)
			for i, l := range c.lots {
				fmt.Fprintf(&text, "[part.p%d]\nstock = \"board\"\nlength = %d\npieces = %d\n", i, l.length, l.count)
			}
			f := boardFacts(t, text.String())
			require.Len(t, f.Buying, 1)
			assert.Equal(t, buyFact{Stock: "board", Length: float64(c.length), Quantity: c.boards, Cost: float64(c.boards)}, f.Buying[0])
			assert.Equal(t, boundFact{Cost: float64(c.boards), Proved: true}, f.Bound)
			assert.Len(t, f.Boards, c.boards)
			assert.Empty(t, f.Placed)
			fills(t, f, c.lots)
		})
	}
}

// fills checks that the boards hold every piece once and none past its end.
func fills(t *testing.T, f factSheet, lots []lot) {
	t.Helper()
	cut := map[float64]int{}
	for _, b := range f.Boards {
		end := 0.0
		for _, p := range b.Pieces {
			assert.GreaterOrEqual(t, p.Along, end-1e-3, "pieces of a board follow each other")
			end = p.Along + p.Length
			cut[p.Length]++
		}
		assert.LessOrEqual(t, end, b.Length+1e-3)
	}
	for _, l := range lots {
		assert.Equal(t, l.count, cut[float64(l.length)], "pieces of %d", l.length)
	}
}

// boardFacts runs facts --json on a plan file.
func boardFacts(t *testing.T, text string) factSheet {
	t.Helper()
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("plan.toml", []byte(text), 0o666))
	var out, errw bytes.Buffer
	require.Zero(t, run([]string{"facts", "plan.toml", "--json"}, &out, &errw), errw.String())
	var f factSheet
	require.NoError(t, json.Unmarshal(out.Bytes(), &f))
	return f
}
