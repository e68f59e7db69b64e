package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/render/pdftest"
)

// TestReport writes the author's report beside the findings, whole, twice the
// same, and not at all when the plan does not solve.
func TestReport(t *testing.T) {
	model := written(t, contractPlan)
	dir := t.TempDir()
	file := filepath.Join(dir, "new", "report.pdf")
	var out, errw bytes.Buffer
	run([]string{"check", model, "--report", file}, &out, &errw)
	data, err := os.ReadFile(file)
	require.NoError(t, err, errw.String())
	assert.True(t, strings.HasSuffix(strings.TrimSpace(out.String()), file), "the path is printed last")
	doc := pdftest.Open(t, data)
	text := doc.Text(0)
	assert.Contains(t, text, "Report on Small bench")
	assert.Contains(t, text, "[[waive]]")

	out.Reset()
	run([]string{"check", model, "--json", "--report", file}, &out, &errw)
	again, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, data, again, "the same bytes")
	assert.True(t, json.Valid(out.Bytes()), "nothing but JSON is printed")

	list, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, list, 1, "nothing is left beside it")

	broken := filepath.Join(dir, "broken.pdf")
	code := run([]string{"check", written(t, contractPlan+"\n[joint.x]\nfrom = \"seat\"\ninto = \"nothing\"\n"), "--report", broken}, &out, &errw)
	assert.Equal(t, exitProblems, code)
	assert.NoFileExists(t, broken)

	assert.Equal(t, exitUsage, run([]string{"check", model, "--report", dir + "/"}, &out, &errw))
}
