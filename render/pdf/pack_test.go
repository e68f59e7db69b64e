package pdf

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/render"
)

// written is a book as fpdf alone writes it, its pages compressed or not.
func written(t *testing.T, b *render.Book, small bool) []byte {
	t.Helper()
	p := &painter{book: b, fonts: map[fonts.Face]bool{}, images: map[string]picture{}}
	p.open(time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC))
	p.f.SetCompression(small)
	for i := range b.Pages {
		p.paintPage(i)
	}
	require.Empty(t, p.wrong)
	var file bytes.Buffer
	require.NoError(t, p.f.Output(&file))
	return file.Bytes()
}

// What pack makes of a plain file is what fpdf would have written itself.
func TestPackDoesAsFpdfDoes(t *testing.T) {
	many := make([][]render.Item, 40)
	for i := range many {
		for k := range i * i {
			many[i] = append(many[i], words(float64(10+k%190), float64(10+k%270), "endstream"))
		}
	}
	for name, b := range map[string]*render.Book{"rich": rich(t), "one empty page": book(a4, nil), "many": book(letter, many...)} {
		plain := written(t, b, false)
		got, err := pack(plain, len(b.Pages))
		require.NoError(t, err, name)
		require.True(t, bytes.Equal(written(t, b, true), got), name)
	}
}

// A file of another layout is refused rather than broken.
func TestPackRefusesOtherFiles(t *testing.T) {
	b := book(a4, []render.Item{words(10, 10, "a")}, nil)
	plain := written(t, b, false)
	_, err := pack(plain, 3)
	assert.ErrorIs(t, err, errLayout, "another number of pages")
	_, err = pack(written(t, b, true), 2)
	assert.ErrorIs(t, err, errLayout, "compressed already")
	for _, change := range [][2]string{
		{"/Length ", "/Breadth "},
		{"\nstream\n", "\nbrook\n"},
		{"\nendstream\nendobj\n", "\nendstream\nendojb\n"},
		{"/Type /Catalog", "/Type /Cabinet"},
		{"xref\n0 ", "xref\n1 "},
		{" 00000 n \n", " 0000 n\n"},
	} {
		_, err := pack(bytes.ReplaceAll(plain, []byte(change[0]), []byte(change[1])), 2)
		assert.ErrorIs(t, err, errLayout, change[0])
	}
	for _, n := range []int{0, 1, 100, len(plain) / 2, len(plain) - 1} {
		_, err := pack(plain[:n], 2)
		assert.ErrorIs(t, err, errLayout, "cut at %d", n)
	}
}
