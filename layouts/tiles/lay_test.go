package tiles

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/expr"
	"planset/model/geom"
)

// random makes a four-cornered board with rounded corners, slanted ends, perhaps
// a taper, and holes.
func random(r *rand.Rand) Template {
	l, w := 60+r.Float64()*1300, 40+r.Float64()*360
	in := func(most float64) float64 {
		if r.IntN(2) == 0 {
			return 0
		}
		return r.Float64() * most
	}
	corner := func(x, y float64) rounded { return rounded{pt(x, y), in(15)} }
	o := loop(corner(in(l/5), 0), corner(l-in(l/5), in(w/6)), corner(l-in(l/5), w-in(w/6)), corner(0, w))
	t := Template{Code: "R", Name: "Random", Note: "cut 1", Outline: o, Blank: geom.Size{W: l, H: w}}
	for range r.IntN(4) {
		at := pt(l*(0.25+0.5*r.Float64()), w*(0.3+0.4*r.Float64()))
		t.Holes = append(t.Holes, Hole{At: at, Diam: 2 + r.Float64()*10, Note: "3⁄8 through", Matched: r.IntN(2) == 0})
	}
	return t
}

// samples are the typical templates and a number of random ones.
func samples() []Template {
	r := rand.New(rand.NewPCG(1, 2))
	all := typical()
	for range 10 {
		all = append(all, random(r))
	}
	top := Template{Code: "Q", Name: "Table top", Outline: geom.Circle(pt(300, 300), 300), Blank: geom.Size{W: 600, H: 600}}
	for i := range 24 {
		a := float64(i) * math.Pi / 12
		top.Holes = append(top.Holes, Hole{At: pt(300+260*math.Cos(a), 300+260*math.Sin(a)), Diam: 4, Note: "pilot 5⁄32"})
	}
	return append(all, top, sized(40, 36), sized(2900, 34), bow(), notched(), disc(), wedge())
}

// each lays out the typical templates and a number of random ones on both papers.
func each(t *testing.T, f func(t *testing.T, l Layout)) {
	t.Helper()
	for i, tpl := range samples() {
		for _, p := range []Paper{Letter(), A4()} {
			t.Run(fmt.Sprintf("%d %s %s", i, tpl.Name, p.Name), func(t *testing.T) { f(t, Lay(tpl, p)) })
		}
	}
}

func TestEveryShapedPointIsPrinted(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		for _, s := range l.Outline {
			for i := range 201 {
				p := s.At(float64(i) / 200)
				if printed(l, p) {
					continue
				}
				require.Equal(t, geom.Straight, s.Turn, "an arc is missing at %v", p)
				require.True(t, within(l.Dropped, p), "no window at all at %v", p)
			}
		}
		for _, h := range l.Holes {
			require.True(t, h.Matched || printed(l, h.At), "hole at %v", h.At)
		}
	})
}

func printed(l Layout, p geom.Pt) bool { return within(l.Tiles, p) }

func within(tiles []Tile, p geom.Pt) bool {
	for _, t := range tiles {
		if t.Window.Grow(1e-9).Has(p) {
			return true
		}
	}
	return false
}

// What is dropped can be drawn with a straightedge: lines from side to side, near
// enough along the part. Outside the stretches left out they are parallel too.
func TestDroppedTilesHoldOnlyStraightLines(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		for _, d := range l.Dropped {
			var dirs []geom.Pt
			for _, s := range l.Outline {
				// Sampled, so as not to lean on the clipping under test.
				for i := range 160 {
					if d.Window.Grow(-1e-6).Has(s.At((float64(i) + 0.5) / 400)) {
						require.Equal(t, geom.Straight, s.Turn)
						dirs = append(dirs, s.B.Sub(s.A).Unit())
						break
					}
				}
			}
			inner := d.Window.Grow(-Overlap - 1e-6)
			for _, v := range dirs {
				assert.InDelta(t, 0, v.Cross(dirs[0]), 2*slant, "tile %s", d.Label())
				if math.Abs(v.Cross(dirs[0])) > 1e-6 {
					for _, s := range l.Outline {
						assert.False(t, inner.Has(s.A), "tile %s drops a corner", d.Label())
					}
				}
			}
			for _, h := range l.Holes {
				assert.False(t, !h.Matched && d.Window.Has(h.At), "tile %s drops a hole", d.Label())
			}
		}
	})
}

