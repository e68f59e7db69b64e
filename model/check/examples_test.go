package check_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/assembly"
	"planset/model/buying"
	"planset/model/check"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// TestExamples: no example has an error in any size and unit, and no text speaks
// in keys or in the other unit.
func TestExamples(t *testing.T) {
	dirs, err := os.ReadDir("../../examples")
	require.NoError(t, err)
	for _, dir := range dirs {
		if !dir.IsDir() {
			continue
		}
		for _, unit := range []expr.Unit{expr.Inch, expr.MM} {
			for _, variant := range variantsOf(t, dir.Name()) {
				name := dir.Name() + " " + variant + " " + unit.String()
				t.Run(name, func(t *testing.T) { example(t, dir.Name(), assembly.Options{Unit: unit, Variant: variant}) })
			}
		}
	}
}

func example(t *testing.T, dir string, opt assembly.Options) {
	p := solved(t, os.DirFS("../../examples"), dir+"/plan.toml", opt)
	for _, f := range check.All(p, buying.Boards(p)) {
		t.Logf("%s %s: %s; %s", f.Severity, f.Rule, f.Text, f.Fix)
		assert.False(t, f.Severity == check.Error && !f.Waived, f.Text)
		text := f.Text + f.Fix
		assert.NotContains(t, text, "_")
		if opt.Unit == expr.MM {
			assert.NotContains(t, text, "″")
		} else {
			assert.False(t, strings.Contains(text, " mm"), text)
		}
	}
}

func variantsOf(t testing.TB, dir string) []string {
	var problems source.List
	d := reading.Load(os.DirFS("../../examples"), dir+"/plan.toml", "", &problems)
	require.NotNil(t, d, told(&problems))
	out := []string{"standard"}
	for _, v := range d.Variants {
		if v.Key != "standard" {
			out = append(out, v.Key)
		}
	}
	return out
}

// BenchmarkChair runs all rules on the chair.
func BenchmarkChair(b *testing.B) {
	p := chair(b, nil)
	cuts := buying.Boards(p)
	for b.Loop() {
		check.All(p, cuts)
	}
}
