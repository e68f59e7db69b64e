package main

import (
	"bytes"
	"io"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	pdfmodel "github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
	"planset/render/pdftest"
)

// examples are the plans that come with the project.
var examples = []string{"petrel-chair", "petrel-footstool", "petrel-side-table"}

// reader loads an example for tests.
func reader(t testing.TB, name string) (*app, *draft) {
	t.Helper()
	a := &app{out: io.Discard, err: io.Discard}
	a.flags = values{model: filepath.Join(root, "examples", name, "plan.toml"), set: map[string]string{}}
	d, err := a.load()
	require.NoError(t, err)
	require.NotNil(t, d)
	require.False(t, a.problems.Failed())
	return a, d
}

// eachEdition calls f with every edition the examples name, as PDF.
func eachEdition(t *testing.T, f func(t *testing.T, e model.Edition, plan *model.Plan, data []byte)) {
	for _, name := range examples {
		a, d := reader(t, name)
		editions, err := a.editions(d)
		require.NoError(t, err)
		require.NotEmpty(t, editions)
		for _, e := range editions {
			t.Run(strings.Join([]string{name, e.Variant, unitName(e.Unit), e.Paper}, " "), func(t *testing.T) {
				out, err := a.edition(d, e)
				require.NoError(t, err)
				require.False(t, a.problems.Failed())
				f(t, e, a.solve(d, e.Variant, e.Unit), out.data)
			})
		}
	}
}

// paperPoints are the sizes of the papers in points: Letter by its definition,
// A4 by ISO 216 (210 by 297 mm).
var paperPoints = map[string][2]float64{"letter": {612, 792}, "a4": {210 / 25.4 * 72, 297 / 25.4 * 72}}

// TestBooksInPDFium opens every edition of every example with a reader that is
// not our own.
func TestBooksInPDFium(t *testing.T) {
	conf := pdfmodel.NewDefaultConfiguration()
	conf.ValidationMode = pdfmodel.ValidationStrict
	eachEdition(t, func(t *testing.T, e model.Edition, plan *model.Plan, data []byte) {
		require.NoError(t, api.Validate(bytes.NewReader(data), conf), "pdfcpu finds the structure sound")
		doc := pdftest.Open(t, data)
		assert.False(t, doc.ScalesWhenPrinted(), "printers are told not to scale")
		require.Greater(t, doc.Pages(), 10)
		for i := range doc.Pages() {
			w, h := doc.Size(i)
			assert.InDelta(t, paperPoints[e.Paper][0], w, 0.02, "page %d", i+1)
			assert.InDelta(t, paperPoints[e.Paper][1], h, 0.02, "page %d", i+1)
			text := doc.Text(i)
			assert.NotContains(t, text, "\uFFFD")
			assert.Greater(t, len(text), 40, "page %d has words", i+1)
			for _, p := range plan.Parts {
				if strings.Contains(p.Key, "_") {
					assert.NotContains(t, text, p.Key, "page %d shows an internal name", i+1)
				}
			}
		}
		assert.Contains(t, doc.Text(0), plan.Title)
		assert.Less(t, len(data), 3<<20, "the file is small")
	})
}

// TestMetricHasNoInches: a metric edition speaks no inches outside the print
// check, which shows both, and an inch edition names its own bolts.
func TestMetricHasNoInches(t *testing.T) {
	eachEdition(t, func(t *testing.T, e model.Edition, plan *model.Plan, data []byte) {
		doc := pdftest.Open(t, data)
		inches := 0
		for i := range doc.Pages() {
			text := doc.Text(i)
			if e.Unit == expr.MM && !strings.Contains(text, "100 mm") && !strings.Contains(text, "50 mm") {
				assert.NotContains(t, text, "″", "page %d", i+1)
				assert.NotRegexp(t, `\d in\b`, strings.ReplaceAll(text, " in all", ""), "page %d", i+1)
			}
			inches += strings.Count(text, "″")
		}
		if e.Unit == expr.Inch {
			assert.Greater(t, inches, 50)
		}
	})
}

