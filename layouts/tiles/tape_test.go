package tiles

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
	"planset/model/geom"
)

func TestTapingWords(t *testing.T) {
	look := testLook()
	for _, c := range []struct {
		tpl  Template
		want []string
	}{
		{quarter(), []string{"One sheet, no taping."}},
		{bow(), []string{"Trim the top edge of A1 and B1; lay each over the next, up to C1."}},
		{slat(), []string{
			"Not taped: lay the break lines of A1 and E1 on the board 32 1⁄2″ apart.",
		}},
		{arm(), []string{
			"Not taped: lay the break lines of A1 and C1 on the board 12″ apart, those of C1 and E1 8″.",
		}},
	} {
		assert.Equal(t, c.want, Lay(c.tpl, Letter()).taping(look), c.tpl.Name)
	}
}

func TestChecksSayTheAllowedError(t *testing.T) {
	look := testLook()
	assert.Equal(t, "T1 end to end: 38″, within 1⁄16″ (A1 to E1)", Lay(slat(), Letter()).Checks(look)[0])
	look.Unit = expr.MM
	assert.Equal(t, "T1 end to end: 965 mm, within 1.5 mm (A1 to E1)", Lay(slat(), Letter()).Checks(look)[0])
	assert.Empty(t, Lay(quarter(), Letter()).Checks(look), "one sheet needs no tape")
}

// What a check may be off by is said once above checks that agree on it, else with each.
func TestProofsSayTheAllowedErrorOnce(t *testing.T) {
	look := testLook()
	l := Lay(slat(), Letter())
	require.Greater(t, len(l.Controls), 1)
	got := l.proofs(look)
	assert.Equal(t, "Prove with a tape before cutting, each within 1⁄16″:", got[0])
	assert.Equal(t, "☐ T1 end to end: 38″ (A1 to E1)", got[1])
	assert.Len(t, got, 1+len(l.Controls))

	l.Controls = slices.Clone(l.Controls)
	l.Controls[1].Allow = inch / 8
	got = l.proofs(look)
	assert.Equal(t, "Prove with a tape before cutting:", got[0])
	assert.Equal(t, "☐ T1 end to end: 38″, within 1⁄16″ (A1 to E1)", got[1])
	assert.Contains(t, got[2], ", within 1⁄8″")

	l.Controls = l.Controls[:1]
	assert.Equal(t, "Prove with a tape before cutting, within 1⁄16″:", l.proofs(look)[0])
	assert.Empty(t, Lay(quarter(), Letter()).proofs(look), "one sheet needs no tape")
}

func TestRowsAreLettered(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, rowName(n))
	}
}

func TestNothingToLayOut(t *testing.T) {
	for _, tpl := range []Template{{Code: "A"}, sized(1e6, 100)} {
		l := Lay(tpl, Letter())
		assert.Empty(t, l.Tiles)
		run := Pages([]Layout{l, Lay(quarter(), Letter())}, testLook())
		assert.Len(t, run.Pages, 2, "the map and the other template")
	}
}

func TestClippedPiecesAddUp(t *testing.T) {
	// A line cut by a grid of windows without overlap keeps its length.
	o := append(slat().Outline, panel().Outline...)
	total, sum := 0.0, 0.0
	for _, s := range o {
		total += s.Length()
	}
	for x := -50.0; x < 1000; x += 97 {
		for y := -50.0; y < 400; y += 61 {
			for _, s := range clip(o, geom.Box{Min: pt(x+0.3, y+0.7), Max: pt(x+97.3, y+61.7)}) {
				sum += s.Length()
			}
		}
	}
	assert.InDelta(t, total, sum, 1e-6)
}

func TestLongFamilyGoesBesideItself(t *testing.T) {
	rows := [][]string{{"Slat", "Length"}}
	for range 40 {
		rows = append(rows, []string{"F1", "35 1⁄2"})
	}
	_, narrow := familyTable(pt(0, 0), rows, 40)
	items, wide := familyTable(pt(0, 0), rows, 190)
	assert.Less(t, wide, narrow/3)
	for _, it := range items {
		for _, p := range corners(it) {
			assert.LessOrEqual(t, p.X, 190.0)
		}
	}
	_, none := familyTable(pt(0, 0), nil, 190)
	assert.Zero(t, none)
}
