package expr

import (
	"slices"

	"planset/model/source"
)

// The rules that formulas can break.
const (
	ruleSyntax    = "formula-syntax"
	ruleLimit     = "formula-limit"
	ruleDimension = "formula-dimension"
	ruleValue     = "formula-value"
)

// The largest formula that is read. The sketches of whole chairs stay under 100
// bytes and 6 levels; the limits keep a hostile file from using up the stack.
const (
	maxBytes = 1000
	maxDepth = 64
)

// A Formula is a formula that was read without errors.
type Formula struct {
	text string
	at   source.Span
	root *node
}

// A Ref is a name in a formula and where it stands.
type Ref struct {
	Name string
	At   source.Span
}

type nodeKind int8

const (
	nodeNumber nodeKind = iota
	nodeName
	nodeNegate
	nodeBinary // word is the operator
	nodeCall   // word is the function
)

// node is a formula or a piece of one; text[start:end] is how it was written.
type node struct {
	kind       nodeKind
	word       string
	value      Value
	do         func(e *evaluator, n *node, args []Value) (Value, bool) // of a call
	args       []*node
	start, end int
}

// Parse reads a formula. The span is that of the text in its file; when the two
// do not read the same (a string with escapes), errors point at the whole span.
// It returns nil after adding an error to problems.
func Parse(text string, at source.Span, problems *source.List) *Formula {
	f := &Formula{text: text, at: at}
	if len(text) > maxBytes {
		problems.Errorf(at, ruleLimit, "this formula is longer than %d characters", maxBytes).
			Fix("give parts of it names of their own under [derive]")
		return nil
	}
	p := &parser{lexer: lexer{text: text}}
	p.advance()
	if p.fault == nil && p.tok.kind == tokenEnd {
		p.fault = &fault{0, len(text), ruleSyntax, "a number or a formula is missing", "write one, for example 3 1/2"}
	}
	f.root = p.sum()
	if p.fault == nil && p.tok.kind != tokenEnd {
		p.leftOver()
	}
	if bad := p.fault; bad != nil {
		problem := problems.Errorf(f.span(bad.start, bad.end), bad.rule, "%s", bad.text)
		if bad.fix != "" {
			problem.Fix("%s", bad.fix)
		}
		return nil
	}
	for _, d := range p.dashes {
		problems.Warnf(f.span(d.start, d.end), "formula-dash", "%q is a subtraction", text[d.start:d.end]).
			Fix("for the mixed number put a blank before the fraction, %s %s; to subtract put blanks round the minus",
				text[d.start:d.args[0].end], text[d.args[1].start:d.end])
	}
	return f
}

// Constant returns the formula that is just the number v, loose, as for a bare
// number of a plan. It is nil if v is infinite or no number.
func Constant(v float64, at source.Span) *Formula {
	if v-v != 0 {
		return nil
	}
	text := at.Text()
	return &Formula{text: text, at: at, root: &node{value: Bare(v), end: len(text)}}
}

// span returns the place of text[start:end] in the file.
func (f *Formula) span(start, end int) source.Span {
	if f.at.Text() != f.text || !f.at.Valid() {
		return f.at
	}
	return source.Span{File: f.at.File, Start: f.at.Start + start, End: f.at.Start + end}
}

// Span returns the place of the whole formula.
func (f *Formula) Span() source.Span { return f.at }

// String returns the formula as it was written.
func (f *Formula) String() string { return f.text }

// Names returns the names in the formula, in the order and as often as written.
func (f *Formula) Names() []Ref {
	if f == nil {
		return nil
	}
	var refs []Ref
	f.root.walk(func(n *node) {
		if n.kind == nodeName {
			refs = append(refs, Ref{n.word, f.span(n.start, n.end)})
		}
	})
	return refs
}

// walk calls visit for n and everything in it, in the order of the text.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, a := range n.args {
		a.walk(visit)
	}
}

// Simple reports whether the formula is one written number: "35 1/2", "-3/4",
// "14 deg".
func (f *Formula) Simple() bool {
	n := f.root
	if n.kind == nodeBinary && n.word == "/" && n.args[1].kind == nodeNumber {
		n = n.args[0]
	}
	if n.kind == nodeNegate {
		n = n.args[0]
	}
	return n.kind == nodeNumber
}

// Reserved reports whether a name means something in every formula, so that a
// plan cannot give it to a size of its own.
func Reserved(name string) bool {
	_, known := functions()[name]
	return known || isUnit(name)
}

// Functions returns the names of the functions in the order of the alphabet.
func Functions() []string {
	var names []string
	for name := range functions() {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
