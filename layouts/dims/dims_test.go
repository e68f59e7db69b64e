package dims_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// board is a plain board of 100 by 20 mm on paper.
func board() dims.Field {
	return dims.Field{Box: box(0, 0, 200, 150), Ink: []render.Path{render.Rect(box(50, 60, 150, 80))}}
}

func span(side dims.Side, a, b geom.Pt, text string) dims.Span {
	return dims.Span{Side: side, A: a, B: b, Label: dims.Label{Text: text}}
}

// walk calls see with every item, the groups it is in named from outside in.
func walk(items []render.Item, in []string, see func(item render.Item, in []string)) {
	for _, item := range items {
		see(item, in)
		if g, ok := item.(render.Group); ok {
			walk(g.Items, append(in[:len(in):len(in)], g.Name), see)
		}
	}
}

// fills returns the corners of all filled shapes.
func fills(items []render.Item) [][]geom.Pt {
	var found [][]geom.Pt
	walk(items, nil, func(item render.Item, _ []string) {
		if f, ok := item.(render.Fill); ok {
			for _, p := range f.Paths {
				var pts []geom.Pt
				for _, s := range p.Segs {
					pts = append(pts, s.A)
				}
				found = append(found, pts)
			}
		}
	})
	return found
}

// longest returns the longest straight line drawn thin.
func longest(items []render.Item) geom.Seg {
	var best geom.Seg
	walk(items, nil, func(item render.Item, _ []string) {
		if st, ok := item.(render.Stroke); ok && st.Pen.Width == render.Thin.Width {
			for _, p := range st.Paths {
				for _, s := range p.Segs {
					if s.B.Sub(s.A).Len() > best.B.Sub(best.A).Len() {
						best = s
					}
				}
			}
		}
	})
	return best
}

// One dimension under a board, against the habits of ISO 129-1 and ASME Y14.5.
func TestSpanFollowsTheStandards(t *testing.T) {
	items, used, problems := dims.Place(board(), span(dims.Below, pt(50, 60), pt(150, 60), "28"))
	require.Empty(t, problems)
	line := longest(items)
	off := 60 - line.A.Y
	assert.True(t, off >= 8 && off <= 10, "the first line is %g mm off", off)
	assert.InDelta(t, 100, line.B.Sub(line.A).Len(), 1e-9)
	assert.InDelta(t, 60-off-2, used.Min.Y, 1e-9, "extension lines run 2 mm past")
	arrows := fills(items)
	require.Len(t, arrows, 2)
	for _, a := range arrows {
		b := geom.NoBox().With(a[0]).With(a[1]).With(a[2])
		assert.InDelta(t, 3, b.W(), 1e-9, "arrow length")
		assert.InDelta(t, 1, b.H(), 1e-9, "a third of it wide")
	}
	text := inspect.Texts(items)
	require.Len(t, text, 1)
	assert.InDelta(t, 100, text[0].C.X, 0.5, "in the middle")
	assert.Greater(t, text[0].C.Y, line.A.Y, "above the line")
	top := math.Inf(-1)
	walk(items, nil, func(item render.Item, _ []string) {
		if st, ok := item.(render.Stroke); ok {
			for _, p := range st.Paths {
				for _, s := range p.Segs {
					top = math.Max(top, math.Max(s.A.Y, s.B.Y))
				}
			}
		}
	})
	assert.InDelta(t, 59, top, 1e-9, "extension lines start 1 mm off the outline")
}

// Longer dimensions stand outside shorter ones, whatever order they come in,
// and lines are 6 to 7 mm apart.
func TestLongerSpansOutside(t *testing.T) {
	a := span(dims.Below, pt(50, 60), pt(75, 60), "7")
	b := span(dims.Below, pt(50, 60), pt(110, 60), "16")
	c := span(dims.Below, pt(50, 60), pt(150, 60), "28")
	for _, order := range [][]dims.Wish{{a, b, c}, {c, b, a}, {b, c, a}} {
		items, _, problems := dims.Place(board(), order...)
		require.Empty(t, problems)
		depth := map[float64]float64{}
		for _, item := range items {
			l := longest([]render.Item{item})
			depth[math.Round(l.B.Sub(l.A).Len())] = 60 - l.A.Y
		}
		require.Len(t, depth, 3)
		assert.InDelta(t, 6.5, depth[60]-depth[25], 0.5)
		assert.InDelta(t, 6.5, depth[100]-depth[60], 0.5)
	}
}

