package tree

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"planset/model/source"
)

// nasty holds everything that makes places hard to tell.
const nasty = "# a comment with [brackets] and \"quotes\" = 1\r\n" + `
title = "Bench" # after
"quoted key" . 'and.dotted' . plain = 'C:\path' 	# tab
esc = "tab\t quote\" uni\u00e9 \U0001F600 \e \x41 \\"
empty = ""
empty2 = ''
ml = """
first \
    joined
"" two quotes """""
raw = '''
it's ''raw'' \n'''
ints = [ 1, -2, +3, 1_000, 0xFF, 0o17, 0b101, 0 ]
floats = [1.5,-0.0, 6.02e23, 1e-3, 3_0.5_0,]
dates = [1979-05-27T07:32:00Z, 1979-05-27 07:32:00.5-07:00, 1979-05-27, 07:32:00, 07:32] # mixed
bools = [ true, # comment ]
  false
]
inline = { a.b = 1, a.c = { d = [] }, "x y" = 2 } # t
multi = {
  one = 1, # comment }
  two = [[1], [2, [3]], {}],
}
1979-05-27 = "bare key like a date"
-1 = 1

[a.b.c]
x = 1
[a]
y = 2
[a.b]
z.w = 3
z.v = 4
[[rows]]
n = 1
[rows.sub]
k = 'v'
[[rows]]
[[rows.deep]]
[[rows.deep]]
m = "μ ∅"
[ spaced . "out" ]
last=1`

func parse(t *testing.T, text string) (*Node, *source.List) {
	t.Helper()
	var problems source.List
	root := Parse(&source.File{Name: "t.toml", Text: text}, &problems)
	require.Equal(t, root == nil, problems.Failed(), "a tree or an error, never both")
	return root, &problems
}

// same compares a node with the library's value and returns the first
// difference.
func same(n *Node, want any, path string) string {
	switch want := want.(type) {
	case map[string]any:
		if n.Kind != Table || len(n.Keys) != len(want) {
			return fmt.Sprintf("%s: %v with %d keys, library has table with %d", path, n.Kind, len(n.Keys), len(want))
		}
		for _, e := range n.Keys {
			v, ok := want[e.Key]
			if !ok {
				return fmt.Sprintf("%s: library has no key %q", path, e.Key)
			}
			if n.Get(e.Key) != e {
				return fmt.Sprintf("%s: Get(%q) is another node", path, e.Key)
			}
			if d := same(e, v, path+"/"+e.Key); d != "" {
				return d
			}
		}
	case []map[string]any:
		items := make([]any, len(want))
		for i, v := range want {
			items[i] = v
		}
		return same(n, items, path)
	case []any:
		if n.Kind != Array || len(n.Items) != len(want) {
			return fmt.Sprintf("%s: %v with %d items, library has array with %d", path, n.Kind, len(n.Items), len(want))
		}
		for i, v := range want {
			if d := same(n.Items[i], v, fmt.Sprintf("%s/%d", path, i)); d != "" {
				return d
			}
		}
	default:
		return sameLeaf(n, want, path)
	}
	return ""
}

func sameLeaf(n *Node, want any, path string) string {
	ok := false
	switch want := want.(type) {
	case string:
		ok = n.Kind == String && n.Text == want
	case int64:
		ok = n.Kind == Number && n.Num == float64(want)
	case float64:
		ok = n.Kind == Number && math.Float64bits(n.Num) == math.Float64bits(want)
	case bool:
		ok = n.Kind == Bool && n.True() == want
	case time.Time:
		ok = n.Kind == Date
	}
	if !ok {
		return fmt.Sprintf("%s: %v %q, library has %#v", path, n.Kind, n.Text, want)
	}
	return ""
}

// placed checks that the places of a tree lie inside the text, hold what they
// should, and that strings marked plain are. It returns the first slip.
func placed(n *Node, file *source.File) string {
	if !n.Span.Valid() || n.Span.File != file {
		return fmt.Sprintf("%q has no place", n.Key)
	}
	if n.KeySpan.Valid() && !strings.ContainsAny(n.KeySpan.Text(), `"'`) && n.KeySpan.Text() != n.Key {
		return fmt.Sprintf("key %q stands at %q", n.Key, n.KeySpan.Text())
	}
	switch n.Kind {
	case String:
		if n.Plain != (n.Inner.Text() == n.Text) || n.Inner.Start <= n.Span.Start || n.Inner.End >= n.Span.End {
			return fmt.Sprintf("string %q: inside %q", n.Text, n.Inner.Text())
		}
	case Number, Bool, Date:
		if n.Span.Text() != n.Text {
			return fmt.Sprintf("%q stands at %q", n.Text, n.Span.Text())
		}
	}
	for _, e := range append(n.Keys[:len(n.Keys):len(n.Keys)], n.Items...) {
		if slip := placed(e, file); slip != "" {
			return slip
		}
	}
	return ""
}

func TestAgreesWithTheLibrary(t *testing.T) {
	for _, text := range []string{nasty, strings.ReplaceAll(nasty, "\n", "\r\n"), byteOrderMark + nasty, "", "\n", "# only"} {
		text = strings.ReplaceAll(text, "\r\r", "\r")
		root, problems := parse(t, text)
		require.NotNil(t, root, "%v", problems.All())
		want, err := decode(text)
		require.NoError(t, err)
		require.Empty(t, same(root, want, ""))
		require.Empty(t, placed(root, root.Span.File))
	}
}

// FuzzParse demands that what we take the library takes too, with the same
// values, and that what only we refuse we refuse for a reason of our own. One
// such reason is that the library lets a header or a dotted key add to an inline
// table, which TOML 1.0 forbids.
func FuzzParse(f *testing.F) {
	f.Add(nasty)
	for i := range len(nasty) {
		if i%7 == 0 {
			f.Add(nasty[:i])
			f.Add(nasty[i:])
		}
	}
	for _, c := range broken {
		if len(c.toml) < 1000 { // longer ones only slow the search down
			f.Add(c.toml)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		root, problems := parse(t, text)
		want, err := decode(text)
		if root == nil {
			rule := problems.All()[0].Rule
			if err == nil && rule != ruleLimit && rule != ruleNumber && rule != ruleTwice {
				t.Errorf("only we refuse %q: %v", text, problems.All())
			}
			return
		}
		if err != nil {
			t.Fatalf("only we take %q: %v", text, err)
		}
		if d := same(root, want, ""); d != "" {
			t.Errorf("%q: %s", text, d)
		}
		if slip := placed(root, root.Span.File); slip != "" {
			t.Errorf("%q: %s", text, slip)
		}
	})
}
