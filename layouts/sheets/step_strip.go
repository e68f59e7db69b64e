package sheets

import (
	"slices"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/shop"
	"planset/render"
)

// An added is the pieces of one part and hand that a step adds.
type added struct {
	part  *model.Part
	hand  string
	count int
}

// addedIn counts the pieces a step adds.
func (d *desk) addedIn(st *model.Step) []added {
	var out []added
	for _, i := range st.Add {
		p := d.plan.Placed[i]
		hand := handLetter(p.Hand)
		at := slices.IndexFunc(out, func(a added) bool { return a.part == p.Part && a.hand == hand })
		if at < 0 {
			out = append(out, added{p.Part, hand, 1})
			continue
		}
		out[at].count++
	}
	return out
}

func handLetter(h model.Hand) string {
	switch h {
	case model.LeftHand:
		return "L"
	case model.RightHand:
		return "R"
	}
	return ""
}

// stripTabs is how much of the strip the tabs may take before they go on in a row
// below, mm.
const stripTabs = 92.0

// stripEnd is from the strip to what comes after, mm.
const stripEnd = 3.2

// stepStrip sets what a step needs across the page: the tabs of its parts, and
// beside them its hardware over its tools.
func (l *leaf) stepStrip(st *model.Step) {
	const tall, gap = 7.0, 6.0
	tabs := l.d.scratch(stripTabs)
	x := tabs.stepParts(st, tall)
	if x > 0 {
		x += gap
	}
	words := l.d.scratch(l.colW() - x)
	words.stepHardware(st)
	words.stepTools(st)
	if words.y == 0 && tabs.y == 0 {
		return
	}
	high := max(-words.y, -tabs.y)
	l.add(tabs.items...)
	if x > 0 { // one line of words stands in the middle of the tabs, two begin at their top
		words.items = Moved(words.items, pt(x, -max(0, tall+words.y)/2))
	}
	l.add(words.items...)
	l.skip(high + stripEnd)
}

// stepParts is the row of tabs of what is added or made, with counts. It returns
// how wide it came out.
func (l *leaf) stepParts(st *model.Step, high float64) float64 {
	list := l.d.addedIn(st)
	for _, p := range st.Make {
		list = append(list, added{p, "", p.Quantity})
	}
	if len(list) == 0 {
		return 0
	}
	const gap = 4.0
	x, wide := 0.0, 0.0
	l.skip(high)
	for _, a := range list {
		n := digits(a.count) + " ×"
		w := lettering.TabWidth(a.part.Code, a.hand, high)
		all := w
		if a.count > 1 || len(st.Make) > 0 {
			all += lettering.Width(n, plain) + 1.4
		}
		if x > 0 && x+all > l.colW() {
			x = 0
			l.skip(high + 2)
		}
		if all > w {
			l.line(pt(l.left()+x, l.y+(high-lettering.Cap(plain))/2), n, plain, toLeft)
			x += all - w
		}
		l.tab(pt(l.left()+x, l.y), a.part, a.hand, high)
		x += w + gap
		wide = max(wide, x-gap)
	}
	return wide
}

// stepHardware names each kind of hardware used, with how many of all have been
// used when the step is done.
func (l *leaf) stepHardware(st *model.Step) {
	line := ""
	set := func() {
		if line != "" {
			l.para(0, l.colW(), line, strong)
			l.skip(1.4)
		}
	}
	for _, u := range l.d.hardwareIn(st) {
		s := digits(u.count) + " × " + hardwareName(u.h, l.d.plan.Unit)
		if u.h.Quantity > u.count {
			s += " (" + digits(u.so) + " of " + digits(u.h.Quantity) + " used)"
		}
		if both := line + "  ·  " + s; line != "" && lettering.Width(both, strong) <= l.colW() {
			line = both // small things, such as washers and nuts, share a line
			continue
		}
		set()
		line = s
	}
	set()
}

// stepTools names the tools of a step, besides those for marking and what is
// worn: those are needed throughout.
func (l *leaf) stepTools(st *model.Step) {
	var names []string
	for _, t := range shop.Tools(l.d.plan) {
		if t.Group != shop.Laying && t.Group != shop.Protection && slices.Contains(t.Steps, st.Number) {
			name := lower(t.Name)
			if t.Size != "" && len(t.Size) < 12 {
				name += " (" + t.Size + ")"
			}
			names = appendNew(names, name)
		}
	}
	if len(names) == 0 {
		return
	}
	// A list is looked up, not read along: its lines may be as long as there is room.
	style := lettering.Style{Face: fonts.Cond, Size: render.Body, Lead: 1.28, Tone: render.Dark}
	items, high := lettering.Paragraph(pt(l.left(), l.y), fractions("Tools: "+strings.Join(names, ", ")), l.colW(), style)
	l.add(items...)
	l.skip(high)
}

// A usage is hardware used in a step: how many, and how many so far.
type usage struct {
	h         *model.Hardware
	count, so int
}

// hardwareIn counts the hardware of a step, washers and nuts with their bolts.
func (d *desk) hardwareIn(st *model.Step) []usage {
	var out []usage
	so := map[*model.Hardware]int{}
	for _, s := range d.plan.Steps {
		for _, j := range s.Fasten {
			if j.Hardware == nil {
				continue
			}
			for _, h := range append([]*model.Hardware{j.Hardware}, j.With...) {
				so[h] += len(j.Fasteners)
				if s != st {
					continue
				}
				at := slices.IndexFunc(out, func(u usage) bool { return u.h == h })
				if at < 0 {
					out = append(out, usage{h: h})
					at = len(out) - 1
				}
				out[at].count += len(j.Fasteners)
			}
		}
		if s == st {
			break
		}
	}
	for i := range out {
		out[i].so = so[out[i].h]
	}
	return out
}
