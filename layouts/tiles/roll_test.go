package tiles

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
	"planset/render/pdftest"
)

func TestRollTakesTheNarrowestWidth(t *testing.T) {
	for _, c := range []struct {
		name string
		tpl  Template
		w, h float64 // 0 is no roll
	}{
		{"across the roll", panel(), 609.6, 300 + 62},
		{"along the roll", sized(1041, 140), 609.6, 1041 + 62},
		{"turned to be short", sized(300, 520), 609.6, 300 + 62},
		{"too wide for 24 in", sized(1000, 580), 914, 1000 + 62},
		{"as wide as 24 in takes", sized(700, 569.6), 609.6, 700 + 62},
		{"a hair wider", sized(700, 569.61), 914, 569.61 + 62},
		{"too wide for any", sized(1000, 880), 0, 0},
		{"longer than a page may be", sized(5100, 600), 0, 0},
		{"nothing", Template{Code: "A"}, 0, 0},
	} {
		page, err := Roll(c.tpl, testLook())
		if c.w == 0 {
			assert.ErrorContains(t, err, "template", c.name)
			continue
		}
		require.NoError(t, err, c.name)
		assert.InDelta(t, c.w, page.Size.W, 1e-9, c.name)
		assert.InDelta(t, c.h, page.Size.H, 1e-6, c.name)
	}
	_, err := Roll(sized(1000, 880), testLook())
	assert.ErrorContains(t, err, "print its tiles")
}

// The whole outline is on the roll, inside the margins, and nothing lies over
// anything else's words.
func TestRollShowsTheWholeTemplate(t *testing.T) {
	for _, tpl := range []Template{slat(), arm(), quarter(), stringer(), panel(), bow(), notched(), disc()} {
		page, err := Roll(tpl, testLook())
		require.NoError(t, err)
		o := geom.Outline(segs(page, "outline"))
		assert.InDelta(t, tpl.Outline.Area(), o.Area(), 1e-3, "%s: turned, not mirrored, not scaled", tpl.Name)
		assert.InDelta(t, tpl.Outline.Length(), o.Length(), 1e-3, tpl.Name)
		paper := geom.Box{Max: pt(page.Size.W, page.Size.H)}.Grow(-4)
		items := unpack(page)
		for i, d := range items {
			for _, p := range corners(d.item) {
				assert.True(t, paper.Has(p), "%s: %s at %v", tpl.Name, d.group, p)
			}
			words, ok := d.item.(render.Text)
			for _, e := range items[i+1:] {
				if other, both := e.item.(render.Text); ok && both && e.id != d.id {
					assert.False(t, upright(letters(words)).Grow(-1e-6).Meets(upright(letters(other))), "%s: %q and %q", tpl.Name, words.Text, other.Text)
				}
			}
		}
	}
}

// PDFium finds the bars of a roll true, along and up.
func TestRollPrintsTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("paints a large page")
	}
	page, err := Roll(arm(), testLook())
	require.NoError(t, err)
	var buf bytes.Buffer
	book := render.Book{Title: "roll", Lang: "en-US", Date: "2026-03-01", Seed: "roll", Pages: []render.Page{page}}
	require.NoError(t, pdf.Write(&buf, &book))
	ink := pdftest.Open(t, buf.Bytes()).Ink(0, 200)
	bars := 0
	for _, s := range segs(page, "bar") {
		if s.Length() < 50 {
			continue
		}
		bars++
		assert.InDelta(t, rollBar, s.Length(), 1e-9)
		dir := s.Tangent(0)
		a, okA := ink.Across(s.A.Add(dir.Left().Mul(1.5)), dir, 0.5)
		b, okB := ink.Across(s.B.Add(dir.Left().Mul(1.5)), dir, 0.5)
		require.True(t, okA && okB)
		assert.InDelta(t, rollBar, rollBar+b.Off-a.Off, 0.03)
	}
	assert.Equal(t, 2, bars)
}
