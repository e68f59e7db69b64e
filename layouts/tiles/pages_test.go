package tiles

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// A drawn thing with the innermost group it is in.
type drawn struct {
	group string
	id    int // of the group
	item  render.Item
}

// unpack lists the items of a page without their groups.
func unpack(page render.Page) []drawn {
	var out []drawn
	n := 0
	var walk func(group string, id int, items []render.Item)
	walk = func(group string, id int, items []render.Item) {
		for _, it := range items {
			if g, ok := it.(render.Group); ok {
				n++
				walk(g.Name, n, g.Items)
				continue
			}
			out = append(out, drawn{group, id, it})
		}
	}
	walk("", 0, page.Items)
	return out
}

// segs lists the lines of every stroke of a group.
func segs(page render.Page, group string) []geom.Seg {
	var out []geom.Seg
	for _, d := range unpack(page) {
		if s, ok := d.item.(render.Stroke); ok && d.group == group {
			for _, p := range s.Paths {
				out = append(out, p.Segs...)
			}
		}
	}
	return out
}

// letters is the four-cornered room of a text: from a little under its baseline
// to the top of its capitals.
func letters(t render.Text) [4]geom.Pt {
	w, h := fonts.Width(t.Face, t.Size, t.Text), fonts.CapHeight(t.Face, t.Size)
	x := 0.0
	switch t.Align {
	case render.Middle:
		x = -w / 2
	case render.Right:
		x = -w
	}
	low := -0.2 * h
	if strings.Trim(t.Text, "ABCDEFGHIKLMNOPRSTUVWXYZ0123456789") == "" {
		low = 0 // nothing hangs below the line
	}
	var out [4]geom.Pt
	for i, p := range []geom.Pt{pt(x, low), pt(x+w, low), pt(x+w, h), pt(x, h)} {
		out[i] = t.At.Add(p.Turn(t.Angle))
	}
	return out
}

// upright is the box round letters; texts here are level or square to that.
func upright(q [4]geom.Pt) geom.Box {
	b := geom.NoBox()
	for _, p := range q {
		b = b.With(p)
	}
	return b
}

// forTiles lays out and prints every sample and calls f for every tile, as
// printed, with its page.
func forTiles(t *testing.T, f func(t *testing.T, l Layout, tile Tile, page render.Page)) {
	each(t, func(t *testing.T, l Layout) {
		run := Pages([]Layout{l}, testLook())
		l = run.Layouts[0]
		for i, tile := range l.Tiles {
			f(t, l, tile, run.Pages[run.On[0][i]])
		}
	})
}

// place is where a tile's window lies on its page.
func (t Tile) place() geom.Box {
	return geom.Box{Min: t.At, Max: t.At.Add(t.Window.Max.Sub(t.Window.Min))}
}

func TestTemplateComesBackFromThePages(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		run := Pages([]Layout{l}, testLook())
		l = run.Layouts[0]
		var lines []geom.Seg
		for i, tile := range l.Tiles {
			back := tile.Window.Min.Sub(tile.At)
			page := run.Pages[run.On[0][i]]
			for _, s := range append(segs(page, "outline"), segs(page, "fold")...) {
				if !tile.place().Grow(1e-6).Has(s.Mid()) {
					continue // of another piece on the page
				}
				s.A, s.B, s.C = s.A.Add(back), s.B.Add(back), s.C.Add(back)
				lines = append(lines, s)
				for k := range 11 {
					p := s.At(float64(k) / 10)
					if nearest(l.Outline, p) > 1e-6 || !tile.Window.Grow(1e-6).Has(p) {
						t.Errorf("a line that is not the part's at %v", p)
					}
				}
			}
		}
		for _, s := range l.Outline {
			for k := range 101 {
				if p := s.At(float64(k) / 100); printed(l, p) && nearest(lines, p) > 1e-6 {
					t.Errorf("a piece of the outline is missing at %v", p)
				}
			}
		}
	})
}

func nearest(segs []geom.Seg, p geom.Pt) float64 {
	d := math.Inf(1)
	for _, s := range segs {
		d = math.Min(d, s.Distance(p))
	}
	return d
}

