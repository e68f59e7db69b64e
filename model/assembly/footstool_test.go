package assembly_test

import (
	"math"
	"os"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/reading"
	"planset/model/source"
)

const (
	footstool = "petrel-footstool/plan.toml"
	sideTable = "petrel-side-table/plan.toml"
	deckChair = "petrel-chair/plan.toml"
)

// clean solves an example that must give neither errors nor warnings.
func clean(t *testing.T, name string, opt assembly.Options) (*reading.Draft, *model.Plan) {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, opt, &problems)
	var text strings.Builder
	source.Write(&text, &problems, false)
	require.Zero(t, problems.Len(), text.String())
	return d, p
}

// measured is a measure by name: mm or radians.
func measured(t *testing.T, p *model.Plan, name string) float64 {
	t.Helper()
	for _, m := range p.Measures {
		if m.Name == name {
			return m.Value.V
		}
	}
	require.Failf(t, "no measure", "%s", name)
	return 0
}

// partNamed is a part of the plan by its key.
func partNamed(t *testing.T, p *model.Plan, key string) *model.Part {
	t.Helper()
	for _, mp := range p.Parts {
		if mp.Key == key {
			return mp
		}
	}
	require.Failf(t, "no part", "%s", key)
	return nil
}

// solidPoints are the corners of a solid.
func solidPoints(s *geom.Solid) []geom.V3 {
	var out []geom.V3
	for _, f := range s.Faces {
		for _, l := range f.Loops {
			out = append(out, l...)
		}
	}
	return out
}

func TestSmallPetrelsStandCleanly(t *testing.T) {
	for _, name := range []string{footstool, sideTable} {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			t.Run(path.Dir(name)+unitName(unit), func(t *testing.T) {
				d, p := clean(t, name, assembly.Options{Unit: unit})
				noOverlap(t, p)
				standsLevel(t, p)
				sameLeftAndRight(t, p)
				stepsBuildAll(t, d, p)
			})
		}
	}
}

func unitName(u expr.Unit) string {
	if u == expr.MM {
		return " mm"
	}
	return " in"
}

// noOverlap allows 0.005 in, a saw's own error (CHECKS no. 21).
func noOverlap(t *testing.T, p *model.Plan) {
	t.Helper()
	for i, a := range p.Placed {
		for _, b := range p.Placed[i+1:] {
			assert.LessOrEqual(t, geom.Overlap(a.Solid, b.Solid, 0.01), 0.127, "%s %s into %s %s", a.Hand, a.Part.Key, b.Hand, b.Part.Key)
		}
	}
}

// standsLevel wants four feet flat on the floor and nothing below it.
func standsLevel(t *testing.T, p *model.Plan) {
	t.Helper()
	low, feet := math.Inf(1), 0
	for _, pl := range p.Placed {
		down := 0
		for _, v := range solidPoints(pl.Solid) {
			low = math.Min(low, v.Z)
			if math.Abs(v.Z) < 1e-6 {
				down++
			}
		}
		if down >= 4 {
			feet++
		}
	}
	assert.InDelta(t, 0, low, 1e-6)
	assert.Equal(t, 4, feet, "feet that touch the floor with all their corners")
}

// sameLeftAndRight wants a piece of the same part at the mirror of every piece.
func sameLeftAndRight(t *testing.T, p *model.Plan) {
	t.Helper()
	for _, a := range p.Placed {
		want := a.Center
		want.X = -want.X
		found := false
		for _, b := range p.Placed {
			if b.Part == a.Part && b.Center.Sub(want).Len() < 1e-6 {
				found = true
			}
		}
		assert.True(t, found, "%s %s has no mirror piece", a.Hand, a.Part.Key)
	}
}

// stepsBuildAll wants every piece added once, every joint made once, every part
// made somewhere, loose bolts tightened later, and texts a beginner can follow.
func stepsBuildAll(t *testing.T, d *reading.Draft, p *model.Plan) {
	t.Helper()
	added, made, loose := map[int]int{}, map[*model.Part]bool{}, map[*model.Joint]bool{}
	fastened := map[*model.Joint]int{}
	for i, st := range p.Steps {
		for _, k := range st.Add {
			added[k]++
			assert.True(t, made[p.Placed[k].Part], "step %d adds %s before it is made", st.Number, p.Placed[k].Part.Name)
		}
		for _, mp := range st.Make {
			made[mp] = true
		}
		for _, j := range st.Fasten {
			fastened[j]++
			loose[j] = st.Loose
			for _, f := range j.Fasteners {
				assert.True(t, added[f.Pieces[0]] == 1 && added[f.Pieces[1]] == 1, "step %d fastens %s before its parts are there", st.Number, j.Key)
			}
		}
		for _, j := range st.Tighten {
			loose[j] = false
		}
		plainWords(t, d.Steps[i], st)
	}
	for _, pl := range p.Placed {
		assert.Equal(t, 1, added[pl.Index], "%s %s", pl.Hand, pl.Part.Name)
	}
	for _, j := range p.Joints {
		assert.Equal(t, 1, fastened[j], j.Key)
		assert.False(t, loose[j], "%s is never tightened", j.Key)
	}
}

