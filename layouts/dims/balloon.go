package dims

import (
	"cmp"
	"math"
	"slices"

	"planset/fonts"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// Sizes of balloons, mm.
const (
	tabHigh  = 7.0
	tabAway  = 9.0  // of the middle of the nearest row of tabs from the drawing
	tabRow   = 11.0 // from one row to the next
	tabClear = 2.0  // between tabs
	countGap = 1.2
	dotSize  = 0.6
)

// A seat is one place of a balloon's tab, with its leader.
type seat struct {
	option
	tip, end geom.Pt
	tab      geom.Pt // lower-left corner
	count    geom.Pt // centre of the count
	words    words
	price    float64
}

// A sitter is a balloon on its way to a seat.
type sitter struct {
	Balloon
	task  *task
	words words // the count before the tab, "5 ×"
	after words // and after it, "× 5"
	width float64
	seats []seat
	at    int       // chosen seat, -1 for none
	odds  []float64 // what was learned against each seat
}

func (b Balloon) tasks(*Field) []task {
	t := task{name: "the balloon " + b.Code + b.Hand, group: "balloon", rank: rankBalloon}
	t.balloon = &b
	return []task{t}
}

func countWords(text string) words {
	return newWords([]string{text}, lettering.Style{Face: fonts.Sans, Size: render.Note}, 0)
}

// balloons seats all balloons together round what is already placed.
func (s *scene) balloons(all []*task) {
	var sitters []*sitter
	s.slopes, s.rows = slopesOf(), ringsOf(s.field)
	for _, t := range all {
		if t.balloon == nil {
			continue
		}
		p := &sitter{Balloon: *t.balloon, task: t, at: -1}
		p.width = lettering.TabWidth(p.Code, p.Hand, tabHigh)
		if p.Count != "" {
			p.words = countWords(p.Count + " ×")
			p.after = countWords("× " + p.Count)
		}
		p.seats = s.seats(p)
		p.odds = make([]float64, len(p.seats))
		sitters = append(sitters, p)
	}
	seatAll(sitters)
	for _, p := range sitters {
		if p.at < 0 {
			continue
		}
		st := &p.seats[p.at]
		st.draw = func() []render.Item { return p.items(st) }
		p.task.chosen = &st.option
		s.placed = append(s.placed, p.task)
	}
}

// slopeAngles are a leader's angles to the level with their prices: 30 to 75 degrees,
// best near 50; flatter and steeper ones only where there is no other way.
var slopeAngles = [...]struct{ deg, price float64 }{
	{50, 0}, {45, 0}, {55, 0}, {60, 0.3}, {40, 0.3}, {65, 0.7}, {35, 0.7}, {70, 1.2}, {31, 1.2}, {74, 1.6},
	{25, oddSlope}, {80, oddSlope}, {18, 2 * oddSlope}, {86, 2 * oddSlope},
}

// A ring is the rows and columns all round that tabs stand on: how far from the
// drawing, and what they cost.
type ring struct{ away, price float64 }

// ringsOf are the rows that tabs may stand on: a few outside the drawing, and
// inside it where that is wanted, there half a row apart.
func ringsOf(f *Field) []ring {
	rings := []ring{{tabAway, 0}, {tabAway + tabRow, 4}, {tabAway + 2*tabRow, 9}, {tabAway + 3*tabRow, 15}}
	for k := 1; f.Inside && k <= 10; k++ {
		rings = append(rings, ring{tabAway - float64(k)*tabRow/2, float64(k) + 7*float64(k%2)})
	}
	return rings
}

// A slope is the tangent of a leader's angle to the level and what it costs.
type slope struct{ tan, price float64 }

func slopesOf() []slope {
	var out []slope
	for _, a := range slopeAngles {
		out = append(out, slope{math.Tan(a.deg * math.Pi / 180), a.price})
	}
	return out
}

// oddSlope is dearer than running over a part that is not named.
const oddSlope = 150

// seatsKept is how many seats of a balloon are looked at.
const seatsKept = 45

// seats returns the cheapest places for p: where leaders of the liked slopes
// meet the rows and columns round the drawing. What lies under a leader only
// makes it dearer, so places are looked at in the order of what they cost
// without that, until enough are found that no later one can beat.
func (s *scene) seats(p *sitter) []seat {
	points := s.points[:0]
	for i, tip := range append([]geom.Pt{p.At}, p.Or...) {
		points = s.rowPoints(points, p, tip, 0.5*float64(min(i, 1)))
	}
	s.points = points
	todo := cheapest(points)
	var seats []seat
	limit := float64(never) // price of the last seat that is kept
	for len(todo) > 0 && todo[0].price < limit {
		c := todo.next()
		st, ok := s.seatAt(p, c, limit)
		if !ok {
			continue
		}
		i, _ := slices.BinarySearchFunc(seats, st.price, func(a seat, price float64) int {
			if a.price <= price { // behind those that cost the same
				return -1
			}
			return 1
		})
		seats = slices.Insert(seats, i, st)
		if len(seats) >= seatsKept {
			seats = seats[:seatsKept]
			limit = seats[seatsKept-1].price
		}
	}
	return seats
}

// seatAt prices the seat of p at c; it is none when it costs limit or more.
func (s *scene) seatAt(p *sitter, c rowPoint, limit float64) (seat, bool) {
	price := c.price + s.overFaces(p, c.tip, c.at, limit-c.price)
	if price >= limit {
		return seat{}, false
	}
	st := p.seat(c.tip, c.at)
	st.base = price
	st.close()
	if !within(st.box, s.field.Box) {
		return seat{}, false
	}
	st.option.alone, st.known = s.alone(&st.option, limit), true
	st.price = s.price(&st.option, limit)
	return st, st.price < limit
}

// rowPoints adds the centres of tabs on the rows and columns round the drawing
// that a leader from tip reaches at a liked slope, where p's tab has room and
// covers no face.
func (s *scene) rowPoints(pts []rowPoint, p *sitter, tip geom.Pt, extra float64) []rowPoint {
	half := geom.Pt{X: p.width/2 + 0.25, Y: tabHigh/2 + 0.25}
	for _, row := range s.rows {
		b := s.field.Body.Grow(row.away)
		if b.Empty() {
			break
		}
		for _, sl := range s.slopes {
			t := sl.tan
			for _, sign := range [2]float64{-1, 1} {
				top, low := b.Max.Y-tip.Y, tip.Y-b.Min.Y
				left, right := tip.X-b.Min.X, b.Max.X-tip.X
				for _, c := range [4]geom.Pt{
					{X: tip.X + sign*top/t, Y: b.Max.Y}, {X: tip.X + sign*low/t, Y: b.Min.Y},
					{X: b.Min.X, Y: tip.Y + sign*left*t}, {X: b.Max.X, Y: tip.Y + sign*right*t},
				} {
					tab := geom.Box{Min: c.Sub(half), Max: c.Add(half)}
					if b.Grow(1e-6).Has(c) && within(tab, s.field.Box) && !s.seen.Any(tab) {
						pts = append(pts, rowPoint{tip: tip, at: c, price: row.price + sl.price + extra + 0.12*c.Sub(tip).Len()})
					}
				}
			}
		}
	}
	return pts
}

// seat puts p's tab with its centre at c.
func (p *sitter) seat(tip, c geom.Pt) seat {
	st := seat{tip: tip, tab: c.Sub(geom.Pt{X: p.width / 2, Y: tabHigh / 2})}
	st.end = meetTab(tip, c, st.tab, p.width)
	st.add(thread, tip, st.end)
	st.texts = append(st.texts, inspect.Quad{C: c, U: geom.Pt{X: 1}, W: p.width + 0.5, H: tabHigh + 0.5})
	if p.Count != "" {
		side := 1.0
		st.words = p.after
		if tip.X > c.X {
			side, st.words = -1, p.words
		}
		st.count = c.Add(geom.Pt{X: side * (p.width/2 + countGap + st.words.size().W/2)})
		st.texts = append(st.texts, st.words.quad(st.count, 0))
	}
	return st
}

// meetTab returns where the line from tip to the centre c meets the outline of
// the tab whose corner is at low. The clipped corner is the upper right one.
func meetTab(tip, c, low geom.Pt, width float64) geom.Pt {
	const clip = 0.3 * tabHigh
	x, y := low.X+width, low.Y+tabHigh
	rim := [5]geom.Pt{low, {X: x, Y: low.Y}, {X: x, Y: y - clip}, {X: x - clip, Y: y}, {X: low.X, Y: y}}
	d := c.Sub(tip)
	for i := range rim {
		a := rim[i]
		e := rim[(i+1)%5].Sub(a)
		den := d.Cross(e)
		if den == 0 {
			continue
		}
		t, u := a.Sub(tip).Cross(e)/den, a.Sub(tip).Cross(d)/den
		if t >= 0 && t <= 1 && u >= 0 && u <= 1 {
			return tip.Add(d.Mul(t))
		}
	}
	return c
}

func (p *sitter) items(st *seat) []render.Item {
	items := []render.Item{thin(render.Lines(st.tip, st.end)), black(render.Circle(st.tip, dotSize))}
	tab, _ := lettering.Tab(st.tab, p.Code, p.Hand, tabHigh, p.Accent)
	items = append(items, tab...)
	if p.Count != "" {
		items = append(items, st.words.draw(st.count, 0))
	}
	return items
}

const (
	sweeps  = 120  // of the search for seats, at most
	quarrel = 1000 // price of two balloons in each other's way
)

// seatAll chooses a seat for each sitter so that none are in each other's way.
// It is a min-conflicts search that learns: each sweep moves every balloon to
// its cheapest seat, and seats that still quarrel become dearer, until nothing
// moves. What quarrels at the end stays without a seat.
func seatAll(all []*sitter) {
	order := slices.Clone(all)
	slices.SortStableFunc(order, func(a, b *sitter) int { return cmp.Compare(len(a.seats), len(b.seats)) })
	for _, p := range order {
		p.move(all)
	}
	for range sweeps {
		moved, clashes := false, false
		for _, p := range order {
			if p.at < 0 {
				continue
			}
			if p.quarrels(p.at, all) > 0 {
				clashes = true
				p.odds[p.at] += quarrel / 2
			}
			moved = p.move(all) || moved
		}
		if !moved && !clashes {
			break
		}
	}
	settleQuarrels(order, all)
}

// settleQuarrels takes away the seats of those with the most quarrels, then
// lets everyone without a seat look once more.
func settleQuarrels(order, all []*sitter) {
	for {
		var worst *sitter
		most := 0
		for _, p := range order {
			if p.at < 0 {
				continue
			}
			if n := p.quarrels(p.at, all); n > most {
				worst, most = p, n
			}
		}
		if worst == nil {
			break
		}
		worst.at = -1
	}
	for _, p := range order {
		for i := range p.odds {
			p.odds[i] = 0
		}
		if p.move(all); p.at >= 0 && p.quarrels(p.at, all) > 0 {
			p.at = -1
		}
	}
}

// move gives p its cheapest seat and reports whether that is another one.
func (p *sitter) move(all []*sitter) bool {
	best, price := -1, math.Inf(1)
	for i := range p.seats {
		sum := p.seats[i].price + p.odds[i]
		if sum >= price {
			continue
		}
		if sum += quarrel * float64(p.quarrels(i, all)); sum < price {
			best, price = i, sum
		}
	}
	was := p.at
	p.at = best
	return best != was
}

// quarrels counts the balloons that seat i of p is in the way of.
func (p *sitter) quarrels(i int, all []*sitter) int {
	n := 0
	for _, q := range all {
		if q != p && q.at >= 0 && clash(&p.seats[i], &q.seats[q.at]) {
			n++
		}
	}
	return n
}

// clash reports whether two seats can not both be taken.
func clash(a, b *seat) bool {
	if !a.box.Grow(tabClear).Meets(b.box) {
		return false
	}
	for _, t := range a.texts {
		for _, u := range b.texts {
			if t.Box().Grow(tabClear).Meets(u.Box()) {
				return true
			}
		}
	}
	if inspect.Cross(a.tip, a.end, b.tip, b.end) || beside(&a.lines[0], &b.lines[0]) > 0 {
		return true
	}
	return leaderOn(a, b) || leaderOn(b, a)
}

// leaderOn reports whether a's leader touches b's tab or passes over the dot
// of b's leader.
func leaderOn(a, b *seat) bool {
	for _, t := range b.texts {
		if tooClose(t, a.lines[0]) {
			return true
		}
	}
	return inspect.Distance(b.tip, a.tip, a.end) < 2*dotSize && b.tip.Sub(a.tip).Len() > 2*dotSize
}
