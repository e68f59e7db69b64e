package inspect_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

var note = lettering.Style{Face: fonts.Sans, Size: render.Note}

func line(x, y float64, s string) []render.Item {
	return lettering.Line(pt(x, y), s, note, render.Left)
}

func stroke(pts ...geom.Pt) render.Item {
	return render.Stroke{Paths: []render.Path{render.Lines(pts...)}, Pen: render.Thin}
}

func faults(items []render.Item) []inspect.Fault {
	var found []inspect.Fault
	for _, c := range inspect.Collisions(items) {
		found = append(found, c.Fault)
	}
	return found
}

func TestCleanPageHasNoClashes(t *testing.T) {
	items := append(line(10, 10, "35 1⁄2 and ⌀13⁄32 THRU (3⁄8 bolt)"), line(10, 16, "drill through A")...)
	items = append(items, stroke(pt(0, 8), pt(200, 8)))
	assert.Empty(t, inspect.Collisions(items))
}

// Each broken page has exactly the fault it was broken with.
func TestBrokenPagesAreCaught(t *testing.T) {
	long := line(10, 10, "clear the corner")
	tests := []struct {
		name string
		page []render.Item
		want inspect.Fault
	}{
		{"text over text", append(line(20, 11, "again"), long...), inspect.TextOnText},
		{"same text twice", append(line(10, 10, "35 1⁄2"), line(10, 10, "35 1⁄2")...), inspect.TextOnText},
		{"line through text", append(long, stroke(pt(15, 0), pt(20, 30))), inspect.TextOnLine},
		{"line just under text", append(line(10, 10, "600"), stroke(pt(0, 9.2), pt(60, 9.2))), inspect.TextOnLine},
		{"arc through text", append(line(10, 10, "600"), render.Stroke{Paths: []render.Path{render.Circle(pt(13, 21), 10)}, Pen: render.Thin}), inspect.TextOnLine},
		{"text on an arrowhead", append(line(10, 10, "600"), render.Fill{Paths: []render.Path{render.Loop(pt(10, 11), pt(13, 10.5), pt(13, 11.5))}}), inspect.TextOnLine},
		{"leaders cross", []render.Item{
			render.Group{Name: "leader", Items: []render.Item{stroke(pt(0, 0), pt(10, 10))}},
			render.Group{Name: "balloon", Items: []render.Item{stroke(pt(0, 10), pt(10, 0))}},
		}, inspect.LeaderCross},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, []inspect.Fault{tt.want}, faults(tt.page)) })
	}
}

// What a clip hides does no harm, and does when the clip is taken away.
func TestClipHides(t *testing.T) {
	g := render.Group{Clip: geom.Box{Min: pt(0, 0), Max: pt(30, 5)}, Items: []render.Item{stroke(pt(15, 0), pt(15, 30))}}
	assert.Empty(t, inspect.Collisions(append(line(10, 10, "clear"), g)))
	g.Clip = geom.Box{}
	assert.Equal(t, []inspect.Fault{inspect.TextOnLine}, faults(append(line(10, 10, "clear"), g)))
}

// The box of a critical dimension belongs to its text; a stranger's does not.
func TestOwnBoxIsNoClash(t *testing.T) {
	box := render.Stroke{Paths: []render.Path{render.Rect(geom.Box{Min: pt(9.5, 9.5), Max: pt(18, 13)})}, Pen: render.Heavy}
	own := []render.Item{render.Group{Name: "text", Items: append(line(10, 10, "600"), box)}}
	assert.Empty(t, inspect.Collisions(own))
	assert.Equal(t, []inspect.Fault{inspect.TextOnLine}, faults(append(line(10, 10, "600"), box)))
}

func TestBalloonLeaderEndsOnItsOwnTabOnly(t *testing.T) {
	balloon := func(x float64, to geom.Pt) render.Item {
		tab, w := lettering.Tab(pt(x, 10), "A", "", 7, render.Tone{})
		return render.Group{Name: "balloon", Items: append(tab, stroke(to, pt(x+w/2, 10)))}
	}
	assert.Empty(t, inspect.Collisions([]render.Item{balloon(10, pt(0, 0)), balloon(30, pt(20, 0))}))
	crossing := []render.Item{balloon(10, pt(0, 0)), balloon(30, pt(12, 14))}
	assert.Contains(t, faults(crossing), inspect.TextOnLine)
}

