package pdftest

import (
	"image"
	"math"

	"planset/model/geom"
)

// Ink is a painted page, to be measured like a printed one: with a scale laid
// on it. Places are millimetres from the page's lower-left corner.
type Ink struct {
	dark       []uint8 // from the top row down
	cols, rows int
	dot        geom.Size // of one dot, mm
	from       geom.Pt   // where the page's lower-left corner lies
}

// Ink paints page i at dpi dots to the inch.
func (d *Doc) Ink(i, dpi int) Ink {
	d.t.Helper()
	img := d.Render(i, dpi)
	b := img.Bounds()
	w, h := d.Size(i)
	k := Ink{cols: b.Dx(), rows: b.Dy(), dot: geom.Size{W: w * mm / float64(b.Dx()), H: h * mm / float64(b.Dy())}}
	k.dark = make([]uint8, k.cols*k.rows)
	pix, ok := img.(image.RGBA64Image)
	if !ok {
		d.t.Fatalf("PDFium painted a %T", img)
	}
	for y := range k.rows {
		for x := range k.cols {
			c := pix.RGBA64At(b.Min.X+x, b.Min.Y+y)
			k.dark[y*k.cols+x] = 255 - uint8((uint32(c.R)*299+uint32(c.G)*587+uint32(c.B)*114)/1000>>8)
		}
	}
	return k
}

// Moved returns the page as it lies when it was shifted on the paper by d and
// printed larger by a factor, from its lower-left corner.
func (k Ink) Moved(d geom.Pt, larger float64) Ink {
	k.from = k.from.Add(d)
	k.dot = geom.Size{W: k.dot.W * larger, H: k.dot.H * larger}
	return k
}

// At returns how dark the page is at p, from 0 to 1, even between dots.
func (k Ink) At(p geom.Pt) float64 {
	x := (p.X-k.from.X)/k.dot.W - 0.5
	y := float64(k.rows) - (p.Y-k.from.Y)/k.dot.H - 0.5
	x0, y0 := math.Floor(x), math.Floor(y)
	fx, fy := x-x0, y-y0
	c, r := int(x0), int(y0)
	top := k.at(c, r)*(1-fx) + k.at(c+1, r)*fx
	low := k.at(c, r+1)*(1-fx) + k.at(c+1, r+1)*fx
	return (top*(1-fy) + low*fy) / 255
}

func (k Ink) at(c, r int) float64 {
	if c < 0 || r < 0 || c >= k.cols || r >= k.rows {
		return 0
	}
	return float64(k.dark[r*k.cols+c])
}

// A Line is what a scale laid across a drawn line reads.
type Line struct {
	Off   float64 // of the middle of the ink from where it was looked for, mm
	Width float64 // of the ink, mm
}

// Across looks through p along the unit direction n for the line nearest to p
// and measures it. It is not ok when there is none within reach mm.
func (k Ink) Across(p, n geom.Pt, reach float64) (Line, bool) {
	const step = 0.01
	dark := func(t float64) float64 { return k.At(p.Add(n.Mul(t))) }
	for t := 0.0; t <= reach; t += step {
		for _, side := range []float64{t, -t} {
			if dark(side) >= 0.5 {
				lo := edge(dark, side, -step)
				hi := edge(dark, side, step)
				return Line{Off: (lo + hi) / 2, Width: hi - lo}, true
			}
		}
	}
	return Line{}, false
}

// edge walks from inside the ink to where it is half as dark as it can be.
func edge(dark func(float64) float64, t, step float64) float64 {
	const most = 5.0 // mm; wider is no line
	last := dark(t)
	for d := step; math.Abs(d) < most; d += step {
		now := dark(t + d)
		if now < 0.5 {
			return t + d - step*(0.5-now)/(last-now)
		}
		last = now
	}
	return t + math.Copysign(most, step)
}
