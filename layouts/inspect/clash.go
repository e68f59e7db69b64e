package inspect

import (
	"fmt"
	"slices"
	"strings"

	"planset/model/geom"
	"planset/render"
)

// A Fault is a way for things on a page to be in each other's way.
type Fault int8

// The faults.
const (
	TextOnText   Fault = iota // letters touch letters
	TextOnLine                // letters nearer to a line than Gap
	LeaderCross               // two leaders cross
	OutsideField              // ink outside the field, from Outside and Page only
	SmallText                 // letters lower than the rule, from Page only
	ThinLine                  // a line finer than the rule, from Page only
	BlankBand                 // more blank than the rule allows, from Page only
)

// String returns the fault in words.
func (f Fault) String() string {
	return [...]string{"text on text", "text on a line", "leaders cross", "outside the field", "text too small", "line too thin", "blank"}[f]
}

// Gap is the least distance from letters to a line in mm, a rule of the house.
const Gap = 0.8

// A Clash is one fault of a page: where, and the texts concerned.
type Clash struct {
	Fault Fault
	At    geom.Pt
	Texts [2]string // the second is empty when the other thing is a line
	Gap   float64   // mm between them; of the last three faults, what was found, mm
}

// String prints c on one line.
func (c Clash) String() string {
	return fmt.Sprintf("%v at %.1f,%.1f: %q %q (%.2f mm)", c.Fault, c.At.X, c.At.Y, c.Texts[0], c.Texts[1], c.Gap)
}

// Collisions returns every clash among items, in the order of the items. It
// reads groups by name: what is in a group "text" or "text ..." is one text with its own
// strokes, such as a box round it; a group "tab ..." likewise; lines that stand
// in a group "leader" or "balloon" are leaders. White text is not checked
// against the filled shape it stands on.
func Collisions(items []render.Item) []Clash {
	p := read(items)
	var found []Clash
	for i, t := range p.texts {
		for _, u := range p.texts[i+1:] {
			if t.box.Meets(u.box) && t.Apart(u.Quad) <= 0 {
				found = append(found, Clash{TextOnText, t.C, [2]string{t.says, u.says}, 0})
			}
		}
		if c, ok := p.nearest(t); ok {
			found = append(found, c)
		}
	}
	return append(found, p.leadersCrossing()...)
}

// Outside returns a clash for each item of the top level, or of groups in it,
// that reaches out of field.
func Outside(items []render.Item, field geom.Box) []Clash {
	var found []Clash
	for _, item := range items {
		b := Bounds([]render.Item{item})
		if b.Empty() || field.Has(b.Min) && field.Has(b.Max) {
			continue
		}
		found = append(found, Clash{Fault: OutsideField, At: b.Min.Add(b.Max).Mul(0.5), Texts: [2]string{words(item)}})
	}
	return found
}

// A block is one text of a page, perhaps of several pieces.
type block struct {
	Quad
	box  geom.Box
	says string
	own  int // number of the leader that ends on it, 0 for none
}

// A stroke is one straight piece of a line.
type stroke struct {
	a, b   geom.Pt
	half   float64
	leader int // number of the leader it is of, 0 for none
	box    geom.Box
}

// A page is what the inspector needs to know of the items.
type page struct {
	texts   []block
	lines   []stroke
	leaders int
	cells   map[[2]int][]int
	huge    []int // lines longer than any page
}

// nearest returns the worst clash of t with a line.
func (p *page) nearest(t block) (Clash, bool) {
	worst := Clash{Fault: TextOnLine, Texts: [2]string{t.says}, Gap: Gap}
	const rounding = 1e-3
	found := false
	for _, i := range p.near(t.box.Grow(Gap + 1)) {
		l := p.lines[i]
		if t.own > 0 && l.leader == t.own {
			continue // the leader of a balloon ends on its tab
		}
		if g := t.Gap(l.a, l.b) - l.half; g < worst.Gap-rounding {
			worst.Gap, worst.At, found = g, l.a.Add(l.b).Mul(0.5), true
		}
	}
	return worst, found
}

func (p *page) leadersCrossing() []Clash {
	var found []Clash
	seen := map[[2]int]bool{}
	var lines []stroke
	for _, l := range p.lines {
		if l.leader > 0 {
			lines = append(lines, l)
		}
	}
	for i, l := range lines {
		for _, m := range lines[i+1:] {
			pair := [2]int{l.leader, m.leader}
			if l.leader == m.leader || seen[pair] || !l.box.Meets(m.box) || !Cross(l.a, l.b, m.a, m.b) {
				continue
			}
			seen[pair] = true
			found = append(found, Clash{Fault: LeaderCross, At: l.a.Add(l.b).Mul(0.5)})
		}
	}
	return found
}

const cell = 10.0 // mm

func cells(b geom.Box, see func([2]int)) {
	for x := int(b.Min.X/cell) - 1; float64(x)*cell <= b.Max.X; x++ {
		for y := int(b.Min.Y/cell) - 1; float64(y)*cell <= b.Max.Y; y++ {
			see([2]int{x, y})
		}
	}
}

func (p *page) index() {
	p.cells = map[[2]int][]int{}
	const page = 5000.0 // mm, more than the longest roll plot
	for i, l := range p.lines {
		if !(l.box.W()+l.box.H() < page) {
			p.huge = append(p.huge, i)
			continue
		}
		cells(l.box, func(c [2]int) { p.cells[c] = append(p.cells[c], i) })
	}
}

// near returns the numbers of the lines near b in order.
func (p *page) near(b geom.Box) []int {
	found := slices.Clone(p.huge)
	cells(b, func(c [2]int) { found = append(found, p.cells[c]...) })
	slices.Sort(found)
	return slices.Compact(found)
}

// words returns the text in item.
func words(item render.Item) string {
	switch item := item.(type) {
	case render.Text:
		return item.Text
	case render.Group:
		var parts []string
		for _, it := range item.Items {
			if w := words(it); w != "" {
				parts = append(parts, w)
			}
		}
		return strings.Join(parts, "")
	}
	return ""
}
