package marks_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/geom"
	"planset/model/marks"
	"planset/model/reading"
	"planset/model/source"
)

const (
	chair = "petrel-chair/plan.toml"
	inch  = 25.4
	deg   = math.Pi / 180
)

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

func rowOf(t testing.TB, tab *marks.Table, part, what string) marks.Row {
	t.Helper()
	for _, r := range tab.Rows {
		if r.Part.Key == part && r.What == what {
			return r
		}
	}
	require.Failf(t, "no row", "%s %s", part, what)
	return marks.Row{}
}

func valueOf(t testing.TB, tab *marks.Table, name string) int {
	t.Helper()
	for k, v := range tab.Values {
		if v.Name == name {
			return k
		}
	}
	require.Fail(t, "no value "+name)
	return 0
}

// sideFrame is the bolted frame of the brief seen from the side: y to the rear,
// z up, inches; computed from the brief's sizes alone.
type sideFrame struct {
	foot, heel [2]geom.Pt // front and rear corners
	bolts      [2]geom.Pt // lower, upper
	centerY    float64
}

func petrelSide(centerY float64) sideFrame {
	const seatH, wide = 14.25, 5.5
	slope := 14 * deg
	front := (seatH - wide/math.Cos(slope)) / math.Tan(slope)
	return sideFrame{
		foot:    [2]geom.Pt{{}, {X: 5.5}},
		heel:    [2]geom.Pt{{X: front}, {X: front + 3.5}},
		bolts:   [2]geom.Pt{{X: 1.75, Y: seatH - 4.65}, {X: 3.75, Y: seatH - 2.15}},
		centerY: centerY,
	}
}

// tip solves the frame again exactly when the leg's holes stand at holes and
// the heel's corners at heel (in the stringer as drawn): how far the stringer
// turns on the floor, anticlockwise seen from the right, in radians.
func (s sideFrame) tip(holes, heel [2]geom.Pt) float64 {
	was, is := s.bolts[1].Sub(s.bolts[0]), holes[1].Sub(holes[0])
	turn := math.Atan2(was.Cross(is), was.Dot(is))
	mid, to := s.bolts[0].Add(s.bolts[1]).Mul(0.5), holes[0].Add(holes[1]).Mul(0.5)
	pts := s.foot[:]
	for _, c := range heel {
		pts = append(pts, c.Sub(mid).Turn(turn).Add(to))
	}
	return turn - floorAngle(pts, s.centerY)
}

// floorAngle is the direction of the line under all points on both sides of x.
func floorAngle(pts []geom.Pt, x float64) float64 {
	for i, p := range pts {
		for j, q := range pts {
			if i == j || p.X > x || q.X < x {
				continue
			}
			under := true
			for _, r := range pts {
				under = under && q.Sub(p).Cross(r.Sub(p)) > -1e-12
			}
			if under {
				return math.Atan2(q.Y-p.Y, q.X-p.X)
			}
		}
	}
	return math.NaN()
}

// worse is the greater change of the two ways a mark can be off, in degrees a step.
func worse(change func(e float64) float64, e float64) float64 {
	return math.Max(math.Abs(change(e)), math.Abs(change(-e))) / deg
}

// The leg's bolt holes and the stringer's heel, solved again exactly in the side
// view, agree with the first-order table; a small error agrees closely and 1/16
// in within five per cent.
func TestBoltedFrameAgreesWithTheExactSideView(t *testing.T) {
	p := solve(t, chair, assembly.Options{})
	tab := marks.Rank(p)
	center, mass := 0.0, 0.0
	for _, q := range p.Placed {
		center, mass = center+q.Center.Y*q.Part.Mass, mass+q.Part.Mass
	}
	s := petrelSide(center / mass / inch)
	cases := []struct {
		part, what string
		change     func(e float64) float64
	}{
		{"leg", "lower bolt hole, across", func(e float64) float64 {
			return s.tip([2]geom.Pt{s.bolts[0].Add(geom.Pt{X: e}), s.bolts[1]}, s.heel)
		}},
		{"leg", "lower bolt hole, along", func(e float64) float64 {
			return s.tip([2]geom.Pt{s.bolts[0].Add(geom.Pt{Y: e}), s.bolts[1]}, s.heel)
		}},
		{"leg", "upper bolt hole, across", func(e float64) float64 {
			return s.tip([2]geom.Pt{s.bolts[0], s.bolts[1].Add(geom.Pt{X: e})}, s.heel)
		}},
		{"leg", "upper bolt hole, along", func(e float64) float64 {
			return s.tip([2]geom.Pt{s.bolts[0], s.bolts[1].Add(geom.Pt{Y: e})}, s.heel)
		}},
		{"stringer", "heel cut", func(e float64) float64 {
			low := [2]geom.Pt{s.heel[0].Add(geom.Pt{Y: -e}), s.heel[1].Add(geom.Pt{Y: -e})}
			return s.tip(s.bolts, low)
		}},
	}
	for _, c := range cases {
		for _, v := range []string{"recline", "seat_slope"} {
			got := math.Abs(rowOf(t, tab, c.part, c.what).Change[valueOf(t, tab, v)])
			assert.InEpsilon(t, worse(c.change, 1e-4)*(1.0/16)/1e-4, got, 1e-3, "%s %s: first order", c.what, v)
			assert.InEpsilon(t, worse(c.change, 1.0/16), got, 0.05, "%s %s: 1/16 in", c.what, v)
		}
	}
}

