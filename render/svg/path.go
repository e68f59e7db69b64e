package svg

import (
	"math"
	"strings"

	"planset/model/geom"
	"planset/render"
)

func (p *painter) stroke(s render.Stroke) {
	attrs := ""
	if s.Pen.Round {
		attrs += ` stroke-linecap="round" stroke-linejoin="round"`
	}
	if len(s.Pen.Dash) > 0 {
		var dash []string
		for _, d := range s.Pen.Dash {
			dash = append(dash, number(d))
		}
		attrs += ` stroke-dasharray="` + strings.Join(dash, " ") + `"`
	}
	p.linef(`<path d="%s" fill="none" stroke="%s" stroke-width="%s"%s/>`,
		p.paths(s.Paths), tone(s.Pen.Tone), number(s.Pen.Width), attrs)
}

// paths returns the data of a path element.
func (p *painter) paths(paths []render.Path) string {
	var words []string
	for _, path := range paths {
		if len(path.Segs) == 0 {
			continue
		}
		words = append(words, "M"+p.pt(path.Segs[0].A))
		for _, s := range path.Segs {
			words = append(words, p.seg(s)...)
		}
		if path.Closed {
			words = append(words, "Z")
		}
	}
	return strings.Join(words, " ")
}

// seg returns one segment. An arc is written in two parts when it turns by
// more than half a circle, so that its ends never come close.
func (p *painter) seg(s geom.Seg) []string {
	if s.Turn == geom.Straight {
		return []string{"L" + p.pt(s.B)}
	}
	if math.Abs(s.Sweep()) > math.Pi*1.001 {
		first, second := s.Split(0.5)
		return []string{p.arc(first), p.arc(second)}
	}
	return []string{p.arc(s)}
}

// arc returns an arc of at most half a circle. Its sweep flag is 1 for turns
// that are clockwise on the screen, which has y down.
func (p *painter) arc(s geom.Seg) string {
	clockwise := "0"
	if s.Turn == geom.CW {
		clockwise = "1"
	}
	r := number(s.R)
	return "A" + r + " " + r + " 0 0 " + clockwise + " " + p.pt(s.B)
}

func (p *painter) pt(at geom.Pt) string { return number(at.X) + " " + number(p.height-at.Y) }