// Spans that do not overlap share a line.
func TestNeighboursShareALine(t *testing.T) {
	items, _, _ := dims.Place(board(),
		span(dims.Above, pt(50, 80), pt(90, 80), "11"), span(dims.Above, pt(90, 80), pt(150, 80), "17"))
	one, two := longest(items[:1]), longest(items[1:])
	assert.InDelta(t, one.A.Y, two.A.Y, 1e-9)
}

// A span too small for arrows and text has both outside.
func TestSmallSpan(t *testing.T) {
	f := board()
	items, _, problems := dims.Place(f, span(dims.Below, pt(100, 60), pt(102, 60), "9⁄16"))
	require.Empty(t, problems)
	clean(t, 0, f, items)
	for _, a := range fills(items) {
		b := geom.NoBox().With(a[0]).With(a[1]).With(a[2])
		assert.True(t, b.Max.X <= 100+1e-9 || b.Min.X >= 102-1e-9, "arrow at %v", b)
	}
	x := inspect.Texts(items)[0].Box()
	assert.True(t, x.Max.X < 100 || x.Min.X > 102, "text at %v", x)
}

// Vertical dimensions read from the right, slanted ones from below.
func TestReadingDirection(t *testing.T) {
	items, _, _ := dims.Place(board(), span(dims.LeftOf, pt(50, 60), pt(50, 80), "5 1⁄2"))
	assert.InDelta(t, 1, inspect.Texts(items)[0].U.Y, 1e-9)
	for deg := 0.0; deg < 360; deg += 15 {
		f := dims.Field{Box: box(-200, -200, 200, 200)}
		b := pt(80, 0).Turn(deg * math.Pi / 180)
		items, _, problems := dims.Place(f, span(dims.Along, pt(0, 0), b, "28"))
		require.Empty(t, problems)
		u := inspect.Texts(items)[0].U
		assert.True(t, u.X > 1e-9 || u.Y > 0, "at %g degrees the text runs %v", deg, u)
		l := longest(items)
		assert.Less(t, b.Cross(l.A.Add(l.B).Mul(0.5)), 0.0, "on the right hand of the walker")
	}
}

// Every stop of a run is drawn on a line that ends at its text, and the texts
// keep the order of the positions.
func TestRunKeepsOrder(t *testing.T) {
	f := board()
	texts := []string{"0", "1", "2", "3", "4", "5", "6", "7", "8"}
	run := dims.Run{Side: dims.Below}
	for i, s := range texts {
		run.Stops = append(run.Stops, dims.Stop{At: pt(50+1.2*float64(i), 60), Label: dims.Label{Text: s}})
	}
	items, _, problems := dims.Place(f, run)
	require.Empty(t, problems)
	clean(t, 0, f, items)
	at := map[string]float64{}
	walk(items, nil, func(item render.Item, _ []string) {
		if tx, ok := item.(render.Text); ok {
			at[tx.Text] = inspect.TextQuad(tx).C.X
		}
	})
	require.Len(t, at, len(texts))
	for i := 1; i < len(texts); i++ {
		assert.Less(t, at[texts[i-1]], at[texts[i]])
	}
}

// A pair of holes at one position is dimensioned once, from the inner one.
func TestPairOfHolesReadsOnce(t *testing.T) {
	stop := func(x, y float64, s string) dims.Stop {
		return dims.Stop{At: pt(x, y), Ring: 1.5, Label: dims.Label{Text: s}}
	}
	items, _, problems := dims.Place(board(), dims.Run{Side: dims.Below, Stops: []dims.Stop{
		stop(50, 60, "0"), stop(90, 65, "11"), stop(90, 75, "11"), stop(150, 60, "28"),
	}})
	require.Empty(t, problems)
	assert.Len(t, inspect.Texts(items), 3)
	top := math.Inf(-1)
	walk(items, nil, func(item render.Item, _ []string) {
		if st, ok := item.(render.Stroke); ok {
			top = math.Max(top, inspect.Bounds([]render.Item{render.Fill{Paths: st.Paths}}).Max.Y)
		}
	})
	assert.InDelta(t, 75-1.5-1, top, 1e-9, "1 mm off the hole")
}

