package reading

import (
	"errors"
	"io/fs"
	"path"
	"path/filepath"
	"strings"

	"planset/model/expr"
	"planset/model/source"
	"planset/model/tree"
)

// The limits of a plan: far above any furniture, so that a slip or a hostile
// file costs neither memory nor time.
const (
	maxFiles   = 16
	maxParts   = 200
	maxPlaces  = 400
	maxSteps   = 200
	maxJoints  = 200
	maxGoals   = 10   // each is a search
	maxCuts    = 100  // of one kind in a part
	maxPoints  = 200  // of an outline
	maxAllCuts = 500  // of all kinds in all parts
	maxEntries = 2000 // in any other table
)

// Load reads the plan file name from fsys and the files it includes, and returns
// the draft. Problems call the plan file shown, as the user wrote its path, and
// the others by the way from there; without it all go by their names in fsys.
// The draft is nil when nothing useful could be read; otherwise it may be
// incomplete and problems tells why.
func Load(fsys fs.FS, name, shown string, problems *source.List) *Draft {
	in := &includer{fsys: fsys, plan: name, shown: shown, problems: problems, open: map[string]bool{}}
	root := in.file(name, nil)
	if root == nil {
		return nil
	}
	checkTable(root, schema(), problems)
	r := &reader{problems: problems}
	d := r.draft(root)
	d.Files = in.files
	return d
}

// includer reads a file and those it includes and merges them into one tree.
type includer struct {
	fsys     fs.FS
	plan     string // the plan file's name in fsys
	shown    string // and in messages
	problems *source.List
	files    []*source.File
	open     map[string]bool
	unit     string
}

// called is what messages call a file.
func (in *includer) called(name string) string {
	switch {
	case in.shown == "":
		return name
	case name == in.plan:
		return in.shown
	}
	way, err := filepath.Rel(path.Dir(in.plan), name)
	if err != nil {
		return name
	}
	return path.Join(path.Dir(in.shown), filepath.ToSlash(way))
}

func (in *includer) file(name string, from *tree.Node) *tree.Node {
	at := source.Span{}
	if from != nil {
		at = from.Span
	}
	if in.open[name] {
		in.problems.Errorf(at, "include", "%s includes itself", name).Fix("take the include out of one of the files")
		return nil
	}
	if len(in.files) >= maxFiles {
		in.problems.Errorf(at, "include", "more than %d files are included", maxFiles)
		return nil
	}
	data, err := fs.ReadFile(in.fsys, name)
	if err != nil {
		in.missing(name, at, err)
		return nil
	}
	file := &source.File{Name: in.called(name), Text: string(data)}
	in.files = append(in.files, file)
	root := tree.Parse(file, in.problems)
	if root == nil {
		return nil
	}
	in.open[name] = true
	defer delete(in.open, name)
	in.sameUnit(root)
	return in.merged(root, name)
}

// missing tells why a file could not be read, in the author's words.
func (in *includer) missing(name string, at source.Span, err error) {
	if !at.Valid() {
		at = source.Span{File: &source.File{Name: in.called(name)}}
	}
	if errors.Is(err, fs.ErrNotExist) {
		in.problems.Errorf(at, "file", "there is no file %q", name).Fix("check the spelling and the folder")
		return
	}
	reason := err
	var pe *fs.PathError
	if errors.As(err, &pe) {
		reason = pe.Err
	}
	in.problems.Errorf(at, "file", "%q cannot be read: %v", name, reason)
}

// sameUnit refuses an include that counts in another unit: one bare number must
// not mean two things in one plan.
func (in *includer) sameUnit(root *tree.Node) {
	n := root.Get("unit")
	if n == nil || n.Kind != tree.String {
		return
	}
	if in.unit == "" {
		in.unit = n.Text
	}
	if in.unit != n.Text {
		in.problems.Errorf(n.Span, "unit", "this file counts in %q, the plan that includes it in %q", n.Text, in.unit).
			Fix("write both in one unit")
	}
}

func (in *includer) merged(root *tree.Node, name string) *tree.Node {
	list := root.Get("include")
	if list == nil || list.Kind != tree.Array {
		return root
	}
	var base *tree.Node
	for _, item := range list.Items {
		if item.Kind != tree.String {
			continue
		}
		target := path.Join(path.Dir(name), item.Text)
		if path.IsAbs(item.Text) || strings.Contains(item.Text, "\\") || !fs.ValidPath(target) {
			in.problems.Errorf(item.Span, "include", "%q lies outside the plan's folders", item.Text).
				Fix("keep shared files beside the plan, or beside a range.toml above it")
			continue
		}
		if other := in.file(target, item); other != nil {
			base = merge(base, other)
		}
	}
	return merge(base, root)
}

// merge lays over on top of base: tables are merged key by key, anything else
// is replaced. base may be nil.
func merge(base, over *tree.Node) *tree.Node {
	if base == nil {
		return over
	}
	if base.Kind != tree.Table || over.Kind != tree.Table {
		return over
	}
	var keys []*tree.Node
	for _, b := range base.Keys {
		if o := over.Get(b.Key); o != nil {
			m := merge(b, o)
			keys = append(keys, m)
			continue
		}
		keys = append(keys, b)
	}
	for _, o := range over.Keys {
		if base.Get(o.Key) == nil {
			keys = append(keys, o)
		}
	}
	return over.WithKeys(keys)
}

// unitOf reads "in" or "mm".
func unitOf(s string) (expr.Unit, bool) {
	switch s {
	case "in":
		return expr.Inch, true
	case "mm":
		return expr.MM, true
	}
	return expr.Inch, false
}
