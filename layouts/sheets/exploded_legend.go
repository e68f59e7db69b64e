package sheets

import (
	"slices"

	"planset/layouts/lettering"
	"planset/model"
	"planset/model/geom"
	"planset/render"
)

// A legendLine is one line of a legend.
type legendLine struct {
	code string // of a part; empty for hardware
	page int    // that draws the part, from 1; 0 for none
	name string
	n    int // 0 in a line that goes on with the name before it
}

// legend lists the parts and then the hardware of a view.
func (d *desk) legend(pieces []int) []legendLine {
	return append(d.legendParts(pieces), d.legendHardware(pieces)...)
}

// Measures of a legend, mm.
const (
	legendRow   = 6.3
	legendTab   = 4.8
	legendTabW  = 7.0 // of a tab, with what is free beside it
	legendCount = 9.0 // what the number takes
	legendGap   = 5.0 // between columns
)

// A legendSet is a legend in columns, filled down one and then the next.
type legendSet struct {
	lines []legendLine
	rows  int
	x     []float64 // of the columns, from the left
	width []float64
}

// height of a legend, mm.
func (s legendSet) height() float64 { return float64(s.rows) * legendRow }

// setLegend puts lines into as many columns as a width has room for, four at
// most. Names too long for one column of all the width go on in a second line.
func setLegend(lines []legendLine, width float64) legendSet {
	var broken []legendLine
	for _, l := range lines {
		broken = append(broken, l.broken(width)...)
	}
	lines = broken
	for cols := min(4, max(1, len(lines))); ; cols-- {
		s := legendSet{lines: lines, rows: (len(lines) + cols - 1) / cols}
		x := 0.0
		for i := 0; i < len(lines); i += s.rows {
			wide := 0.0
			for _, l := range lines[i:min(i+s.rows, len(lines))] {
				wide = max(wide, l.wide())
			}
			s.x, s.width = append(s.x, x), append(s.width, wide)
			x += wide + legendGap
		}
		if x-legendGap <= width || cols == 1 {
			s.open(width - x + legendGap)
			return s
		}
	}
}

// open shares out to the gaps what is left of the width, as far as that helps.
func (s *legendSet) open(left float64) {
	for i := range s.x {
		s.x[i] += float64(i) * max(0, min(8, left/float64(len(s.x))))
	}
}

// lead is what stands before the name of a line.
func (l legendLine) lead() float64 {
	if l.code == "" {
		return legendCount
	}
	return legendCount + max(legendTabW, lettering.TabWidth(l.code, "", legendTab)+1.5)
}

// wide is what a line takes.
func (l legendLine) wide() float64 {
	return l.lead() + lettering.Width(fractions(l.name), narrow)
}

// broken is the line, in several where its name is too long for a width.
func (l legendLine) broken(width float64) []legendLine {
	var out []legendLine
	for i, s := range lettering.Wrap(fractions(l.name), width-l.lead(), narrow) {
		part := legendLine{name: s}
		if i == 0 {
			part.code, part.page, part.n = l.code, l.page, l.n
		}
		out = append(out, part)
	}
	return out
}

// legendAt sets a legend with its upper left corner at top.
func (l *leaf) legendAt(top geom.Pt, s legendSet) {
	for i, line := range s.lines {
		at := top.Add(pt(s.x[i/s.rows], -float64(i%s.rows+1)*legendRow))
		l.legendLine(at, line)
	}
}

// legendLine sets one line with its lower left corner at at: tab, number, name.
func (l *leaf) legendLine(at geom.Pt, line legendLine) {
	base := at.Y + (legendRow-lettering.Cap(narrow))/2
	if line.code != "" {
		low := pt(at.X, at.Y+(legendRow-legendTab)/2)
		tab, w := lettering.Tab(low, line.code, "", legendTab, l.d.accent)
		l.add(tab...)
		l.link(geom.Box{Min: low, Max: low.Add(pt(w, legendTab))}, line.page)
	}
	x := at.X + line.lead()
	if line.n > 0 {
		l.line(pt(x-1.5, base), digits(line.n)+" ×", narrow, render.Right)
	}
	l.line(pt(x, base), line.name, narrow, toLeft)
}

// legendParts counts the pieces of each part, a family as one.
func (d *desk) legendParts(pieces []int) []legendLine {
	var lines []legendLine
	at := map[string]int{}
	for _, p := range d.plan.Parts {
		n := 0
		for _, i := range pieces {
			if d.plan.Placed[i].Part == p {
				n++
			}
		}
		code := familyOr(p)
		switch k, had := at[code]; {
		case n == 0:
		case had:
			lines[k].n += n
		default:
			at[code] = len(lines)
			lines = append(lines, legendLine{code, d.page("part " + code), p.Name, n})
		}
	}
	return lines
}

// legendHardware counts what holds pieces together, washers and nuts too.
func (d *desk) legendHardware(pieces []int) []legendLine {
	var lines []legendLine
	for _, h := range d.plan.Hardware {
		if n := d.countHardware(h, pieces); n > 0 {
			lines = append(lines, legendLine{name: hardwareName(h, d.plan.Unit), n: n})
		}
	}
	return lines
}

// countHardware is how many of one kind hold pieces together.
func (d *desk) countHardware(h *model.Hardware, pieces []int) int {
	n := 0
	for _, j := range d.plan.Joints {
		if j.Hardware != h && !slices.Contains(j.With, h) {
			continue
		}
		for _, f := range j.Fasteners {
			if slices.Contains(pieces, f.Pieces[0]) && slices.Contains(pieces, f.Pieces[1]) {
				n++
			}
		}
	}
	return n
}