func TestOutside(t *testing.T) {
	field := geom.Box{Max: pt(100, 100)}
	items := []render.Item{stroke(pt(1, 1), pt(99, 99)), stroke(pt(50, 50), pt(50, 101))}
	found := inspect.Outside(items, field)
	if assert.Len(t, found, 1) {
		assert.Equal(t, inspect.OutsideField, found[0].Fault)
	}
}

// Gap agrees with sampling the segment and the sides of the rectangle.
func TestGapAgainstSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		q := inspect.Quad{C: pt(r.Float64()*20, r.Float64()*20), U: pt(1, 0).Turn(r.Float64() * 7), W: 1 + r.Float64()*9, H: 1 + r.Float64()*4}
		a, b := pt(r.Float64()*30-5, r.Float64()*30-5), pt(r.Float64()*30-5, r.Float64()*30-5)
		least := math.Inf(1)
		c := q.Corners()
		for i := range 201 {
			p := a.Add(b.Sub(a).Mul(float64(i) / 200))
			if q.Has(p) {
				least = 0
			}
			for j := range c {
				least = math.Min(least, inspect.Distance(p, c[j], c[(j+1)%4]))
			}
		}
		got := q.Gap(a, b)
		assert.LessOrEqual(t, got, least+1e-9)
		assert.InDelta(t, least, got, b.Sub(a).Len()/400+1e-9, "the step of the samples")
	}
}

// Apart is symmetric, and does not change when both are turned and moved.
func TestApartIsSymmetricAndRigid(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	random := func() inspect.Quad {
		return inspect.Quad{C: pt(r.Float64()*20, r.Float64()*20), U: pt(1, 0).Turn(r.Float64() * 7), W: 1 + r.Float64()*9, H: 1 + r.Float64()*4}
	}
	for range 300 {
		q, p := random(), random()
		turn, move := r.Float64()*7, pt(r.Float64()*9, r.Float64()*9)
		rigid := func(x inspect.Quad) inspect.Quad {
			return inspect.Quad{C: x.C.Turn(turn).Add(move), U: x.U.Turn(turn), W: x.W, H: x.H}
		}
		assert.InDelta(t, q.Apart(p), p.Apart(q), 1e-9)
		assert.InDelta(t, q.Apart(p), rigid(q).Apart(rigid(p)), 1e-9)
	}
}

func TestApartOfUprightBoxes(t *testing.T) {
	a := inspect.QuadOf(geom.Box{Max: pt(4, 2)})
	assert.InDelta(t, 5, a.Apart(inspect.QuadOf(geom.Box{Min: pt(7, 6), Max: pt(9, 8)})), 1e-12, "3-4-5 triangle")
	assert.Zero(t, a.Apart(inspect.QuadOf(geom.Box{Min: pt(1, 0.5), Max: pt(2, 1)})), "one inside the other")
}

// Chords stay on the circle within 0.02 mm, and their length nears the arc's.
func TestChords(t *testing.T) {
	seg := geom.Seg{A: pt(50, 0), B: pt(0, 50), R: 50, Turn: geom.CW}
	pts := inspect.Chords(seg)
	length := 0.0
	for i := 1; i < len(pts); i++ {
		mid := pts[i].Add(pts[i-1]).Mul(0.5)
		assert.InDelta(t, 50, mid.Len(), 0.02+1e-9)
		length += pts[i].Sub(pts[i-1]).Len()
	}
	assert.InDelta(t, 50*1.5*math.Pi, length, 0.1, "clockwise from 0 to 90 degrees is three quarters")
}

func TestCross(t *testing.T) {
	assert.True(t, inspect.Cross(pt(0, 0), pt(2, 2), pt(0, 2), pt(2, 0)))
	assert.False(t, inspect.Cross(pt(0, 0), pt(2, 2), pt(2, 2), pt(4, 0)), "touch at an end")
	assert.False(t, inspect.Cross(pt(0, 0), pt(2, 0), pt(1, 0), pt(3, 0)), "lie on each other")
}

// A turned text is boxed along its own baseline.
func TestTextsFollowTheirAngle(t *testing.T) {
	items := lettering.Turned(pt(50, 50), "35 1⁄2", note, render.Middle, math.Pi/2)
	quads := inspect.Texts(items)
	if assert.Len(t, quads, 1, "a fraction is one text") {
		assert.InDelta(t, 0, quads[0].U.X, 1e-12)
		assert.Greater(t, quads[0].W, 2*quads[0].H)
		assert.InDelta(t, 50, quads[0].C.Y, 0.3)
	}
}
