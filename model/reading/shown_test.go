package reading

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"

	"planset/model/source"
)

// TestFilesAreCalledAsTheUserWroteThem follows a plan that includes a file from
// the folder above it, called from three places.
func TestFilesAreCalledAsTheUserWroteThem(t *testing.T) {
	files := fstest.MapFS{
		"stool/plan.toml": {Data: []byte("unit = \"mm\"\ninclude = [\"../range.toml\"]\nleg = 1\n")},
		"range.toml":      {Data: []byte("unit = \"mm\"\nseat = 1\n")},
	}
	for shown, want := range map[string][]string{
		"plan.toml":                {"plan.toml", "../range.toml"},
		"stool/plan.toml":          {"stool/plan.toml", "range.toml"},
		"/home/me/stool/plan.toml": {"/home/me/stool/plan.toml", "/home/me/range.toml"},
		"":                         {"stool/plan.toml", "range.toml"},
	} {
		var problems source.List
		Load(files, "stool/plan.toml", shown, &problems)
		var got []string
		for _, p := range problems.All() {
			assert.Equal(t, "unknown-key", p.Rule)
			got = append(got, p.At.File.Name)
		}
		assert.ElementsMatch(t, want, got, "called as %q", shown)
	}
}
