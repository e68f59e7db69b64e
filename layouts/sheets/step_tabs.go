package sheets

import (
	"math"

	"planset/layouts/dims"
	"planset/layouts/inspect"
	"planset/layouts/lettering"
	"planset/model/geom"
	"planset/render"
)

// Sizes of the tabs in pictures of steps, mm.
const (
	stepTab   = 7.0 // high
	tabGap    = 1.2 // from the tab to its count
	tabDot    = 0.6 // at the end of its leader
	tabShort  = 6.0 // from the end of the leader to the middle of the tab, at least
	tabLong   = 90.0
	tabTurn   = 12 // degrees from one direction to the next
	mostSpots = 12 // of a part that a leader is tried on
)

// A placedTab is the tab of one part and hand on its way to a place.
type placedTab struct {
	a        added
	count    string
	sizes    [2]geom.Box // of the count before and behind the tab
	tip, mid geom.Pt
	tab      geom.Box
	words    geom.Box // of the count; empty when there is one piece
	price    float64
}

// balloons names the new pieces, one tab for each part and hand, each where its
// leader runs over the least wood of other parts. What finds no such place is
// returned, to be placed wherever there is room.
func (n *stepDrawing) balloons() []dims.Wish {
	var left []dims.Wish
	for _, a := range n.d.addedIn(n.st) {
		spots := n.spotsOf(a)
		if len(spots) == 0 {
			n.d.problem("step %d: part %s%s is not seen from %q", n.st.Number, a.part.Code, a.hand, n.st.View)
			continue
		}
		best := placedTab{a: a, price: math.Inf(1)}
		if a.count > 1 {
			best.count = digits(a.count)
			for i, words := range [2]string{best.count + " ×", "× " + best.count} {
				best.sizes[i] = inspect.Bounds(lettering.Line(geom.Pt{}, words, noteStyle, toLeft))
			}
		}
		for i, at := range spots {
			for deg := -180; deg < 180; deg += tabTurn {
				n.tryTab(&best, at, geom.Pt{X: 1}.Turn(float64(deg)*math.Pi/180), 0.4*float64(min(i, 1)))
			}
		}
		if math.IsInf(best.price, 1) {
			left = append(left, dims.Balloon{At: spots[0], Or: spots[1:], Code: a.part.Code, Hand: a.hand, Count: best.count, Accent: n.d.accent})
			continue
		}
		n.setTab(best)
	}
	return left
}

// spotsOf are places where pieces of a part and hand are seen, the best first.
func (n *stepDrawing) spotsOf(a added) []geom.Pt {
	var out []geom.Pt
	for _, i := range n.st.Add {
		if p := n.d.plan.Placed[i]; p.Part == a.part && handLetter(p.Hand) == a.hand {
			out = append(out, n.pic.Spots(i)...)
		}
	}
	return out[:min(len(out), mostSpots)]
}

// tryTab tries the lengths of a leader along one direction.
func (n *stepDrawing) tryTab(best *placedTab, at, dir geom.Pt, price float64) {
	if flat := math.Abs(dir.Y); flat < 0.45 || flat > 0.97 { // leaders lean, as a rule
		price += 4
	}
	tip := n.ground.at(at)
	own := func(id int) bool { return id == tip || n.alike(id, tip) }
	wide := lettering.TabWidth(best.a.part.Code, best.a.hand, stepTab)
	done := 0.0
	for long := tabShort; long <= tabLong; long += noteStep {
		price += woodPrice * n.ground.over(at.Add(dir.Mul(done)), at.Add(dir.Mul(long)), own)
		done = long
		if price+0.25*long >= best.price {
			return
		}
		p := placedTab{a: best.a, count: best.count, sizes: best.sizes, tip: at, mid: at.Add(dir.Mul(long)), price: price + 0.25*long}
		half := pt(wide/2, stepTab/2)
		p.tab = geom.Box{Min: p.mid.Sub(half), Max: p.mid.Add(half)}
		p.setCount()
		if p.price += n.tabMeets(p); p.price < best.price {
			*best = p
		}
	}
}

