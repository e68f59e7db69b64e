// Package pdf paints a book as a PDF file.
//
// It knows the file format and the habits of the library that writes it. It
// does not know what is on the pages, and moves nothing but the origin.
package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

// point is the number of points in a millimetre.
const point = 72 / 25.4

// farthest is the longest side of a page in mm: 14,400 points, the limit of
// older readers.
const farthest = 14400 / point

// Write paints book to w. The same book gives the same bytes. When anything is
// wrong with the book, such as a sign that a face lacks or a link to a page
// that is not there, nothing is written and the error names all that is wrong.
func Write(w io.Writer, book *render.Book) error {
	date, err := time.Parse(time.DateOnly, book.Date)
	if err != nil {
		return fmt.Errorf("pdf: the book's date must be like 2026-03-31, not %q", book.Date)
	}
	if len(book.Pages) == 0 {
		return errors.New("pdf: the book has no pages")
	}
	p := &painter{book: book, fonts: map[fonts.Face]bool{}, images: map[string]picture{}}
	p.open(date)
	for i := range book.Pages {
		p.paintPage(i)
	}
	p.checkMarks()
	if len(p.wrong) > 0 {
		return fmt.Errorf("pdf: %w", errors.Join(p.wrong...))
	}
	var file bytes.Buffer
	if err := p.f.Output(&file); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	small, err := pack(file.Bytes(), len(book.Pages))
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	done, err := update(small, book, p.links)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	_, err = w.Write(done)
	return err
}

// A painter writes one book.
type painter struct {
	f      *fpdf.Fpdf
	book   *render.Book
	page   int     // index of the page being painted
	height float64 // of that page, points
	buf    []byte  // operators not yet handed to f

	fonts  map[fonts.Face]bool // that f knows
	links  []placedLink
	images map[string]picture // by the text of the PNG
	wrong  []error
}

func (p *painter) open(date time.Time) {
	first := p.book.Pages[0].Size
	p.f = fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P",
		UnitStr:        "pt",
		Size:           fpdf.SizeType{Wd: first.W * point, Ht: first.H * point},
	})
	p.f.SetMargins(0, 0, 0)
	p.f.SetAutoPageBreak(false, 0)
	p.f.SetCellMargin(0)
	p.f.SetCompression(false) // of pages; pack does that
	p.f.SetCatalogSort(true)
	p.f.SetCreationDate(date)
	p.f.SetModificationDate(date)
	p.f.SetProducer(maker, false)
	p.f.SetCreator(maker, false)
	p.f.SetTitle(textString(p.book.Title), false)
	p.f.SetAuthor(textString(p.book.Author), false)
	p.f.SetSubject(textString(p.book.Subject), false)
	p.f.SetKeywords(textString(p.book.Keywords), false)
}

// failf notes that something is wrong with the page being painted.
func (p *painter) failf(format string, args ...any) {
	page := fmt.Sprintf("page %d", p.page+1)
	if name := p.book.Pages[p.page].Name; name != "" {
		page += fmt.Sprintf(" (%q)", name)
	}
	p.wrong = append(p.wrong, fmt.Errorf("%s: %w", page, fmt.Errorf(format, args...)))
}

// failBookf notes that something is wrong with the book as a whole.
func (p *painter) failBookf(format string, args ...any) {
	p.wrong = append(p.wrong, fmt.Errorf(format, args...))
}

func (p *painter) paintPage(i int) {
	page := &p.book.Pages[i]
	p.page = i
	if !(page.Size.W > 0 && page.Size.H > 0 && page.Size.W <= farthest && page.Size.H <= farthest) {
		p.failf("a page cannot measure %g x %g mm", page.Size.W, page.Size.H)
		return
	}
	p.height = page.Size.H * point
	p.f.AddPageFormat("P", fpdf.SizeType{Wd: page.Size.W * point, Ht: p.height})
	p.paint(page.Items)
}

// paint paints items in order. Every item brings its whole look and leaves
// none behind.
func (p *painter) paint(items []render.Item) {
	for _, item := range items {
		if err := render.Fault(item); err != nil {
			p.failf("%w", err)
			continue
		}
		switch item := item.(type) {
		case render.Stroke:
			p.stroke(item)
		case render.Fill:
			p.fill(item)
		case render.Text:
			p.text(item)
		case render.Link:
			p.link(item)
		case render.Image:
			p.image(item)
		case render.Group:
			p.group(item)
		}
	}
}

func (p *painter) group(g render.Group) {
	if g.Reads != "" {
		p.startReading(g.Reads)
		defer p.endReading()
	}
	if !g.Clipped() {
		p.paint(g.Items)
		return
	}
	p.op("q")
	p.num(g.Clip.Min.X*point, g.Clip.Min.Y*point, g.Clip.W()*point, g.Clip.H()*point)
	p.op("re W n")
	p.flush()
	p.paint(g.Items)
	p.op("Q")
	p.flush()
}

// startReading begins a run that is searched and spoken as s, whatever it is
// made of: replacement text, ISO 32000-1, 14.9.4. A space ends it because
// readers see no gap between such a run and the next.
func (p *painter) startReading(s string) {
	p.op("/Span << /ActualText " + literal(s+" ") + " >> BDC")
	p.flush()
}

func (p *painter) endReading() {
	p.op("EMC")
	p.flush()
}

// box returns b as fpdf wants it: x, y of the upper-left corner from the top
// of the page, width and height.
func (p *painter) box(b geom.Box) (x, y, w, h float64) {
	return b.Min.X * point, p.height - b.Max.Y*point, b.W() * point, b.H() * point
}

// flush hands the collected operators to fpdf.
func (p *painter) flush() {
	if len(p.buf) > 0 {
		p.f.RawWriteStr(string(p.buf))
		p.buf = p.buf[:0]
	}
}