func TestWindowsOverlapAndFit(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		live := l.Paper.Live()
		byPlace := map[[2]int]Tile{}
		labels := map[string]bool{}
		for i, tile := range append(append([]Tile(nil), l.Tiles...), l.Dropped...) {
			require.False(t, labels[tile.Label()], "label %s twice", tile.Label())
			labels[tile.Label()] = true
			byPlace[[2]int{tile.Row, tile.Col}] = tile
			assert.LessOrEqual(t, tile.Window.W(), live.W+1e-9)
			assert.LessOrEqual(t, tile.Window.H(), live.H+1e-9)
			if i < len(l.Tiles) {
				assert.InDelta(t, live.W, tile.Window.W(), 1e-9)
				assert.InDelta(t, live.H, tile.Window.H(), 1e-9)
			}
		}
		assert.Len(t, byPlace, l.Rows*l.Cols)
		for at, tile := range byPlace {
			if right, ok := byPlace[[2]int{at[0], at[1] + 1}]; ok {
				assert.InDelta(t, Overlap, tile.Window.Max.X-right.Window.Min.X, 1e-9)
			}
			if above, ok := byPlace[[2]int{at[0] + 1, at[1]}]; ok {
				assert.InDelta(t, Overlap, tile.Window.Max.Y-above.Window.Min.Y, 1e-9)
			}
		}
	})
}

func TestMarksOfAJoint(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		keys := map[string]bool{}
		for _, j := range l.Joints {
			require.GreaterOrEqual(t, len(j.Marks), 2)
			assert.GreaterOrEqual(t, j.Marks[0].At.Sub(j.Marks[1].At).Len(), apart-1e-9)
			seam := l.Seam(j)
			for _, m := range j.Marks {
				assert.False(t, keys[m.Key], "key %s twice", m.Key)
				keys[m.Key] = true
				assert.True(t, seam.Grow(-hairs).Has(m.At), "mark %s runs out of its seam", m.Key)
			}
		}
		// Every pair of printed neighbours is joined.
		n := 0
		for i, a := range l.Tiles {
			for _, b := range l.Tiles[i+1:] {
				if adjacent(a, b) {
					n++
				}
			}
		}
		assert.Len(t, l.Joints, n)
	})
}

func TestMarksKeepClearOfTheOutlineOfAPlainStrip(t *testing.T) {
	l := Lay(bow(), Letter())
	require.NotEmpty(t, l.Joints)
	for _, j := range l.Joints {
		for _, m := range j.Marks {
			for _, s := range l.Outline {
				assert.Greater(t, s.Distance(m.At), hairs)
			}
		}
	}
}

// The count of sheets is never above that of a plain grid, by the usual formula
// n = ceil((L - overlap) / (live - overlap)) each way, the better way round.
func TestNeverMoreSheetsThanAPlainGrid(t *testing.T) {
	grid := func(s geom.Size) int {
		n := 0
		for _, p := range []Paper{Letter(), A4()} {
			live := p.Live()
			n += max(1, int(math.Ceil((s.W-Overlap)/(live.W-Overlap)-1e-9))) *
				max(1, int(math.Ceil((s.H-Overlap)/(live.H-Overlap)-1e-9)))
		}
		return n
	}
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		tpl := random(r)
		b := tpl.Outline.Box()
		n := len(Lay(tpl, Letter()).Tiles) + len(Lay(tpl, A4()).Tiles)
		most := min(grid(geom.Size{W: b.W(), H: b.H()}), grid(geom.Size{W: b.H(), H: b.W()}))
		assert.LessOrEqual(t, n, most)
	}
}

