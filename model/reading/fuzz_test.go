package reading_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"planset/model/reading"
	"planset/model/source"
)

// FuzzLoad reads any text, with a file beside it to include: it ends, it never
// panics, and every problem it tells has a place that can be shown.
func FuzzLoad(f *testing.F) {
	for _, fr := range fragments(f) {
		f.Add(fr.text)
		f.Add("unit = \"in\"\ninclude = [\"part.toml\"]\n" + fr.text)
	}
	f.Add("unit = \"in\"\ninclude = [\"plan.toml\", \"../x\", \"\", \".\", \"/\", \"a/../part.toml\"]\n")
	f.Add("[[place]]\nmeets = { hole.a = \"\", hole.b.c = 3, a.b.c.d = \"floor\" }\nlies = { a = \"up\", b = 3 }\n")
	f.Add("[part.a]\ncorner.a = 3\ncorner.b.c = 4\narris = 3\noutline = [{}, 3, { from = [] }]\n")
	shared := (fragment{base: "part"}).files(f)["part.toml"]
	f.Fuzz(func(t *testing.T, text string) {
		var problems source.List
		d := reading.Load(fstest.MapFS{"plan.toml": {Data: []byte(text)}, "part.toml": shared}, "plan.toml", "", &problems)
		require.True(t, d != nil || problems.Failed(), "no draft and no reason")
		for _, p := range problems.All() {
			require.NotNil(t, p.At.File, p.Text)
			require.NotEmpty(t, p.Rule, p.Text)
		}
		_ = told(&problems)
	})
}
