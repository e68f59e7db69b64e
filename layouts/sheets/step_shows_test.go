package sheets

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/layouts/woodwork"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// What a picture reads of a tape is how far apart the two points are, and both
// lie on the pieces they name, beside them where a side is produced, or on the floor.
func TestTapesReadTheTruth(t *testing.T) {
	eachBook(t, func(t *testing.T, name string, in Input) {
		half := 25.4 / 32
		if in.Plan.Unit == expr.MM {
			half = 0.5
		}
		tapes := 0
		for _, st := range in.Plan.Steps {
			for _, sh := range st.Shows {
				if sh.Kind != model.ShowDistance {
					continue
				}
				tapes++
				assert.InDelta(t, sh.B.Sub(sh.A).Len(), read(t, sh.Text), half+1e-6, "step %d", st.Number)
				for i, p := range [2]geom.V3{sh.A, sh.B} {
					if sh.Pieces[i] == model.Floor {
						assert.InDelta(t, 0, p.Z, 1e-6)
						continue
					}
					// A tape along the middle of one piece may end at the side of
					// another produced, beside it by half the thickness of the first.
					off := 1.001
					if k := sh.Pieces[1-i]; i == 1 && k != model.Floor {
						off = max(off, in.Plan.Placed[k].Part.Thick/2+0.001)
					}
					assert.Less(t, in.Plan.Placed[sh.Pieces[i]].Solid.Distance(p), off, "step %d", st.Number)
				}
			}
		}
		assert.Greater(t, tapes, 1, "%s measures something with a tape", name)
	})
}

// Every tape is drawn from point to point, its arrows at the ends, with its text
// clear of every line and of other text.
func TestTapesAreDrawnWhereTheyMeasure(t *testing.T) {
	pictured(t, func(name string, n *stepDrawing) {
		var tapes []render.Group
		each(n.items, func(item render.Item) {
			if g, ok := item.(render.Group); ok && g.Name == "dim" {
				tapes = append(tapes, g)
			}
		})
		k := 0
		for _, sh := range n.st.Shows {
			if sh.Kind != model.ShowDistance {
				continue
			}
			require.Less(t, k, len(tapes), name)
			lines := strokesOf(tapes[k].Items)
			k++
			for _, p := range [2]geom.V3{sh.A, sh.B} {
				end := n.pic.Point(p)
				near := math.Inf(1)
				for _, l := range lines {
					near = min(near, l[0].Sub(end).Len(), l[1].Sub(end).Len())
				}
				assert.InDelta(t, 0, near, 1e-6, name)
			}
		}
		assert.Len(t, tapes, k, name)
		assert.Empty(t, inspect.Collisions(n.items), name)
	})
}

// Each tool that a step measures with is in its picture, where it measures.
func TestToolsAreInTheirPlace(t *testing.T) {
	kinds := map[model.ShowKind]int{}
	eachBook(t, func(t *testing.T, _ string, in Input) {
		for _, st := range in.Plan.Steps {
			for _, sh := range st.Shows {
				list := sticks(sh)
				assert.Equal(t, sh.Kind == model.ShowDistance, len(list) == 0)
				for _, b := range list {
					solid := b.solid()
					require.NotNil(t, solid)
					require.NoError(t, solid.Closed())
					assert.InDelta(t, b.long*b.wide*b.deep, solid.Volume(), 1e-3)
					assert.Less(t, solid.Distance(sh.A), 60.0, "held at the place")
					kinds[sh.Kind]++
				}
				if sh.Kind == model.ShowGap { // touches both faces; beside a side that leans a little the wood comes nearer farther on
					s := list[0].solid()
					assert.InDelta(t, 0, s.Distance(sh.B), 1e-6)
					for _, i := range sh.Pieces {
						assert.Less(t, geom.Overlap(s, in.Plan.Placed[i].Solid, 0.05), 2.0, "step %d", st.Number)
					}
				}
			}
		}
	})
	for _, k := range []model.ShowKind{model.ShowGap, model.ShowLevel, model.ShowPlumb, model.ShowSquare, model.ShowFlat} {
		assert.Positive(t, kinds[k], "an example shows kind %d", k)
	}
}

// A mistake is drawn once for each step that has one, small, and crossed out in
// ink that a copier keeps.
func TestMistakesAreCrossedOut(t *testing.T) {
	eachBook(t, func(t *testing.T, name string, in Input) {
		book, _ := Compose(in)
		found := map[string]bool{}
		for _, p := range book.Pages {
			each(p.Items, func(item render.Item) {
				g, ok := item.(render.Group)
				if !ok || !strings.HasPrefix(g.Name, wrongName+" ") {
					return
				}
				assert.False(t, found[g.Name], g.Name)
				found[g.Name] = true
				b := inspect.Bounds(g.Items)
				assert.LessOrEqual(t, max(b.W(), b.H()), wrongW+3, name)
				assert.Greater(t, max(b.W(), b.H()), 25.0, name)
				last, ok := g.Items[len(g.Items)-1].(render.Stroke)
				require.True(t, ok)
				assert.Equal(t, render.Tone{}, last.Pen.Tone, "black")
				assert.GreaterOrEqual(t, last.Pen.Width, 0.9)
				require.Len(t, last.Paths, 2)
				a, c := last.Paths[0].Segs[0], last.Paths[1].Segs[0]
				assert.True(t, inspect.Cross(a.A, a.B, c.A, c.B))
			})
		}
		want := 0
		for _, st := range in.Plan.Steps {
			if st.Wrong != nil {
				want++
				assert.True(t, found[wrongName+" "+digits(st.Number)], "step %d", st.Number)
			}
		}
		assert.Len(t, found, want)
		assert.Positive(t, want)
	})
}

