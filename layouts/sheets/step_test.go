package sheets

import (
	"math"
	"slices"
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

// In the pictures of the steps every piece is new once, and never gone again
// except where a step is built on the bench.
func TestEveryPieceIsNewOnce(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		fresh := map[int]int{}
		for _, st := range in.Plan.Steps {
			shown := map[int]woodwork.Look{}
			for _, p := range d.stepScene(st).pieces {
				if p.ID < hardwareID {
					shown[p.ID] = p.Look
				}
				// What was built on the bench is toned once more where it is set in
				// place; it is new only where it is added.
				if p.Look == woodwork.Fresh && slices.Contains(st.Add, p.ID) {
					fresh[p.ID]++
				}
			}
			for _, i := range d.present(st) {
				if _, ok := shown[i]; !ok {
					assert.True(t, st.OnBench(), "piece %d is missing in step %d", i, st.Number)
				}
			}
		}
		for i := range in.Plan.Placed {
			assert.Equal(t, 1, fresh[i], "piece %d", i)
		}
	})
}

// Every bolt and screw is driven in the picture of one step.
func TestEveryFastenerIsDrivenOnce(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		n := map[*model.Hardware]int{}
		for _, st := range in.Plan.Steps {
			for _, v := range d.stepScene(st).drives {
				if v.head != v.f.Head { // else it is seated and being tightened
					n[v.f.Hardware]++
				}
			}
		}
		for _, h := range in.Plan.Hardware {
			if !h.Part {
				assert.Equal(t, h.Quantity, n[h], h.Code)
			}
		}
	})
}

// Hardware used so far grows to the whole, and the last step that uses a kind
// uses it up.
func TestRunningCounts(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	d := newDesk(in, nil)
	last := map[*model.Hardware]int{}
	for _, st := range in.Plan.Steps {
		for _, u := range d.hardwareIn(st) {
			assert.Equal(t, last[u.h]+u.count, u.so)
			last[u.h] = u.so
		}
	}
	for _, h := range in.Plan.Hardware {
		assert.Equal(t, h.Quantity, last[h], h.Code)
	}
}

// A bolt or screw in a picture stands off its hole on its own axis.
func TestHardwareIsOnItsAxis(t *testing.T) {
	in := drawn(t, "", expr.MM)
	d := newDesk(in, nil)
	for _, st := range in.Plan.Steps {
		for _, v := range d.stepScene(st).drives {
			off := v.f.Head.Sub(v.head)
			if off == (geom.V3{}) {
				assert.NotEmpty(t, st.Tighten, "in its place only to be tightened")
				continue
			}
			assert.InDelta(t, off.Len(), off.Dot(v.f.Dir), 1e-6, "on the axis")
			assert.Greater(t, off.Len(), v.f.Length, "clear of the wood")
		}
	}
}

// In an exploded view left and right move alike, and what is fastened together
// comes apart.
func TestSpreadIsAlikeOnBothSides(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	d := newDesk(in, nil)
	var all []int
	for i := range in.Plan.Placed {
		all = append(all, i)
	}
	off := d.spread(all, 0)
	for i, p := range in.Plan.Placed {
		for k, q := range in.Plan.Placed {
			if p.Hand == model.RightHand && q.Hand == model.LeftHand && p.Part == q.Part {
				v := off[k]
				v.X = -v.X
				assert.InDelta(t, 0, off[i].Sub(v).Len(), 1, "part %s", p.Part.Code)
			}
		}
	}
	for _, j := range in.Plan.Joints {
		f := j.Fasteners[0]
		assert.Greater(t, off[f.Pieces[0]].Sub(off[f.Pieces[1]]).Len(), 20.0, j.Key)
	}
}

// The fan's gap is the same from foot to top, and its table is symmetric.
func TestFanOfTheChair(t *testing.T) {
	eachBook(t, func(t *testing.T, name string, in Input) {
		if !strings.HasPrefix(name, "chair") {
			assert.Empty(t, fans(in.Plan))
			return
		}
		list := fans(in.Plan)
		require.Len(t, list, 1)
		f := list[0]
		require.Len(t, f.slats, 6)
		gaps, ok := f.gaps(30)
		require.True(t, ok)
		require.Len(t, gaps, 5)
		gap := gaps[2]
		assert.Contains(t, f.words(in.Plan), "Gap "+in.Plan.Unit.Long(gap)+" between all slats, the same from foot to top")
		for y := 30.0; y < f.shoulder(); y += 50 {
			for i := 1; i < len(f.slats); i++ {
				_, r, ok1 := f.crossing(f.slats[i-1], y)
				l, _, ok2 := f.crossing(f.slats[i], y)
				require.True(t, ok1 && ok2)
				tilt := math.Cos(f.step() * math.Abs(float64(i)-3))
				assert.InDelta(t, gap, (l-r)*tilt, 0.05, "between %d and %d at %g", i-1, i, y)
			}
			l, r := f.width(y)
			assert.InDelta(t, -l, r, 0.01, "the same both sides")
		}
		for i, m := range in.Plan.Measures {
			if m.Name == "gap" {
				assert.InDelta(t, in.Plan.Measures[i].Value.V, gap, 0.01)
			}
		}
	})
}

