package sheets

import (
	"slices"
	"strings"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/model"
	"planset/model/expr"
	"planset/model/shop"
	"planset/render"
)

// stepsOf lists the steps in which a joint is made.
func (d *desk) stepsOf(j *model.Joint) string {
	var n []int
	for _, s := range d.plan.Steps {
		if slices.Contains(s.Fasten, j) {
			n = append(n, s.Number)
		}
	}
	return shop.Numbers(n)
}

// hardwareName prints a line of hardware: "3⁄8″ × 2 3⁄4″ carriage bolt".
func hardwareName(h *model.Hardware, u expr.Unit) string {
	size := strings.ReplaceAll(h.Size, "/", "⁄")
	if u == expr.Inch && (isBolt(h) || h.Part) {
		size += "″"
	}
	if h.Length > 0 {
		size += " × " + u.Length(h.Length, expr.Fine)
	}
	return size + " " + h.Name
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
	if len(st.Fasten) > 0 {
		l.skip(1.6)
	}
}

// stepTools names the tools of a step, besides those for marking and what is
// worn: those are needed throughout.
func (l *leaf) stepTools(st *model.Step) {
	var names []string
	for _, t := range shop.Tools(l.d.plan) {
		if t.Group != shop.Laying && t.Group != shop.Protection && slices.Contains(t.Steps, st.Number) {
			name := lower(t.Name)
			if t.Size != "" && len(t.Size) < 12 {
				name += " " + t.Size
			}
			names = appendNew(names, name)
		}
	}
	if len(names) == 0 {
		return
	}
	l.para(0, l.colW(), "Tools: "+strings.Join(names, ", "), lettering.Style{Face: fonts.Cond, Size: render.Body, Lead: 1.28, Tone: render.Dark})
	l.skip(3)
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
