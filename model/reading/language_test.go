package reading

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const languageFile = "../LANGUAGE.md"

// topHeading heads the keys that stand in no table; their table is topTable.
const topHeading, topTable = "The keys at the top of a file", "plan file"

// documented is a key table of LANGUAGE.md: the tables it is about, and the
// word for each key's kind.
type documented struct {
	tables []string
	keys   map[string]string
}

var codeSpan = regexp.MustCompile("`([^`]+)`")

// documentation reads the key tables: below a heading that names tables in code
// spans, the rows of a table whose first column is headed "key".
func documentation(t *testing.T) []documented {
	t.Helper()
	data, err := os.ReadFile(languageFile)
	require.NoError(t, err)
	var out []documented
	var about []string
	inKeys := false
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		cells := strings.Split(strings.Trim(line, "|"), "|")
		switch {
		case strings.HasPrefix(line, "##"):
			about, inKeys = tablesOf(strings.TrimLeft(line, "# ")), false
		case !strings.HasPrefix(line, "|"):
			inKeys = false
		case strings.TrimSpace(cells[0]) == "key":
			inKeys = true
			out = append(out, documented{about, map[string]string{}})
		case inKeys && !strings.HasPrefix(line, "| ---"):
			require.Len(t, cells, 4, line)
			key := codeSpan.FindStringSubmatch(cells[0])
			require.NotNil(t, key, line)
			keys := out[len(out)-1].keys
			require.NotContains(t, keys, key[1], "told twice: %s", line)
			keys[key[1]] = strings.TrimSpace(cells[1])
		}
	}
	return out
}

// tablesOf turns the heading `[part.NAME.end.END]` into the table "part.end".
func tablesOf(heading string) []string {
	if heading == topHeading {
		return []string{topTable}
	}
	var out []string
	for _, m := range codeSpan.FindAllStringSubmatch(heading, -1) {
		var words []string
		for word := range strings.SplitSeq(strings.Trim(m[1], "[]"), ".") {
			if word != strings.ToUpper(word) {
				words = append(words, word)
			}
		}
		out = append(out, strings.Join(words, "."))
	}
	return out
}

// own stands for a name of the author's.
const own = "NAME"

// keysOf gathers the keys of every table of the schema.
func keysOf(t *table, out map[string]map[string]kind) {
	if len(t.keys) > 0 && out[t.name] == nil {
		out[t.name] = map[string]kind{}
	}
	for key, f := range t.keys {
		out[t.name][key] = f.kind
		below(f, out)
	}
	if t.any == nil {
		return
	}
	if f := *t.any; f.of == nil || f.of.name == t.name && f.kind == measure {
		if out[t.name] == nil {
			out[t.name] = map[string]kind{}
		}
		out[t.name][own] = f.kind
	}
	below(*t.any, out)
}

func below(f field, out map[string]map[string]kind) {
	if f.of != nil {
		keysOf(f.of, out)
	}
}

// said are the words LANGUAGE.md has for a kind.
func said(k kind) []string {
	switch k {
	case text:
		return []string{"text", "word", "name", "side", "date", "color", "file", "letter", "direction"}
	case words:
		return []string{"names"}
	case texts:
		return []string{"texts"}
	case formula:
		return []string{"length", "angle", "count", "formula", "value"}
	case formulas:
		return []string{"lengths", "prices", "counts"}
	case number:
		return []string{"number"}
	case whole:
		return []string{"whole number"}
	case flag:
		return []string{"true or false"}
	case pair:
		return []string{"pair"}
	case one, lies, dotted:
		return []string{"table"}
	case named:
		return []string{"tables"}
	case many, moves:
		return []string{"list"}
	}
	return []string{"formula"} // measure
}

// TestLanguageNamesEveryKey holds LANGUAGE.md and the schema together: the same
// keys in the same tables, with the same kinds.
func TestLanguageNamesEveryKey(t *testing.T) {
	known := map[string]map[string]kind{}
	keysOf(schema(), known)
	seen := map[string]bool{}
	for _, d := range documentation(t) {
		for _, name := range d.tables {
			keys, ok := known[name]
			if !assert.True(t, ok, "LANGUAGE.md tells of [%s], which the schema does not have", name) {
				continue
			}
			assert.False(t, seen[name], "[%s] is told twice", name)
			seen[name] = true
			sameKeys(t, name, keys, d.keys)
		}
	}
	for name, keys := range known {
		if len(keys) > 1 || !hasOnlyOwn(keys) {
			assert.True(t, seen[name], "LANGUAGE.md does not tell of [%s]", name)
		}
	}
}

// hasOnlyOwn reports whether a table is nothing but names of the author's; those
// of [variant.tall.size] are told with [size].
func hasOnlyOwn(keys map[string]kind) bool { _, ok := keys[own]; return ok }

func sameKeys(t *testing.T, name string, known map[string]kind, told map[string]string) {
	for key, k := range known {
		word, ok := told[key]
		if !ok && key == own {
			word, ok = told["SIDE"]
		}
		if assert.True(t, ok, "LANGUAGE.md does not name %q of [%s]", key, name) {
			assert.True(t, slices.Contains(said(k), word), "%q of [%s] is not a %s", key, name, word)
		}
	}
	for key := range told {
		if key == "SIDE" {
			key = own
		}
		assert.Contains(t, known, key, "[%s] has no key %q", name, key)
	}
}

// TestLanguageIsWhole guards the reading of the file itself: a change of its
// form must not let the other tests pass on nothing.
func TestLanguageIsWhole(t *testing.T) {
	keys := 0
	for _, d := range documentation(t) {
		keys += len(d.keys)
	}
	assert.Greater(t, keys, 200)
}
