package sheets

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/marks"
	"planset/render"
)

// Two things of one kind are said in one.
func TestBothAreSaidInOne(t *testing.T) {
	for _, c := range [][3]string{
		{"upper bolt hole, across", "lower bolt hole, across", "upper and lower bolt hole, across"},
		{"left cut, its angle", "right cut, its angle", "left and right cut, their angle"},
		{"foot cut", "foot cut, its angle", "foot cut and its angle"},
		{"length", "width", "length and width"},
		{"place of the batten, along", "place of the batten, out of line", "place of the batten, along and out of line"},
	} {
		assert.Equal(t, c[2], both(c[0], c[1]))
	}
}

// eachNoted runs the four books with the critical marks written on the parts, as
// the program does before it makes sheets.
func eachNoted(t *testing.T, each func(t *testing.T, in Input, b *partPage)) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		marks.Note(in.Plan)
		for _, set := range families(in.Plan) {
			each(t, in, faceOf(in, set))
		}
	})
}

// No consequence is told twice, and every mark keeps its number.
func TestConsequencesAreToldOnce(t *testing.T) {
	most := 0
	eachNoted(t, func(t *testing.T, _ Input, b *partPage) {
		effects, numbers := map[string]bool{}, 0
		for _, c := range b.consequences() {
			assert.False(t, effects[c.effect], c.effect)
			effects[c.effect] = true
			numbers += len(c.numbers)
			most = max(most, len(c.numbers))
			assert.True(t, strings.HasSuffix(c.text, "."), c.text)
		}
		assert.Len(t, b.p.Critical, numbers)
	})
	assert.Equal(t, 2, most, "some are joined")
}

// The numbers in the boxes of a part's drawing are numbers that its lines tell
// of, and the mark of a hole boxes the size in the direction that matters only.
func TestBoxedSizesAreExplained(t *testing.T) {
	boxed := 0
	eachNoted(t, func(t *testing.T, _ Input, b *partPage) {
		told := map[int]string{}
		for _, m := range b.marks() {
			told[m.numbers[0]] = m.what
		}
		for _, w := range b.wishes() {
			r, ok := w.(dims.Run)
			if !ok {
				continue
			}
			for _, s := range r.Stops {
				if s.Key == 0 {
					continue
				}
				boxed++
				what, ok := told[s.Key]
				require.True(t, ok, "part %s, %d", b.p.Code, s.Key)
				if strings.Contains(what, "bolt hole") {
					way, _, _ := strings.Cut(s.Name, " ")
					assert.True(t, strings.HasSuffix(what, way), "%q boxes %q", what, s.Name)
				}
			}
		}
		for _, g := range b.miters() {
			if g.Key != 0 {
				boxed++
				assert.Contains(t, told, g.Key)
			}
		}
	})
	assert.GreaterOrEqual(t, boxed, 12)
}

// A paragraph that is evened has as many lines as before and ends in no stray
// word.
func TestEvenedParagraphs(t *testing.T) {
	const text = "Upper bolt hole, across: each 1⁄16″ off on one side alone lets it rock by 1⁄32″, unless part A is drilled through it."
	strays := 0
	for width := 40.0; width < 190; width += 3.5 {
		before := lettering.Wrap(text, width, strong)
		w := evened(text, width, strong)
		after := lettering.Wrap(text, w, strong)
		assert.Len(t, after, len(before), "%g mm", width)
		assert.LessOrEqual(t, w, width)
		last := func(lines []string) float64 { return lettering.Width(lines[len(lines)-1], strong) }
		assert.GreaterOrEqual(t, last(after), min(last(before), 0.35*width)-1e-9)
		if len(before) > 1 && !strings.Contains(before[len(before)-1], " ") {
			strays++
			assert.Contains(t, after[len(after)-1], " ", "%g mm: %q", width, after)
		}
	}
	assert.Positive(t, strays, "some width leaves a word alone")
}

// A note of the author's ends like a sentence.
func TestAuthorsNoteIsASentence(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	_, set := partNamed(t, in.Plan, "arm")
	require.Equal(t, "Bark side up", set[0].Note)
	know := faceOf(in, set).knowing()
	assert.True(t, strings.HasSuffix(know[0].text, " Bark side up."), know[0].text)
}

// The little pictures of the two hands of a plain board are mirror images of
// each other that cannot be laid on each other by turning.
func TestThumbnailsTellHandsApart(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	p, _ := partNamed(t, in.Plan, "leg")
	dots := func(mirror bool) []geom.Pt {
		var out []geom.Pt
		items := thumbnail(p, facing(p).shown(), thumb{k: 0.03, mirror: mirror})
		for _, q := range items[len(items)-1].(render.Fill).Paths {
			b := inspect.Bounds([]render.Item{render.Fill{Paths: []render.Path{q}}})
			out = append(out, b.Min.Add(b.Max).Mul(0.5))
		}
		return out
	}
	right, left := dots(false), dots(true)
	require.Len(t, right, len(thumbHoles(p)))
	wide, high := p.Length*0.03, p.Width*0.03
	turned := 0.0
	for i := range right {
		assert.InDelta(t, right[i].X, left[i].X, 1e-9)
		assert.InDelta(t, high-right[i].Y, left[i].Y, 1e-9, "across is mirrored")
		near := math.Inf(1) // from the right one turned half round to the left one
		for _, q := range left {
			near = math.Min(near, pt(wide-right[i].X, high-right[i].Y).Sub(q).Len())
		}
		turned = math.Max(turned, near)
	}
	assert.Greater(t, turned, 1.0, "turning one round does not make it the other")
}

