package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// may lists what each room may import of ours and of others, besides the
// standard library. A trailing /... stands for the rooms below as well.
var may = map[string][]string{
	"model":               {"planset/model/expr", "planset/model/geom"},
	"model/source":        {},
	"model/expr":          {"planset/model/source"},
	"model/tree":          {"planset/model/source", "github.com/BurntSushi/toml"},
	"model/geom":          {},
	"model/wood":          {},
	"model/reading":       {"planset/model/expr", "planset/model/source", "planset/model/tree"},
	"model/assembly":      {"planset/model/..."},
	"model/cutting":       {"gonum.org/v1/gonum/..."},
	"model/buying":        {"planset/model/..."},
	"model/check":         {"planset/model/..."},
	"model/shop":          {"planset/model/..."},
	"model/shop/shoptest": {"planset/model/..."}, // a chair for tests
	"model/marks":         {"planset/model/..."},
	"model/strength":      {"planset/model/..."},
	"model/people":        {"planset/model/..."},
	"fonts":               {"golang.org/x/image/..."},
	"render":              {"planset/model/geom", "planset/fonts"},
	"render/view":         {"planset/model/geom"},
	"render/pdf":          {"planset/model/geom", "planset/fonts", "planset/render", "github.com/go-pdf/fpdf"},
	"render/svg":          {"planset/model/geom", "planset/fonts", "planset/render"},
	"render/png":          {"planset/model/geom", "planset/fonts", "planset/render", "github.com/tdewolff/canvas/..."},
	"render/dxf":          {"planset/model/geom"},
	"render/pdftest":      {"planset/model/geom", "github.com/klippa-app/go-pdfium/...", "github.com/stretchr/testify/...", "github.com/pdfcpu/pdfcpu/..."},
	"layouts/lettering":   {"planset/model/geom", "planset/fonts", "planset/render"},
	"layouts/tables":      {"planset/model/...", "planset/fonts", "planset/render", "planset/layouts/lettering"},
	"layouts/sight":       {"planset/model/geom"},
	"layouts/inspect":     {"planset/model/geom", "planset/fonts", "planset/render", "planset/layouts/..."},
	"layouts/dims":        {"planset/model/geom", "planset/model/expr", "planset/fonts", "planset/render", "planset/layouts/..."},
	"layouts/tiles":       {"planset/model/geom", "planset/model/expr", "planset/fonts", "planset/render", "planset/layouts/..."},
	"layouts/tiles/desk":  {"planset/model/geom", "planset/fonts", "planset/render", "planset/layouts/lettering"},
	"layouts/woodwork":    {"planset/model/...", "planset/fonts", "planset/render", "planset/render/view", "planset/layouts/..."},
	"layouts/sheets":      {"planset/model/...", "planset/fonts", "planset/render", "planset/render/view", "planset/layouts/..."},
	"layouts/report":      {"planset/model/...", "planset/fonts", "planset/render", "planset/render/view", "planset/layouts/..."},
	"cmd/planset":         {"planset/..."},
}

// worldly are the packages that touch the disk, the clock or the environment;
// only the command may.
var worldly = []string{"os", "os/exec", "time", "net", "net/http", "io/ioutil", "math/rand"}

const root = "../.."

// eachFile calls f for every Go file of the project that is not a test.
func eachFile(t *testing.T, f func(room, name string, file *ast.File, set *token.FileSet)) {
	t.Helper()
	set := token.NewFileSet()
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		rel, err := filepath.Rel(root, p)
		require.NoError(t, err)
		rel = filepath.ToSlash(rel)
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && rel != "." || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(set, p, nil, parser.ParseComments)
		require.NoError(t, err)
		f(path.Dir(rel), rel, file, set)
		return nil
	})
	require.NoError(t, err)
}

// TestArrows holds the direction of imports.
func TestArrows(t *testing.T) {
	files := 0
	eachFile(t, func(room, name string, file *ast.File, _ *token.FileSet) {
		files++
		allowed, known := may[room]
		if !assert.True(t, known, "%s: the table of rooms has no %q", name, room) {
			return
		}
		for _, im := range file.Imports {
			p, err := strconv.Unquote(im.Path.Value)
			require.NoError(t, err)
			first, _, _ := strings.Cut(p, "/")
			if !strings.Contains(first, ".") && first != "planset" {
				worldlyOnly(t, room, name, p)
				continue
			}
			assert.True(t, fits(p, allowed), "%s may not import %s", name, p)
		}
	})
	assert.Greater(t, files, 50, "the walk found the project")
}

func worldlyOnly(t *testing.T, room, name, p string) {
	if room == "cmd/planset" || room == "render/pdftest" {
		return
	}
	for _, w := range worldly {
		// A painter gets its fixed dates from time; it never asks for now.
		if p == w && !(p == "time" && room == "render/pdf") {
			t.Errorf("%s may not import %s: only the command touches the world", name, p)
		}
	}
}

func fits(p string, allowed []string) bool {
	for _, a := range allowed {
		if below, all := strings.CutSuffix(a, "/..."); all && (p == below || strings.HasPrefix(p, below+"/")) || p == a {
			return true
		}
	}
	return false
}

// The sizes a file and a function may have, lines.
const (
	longestFile = 400
	longestFunc = 80
)

// TestSmall holds files and functions to a size that can be read.
func TestSmall(t *testing.T) {
	eachFile(t, func(_, name string, file *ast.File, set *token.FileSet) {
		assert.LessOrEqual(t, set.Position(file.End()).Line, longestFile, name)
		for _, d := range file.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			lines := set.Position(fn.End()).Line - set.Position(fn.Pos()).Line + 1
			assert.LessOrEqual(t, lines, longestFunc, "%s: %s", name, fn.Name.Name)
			if fn.Name.IsExported() && !strings.Contains(name, "/internal/") {
				assert.NotNil(t, fn.Doc, "%s: %s has no comment", name, fn.Name.Name)
			}
			assert.NotEqual(t, "init", fn.Name.Name, "%s: no init functions", name)
		}
	})
}

// TestTopLevel holds the folders of the project.
func TestTopLevel(t *testing.T) {
	list, err := os.ReadDir(root)
	require.NoError(t, err)
	known := []string{"cmd", "model", "render", "layouts", "fonts", "examples", "README.md", "DEVELOPERS.md", "go.mod", "go.sum"}
	for _, e := range list {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		assert.Contains(t, known, e.Name())
	}
}
