package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"

	"github.com/go-pdf/fpdf"

	"planset/model/geom"
	"planset/render"
)

// A picture is an image fpdf knows. It may carry columns on its right that
// must not show.
type picture struct {
	name        string
	width, drew int // pixels: of the image, and of what fpdf has
}

func (p *painter) image(m render.Image) {
	pic, known := p.images[string(m.PNG)]
	if !known {
		var err error
		if pic, err = p.register(m.PNG); err != nil {
			p.failf("an image cannot be read: %w", err)
			return
		}
		p.images[string(m.PNG)] = pic
	}
	p.op("q")
	p.num(m.Box.Min.X*point, m.Box.Min.Y*point, m.Box.W()*point, m.Box.H()*point)
	p.op("re W n")
	p.flush()
	wide := m.Box
	wide.Max = geom.Pt{X: wide.Min.X + wide.W()*float64(pic.drew)/float64(pic.width), Y: wide.Max.Y}
	x, y, w, h := p.box(wide)
	p.f.ImageOptions(pic.name, x, y, w, h, false, fpdf.ImageOptions{ImageType: "PNG", AllowNegativePosition: true}, 0, "")
	p.op("Q")
	p.flush()
}

// register hands a PNG to fpdf. It is decoded and written anew because fpdf
// reads neither interlaced nor 16-bit files, and widened until no other image
// is as wide: fpdf puts images into the file by width, equal ones at random.
func (p *painter) register(data []byte) (picture, error) {
	src, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, err
	}
	b := src.Bounds()
	pic := picture{name: fmt.Sprintf("image%d", len(p.images)), width: b.Dx(), drew: b.Dx()}
	for p.widthTaken(pic.drew) {
		pic.drew++
	}
	out := image.NewNRGBA(image.Rect(0, 0, pic.drew, b.Dy()))
	draw.Draw(out, out.Bounds(), src, b.Min, draw.Src)
	for x := b.Dx(); x < pic.drew; x++ { // the last column again, so that no edge fades
		draw.Draw(out, image.Rect(x, 0, x+1, b.Dy()), src, image.Pt(b.Max.X-1, b.Min.Y), draw.Src)
	}
	var buf bytes.Buffer
	if err := png.Encode(&buf, out); err != nil {
		return picture{}, err
	}
	p.f.RegisterImageOptionsReader(pic.name, fpdf.ImageOptions{ImageType: "PNG"}, &buf)
	return pic, p.f.Error()
}

func (p *painter) widthTaken(pixels int) bool {
	for _, other := range p.images {
		if other.drew == pixels {
			return true
		}
	}
	return false
}
