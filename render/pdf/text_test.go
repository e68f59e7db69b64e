package pdf

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/go-pdf/fpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/layouts/lettering"
	"planset/render"
	"planset/render/pdftest"
)

const pangram = "Saw 12 boards, 3⁄4 × 5 1⁄2″; quick wax jobs vex lazy folk: “±0.5°” — (½ ¼ ¾) & Ø → ← é ß"

func TestTextComesOut(t *testing.T) {
	var items []render.Item
	var want []string
	y := 280.0
	line := func(s string, st lettering.Style) {
		items = append(items, lettering.Line(pt(15, y), s, st, render.Left)...)
		want = append(want, s)
		y -= 8
	}
	for _, f := range fonts.Faces() {
		line("35 1⁄2″ from the datum end", lettering.Style{Face: f, Size: render.Measure})
		line("cut 2: 15⁄16″, not 151⁄6″", lettering.Style{Face: f, Size: render.Body})
		line("⌀ 3⁄8 ☐ drilled ☑ sanded ◁ ▷", lettering.Style{Face: f, Size: render.Small})
		items = append(items, render.Text{At: pt(15, y), Text: pangram, Face: f, Size: 9})
		want = append(want, pangram)
		y -= 8
	}
	items = append(items, lettering.Turned(pt(195, 100), "16 3⁄4″ turned", lettering.Style{Size: 12}, render.Middle, math.Pi/2)...)
	want = append(want, "16 3⁄4″ turned")
	d := pdftest.Open(t, write(t, book(a4, items, []render.Item{words(20, 20, "second page")})))

	var got []string
	for _, s := range strings.Split(d.Text(0), "\n") {
		got = append(got, strings.TrimSpace(s))
	}
	assert.Equal(t, want, got)
	assert.Equal(t, "second page", d.Text(1))
}

// Words after a fraction keep their distance from it when a page is searched.
func TestReadingsDoNotRunTogether(t *testing.T) {
	st := lettering.Style{Size: 10}
	items := lettering.Line(pt(20, 50), "11⁄16", st, render.Left)
	items = append(items, lettering.Line(pt(60, 50), "35 1⁄2", st, render.Left)...)
	items = append(items, words(100, 50, "oak"))
	items = append(items, lettering.Line(pt(120, 50), "7⁄8", st, render.Left)...)
	text := pdftest.Open(t, write(t, book(a4, items))).Text(0)
	assert.Equal(t, []string{"11⁄16", "35", "1⁄2", "oak", "7⁄8"}, strings.Fields(text))
}

// fpdf and PDFium read the widths from the files by ways of their own.
func TestWidthsAgreeWithFpdf(t *testing.T) {
	f := fpdf.New("P", "mm", "A4", "")
	for _, face := range fonts.Faces() {
		f.AddUTF8FontFromBytes(face.String(), "", append([]byte(nil), fonts.Data(face)...))
		for _, size := range []float64{8, 10.2, 24} {
			f.SetFont(face.String(), "", size)
			require.NoError(t, f.Error())
			assert.InDelta(t, f.GetStringWidth(pangram), fonts.Width(face, size, pangram), 1e-6, face.String())
		}
	}
}

// Every letter PDFium paints lies where fonts.Ink and fonts.Width have it.
func TestLettersLieWhereTheyAreMeasured(t *testing.T) {
	for _, face := range fonts.Faces() {
		text := render.Text{At: pt(12, 100), Text: pangram, Face: face, Size: 10.2}
		letters := pdftest.Open(t, write(t, book(a4, []render.Item{text}))).Letters(0)
		runes := []rune(pangram)
		require.Len(t, letters, len(runes))
		for i, got := range letters {
			require.Equal(t, string(runes[i]), got.Text)
			one := text
			one.Text = got.Text
			one.At.X += fonts.Width(face, text.Size, string(runes[:i]))
			want := one.Ink()
			if want.Empty() {
				continue
			}
			// PDFium adds a 64th to the height of letters of such fonts.
			want.Max.Y += (want.Max.Y - text.At.Y) / 64
			near(t, want, got.Box, 0.02)
		}
	}
}

func TestAlignedAndTurnedText(t *testing.T) {
	var items []render.Item
	for i, align := range []render.Align{render.Left, render.Middle, render.Right} {
		for j, angle := range []float64{0, math.Pi / 6, math.Pi / 2, math.Pi, -2.1} {
			items = append(items, render.Text{
				At: pt(40+float64(i)*60, 40+float64(j)*45), Text: "HELD", Face: fonts.SansBold, Size: 12, Align: align, Angle: angle,
			})
		}
	}
	d := pdftest.Open(t, write(t, book(a4, items)))
	dark := darkBoxes(d.Render(0, 300), 300)
	for _, item := range items {
		text := item.(render.Text)
		want := text.Ink()
		got := dark(want.Grow(3))
		if math.Mod(text.Angle, math.Pi/2) == 0 {
			near(t, want, got, 0.1)
			continue
		}
		// The box round a turned box of ink holds the ink, which fills most of it.
		assert.True(t, want.Grow(0.1).Has(got.Min) && want.Grow(0.1).Has(got.Max), "%v holds %v", want, got)
		assert.Greater(t, got.W()*got.H(), 0.75*want.W()*want.H())
	}
}

// Every sign a face claims to cover comes out as itself, with its own ink: no
// empty box, and nothing lost when fpdf takes the font apart.
func TestEverySignComesOut(t *testing.T) {
	for _, face := range fonts.Faces() {
		var items []render.Item
		for r := rune('!'); r < 0xFFFF; r++ {
			if r >= 0xFB00 && r <= 0xFB06 {
				continue // ligatures, which PDFium tells letter by letter
			}
			if !fonts.Covers(face, r) || !unicode.IsGraphic(r) || unicode.IsSpace(r) || unicode.Is(unicode.M, r) {
				continue
			}
			n := len(items)
			items = append(items, render.Text{At: pt(10+float64(n%25)*8, 285-float64(n/25)*7), Text: string(r), Face: face, Size: 10})
		}
		require.Greater(t, len(items), 400)
		d := pdftest.Open(t, write(t, book(a4, items)))
		found := map[string][]pdftest.TextBox{}
		for _, got := range d.Letters(0) {
			found[got.Text] = append(found[got.Text], got)
		}
		for _, item := range items {
			text := item.(render.Text)
			want := text.Ink()
			want.Max.Y += (want.Max.Y - text.At.Y) / 64 // as above
			require.NotEmpty(t, found[text.Text], "%s %q is not on the page", face, text.Text)
			near(t, want, found[text.Text][0].Box, 0.02)
		}
	}
}