// The sign of a turn shows the way from where the front was to where it is: what
// the camera before saw of a direction, this one sees of where the turn begins.
func TestTurning(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	words := []string{"front left high", "rear right high", "front right low", "top", "left", "front left high upside down", "rear"}
	for _, from := range words {
		for _, to := range words {
			a, b := lookFrom(from), lookFrom(to)
			axis, angle := turning(a, b)
			assert.InDelta(t, 1, axis.Len(), 1e-9)
			assert.Equal(t, from == to, angle < 1e-9, "%s, %s", from, to)
			for range 5 {
				v := geom.V3{X: rnd.Float64() - 0.5, Y: rnd.Float64() - 0.5, Z: rnd.Float64() - 0.5}
				assert.InDelta(t, 0, a.Flat(v).Sub(b.Flat(v.Spin(axis, angle))).Len(), 1e-6, "%s, %s", from, to)
			}
		}
	}
}

// A turn is drawn where the camera changed between two pictures, and only there.
func TestTurnsAreDrawn(t *testing.T) {
	pictured(t, func(name string, n *stepDrawing) {
		before := n.d.viewBefore(n.st)
		assert.Equal(t, before != "" && before != viewOf(n.st), len(n.turnItems()) > 0, name)
	})
}

// A ground sees the piece that lies on top, as the patches tell at each place.
func TestGroundSeesTheTop(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	d := newDesk(in, nil)
	s := d.stepScene(in.Plan.Steps[14])
	pic := woodwork.Fit(s.pieces, lookFrom(heroView), geom.Box{Max: pt(90, 90)}, 0.5)
	g := groundOf(pic)
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		c, r := rnd.IntN(g.nx), rnd.IntN(g.ny)
		p := g.box.Min.Add(pt((float64(c)+0.5)*groundStep, (float64(r)+0.5)*groundStep))
		top := bare
		for _, a := range pic.Patches() {
			if len(crossings(a.Loop, p.Y, nil))%2 != 0 {
				t.Fatal("a loop that does not close")
			}
			left := 0
			for _, x := range crossings(a.Loop, p.Y, nil) {
				if x < p.X {
					left++
				}
			}
			if left%2 == 1 {
				top = a.ID
			}
		}
		assert.Equal(t, top, g.at(p))
	}
}

// A crowd is clear where no cell of it has ink, by counting.
func TestCrowdCounts(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	var lines [][2]geom.Pt
	at := func() geom.Pt { return pt(rnd.Float64()*60, rnd.Float64()*40) }
	for range 12 {
		lines = append(lines, [2]geom.Pt{at(), at()})
	}
	g := &ground{box: geom.Box{}}
	c := crowdOf(geom.Box{Max: pt(60, 40)}, g, lines)
	free := 0
	for range 4000 {
		b := geom.NoBox().With(at()).With(at())
		if !c.clear(b) {
			continue
		}
		free++
		for _, l := range lines {
			assert.Positive(t, inspect.QuadOf(b).Gap(l[0], l[1]))
		}
	}
	assert.Positive(t, free)
	assert.False(t, c.clear(geom.Box{Min: pt(-1, 0), Max: pt(1, 1)}), "out of the box")
}

// A hull has every point inside and turns one way.
func TestHull(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	var pts []geom.Pt
	for range 60 {
		pts = append(pts, pt(rnd.Float64(), rnd.Float64()))
	}
	h := hull(append([]geom.Pt{}, pts...))
	for i, a := range h {
		b := h[(i+1)%len(h)]
		for _, p := range pts {
			assert.GreaterOrEqual(t, b.Sub(a).Cross(p.Sub(a)), -1e-12)
		}
	}
}

// Pictures fill the room they have: the drawing alone is 60 mm and more in a main
// step, 40 where nothing changes, and as large as its box lets it be.
func TestPicturesFillTheirBox(t *testing.T) {
	pictured(t, func(name string, n *stepDrawing) {
		b := n.pic.Box
		least := 60.0
		if idle(n.st) {
			least = 40
		}
		assert.Greater(t, max(b.W(), b.H()), least, name)
		fill := max(b.W()/n.box.W(), b.H()/n.box.H())
		assert.Greater(t, fill, 0.6, name)
	})
}