func TestRegistrationAgreesOnBothSheets(t *testing.T) {
	found := map[string][]geom.Pt{}
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		for _, d := range unpack(page) {
			key, ok := strings.CutPrefix(d.group, "registration ")
			s, stroke := d.item.(render.Stroke)
			if !ok || !stroke {
				continue
			}
			centre := s.Paths[0].Segs[0].C
			id := t.Name() + " " + key
			found[id] = append(found[id], centre.Sub(tile.At).Add(tile.Window.Min))
		}
	})
	require.Greater(t, len(found), 80)
	for id, at := range found {
		require.Len(t, at, 2, id)
		assert.InDelta(t, 0, at[0].Sub(at[1]).Len(), 1e-9, id)
	}
}

// What may lie under or over words: the tint of the strip they speak of.
func TestNothingLiesOverWords(t *testing.T) {
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		items := unpack(page)
		for i, d := range items {
			words, ok := d.item.(render.Text)
			if !ok {
				continue
			}
			own := upright(letters(words))
			for j, e := range items {
				if d.id == e.id {
					continue
				}
				switch other := e.item.(type) {
				case render.Text:
					if j > i {
						if own.Grow(-1e-6).Meets(upright(letters(other))) {
							t.Errorf("%q (%s) and %q (%s)", words.Text, d.group, other.Text, e.group)
						}
					}
				case render.Stroke:
					for _, p := range other.Paths {
						if len(clip(p.Segs, own)) > 0 {
							t.Errorf("%q (%s) and %s", words.Text, d.group, e.group)
						}
					}
				}
			}
		}
	})
}

func TestSmallestType(t *testing.T) {
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		big := 0
		for _, d := range unpack(page) {
			words, ok := d.item.(render.Text)
			if !ok {
				continue
			}
			// Figures in a set fraction are smaller than the note they are in.
			if !strings.ContainsAny(words.Text, "0123456789⁄") {
				assert.GreaterOrEqual(t, fonts.CapHeight(words.Face, words.Size), 1.8, words.Text)
			}
			if d.group == "tile label" {
				big++
				assert.GreaterOrEqual(t, fonts.CapHeight(words.Face, words.Size), 20.0)
				assert.Equal(t, render.Gray(0.15), words.Tone)
			}
		}
		assert.Equal(t, onPage(l, tile), big, "one large label for each piece")
	})
}

// onPage counts the tiles of l on the page of one of them. Tiles that share a
// page have smaller windows than a whole sheet.
func onPage(l Layout, tile Tile) int {
	live := l.Paper.Live()
	if math.Abs(tile.Window.W()-live.W) < 1e-6 && math.Abs(tile.Window.H()-live.H) < 1e-6 {
		return 1
	}
	n := 0
	for _, t := range Pages([]Layout{Lay(l.Template, l.Paper)}, testLook()).Layouts[0].Tiles {
		if math.Abs(t.Window.W()-live.W) > 1e-6 || math.Abs(t.Window.H()-live.H) > 1e-6 {
			n++
		}
	}
	return n
}

func TestEverythingIsInsideTheMargins(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		for _, page := range Pages([]Layout{l}, testLook()).Pages {
			paper := geom.Box{Max: pt(page.Size.W, page.Size.H)}.Grow(-9.99)
			for _, d := range unpack(page) {
				for _, p := range corners(d.item) {
					if !paper.Has(p) {
						t.Errorf("%s at %v", d.group, p)
					}
				}
			}
		}
	})
}

// corners lists points that bound an item.
func corners(item render.Item) []geom.Pt {
	var paths []render.Path
	switch it := item.(type) {
	case render.Text:
		q := letters(it)
		return q[:]
	case render.Stroke:
		paths = it.Paths
	case render.Fill:
		paths = it.Paths
	}
	var out []geom.Pt
	for _, p := range paths {
		for _, s := range p.Segs {
			b := s.Box()
			out = append(out, b.Min, b.Max)
		}
	}
	return out
}

func TestRulersAlongBothAxes(t *testing.T) {
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		var level, up []geom.Seg
		for _, s := range segs(page, "ruler") {
			if d := s.B.Sub(s.A); math.Abs(d.Y) < 1e-9 {
				level = append(level, s)
			} else if math.Abs(d.X) < 1e-9 {
				up = append(up, s)
			}
		}
		// The spine of one ruler and the ticks of the other; farthest ticks tell both lengths.
		assert.True(t, measures(level, up, pt(1, 0)), "along")
		assert.True(t, measures(up, level, pt(0, 1)), "up")
	})
}

