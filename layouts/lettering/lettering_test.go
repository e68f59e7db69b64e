package lettering

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/fonts"
	"planset/model/geom"
	"planset/render"
)

var styles = []Style{
	{Face: fonts.Sans, Size: render.Small},
	{Face: fonts.SansBold, Size: render.Body},
	{Face: fonts.Cond, Size: render.Measure},
	{Face: fonts.CondBold, Size: render.Head},
}

// texts returns the texts in items, groups opened.
func texts(items []render.Item) []render.Text {
	var all []render.Text
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			all = append(all, item)
		case render.Group:
			all = append(all, texts(item.Items)...)
		}
	}
	return all
}

func TestPlainLineIsOneText(t *testing.T) {
	at := geom.Pt{X: 12, Y: 34}
	for _, st := range styles {
		for _, align := range []render.Align{render.Left, render.Middle, render.Right} {
			items := Line(at, "Back slat, outer", st, align)
			want := render.Text{At: at, Text: "Back slat, outer", Face: st.Face, Size: st.Size, Align: align, Tone: st.Tone}
			assert.Equal(t, []render.Item{want}, items)
		}
		assert.Equal(t, fonts.Width(st.Face, st.Size, "Back slat"), Width("Back slat", st))
	}
	assert.Empty(t, Line(at, "", styles[0], render.Left))
}

func TestFraction(t *testing.T) {
	for _, st := range styles {
		items := Line(geom.Pt{}, "35 1⁄2″", st, render.Left)
		require.Len(t, items, 1)
		group := items[0].(render.Group)
		assert.Equal(t, "text", group.Name)
		assert.Equal(t, "35 1⁄2″", group.Reads)
		got := texts(items)
		require.Len(t, got, 5)
		whole, over, bar, under, mark := got[0], got[1], got[2], got[3], got[4]
		assert.Equal(t, []string{"35 ", "1", "⁄", "2", "″"}, []string{whole.Text, over.Text, bar.Text, under.Text, mark.Text})

		full := fonts.CapHeight(st.Face, st.Size)
		assert.GreaterOrEqual(t, over.Size, 0.72*st.Size)
		assert.Equal(t, over.Size, under.Size)
		assert.Less(t, over.Size, st.Size)
		assert.Zero(t, under.At.Y, "the denominator stands on the baseline")
		assert.Greater(t, over.Ink().Max.Y, full, "the numerator rises above the figures")
		assert.Greater(t, over.At.Y, 0.25*full)

		gap := over.Ink().Min.X - render.Text{Text: "35", Face: st.Face, Size: st.Size}.Ink().Max.X
		assert.Greater(t, gap, 0.12*full, "a gap after the whole number")
		assert.Less(t, gap, 0.6*full, "but a thin one")
		assert.Greater(t, under.Ink().Min.X, over.Ink().Max.X, "numerator and denominator side by side")
		assert.Greater(t, mark.Ink().Min.X, under.Ink().Max.X)
		assert.GreaterOrEqual(t, Width("35 1⁄2″", st), mark.Ink().Max.X-0.1*full)
	}
}

// ISO 3098 begins its series of letter heights at 1.8 mm.
func TestSmallFiguresStayLegible(t *testing.T) {
	for _, size := range []float64{render.Small, render.Body, render.Note, render.Step, render.Measure} {
		for _, face := range fonts.Faces() {
			over := texts(Line(geom.Pt{}, "15⁄16", Style{Face: face, Size: size}, render.Left))[0]
			assert.GreaterOrEqual(t, fonts.CapHeight(over.Face, over.Size), 1.8, "%s at %g pt", face, size)
		}
	}
}

// The stroke of a fraction must not touch the figures: it is a line from its
// lower-left to its upper-right corner, and figures stay on their side of it.
func TestStrokeIsClearOfFigures(t *testing.T) {
	for _, st := range styles {
		for _, s := range []string{"1⁄2", "7⁄8", "15⁄16", "31⁄32", "63⁄64", "1⁄100"} {
			got := texts(Line(geom.Pt{}, s, st, render.Left))
			over, bar, under := got[0].Ink(), got[1].Ink(), got[2].Ink()
			thick := 0.9 * stem(st.Face) * st.Size * fonts.MM
			left := func(y float64) float64 {
				return bar.Min.X + (bar.W()-thick)*(y-bar.Min.Y)/bar.H()
			}
			assert.Less(t, over.Max.X, left(over.Min.Y), "%s over", s)
			assert.Greater(t, under.Min.X, left(under.Max.Y)+thick, "%s under", s)
		}
	}
}

func TestWhatIsNoFraction(t *testing.T) {
	for _, s := range []string{"1/2", "⁄2", "1⁄", "a⁄b", "3⁄x", "½"} {
		assert.Len(t, texts(Line(geom.Pt{}, s, styles[1], render.Left)), 1, s)
	}
	// Three figures and a slash are one fraction, never 35 and a half.
	assert.Equal(t, "351", texts(Line(geom.Pt{}, "351⁄2", styles[1], render.Left))[0].Text)
}

