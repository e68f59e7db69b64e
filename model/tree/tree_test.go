package tree

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model/source"
)

// TestPlaces looks up what stands at each place of the nasty sample.
func TestPlaces(t *testing.T) {
	root, _ := parse(t, nasty)
	for _, c := range []struct {
		path         []string
		key, span    string
		inner, place string
	}{
		{[]string{"title"}, "title", `"Bench"`, "Bench", "t.toml:3:9"},
		{[]string{"quoted key"}, `"quoted key"`, `"quoted key"`, "", "t.toml:4:1"},
		{[]string{"quoted key", "and.dotted", "plain"}, "plain", `'C:\path'`, `C:\path`, "t.toml:4:39"},
		{[]string{"empty"}, "empty", `""`, "", ""},
		{[]string{"ml"}, "ml", "\"\"\"\nfirst \\\n    joined\n\"\" two quotes \"\"\"\"\"", "first \\\n    joined\n\"\" two quotes \"\"", ""},
		{[]string{"raw"}, "raw", "'''\nit's ''raw'' \\n'''", `it's ''raw'' \n`, ""},
		{[]string{"inline", "a", "c"}, "c", "{ d = [] }", "", ""},
		{[]string{"inline", "x y"}, `"x y"`, "2", "", ""},
		{[]string{"multi", "two"}, "two", "[[1], [2, [3]], {}]", "", ""},
		{[]string{"1979-05-27"}, "1979-05-27", `"bare key like a date"`, "bare key like a date", ""},
		{[]string{"a"}, "a", "[a]", "", "t.toml:30:1"}, // first met in [a.b.c], but its header is here
		{[]string{"a", "b", "c"}, "c", "[a.b.c]", "", "t.toml:28:1"},
		{[]string{"a", "b", "z"}, "z", "z", "", ""},
		{[]string{"rows"}, "rows", "[[rows]]", "", "t.toml:35:1"},
		{[]string{"spaced", "out"}, `"out"`, `[ spaced . "out" ]`, "", ""},
		{[]string{"spaced", "out", "last"}, "last", "1", "", ""},
	} {
		n := root.Get(c.path...)
		if !assert.NotNil(t, n, c.path) {
			continue
		}
		assert.Equal(t, c.key, n.KeySpan.Text(), c.path)
		assert.Equal(t, c.span, n.Span.Text(), c.path)
		assert.Equal(t, c.inner, n.Inner.Text(), c.path)
		if c.place != "" {
			assert.Equal(t, c.place, n.Span.String(), c.path)
		}
	}
	rows := root.Get("rows")
	require.Len(t, rows.Items, 2)
	assert.Equal(t, "k", rows.Items[0].Get("sub").Keys[0].Key)
	assert.Equal(t, "t.toml:39:1", rows.Items[1].Span.String())
	assert.Equal(t, "[[rows.deep]]", rows.Items[1].Get("deep").Items[1].Span.Text())
}

func TestPlain(t *testing.T) {
	root, _ := parse(t, nasty)
	assert.True(t, root.Get("title").Plain)
	assert.True(t, root.Get("raw").Plain)
	assert.False(t, root.Get("esc").Plain)
	assert.False(t, root.Get("ml").Plain)
	assert.False(t, root.Get("ints").Plain)
}

func TestGetFromNothing(t *testing.T) {
	var none *Node
	assert.Nil(t, none.Get("a"))
	assert.False(t, none.True())
	root, _ := parse(t, "a = 1")
	assert.Nil(t, root.Get("a", "b"))
	assert.Nil(t, root.Get("b"))
	assert.Same(t, root, root.Get())
}

