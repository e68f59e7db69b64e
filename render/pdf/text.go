package pdf

import (
	"math"
	"slices"

	"planset/fonts"
	"planset/render"
)

func (p *painter) text(t render.Text) {
	if t.Text == "" {
		return
	}
	family := p.font(t.Face)
	at := t.Start()
	p.f.SetFont(family, "", t.Size)
	p.f.SetTextColor(int(t.Tone.R), int(t.Tone.G), int(t.Tone.B))
	if t.Angle == 0 {
		p.f.Text(at.X*point, p.height-at.Y*point, t.Text)
		return
	}
	sin, cos := math.Sincos(t.Angle)
	p.op("q")
	for _, v := range []float64{cos, sin, -sin, cos, at.X * point, at.Y * point} {
		p.buf = append(appendNumber(p.buf, v, 6), ' ')
	}
	p.op("cm")
	p.flush()
	p.f.Text(0, p.height, t.Text)
	p.op("Q")
	p.flush()
}

// font returns the name fpdf has for f, and makes it known at first use: every
// font that is known is embedded, used or not.
func (p *painter) font(f fonts.Face) string {
	name := "planset" + f.String()
	if !p.fonts[f] {
		// fpdf gets a copy, for it patches glyphs in the bytes it is given.
		p.f.AddUTF8FontFromBytes(name, "", slices.Clone(fonts.Data(f)))
		p.fonts[f] = true
	}
	return name
}
