package dims_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/model/geom"
	"planset/render"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func box(x0, y0, x1, y1 float64) geom.Box { return geom.Box{Min: pt(x0, y0), Max: pt(x1, y1)} }

// A dice throws the features of a random part.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 77))} }

func (d dice) between(lo, hi float64) float64 { return lo + d.Float64()*(hi-lo) }

var printed = []string{"0", "9 1⁄2", "35 1⁄2", "3 13⁄16", "28", "21 1⁄4", "1 3⁄4", "(17)", "902", "12.5"}

func (d dice) label() dims.Label {
	l := dims.Label{Text: printed[d.IntN(len(printed))]}
	switch d.IntN(12) {
	case 0:
		l.Key = 1 + d.IntN(8)
	case 1:
		l.Quiet = true
	case 2:
		l.Note = true
	}
	return l
}

// part throws a board on paper with running dimensions, holes, tapers and angles.
func (d dice) part() (dims.Field, []dims.Wish) {
	l, w := d.between(60, 130), d.between(9, 40)
	far := w * d.between(0.5, 1)
	at := pt(d.between(38, 42), 85)
	p := func(x, y float64) geom.Pt { return at.Add(pt(x, y)) }
	f := dims.Field{Box: box(10, 10, 200, 190)}
	f.Ink = []render.Path{render.Loop(p(0, 0), p(l, 0), p(l, far), p(0, w))}
	wishes := []dims.Wish{dims.Datum{At: p(0, 0), X: 1, Y: 1}}
	run := dims.Run{Side: dims.Below, Stops: []dims.Stop{{At: p(0, 0), Label: dims.Label{Text: "0"}}}}
	for x, n := 0.0, 1+d.IntN(11); n > 0; n-- {
		if x += 1 + d.ExpFloat64()*l/10; x > l {
			break
		}
		run.Stops = append(run.Stops, dims.Stop{At: p(x, 0), Label: d.label()})
	}
	wishes = append(wishes, run)
	for range d.IntN(7) {
		c := p(d.between(4, l-4), d.between(3, far-3))
		f.Ink = append(f.Ink, render.Circle(c, 1.5))
		wishes = append(wishes, dims.Callout{At: c, Ring: 1.5, Text: []string{"⌀13⁄32 THRU (3⁄8 bolt)", "countersink flush"}[:1+d.IntN(2)]})
	}
	wishes = append(wishes, dims.Span{Side: dims.RightOf, A: p(l, 0), B: p(l, far), Label: d.label()})
	if d.IntN(2) == 0 {
		wishes = append(wishes, dims.Span{Side: dims.LeftOf, A: p(0, 0), B: p(0, w), Label: d.label()})
	}
	if d.IntN(3) == 0 {
		var o dims.Offsets
		o.Side = dims.Above
		for i := range 4 {
			x := l * float64(i+1) / 5
			o.Stations = append(o.Stations, dims.Station{Foot: p(x, 0), At: p(x, w+(far-w)*x/l), Label: d.label()})
		}
		wishes = append(wishes, o)
	}
	if d.IntN(3) == 0 {
		wishes = append(wishes, dims.Angle{At: p(l, 0), From: d.between(1.2, 1.5), To: math.Pi / 2, Label: dims.Label{Text: "14°"}})
	}
	if d.IntN(3) == 0 {
		wishes = append(wishes, dims.Gauge{At: p(l, far), Off: d.between(-0.5, 0.5), Text: []string{"14° off square"}})
	}
	if d.IntN(4) == 0 {
		wishes = append(wishes, dims.Center{A: p(0, w/2), B: p(l, w/2)})
	}
	return f, wishes
}

// exploded throws 4 to 25 parts that may lie over each other, with a balloon each.
func (d dice) exploded() (dims.Field, []dims.Wish) {
	f := dims.Field{Box: box(10, 10, 200, 260)}
	var wishes []dims.Wish
	for i := range 4 + d.IntN(22) {
		c := pt(d.between(55, 155), d.between(70, 200))
		w, h := d.between(3, 30), d.between(2, 12)
		loop := []geom.Pt{c.Add(pt(-w/2, -h/2)), c.Add(pt(w/2, -h/2)), c.Add(pt(w/2, h/2)), c.Add(pt(-w/2, h/2))}
		code := string(rune('A' + i))
		f.Ink = append(f.Ink, render.Loop(loop...))
		f.Faces = append(f.Faces, dims.Face{Code: code, Loop: loop})
		wishes = append(wishes, dims.Balloon{At: c, Code: code, Hand: []string{"", "L", "R"}[d.IntN(3)], Count: []string{"", "", "12"}[d.IntN(3)]})
	}
	return f, wishes
}

// clean demands that a drawing has no clash and stays in its field.
func clean(t *testing.T, seed uint64, f dims.Field, items []render.Item) {
	t.Helper()
	all := append([]render.Item{render.Stroke{Paths: f.Ink, Pen: render.Outline}}, items...)
	for _, c := range inspect.Collisions(all) {
		t.Errorf("seed %d: %v", seed, c)
	}
	for _, c := range inspect.Outside(items, f.Box) {
		t.Errorf("seed %d: %v", seed, c)
	}
}