// plainWords holds a step to the rules of PLANSET section 10.
func plainWords(t *testing.T, d *reading.Step, st *model.Step) {
	t.Helper()
	assert.LessOrEqual(t, len(strings.Fields(st.Do)), 40, st.Title)
	assert.NotEmpty(t, st.Test, st.Title)
	assert.NotEmpty(t, st.Watch, st.Title)
	assert.Positive(t, st.Minutes, st.Title)
	all := strings.ToLower(strings.Join([]string{d.Title.Text, d.Do.Text, d.Test.Text, d.Watch.Text, d.Mistake.Text}, " "))
	for _, word := range []string{"simply", "just ", "obviously", "careful"} {
		assert.NotContains(t, all, word, st.Title)
	}
}

// The stool's low edge meets the front of the chair's seat within an inch
// (CHECKS no. 39), and its top is parallel to the seat.
func TestFootstoolCarriesOnTheSeat(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		_, chair := clean(t, deckChair, assembly.Options{Unit: unit})
		_, stool := clean(t, footstool, assembly.Options{Unit: unit})
		assert.InDelta(t, measured(t, chair, "seat_height_front"), measured(t, stool, "seat_height_front"), 3, "nearer than a slat's rounding")
		assert.InDelta(t, measured(t, chair, "seat_slope"), measured(t, stool, "seat_slope"), 1e-9)
		assert.Less(t, measured(t, stool, "overall_width"), measured(t, chair, "seat_w"), "the stool goes between the chair's legs")
	}
}

// Along a line that falls by s, a leg square to it is cut by the floor at s off
// square, and a plumb one is cut by that line at s off square.
func TestFootstoolCuts(t *testing.T) {
	for _, deg := range []float64{10, 14, 18} {
		s := deg * math.Pi / 180
		_, p := clean(t, footstool, assembly.Options{Unit: expr.Inch, Sizes: map[string]float64{"slope": s}})
		front, rear, stringer := partNamed(t, p, "front_leg"), partNamed(t, p, "rear_leg"), partNamed(t, p, "stringer")
		assert.InDelta(t, 0, front.Ends[0].Miter, 1e-9)
		assert.InDelta(t, s, front.Ends[1].Miter, 1e-9)
		assert.InDelta(t, s, rear.Ends[0].Miter, 1e-9)
		assert.InDelta(t, 0, rear.Ends[1].Miter, 1e-9)
		assert.InDelta(t, s, stringer.Ends[1].Miter, 1e-9)
		assert.Equal(t, "bottom", stringer.Names.Edges[stringer.Ends[1].LongEdge])
		assert.InDelta(t, measured(t, p, "front_long"), front.Length, 1e-6, "the floor cuts the foot where the line says")
		assert.InDelta(t, measured(t, p, "rear_top"), rear.Length, 1e-6)
		standsLevel(t, p)
		assert.InDelta(t, measured(t, p, "top_h")+measured(t, p, "top_d")*math.Sin(s), measured(t, p, "heel_height"), 1e-9)
	}
}

// Bolts of the stringer are drilled through the legs, so in the world they lie
// on the same axis.
func TestFootstoolBoltsPassBothBoards(t *testing.T) {
	_, p := clean(t, footstool, assembly.Options{Unit: expr.MM})
	holes := 0
	for _, f := range p.Joints[0].Fasteners {
		leg, stringer := p.Placed[f.Pieces[0]], p.Placed[f.Pieces[1]]
		for _, h := range stringer.Part.Holes {
			if h.Kind != model.BoltHole {
				continue
			}
			if stringer.Pose.Point(h.InPart).Sub(f.Head).Cross(f.Dir).Len() < 1e-6 {
				holes++
			}
		}
		assert.InDelta(t, leg.Part.Thick+stringer.Part.Thick, f.Grip, 1e-6)
	}
	assert.Equal(t, 8, holes)
	assert.Nil(t, p.Proof, "no leg and stringer stand on the floor by themselves")
}
