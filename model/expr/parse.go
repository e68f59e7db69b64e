package expr

import (
	"fmt"
	"slices"

	"planset/model/source"
)

// parser reads by recursive descent, one rule of the grammar a method:
//
//	sum     = product { ("+" | "-") product }
//	product = signed { ("*" | "/") signed }
//	signed  = ("-" | "+") signed | power
//	power   = atom [ "^" signed ]
//	atom    = number | name | name "(" sum { "," sum } ")" | "(" sum ")"
//
// After the first fault every method returns at once.
type parser struct {
	lexer  lexer
	tok    token
	last   int // where the token before tok ended
	depth  int
	fault  *fault
	dashes []*node // subtractions that look like mixed numbers
}

func (p *parser) advance() {
	p.last = p.tok.end
	tok, bad := p.lexer.next()
	if bad != nil && p.fault == nil {
		p.fault = bad
	}
	p.tok = tok
}

func (p *parser) failf(start, end int, format string, args ...any) *fault {
	if p.fault == nil {
		p.fault = &fault{start: start, end: end, rule: ruleSyntax, text: fmt.Sprintf(format, args...)}
	}
	return p.fault
}

// is reports whether the token is one of the marks.
func (p *parser) is(marks ...string) bool {
	return p.fault == nil && p.tok.kind == tokenMark && slices.Contains(marks, p.tok.word)
}

// deeper counts a level of nesting; its result is to be deferred.
func (p *parser) deeper() func() {
	p.depth++
	if p.depth > maxDepth && p.fault == nil {
		p.fault = &fault{p.tok.start, p.tok.end, ruleLimit, fmt.Sprintf("this formula is nested more than %d deep", maxDepth), "give the inner parts names of their own under [derive]"}
	}
	return func() { p.depth-- }
}

func (p *parser) sum() *node {
	defer p.deeper()()
	return p.chain(p.product, "+", "-")
}

func (p *parser) product() *node { return p.chain(p.signed, "*", "/") }

func (p *parser) chain(operand func() *node, marks ...string) *node {
	if p.fault != nil {
		return nil
	}
	left := operand()
	for p.is(marks...) {
		mark := p.tok
		p.advance()
		right := operand()
		if p.fault != nil {
			return nil
		}
		left = &node{kind: nodeBinary, word: mark.word, args: []*node{left, right}, start: left.start, end: right.end}
		p.watchDash(left)
	}
	return left
}

// watchDash remembers 35-1/2 written tight, which in the trade is the mixed
// number, and here is 34 1/2.
func (p *parser) watchDash(n *node) {
	left, right := n.args[0], n.args[1]
	if n.word == "-" && left.kind == nodeNumber && right.kind == nodeBinary && right.word == "/" &&
		right.args[0].kind == nodeNumber && right.args[1].kind == nodeNumber && left.end+1 == right.start &&
		left.value.Loose && right.args[0].value.V < right.args[1].value.V {
		p.dashes = append(p.dashes, n)
	}
}

func (p *parser) signed() *node {
	if !p.is("-", "+") {
		return p.power()
	}
	defer p.deeper()()
	mark := p.tok
	p.advance()
	n := p.signedInner()
	if n == nil || mark.word == "+" {
		return n
	}
	return &node{kind: nodeNegate, args: []*node{n}, start: mark.start, end: n.end}
}

func (p *parser) signedInner() *node {
	if p.fault != nil {
		return nil
	}
	return p.signed()
}

func (p *parser) power() *node {
	base := p.atom()
	if !p.is("^") {
		return base
	}
	defer p.deeper()()
	p.advance()
	exponent := p.signedInner()
	if p.fault != nil {
		return nil
	}
	return &node{kind: nodeBinary, word: "^", args: []*node{base, exponent}, start: base.start, end: exponent.end}
}

func (p *parser) atom() *node {
	if p.fault != nil {
		return nil
	}
	tok := p.tok
	switch {
	case tok.kind == tokenNumber:
		p.advance()
		return &node{value: tok.value, start: tok.start, end: tok.end}
	case tok.kind == tokenName:
		p.advance()
		if p.is("(") {
			return p.call(tok)
		}
		return p.named(tok)
	case p.is("("):
		p.advance()
		n := p.sum()
		if !p.close(tok) {
			return nil
		}
		n.start, n.end = tok.start, p.last
		return n
	case tok.kind == tokenEnd:
		p.failf(p.last, p.last, "the formula ends where a number or a name is needed")
	default:
		p.failf(tok.start, tok.end, "%q stands where a number or a name is needed", tok.word)
	}
	return nil
}