func TestSheetCounts(t *testing.T) {
	live := Letter().Live()
	for _, c := range []struct {
		name string
		tpl  Template
		want int
	}{
		{"as large as the window", sized(live.W, live.H), 1},
		{"lying", sized(live.H, live.W), 1},
		{"a hair wider", sized(live.W+0.01, live.W), 1},                 // turned it fits
		{"a hair larger both ways", sized(live.W+0.01, live.H+0.01), 2}, // turned, it does one way
		{"a hair larger than either", sized(live.H+0.01, live.H+0.01), 4},
		{"quarter round", quarter(), 1},
		{"stringer, plain in the middle", stringer(), 2},
		{"arm: the front, then the tapered part", arm(), 3},
		{"slat: a straight taper between two ends", slat(), 2},
		{"crest rail: curved all along", bow(), 3},
		{"bracket with inner corners", notched(), 4},
		{"round top: half of it", disc(), 3},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Len(t, Lay(c.tpl, Letter()).Tiles, c.want) })
	}
}

func TestOneFrameForBothPapers(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 30 {
		tpl := random(r)
		a, b := Lay(tpl, Letter()), Lay(tpl, A4())
		require.False(t, a.Half)
		assert.Equal(t, a.Turned, b.Turned)
		assert.Equal(t, a.Outline, b.Outline)
		assert.Equal(t, a.Holes, b.Holes)
		assert.InDelta(t, tpl.Outline.Area(), a.Outline.Area(), 1e-6, "turned, not mirrored")
		for i, s := range a.Outline {
			assert.InDelta(t, 0, a.part(s.A).Sub(tpl.Outline[i].A).Len(), 1e-9)
		}
	}
}

func TestDatumLinesStandOnRoundDistances(t *testing.T) {
	n := 0
	each(t, func(t *testing.T, l Layout) {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			look := Look{Unit: unit}
			for _, b := range l.Breaks {
				n++
				step := 12.7
				if unit == expr.MM {
					step = 5
				}
				before, after := l.Lines(b, look)
				require.Greater(t, after-before, least)
				for _, d := range []float64{before, after} {
					k := l.measured(d, b.Upright) / step
					assert.InDelta(t, math.Round(k), k, 1e-9)
					seen := 0
					for _, tile := range l.Tiles {
						if _, ok := l.crossing(d, b.Upright, tile.Window); ok {
							seen++
						}
					}
					assert.Positive(t, seen, "a datum line is on no sheet")
				}
			}
		}
	})
	assert.Greater(t, n, 10, "the samples have breaks")
}

func TestTapeChecks(t *testing.T) {
	each(t, func(t *testing.T, l Layout) {
		if len(l.Tiles) < 2 {
			return
		}
		require.NotEmpty(t, l.Controls)
		for _, c := range l.Controls {
			assert.Positive(t, c.length())
			for _, p := range []geom.Pt{c.A, c.B} {
				assert.True(t, printed(l, p), "%s: %v is on no sheet", c.Name, p)
				near := math.Inf(1)
				for _, s := range l.Outline {
					near = math.Min(near, s.Distance(p))
				}
				for _, h := range l.Holes {
					near = math.Min(near, h.At.Sub(p).Len())
				}
				assert.Less(t, near, 1e-6, "%s: %v is off the part", c.Name, p)
			}
		}
	})
	// Both ends of the arm are square: the tape reads its length.
	assert.InDelta(t, 28*inch, Lay(arm(), Letter()).Controls[0].length(), 1e-9)
	assert.InDelta(t, 38*inch, Lay(slat(), A4()).Controls[0].length(), 1e-9)
}