// TestSameBytes: the same model gives the same file.
func TestSameBytes(t *testing.T) {
	a, d := reader(t, "petrel-footstool")
	e := model.Edition{Variant: "standard", Unit: expr.Inch, Paper: "letter"}
	one, err := a.edition(d, e)
	require.NoError(t, err)
	a, d = reader(t, "petrel-footstool")
	two, err := a.edition(d, e)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(one.data, two.data))
}

// TestSums: what is bought is what is laid out is what is cut is what is placed.
func TestSums(t *testing.T) {
	for _, name := range examples {
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			a, d := reader(t, name)
			for _, v := range d.variantNames() {
				f := a.solved(d, v, unit)
				require.NotNil(t, f, name)
				placed, laid := map[string]int{}, map[string]int{}
				for _, p := range f.Placed {
					placed[p.Code]++
				}
				bought := map[[2]any]int{}
				for _, b := range f.Boards {
					bought[[2]any{b.Stock, b.Length}]++
					for _, p := range b.Pieces {
						laid[p.Code]++
					}
				}
				for _, p := range f.Parts {
					assert.Equal(t, p.Quantity, placed[p.Code], "%s: placed", p.Name)
					assert.Equal(t, p.Quantity, laid[p.Code], "%s: laid out", p.Name)
				}
				cost := 0.0
				for _, b := range f.Buying {
					assert.Equal(t, b.Quantity, bought[[2]any{b.Stock, b.Length}])
					cost += b.Cost
				}
				assert.LessOrEqual(t, f.Bound.Cost, cost+1e-6)
				if f.Bound.Proved {
					assert.InDelta(t, f.Bound.Cost, cost, 1e-6)
				}
				fasteners := 0
				for _, j := range f.plan.Joints {
					fasteners += len(j.Fasteners)
				}
				for _, h := range f.plan.Hardware {
					if !h.Part {
						fasteners -= h.Quantity
					}
				}
				assert.Zero(t, fasteners, "each fastener is on the hardware list")
			}
		}
	}
}

// TestPlacedAreBoards: the directions of every placed piece are unit and square
// to each other, right-handed for right and plain pieces, left-handed for left.
func TestPlacedAreBoards(t *testing.T) {
	for _, name := range examples {
		a, d := reader(t, name)
		f := a.solved(d, "standard", d.Unit)
		require.NotNil(t, f)
		for _, p := range f.Placed {
			dot := func(u, v [3]float64) float64 { return u[0]*v[0] + u[1]*v[1] + u[2]*v[2] }
			for _, u := range [][3]float64{p.Along, p.Across, p.Thick} {
				assert.InDelta(t, 1, dot(u, u), 1e-5)
			}
			assert.InDelta(t, 0, dot(p.Along, p.Across), 1e-5)
			c := [3]float64{p.Along[1]*p.Across[2] - p.Along[2]*p.Across[1], p.Along[2]*p.Across[0] - p.Along[0]*p.Across[2], p.Along[0]*p.Across[1] - p.Along[1]*p.Across[0]}
			want := 1.0
			if p.Hand == "left" {
				want = -1
			}
			assert.InDelta(t, want, math.Round(dot(c, p.Thick)), 1e-5, "%s %s", p.Name, p.Hand)
		}
	}
}

// BenchmarkEdition makes one edition of the chair from text to bytes.
func BenchmarkEdition(b *testing.B) {
	roomy()
	b.ReportAllocs()
	size := 0
	for b.Loop() {
		a, d := reader(b, "petrel-chair")
		out, err := a.edition(d, model.Edition{Variant: "standard", Unit: expr.Inch, Paper: "letter"})
		require.NoError(b, err)
		size = len(out.data)
	}
	b.ReportMetric(float64(size), "pdf-bytes")
}

// BenchmarkSolve reads and solves the chair.
func BenchmarkSolve(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		a, d := reader(b, "petrel-chair")
		require.NotNil(b, a.solve(d, "standard", expr.Inch))
	}
}
