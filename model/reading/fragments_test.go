package reading_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// fragment is a fenced block of LANGUAGE.md. base is the plan it is laid over,
// "" when it is a whole plan.
type fragment struct {
	line       int
	base, text string
}

func fragments(t testing.TB) []fragment {
	t.Helper()
	data, err := os.ReadFile("../LANGUAGE.md")
	require.NoError(t, err)
	var out []fragment
	open := false
	n := 0
	for line := range strings.Lines(string(data)) {
		n++
		info, fence := strings.CutPrefix(strings.TrimSpace(line), "```")
		switch {
		case fence && !open:
			base, ok := strings.CutPrefix(info, "toml")
			require.True(t, ok, "line %d: a block of what?", n)
			out = append(out, fragment{line: n, base: strings.TrimSpace(base)})
			open = true
		case fence:
			open = false
		case open:
			out[len(out)-1].text += line
		}
	}
	require.False(t, open)
	return out
}

// files are the fragment as a plan and the bases it may include.
func (f fragment) files(t testing.TB) fstest.MapFS {
	t.Helper()
	text := f.text
	if f.base != "" {
		text = fmt.Sprintf("unit = \"in\"\ninclude = [%q]\n%s", f.base+".toml", f.text)
	}
	out := fstest.MapFS{"plan.toml": {Data: []byte(text)}}
	for _, base := range []string{"part", "place", "joint"} {
		data, err := os.ReadFile("testdata/language/" + base + ".toml")
		require.NoError(t, err)
		out[base+".toml"] = &fstest.MapFile{Data: data}
	}
	return out
}

func told(l *source.List) string {
	var b strings.Builder
	source.Write(&b, l, false)
	return b.String()
}

// TestLanguageFragmentsSolve reads and solves every block of LANGUAGE.md, in
// both unit systems and in every variant, without any problem.
func TestLanguageFragmentsSolve(t *testing.T) {
	list := fragments(t)
	require.Greater(t, len(list), 30)
	for _, f := range list {
		t.Run(fmt.Sprintf("line %d", f.line), func(t *testing.T) {
			var problems source.List
			d := reading.Load(f.files(t), "plan.toml", "", &problems)
			require.NotNil(t, d, told(&problems))
			for _, v := range append([]reading.Variant{{Key: "standard"}}, d.Variants...) {
				for _, u := range []expr.Unit{expr.Inch, expr.MM} {
					p := assembly.Solve(d, assembly.Options{Variant: v.Key, Unit: u}, &problems)
					if assert.Empty(t, told(&problems)) {
						wholePlan(t, p)
					}
				}
			}
		})
	}
}

// wholePlan checks what every solved plan has.
func wholePlan(t *testing.T, p *model.Plan) {
	require.NotNil(t, p)
	assert.NotEmpty(t, p.Title)
	assert.NotEmpty(t, p.Editions)
	for _, q := range p.Parts {
		assert.Positive(t, q.Length, q.Key)
		assert.Positive(t, q.Volume, q.Key)
	}
}
