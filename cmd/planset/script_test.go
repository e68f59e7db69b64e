package main

import (
	"bytes"
	goflag "flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = goflag.Bool("update", false, "write what the commands print into testdata")

// A script is a file of testdata: a comment, then sections headed by a line
// "-- name --". A section whose name begins with "$ " is a call of the program
// and holds all that came of it; any other is a file that the calls find.
type script struct {
	comment  string
	sections []section
}

type section struct{ name, text string }

func readScript(data string) script {
	var s script
	for line := range strings.Lines(data) {
		if name, ok := heading(line); ok {
			s.sections = append(s.sections, section{name: name})
			continue
		}
		if n := len(s.sections); n > 0 {
			s.sections[n-1].text += line
		} else {
			s.comment += line
		}
	}
	return s
}

func heading(line string) (string, bool) {
	name, ok := strings.CutPrefix(strings.TrimRight(line, "\r\n"), "-- ")
	if !ok {
		return "", false
	}
	return strings.CutSuffix(name, " --")
}

func (s script) String() string {
	var b strings.Builder
	b.WriteString(s.comment)
	for _, sec := range s.sections {
		fmt.Fprintf(&b, "-- %s --\n%s", sec.name, sec.text)
	}
	return b.String()
}

// TestScripts makes the calls of every script and compares what came, to the
// letter. With -update it writes what came instead.
func TestScripts(t *testing.T) {
	here, err := os.Getwd()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(here, "testdata", "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			got := play(t, readScript(string(data)))
			if *update {
				require.NoError(t, os.WriteFile(name, []byte(got), 0o666))
				return
			}
			assert.True(t, string(data) == got, "%s", difference(string(data), got))
		})
	}
}

// difference tells where two texts begin to differ, below which heading.
func difference(want, got string) string {
	a, b := strings.Split(want, "\n"), strings.Split(got, "\n")
	under := ""
	for i := range min(len(a), len(b)) {
		if name, ok := heading(a[i]); ok {
			under = name
		}
		if a[i] != b[i] {
			return fmt.Sprintf("under %q, line %d:\nwant %s\ngot  %s", under, i+1, a[i], b[i])
		}
	}
	return "one goes on where the other ends"
}

// play lays out the files in an empty folder, makes the calls in their order and
// returns the script with what came of them.
func play(t *testing.T, s script) string {
	t.Helper()
	t.Chdir(t.TempDir())
	for _, sec := range s.sections {
		if strings.HasPrefix(sec.name, "$ ") {
			continue
		}
		require.NoError(t, os.MkdirAll(filepath.Dir(sec.name), 0o777))
		require.NoError(t, os.WriteFile(sec.name, []byte(sec.text), 0o666))
	}
	calls := 0
	for i, sec := range s.sections {
		line, ok := strings.CutPrefix(sec.name, "$ ")
		if !ok {
			continue
		}
		calls++
		s.sections[i].text = call(t, words(t, line))
	}
	require.Positive(t, calls, "a script without calls")
	return s.String()
}

// words parts a command line at its blanks; double quotes hold a word together.
func words(t *testing.T, line string) []string {
	t.Helper()
	var out []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, piece)
			continue
		}
		out = append(out, strings.Fields(piece)...)
	}
	require.NotEmpty(t, out)
	require.Equal(t, "planset", out[0])
	return out[1:]
}

// call makes one call and tells its exit code, what it printed and which files
// it made.
func call(t *testing.T, args []string) string {
	t.Helper()
	before := filesBelow(t)
	var out, errw bytes.Buffer
	code := run(args, &out, &errw)
	var b strings.Builder
	fmt.Fprintf(&b, "exit %d\n", code)
	for _, w := range []struct{ name, text string }{{"stdout", out.String()}, {"stderr", errw.String()}} {
		if w.text != "" {
			fmt.Fprintf(&b, "%s:\n%s", w.name, w.text)
			if !strings.HasSuffix(w.text, "\n") {
				b.WriteString("(no end of line)\n")
			}
		}
	}
	for _, name := range filesBelow(t) {
		if !slices.Contains(before, name) {
			fmt.Fprintf(&b, "wrote %s\n", name)
		}
	}
	return b.String()
}

// filesBelow lists every file and folder below the working one.
func filesBelow(t *testing.T) []string {
	t.Helper()
	var out []string
	require.NoError(t, filepath.WalkDir(".", func(p string, _ fs.DirEntry, err error) error {
		out = append(out, filepath.ToSlash(p))
		return err
	}))
	return out
}