// A fraction after a fraction is not the rest of a mixed number.
func TestFractionsInARow(t *testing.T) {
	st := styles[1]
	space := fonts.Width(st.Face, st.Size, " ")
	assert.InDelta(t, Width("3⁄8", st)+space+Width("1⁄2", st), Width("3⁄8 1⁄2", st), 1e-9)
	assert.Less(t, Width("3 1⁄2", st), Width("3", st)+space+Width("1⁄2", st))
	assert.Equal(t, []string{"3⁄8", "1⁄2", "5 1⁄4", "a"}, words("3⁄8 1⁄2 5 1⁄4 a"))
}

func TestLongWordsAreQuick(t *testing.T) {
	st := styles[0]
	assert.Len(t, Wrap(strings.Repeat("x", 100_000), Width("xx", st), st), 50_000)
	assert.Len(t, Wrap(strings.Repeat("x", 100_000), 1e9, st), 1)
	assert.Len(t, Wrap(strings.Repeat("xx ", 100_000), Width("xx xx", st), st), 50_000)
}

func TestAlignAndAngle(t *testing.T) {
	at := geom.Pt{X: 50, Y: 60}
	st := styles[1]
	const s = "⌀ 3⁄8″ × 35 1⁄2″"
	w := Width(s, st)
	left := texts(Line(at, s, st, render.Left))
	middle := texts(Line(at, s, st, render.Middle))
	right := texts(Line(at, s, st, render.Right))
	for i := range left {
		assert.InDelta(t, left[i].At.X-w/2, middle[i].At.X, 1e-9)
		assert.InDelta(t, left[i].At.X-w, right[i].At.X, 1e-9)
	}
	const angle = 0.7
	turned := texts(Turned(at, s, st, render.Middle, angle))
	for i := range turned {
		want := at.Add(middle[i].At.Sub(at).Turn(angle))
		assert.InDelta(t, 0, want.Sub(turned[i].At).Len(), 1e-9)
		assert.Equal(t, angle, turned[i].Angle)
	}
	flat, up := render.Bounds(Line(at, s, st, render.Left)...), render.Bounds(Turned(at, s, st, render.Left, math.Pi/2)...)
	assert.InDelta(t, flat.W(), up.H(), 1e-9)
	assert.InDelta(t, flat.H(), up.W(), 1e-9)
}

func TestSignsAreDrawn(t *testing.T) {
	for _, st := range styles {
		for _, r := range Signs() {
			require.False(t, fonts.Covers(st.Face, r), "%c needs no drawing in %s", r, st.Face)
			assert.Empty(t, Missing(string(r), st))
			items := Line(geom.Pt{}, string(r), st, render.Left)
			require.Len(t, items, 1)
			ink := render.Bounds(items...)
			assert.Positive(t, ink.Min.X)
			assert.Less(t, ink.Max.X, Width(string(r), st), "%c", r)
			assert.InDelta(t, Cap(st), ink.Max.Y, 0.12*Cap(st), "%c is as high as a capital", r)
			assert.InDelta(t, 0, ink.Min.Y, 0.12*Cap(st), "%c stands on the baseline", r)
		}
	}
	assert.Equal(t, []rune{'☃'}, Missing("☃ ⌀ ☐\n☃", styles[0]))
}

func TestWrap(t *testing.T) {
	const s = "Clamp the legs to the bench, mark the holes 1 3⁄4″ from the datum end, then drill ⌀ 5⁄16″ right through."
	for _, st := range styles {
		for _, width := range []float64{45, 60, 90, 1000} {
			lines := Wrap(s, width, st)
			assert.Equal(t, s, strings.Join(lines, " "))
			for i, line := range lines {
				assert.LessOrEqual(t, Width(line, st), width+1e-6)
				assert.NotRegexp(t, `\d$`, line, "a number is parted from its fraction")
				if i > 0 {
					first := words(line)[0]
					assert.Greater(t, Width(lines[i-1]+" "+first, st), width, "%q had room", lines[i-1])
				}
			}
		}
	}
}

func TestWrapEdges(t *testing.T) {
	st := styles[1]
	assert.Equal(t, []string{""}, Wrap("", 50, st))
	assert.Equal(t, []string{"a", "", "b"}, Wrap("a\n\nb", 50, st))
	assert.Equal(t, []string{"a b"}, Wrap("  a   b ", 50, st))
	assert.Equal(t, []string{"3\u00a0mm", "off"}, Wrap("3\u00a0mm off", Width("3\u00a0mm o", st), st))
	long := strings.Repeat("M", 30)
	pieces := Wrap(long, Width("MMMM", st), st)
	assert.Equal(t, long, strings.Join(pieces, ""))
	for _, p := range pieces[:len(pieces)-1] {
		assert.Len(t, p, 4)
	}
	assert.Equal(t, []string{"a", "b"}, Wrap("ab", 0, st), "a letter a line, however narrow")
	assert.Equal(t, []string{"ab"}, Wrap("ab", Width("ab", st), st), "a text fits its own width")
}