func TestOrderOfKeys(t *testing.T) {
	var text strings.Builder
	var want []string
	for i := range 40 { // more than the tables without a map have
		key := fmt.Sprintf("k%d", (i*17)%40)
		want = append(want, key)
		fmt.Fprintf(&text, "%s = %d\n", key, i)
	}
	root, _ := parse(t, text.String())
	var got []string
	for i, e := range root.Keys {
		got = append(got, e.Key)
		assert.Equal(t, float64(i), e.Num)
		assert.Same(t, e, root.Get(e.Key))
	}
	assert.Equal(t, want, got)
}

// broken are texts that no plan may have, with the place of the error, what is
// under it and words of the message and of the help.
var broken = []struct{ toml, at, under, says, fix string }{
	{"a = 35 1/2", "1:5", "35 1/2", "needs quotes", `write "35 1/2"`},
	{"a = { b = oak }", "1:11", "oak", "needs quotes", `"oak"`},
	{"a = 14 deg # c", "1:5", "14 deg", "needs quotes", `"14 deg"`},
	{`a = 3 1/2"`, "1:5", `3 1/2"`, "needs quotes", `"3 1/2 in"`},
	{"a = leg.width / 2", "1:5", "leg.width / 2", "needs quotes", ""},
	{"a = yes", "1:5", "yes", "is no value", "write true"},
	{"a = 010", "1:5", "010", "not how a number", "write 10"},
	{"a = .5", "1:5", ".5", "not how a number", "write 0.5"},
	{"a = 5.", "1:5", "5.", "not how a number", "write 5"},
	{"a = 1_", "1:5", "1_", "needs quotes", ""},
	{"a = inf", "1:5", "inf", "no number", "ordinary"},
	{"a = -nan", "1:5", "-nan", "no number", "ordinary"},
	{"a = 1e999", "1:5", "1e999", "too large", "ordinary"},
	{"a = 99999999999999999999", "1:5", "99999999999999999999", "too large", ""},
	{"a = 1,000", "1:6", ",000", "line should end", "without a comma"},
	{"a = 1 b = 2", "1:5", "1 b = 2", "needs quotes", ""},
	{"a = \"x\" b", "1:9", "b", "line should end", "one entry a line"},
	{"a = ", "1:5", "", "value is missing", ""},
	{"a = \nb = 1", "1:5", "", "value is missing", ""},
	{"a = [1,,2]", "1:8", "", "value is missing", ""},
	{"a = [1 2]", "1:6", "1 2", "needs quotes", ""},
	{"a = ['x' 'y']", "1:10", "'", "without a comma", "put a comma"},
	{"a = {b=1", "1:5", "{", "not closed", "add the }"},
	{"a = [1,", "1:5", "[", "not closed", "add the ]"},
	{"a = 'x\n'", "1:5", "'x", "not closed", ""},
	{"a = \"x\\\n\"", "1:5", "\"x\\", "not closed", ""},
	{"a = '''x", "1:5", "'''", "not closed", ""},
	{"a = '''''''''", "1:8", "''''''", "too many quotes", ""},
	{"a = \"\\q\"", "1:6", `\q`, "not an escape", "single quotes"},
	{"a = \"\\ud800\"", "1:6", `\u`, "not an escape", ""},
	{"a = \"x\x01\"", "1:7", "\x01", "control character", ""},
	{"# x\x01", "1:4", "\x01", "control character", ""},
	{"a = \"\xff\"", "1:6", "\xff", "not UTF-8", "save it as UTF-8"},
	{"a = 2024-13-40", "1:5", "2024-13-40", "no date or time", "calendar"},
	{"back slat = 1", "1:1", "back", "has no =", "back_slat"},
	{"a: 1", "1:1", "a", "has no =", "in the place of :"},
	{"a", "1:1", "a", "has no =", ""},
	{"= 1", "1:1", "=", "stands where a name", ""},
	{"a. = 1", "1:4", "=", "stands where a name", ""},
	{"größe = 1", "1:1", "gr", "has no =", "names have no blanks"},
	{"état = 1", "1:1", "é", "cannot stand in a bare name", "quotes"},
	{"[a", "1:1", "[a", "not closed", "end it with ]"},
	{"[[a]", "1:1", "[[a", "not closed", "end it with ]]"},
	{"[]", "1:2", "]", "stands where a name", ""},
	{"[a] b = 1", "1:5", "b = 1", "line should end", ""},
	{"a = 1\nb = 2\na = 3", "3:1", "a", `"a" is set twice`, "keep one"},
	{"[a]\n[a]", "2:2", "a", "is set twice", ""},
	{"a = {b = 1, b = 2}", "1:13", "b", "is set twice", ""},
	{"a = 1\n[a.b]", "2:2", "a", `"a" is a number, so nothing`, ""},
	{"a = 1\na.b = 2", "2:1", "a", `"a" is a number, so nothing`, ""},
	{"a = {b = 1}\n[a.c]", "2:2", "a", "was complete", ""},
	{"a = {b = 1}\na.c = 2", "2:1", "a", "was complete", ""},
	{"a = [{}]\n[[a]]", "2:3", "a", "is set twice", ""},
	{"a = " + strings.Repeat("[", 40) + strings.Repeat("]", 40), "", "", "more than 32 deep", ""},
	{strings.Repeat("a.", 40) + "b = 1", "", "", "more than 32 deep", ""},
	{"[" + strings.Repeat("a.", 40) + "b]", "", "", "more than 32 deep", ""},
	{"a = [" + strings.Repeat("0,", 60_000) + "]", "", "", "more than 50000 values", ""},
	{strings.Repeat("#", 1<<20+1), "", "", "larger than 1 MiB", ""},
}