// setCount puts the count on the side of the tab that is away from its leader.
func (p *placedTab) setCount() {
	if p.count == "" {
		p.words = geom.NoBox()
		return
	}
	size := p.size()
	y := p.mid.Y - lettering.Cap(noteStyle)/2
	x := p.tab.Max.X + tabGap
	if p.before() {
		x = p.tab.Min.X - tabGap - size.W()
	}
	p.words = geom.Box{Min: pt(x, y), Max: pt(x+size.W(), y+size.H())}
}

// before reports whether the count stands before the tab.
func (p *placedTab) before() bool { return p.tip.X > p.mid.X }

// size is the box round the count, from where its baseline begins.
func (p *placedTab) size() geom.Box {
	if p.before() {
		return p.sizes[0]
	}
	return p.sizes[1]
}

// wordsAt is where the baseline of the count begins.
func (p *placedTab) wordsAt() geom.Pt {
	return p.words.Min.Sub(p.size().Min)
}

// countWords are "2 ×" before a tab and "× 2" behind it.
func (p *placedTab) countWords() string {
	if p.before() {
		return p.count + " ×"
	}
	return "× " + p.count
}

// tabMeets is the price of what a tab and its leader are in the way of, infinite
// where they can not be.
func (n *stepDrawing) tabMeets(p placedTab) float64 {
	box := p.tab
	if p.count != "" {
		box = box.Union(p.words)
	}
	room := box.Grow(noteClear)
	if !n.crowd.clear(room) || !n.apart(room) {
		return math.Inf(1)
	}
	return n.crossing(room, [2]geom.Pt{p.tip, p.end()})
}

// end is where the leader meets the rim of the tab, whose upper right corner is
// clipped.
func (p *placedTab) end() geom.Pt {
	const clip = 0.3 * stepTab
	b := p.tab
	rim := [...]geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, {X: b.Max.X, Y: b.Max.Y - clip}, {X: b.Max.X - clip, Y: b.Max.Y}, {X: b.Min.X, Y: b.Max.Y}}
	d := p.mid.Sub(p.tip)
	for i, a := range rim {
		e := rim[(i+1)%len(rim)].Sub(a)
		if den := d.Cross(e); den != 0 {
			t, u := a.Sub(p.tip).Cross(e)/den, a.Sub(p.tip).Cross(d)/den
			if t >= 0 && t <= 1 && u >= 0 && u <= 1 {
				return p.tip.Add(d.Mul(t))
			}
		}
	}
	return p.mid
}

// setTab draws a tab and keeps others off it.
func (n *stepDrawing) setTab(p placedTab) {
	end := p.end()
	items := []render.Item{
		render.Stroke{Paths: []render.Path{render.Lines(p.tip, end)}, Pen: render.Thin},
		render.Fill{Paths: []render.Path{render.Circle(p.tip, tabDot)}},
	}
	tab, _ := lettering.Tab(p.tab.Min, p.a.part.Code, p.a.hand, stepTab, n.d.accent)
	items = append(items, tab...)
	if p.count != "" {
		items = append(items, render.Group{Name: "text note", Items: lettering.Line(p.wordsAt(), p.countWords(), noteStyle, toLeft)})
		n.keep = append(n.keep, p.words)
	}
	n.items = append(n.items, render.Group{Name: "balloon", Items: items})
	n.keep = append(n.keep, p.tab)
	n.price += p.price
	n.leaders = append(n.leaders, [2]geom.Pt{p.tip, end})
}

// alike reports whether two pieces go by the same letter and hand.
func (n *stepDrawing) alike(a, b int) bool {
	if a < 0 || a >= hardwareID || b < 0 || b >= hardwareID {
		return false
	}
	p, q := n.d.plan.Placed[a], n.d.plan.Placed[b]
	return p.Part == q.Part && p.Hand == q.Hand
}