// A text set in a row with a boxed one keeps the row's baseline.
func TestRowKeepsItsBaseline(t *testing.T) {
	for _, side := range []dims.Side{dims.Below, dims.Above} {
		run := dims.Run{Side: side}
		for i, key := range []int{0, 0, 3} {
			run.Stops = append(run.Stops, dims.Stop{At: pt(50+40*float64(i), 70), Label: dims.Label{Text: "28", Key: key}})
		}
		items, _, _ := dims.Place(board(), run)
		var ys []float64
		walk(items, nil, func(item render.Item, _ []string) {
			if tx, ok := item.(render.Text); ok && tx.Text == "28" {
				ys = append(ys, tx.At.Y)
			}
		})
		require.Len(t, ys, 3)
		assert.InDelta(t, ys[0], ys[1], 1e-9)
		assert.InDelta(t, ys[0], ys[2], 1e-9)
	}
}

// Sizes of type: 3 mm capitals to cut to, 2.5 mm for notes.
func TestTextHeights(t *testing.T) {
	items, _, _ := dims.Place(board(), span(dims.Below, pt(50, 60), pt(150, 60), "28"),
		dims.Callout{At: pt(100, 70), Text: []string{"note"}})
	high := map[string]float64{}
	walk(items, nil, func(item render.Item, _ []string) {
		if tx, ok := item.(render.Text); ok {
			high[tx.Text] = fonts.CapHeight(tx.Face, tx.Size)
		}
	})
	assert.InDelta(t, 3, high["28"], 0.05)
	assert.InDelta(t, 2.5, high["note"], 0.05)
}

// A leader's arrow stands on the ring of its hole and points at the centre.
func TestLeaderEndsOnTheHole(t *testing.T) {
	c := pt(90, 70)
	items, _, problems := dims.Place(board(), dims.Callout{At: c, Ring: 2, Text: []string{"⌀13⁄32 THRU"}})
	require.Empty(t, problems)
	a := fills(items)[0]
	assert.InDelta(t, 2, a[0].Sub(c).Len(), 1e-9)
	back := a[1].Add(a[2]).Mul(0.5)
	assert.InDelta(t, 0, back.Sub(c).Unit().Cross(a[0].Sub(c).Unit()), 1e-9)
	assert.Greater(t, back.Sub(c).Len(), 2.0)
}

// A radius leader lies on a line through the centre.
func TestRadiusPointsAtTheCentre(t *testing.T) {
	items, _, problems := dims.Place(board(), dims.Radius{C: pt(140, 70), R: 10, From: 0, To: math.Pi / 2, Text: "R 2 1⁄2"})
	require.Empty(t, problems)
	tip, back := fills(items)[0][0], fills(items)[0][1].Add(fills(items)[0][2]).Mul(0.5)
	assert.InDelta(t, 10, tip.Sub(pt(140, 70)).Len(), 1e-9)
	assert.InDelta(t, 0, tip.Sub(back).Cross(tip.Sub(pt(140, 70))), 1e-6)
}

// With no room there is a problem and nothing is drawn over anything.
func TestNoRoomIsAProblem(t *testing.T) {
	f := board()
	f.Box = box(48, 58, 152, 82)
	f.Keep = []geom.Box{box(51, 61, 149, 79)}
	items, _, problems := dims.Place(f, span(dims.Below, pt(50, 60), pt(150, 60), "28"),
		dims.Callout{At: pt(90, 70), Text: []string{"THRU"}}, dims.Balloon{At: pt(60, 70), Code: "A"})
	assert.Empty(t, items)
	require.Len(t, problems, 3)
	assert.Contains(t, strings.Join(problems, "\n"), "28")
	assert.Contains(t, strings.Join(problems, "\n"), "balloon A")
}

// Text keeps off the boxes it is told to keep off.
func TestKeepIsKept(t *testing.T) {
	f := board()
	f.Keep = []geom.Box{box(40, 82, 160, 120)}
	items, _, problems := dims.Place(f, dims.Callout{At: pt(100, 80), Text: []string{"THRU"}, Prefer: pt(0, 1)})
	require.Empty(t, problems)
	for _, q := range inspect.Texts(items) {
		assert.Greater(t, q.Apart(inspect.QuadOf(f.Keep[0])), 0.79)
	}
}

