package expr

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// token is a piece of a formula. Its text is formula[start:end].
type token struct {
	kind       tokenKind
	start, end int
	value      Value  // of a number
	word       string // of a name, an operator
}

type tokenKind int8

const (
	tokenEnd tokenKind = iota
	tokenNumber
	tokenName
	tokenMark // an operator, a bracket or a comma
)

// fault is an error in the text of a formula, with the bytes it is about.
type fault struct {
	start, end int
	rule       string
	text, fix  string
}

// lexer cuts a formula into tokens.
type lexer struct {
	text string
	pos  int
}

// next returns the token at the reading place and moves past it.
func (lx *lexer) next() (token, *fault) {
	lx.blanks()
	start := lx.pos
	if start == len(lx.text) {
		return token{kind: tokenEnd, start: start, end: start}, nil
	}
	c := lx.text[start]
	switch {
	case isDigit(c), c == '.' && start+1 < len(lx.text) && isDigit(lx.text[start+1]):
		return lx.number()
	case strings.IndexByte("+-*/^(),", c) >= 0:
		if strings.HasPrefix(lx.text[start:], "**") {
			return token{}, &fault{start, start + 2, ruleSyntax, `"**" is not an operator`, `write ^ for "to the power of", * for "times"`}
		}
		lx.pos++
		return token{kind: tokenMark, start: start, end: lx.pos, word: lx.text[start:lx.pos]}, nil
	}
	if r, _ := utf8.DecodeRuneInString(lx.text[start:]); r == '_' || unicode.IsLetter(r) {
		return lx.name()
	}
	return token{}, lx.stray()
}

func (lx *lexer) blanks() {
	for lx.pos < len(lx.text) && strings.IndexByte(" \t\r\n", lx.text[lx.pos]) >= 0 {
		lx.pos++
	}
}

// stray explains a character that no formula has.
func (lx *lexer) stray() *fault {
	r, size := utf8.DecodeRuneInString(lx.text[lx.pos:])
	f := &fault{start: lx.pos, end: lx.pos + size, rule: ruleSyntax}
	f.text = strconv.QuoteRune(r) + " has no meaning in a formula"
	if unicode.IsSpace(r) {
		f.text, f.fix = "this blank is not an ordinary one", "type it anew with the space bar"
	}
	switch r {
	case '½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', '⅓', '⅔', '⁄':
		f.fix = "write fractions with a slash: 35 1/2"
	case '"', '″', '”', '“':
		f.fix = "write in for inches: 3 1/2 in"
	case '\'', '′', '’', '‘':
		f.fix = "write ft for feet: 5 ft + 3 in"
	case '°':
		f.fix = "write deg for degrees: 14 deg"
	case '−', '–', '—':
		f.fix = "write the minus of the keyboard, -"
	case '×', '·', '•':
		f.fix = "write * for times"
	case '÷', ':':
		f.fix = "write / for divided by"
	case '{', '}', '[', ']':
		f.fix = "group with round brackets ( )"
	}
	return f
}

// name reads a name: words of letters, digits and _ with dots between.
func (lx *lexer) name() (token, *fault) {
	start := lx.pos
	for lx.pos < len(lx.text) {
		r, size := utf8.DecodeRuneInString(lx.text[lx.pos:])
		if r == '.' {
			after, _ := utf8.DecodeRuneInString(lx.text[lx.pos+1:])
			if !isWordRune(after) {
				return token{}, &fault{start, lx.pos + 1, ruleSyntax, "a name cannot end in a dot", "write what belongs to it after the dot, as in leg.thick"}
			}
		} else if !isWordRune(r) {
			break
		}
		lx.pos += size
	}
	return token{kind: tokenName, start: start, end: lx.pos, word: lx.text[start:lx.pos]}, nil
}

// number reads a number with its fraction and its unit.
func (lx *lexer) number() (token, *fault) {
	start := lx.pos
	whole := lx.digits()
	exact := whole != "" // a whole number, which may carry a fraction
	if lx.at('.') {
		exact = false
		lx.pos++
		lx.digits()
	}
	if lx.exponent() {
		exact = false
	}
	v, err := strconv.ParseFloat(lx.text[start:lx.pos], 64)
	if err != nil {
		return token{}, &fault{start, lx.pos, ruleValue, "this number is too large", ""}
	}
	if exact {
		var bad *fault
		if v, bad = lx.fraction(start, v); bad != nil {
			return token{}, bad
		}
	}
	if lx.at('.') {
		return token{}, &fault{start, lx.pos + 1, ruleSyntax, "a number has only one decimal point", ""}
	}
	value, bad := lx.suffix(start, v)
	return token{kind: tokenNumber, start: start, end: lx.pos, value: value}, bad
}

