package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

var (
	letter = geom.Size{W: 215.9, H: 279.4}
	a4     = geom.Size{W: 210, H: 297}
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func box(x0, y0, x1, y1 float64) geom.Box { return geom.Box{Min: pt(x0, y0), Max: pt(x1, y1)} }

// book returns a book with one page for each list of items.
func book(size geom.Size, pages ...[]render.Item) *render.Book {
	b := &render.Book{
		Title: "Bench – 1 m", Author: "Åse & Sons", Subject: "Plans <full size>", Keywords: "bench, oak",
		Lang: "en-US", Date: "2026-03-31", Seed: "name = 'bench'",
	}
	for _, items := range pages {
		b.Pages = append(b.Pages, render.Page{Size: size, Items: items})
	}
	return b
}

func write(t testing.TB, b *render.Book) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, b))
	return out.Bytes()
}

func words(x, y float64, s string) render.Text {
	return render.Text{At: pt(x, y), Text: s, Face: fonts.Sans, Size: 10}
}

// picture returns a PNG whose left half is one colour and whose right another.
func pictureOf(t testing.TB, w, h int, left, right color.Color) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for x := range w {
		for y := range h {
			if x < w/2 {
				m.Set(x, y, left)
			} else {
				m.Set(x, y, right)
			}
		}
	}
	var buf bytes.Buffer
	require.NoError(t, png.Encode(&buf, m))
	return buf.Bytes()
}

// rich returns a book with everything a page can hold.
func rich(t testing.TB) *render.Book {
	ring := []render.Path{render.Circle(pt(60, 200), 20), render.Circle(pt(60, 200), 10)}
	red, blue := color.NRGBA{R: 255, A: 255}, color.NRGBA{B: 255, A: 128}
	first := []render.Item{
		render.Fill{Paths: ring, Tone: render.Grain},
		render.Stroke{Paths: ring, Pen: render.Outline},
		render.Stroke{Paths: []render.Path{render.Lines(pt(10, 10), pt(200, 10))}, Pen: render.Center},
		words(20, 250, "Cut list"),
		render.Text{At: pt(100, 250), Text: "turned", Face: fonts.CondBold, Size: 14, Angle: 0.5, Align: render.Middle},
		render.Image{Box: box(120, 120, 160, 140), PNG: pictureOf(t, 40, 20, red, blue)},
		render.Image{Box: box(120, 90, 160, 110), PNG: pictureOf(t, 40, 20, blue, red)},
		render.Link{Box: box(20, 248, 40, 254), Page: 1},
		render.Link{Box: box(20, 228, 40, 234), Addr: "https://example.org/å?a=(b)"},
		render.Group{Name: "clipped", Clip: box(10, 20, 50, 60), Items: []render.Item{
			render.Fill{Paths: []render.Path{render.Circle(pt(10, 40), 15)}, Tone: render.Tone{R: 250, G: 100}},
			words(30, 40, "running out of the clip"),
		}},
	}
	b := book(letter, first, []render.Item{words(20, 100, "Templates")}, nil)
	b.Pages[0].Name, b.Pages[1].Name = "7", "T-3 (½)"
	b.Pages[1].Size = a4
	b.Marks = []render.Mark{
		{Title: "Lists", Page: 0, Y: 279.4},
		{Title: "Cut list – ⌀", Level: 1, Page: 0, Y: 255},
		{Title: "Templates (full size)", Page: 1, Y: 110.5},
		{Title: "End", Page: 2, Y: 20},
	}
	return b
}
