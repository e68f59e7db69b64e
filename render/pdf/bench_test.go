package pdf

import (
	"bytes"
	"fmt"
	"testing"

	"planset/fonts"
	"planset/render"
)

// BenchmarkWrite writes a set as large as they come: 60 pages of 200 paths and
// 200 texts.
func BenchmarkWrite(b *testing.B) {
	var pages [][]render.Item
	for n := range 60 {
		var items []render.Item
		for i := range 200 {
			x, y := 15+float64(i%20)*9, 15+float64(i/20)*25
			items = append(items,
				render.Stroke{Pen: render.Outline, Paths: []render.Path{
					render.Rect(box(x, y, x+8, y+20)), render.Circle(pt(x+4, y+10), 3),
				}},
				render.Text{At: pt(x, y+21), Text: fmt.Sprintf("Part %d, page %d", i, n), Face: fonts.Faces()[i%4], Size: 8},
			)
		}
		pages = append(pages, items)
	}
	set := book(a4, pages...)
	var out bytes.Buffer
	b.ReportAllocs()
	for b.Loop() {
		out.Reset()
		if err := Write(&out, set); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(out.Len()), "file-bytes")
}