// The whole book has nothing in anything's way, all inside the field, and no
// drawing left a number out.
func TestDrawnBooksAreClean(t *testing.T) {
	eachBook(t, clean)
	for _, piece := range []string{"footstool", "side-table"} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			clean(t, piece+" "+unit.String(), drawnPiece(t, piece, "", unit))
		}
	}
}

func clean(t *testing.T, name string, in Input) {
	book, problems := Compose(in)
	assert.Empty(t, problems, name)
	for i, p := range book.Pages {
		if strings.HasPrefix(p.Title, "Template") {
			continue // the tiles' own tests look at these
		}
		corner := geom.Pt{X: (p.Size.W - fieldW) / 2, Y: (p.Size.H - fieldH) / 2}
		field := geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: fieldW, Y: fieldH})}.Grow(0.36)
		assert.Empty(t, inspect.Outside(p.Items, field), "%s page %d", name, i+1)
		assert.Empty(t, inspect.Collisions(p.Items), "%s page %d, %s", name, i+1, p.Title)
	}
}

// Steps that put something together have a picture of 90 mm and more.
func TestPicturesAreLarge(t *testing.T) {
	in := drawn(t, "", expr.Inch)
	book, _ := Compose(in)
	seen := 0
	for _, p := range book.Pages {
		each(p.Items, func(item render.Item) {
			g, ok := item.(render.Group)
			if !ok || !strings.HasPrefix(g.Name, "step ") {
				return
			}
			seen++
			b := inspect.Bounds(g.Items)
			assert.Greater(t, max(b.W(), b.H()), 70.0, g.Name)
		})
	}
	made := 0
	for _, st := range in.Plan.Steps {
		if onlyMakes(st) {
			made++
		}
	}
	assert.Equal(t, len(in.Plan.Steps)-made, seen)
}

// A joint with nothing but glue is found by the faces that touch: four mitered
// corners of the side table, each half a right angle in the cut.
func TestGluedCorners(t *testing.T) {
	in := drawnPiece(t, "side-table", "", expr.Inch)
	d := newDesk(in, nil)
	found := 0
	for _, j := range in.Plan.Joints {
		if !j.Bond {
			continue
		}
		for _, g := range d.gluings(j) {
			found++
			assert.Greater(t, g.patch.Area, 500.0)
			assert.InDelta(t, math.Abs(g.patch.N.Dot(g.a.Pose.Along)), math.Abs(g.patch.N.Dot(g.b.Pose.Along)), 1e-3, "a miter is the same on both sides")
		}
	}
	assert.Equal(t, 4, found)
}

// Upside down, the feet are up in the picture, the same sides are seen, and
// left and right are not mirrored.
func TestUpsideDown(t *testing.T) {
	up, err := camera("front left high")
	require.NoError(t, err)
	down, err := camera("front left high upside down")
	require.NoError(t, err)
	assert.Positive(t, up.Flat(geom.V3{Z: 1}).Y)
	assert.Negative(t, down.Flat(geom.V3{Z: 1}).Y, "the top hangs down")
	assert.Negative(t, down.Toward.Z, "the underside is seen")
	for _, side := range []geom.V3{{Y: -1}, {X: -1}} { // front and left
		assert.Positive(t, down.Toward.Dot(side))
		assert.Positive(t, up.Toward.Dot(side))
	}
	hand := func(r, u, w geom.V3) bool { return r.Cross(u).Dot(w) > 0 }
	assert.Equal(t, hand(up.Right, up.Up, up.Toward), hand(down.Right, down.Up, down.Toward))
	assert.Contains(t, seenFrom("front left high upside down"), "front left, above, the work upside down")
	_, err = camera("nowhere upside down")
	assert.Error(t, err)
}
