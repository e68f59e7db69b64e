package marks_test

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/assembly"
	"planset/model/marks"
	"planset/model/reading"
	"planset/model/source"
)

// TestSpokenNames: what a mark is called has no underscores of the author's keys,
// and its hole keeps the key by which it is found.
func TestSpokenNames(t *testing.T) {
	files := fstest.MapFS{}
	for _, name := range []string{chair, "range.toml"} {
		data, err := os.ReadFile("../../examples/" + name)
		require.NoError(t, err)
		text := string(data)
		if name == chair {
			text = strings.NewReplacer("hole.lower", "hole.left_lower", `["lower", "upper"]`, `["left_lower", "upper"]`,
				`"heel"]`, `"rear_heel"]`, ".heel", ".rear_heel").Replace(text)
		}
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	var problems source.List
	d := reading.Load(files, chair, "", &problems)
	require.NotNil(t, d)
	p := assembly.Solve(d, assembly.Options{}, &problems)
	require.False(t, problems.Failed())
	tab := marks.Rank(p)
	assert.Equal(t, "left_lower", rowOf(t, tab, "leg", "left lower bolt hole, across").Hole)
	rowOf(t, tab, "stringer", "rear heel cut")
	for _, r := range tab.Rows {
		assert.NotContains(t, r.What, "_")
	}
	for _, m := range marks.Critical(p) {
		assert.NotContains(t, m.What, "_")
	}
}
