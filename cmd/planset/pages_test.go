package main

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/expr"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdf"
	"planset/render/pdftest"
)

// A printed is one edition of an example, made once for all tests.
type printed struct {
	name string
	e    model.Edition
	plan *model.Plan
	book *render.Book
	data []byte
}

// A press makes each edition of the examples when it is first asked for.
type press struct {
	sync.Mutex
	made map[string]*printed
}

var shelf = press{made: map[string]*printed{}}

// edition returns an edition of an example.
func (s *press) edition(t testing.TB, name string, e model.Edition) *printed {
	t.Helper()
	s.Lock()
	defer s.Unlock()
	key := strings.Join([]string{name, e.Variant, unitName(e.Unit), e.Paper}, " ")
	if s.made[key] == nil {
		a, d := reader(t, name)
		p := &printed{name: key, e: e}
		p.plan, p.book = a.compose(d, e)
		require.NotNil(t, p.book, key)
		var buf bytes.Buffer
		require.NoError(t, pdf.Write(&buf, p.book))
		p.data = buf.Bytes()
		s.made[key] = p
	}
	return s.made[key]
}

// everyEdition calls f with every example in every variant, unit and paper,
// whether the example names that edition or not.
func everyEdition(t *testing.T, f func(t *testing.T, p *printed)) {
	for _, name := range examples {
		_, d := reader(t, name)
		for _, v := range d.variantNames() {
			for _, u := range []expr.Unit{expr.Inch, expr.MM} {
				for _, paper := range []string{"letter", "a4"} {
					p := shelf.edition(t, name, model.Edition{Variant: v, Unit: u, Paper: paper})
					t.Run(p.name, func(t *testing.T) { f(t, p) })
				}
			}
		}
	}
}

// The field of every page but the full-size ones, and what head and foot leave
// of it, mm; PLANSET's common page.
const (
	pageFieldW, pageFieldH = 190.0, 254.0
	pageHead, pageFoot     = 21.5, 11.0
	livePrint              = 10.0 // margin of full-size pages
)

// An excuse lets the pages whose titles begin so be blank in a band of more than
// a third of them, up to a share.
type excuse struct {
	title string
	share float64
	why   string
}

func excuses() []excuse {
	return []excuse{
		{"Template", 1, "a tile is as empty as the part it shows"},
		{"Part drawings", 0.5, "a drawing is never parted, and no other one fits under these"},
		{"Joints", 0.65, "a joint is never parted; the last page has what is left"},
		{"Cut list", 0.75, "the list went on from the page before, and a family stays together"},
		{"Board layouts", 0.6, "a board is never parted, the boards of one stock stay together"},
		{"Glossary", 0.5, "it ends where the words of the plan end"},
	}
}

// rulesFor are the rules of the house for one page.
func rulesFor(p render.Page, bare bool) inspect.Rules {
	corner := geom.Pt{X: (p.Size.W - pageFieldW) / 2, Y: (p.Size.H - pageFieldH) / 2}
	r := inspect.Rules{
		Field: geom.Box{Min: corner, Max: corner.Add(geom.Pt{X: pageFieldW, Y: pageFieldH})}.Grow(render.Heavy.Width / 2),
		Blank: 1.0 / 3, Pen: 0.18, Letters: 1.8, Notes: 2.5, Sizes: 3,
	}
	r.Body = geom.Box{Min: corner.Add(geom.Pt{Y: pageFoot}), Max: corner.Add(geom.Pt{X: pageFieldW - 6, Y: pageFieldH - pageHead})}
	if bare {
		r.Field = geom.Box{Max: geom.Pt{X: p.Size.W, Y: p.Size.H}}.Grow(render.Heavy.Width/2 - livePrint)
	}
	for _, why := range excuses() {
		if strings.HasPrefix(p.Title, why.title) {
			r.Blank = why.share
		}
	}
	return r
}

// TestEveryPage reads every finished page of every edition: no text on text or
// near a line, no leaders crossing, nothing out of the margins, no letters or
// lines too fine to print, no page blank for no reason.
func TestEveryPage(t *testing.T) {
	pages := 0
	everyEdition(t, func(t *testing.T, p *printed) {
		for i, page := range p.book.Pages {
			pages++
			for _, c := range inspect.Page(page, rulesFor(page, strings.HasPrefix(page.Title, "Template"))) {
				if inThumbnail(page, c) {
					continue
				}
				t.Errorf("page %d, %s: %v", i+1, page.Title, c)
			}
		}
	})
	assert.Greater(t, pages, 300)
}

// inThumbnail allows the label of a tile to stand near the outline in the small
// picture of a narrow template: it names a tile of the map, nothing is read off
// there.
func inThumbnail(p render.Page, c inspect.Clash) bool {
	return strings.HasPrefix(p.Title, "Template map") && c.Fault == inspect.TextOnLine && len(c.Texts[0]) <= 3 && c.Gap > 0.4
}

// TestEveryPageInPDFium reads the same pages as a reader that is not ours finds
// them in the file: no two runs of text lie over each other.
func TestEveryPageInPDFium(t *testing.T) {
	if testing.Short() {
		t.Skip("asks PDFium for every text of every edition")
	}
	everyEdition(t, func(t *testing.T, p *printed) {
		doc := pdftest.Open(t, p.data)
		require.Equal(t, len(p.book.Pages), doc.Pages())
		for i, page := range p.book.Pages {
			for _, s := range overlaps(doc.TextBoxes(i)) {
				t.Errorf("page %d, %s: %s", i+1, page.Title, s)
			}
		}
	})
}

// overlaps names the pairs of texts that share more than a hair in both ways.
func overlaps(texts []pdftest.TextBox) []string {
	const hair = 0.15 // mm
	var found []string
	for i, a := range texts {
		if strings.TrimSpace(a.Text) == "" {
			continue
		}
		for _, b := range texts[i+1:] {
			both := render.Overlap(a.Box, b.Box)
			if strings.TrimSpace(b.Text) != "" && !both.Empty() && both.W() > hair && both.H() > hair {
				found = append(found, fmt.Sprintf("%q and %q at %.1f, %.1f", a.Text, b.Text, both.Min.X, both.Min.Y))
			}
		}
	}
	return found
}
