package sheets

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
)

// allForms are the steps of a plan on their way to pages.
func allForms(d *desk) []*stepForms {
	var all []*stepForms
	for _, st := range d.plan.Steps {
		all = append(all, d.formsOf(st, stepsRoom-stepHead))
	}
	return all
}

// invented makes steps of chance: some make, some put together, a few of another
// stage, each with rising rungs.
func invented(rnd *rand.Rand, n int) []*stepForms {
	var all []*stepForms
	stage := 'a'
	for range n {
		if rnd.IntN(4) == 0 {
			stage++
		}
		s := &stepForms{step: &model.Step{Stage: string(stage)}, main: rnd.IntN(3) > 0}
		high, size := 30+90*rnd.Float64(), 1+0.2*rnd.Float64()
		for range 1 + rnd.IntN(4) {
			s.rungs = append(s.rungs, rung{high: high, size: size})
			high, size = high+1+30*rnd.Float64(), size*(1.02+0.3*rnd.Float64())
		}
		all = append(all, s)
	}
	return all
}

// ways calls f with every way to part n things into runs of at most most.
func ways(n, most int, runs []int, f func([]int)) {
	if n == 0 {
		f(runs)
		return
	}
	for k := 1; k <= min(n, most); k++ {
		ways(n-k, most, append(slices.Clone(runs), k), f)
	}
}

// The pages of steps are the best of all ways there are, found by trying them all:
// fewest pages, then the largest smallest picture, and among those as large to the
// eye the ones with the least blank and mixed pages, most evenly full.
func TestStepsShareTheBestPages(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 14))
	for range 150 {
		all := invented(rnd, 3+rnd.IntN(7))
		type option struct {
			cost  shareCost
			small float64
		}
		var options []option
		ways(len(all), mostSteps, nil, func(runs []int) {
			o := option{small: mostSize}
			from := 0
			for _, n := range runs {
				p := fillPage(all[from : from+n])
				from += n
				if p == nil {
					return
				}
				o.cost.pages++
				o.cost.load += p.load * p.load
				if p.spare > mostBlank*stepsRoom {
					o.cost.blank++
				}
				if p.mixed() {
					o.cost.mixed++
				}
				if n > 1 {
					o.small = min(o.small, p.size)
				}
			}
			options = append(options, o)
		})
		few := slices.MinFunc(options, func(a, b option) int { return cmp.Compare(a.cost.pages, b.cost.pages) }).cost.pages
		large := 0.0
		for _, o := range options {
			if o.cost.pages == few {
				large = max(large, o.small)
			}
		}
		best := shareCost{pages: math.MaxInt}
		for _, o := range options {
			if o.small >= large*asLarge && o.cost.less(best) {
				best = o.cost
			}
		}
		var got shareCost
		var order []*stepForms
		for _, p := range sharePages(all) {
			got.pages++
			got.load += p.load * p.load
			if p.spare > mostBlank*stepsRoom {
				got.blank++
			}
			if p.mixed() {
				got.mixed++
			}
			order = append(order, p.steps...)
		}
		assert.Equal(t, all, order, "each step once, in order")
		assert.Equal(t, few, got.pages)
		assert.Equal(t, [2]int{best.blank, best.mixed}, [2]int{got.blank, got.mixed})
		assert.InDelta(t, best.load, got.load, 1e-9)
	}
}

// On a page the smallest picture is as large as any choice of heights makes it.
func TestPicturesOfAPageGrowAlike(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 71))
	tried := 0
	for range 300 {
		steps := invented(rnd, 1+rnd.IntN(mostSteps))
		p := fillPage(steps)
		if p == nil || p.spare < 0 {
			continue
		}
		tried++
		smallest := func(at []int) (size, high float64) {
			size, high = math.Inf(1), stepGap*float64(len(steps)-1)
			for i, s := range steps {
				size = min(size, s.rungs[at[i]].size)
				high += stepHead + s.rungs[at[i]].high
			}
			return size, high
		}
		got, high := smallest(p.at)
		assert.InDelta(t, stepsRoom-p.spare, high, 1e-9)
		best := 0.0
		at := make([]int, len(steps))
		for done := false; !done; {
			if size, high := smallest(at); high <= stepsRoom+1e-9 {
				best = max(best, size)
			}
			done = true
			for i := range at { // the next choice, as a counter counts
				if at[i]++; at[i] < len(steps[i].rungs) {
					done = false
					break
				}
				at[i] = 0
			}
		}
		assert.InDelta(t, best, got, 1e-12)
	}
	assert.Greater(t, tried, 100)
}