func (lx *lexer) at(c byte) bool { return lx.pos < len(lx.text) && lx.text[lx.pos] == c }

func (lx *lexer) digits() string {
	start := lx.pos
	for lx.pos < len(lx.text) && isDigit(lx.text[lx.pos]) {
		lx.pos++
	}
	return lx.text[start:lx.pos]
}

func (lx *lexer) exponent() bool {
	back := lx.pos
	if !lx.at('e') && !lx.at('E') {
		return false
	}
	lx.pos++
	if lx.at('+') || lx.at('-') {
		lx.pos++
	}
	if lx.digits() == "" {
		lx.pos = back
		return false
	}
	return true
}

// fraction reads what makes a whole number a mixed one ("35 1/2"), or a lone
// fraction that carries a unit ("1/2 in"). Anything else is left for the
// operators.
func (lx *lexer) fraction(start int, whole float64) (float64, *fault) {
	back := lx.pos
	if lx.at('/') {
		under := lx.under()
		if under == "" || lx.unit() == "" {
			lx.pos = back
			return whole, nil
		}
		return lx.divide(start, whole, under)
	}
	lx.blanks()
	from := lx.pos
	over, under := lx.digits(), lx.under()
	if from == back || over == "" || under == "" {
		lx.pos = back
		return whole, nil
	}
	top, err := strconv.ParseFloat(over, 64)
	if err != nil {
		return 0, &fault{from, lx.pos, ruleValue, "this fraction is too large", ""}
	}
	part, bad := lx.divide(from, top, under)
	if bad == nil && part >= 1 {
		bad = &fault{start, lx.pos, ruleSyntax, strconv.Quote(lx.text[start:lx.pos]) + " is no mixed number: its fraction is not less than 1", "write + between the two if they are to be added"}
	}
	return whole + part, bad
}

// under reads "/2", the lower half of a fraction, and returns its digits.
func (lx *lexer) under() string {
	if !lx.at('/') {
		return ""
	}
	lx.pos++
	return lx.digits()
}

func (lx *lexer) divide(start int, over float64, under string) (float64, *fault) {
	n, err := strconv.ParseFloat(under, 64)
	switch {
	case err != nil:
		return 0, &fault{start, lx.pos, ruleValue, "this fraction is too large", ""}
	case n == 0:
		return 0, &fault{start, lx.pos, ruleValue, strconv.Quote(lx.text[start:lx.pos]) + " divides by zero", ""}
	}
	return over / n, nil
}

// unit returns the suffix that follows, without reading it.
func (lx *lexer) unit() string {
	probe := lexer{lx.text, lx.pos}
	probe.blanks()
	start := probe.pos
	for probe.pos < len(probe.text) {
		r, size := utf8.DecodeRuneInString(probe.text[probe.pos:])
		if !isWordRune(r) && r != '.' {
			break
		}
		probe.pos += size
	}
	word := probe.text[start:probe.pos]
	if isUnit(word) {
		return word
	}
	return ""
}

// measured returns what x of a typed unit is, false if word is no unit.
func measured(x float64, word string) (Value, bool) {
	switch word {
	case "in":
		return Length(inches(x)), true
	case "ft":
		return Length(inches(12 * x)), true
	case "mm":
		return Length(x), true
	case "cm":
		return Length(10 * x), true
	case "m":
		return Length(1000 * x), true
	case "deg":
		return Radians(x*math.Pi/180, None), true
	}
	return Value{}, false
}

func isUnit(word string) bool {
	_, ok := measured(1, word)
	return ok
}

func (lx *lexer) suffix(start int, v float64) (Value, *fault) {
	word := lx.unit()
	if word == "" {
		return Bare(v), nil
	}
	lx.blanks()
	lx.pos += len(word)
	value, _ := measured(v, word)
	if math.IsInf(value.V, 0) {
		return Value{}, &fault{start, lx.pos, ruleValue, "this number is too large", ""}
	}
	return value, nil
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isWordRune(r rune) bool {
	return r == '_' || r < utf8.RuneSelf && r >= '0' && r <= '9' || r != utf8.RuneError && unicode.IsLetter(r)
}
