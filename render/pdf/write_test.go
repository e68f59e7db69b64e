package pdf

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
	"planset/render/pdftest"
)

func TestSameBookSameBytes(t *testing.T) {
	first := write(t, rich(t))
	for range 5 {
		require.True(t, bytes.Equal(first, write(t, rich(t))))
	}
	other := rich(t)
	other.Seed = "name = 'stool'"
	assert.False(t, bytes.Equal(first, write(t, other)), "the identity follows the source")
}

// valid has the structure of a file checked by pdfcpu.
func valid(t *testing.T, data []byte) {
	t.Helper()
	// pdfcpu would otherwise write a settings file into the home directory.
	model.ConfigPath = "disable"
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationStrict
	require.NoError(t, api.Validate(bytes.NewReader(data), conf))
}

func TestWholeFileIsValid(t *testing.T) {
	valid(t, write(t, rich(t)))
	valid(t, write(t, book(a4, nil)))
}

func TestPagesAndNames(t *testing.T) {
	data := write(t, rich(t))
	d := pdftest.Open(t, data)
	require.Equal(t, 3, d.Pages())
	for i, want := range []geom.Size{letter, a4, letter} {
		w, h := d.Size(i)
		// fpdf prints two decimals of a point: 595.28 stands for 595.276.
		assert.InDelta(t, want.W*point, w, 0.005)
		assert.InDelta(t, want.H*point, h, 0.005)
	}
	assert.Contains(t, string(data), "/MediaBox [0 0 612.00 792.00]")
	assert.Contains(t, string(data), "/MediaBox [0 0 595.28 841.89]")
	for _, key := range []string{"/CropBox", "/TrimBox", "/Rotate", "/UserUnit", "/OpenAction"} {
		assert.NotContains(t, string(data), key)
	}
	assert.Equal(t, "7", d.Label(0))
	assert.Equal(t, "T-3 (½)", d.Label(1))
	assert.Equal(t, "3", d.Label(2), "a page without a name is numbered")

	b := rich(t)
	assert.Equal(t, b.Title, d.Info("Title"))
	assert.Equal(t, b.Author, d.Info("Author"))
	assert.Equal(t, b.Subject, d.Info("Subject"))
	assert.Equal(t, b.Keywords, d.Info("Keywords"))
	assert.Equal(t, "D:20260331000000", d.Info("CreationDate"))
	assert.Equal(t, "planset", d.Info("Producer"))
	assert.False(t, d.ScalesWhenPrinted())
	for _, part := range []string{"/DisplayDocTitle true", "/Lang (en-US)", "Plans &lt;full size&gt;", "<rdf:li>Åse &amp; Sons</rdf:li>", "<xmp:CreateDate>2026-03-31T00:00:00Z"} {
		assert.Contains(t, string(data), part)
	}
	always, now := d.Identity()
	assert.Len(t, always, 16)
	assert.Len(t, now, 16)
	assert.NotEqual(t, always, now)
	b.Pages[0].Items = nil
	again, later := pdftest.Open(t, write(t, b)).Identity()
	assert.Equal(t, always, again, "the same source")
	assert.NotEqual(t, now, later, "another file")
}

func TestLinksAndMarks(t *testing.T) {
	b := rich(t)
	d := pdftest.Open(t, write(t, b))
	links := d.Links(0)
	require.Len(t, links, 2)
	assert.Equal(t, 1, links[0].Page)
	assert.Equal(t, -1, links[1].Page)
	assert.Equal(t, "https://example.org/%C3%A5?a=(b)", links[1].Addr)
	near(t, box(20, 248, 40, 254), links[0].Box, 0.01)
	near(t, box(20, 228, 40, 234), links[1].Box, 0.01)
	assert.Empty(t, d.Links(1))

	marks := d.Bookmarks()
	require.Len(t, marks, len(b.Marks))
	for i, want := range b.Marks {
		assert.Equal(t, want.Title, marks[i].Title)
		assert.Equal(t, want.Level, marks[i].Level)
		assert.Equal(t, want.Page, marks[i].Page)
		assert.InDelta(t, want.Y, marks[i].Y, 0.01, want.Title)
	}
}

