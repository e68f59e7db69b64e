package main

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/layouts/inspect"
	"planset/model"
	"planset/model/expr"
)

// other loads a plan of testdata that shares the examples' boards.
func other(t *testing.T, name string) (*app, *draft) {
	t.Helper()
	dir := t.TempDir()
	for from, to := range map[string]string{
		filepath.Join(root, "examples", "range.toml"): "range.toml",
		filepath.Join("testdata", name, "plan.toml"):  filepath.Join(name, "plan.toml"),
	} {
		data, err := os.ReadFile(from)
		require.NoError(t, err)
		to = filepath.Join(dir, to)
		require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o755))
		require.NoError(t, os.WriteFile(to, data, 0o644))
	}
	a := &app{out: io.Discard, err: io.Discard}
	a.flags = values{model: filepath.Join(dir, name, "plan.toml"), set: map[string]string{}}
	d, err := a.load()
	require.NoError(t, err)
	require.False(t, a.problems.Failed(), "%v", a.problems.All())
	return a, d
}

// value returns a measure of a plan: mm or radians.
func value(t *testing.T, p *model.Plan, name string) float64 {
	t.Helper()
	for _, m := range p.Measures {
		if m.Name == name {
			return m.Value.V
		}
	}
	require.Fail(t, "no measure "+name)
	return 0
}

// TestBenchForTwo: three frames side by side, two bays of slats, battens that
// meet one stringer from both sides.
func TestBenchForTwo(t *testing.T) {
	a, d := other(t, "petrel-bench")
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		p := a.solve(d, "standard", unit)
		require.NotNil(t, p)
		assert.InDelta(t, 8, value(t, p, "seat_slope")*180/math.Pi, 1e-6)
		assert.InDelta(t, 18, value(t, p, "recline")*180/math.Pi, 1e-6)
		assert.Greater(t, value(t, p, "between_arms"), 2*21*25.4, "two sit on it")
		// Battens, mirrored, touch the middle stringer with their inner ends.
		in := value(t, p, "bay")
		for _, q := range p.Placed {
			if strings.HasSuffix(q.Part.Key, "batten") {
				assert.InDelta(t, in, q.Part.Length, 1e-6)
				assert.InDelta(t, in/2+p.Stocks[0].Thick/2, math.Abs(q.Center.X), 0.01)
			}
		}
	}
}

// TestPlanterWithSlopingSides holds its saw settings to the compound angles of a
// four-sided frame whose sides lean t from plumb: miter atan(tan 45° · sin t),
// bevel asin(sin 45° · cos t) (Forest Products Laboratory and trade tables; the
// derivation is in the reference the project checks against).
func TestPlanterWithSlopingSides(t *testing.T) {
	a, d := other(t, "petrel-planter")
	lean := 8 * math.Pi / 180
	for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
		p := a.solve(d, "standard", unit)
		require.NotNil(t, p)
		assert.InDelta(t, math.Atan(math.Sin(lean)), value(t, p, "board_miter"), 1e-9)
		assert.InDelta(t, math.Asin(math.Sqrt2/2*math.Cos(lean)), value(t, p, "board_bevel"), 1e-9)
		rise := value(t, p, "rise")
		assert.InDelta(t, value(t, p, "base_w")+2*rise*math.Tan(lean), value(t, p, "rim_w"), 1e-6, "wider at the rim by the lean")
		assert.InDelta(t, value(t, p, "foot_h")+rise, value(t, p, "rim_height"), 1e-6)
	}
}

// TestOtherBooksAreClean composes the books of these plans, whose pages nobody
// arranged, and reads every page as those of the examples are read.
func TestOtherBooksAreClean(t *testing.T) {
	for _, name := range []string{"petrel-bench", "petrel-planter"} {
		a, d := other(t, name)
		for _, e := range []model.Edition{{Variant: "standard", Unit: expr.Inch, Paper: "letter"}, {Variant: "standard", Unit: expr.MM, Paper: "a4"}} {
			_, book := a.compose(d, e)
			require.NotNil(t, book, name)
			for i, page := range book.Pages {
				for _, c := range inspect.Page(page, rulesFor(page, strings.HasPrefix(page.Title, "Template"))) {
					if !inThumbnail(page, c) {
						t.Errorf("%s %s, page %d, %s: %v", name, e.Paper, i+1, page.Title, c)
					}
				}
			}
		}
		for _, problem := range a.problems.All() {
			t.Errorf("%s: %s", name, problem.Text)
		}
	}
}