func TestBroken(t *testing.T) {
	for _, c := range broken {
		name := c.toml[:min(len(c.toml), 30)]
		root, problems := parse(t, c.toml)
		assert.Nil(t, root, name)
		if !assert.Len(t, problems.All(), 1, name) {
			continue
		}
		p := problems.All()[0]
		assert.Contains(t, p.Text, c.says, name)
		assert.Contains(t, p.Help, c.fix, name)
		if c.at != "" {
			assert.Equal(t, "t.toml:"+c.at, p.At.String(), "%q: %s", name, p.Text)
			assert.Contains(t, p.At.Text(), c.under, name)
		}
	}
}

func TestTwiceShowsBothPlaces(t *testing.T) {
	_, problems := parse(t, "a = 1\nb = 2\na = 3")
	p := problems.All()[0]
	require.Len(t, p.Also, 1)
	assert.Equal(t, "t.toml:1:1", p.Also[0].At.String())
}

// TestHostileFilesEndSoon feeds what makes naive readers slow or deep.
func TestHostileFilesEndSoon(t *testing.T) {
	for name, text := range map[string]string{
		"arrays":      "a = " + strings.Repeat("[", 1<<19),
		"tables":      "a = " + strings.Repeat("{a=", 1<<18),
		"dots":        strings.Repeat("a.", 1<<18),
		"late":        "a = @\nb = " + strings.Repeat("[", 1<<19),
		"one string":  `a = "` + strings.Repeat("x", 1<<20-10) + `"`,
		"open string": `a = """` + strings.Repeat("\"\" ", 1<<18),
		"headers":     strings.Repeat("[[a]]\n", 1<<17),
		"wide table":  wide(40_000),
	} {
		start := time.Now()
		var problems source.List
		Parse(&source.File{Name: name, Text: text}, &problems)
		assert.Less(t, time.Since(start), 20*time.Second, name)
	}
}

func wide(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "k%d = %d\n", i, i)
	}
	return b.String()
}

func BenchmarkParse(b *testing.B) {
	text := strings.Repeat("[[part]]\nname = \"leg\"\nlength = \"arm_h - 1/2\"\nholes = [{ at = [1, 2.5], for = 'bolt' }]\n", 500)
	file := &source.File{Name: "b", Text: text}
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		var problems source.List
		Parse(file, &problems)
	}
}
