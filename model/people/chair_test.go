package people_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/people"
	"planset/model/reading"
	"planset/model/source"
)

const (
	inch = 25.4
	deg  = math.Pi / 180
)

func solve(t *testing.T, name string, opt assembly.Options) *model.Plan {
	t.Helper()
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), name, "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, opt, &problems)
	require.False(t, problems.Failed())
	return p
}

// The Petrel's seat against its brief: depth 18 in from above the stringer's
// front to the face of the back, slope 14°, recline 27°, so 103° between them;
// the arm's top is arm_h and an inch over the floor.
func TestPetrelSeat(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{})
	s, ok := people.SeatOf(p)
	require.True(t, ok)
	measure := func(name string) float64 {
		for _, m := range p.Measures {
			if m.Name == name {
				return m.Value.V
			}
		}
		require.Fail(t, name)
		return 0
	}
	assert.InDelta(t, measure("seat_height_front"), s.Height, 1e-6)
	assert.InDelta(t, 18*inch, s.Depth, 1e-6)
	assert.InDelta(t, (21-0.125)*inch, s.Width, 1e-6)
	assert.InDelta(t, 2*measure("arm_inset"), s.Between, 1e-6)
	assert.InDelta(t, 14*deg, s.Slope, 1e-9)
	assert.InDelta(t, 27*deg, s.Recline, 1e-9)
	assert.InDelta(t, 103*deg, s.Included, 1e-9)
	assert.InDelta(t, 22.5*inch-s.Height, s.Arm, 1e-6)
	assert.InDelta(t, s.Arm+0.75*s.Depth*math.Sin(14*deg), s.Elbow, 20, "the seat falls away under the arm")
	// The middle slats are 35 1/2 in, turned by half a step: their tops lie a
	// hair under 31 in up the back, 4 1/2 in below which it begins.
	assert.InDelta(t, 31*inch, s.Back, 1)
}

// Every measure of both chairs suits the usual lounge chair, and the
// shares are shares.
func TestPetrelFits(t *testing.T) {
	for _, v := range []string{"", "tall"} {
		s, ok := people.SeatOf(solve(t, "petrel-chair/plan.toml", assembly.Options{Variant: v}))
		require.True(t, ok)
		list := people.Compare(s)
		require.Len(t, list, 9)
		for _, f := range list {
			if !math.IsNaN(f.Men) {
				assert.True(t, f.Men >= 0 && f.Men <= 1 && f.Women >= 0 && f.Women <= 1, f.Name)
			}
			assert.True(t, f.Within(), "%s %s: %.1f", v, f.Name, f.Has)
		}
	}
}

// A stool has no back and no arms: it is measured without.
func TestFootstoolIsMeasured(t *testing.T) {
	s, ok := people.SeatOf(solve(t, "petrel-footstool/plan.toml", assembly.Options{}))
	require.True(t, ok)
	assert.Zero(t, s.Arm)
	assert.Zero(t, s.Recline)
	assert.Positive(t, s.Depth)
	_, ok = people.SeatOf(solve(t, "petrel-side-table/plan.toml", assembly.Options{}))
	assert.False(t, ok, "nobody sits on the table")
}

// A seat asks no change for a body as the middle of the table, more for a tall
// one, and the change grows evenly with stature.
func TestAsk(t *testing.T) {
	s := people.Seat{Height: 380, Depth: 460, Width: 530, Between: 560, Arm: 200, Back: 780}
	tall := people.Of(people.Stature, people.Men)
	a := people.Ask(s, people.Men, tall.P50+50)
	b := people.Ask(s, people.Men, tall.P50+100)
	zero := people.Ask(s, people.Men, tall.P50)
	require.Len(t, a, 6)
	for i := range a {
		assert.Greater(t, b[i].Wants, a[i].Wants, a[i].Name)
		assert.InEpsilon(t, a[i].Wants-zero[i].Wants, b[i].Wants-a[i].Wants, 0.05, a[i].Name)
		assert.InDelta(t, b[i].Wants-b[i].Has, b[i].Change, 1e-9)
	}
	// Popliteal height by hand: median man 430, middle of both (430 + 387)/2.
	assert.InEpsilon(t, 380*430/408.5, zero[0].Wants, 1e-12)
}

func TestLargerIsRoundedAndWideEnough(t *testing.T) {
	s := people.Seat{Height: 380, Depth: 460, Width: 440, Arm: 200, Back: 780}
	for _, o := range people.Larger(s, inch/4) {
		n := o.Wants / (inch / 4)
		assert.InDelta(t, math.Round(n), n, 1e-9)
		if o.Name == "seat width" {
			assert.GreaterOrEqual(t, o.Wants, 456+people.Clothes-inch/8, "broad hips of women and clothes")
		}
		assert.Positive(t, o.Change, o.Name)
		if o.Name == "seat height" {
			assert.LessOrEqual(t, o.Wants, 17*inch, "no higher than a lounge chair")
		}
	}
}

// TestFoundByShape: what a chair's parts are called does not matter, and once its
// author says that it is a chair, seat and back are found without measures.
func TestFoundByShape(t *testing.T) {
	p := solve(t, "petrel-chair/plan.toml", assembly.Options{})
	want, ok := people.SitOf(p)
	require.True(t, ok)
	require.Len(t, want.Arms, 2)
	for _, q := range p.Parts {
		q.Key, q.Name = q.Code, "Board"
	}
	got, ok := people.SitOf(p)
	require.True(t, ok)
	assert.Equal(t, want, got)

	p.Measures, p.Kind = nil, ""
	_, ok = people.SitOf(p)
	assert.False(t, ok, "nothing says that it is sat on")
	p.Kind = model.Chair
	got, ok = people.SitOf(p)
	require.True(t, ok)
	assert.Equal(t, want.Seats, got.Seats)
	assert.Equal(t, want.Backs, got.Backs)
	assert.InDelta(t, 14*deg, got.Slope, 1e-9)
	assert.InDelta(t, 27*deg, got.Recline, 1e-9)
	p.Kind = model.Table
	_, ok = people.SitOf(p)
	assert.False(t, ok)
}