func TestMarksOfManyLevels(t *testing.T) {
	b := book(a4, nil, nil)
	for i, level := range []int{0, 1, 2, 2, 1, 0, 0, 1, 2, 3, 1, 0} {
		b.Marks = append(b.Marks, render.Mark{Title: string(rune('a'+i)) + " ⌀🪑", Level: level, Page: i % 2, Y: 200 - float64(i)})
	}
	data := write(t, b)
	marks := pdftest.Open(t, data).Bookmarks()
	require.Len(t, marks, len(b.Marks))
	for i, want := range b.Marks {
		assert.Equal(t, want.Title, marks[i].Title)
		assert.Equal(t, want.Level, marks[i].Level, want.Title)
		assert.Equal(t, want.Page, marks[i].Page)
	}
	valid(t, data)
}

// near compares boxes corner by corner.
func near(t *testing.T, want, got geom.Box, within float64) {
	t.Helper()
	assert.InDelta(t, want.Min.X, got.Min.X, within, "left")
	assert.InDelta(t, want.Min.Y, got.Min.Y, within, "low")
	assert.InDelta(t, want.Max.X, got.Max.X, within, "right")
	assert.InDelta(t, want.Max.Y, got.Max.Y, within, "top")
}

// untouched is a writer that must not be written to.
type untouched struct{ t *testing.T }

func (u untouched) Write(p []byte) (int, error) {
	u.t.Error("something was written")
	return len(p), nil
}

func TestBrokenBooks(t *testing.T) {
	line := render.Lines(pt(10, 10), pt(20, 10))
	gap := render.Path{Segs: []geom.Seg{{A: pt(0, 0), B: pt(1, 0)}, {A: pt(2, 0), B: pt(3, 0)}}}
	open := render.Path{Closed: true, Segs: []geom.Seg{{A: pt(0, 0), B: pt(1, 0)}}}
	nan := math.NaN()
	items := map[string]render.Item{
		`text "two ☃" has the sign '☃' (U+2603), which the face sans lacks`: words(1, 1, "two ☃"),
		`has the sign '\n' (U+000A)`:         words(1, 1, "two\nlines"),
		`has the sign '🪑' (U+1FA91)`:         words(1, 1, "a 🪑"),
		"is not UTF-8":                       words(1, 1, "a\xffb"),
		"no face of ours, but face(9)":       render.Text{Text: "a", Face: 9, Size: 10},
		"cannot be 0 points high":            render.Text{Text: "a"},
		`text "lost" is nowhere`:             words(nan, 1, "lost"),
		"a pen cannot be 0 mm wide":          render.Stroke{Paths: []render.Path{line}},
		"cannot be dashed by [0 0]":          render.Stroke{Paths: []render.Path{line}, Pen: render.Pen{Width: 1, Dash: []float64{0, 0}}},
		"cannot be dashed by [1 -1 4]":       render.Stroke{Paths: []render.Path{line}, Pen: render.Pen{Width: 1, Dash: []float64{1, -1, 4}}},
		"a path is broken between":           render.Stroke{Paths: []render.Path{gap}, Pen: render.Thin},
		"a closed path ends at":              render.Fill{Paths: []render.Path{open}},
		"a path runs through no place":       render.Fill{Paths: []render.Path{render.Circle(pt(nan, 0), 4)}},
		"runs through no place: {A:{X:+Inf ": render.Fill{Paths: []render.Path{render.Circle(pt(math.Inf(1), 0), 4)}},
		"a link leads to page 8 of 2":        render.Link{Page: 7, Box: box(1, 1, 2, 2)},
		"a link leads to page 0 of 2":        render.Link{Page: -1, Box: box(1, 1, 2, 2)},
		"a link has no box":                  render.Link{Box: geom.NoBox()},
		"an image has no box":                render.Image{},
		"an image cannot be read":            render.Image{Box: box(1, 1, 2, 2), PNG: []byte("GIF89a")},
		`the clip of group "g" has no box`:   render.Group{Name: "g", Clip: box(0, 0, 1, math.Inf(1))},
		"there is no painting a <nil>":       nil,
	}
	for want, item := range items {
		b := book(a4, nil, []render.Item{render.Group{Items: []render.Item{item}}})
		b.Pages[1].Name = "T-9"
		err := Write(untouched{t}, b)
		assert.ErrorContains(t, err, want)
		assert.ErrorContains(t, err, `page 2 ("T-9"): `)
	}
}

