package tiles

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

// mapsOf lays out templates and returns the map pages of the run.
func mapsOf(p Paper, all ...Template) ([]render.Page, Run) {
	var ls []Layout
	for _, tpl := range all {
		ls = append(ls, Lay(tpl, p))
	}
	run := Pages(ls, testLook())
	return run.Pages[:run.Maps], run
}

// sets are templates whose maps are looked at together and by themselves.
func sets() map[string][]Template {
	out := map[string][]Template{"typical": typical(), "all": samples()}
	for i, tpl := range samples() {
		out[fmt.Sprintf("%d %s", i, tpl.Name)] = []Template{tpl}
	}
	return out
}

// On a map page no words touch others or come near a line, and all are between
// the edges of the field and above the foot line. A label in a thumbnail may stand
// nearer to its lines.
func TestMapWordsAreClear(t *testing.T) {
	for name, all := range sets() {
		for _, p := range []Paper{Letter(), A4()} {
			pages, _ := mapsOf(p, all...)
			for n, page := range pages {
				left := (page.Size.W - field) / 2
				room := geom.Box{Min: pt(left, margin), Max: pt(left+field, page.Size.H-margin)}.Grow(0.7) // of a tall letter or half a line
				for _, c := range inspect.Page(page, inspect.Rules{Field: room, Blank: 1, Pen: 0.18, Letters: 1.8}) {
					if c.Fault == inspect.TextOnLine && len(c.Texts[0]) <= 3 && c.Gap > 0.4 {
						continue
					}
					t.Errorf("%s, %s, page %d: %v", name, p.Name, n, c)
				}
			}
		}
	}
}

// Every tile that is printed is named on the map of its template.
func TestMapsNameEveryTile(t *testing.T) {
	for name, all := range sets() {
		pages, run := mapsOf(Letter(), all...)
		named := map[string]int{}
		for _, page := range pages {
			for _, d := range unpack(page) {
				if words, ok := d.item.(render.Text); ok && strings.HasPrefix(d.group, "map ") {
					named[d.group+words.Text]++
				}
			}
		}
		for _, l := range run.Layouts {
			for _, tile := range l.Tiles {
				assert.Positive(t, named["map "+l.Code+tile.Label()], "%s: %s %s", name, l.Code, tile.Label())
			}
		}
	}
}

// A usual set of templates is mapped on one page, a large one on two.
func TestMapsTakeFewPages(t *testing.T) {
	for _, p := range []Paper{Letter(), A4()} {
		pages, _ := mapsOf(p, stringer(), arm(), slat(), quarter())
		assert.Len(t, pages, 1, p.Name)
		pages, _ = mapsOf(p, stringer(), bow(), arm(), slat(), quarter(), wedge())
		assert.Len(t, pages, 2, p.Name)
	}
}

// However blocks are set, they stand inside their columns, clear of each other,
// and down each column in order; no other division holds fewer.
func TestColumnsHoldWhatIsSetInThem(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	pool := samples()
	foot := margin + 7
	for range 40 {
		var all []block
		for i := range 1 + r.IntN(8) {
			l := Lay(pool[r.IntN(len(pool))], Letter())
			if l.Code = string(rune('A' + i)); len(l.Tiles) > 0 {
				all = append(all, block{l: l, look: testLook(), on: make([]int, len(l.Tiles))})
			}
		}
		top := pt(13, foot+60+r.Float64()*200)
		choices := divided(top, foot)
		set := fillPage(all, choices)
		single := fillPage(all, choices[:1])
		require.GreaterOrEqual(t, len(set), len(single))
		var boxes []geom.Box
		for i, p := range set {
			require.Equal(t, all[i].l.Code, p.l.Code, "the first ones, in order")
			low := p.in.at.Sub(pt(0, p.height(p.in.wide)))
			b := geom.Box{Min: low, Max: p.in.at.Add(pt(p.in.wide, 0))}
			require.GreaterOrEqual(t, b.Min.Y, foot-1e-6)
			require.LessOrEqual(t, b.Max.Y, top.Y+1e-6)
			for _, other := range boxes {
				require.False(t, b.Grow(-1e-3).Meets(other), "%v and %v", b, other)
				if other.Min.X == b.Min.X {
					require.GreaterOrEqual(t, other.Min.Y-b.Max.Y, under-1e-6, "below the one before it")
				}
			}
			boxes = append(boxes, b)
		}
		require.True(t, slices.IsSortedFunc(set, func(a, b placed) int { return cmp.Compare(a.l.Code, b.l.Code) }))
	}
}

// The pictures speak only of what the templates need.
func TestHintsFitTheTemplates(t *testing.T) {
	said := func(all ...Template) string {
		pages, _ := mapsOf(A4(), all...)
		var out []string
		for _, d := range unpack(pages[0]) {
			if words, ok := d.item.(render.Text); ok {
				out = append(out, words.Text)
			}
		}
		return strings.Join(out, " ")
	}
	for _, c := range []struct {
		all         []Template
		tape, apart bool
	}{
		{[]Template{quarter()}, false, false},
		{[]Template{slat()}, false, true},
		{[]Template{bow()}, true, false},
		{[]Template{bow(), slat()}, true, true},
	} {
		words := said(c.all...)
		assert.Equal(t, c.tape, strings.Contains(words, "How sheets go together"), c.all[0].Name)
		assert.Equal(t, c.tape, strings.Contains(words, "Paper taped together"), c.all[0].Name)
		assert.Equal(t, c.apart, strings.Contains(words, "How pieces go on the board"), c.all[0].Name)
	}
}
