package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"planset/model"
	"planset/model/assembly"
	"planset/model/expr"
	"planset/model/reading"
	"planset/model/source"
)

// rangeFile marks the folder that a range of plans shares. Files included by a
// plan lie below it, or below the plan's own folder where there is none.
const rangeFile = "range.toml"

// upMost is how many folders above the plan a range file is looked for.
const upMost = 3

// draft is a plan file that was read.
type draft struct {
	*reading.Draft
	dir  string // the plan's own folder
	seed string // all texts it was read from
	logo []byte
}

// load reads the model. A file that is not there or cannot be read is a wrong
// call, not an error of the plan.
func (a *app) load() (*draft, error) {
	path := a.flags.model
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, wrong{fmt.Sprintf("there is no file %q", path), "check the spelling and the folder"}
	case err != nil:
		return nil, wrong{fmt.Sprintf("%q cannot be read: %v", path, reason(err)), ""}
	case info.IsDir():
		return nil, wrong{fmt.Sprintf("%q is a folder", path), "name the .toml file in it"}
	}
	dir, base := filepath.Split(path)
	root, below := shared(dir)
	tree, err := os.OpenRoot(root)
	if err != nil {
		return nil, wrong{fmt.Sprintf("the folder of %q cannot be read: %v", path, reason(err)), ""}
	}
	defer tree.Close()
	name := filepath.ToSlash(filepath.Join(below, base))
	d := reading.Load(tree.FS(), name, filepath.ToSlash(path), &a.problems)
	if d == nil || !whole(a.problems.All()) {
		return nil, nil
	}
	out := &draft{Draft: d, dir: dir}
	for _, f := range d.Files {
		out.seed += f.Text + "\x00" // not the name: it tells from where planset was called
	}
	return out, a.readLogo(out, tree, name)
}

// whole reports whether a draft says all that its author meant it to. A formula
// that cannot be read leaves no gap that solving would tell of again; a key, a
// word or a file that was not understood does.
func whole(problems []source.Problem) bool {
	return !slices.ContainsFunc(problems, func(p source.Problem) bool {
		return p.Level == source.Error && !strings.HasPrefix(p.Rule, "formula-")
	})
}

// shared finds the folder that holds everything a plan may include, and the way
// from there down to the plan's own folder.
func shared(dir string) (root, below string) {
	if dir == "" {
		dir = "."
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return dir, ""
	}
	up := abs
	for range upMost {
		if info, err := os.Stat(filepath.Join(up, rangeFile)); err == nil && info.Mode().IsRegular() {
			rel, err := filepath.Rel(up, abs)
			if err != nil || rel == "." {
				return up, ""
			}
			return up, rel
		}
		next := filepath.Dir(up)
		if next == up {
			break
		}
		up = next
	}
	return abs, ""
}

// readLogo reads the maker's logo, a PNG beside the plan.
func (a *app) readLogo(d *draft, tree *os.Root, name string) error {
	w := d.Info.Logo
	if !w.Given() {
		return nil
	}
	target := filepath.ToSlash(filepath.Join(filepath.Dir(name), w.Text))
	if !fs.ValidPath(target) {
		a.problems.Errorf(w.At, "file", "the logo %q lies outside the plan's folders", w.Text).Fix("name a PNG file in the plan's folder")
		return nil
	}
	data, err := fs.ReadFile(tree.FS(), target)
	if err != nil {
		a.problems.Errorf(w.At, "file", "the logo %q cannot be read: %v", w.Text, reason(err)).Fix("name a PNG file in the plan's folder")
		return nil
	}
	if len(data) > 2<<20 || !strings.HasPrefix(string(data), "\x89PNG\r\n\x1a\n") {
		a.problems.Errorf(w.At, "file", "the logo %q is not a PNG of at most 2 MB", w.Text).Fix("save it anew as PNG, smaller")
		return nil
	}
	d.logo = data
	return nil
}

// reason is the system's own words without the path, which was said already.
func reason(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}

// solve solves the draft for one size and unit system.
func (a *app) solve(d *draft, variant string, unit expr.Unit) *model.Plan {
	p := assembly.Solve(d.Draft, assembly.Options{Variant: variant, Unit: unit}, &a.problems)
	if p != nil {
		p.Brand.Logo = d.logo
	}
	return p
}

// variantNames are all sizes of a draft, the plain one first.
func (d *draft) variantNames() []string {
	out := []string{"standard"}
	for _, v := range d.Variants {
		if !slices.Contains(out, v.Key) {
			out = append(out, v.Key)
		}
	}
	return out
}

// unit reads --units, the plan's own by default.
func (a *app) unit(d *draft) expr.Unit {
	switch a.flags.or("units", "") {
	case "in":
		return expr.Inch
	case "mm":
		return expr.MM
	}
	return d.Unit
}

// unitName is how a unit system is written in names of files and in JSON.
func unitName(u expr.Unit) string {
	if u == expr.MM {
		return "mm"
	}
	return "in"
}

// wanted is the one size asked for with --variant.
func (a *app) wanted(d *draft) (string, error) {
	v := a.flags.or("variant", "standard")
	if !slices.Contains(d.variantNames(), v) {
		return "", wrong{fmt.Sprintf("the plan has no variant %q", v), "it has " + strings.Join(d.variantNames(), ", ")}
	}
	return v, nil
}
