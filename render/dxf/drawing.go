// Package dxf writes flat outlines for routers and laser cutters as DXF.
//
// It writes the plainest dialect there is, ASCII of AutoCAD release 12, from
// its published reference: lines, arcs, circles and texts on four layers, in
// millimetres. It does not know pages: a drawing is at full size by itself.
package dxf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"planset/model/geom"
)

// A Drawing is what to cut and what to mark, in mm, y up.
type Drawing struct {
	Cut   []geom.Outline // layer cut
	Holes []Circle       // layer hole
	Marks []geom.Seg     // layer mark
	Texts []Text         // layer text
}

// A Circle is a round hole.
type Circle struct {
	C geom.Pt
	R float64 // mm
}

// A Text is one line of words with the left end of its baseline at At.
type Text struct {
	At     geom.Pt
	Text   string
	Height float64 // of capitals, mm
	Angle  float64 // radians anticlockwise
}

// layer is a name and the number of its colour in the format's table.
type layer struct {
	name   string
	colour int
}

var layers = [...]layer{{"cut", 7}, {"hole", 1}, {"mark", 5}, {"text", 3}}

// Write writes d to w. The same drawing gives the same bytes. When something
// in it is nowhere or has no size, nothing is written and the error names all
// that is wrong.
func Write(w io.Writer, d Drawing) error {
	p := &plotter{box: geom.NoBox()}
	for _, outline := range d.Cut {
		for _, s := range outline {
			p.seg("cut", s)
		}
	}
	for _, c := range d.Holes {
		p.circle(c)
	}
	for _, s := range d.Marks {
		p.seg("mark", s)
	}
	for _, t := range d.Texts {
		p.text(t)
	}
	if len(p.wrong) > 0 {
		return fmt.Errorf("dxf: %w", errors.Join(p.wrong...))
	}
	var file plotter
	file.header(p.box)
	file.tables()
	file.pair(0, "SECTION")
	file.pair(2, "ENTITIES")
	file.out.Write(p.out.Bytes())
	file.pair(0, "ENDSEC")
	file.pair(0, "EOF")
	_, err := w.Write(file.out.Bytes())
	return err
}

// A plotter writes pairs of a group code and a value, each on its own line.
type plotter struct {
	out   bytes.Buffer
	box   geom.Box // round all that was written
	wrong []error
}

func (p *plotter) pair(code int, value string) { fmt.Fprintf(&p.out, "%3d\n%s\n", code, value) }

func (p *plotter) whole(code, value int) { p.pair(code, strconv.Itoa(value)) }

// number writes a number to a millionth of a millimetre.
func (p *plotter) number(code int, v float64) {
	s := strconv.FormatFloat(v, 'f', 6, 64)
	if strings.Trim(s, "-0.") == "" {
		s = "0.0"
	}
	p.pair(code, s)
}

// point writes a point; its y has a code ten higher than its x.
func (p *plotter) point(code int, at geom.Pt) {
	p.number(code, at.X)
	p.number(code+10, at.Y)
}

func (p *plotter) failf(format string, args ...any) {
	p.wrong = append(p.wrong, fmt.Errorf(format, args...))
}

func (p *plotter) entity(kind, layer string, size geom.Box) {
	p.box = p.box.Union(size)
	p.pair(0, kind)
	p.pair(8, layer)
}

func (p *plotter) seg(layer string, s geom.Seg) {
	if !finite(s.A) || !finite(s.B) || s.Turn != geom.Straight && !(finite(s.C) && s.R > 0 && finite(geom.Pt{X: s.R})) {
		p.failf("a line on layer %s runs through no place: %+v", layer, s)
		return
	}
	if s.Turn == geom.Straight {
		p.entity("LINE", layer, s.Box())
		p.point(10, s.A)
		p.point(11, s.B)
		return
	}
	if s.Turn == geom.CW {
		s = s.Reverse() // arcs of the format run anticlockwise
	}
	p.entity("ARC", layer, s.Box())
	p.point(10, s.C)
	p.number(40, s.R)
	p.number(50, degrees(s.A.Sub(s.C)))
	p.number(51, degrees(s.B.Sub(s.C)))
}

func (p *plotter) circle(c Circle) {
	if !finite(c.C) || !(c.R > 0) || math.IsInf(c.R, 0) {
		p.failf("a hole of radius %g mm at %v cannot be drilled", c.R, c.C)
		return
	}
	p.entity("CIRCLE", "hole", geom.Box{Min: c.C, Max: c.C}.Grow(c.R))
	p.point(10, c.C)
	p.number(40, c.R)
}

func (p *plotter) text(t Text) {
	if !finite(t.At) || !finite(geom.Pt{X: t.Angle}) || !(t.Height > 0) || math.IsInf(t.Height, 0) {
		p.failf("text %q has no place or no height", t.Text)
		return
	}
	p.entity("TEXT", "text", geom.Box{Min: t.At, Max: t.At})
	p.point(10, t.At)
	p.number(40, t.Height)
	p.pair(1, coded(t.Text))
	p.number(50, t.Angle*180/math.Pi)
	p.pair(7, "STANDARD")
}

// degrees returns the direction of v, from 0 up to 360.
func degrees(v geom.Pt) float64 {
	a := math.Atan2(v.Y, v.X) * 180 / math.Pi
	if a < 0 {
		a += 360
	}
	return a
}

// coded returns s in ASCII: the format has signs of its own for diameter,
// degree and plus-minus, and \U+XXXX for other signs. A line stays one line.
func coded(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '⌀' || r == 'Ø':
			b.WriteString("%%c")
		case r == '°':
			b.WriteString("%%d")
		case r == '±':
			b.WriteString("%%p")
		case r == '%':
			b.WriteString("%%%")
		case r < ' ' || r == 0x7F:
			b.WriteByte(' ')
		case r < 0x7F:
			b.WriteRune(r)
		case r <= 0xFFFF:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

func finite(p geom.Pt) bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y) // Inf-Inf is NaN
}