// named is a name that is no call.
func (p *parser) named(tok token) *node {
	if f, known := functions()[tok.word]; known {
		p.failf(tok.start, tok.end, "%q is a function and needs its values in brackets", tok.word).fix = "write " + f.usage
		return nil
	}
	if isUnit(tok.word) {
		p.failf(tok.start, tok.end, "the unit %q does not follow a number", tok.word).fix =
			"a unit goes right after a number, as in 3 1/2 in; multiply anything else by 1 " + tok.word
		return nil
	}
	return &node{kind: nodeName, word: tok.word, start: tok.start, end: tok.end}
}

// close reads the bracket that ends what tok opened.
func (p *parser) close(tok token) bool {
	if p.fault != nil {
		return false
	}
	if p.is(")") {
		p.advance()
		return true
	}
	if p.tok.kind == tokenEnd || p.is(",") {
		p.failf(tok.start, tok.start+1, "this bracket is not closed").fix = "add the ) that belongs to it"
		return false
	}
	p.leftOver()
	return false
}

func (p *parser) call(name token) *node {
	f, known := functions()[name.word]
	if !known {
		bad := p.failf(name.start, name.end, "there is no function %q", name.word)
		if near, ok := source.Nearest(name.word, Functions()); ok {
			bad.fix = fmt.Sprintf("did you mean %q?", near)
		} else {
			bad.fix = "write * between a name and a bracket to multiply"
		}
		return nil
	}
	n := &node{kind: nodeCall, word: name.word, do: f.do, start: name.start}
	open := p.tok
	for p.is("(", ",") {
		p.advance()
		if len(n.args) == 0 && p.is(")") {
			break
		}
		n.args = append(n.args, p.sum())
	}
	if !p.close(open) {
		return nil
	}
	n.end = p.last
	if len(n.args) < f.least || f.most > 0 && len(n.args) > f.most {
		p.failf(n.start, n.end, "%s does not take %d values", name.word, len(n.args)).fix = "write " + f.usage
		return nil
	}
	return n
}

// leftOver explains a token that cannot go on from what was read.
func (p *parser) leftOver() {
	tok := p.tok
	word := p.lexer.text[tok.start:tok.end]
	bad := p.failf(tok.start, tok.end, "there is no operator before %q", word)
	if tok.kind == tokenMark {
		switch word {
		case ")":
			bad.text, bad.fix = "this bracket was never opened", "take it away, or add the ( that belongs to it"
		case ",":
			bad.text, bad.fix = "a comma only parts the values of a function", "write 3.5 with a point, not 3,5"
		case "(":
			bad.fix = "write * between the two to multiply"
		}
		return
	}
	bad.fix = "write + - * or / between the two"
	if isUnit(word) {
		bad.text = fmt.Sprintf("the unit %q does not follow a number", word)
		bad.fix = "a unit goes right after a number, as in 3 1/2 in; multiply anything else by 1 " + word
	} else if meant := meantUnit(word); meant != "" {
		bad.text, bad.fix = fmt.Sprintf("%q is not a unit here", word), "write "+meant
	} else if tok.kind == tokenNumber && !tok.value.Loose {
		bad.fix = "add feet and inches with a +, as in 5 ft + 3 1/2 in"
	} else if tok.kind == tokenNumber {
		bad.fix = "a mixed number is a whole number, a blank and a fraction, as in 35 1/2; else write an operator between the two"
	}
}

// meantUnit returns the suffix for what people write for a unit.
func meantUnit(word string) string {
	switch word {
	case "inch", "inches", "ins", "IN", "In", "Inches":
		return "in"
	case "foot", "feet", "FT", "Ft":
		return "ft"
	case "degree", "degrees", "degs", "Deg", "DEG":
		return "deg"
	case "MM", "millimeter", "millimeters", "millimetre", "millimetres":
		return "mm"
	case "rad", "radian", "radians":
		return "an angle in deg"
	}
	return ""
}
