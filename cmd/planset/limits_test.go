package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const limitBase = `unit = "in"
[plan]
title = "Bench"
[stock.frame]
section = [1, "5 1/2"]
lengths = ["8 ft"]
`

// written writes a plan into a folder of its own and returns its path.
func written(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "plan.toml")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o666))
	return name
}

// TestLimits asks for too much of everything: each plan is refused with a reason
// and soon, and none takes the program down.
func TestLimits(t *testing.T) {
	many := func(n int, form string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(strings.ReplaceAll(form, "#", fmt.Sprint(i)))
		}
		return b.String()
	}
	for _, c := range []struct{ name, text, says, rule string }{
		{"file", limitBase + strings.Repeat("# a long story\n", 80_000), "the file is larger than 1 MiB", "toml-limit"},
		{"nesting", limitBase + "x = " + strings.Repeat("[", 200) + strings.Repeat("]", 200), "nested", "toml-limit"},
		{"dots", limitBase + "[" + strings.Repeat("a.", 60) + "a]", "", "toml-limit"},
		{"formula length", limitBase + "[derive]\na = \"" + strings.Repeat("1+", 600) + "1\"", "longer than 1000 characters", "formula-limit"},
		{"formula depth", limitBase + "[derive]\na = \"" + strings.Repeat("(", 400) + "1" + strings.Repeat(")", 400) + "\"", "nested more than 64 deep", "formula-limit"},
		{"signs", limitBase + "[derive]\na = \"" + strings.Repeat("-", 900) + "1\"", "nested more than 64 deep", "formula-limit"},
		{"parts", limitBase + many(300, "[part.p#]\nstock = \"frame\"\nlength = 9\n"), "at most 200 parts", "too-many"},
		{"places", limitBase + many(500, "[[place]]\npart = \"a\"\n"), "at most 400 places", "too-many"},
		{"joints", limitBase + many(300, "[joint.j#]\nglue = true\n"), "at most 200 joints", "too-many"},
		{"steps", limitBase + many(300, "[[step]]\ntitle = \"a\"\n"), "at most 200 steps", "too-many"},
		{"groups", limitBase + many(300, "[group.g#]\n"), "at most 200 groups", "too-many"},
		{"sizes", limitBase + "[size]\n" + many(2500, "s# = 1\n"), "more than 2000 entries", "too-many"},
		{"a row", limitBase + "[part.a]\nstock = \"frame\"\nlength = 9\n[[place]]\npart = \"a\"\nlies = { left = \"left\", front = \"front\" }\nmeets = { front = 0, bottom = 0 }\nrow = { toward = \"up\", count = 501, gap = 0 }",
			"from 1 to 500", "count"},
		{"around", limitBase + "[part.a]\nstock = \"frame\"\nlength = 9\n[[place]]\npart = \"a\"\nlies = { left = \"left\", front = \"front\" }\nmeets = { front = 0, bottom = 0 }\naround = 9999",
			"more than the 1000", "too-many"},
		{"huge", limitBase + "[size]\na = 1e300\n[part.a]\nstock = \"frame\"\nlength = \"a\"\n", "less than 100 m", "size"},
		{"number", limitBase + "[size]\na = 1e400\n", "too large", "toml-number"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errw bytes.Buffer
			start := time.Now()
			code := run([]string{"check", written(t, c.text)}, &out, &errw)
			assert.Equal(t, exitProblems, code)
			assert.Empty(t, out.String())
			assert.Contains(t, errw.String(), c.says)
			assert.Contains(t, errw.String(), "["+c.rule+"]")
			assert.Less(t, time.Since(start), 2*time.Second)
		})
	}
}