// Parts are drawn lower only where that saves a page, and every page fits.
func TestPartPagesAreFewAndFit(t *testing.T) {
	eachBook(t, func(t *testing.T, name string, in Input) {
		d := newDesk(in, nil)
		sets := families(in.Plan)
		blocks, pages := d.partPages(sets)
		usual := d.partBlocks(sets, false)
		asUsual := packed(usual, fieldH-headH-footH, partGap)
		assert.LessOrEqual(t, len(pages), len(asUsual))
		lower, seen := 0, map[int]bool{}
		for _, page := range pages {
			sum := -partGap
			for _, i := range page {
				assert.False(t, seen[i])
				seen[i] = true
				sum += blocks[i].height + partGap
				if blocks[i].height < usual[i].height {
					lower++
				}
			}
			assert.LessOrEqual(t, sum, fieldH-headH-footH+1e-9)
			assert.LessOrEqual(t, len(page), 3)
		}
		assert.Len(t, seen, len(sets))
		assert.Equal(t, len(pages) < len(asUsual), lower > 0, "%d pages, %d as usual", len(pages), len(asUsual))
	})
}

// Whatever is holed is drawn no smaller than one to eight, and no view is shorter
// than 40 mm.
func TestViewsAreLargeEnough(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, set := range families(in.Plan) {
			for _, low := range []bool{false, true} {
				b := newDesk(in, nil).partPage(set)
				b.low = low
				if !low || !b.besideFace() {
					b.face()
				}
				p := b.p
				assert.GreaterOrEqual(t, max(b.view.width(), p.Width*b.view.k), leastView, "part %s", p.Code)
				if len(p.Holes)+len(p.Pockets) > 0 {
					assert.GreaterOrEqual(t, b.view.k, 1.0/8, "part %s", p.Code)
				}
				if b.endTells() {
					assert.GreaterOrEqual(t, max(p.Width, p.Thick)*b.profileScale(), leastView, "part %s, end view", p.Code)
				}
			}
		}
	})
}

// A size that differs within a family has one letter, in the table and the
// drawing, and every letter of the table is in the drawing.
func TestLettersOfAFamily(t *testing.T) {
	families2 := 0
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, set := range families(in.Plan) {
			b := faceOf(in, set)
			if len(set) < 2 {
				continue
			}
			families2++
			for i, c := range b.view.letters {
				for _, o := range b.view.letters[:i] {
					assert.False(t, o.kind() == c.kind() && strings.Join(o.values, "|") == strings.Join(c.values, "|"), "%s and %s", o.letter, c.letter)
				}
				found := false
				for _, w := range b.wishes() {
					found = found || strings.Contains(" "+wordsOf(w)+" ", " "+c.letter+" ")
				}
				assert.True(t, found, "letter %s", c.letter)
			}
		}
	})
	assert.Equal(t, 4, families2)
}

// wordsOf is the words of a dimension.
func wordsOf(w dims.Wish) string {
	switch w := w.(type) {
	case dims.Run:
		var all []string
		for _, s := range w.Stops {
			all = append(all, s.Text)
		}
		return strings.Join(all, " ")
	case dims.Span:
		return w.Text
	case dims.Callout:
		return strings.Join(w.Text, " ")
	case dims.Shifted:
		return wordsOf(w.Wish)
	}
	return ""
}

// Drawings with their little views are clean on every page, standing and lying
// low, with the marks boxed.
func TestWholePartBlocksAreClean(t *testing.T) {
	eachNoted(t, func(t *testing.T, in Input, b *partPage) {
		for _, low := range []bool{false, true} {
			d := newDesk(in, nil)
			block := under(d.partHeading(b.set), d.partBody(b.set, low))
			assert.Empty(t, d.problems, "part %s", b.p.Code)
			if low && math.IsInf(block.height, 1) {
				continue // it does not go lower
			}
			assert.Empty(t, inspect.Collisions(block.items), "part %s, low %v", b.p.Code, low)
			box := inspect.Bounds(block.items)
			assert.LessOrEqual(t, box.Max.X, bodyW+0.5)
			assert.GreaterOrEqual(t, box.Min.X, -0.5)
		}
	})
}

// A part whose halves mirror each other shows where its middle is, unless a hole
// does; no other part does.
func TestMiddleOfSymmetricParts(t *testing.T) {
	want := map[string]string{"chair": "back_rail batten front_slat seat_slat", "side-table": "front_apron side_apron slat"}
	for piece, keys := range want {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			var got []string
			for _, set := range families(drawnPiece(t, piece, "", unit).Plan) {
				if along, ok := facing(set[0]).middle(); ok {
					got = append(got, set[0].Key)
					assert.InDelta(t, set[0].Length/2, along, 1e-9)
				}
			}
			assert.ElementsMatch(t, strings.Fields(keys), got, "%s, %v", piece, unit)
		}
	}
}