func TestBrokenFrames(t *testing.T) {
	spoil := map[string]func(b *render.Book){
		"the book has no pages":                 func(b *render.Book) { b.Pages = nil },
		`like 2026-03-31, not "yesterday"`:      func(b *render.Book) { b.Date = "yesterday" },
		`like 2026-03-31, not ""`:               func(b *render.Book) { b.Date = "" },
		"a page cannot measure 0 x 297 mm":      func(b *render.Book) { b.Pages[0].Size.W = 0 },
		"a page cannot measure NaN x 297 mm":    func(b *render.Book) { b.Pages[0].Size.W = math.NaN() },
		"a page cannot measure 210 x 6000 mm":   func(b *render.Book) { b.Pages[0].Size.H = 6000 },
		`the mark "a" leads to page 3 of 1`:     func(b *render.Book) { b.Marks = []render.Mark{{Title: "a", Page: 2}} },
		`the mark "a" is of level 1, after one`: func(b *render.Book) { b.Marks = []render.Mark{{Title: "a", Level: 1}} },
		`the mark "a\xff" is not UTF-8`:         func(b *render.Book) { b.Marks = []render.Mark{{Title: "a\xff"}} },
		`the mark "a" is nowhere`:               func(b *render.Book) { b.Marks = []render.Mark{{Title: "a", Y: math.NaN()}} },
	}
	for want, f := range spoil {
		b := book(a4, nil)
		f(b)
		assert.ErrorContains(t, Write(untouched{t}, b), want)
	}
}

func TestAllFaultsAreNamed(t *testing.T) {
	b := book(a4, []render.Item{words(1, 1, "☃")}, []render.Item{words(1, 1, "☂"), words(1, 1, "fine")})
	err := Write(untouched{t}, b)
	assert.ErrorContains(t, err, "U+2603")
	assert.ErrorContains(t, err, "U+2602")
}

type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	assert.ErrorIs(t, Write(full{}, book(a4, nil)), errFull)
}

// A file that does not end as expected is refused rather than broken.
func TestUpdateRefusesOtherFiles(t *testing.T) {
	b := book(a4, []render.Item{words(10, 10, "a")})
	updated := write(t, b)
	end := bytes.Index(updated, []byte("%%EOF\n")) + len("%%EOF\n")
	plain := bytes.Clone(updated[:end])
	plain[len(header)-1] = '3'
	again, err := update(plain, b, nil)
	require.NoError(t, err)
	require.Equal(t, updated, again)

	_, err = update(updated, b, nil)
	assert.ErrorIs(t, err, errLayout, "an updated file has another trailer")
	for _, change := range [][2]string{
		{"/Type /Catalog", "/Type /Cabinet"},
		{"startxref\n", "startxref\n1"},
		{"/Root ", "/Root 1"},
		{"xref\n0 ", "xref\n1 "},
		{"trailer", "tractor"},
		{"/Kids", "/Dogs"},
		{"/Kids [3 0 R ]", "/Kids [ ]"},
		{"%PDF", "%FDP"},
	} {
		_, err := update(bytes.Replace(plain, []byte(change[0]), []byte(change[1]), -1), b, nil)
		assert.ErrorIs(t, err, errLayout, change[0])
	}
	for _, n := range []int{0, 1, 100, len(plain) / 2, len(plain) - 1} {
		_, err := update(plain[:n], b, nil)
		assert.ErrorIs(t, err, errLayout, "cut at %d", n)
	}
}

// fpdf is given a copy of the fonts, for it writes into what it gets.
func TestFontsStayAsTheyAre(t *testing.T) {
	before := map[fonts.Face][]byte{}
	for _, f := range fonts.Faces() {
		before[f] = bytes.Clone(fonts.Data(f))
	}
	write(t, rich(t))
	for _, f := range fonts.Faces() {
		assert.True(t, bytes.Equal(before[f], fonts.Data(f)), f.String())
	}
}

func TestNoFontNoBytes(t *testing.T) {
	bare := write(t, book(a4, nil))
	assert.Less(t, len(bare), 4000, "no font is embedded before it is used")
	one := write(t, book(a4, []render.Item{words(10, 10, "a")}))
	assert.Equal(t, 1, bytes.Count(one, []byte("/FontFile2")))
}