// Covering spans by windows: compared with trying every place.
func TestCoverIsAsSmallAsCanBe(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		a := axis{w: 100}
		pos := 0.0
		for range 1 + r.IntN(5) {
			lo := pos + float64(r.IntN(200))
			hi := lo + float64(1+r.IntN(150))
			a.needs = append(a.needs, span{lo, hi})
			pos = hi + 1
		}
		cells := a.cover()
		n := 0
		for i, c := range cells {
			if !c.skip {
				n++
			}
			if i > 0 {
				assert.InDelta(t, Overlap, cells[i-1].hi-c.lo, 1e-9)
			}
		}
		for _, s := range a.needs {
			for x := s.lo; x <= s.hi; x++ {
				if !shownBy(cells, x) {
					t.Errorf("%v is not covered by %v", x, cells)
				}
			}
		}
		assert.LessOrEqual(t, n, fewest(a), "needs %v cells %v", a.needs, cells)
	}
}

func shownBy(cells []cell, x float64) bool {
	for _, c := range cells {
		if !c.skip && x >= c.lo-1e-9 && x <= c.hi+1e-9 {
			return true
		}
	}
	return false
}

// fewest counts the windows needed by going through every whole place for
// every window, where each window overlaps the last or leaves the least stretch
// out. The needs are whole, so the best places are.
func fewest(a axis) int {
	first, last := int(a.needs[0].lo), int(a.needs[len(a.needs)-1].hi)
	w := int(a.w)
	free := make([]bool, last+1) // no need at or between x and x+1
	for x := range free {
		free[x] = true
		for _, s := range a.needs {
			free[x] = free[x] && (float64(x+1) <= s.lo || float64(x) >= s.hi)
		}
	}
	const never = math.MaxInt / 2
	count := make([]int, last+1) // windows so far, the last one starting at x
	for x := first; x <= last; x++ {
		count[x] = never
		if x == first {
			count[x] = 1
		}
		if before := x - w + Overlap; before >= first {
			count[x] = min(count[x], 1+count[before])
		}
		// Back over a stretch without needs to the end of an earlier window.
		for end := x; end-w >= first && (end == x || free[end]); end-- {
			if x-end >= least {
				count[x] = min(count[x], 1+count[end-w])
			}
		}
	}
	best := never
	for x := max(first, last-w); x <= last; x++ {
		best = min(best, count[x])
	}
	return best
}

func BenchmarkLay(b *testing.B) {
	for b.Loop() {
		Lay(stringer(), Letter())
	}
}

// No way of packing goes below the area; packing never takes more than one sheet
// a tile, and laying out never more than a plain grid, both papers together.
func TestSheetsAgainstGridAndArea(t *testing.T) {
	for i, tpl := range samples() {
		sheets, grid := 0, 0
		for _, p := range []Paper{Letter(), A4()} {
			ls := []Layout{Lay(tpl, p)}
			run := Pages(ls, testLook())
			n := len(run.Pages) - run.Maps
			assert.LessOrEqual(t, Least(run.Layouts), n, "%d %s", i, tpl.Name)
			assert.LessOrEqual(t, n, len(ls[0].Tiles), "%d %s", i, tpl.Name)
			sheets, grid = sheets+n, grid+Grid(tpl, p)
		}
		assert.LessOrEqual(t, sheets, grid, "%d %s", i, tpl.Name)
	}
	live := Letter().Live()
	assert.Equal(t, 1, Least([]Layout{Lay(sized(live.W, live.H), Letter())}))
	assert.Zero(t, Least(nil))
}

