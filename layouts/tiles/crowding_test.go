package tiles

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/layouts/tiles/desk"
	"planset/model/geom"
	"planset/render"
)

// A guide's name stands by its line, or a leader ties it to it.
func TestGuidesAreNamedCloseBy(t *testing.T) {
	seen := 0
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		lines, ties := segs(page, "guide"), segs(page, "leader")
		for _, d := range unpack(page) {
			words, ok := d.item.(render.Text)
			if !ok || d.group != "guide words" {
				continue
			}
			seen++
			own := upright(letters(words))
			near := math.Inf(1)
			for _, g := range lines {
				for i := range 101 {
					near = math.Min(near, apartFrom(own, g.At(float64(i)/100)))
				}
			}
			tied := false
			for _, g := range ties {
				tied = tied || apartFrom(own, g.B) < 1.5
			}
			assert.True(t, tied || near <= reach, "%q is %.1f mm from its line", words.Text, near)
		}
	})
	require.Positive(t, seen)
}

// apartFrom is how far p is from b.
func apartFrom(b geom.Box, p geom.Pt) float64 {
	return math.Hypot(math.Max(0, math.Max(b.Min.X-p.X, p.X-b.Max.X)), math.Max(0, math.Max(b.Min.Y-p.Y, p.Y-b.Max.Y)))
}

// Both lines of a break line's words stand together in the order they are read,
// on all sheets but the most crowded.
func TestBreakWordsReadDown(t *testing.T) {
	whole, torn := 0, 0
	for _, tpl := range []Template{stringer(), arm(), slat()} {
		for _, p := range []Paper{Letter(), A4()} {
			_, run := mapsOf(p, tpl)
			for _, page := range run.Pages[run.Maps:] {
				w, n := breakWordsOf(page)
				whole, torn = whole+w, torn+n
			}
		}
	}
	assert.Positive(t, whole)
	assert.Zero(t, torn)
}

// breakWordsOf counts on a page the words of break lines in one block, the first line above
// the second, and those that are not.
func breakWordsOf(page render.Page) (whole, torn int) {
	var walk func([]render.Item)
	walk = func(items []render.Item) {
		for _, item := range items {
			g, ok := item.(render.Group)
			if !ok {
				continue
			}
			walk(g.Items)
			if g.Name != "datum line words" {
				continue
			}
			b := inspect.Bounds(g.Items)
			if math.Min(b.W(), b.H()) > lettering.Pitch(boldNote) {
				whole++
			} else {
				torn++
			}
		}
	}
	walk(page.Items)
	return whole, torn
}

// A page that misses words is worse than any on which they are torn.
func TestLessCrowded(t *testing.T) {
	assert.True(t, crowding{lost: 0, torn: 9}.less(crowding{lost: 1}))
	assert.True(t, crowding{lost: 1, torn: 1}.less(crowding{lost: 1, torn: 2}))
	assert.False(t, crowding{torn: 2}.less(crowding{torn: 2}))
}

// Notes in one line keep apart where that costs little, and no more than a
// little where it would cost much.
func TestNotesKeepApartAlongTheLine(t *testing.T) {
	l := Lay(quarter(), Letter())
	place := func(room geom.Box) (geom.Box, geom.Box) {
		s := &sheet{canvas: &canvas{}, l: l, tile: l.Tiles[0], look: testLook()}
		s.desk = desk.New(s.window())
		near := geom.Pt{X: room.Min.X, Y: (room.Min.Y + room.Max.Y) / 2}
		a, ok := s.put("a", note{words: "first words", style: noteType, near: near, within: room})
		require.True(t, ok)
		b, ok := s.put("b", note{words: "other words", style: noteType, near: near, within: room})
		require.True(t, ok)
		return a, b
	}
	w := l.Tiles[0].place()
	row := geom.Box{Min: w.Min, Max: geom.Pt{X: w.Max.X, Y: w.Min.Y + 7}} // a single line of words is as high
	a, b := place(row)
	gap := math.Max(a.Min.X, b.Min.X) - math.Min(a.Max.X, b.Max.X)
	assert.GreaterOrEqual(t, gap, aside)
	short := row
	short.Max.X = row.Min.X + a.W() + b.W() + 9
	_, _ = place(short) // fits although there is no room to keep apart
}
