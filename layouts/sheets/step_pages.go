package sheets

import "slices"

// mostSteps is how many steps a page may show.
const mostSteps = 3

// A stepPage is the steps of a page, each with the rung it stands on, and what that
// makes of the page.
type stepPage struct {
	steps []*stepForms
	at    []int   // the rung of each
	size  float64 // of the smallest picture that puts something together
	spare float64 // mm that no picture can use
	load  float64 // the share of the page that its steps need at least
}

// sharePages puts steps together so that the pages are few, then so that the
// smallest picture is as large as can be, within what the eye tells apart, then so
// that no page is mostly blank, few hold steps of two stages, and they are evenly
// full. No step is parted.
func sharePages(all []*stepForms) []stepPage {
	return newSharing(all).best()
}

// A sharing knows every page that could be made of some steps in their order.
type sharing struct {
	all   []*stepForms
	pages [][mostSteps]*stepPage // by the first step and how many more; nil if too much
}

func newSharing(all []*stepForms) *sharing {
	s := &sharing{all: all, pages: make([][mostSteps]*stepPage, len(all))}
	for i := range all {
		for n := 1; n <= mostSteps && i+n <= len(all); n++ {
			s.pages[i][n-1] = fillPage(all[i : i+n])
		}
	}
	return s
}

// best finds the largest floor for the smallest picture that costs no page more.
func (s *sharing) best() []stepPage {
	floors := []float64{0}
	for _, list := range s.pages {
		for _, p := range list {
			if p != nil && len(p.steps) > 1 {
				floors = append(floors, p.size)
			}
		}
	}
	slices.Sort(floors)
	floors = slices.Compact(floors)
	few := len(s.over(0))
	lo, hi := 0, len(floors) // the floor at lo can be held, that at hi can not
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if len(s.over(floors[mid])) == few {
			lo = mid
		} else {
			hi = mid
		}
	}
	return s.over(floors[lo] * asLarge)
}

// asLarge is how much smaller a picture may be and look as large.
const asLarge = 0.93

// mostBlank is the share of a page that no picture can use and that may be blank.
const mostBlank = 0.3

// A shareCost is what the pages from a step on cost: less is better, the first
// that differs decides.
type shareCost struct {
	pages, blank, mixed int
	load                float64 // sum of squares: least when all are alike
}

func (c shareCost) less(o shareCost) bool {
	switch {
	case c.pages != o.pages:
		return c.pages < o.pages
	case c.blank != o.blank:
		return c.blank < o.blank
	case c.mixed != o.mixed:
		return c.mixed < o.mixed
	}
	return c.load < o.load
}

// over shares the steps out to the fewest pages on which no picture is smaller
// than a floor, from the last step back. A step alone on its page is always
// allowed: its picture is as large as any page can show it.
func (s *sharing) over(floor float64) []stepPage {
	cost, take := make([]shareCost, len(s.all)+1), make([]int, len(s.all))
	for i := len(s.all) - 1; i >= 0; i-- {
		for k, p := range s.pages[i] {
			if p == nil || k > 0 && p.size < floor {
				continue
			}
			c := cost[i+k+1]
			c.pages++
			c.load += p.load * p.load
			if p.mixed() {
				c.mixed++
			}
			if p.spare > mostBlank*stepsRoom {
				c.blank++
			}
			if take[i] == 0 || c.less(cost[i]) {
				cost[i], take[i] = c, k+1
			}
		}
	}
	var out []stepPage
	for i := 0; i < len(s.all); i += take[i] {
		out = append(out, *s.pages[i][take[i]-1])
	}
	return out
}

// mixed reports whether a page holds steps of more than one stage.
func (p *stepPage) mixed() bool {
	return p.steps[0].step.Stage != p.steps[len(p.steps)-1].step.Stage
}

// stepsRoom is the height of a page for steps and their titles, mm.
const stepsRoom = fieldH - headH - footH

// fillPage puts steps on a page and lets their pictures grow, the smallest first,
// until the page is full; nil when they are more than a page. One step is a page
// however high it is.
func fillPage(steps []*stepForms) *stepPage {
	p := &stepPage{steps: steps, at: make([]int, len(steps)), size: mostSize}
	p.spare = stepsRoom - stepGap*float64(len(steps)-1)
	for _, s := range steps {
		p.spare -= s.least()
	}
	if p.spare < 0 && len(steps) > 1 {
		return nil
	}
	p.load = 1 - p.spare/stepsRoom
	for k := p.smallest(); k >= 0; k = p.smallest() {
		rungs := steps[k].rungs
		p.spare -= rungs[p.at[k]+1].high - rungs[p.at[k]].high
		p.at[k]++
	}
	for i, s := range steps {
		if s.main {
			p.size = min(p.size, s.rungs[p.at[i]].size)
		}
	}
	return p
}

// mostSize is larger than any picture is, of its least size.
const mostSize = 100.0

// smallest is the step with the smallest picture that can still grow in what is
// spare, -1 for none.
func (p *stepPage) smallest() int {
	at := -1
	for i, s := range p.steps {
		k := p.at[i]
		if k+1 == len(s.rungs) || s.rungs[k+1].high-s.rungs[k].high > p.spare {
			continue
		}
		if at < 0 || s.rungs[k].size < p.steps[at].rungs[p.at[at]].size {
			at = i
		}
	}
	return at
}

// markStage adds the bookmark of a stage that begins at the top of what is free.
func (d *desk) markStage(l *leaf, stage string) {
	title, _ := d.stageWords(stage)
	d.mark(title, 1)
	d.marks[len(d.marks)-1].Y = l.y
}

// stagesWords heads a page with steps of one or more stages.
func (d *desk) stagesWords(steps []*stepForms) (title, purpose string) {
	title, purpose = d.stageWords(steps[0].step.Stage)
	for i, st := range steps[1:] {
		if st.step.Stage != steps[i].step.Stage {
			next, _ := d.stageWords(st.step.Stage)
			title += ", " + lower(next)
			purpose = "The end of one stage and the beginning of the next. Do not go on until the check of a step is met."
		}
	}
	return title, purpose
}