func TestHalfTemplates(t *testing.T) {
	l := Lay(disc(), Letter())
	require.True(t, l.Half)
	require.NotEqual(t, geom.Seg{}, l.Fold)
	// Two halves make the whole.
	assert.InDelta(t, math.Pi*205*205, 2*l.Outline.Area(), 1e-3)
	assert.InDelta(t, math.Pi*205*205, l.unfolded().Outline.Area(), 1e-3)
	assert.InDelta(t, 410, l.Fold.Length(), 1e-6)
	require.NoError(t, l.Outline.Valid())
	// The fold is the edge of its windows, so that no seam comes near it.
	for _, tile := range l.Tiles {
		if in := clipSeg(l.Fold, tile.Window.Grow(1e-6)); len(in) > 0 {
			w := tile.Window
			off := math.Min(math.Abs(in[0].A.Y-w.Max.Y), math.Abs(in[0].A.Y-w.Min.Y))
			if math.Abs(in[0].A.X-in[0].B.X) < 1e-9 {
				off = math.Min(math.Abs(in[0].A.X-w.Max.X), math.Abs(in[0].A.X-w.Min.X))
			}
			assert.InDelta(t, 0, off, 1e-9)
		}
	}
	// A hole out of place leaves only one way to fold, two of them none.
	one := disc()
	one.Holes = append(one.Holes, Hole{At: pt(205, 100), Diam: 5})
	assert.Len(t, halves(one), 1)
	one.Holes = append(one.Holes, Hole{At: pt(100, 120), Diam: 5})
	assert.Empty(t, halves(one))
	one.Holes[5].Matched = true
	assert.Len(t, halves(one), 1, "what is not laid out does not count")
	// A slat is symmetric too, but a half of it saves nothing.
	assert.Len(t, halves(slat()), 1)
	assert.False(t, Lay(slat(), Letter()).Half)
}

// A part longer than a sheet but shorter than its diagonal lies askew on one.
func TestAskew(t *testing.T) {
	for _, p := range []Paper{Letter(), A4()} {
		l := Lay(wedge(), p)
		require.Len(t, l.Tiles, 1)
		require.NotZero(t, l.Askew)
		box, live := l.Outline.Box(), p.Live()
		assert.LessOrEqual(t, box.W(), live.W)
		assert.LessOrEqual(t, box.H(), live.H)
		assert.InDelta(t, wedge().Outline.Area(), l.Outline.Area(), 1e-6)
		for i, s := range l.Outline {
			assert.InDelta(t, 0, l.part(s.A).Sub(wedge().Outline[i].A).Len(), 1e-9)
		}
	}
	assert.Equal(t, Lay(wedge(), Letter()).Outline, Lay(wedge(), A4()).Outline)
	assert.Zero(t, Lay(sized(200, 170), Letter()).Askew, "it fits upright")
	assert.Zero(t, Lay(bow(), Letter()).Askew, "it fits no way")
}

// Pieces that share a sheet keep apart and show all they must.
func TestPiecesShareSheets(t *testing.T) {
	var ls []Layout
	for _, tpl := range []Template{slat(), arm(), quarter(), stringer()} {
		ls = append(ls, Lay(tpl, Letter()))
	}
	run := Pages(ls, testLook())
	assert.LessOrEqual(t, len(run.Pages)-run.Maps, 4, "eight pieces")
	places := map[int][]geom.Box{}
	for n, l := range run.Layouts {
		for i, tile := range l.Tiles {
			p := Letter()
			live := geom.Box{Min: p.at(), Max: p.at().Add(pt(p.Live().W, p.Live().H))}.Grow(1e-6)
			b := tile.place()
			assert.True(t, live.Has(b.Min) && live.Has(b.Max), "%s %s", l.Name, tile.Label())
			for _, other := range places[run.On[n][i]] {
				assert.False(t, b.Meets(other), "%s %s lies over another piece", l.Name, tile.Label())
			}
			places[run.On[n][i]] = append(places[run.On[n][i]], b)
			if d, ok := l.guideAt(false); ok {
				assert.True(t, tile.Window.Min.X <= d && d <= tile.Window.Max.X, "%s %s: nothing to line it up by", l.Name, tile.Label())
			}
			held := ls[n].holds(ls[n].Tiles[i].Window)
			assert.True(t, tile.Window.Has(held.Min) && tile.Window.Has(held.Max), "%s %s", l.Name, tile.Label())
		}
	}
	again := Pages(ls, testLook())
	assert.Equal(t, run, again)
}