func TestParagraph(t *testing.T) {
	st := Style{Face: fonts.Sans, Size: render.Body}
	top := geom.Pt{X: 20, Y: 200}
	items, height := Paragraph(top, "HAND\nGap\nHip", 80, st)
	got := texts(items)
	require.Len(t, got, 3)
	assert.InDelta(t, top.Y, got[0].Ink().Max.Y, 1e-9, "capitals hang from the top")
	assert.InDelta(t, Pitch(st), got[0].At.Y-got[1].At.Y, 1e-9)
	assert.InDelta(t, 1.32*render.Body*fonts.MM, Pitch(st), 1e-9)
	assert.LessOrEqual(t, top.Y-height, got[2].Ink().Min.Y, "the last descender is inside")
	assert.InDelta(t, Height(3, st), height, 1e-9)
	st.Lead = 1.5
	assert.InDelta(t, 1.5*render.Body*fonts.MM, Pitch(st), 1e-9)
	items, height = Paragraph(top, "", 80, st)
	assert.Empty(t, items)
	assert.Zero(t, height)
}

func TestShorten(t *testing.T) {
	st := styles[2]
	assert.Equal(t, "Back slat", Shorten("Back slat", 100, st))
	got := Shorten("Back slat with a very long name", 30, st)
	assert.LessOrEqual(t, Width(got, st), 30.0)
	assert.True(t, strings.HasSuffix(got, "…") && strings.HasPrefix("Back slat with a very long name", strings.TrimSuffix(got, "…")))
	assert.Equal(t, "…", Shorten("Back", 0.1, st))
}

func TestTab(t *testing.T) {
	at := geom.Pt{X: 30, Y: 40}
	accent := render.Tone{R: 200, G: 80, B: 20}
	for _, height := range []float64{5, 7, 12} {
		for _, c := range [][2]string{{"A", ""}, {"W", "L"}, {"C2", "R"}, {"J", ""}} {
			items, width := Tab(at, c[0], c[1], height, accent)
			require.Len(t, items, 1)
			group := items[0].(render.Group)
			assert.Equal(t, "tab "+c[0]+c[1], group.Name)
			assert.Equal(t, TabWidth(c[0], c[1], height), width)

			board := group.Items[0].(render.Fill).Paths[0]
			require.Len(t, board.Segs, 5, "four corners, one of them clipped")
			cut := board.Segs[2]
			d := cut.B.Sub(cut.A)
			assert.InDelta(t, -d.X, d.Y, 1e-9, "clipped at 45 degrees")
			box := geom.Box{Min: at, Max: geom.Pt{X: at.X + width, Y: at.Y + height}}
			for i, text := range texts(items) {
				ink := text.Ink()
				assert.True(t, box.Has(ink.Min) && box.Has(ink.Max), "%v is inside", c)
				assert.GreaterOrEqual(t, fonts.CapHeight(text.Face, text.Size), 1.8)
				corner := geom.Pt{X: ink.Max.X, Y: ink.Max.Y}
				assert.Positive(t, d.Cross(corner.Sub(cut.A)), "letter %d is clear of the clipped corner", i)
				assert.Equal(t, render.Tone{}, text.Tone, "dark, for mono printers")
			}
		}
	}
}

// Whatever the text, nothing of it is lost or set twice.
func FuzzWrap(f *testing.F) {
	f.Add("drill 3⁄8″, 1 3⁄4″ from the end", 20.0)
	f.Add("1⁄2⁄3 4⁄ 5 6⁄7 8 9⁄10⌀☐\n\n ⁄", 0.0)
	f.Fuzz(func(t *testing.T, s string, width float64) {
		if !utf8.ValidString(s) || math.IsNaN(width) {
			t.Skip()
		}
		st := Style{Face: fonts.Cond, Size: 10}
		squeeze := func(s string) string { return strings.NewReplacer(" ", "", "\t", "", "\n", "").Replace(s) }
		lines := Wrap(s, width, st)
		require.Equal(t, squeeze(s), squeeze(strings.Join(lines, "")))
		for _, line := range lines {
			var said strings.Builder
			for _, p := range cut(line, st).pieces {
				said.WriteString(p.text)
				if p.sign != 0 {
					said.WriteRune(p.sign)
				}
			}
			require.Equal(t, line, said.String())
		}
	})
}

func BenchmarkParagraph(b *testing.B) {
	st := Style{Face: fonts.Sans, Size: render.Body}
	s := strings.Repeat("Drill ⌀ 5⁄16″, 1 3⁄4″ from the datum end, square and right through. ", 8)
	b.ReportAllocs()
	for b.Loop() {
		Paragraph(geom.Pt{}, s, 90, st)
	}
}
