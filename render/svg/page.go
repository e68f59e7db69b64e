// Package svg paints one page as an SVG drawing in millimetres.
//
// Arcs stay arcs and words stay words, so a drawing can go to a plotter or be
// edited. It does not embed fonts: a reader without the house faces sets the
// words in another face, at the right place and width.
package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// Write paints page to w. The same page gives the same bytes. When an item
// cannot be painted nothing is written and the error names all that is wrong.
// Links to other pages are left out, for there is only one.
func Write(w io.Writer, page *render.Page) error {
	if !(page.Size.W > 0 && page.Size.H > 0) || math.IsInf(page.Size.W*page.Size.H, 0) {
		return fmt.Errorf("svg: a page cannot measure %g x %g mm", page.Size.W, page.Size.H)
	}
	p := &painter{height: page.Size.H}
	width, height := number(page.Size.W), number(page.Size.H)
	p.linef(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`, width, height, width, height)
	if title := page.Title; title != "" {
		p.linef("<title>%s</title>", escaped(title))
	}
	p.linef(`<rect width="%s" height="%s" fill="#ffffff"/>`, width, height)
	p.paint(page.Items)
	p.linef("</svg>")
	if len(p.wrong) > 0 {
		return fmt.Errorf("svg: %w", errors.Join(p.wrong...))
	}
	_, err := w.Write(p.out.Bytes())
	return err
}

// A painter writes one page.
type painter struct {
	out    bytes.Buffer
	height float64 // of the page, mm
	clips  int     // written so far; they need names
	wrong  []error
}

func (p *painter) linef(format string, args ...any) {
	fmt.Fprintf(&p.out, format+"\n", args...)
}

func (p *painter) paint(items []render.Item) {
	for _, item := range items {
		if err := render.Fault(item); err != nil {
			p.wrong = append(p.wrong, err)
			continue
		}
		switch item := item.(type) {
		case render.Stroke:
			p.stroke(item)
		case render.Fill:
			p.linef(`<path d="%s" fill="%s" fill-rule="evenodd"/>`, p.paths(item.Paths), tone(item.Tone))
		case render.Text:
			p.text(item)
		case render.Link:
			p.link(item)
		case render.Image:
			p.linef(`<image %s preserveAspectRatio="none" href="data:image/png;base64,%s"/>`,
				p.box(item.Box), base64.StdEncoding.EncodeToString(item.PNG))
		case render.Group:
			p.group(item)
		}
	}
}

func (p *painter) group(g render.Group) {
	attrs := ""
	if g.Name != "" {
		attrs += fmt.Sprintf(` data-name="%s"`, escaped(g.Name))
	}
	if g.Reads != "" {
		attrs += fmt.Sprintf(` role="img" aria-label="%s"`, escaped(g.Reads))
	}
	if g.Clipped() {
		p.clips++
		p.linef(`<clipPath id="clip%d"><rect %s/></clipPath>`, p.clips, p.box(g.Clip))
		attrs += fmt.Sprintf(` clip-path="url(#clip%d)"`, p.clips)
	}
	p.linef("<g%s>", attrs)
	p.paint(g.Items)
	p.linef("</g>")
}

func (p *painter) link(l render.Link) {
	if l.Addr != "" {
		p.linef(`<a href="%s"><rect %s fill="none" pointer-events="all"/></a>`, escaped(l.Addr), p.box(l.Box))
	}
}

func (p *painter) text(t render.Text) {
	if t.Text == "" {
		return
	}
	family, weight := t.Face.Family()
	anchor := [...]string{render.Left: "start", render.Middle: "middle", render.Right: "end"}[t.Align]
	turn := ""
	if t.Angle != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(-t.Angle*180/math.Pi), number(t.At.X), number(p.height-t.At.Y))
	}
	// textLength keeps the width when another face has to stand in.
	p.linef(`<text x="%s" y="%s" font-family="'%s', 'Helvetica Neue', Arial, sans-serif" font-weight="%d" font-size="%s"`+
		` text-anchor="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" fill="%s"`+
		` style="white-space:pre;font-kerning:none;font-variant-ligatures:none"%s>%s</text>`,
		number(t.At.X), number(p.height-t.At.Y), family, weight, number(t.Size*fonts.MM),
		anchor, number(fonts.Width(t.Face, t.Size, t.Text)), tone(t.Tone), turn, escaped(t.Text))
}

// box returns the attributes of a rectangle.
func (p *painter) box(b geom.Box) string {
	return fmt.Sprintf(`x="%s" y="%s" width="%s" height="%s"`,
		number(b.Min.X), number(p.height-b.Max.Y), number(b.W()), number(b.H()))
}

func tone(t render.Tone) string { return fmt.Sprintf("#%02x%02x%02x", t.R, t.G, t.B) }

// number writes v to a tenth of a micrometre, without needless zeros.
func number(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func escaped(s string) string {
	var b strings.Builder
	// A strings.Builder never fails.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
