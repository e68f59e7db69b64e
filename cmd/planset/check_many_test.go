package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/check"
)

// badPlan lays out the plan of the script check_many in an empty folder.
func badPlan(t *testing.T) {
	t.Helper()
	data, err := os.ReadFile("testdata/check_many.txtar")
	require.NoError(t, err)
	s := readScript(string(data))
	require.Equal(t, "plan.toml", s.sections[0].name)
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("plan.toml", []byte(s.sections[0].text), 0o666))
}

// TestManyFindings: a screen gets the first fifteen and how many more there are;
// --json has all of them in the same order, under the same rules. What is unsafe
// comes before what wastes a board, that before rework, that before what is ugly.
func TestManyFindings(t *testing.T) {
	badPlan(t)
	var out, errw, again bytes.Buffer
	require.Equal(t, exitProblems, run([]string{"check", "plan.toml"}, &out, &errw))
	require.Empty(t, errw.String())
	require.Equal(t, exitProblems, run([]string{"check", "plan.toml"}, &again, &errw))
	assert.Equal(t, out.String(), again.String(), "the same every time")
	var js bytes.Buffer
	require.Equal(t, exitProblems, run([]string{"check", "plan.toml", "--json"}, &js, &errw))
	var all checked
	require.NoError(t, json.Unmarshal(js.Bytes(), &all))
	require.Len(t, all.Variants, 1)
	list := all.Variants[0].Findings
	require.Greater(t, len(list), shownMost)

	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	require.Len(t, lines, 1+shownMost+1)
	assert.Equal(t, fmt.Sprintf("Standard: %d findings", len(list)), lines[0])
	assert.Equal(t, fmt.Sprintf("  ... and %d more; --json has them all", len(list)-shownMost), lines[1+shownMost])
	for i, f := range list[:shownMost] {
		assert.Equal(t, fmt.Sprintf("  %-7s %s; %s   [%s]", f.Severity, f.Text, f.Fix, f.Rule), lines[1+i])
	}

	costs := [][]string{{"stands", "screw-tip"}, {"overlap", "pilot", "screw-edge", "screw-end", "washer-seat", "bolt-edge"},
		{"bolt-length", "mixed-metals", "steel-in-tannin", "left-loose", "work-order", "length-sold"}, {"screw-rows", "slat-gap"}}
	at := func(f findingFact) int {
		return slices.IndexFunc(costs, func(c []string) bool { return slices.Contains(c, f.Rule) })
	}
	seen, last := map[int]bool{}, 0
	for _, f := range list {
		if c := at(f); c >= 0 {
			assert.GreaterOrEqual(t, c, last, "%s comes after what is cheaper", f.Rule)
			seen[c], last = true, c
		}
	}
	assert.Len(t, seen, len(costs), "something of every cost")
}

// TestShownMost: fifteen findings fill a screen, one more is counted, and what is
// waived takes no place.
func TestShownMost(t *testing.T) {
	told := func(open, waived int) string {
		var list []check.Finding
		for i := range open + waived {
			list = append(list, check.Finding{Rule: "overlap", Severity: check.Error, Text: fmt.Sprintf("Part %d", i), Waived: i < waived, Reason: "so"})
		}
		var out bytes.Buffer
		(&app{out: &out}).tell("Standard", list)
		return out.String()
	}
	assert.NotContains(t, told(shownMost, 0), "more")
	assert.NotContains(t, told(shownMost, 3), "more")
	assert.Contains(t, told(shownMost+1, 0), "  ... and 1 more; --json has them all\n")
	assert.Contains(t, told(shownMost+7, 2), "  ... and 7 more; --json has them all\n")
	assert.Equal(t, 1+shownMost+1+3, strings.Count(told(shownMost+4, 3), "\n"), "the title, fifteen, the count and the waived")
}
