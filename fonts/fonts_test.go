package fonts

import (
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Another reader of the same files has to see the same letters and widths.
func TestTablesAgreeWithSfnt(t *testing.T) {
	for _, f := range Faces() {
		other, err := sfnt.Parse(Data(f))
		require.NoError(t, err)
		var buf sfnt.Buffer
		em := fixed.I(int(other.UnitsPerEm()))
		covered := 0
		for r := rune(1); r < 0xFFFF; r++ {
			g, err := other.GlyphIndex(&buf, r)
			require.NoError(t, err)
			if !assert.Equal(t, g != 0, Covers(f, r), "%s %U", f, r) || g == 0 {
				continue
			}
			covered++
			bounds, advance, err := other.GlyphBounds(&buf, g, em, font.HintingNone)
			require.NoError(t, err)
			size := float64(other.UnitsPerEm()) / MM // one unit is one millimetre
			require.InDelta(t, float64(advance)/64, Width(f, size, string(r)), 1e-6, "%s %U", f, r)
			// sfnt rounds the parts of a composite letter, so one unit may differ.
			ink := Ink(f, size, string(r))
			require.InDelta(t, float64(bounds.Min.X)/64, ink.Left, 1.01, "%s %U left", f, r)
			require.InDelta(t, float64(bounds.Max.X)/64, ink.Right, 1.01, "%s %U right", f, r)
			require.InDelta(t, -float64(bounds.Max.Y)/64, ink.Low, 1.01, "%s %U low", f, r)
			require.InDelta(t, -float64(bounds.Min.Y)/64, ink.Top, 1.01, "%s %U top", f, r)
		}
		assert.Greater(t, covered, 400, f.String())

		m, err := other.Metrics(&buf, em, font.HintingNone)
		require.NoError(t, err)
		assert.InDelta(t, float64(m.CapHeight)/64*MM, CapHeight(f, float64(other.UnitsPerEm())), 1e-9)
		assert.InDelta(t, float64(m.XHeight)/64*MM, XHeight(f, float64(other.UnitsPerEm())), 1e-9)
	}
}

// The sizes of type of a plan set are chosen for capitals of 0.698 em.
func TestCapitals(t *testing.T) {
	for _, f := range Faces() {
		assert.InDelta(t, 0.698*10*MM, CapHeight(f, 10), 1e-9, f.String())
		assert.InDelta(t, CapHeight(f, 10), Ink(f, 10, "H").Top, 1e-9, f.String())
		assert.Greater(t, Ascent(f, 10), CapHeight(f, 10))
		assert.LessOrEqual(t, -Ink(f, 10, "gjpqy").Low, Descent(f, 10)+1e-9, f.String())
	}
}

// Columns of figures line up only when all figures are of one width.
func TestFiguresAreTabular(t *testing.T) {
	for _, f := range Faces() {
		for d := '0'; d <= '9'; d++ {
			assert.Equal(t, Width(f, 10, "0"), Width(f, 10, string(d)), "%s %c", f, d)
		}
	}
}

func TestWidthAddsUp(t *testing.T) {
	const a, b = "Seat slat ", "C1 × 12, 35 1⁄2″"
	for _, f := range Faces() {
		assert.InDelta(t, Width(f, 9, a)+Width(f, 9, b), Width(f, 9, a+b), 1e-9)
		assert.InDelta(t, 3*Width(f, 9, a), Width(f, 27, a), 1e-9)
		assert.Zero(t, Width(f, 9, ""))
		assert.Less(t, Width(f, 9, a), Width(f, 9, a+"i"))
	}
	assert.Less(t, Width(Cond, 9, a), Width(Sans, 9, a))
}

func TestMissing(t *testing.T) {
	assert.Nil(t, Missing(Sans, "35 1⁄2″ × 90° ± → — “ok”"))
	assert.Equal(t, []rune{'☃', '☐'}, Missing(SansBold, "☃a☐☃"))
	assert.Equal(t, []rune{'\n', '🪑'}, Missing(Cond, "a\n🪑"))
}

func TestInk(t *testing.T) {
	assert.Zero(t, Ink(Sans, 10, ""))
	assert.Zero(t, Ink(Sans, 10, "  "))
	one := Ink(Sans, 10, "H")
	two := Ink(Sans, 10, " H")
	shift := Width(Sans, 10, " ")
	assert.InDelta(t, one.Left+shift, two.Left, 1e-9)
	assert.InDelta(t, one.Right+shift, two.Right, 1e-9)
	assert.InDelta(t, Ink(Sans, 10, "p").Low, Ink(Sans, 10, "Hp").Low, 1e-9)
}

func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Faces() {
		assert.True(t, f.Valid())
		assert.False(t, seen[f.String()])
		seen[f.String()] = true
	}
	assert.False(t, Face(-1).Valid())
	assert.False(t, Face(4).Valid())
	assert.Equal(t, "face(4)", Face(4).String())
	name, weight := CondBold.Family()
	assert.Equal(t, "IBM Plex Sans Condensed", name)
	assert.Equal(t, 600, weight)
}

// A font that is not whole has to be refused, wherever it is cut.
func TestParseRefusesBrokenFiles(t *testing.T) {
	whole := Data(Cond)
	for n := 0; n < len(whole)-4; n += 257 {
		_, err := parse(whole[:n])
		require.Error(t, err, "cut at %d", n)
	}
	_, err := parse([]byte("OTTO and more, which would be outlines of another kind"))
	assert.ErrorContains(t, err, "not a TrueType file")
}

func FuzzParse(f *testing.F) {
	f.Add(Data(Cond)[:4096], 100, byte(7))
	f.Fuzz(func(t *testing.T, data []byte, at int, value byte) {
		// Either a table or an error; never a panic, never an endless loop.
		table, err := parse(data)
		assert.True(t, (table == nil) != (err == nil))
		whole := append([]byte(nil), Data(Cond)...)
		if at >= 0 && at < len(whole) {
			whole[at] = value
			table, err = parse(whole)
			assert.True(t, (table == nil) != (err == nil))
		}
	})
}

func TestManyAtOnce(t *testing.T) {
	want := Width(Sans, 10, "Seat slat")
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for _, f := range Faces() {
				if w := Width(f, 10, "Seat slat"); !(w > 0) || math.IsNaN(w) {
					t.Error("no width")
				}
			}
			assert.Equal(t, want, Width(Sans, 10, "Seat slat"))
		})
	}
	wait.Wait()
}

func BenchmarkWidth(b *testing.B) {
	Width(Sans, 10, "")
	b.ReportAllocs()
	for b.Loop() {
		Width(Sans, 10, "Cut the front legs to 21 1⁄4″ from the straightest boards")
	}
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := parse(Data(Sans)); err != nil {
			b.Fatal(err)
		}
	}
}
