package strength_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/reading"
	"planset/model/source"
	"planset/model/strength"
)

const chair = "petrel-chair/plan.toml"

func solve(t testing.TB, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, opt, &problems)
	var b strings.Builder
	source.Write(&b, &problems, false)
	require.False(t, problems.Failed(), b.String())
	return p
}

// The whole report of each example is finite, in the order of the plan, and the
// same twice.
func TestReports(t *testing.T) {
	for _, name := range []string{chair, "petrel-footstool/plan.toml", "petrel-side-table/plan.toml"} {
		p := solve(t, name, assembly.Options{})
		r := strength.All(p, strength.Usual())
		assert.Equal(t, r, strength.All(p, strength.Usual()))
		assert.Empty(t, r.Skipped)
		assert.Len(t, r.Boards, len(p.Parts))
		fastened := 0
		for _, j := range p.Joints {
			if len(j.Fasteners) > 0 {
				fastened++
			}
		}
		assert.Len(t, r.Joints, fastened, "glue alone is not tried")
		require.Len(t, r.Tips, 3)
		for _, b := range r.Boards {
			assert.False(t, math.IsNaN(b.Stress+b.Sag) || b.Stress < 0, b.Part.Code)
		}
		for _, j := range r.Joints {
			assert.Positive(t, j.Z, j.Joint.Key)
			assert.False(t, math.IsNaN(j.Used), j.Joint.Key)
		}
		for _, g := range r.Gaps {
			assert.Less(t, g.Left, g.Made)
		}
	}
}

// Twice the load on a chair of twice the weight is twice the stress and twice what the joints use: springs let
// go by the sign of their force, not its size.
func TestLoadsScale(t *testing.T) {
	p := solve(t, chair, assembly.Options{})
	one, two := strength.Usual(), strength.Usual()
	two.Seat, two.Back, two.Arm = 2*one.Seat, 2*one.Back, 2*one.Arm
	a := strength.All(p, one)
	for _, q := range p.Parts {
		q.Mass *= 2
	}
	b := strength.All(p, two)
	for i := range a.Boards {
		assert.InEpsilon(t, 2*a.Boards[i].Stress, b.Boards[i].Stress, 1e-6)
	}
	for i := range a.Joints {
		assert.InEpsilon(t, 2*a.Joints[i].Used, b.Joints[i].Used, 1e-6)
	}
	assert.Greater(t, b.Tips[0].Margin, a.Tips[0].Margin, "balance has forces of its own and gains by weight")
}

// The gap of the brief, 3/8 in, is found between the seat slats and in the fan.
func TestChairGaps(t *testing.T) {
	r := strength.All(solve(t, chair, assembly.Options{}), strength.Usual())
	require.Len(t, r.Gaps, 4)
	for _, g := range r.Gaps {
		assert.InDelta(t, 3.0/8*inch, g.Made, 0.05, "%v", g.Parts)
	}
}

// Dry service and a shorter load let every joint carry more.
func TestFactors(t *testing.T) {
	p := solve(t, chair, assembly.Options{})
	wet, dry, long := strength.Usual(), strength.Usual(), strength.Usual()
	dry.Wet, long.Duration = false, strength.Permanent
	a, b, c := strength.All(p, wet), strength.All(p, dry), strength.All(p, long)
	for i := range a.Joints {
		assert.InEpsilon(t, 0.7, a.Joints[i].Z/b.Joints[i].Z, 1e-9)
		assert.InEpsilon(t, 0.9/1.6, c.Joints[i].Z/a.Joints[i].Z, 1e-9)
	}
}

func BenchmarkAll(b *testing.B) {
	p := solve(b, chair, assembly.Options{})
	l := strength.Usual()
	for b.Loop() {
		strength.All(p, l)
	}
}