// Balloons' leaders stand at 30 to 75 degrees when there is room, and avoid
// running over other parts when they can.
func TestBalloonLeaders(t *testing.T) {
	f := dims.Field{Box: box(0, 0, 200, 200)}
	var wishes []dims.Wish
	for i := range 6 {
		b := box(50+18*float64(i), 90, 62+18*float64(i), 110)
		f.Ink = append(f.Ink, render.Rect(b))
		code := string(rune('A' + i))
		f.Faces = append(f.Faces, dims.Face{Code: code, Loop: []geom.Pt{b.Min, pt(b.Max.X, b.Min.Y), b.Max, pt(b.Min.X, b.Max.Y)}})
		wishes = append(wishes, dims.Balloon{At: b.Min.Add(b.Max).Mul(0.5), Code: code, Count: "2"})
	}
	items, _, problems := dims.Place(f, wishes...)
	require.Empty(t, problems)
	clean(t, 0, f, items)
	for i, item := range items {
		l := longest([]render.Item{item})
		d := l.B.Sub(l.A)
		deg := math.Abs(math.Atan2(d.Y, math.Abs(d.X))) * 180 / math.Pi
		assert.True(t, deg >= 29.9 && deg <= 75.1, "balloon %d at %g degrees", i, deg)
	}
}

func TestScaleBar(t *testing.T) {
	for _, tt := range []struct {
		scale float64
		unit  expr.Unit
	}{{1, expr.Inch}, {0.5, expr.Inch}, {1.0 / 8, expr.Inch}, {1.0 / 16, expr.Inch}, {1, expr.MM}, {0.2, expr.MM}, {0.1, expr.MM}, {0.05, expr.MM}} {
		items, size := dims.ScaleBar(pt(10, 10), tt.scale, tt.unit)
		assert.Empty(t, inspect.Collisions(items), "scale %g", tt.scale)
		b := inspect.Bounds(items)
		assert.InDelta(t, b.Max.X, 10+size.W, 0.6)
		assert.True(t, size.W > 20 && size.W < 75, "scale %g is %g mm", tt.scale, size.W)
		// The last figure says how long the frame is.
		var frame geom.Box
		walk(items, nil, func(item render.Item, _ []string) {
			if st, ok := item.(render.Stroke); ok {
				frame = inspect.Bounds([]render.Item{render.Fill{Paths: st.Paths}})
			}
		})
		var last string
		walk(items, nil, func(item render.Item, _ []string) {
			if tx, ok := item.(render.Text); ok {
				last = tx.Text
			}
		})
		assert.Equal(t, tt.unit.LongTo(frame.W()/tt.scale, expr.Coarse), last)
	}
}

func TestRatio(t *testing.T) {
	assert.Equal(t, "1 : 8", dims.Ratio(1.0/8))
	assert.Equal(t, "full size", dims.Ratio(1))
	assert.Equal(t, "2 : 1", dims.Ratio(2))
}

// Nonsense in a wish makes a problem or nothing, never a panic or an endless
// search.
func TestNonsenseIsSurvived(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 0, 1e-300}
	for i, v := range bad {
		w := bad[(i+3)%len(bad)]
		p := pt(v, w)
		l := dims.Label{Text: "⌀ 1⁄0 \n", Key: -4}
		wishes := []dims.Wish{
			dims.Run{Side: 77, Stops: []dims.Stop{{At: p, Label: l}, {At: pt(w, v), Label: l}}}, dims.Run{},
			dims.Offsets{Stations: []dims.Station{{Foot: p, At: p, Label: l}}}, dims.Offsets{},
			dims.Span{Side: 99, A: p, B: pt(w, 3), Label: l}, dims.Span{Side: dims.Along, A: p, B: p},
			dims.Callout{At: p, Ring: v, Prefer: p}, dims.Callout{At: pt(100, 70), Ring: w, Key: 1000},
			dims.Radius{C: p, R: v, From: w, To: v}, dims.Gauge{At: p, Off: v}, dims.Gauge{At: pt(100, 70), Off: w},
			dims.Angle{At: p, From: v, To: w, Label: l}, dims.Angle{At: pt(60, 60), From: v, To: w, Label: l},
			dims.Datum{At: p, X: v}, dims.Center{A: p, B: p}, dims.Break{A: p, B: p, Gap: v},
			dims.Balloon{At: p, Or: []geom.Pt{p}}, dims.Balloon{At: pt(100, 70), Code: ""},
		}
		f := board()
		f.Ink = append(f.Ink, render.Circle(p, v), render.Lines(p, pt(3, 4)), render.Path{})
		f.Keep = []geom.Box{{Min: p, Max: pt(w, v)}}
		f.Faces = []dims.Face{{}, {Loop: []geom.Pt{p, p}}}
		_, _, _ = dims.Place(f, wishes...)
		f.Box = geom.Box{Min: pt(-math.Inf(1), w), Max: pt(math.Inf(1), v)}
		_, _, _ = dims.Place(f, wishes...)
		_, _, _ = dims.Place(dims.Field{}, wishes...)
		dims.ScaleBar(p, v, expr.MM)
	}
}
