// Package tree reads a TOML file and keeps the place of every key and value.
//
// A scanner of our own reads the text, knows every place and explains what
// beginners get wrong; what it took, the TOML library must take too. Two readers
// that agree are the guard against a home-made dialect. The package does not
// know which keys a plan has nor what they mean.
package tree

import (
	"fmt"
	"strings"

	"planset/model/source"
)

// Kind says what a node is.
type Kind int8

// The kinds of nodes.
const (
	Table Kind = iota
	Array
	String
	Number
	Bool
	Date // a date, a time or both
)

// String returns the kind with its article, for messages.
func (k Kind) String() string {
	return [...]string{"a table", "an array", "a string", "a number", "true or false", "a date"}[k]
}

// A Node is a value of the file with its place.
type Node struct {
	Kind    Kind
	Key     string      // in a table; of a [[key]] table, the key of its array; else empty
	KeySpan source.Span // of the key's own part: c in a.b.c
	Span    source.Span // of the value; of a [table] or [[table]], its header; of a table that only stands in the path to another, its part of that path
	Inner   source.Span // of what stands between the quotes of a string
	Text    string      // a string decoded; a number, bool or date as written
	Plain   bool        // a string whose Text reads like Inner, byte for byte
	Num     float64     // of a number, always finite
	Keys    []*Node     // the entries of a table in the order of the file
	Items   []*Node     // the values of an array, the tables of [[key]]

	byKey  map[string]*Node // entries again, for large tables
	made   maker
	closed bool // no header may enter: an inline table or a plain array
}

// maker says what brought a table about, which decides who may add to it.
type maker int8

const (
	byPath   maker = iota // it stood in the path of a header
	byHeader              // [table] or [[table]]
	byDots                // it stood in a dotted key
	byValue               // { } or [ ]
)

// mapFrom is how many entries a table has before it gets a map; below, looking
// through them is faster and lighter.
const mapFrom = 8

// Get returns the node that a path of keys leads to, nil if there is none.
// Getting from a nil node gives nil.
func (n *Node) Get(path ...string) *Node {
	for _, key := range path {
		if n = n.entry(key); n == nil {
			return nil
		}
	}
	return n
}

func (n *Node) entry(key string) *Node {
	if n == nil || n.Kind != Table {
		return nil
	}
	if n.byKey != nil {
		return n.byKey[key]
	}
	for _, e := range n.Keys {
		if e.Key == key {
			return e
		}
	}
	return nil
}

func (n *Node) add(e *Node) {
	n.Keys = append(n.Keys, e)
	switch {
	case n.byKey != nil:
		n.byKey[e.Key] = e
	case len(n.Keys) > mapFrom:
		n.byKey = make(map[string]*Node, 2*len(n.Keys))
		for _, k := range n.Keys {
			n.byKey[k.Key] = k
		}
	}
}

// True reports whether n is the bool true.
func (n *Node) True() bool { return n != nil && n.Kind == Bool && n.Text == "true" }

// The limits of a plan file. A large plan has some 3,000 nodes, 6 deep, in
// 60 KiB; the limits keep a hostile file from taking time and stack.
const (
	maxBytes = 1 << 20
	maxDepth = 32
	maxNodes = 50_000
)

// The rules a file can break.
const (
	ruleSyntax = "toml-syntax"
	ruleTwice  = "toml-twice"
	ruleLimit  = "toml-limit"
	ruleNumber = "toml-number"
)

// Parse reads a file. It returns its root table, or nil after adding an error.
func Parse(file *source.File, problems *source.List) *Node {
	if len(file.Text) > maxBytes {
		problems.Errorf(source.Span{File: file}, ruleLimit, "the file is larger than 1 MiB").
			Fix("a plan is text of some hundred lines; is this the right file?")
		return nil
	}
	s := &scanner{file: file, text: file.Text}
	root := s.document()
	bad := s.fault
	if bad == nil {
		// Only now, because the library checks neither size nor depth.
		bad = refusal(file.Text)
	}
	if bad == nil {
		return root
	}
	p := problems.Errorf(s.span(bad.start, bad.end), bad.rule, "%s", bad.text)
	if bad.fix != "" {
		p.Fix("%s", bad.fix)
	}
	if bad.first.Valid() {
		p.Note(bad.first, "%s", bad.note)
	}
	return nil
}

// fault is why a file cannot be read, with the bytes it is about.
type fault struct {
	start, end int
	rule       string
	text, fix  string
	first      source.Span // another place that matters
	note       string
}

// quoted shows a short stretch of text in a message.
func quoted(text string) string {
	if r := []rune(text); len(r) > 24 {
		text = string(r[:24]) + "…"
	}
	return fmt.Sprintf("%q", strings.TrimSpace(text))
}

// WithKeys returns a table that stands where n does and has other entries.
func (n *Node) WithKeys(keys []*Node) *Node {
	out := *n
	out.Keys, out.byKey = nil, nil
	for _, k := range keys {
		out.add(k)
	}
	return &out
}
