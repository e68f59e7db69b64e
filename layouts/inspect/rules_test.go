package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// sheet is a page of 200 × 300 mm whose field keeps 10 mm from the paper's edge.
func sheet(items ...render.Item) render.Page {
	return render.Page{Title: "Sheet", Size: geom.Size{W: 200, H: 300}, Items: items}
}

func rules() inspect.Rules {
	field := geom.Box{Min: pt(10, 10), Max: pt(190, 290)}
	return inspect.Rules{Field: field, Body: field, Blank: 1.0 / 3, Pen: 0.18, Letters: 1.8, Notes: 2.5, Sizes: 3}
}

// capSize is the size at which capitals are mm high.
func capSize(mm float64) float64 { return mm / fonts.CapHeight(fonts.Sans, 1) }

// filled are lines of text from top to bottom, each as wide as the field, with
// room between them for what a test adds at 105, 150.
func filled() []render.Item {
	var items []render.Item
	st := lettering.Style{Face: fonts.Sans, Size: capSize(2.5)}
	for y := 20.0; y < 290; y += 50 {
		for x := 20.0; x < 180; x += 40 {
			items = append(items, lettering.Line(pt(x, y), "board", st, render.Left)...)
		}
	}
	return items
}

func broken(page render.Page) []inspect.Fault {
	var out []inspect.Fault
	for _, c := range inspect.Page(page, rules()) {
		out = append(out, c.Fault)
	}
	return out
}

func word(at geom.Pt, s string, mm float64) []render.Item {
	return lettering.Line(at, s, lettering.Style{Face: fonts.Sans, Size: capSize(mm)}, render.Left)
}

func group(name string, items ...render.Item) render.Item {
	return render.Group{Name: name, Items: items}
}

func level(x0, x1, y, wide float64) render.Item {
	return render.Stroke{Paths: []render.Path{render.Lines(pt(x0, y), pt(x1, y))}, Pen: render.Pen{Width: wide}}
}

// A page that keeps every rule has no fault, and each way to break one is found
// as that fault and no other.
func TestPageFindsWhatIsBroken(t *testing.T) {
	assert.Empty(t, broken(sheet(filled()...)))
	slash := level(85, 125, 145, 0.25)
	rise := render.Stroke{Paths: []render.Path{render.Lines(pt(90, 135), pt(110, 155))}, Pen: render.Thin}
	for name, page := range map[string]struct {
		items []render.Item
		want  inspect.Fault
	}{
		"one word over another":             {append(word(pt(105, 145), "oak", 3), word(pt(107, 146), "ash", 3)...), inspect.TextOnText},
		"a line through a word":             {append(word(pt(105, 144), "oak", 3), slash), inspect.TextOnLine},
		"a line half a millimeter under it": {append(word(pt(105, 145.63), "oak", 3), slash), inspect.TextOnLine},
		"leaders that cross":                {[]render.Item{group("leader", slash), group("leader", rise)}, inspect.LeaderCross},
		"a word that leaves the field":      {word(pt(185, 145), "maple", 3), inspect.OutsideField},
		"letters of 1.6 mm":                 {word(pt(105, 145), "oak", 1.6), inspect.SmallText},
		"a note of 2 mm in a drawing":       {[]render.Item{group("leader", group("text note", word(pt(105, 145), "oak", 2)...))}, inspect.SmallText},
		"a size to cut to of 2.5 mm":        {[]render.Item{group("dim", group("text", word(pt(105, 145), "35", 2.5)...))}, inspect.SmallText},
		"a line of 0.1 mm":                  {[]render.Item{level(85, 125, 145, 0.1)}, inspect.ThinLine},
	} {
		got := broken(sheet(append(filled(), page.items...)...))
		assert.NotEmpty(t, got, name)
		for _, f := range got {
			assert.Equal(t, page.want, f, name)
		}
	}
}

// Sizes, notes and fractions of the right heights pass.
func TestPageLetsTheRightHeightsPass(t *testing.T) {
	ok := []render.Item{
		group("dim", group("text", word(pt(105, 145), "35 1⁄2″", 3)...)),
		group("dim", group("text note", word(pt(25, 145), "35 1⁄2″", 2.5)...)),
		group("leader", group("text note", word(pt(65, 145), "oak", 2.5)...)),
	}
	assert.Empty(t, broken(sheet(append(filled(), ok...)...)))
}

// A page with its upper half empty is found, and so is one with an empty side; a
// frame does not count as filling what it surrounds.
func TestBlank(t *testing.T) {
	body := geom.Box{Max: pt(100, 200)}
	frame := render.Stroke{Paths: []render.Path{render.Rect(geom.Box{Min: pt(1, 1), Max: pt(99, 199)})}, Pen: render.Thin}
	low := render.Fill{Paths: []render.Path{render.Rect(geom.Box{Min: pt(0, 0), Max: pt(100, 80)})}, Tone: render.Edge}
	white := render.Fill{Paths: []render.Path{render.Rect(body)}, Tone: render.White}
	side := render.Fill{Paths: []render.Path{render.Rect(geom.Box{Min: pt(0, 0), Max: pt(45, 200)})}, Tone: render.Edge}
	assert.InDelta(t, 0.6, inspect.Blank([]render.Item{low}, body), 1e-9)
	assert.InDelta(t, 0.6, inspect.Blank([]render.Item{low, white}, body), 1e-9, "white on white is blank")
	assert.InDelta(t, 0.55, inspect.Blank([]render.Item{side}, body), 1e-9)
	assert.InDelta(t, 1, inspect.Blank(nil, body), 1e-9)
	assert.Greater(t, inspect.Blank([]render.Item{frame}, body), 0.97)
	clipped := render.Group{Clip: geom.Box{Max: pt(100, 20)}, Items: []render.Item{low}}
	assert.InDelta(t, 0.9, inspect.Blank([]render.Item{clipped}, body), 1e-9)
}
