package sheets

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/shop/shoptest"
	"planset/render"
)

// A plan may hold little: parts without an assembly, or nothing but a title.
func TestSmallPlansMakeABook(t *testing.T) {
	parts := shoptest.Chair(expr.Inch, shoptest.Standard())
	parts.Placed, parts.Joints, parts.Steps, parts.Hardware, parts.Stages = nil, nil, nil, nil, nil
	for _, in := range []Input{
		{Plan: &model.Plan{Title: "Nothing"}},
		{Plan: parts, Cuts: shoptest.Cuts(parts), Paper: "a4"},
		{Plan: parts, Paper: "letter"},
	} {
		book, problems := compose(in, textSheets())
		assert.Empty(t, problems)
		assert.Equal(t, in.Plan.Title, book.Pages[0].Title)
		assert.GreaterOrEqual(t, len(book.Pages), 3)
	}
}

// Long words of the maker's must wrap and not run into each other.
func TestLongTextsKeepClear(t *testing.T) {
	in := chair(expr.Inch, "letter")
	p := in.Plan
	p.Title = "An unusually long title for a chair with wings and a footrest"
	p.Intro = strings.Repeat("Every word of an introduction takes its room. ", 5)
	p.Skill = "comfortable with a saw, a drill, a router and with reading drawings"
	p.Brand.Contact = "a-rather-long-address@of-a-rather-long-domain.example"
	p.Notes = []string{strings.Repeat("The maker adds a remark. ", 12)}
	for _, part := range p.Parts {
		part.Name = "Left-over intermediate " + strings.ToLower(part.Name)
		part.Note = "mind the grain at the foot"
	}
	for _, h := range p.Hardware {
		h.Material = "stainless steel A4 (316) near the sea, else hot-dip galvanized"
	}
	book, _ := compose(in, textSheets())
	for _, page := range book.Pages {
		corner := geom.Pt{X: (page.Size.W - fieldW) / 2, Y: (page.Size.H - fieldH) / 2}
		field := geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: fieldW, Y: fieldH})}.Grow(0.36)
		assert.Empty(t, inspect.Outside(page.Items, field), "page %s", page.Name)
		assert.Empty(t, inspect.Collisions(page.Items), "page %s", page.Name)
	}
}

func TestIntroTooLongIsSaid(t *testing.T) {
	in := chair(expr.Inch, "letter")
	in.Plan.Intro = strings.Repeat("Every word of an introduction takes its room. ", 60)
	_, problems := compose(in, textSheets())
	require.NotEmpty(t, problems)
	assert.Contains(t, strings.Join(problems, "\n"), "too long for the cover")
}

func TestPieceWithoutBoardIsSaid(t *testing.T) {
	in := chair(expr.Inch, "letter")
	in.Plan.Parts[0].RoughLength = 9000
	in.Cuts = shoptest.Cuts(in.Plan)
	_, problems := compose(in, textSheets())
	assert.Contains(t, problems, "no board takes 2 of part A")
}

// The maker's colour is for the cover, the tabs and the page edge; all else
// must be gray, for a mono printer.
func TestAccentKeepsToItsPlaces(t *testing.T) {
	gray := func(tone render.Tone) bool { return tone.R == tone.G && tone.G == tone.B }
	var look func(page string, items []render.Item)
	look = func(page string, items []render.Item) {
		for _, item := range items {
			switch item := item.(type) {
			case render.Group:
				if item.Name != "edge" && !strings.HasPrefix(item.Name, "tab ") {
					look(page, item.Items)
				}
			case render.Fill:
				assert.True(t, gray(item.Tone), "page %s", page)
			case render.Stroke:
				assert.True(t, gray(item.Pen.Tone), "page %s", page)
			case render.Text:
				assert.True(t, gray(item.Tone), "page %s: %s", page, item.Text)
			}
		}
	}
	book, _ := compose(chair(expr.Inch, "letter"), textSheets())
	for _, p := range book.Pages[1:] {
		look(p.Name, p.Items)
	}
}

// Flags under a bar must cross neither another label nor another pole, and stay
// at their places: those near the paper's edge fly to the left.
func TestFlagsKeepClear(t *testing.T) {
	for _, xs := range [][]float64{{10, 12, 14, 16}, {170, 175, 178, 180}, {0, 60, 60, 60, 61}, {150, 155, 162, 166, 170, 183}, {5}, nil} {
		var f flags
		for _, x := range xs {
			f = append(f, pennant{x: x, width: 20})
		}
		rows := f.arrange(bodyW)
		assert.LessOrEqual(t, rows, len(f))
		for i, a := range f {
			assert.InDelta(t, xs[i], a.x, 3.7, "the pole stands where its piece is")
			from, to := a.x, a.x+a.width
			if a.left {
				from, to = a.x-a.width, a.x
			}
			assert.GreaterOrEqual(t, from, 0.0)
			assert.LessOrEqual(t, to, bodyW)
			for j, b := range f {
				if i != j && b.row >= a.row {
					assert.False(t, b.x >= from && b.x <= to, "label of %v meets the pole of %v", a, b)
				}
			}
		}
	}
}

func TestFractionsInWords(t *testing.T) {
	for in, want := range map[string]string{
		"1/16 in unless marked":  "1⁄16 in unless marked",
		"a 3/8 bolt, 35 1/2 in":  "a 3⁄8 bolt, 35 1⁄2 in",
		"5/4 x 6 decking":        "5/4 x 6 decking",
		"and/or 24/7 6/12/2026":  "and/or 24/7 6/12/2026",
		"2/4 112/16 1.3/4 1/2/4": "2/4 112/16 1.3/4 1/2/4",
		"13/32, 1/":              "13⁄32, 1/",
		"":                       "",
	} {
		assert.Equal(t, want, fractions(in))
	}
}

func TestMovedMovesEverything(t *testing.T) {
	box := geom.Box{Max: geom.Pt{X: 4, Y: 4}}
	items := []render.Item{
		render.Fill{Paths: []render.Path{render.Circle(geom.Pt{}, 2)}},
		render.Stroke{Paths: []render.Path{render.Rect(box)}, Pen: render.Thin},
		render.Group{Name: "g", Clip: box, Items: []render.Item{render.Link{Box: box, Page: 3}, render.Image{Box: box}, render.Text{Text: "x"}}},
	}
	v := geom.Pt{X: 10, Y: -5}
	there := Moved(items, v)
	assert.NotEqual(t, items, there)
	assert.Equal(t, items, Moved(there, v.Mul(-1)))
	assert.Equal(t, geom.Pt{X: 10, Y: -5}, there[2].(render.Group).Clip.Min)
	assert.Equal(t, v, there[2].(render.Group).Items[2].(render.Text).At)
}
