// Package pdftest lets tests read PDF files with a reader that is not ours:
// PDFium, compiled to WebAssembly.
//
// Only tests import it. It says what a file holds; what it ought to hold is
// for the test to say. Positions are millimetres from the lower-left corner of
// the page, y up, like those of render.Page.
package pdftest

import (
	"bytes"
	"image"
	"image/draw"
	"io"
	"math"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"
	"github.com/klippa-app/go-pdfium/webassembly"

	"planset/model/geom"
)

// mm is the length of a point.
const mm = 25.4 / 72

// A reader is PDFium, which does one thing at a time.
type reader struct {
	sync.Mutex
	pdfium.Pdfium
	err error
}

// shared starts PDFium at first use, which takes some seconds, and keeps it for
// the life of the process.
var shared = sync.OnceValue(func() *reader {
	pool, err := webassembly.Init(webassembly.Config{MinIdle: 1, MaxIdle: 1, MaxTotal: 1, Stdout: io.Discard, Stderr: io.Discard})
	if err != nil {
		return &reader{err: err}
	}
	one, err := pool.GetInstance(time.Minute)
	return &reader{Pdfium: one, err: err}
})

// A Doc is an open file. Its methods end the test when PDFium reports an error.
type Doc struct {
	t   testing.TB
	r   *reader
	ref references.FPDF_DOCUMENT
}

// Open opens a PDF file; it is closed when the test ends.
func Open(t testing.TB, data []byte) *Doc {
	t.Helper()
	r := shared()
	if r.err != nil {
		t.Fatalf("PDFium does not start: %v", r.err)
	}
	r.Lock()
	defer r.Unlock()
	data = bytes.Clone(data)
	opened, err := r.OpenDocument(&requests.OpenDocument{File: &data})
	if err != nil {
		t.Fatalf("PDFium cannot open the file: %v", err)
	}
	d := &Doc{t: t, r: r, ref: opened.Document}
	t.Cleanup(func() {
		r.Lock()
		defer r.Unlock()
		if _, err := r.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: d.ref}); err != nil {
			t.Errorf("PDFium cannot close the file: %v", err)
		}
	})
	return d
}

// ask asks PDFium something and ends the test when it has no answer.
func ask[Q, A any](d *Doc, f func(*Q) (*A, error), q Q) *A {
	d.t.Helper()
	d.r.Lock()
	defer d.r.Unlock()
	a, err := f(&q)
	if err != nil {
		d.t.Fatalf("PDFium: %T: %v", q, err)
	}
	return a
}

// page names page i in a request.
func (d *Doc) page(i int) requests.Page {
	return requests.Page{ByIndex: &requests.PageByIndex{Document: d.ref, Index: i}}
}

// Pages returns the number of pages.
func (d *Doc) Pages() int {
	d.t.Helper()
	return ask(d, d.r.FPDF_GetPageCount, requests.FPDF_GetPageCount{Document: d.ref}).PageCount
}

// Size returns the width and height of page i in points.
func (d *Doc) Size(i int) (w, h float64) {
	d.t.Helper()
	a := ask(d, d.r.FPDF_GetPageSizeByIndex, requests.FPDF_GetPageSizeByIndex{Document: d.ref, Index: i})
	return a.Width, a.Height
}

// Text returns the text of page i, in the order it was written, with \n
// between lines.
func (d *Doc) Text(i int) string {
	d.t.Helper()
	a := ask(d, d.r.GetPageText, requests.GetPageText{Page: d.page(i)})
	return strings.ReplaceAll(a.Text, "\r\n", "\n")
}

// A TextBox is a piece of text and the box round its ink.
type TextBox struct {
	Text string
	Box  geom.Box // mm
}

// TextBoxes returns the runs of text on page i, each of one line and font. A
// group that reads as a whole (render.Group.Reads) is one run with the box of
// its first letters only; render.Bounds knows the rest.
func (d *Doc) TextBoxes(i int) []TextBox {
	d.t.Helper()
	var all []TextBox
	for _, r := range d.structured(i, requests.GetPageTextStructuredModeRects).Rects {
		all = append(all, TextBox{r.Text, boxOf(r.PointPosition)})
	}
	return all
}

// Letters returns each letter on page i by itself.
func (d *Doc) Letters(i int) []TextBox {
	d.t.Helper()
	var all []TextBox
	for _, r := range d.structured(i, requests.GetPageTextStructuredModeChars).Chars {
		all = append(all, TextBox{r.Text, boxOf(r.PointPosition)})
	}
	return all
}

func (d *Doc) structured(i int, mode requests.GetPageTextStructuredMode) *responses.GetPageTextStructured {
	d.t.Helper()
	return ask(d, d.r.GetPageTextStructured, requests.GetPageTextStructured{Page: d.page(i), Mode: mode})
}

func boxOf(c responses.CharPosition) geom.Box {
	return geom.NoBox().
		With(geom.Pt{X: c.Left * mm, Y: c.Bottom * mm}).
		With(geom.Pt{X: c.Right * mm, Y: c.Top * mm})
}

// Render paints page i at dpi dots to the inch. The first row is the top of
// the page. The page is stretched by less than half a dot, to fill whole dots:
// measure by the bounds of the image.
func (d *Doc) Render(i, dpi int) image.Image {
	d.t.Helper()
	w, h := d.Size(i)
	dots := func(points float64) int { return int(math.Round(points * float64(dpi) / 72)) }
	d.r.Lock()
	defer d.r.Unlock()
	a, err := d.r.RenderPageInPixels(&requests.RenderPageInPixels{Page: d.page(i), Width: dots(w), Height: dots(h)})
	if err != nil {
		d.t.Fatalf("PDFium cannot paint page %d: %v", i+1, err)
	}
	defer a.Cleanup()
	// The pixels belong to PDFium until Cleanup.
	out := image.NewRGBA(a.Result.RenderedImage.Bounds())
	draw.Draw(out, out.Bounds(), a.Result.RenderedImage, out.Bounds().Min, draw.Src)
	return out
}