// measures reports whether a spine among lines is 2 in long and has ticks at
// both its ends and at 50 mm.
func measures(lines, ticks []geom.Seg, dir geom.Pt) bool {
	for _, s := range lines {
		if math.Abs(s.Length()-50.8) > 1e-9 {
			continue
		}
		hit := map[string]bool{}
		for _, k := range ticks {
			from := math.Abs(k.A.Sub(s.A).Dot(dir))
			if s.Distance(k.A) > 1e-9 {
				continue
			}
			for _, want := range []float64{0, 50, 50.8} {
				hit[fmt.Sprint(want)] = hit[fmt.Sprint(want)] || math.Abs(from-want) < 1e-9
			}
		}
		if len(hit) == 3 && hit["0"] && hit["50"] && hit["50.8"] {
			return true
		}
	}
	return false
}

func TestTrimOnlyRightAndTopWhereJoined(t *testing.T) {
	forTiles(t, func(t *testing.T, l Layout, tile Tile, page render.Page) {
		want := 0
		for _, j := range l.Joints {
			if l.Tiles[j.On] == tile {
				want++
			}
		}
		got := 0
		for _, d := range unpack(page) {
			s, ok := d.item.(render.Stroke)
			if !ok || d.group != "trim" || s.Pen.Dash == nil {
				continue
			}
			got++
			win := geom.Box{Min: tile.At, Max: tile.At.Add(tile.Window.Max.Sub(tile.Window.Min))}
			for _, p := range s.Paths {
				for _, g := range p.Segs {
					m := g.Mid()
					assert.True(t, math.Abs(m.X-win.Max.X) < 1e-9 || math.Abs(m.Y-win.Max.Y) < 1e-9)
				}
			}
		}
		assert.Equal(t, want, got)
	})
}

func TestMapPages(t *testing.T) {
	var ls []Layout
	for _, tpl := range typical() {
		ls = append(ls, Lay(tpl, A4()))
	}
	run := Pages(ls, testLook())
	used := map[int]bool{}
	for i, l := range ls {
		require.Len(t, run.On[i], len(l.Tiles))
		assert.Equal(t, slices.Min(run.On[i]), run.Starts[i])
		for _, p := range run.On[i] {
			assert.GreaterOrEqual(t, p, run.Maps)
			used[p] = true
		}
	}
	require.Len(t, run.Pages, run.Maps+len(used), "every page is used")
	for i, page := range run.Pages {
		assert.Equal(t, fmt.Sprint(testLook().First+i), page.Name)
		assert.Equal(t, A4().Size, page.Size)
	}
	sides := segs(run.Pages[0], "calibration square")
	require.Len(t, sides, 8)
	for i, s := range sides {
		assert.InDelta(t, []float64{101.6, 100}[i/4], s.Length(), 1e-9)
	}
	crossed := 0
	for _, page := range run.Pages[:run.Maps] {
		for _, it := range page.Items {
			if g, ok := it.(render.Group); ok && strings.HasPrefix(g.Name, "map ") {
				for _, in := range g.Items {
					if d, ok := in.(render.Group); ok && strings.HasPrefix(d.Name, "dropped ") {
						crossed++
					}
				}
			}
		}
	}
	want := 0
	for _, l := range ls {
		want += len(l.Dropped)
	}
	assert.Equal(t, want, crossed)
	assert.Empty(t, Pages(nil, testLook()).Pages)
}

func TestSamePagesEveryTime(t *testing.T) {
	a := Pages([]Layout{Lay(arm(), Letter()), Lay(panel(), Letter())}, testLook())
	b := Pages([]Layout{Lay(arm(), Letter()), Lay(panel(), Letter())}, testLook())
	assert.Equal(t, a, b)
}

func BenchmarkPages(b *testing.B) {
	l := []Layout{Lay(stringer(), Letter()), Lay(arm(), Letter())}
	for b.Loop() {
		Pages(l, testLook())
	}
}