// The turn of the stringer on two bolts is s × d / d², by hand for the lower hole
// moved rearward. The heel rises by the turn times its way from the bolts and
// the floor follows over the base, so of the turn remains 1 − (heel − bolts)/base.
// Turned that way the leg leans on its rear edge and the heel on its rear corner,
// the other way both stand on the front ones.
func TestBoltDerivativeByHand(t *testing.T) {
	p := solve(t, chair, assembly.Options{})
	tab := marks.Rank(p)
	s := petrelSide(0)
	d := s.bolts[1].Sub(s.bolts[0])
	turn := d.Y / d.Dot(d) // of one inch: the lower hole is d.Y below the upper one
	mid := s.bolts[0].Add(s.bolts[1]).Mul(0.5)
	most := 0.0
	for i := range 2 {
		net := turn * (1 - (s.heel[i].X-mid.X)/(s.heel[i].X-s.foot[i].X))
		most = math.Max(most, math.Abs(net))
	}
	row := rowOf(t, tab, "leg", "lower bolt hole, across")
	assert.InEpsilon(t, most/16/deg, math.Abs(row.Change[valueOf(t, tab, "recline")]), 1e-3)
}

// The batten carries the back's feet: it turns the back by its own turn, and the
// rail slid on the back turns nothing but the arms.
func TestBattenTurnsTheBack(t *testing.T) {
	p := solve(t, chair, assembly.Options{})
	tab := marks.Rank(p)
	recline := valueOf(t, tab, "recline")
	var batten, stringer *model.Placed
	for _, q := range p.Placed {
		switch {
		case q.Part.Key == "batten":
			batten = q
		case q.Part.Key == "stringer" && q.Hand == model.RightHand:
			stringer = q
		}
	}
	long := 0.0 // the longest straight line that the batten's end leaves on the stringer
	for _, c := range geom.Contact(batten.Solid, stringer.Solid, 0.05) {
		for i, v := range c.Loops[0] {
			long = math.Max(long, c.Loops[0][(i+1)%len(c.Loops[0])].Sub(v).Len())
		}
	}
	row := rowOf(t, tab, "stringer", "place of the batten, out of line")
	assert.InEpsilon(t, tab.Step/long/deg, math.Abs(row.Change[recline]), 0.03)
	for _, what := range []string{"place of the batten, along", "place of the batten, across"} {
		assert.InDelta(t, 0, rowOf(t, tab, "stringer", what).Change[recline], 0.01, what)
	}
	slid := rowOf(t, tab, "back_rail", "place of the back slat, across")
	assert.InDelta(t, 0, slid.Change[recline], 0.01)
	assert.Greater(t, math.Abs(slid.Change[valueOf(t, tab, "arm_level")]), 0.1)
	assert.Equal(t, "stringer", tab.Rows[0].Part.Key, "the batten's line is the worst mark of this chair")
}

func TestMatchDrillingTakesTheHoleOut(t *testing.T) {
	tab := marks.Rank(solve(t, chair, assembly.Options{}))
	for _, r := range tab.Rows {
		if r.Hole == "" {
			continue
		}
		assert.True(t, r.Matched, r.What)
		assert.Contains(t, r.Harmless, "drilled through")
	}
	clamped := rowOf(t, tab, "leg", "place of the stringer, along")
	assert.True(t, clamped.Clamped)
	k := valueOf(t, tab, "rock")
	assert.Less(t, tab.Values[k].RSS, tab.Values[k].RSSAll, "drilling through leaves less to rock")
	assert.Empty(t, tab.Unread)
}

// A match-drilled hole of the second part is no mark of its own.
func TestMatchedHolesAreNotMarks(t *testing.T) {
	for _, r := range marks.Rank(solve(t, chair, assembly.Options{})).Rows {
		if r.Hole != "" {
			assert.Equal(t, "leg", r.Part.Key)
		}
	}
}

func TestRankIsSortedAndTheSameTwice(t *testing.T) {
	for _, name := range []string{chair, "petrel-footstool/plan.toml", "petrel-side-table/plan.toml"} {
		p := solve(t, name, assembly.Options{})
		a, b := marks.Rank(p), marks.Rank(p)
		assert.Equal(t, a, b)
		for i := 1; i < len(a.Rows); i++ {
			assert.GreaterOrEqual(t, a.Rows[i-1].Score, a.Rows[i].Score-1e-9)
		}
		for _, pair := range a.Pairs {
			k := pair.Value
			one := math.Max(math.Abs(a.Rows[pair.A].Change[k]), math.Abs(a.Rows[pair.B].Change[k]))
			assert.GreaterOrEqual(t, math.Abs(pair.Change), one-1e-9, "a pair is no better than one of it")
			assert.LessOrEqual(t, a.Values[k].RSS, sum(a, k)+1e-9)
		}
	}
}

func sum(tab *marks.Table, k int) float64 {
	s := 0.0
	for _, r := range tab.Rows {
		s += math.Abs(r.Change[k])
	}
	return s
}

func TestCriticalMarksAreFew(t *testing.T) {
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		list := marks.Critical(solve(t, chair, assembly.Options{Unit: unit}))
		require.NotEmpty(t, list)
		assert.LessOrEqual(t, len(list), 8)
		count := map[string]int{}
		for _, m := range list {
			count[m.Part.Key]++
			assert.LessOrEqual(t, count[m.Part.Key], 2)
			want := "each 1⁄16″ off"
			if unit == expr.MM {
				want = "each 1 mm off"
			}
			assert.True(t, strings.HasPrefix(m.Text, want), m.Text)
		}
		assert.Contains(t, list[0].Text, "changes the recline by")
	}
}

func BenchmarkRank(b *testing.B) {
	p := solve(b, chair, assembly.Options{})
	for b.Loop() {
		marks.Rank(p)
	}
}