// A step that puts something together is drawn no smaller than a box of 90 by 90
// would show it, in whatever box it stands; where its notes press, little smaller.
func TestMainPicturesAreDrawnLarge(t *testing.T) {
	for _, in := range []Input{drawn(t, "tall", expr.Inch), drawnPiece(t, "side-table", "", expr.MM)} {
		d := newDesk(in, nil)
		pages, _ := d.drawnPages(allForms(d))
		for _, p := range pages {
			for i, s := range p.steps {
				r := s.rungs[p.at[i]]
				if !s.main {
					continue
				}
				assert.GreaterOrEqual(t, r.size, 1-1e-9, "step %d", s.step.Number)
				got := d.fitStep(s.step, d.stepScene(s.step), r.picture())
				least := d.fitStep(s.step, d.stepScene(s.step), geom.Box{Max: pt(mainLeast, mainLeast)})
				assert.Greater(t, got.pic.Scale, 0.9*least.pic.Scale, "step %d", s.step.Number)
			}
		}
	}
}

// How far a picture reaches is known before it is drawn.
func TestStepReach(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		for _, st := range in.Plan.Steps {
			if onlyMakes(st) || d.shows(st) == nil {
				continue
			}
			cam := lookFrom(viewOf(st))
			guess, kinds := d.stepReach(st, cam)
			s := d.stepScene(st)
			b := s.flatBox(cam)
			assert.InEpsilon(t, b.W(), guess.W(), 0.05, "step %d", st.Number)
			assert.InEpsilon(t, b.H(), guess.H(), 0.05, "step %d", st.Number)
			assert.Equal(t, s.kinds(), kinds, "step %d", st.Number)
		}
	})
}

// However a step is set, it says the same: no caution, no check is left out.
func TestEveryFormSaysTheSame(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		for _, st := range in.Plan.Steps {
			want := ""
			for _, f := range d.formsTried(st) {
				var b strings.Builder
				gather(&b, f.strip.items)
				gather(&b, f.band.items)
				gather(&b, f.words.items)
				if f.proof != nil {
					gather(&b, f.proof.items)
				}
				list := strings.Fields(b.String())
				slices.Sort(list)
				got := strings.Join(list, " ")
				want = orElse(want, got)
				assert.Equal(t, want, got, "step %d, picture %g wide", st.Number, f.picW)
				for _, c := range d.cautionsOf(st) {
					assert.Contains(t, got, strings.ToUpper(string(c.Signal)))
				}
			}
		}
	})
}

// Steps are few to a page turn: what the pages of the examples may be.
func TestStepPagesAreFew(t *testing.T) {
	eachBook(t, func(t *testing.T, name string, in Input) {
		d := newDesk(in, nil)
		pages, _ := d.drawnPages(allForms(d))
		assert.Less(t, float64(len(pages)), 0.6*float64(len(in.Plan.Steps)), name)
		for _, p := range pages {
			assert.LessOrEqual(t, len(p.steps), mostSteps)
			assert.GreaterOrEqual(t, p.spare, 0.0)
		}
	})
}

// A rung that does not come out is dropped with those below it of its width, and
// the last one stays.
func TestWithoutARung(t *testing.T) {
	slim, broad := &form{picW: 82}, &form{picW: 100}
	s := &stepForms{rungs: []rung{{80, 1, slim}, {90, 1.1, broad}, {95, 1.2, slim}, {99, 1.3, slim}}}
	require.True(t, s.without(s.rungs[2]))
	assert.Equal(t, []rung{{90, 1.1, broad}, {99, 1.3, slim}}, s.rungs)
	require.True(t, s.without(s.rungs[1]))
	assert.False(t, s.without(s.rungs[0]))
	assert.Len(t, s.rungs, 1)
}

// Parts of one picture have one scale, but for those that would be too small; none
// is larger than it need be, none leaves the box, none meets another.
func TestPartsInAPictureShareTheirScale(t *testing.T) {
	eachBook(t, func(t *testing.T, _ string, in Input) {
		d := newDesk(in, nil)
		for _, st := range in.Plan.Steps {
			if !onlyMakes(st) {
				continue
			}
			list := d.madeList(st)
			for _, box := range []geom.Box{{Max: pt(66, 60)}, {Max: pt(91, 90)}, {Min: pt(20, 30), Max: pt(111, 160)}} {
				scale := list.scaleIn(box)
				if scale == 0 {
					_, high := list.shelves(box.W(), list.least())
					assert.Greater(t, high, box.H(), "it is too high even at the least")
					continue
				}
				for _, m := range list {
					long := m.flat.W() * m.scale(scale)
					if m.scale(scale) != scale {
						assert.LessOrEqual(t, long, madeLegible+1e-9, "%s: only what is small has its own", m.part.Name)
					}
					assert.LessOrEqual(t, long, madeMost+1e-9)
				}
				drawn := render.Bounds(d.makePicture(st, box)...)
				assert.Equal(t, box.Grow(0.4), box.Grow(0.4).Union(drawn), "step %d", st.Number)
			}
		}
	})
}

func BenchmarkSharePages(b *testing.B) {
	d := newDesk(drawn(b, "", expr.Inch), nil)
	for b.Loop() {
		sharePages(allForms(d))
	}
}