func TestRandomPartsAreClean(t *testing.T) {
	t.Parallel()
	wished, left := 0, 0
	for seed := range uint64(500) {
		f, wishes := newDice(seed).part()
		items, used, problems := dims.Place(f, wishes...)
		clean(t, seed, f, items)
		require.Equal(t, len(wishes), len(items)+len(problems), "seed %d: each wish is drawn or named", seed)
		assert.True(t, f.Box.Has(used.Min) && f.Box.Has(used.Max), "seed %d: %v", seed, used)
		wished, left = wished+len(wishes), left+len(problems)
		for _, p := range problems {
			t.Logf("seed %d: %s", seed, p)
		}
	}
	t.Logf("%d of %d wishes had no clear place", left, wished)
	assert.Less(t, float64(left), 0.01*float64(wished))
}

func TestRandomBalloonsAreClean(t *testing.T) {
	t.Parallel()
	wished, left := 0, 0
	for seed := range uint64(200) {
		f, wishes := newDice(seed + 1000).exploded()
		n := len(wishes)
		items, _, problems := dims.Place(f, wishes...)
		clean(t, seed, f, items)
		wished, left = wished+n, left+len(problems)
		for _, p := range problems {
			t.Logf("seed %d, %d balloons: %s", seed, n, p)
		}
	}
	t.Logf("%d of %d balloons had no clear place", left, wished)
	assert.Less(t, float64(left), 0.01*float64(wished))
}

// The same wishes give the same items.
func TestPlaceIsDeterministic(t *testing.T) {
	for seed := range uint64(10) {
		f, wishes := newDice(seed).part()
		a, _, _ := dims.Place(f, wishes...)
		b, _, _ := dims.Place(f, wishes...)
		assert.Equal(t, fmt.Sprintf("%+v", a), fmt.Sprintf("%+v", b))
	}
}

func BenchmarkPlacePart(b *testing.B) {
	f, wishes := newDice(7).part()
	for b.Loop() {
		dims.Place(f, wishes...)
	}
}

// Among random spans on one side, of two that overlap the longer is outside.
func TestRandomSpansKeepTheirOrder(t *testing.T) {
	wished, left := 0, 0
	for seed := range uint64(100) {
		d := newDice(seed + 5000)
		f := dims.Field{Box: box(0, 0, 200, 200), Ink: []render.Path{render.Rect(box(40, 90, 160, 110))}}
		var wishes []dims.Wish
		stations := []float64{40}
		for x := 40 + d.between(3, 30); x < 160; x += d.between(3, 40) {
			stations = append(stations, x)
		}
		stations = append(stations, 160)
		for range 2 + d.IntN(4) {
			i := d.IntN(len(stations) - 1)
			j := i + 1 + d.IntN(len(stations)-1-i)
			wishes = append(wishes, span(dims.Below, pt(stations[i], 90), pt(stations[j], 90), printed[1+d.IntN(6)]))
		}
		if d.IntN(2) == 0 {
			wishes = append(wishes, dims.Run{Side: dims.Below, Stops: []dims.Stop{
				{At: pt(40, 90), Label: dims.Label{Text: "0"}}, {At: pt(d.between(60, 150), 90), Label: dims.Label{Text: "35 1⁄2"}},
			}})
		}
		items, _, problems := dims.Place(f, wishes...)
		clean(t, seed, f, items)
		wished, left = wished+len(wishes), left+len(problems)
		if len(problems) > 0 {
			t.Logf("seed %d: %v", seed, problems)
			continue // items no longer stand beside their wishes
		}
		for i, w := range wishes {
			a, ok := w.(dims.Span)
			for j := i + 1; ok && j < len(wishes); j++ {
				b, ok := wishes[j].(dims.Span)
				if !ok || a.B.X <= b.A.X+0.01 || b.B.X <= a.A.X+0.01 {
					continue
				}
				if math.Abs((a.B.X-a.A.X)-(b.B.X-b.A.X)) < 0.01 {
					continue
				}
				longer := a.B.X-a.A.X > b.B.X-b.A.X
				assert.Equal(t, longer, lineOf(t, items[i]) < lineOf(t, items[j]), "seed %d: %v and %v", seed, a, b)
			}
		}
	}
	t.Logf("%d of %d spans had no clear place", left, wished)
	assert.Less(t, float64(left), 0.03*float64(wished))
}

// lineOf returns the height of a horizontal dimension's line: of its arrowheads.
func lineOf(t *testing.T, item render.Item) float64 {
	found := fills([]render.Item{item})
	require.NotEmpty(t, found)
	return found[0][0].Y
}

func BenchmarkPlaceBalloons(b *testing.B) {
	f, wishes := newDice(1004).exploded()
	for b.Loop() {
		dims.Place(f, wishes...)
	}
}
