package tree

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// value reads a value; depth counts the tables and arrays around it.
func (s *scanner) value(depth int) *Node {
	if s.failed() || s.tooDeep(depth, s.pos) {
		return nil
	}
	if s.pos >= len(s.text) {
		s.fail(s.pos, s.pos, "the value is missing at the end of the file", "write a value after the =")
		return nil
	}
	switch c := s.text[s.pos]; {
	case c == '"' || c == '\'':
		return s.str()
	case c == '[':
		return s.array(depth)
	case c == '{':
		return s.inline(depth)
	}
	return s.word()
}

func (s *scanner) array(depth int) *Node {
	start := s.pos
	n := s.node(Array, s.span(start, start))
	n.closed, n.made = true, byValue
	s.pos++
	for s.skip(true); !s.closes(start, ']'); s.skip(true) {
		item := s.value(depth + 1)
		if item == nil || s.failed() {
			return nil
		}
		n.Items = append(n.Items, item)
		s.comma(']')
	}
	n.Span.End = s.pos
	return n
}

func (s *scanner) inline(depth int) *Node {
	start := s.pos
	n := s.node(Table, s.span(start, start))
	n.made = byValue
	s.pos++
	for s.skip(true); !s.closes(start, '}'); s.skip(true) {
		s.entry(n, depth+1)
		s.comma('}')
	}
	n.Span.End = s.pos
	n.close()
	return n
}

// close shuts a finished inline table and all that dotted keys made in it.
func (n *Node) close() {
	n.closed = true
	for _, e := range n.Keys {
		if e.Kind == Table && !e.closed {
			e.close()
		}
	}
}

// closes reads the closing bracket of a list, or reports that there is none.
func (s *scanner) closes(start int, bracket byte) bool {
	switch {
	case s.failed():
		return true
	case s.pos >= len(s.text):
		s.fail(start, start+1, "this bracket is not closed", fmt.Sprintf("add the %c that belongs to it", bracket))
		return true
	case s.text[s.pos] == bracket:
		s.pos++
		return true
	}
	return false
}

// comma reads the comma between two values; the last value needs none.
func (s *scanner) comma(bracket byte) {
	s.skip(true)
	switch {
	case s.failed() || s.pos >= len(s.text) || s.text[s.pos] == bracket:
	case s.text[s.pos] == ',':
		s.pos++
	default:
		_, size := utf8.DecodeRuneInString(s.text[s.pos:])
		s.fail(s.pos, s.pos+size, fmt.Sprintf("%s follows a value without a comma", quoted(firstLine(s.text[s.pos:]))),
			fmt.Sprintf("put a comma between the values, or close with %c; text needs quotes", bracket))
	}
}

// The words that are values. They are tighter than what scans as a word, so
// that the fault can quote the whole of it.
var (
	isInteger = regexp.MustCompile(`^([+-]?(0|[1-9](_?[0-9])*)|0x[0-9a-fA-F](_?[0-9a-fA-F])*|0o[0-7](_?[0-7])*|0b[01](_?[01])*)$`)
	isFloat   = regexp.MustCompile(`^[+-]?(0|[1-9](_?[0-9])*)(\.[0-9](_?[0-9])*)?([eE][+-]?[0-9](_?[0-9])*)?$`)
	isDate    = regexp.MustCompile(`^([0-9]{4}-[0-9]{2}-[0-9]{2}|([0-9]{4}-[0-9]{2}-[0-9]{2}[Tt ])?[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?([Zz]|[+-][0-9]{2}:[0-9]{2})?)$`)
	isDay     = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}$`)
	isHour    = regexp.MustCompile(`^[0-9]{2}:`)
)

// word reads a value without quotes or brackets.
func (s *scanner) word() *Node {
	start := s.pos
	s.pos += wordLength(s.text[start:])
	// One blank may part a day from an hour.
	if isDay.MatchString(s.text[start:s.pos]) && s.pos < len(s.text) && s.text[s.pos] == ' ' && isHour.MatchString(s.text[s.pos+1:]) {
		s.pos += 1 + wordLength(s.text[s.pos+1:])
	}
	word := s.text[start:s.pos]
	n := s.node(Number, s.span(start, s.pos))
	n.Text = word
	if whole := s.stretch(start); whole != word {
		s.noValue(start, whole)
		return n
	}
	s.number(n, start)
	return n
}

// number tells what a word is and, of a number, its size.
func (s *scanner) number(n *Node, start int) {
	word := strings.ReplaceAll(n.Text, "_", "")
	var err error
	switch {
	case n.Text == "true" || n.Text == "false":
		n.Kind = Bool
	case isInteger.MatchString(n.Text):
		var whole int64
		whole, err = strconv.ParseInt(word, 0, 64)
		n.Num = float64(whole)
	case isFloat.MatchString(n.Text):
		n.Num, err = strconv.ParseFloat(word, 64)
	case isDate.MatchString(n.Text):
		n.Kind = Date
	case strings.TrimLeft(word, "+-") == "inf" || strings.TrimLeft(word, "+-") == "nan":
		s.noNumber(start, fmt.Sprintf("%q is no number that wood can have", word))
	default:
		s.noValue(start, n.Text)
	}
	if err != nil {
		s.noNumber(start, "this number is too large")
	}
}

func wordLength(text string) int {
	if n := strings.IndexAny(text, " \t\r\n,]}#"); n >= 0 {
		return n
	}
	return len(text)
}

// stretch returns all that stands between start and what ends a value on its
// line: more than a word where quotes were left out, as in 35 1/2.
func (s *scanner) stretch(start int) string {
	line := firstLine(s.text[start:])
	if n := strings.IndexAny(line, ",]}#"); n >= 0 {
		line = strings.TrimRight(line[:n], " \t")
	}
	return line
}

func (s *scanner) noNumber(start int, text string) {
	s.fail(start, s.pos, text, "write an ordinary number")
	s.fault.rule = ruleNumber
}

// noValue explains text that is no value. Most often it is a mixed number, a
// formula or a name whose quotes were left out.
func (s *scanner) noValue(start int, text string) {
	if text == "" {
		s.fail(start, start, "a value is missing here", "write a number, or text in quotes")
		return
	}
	problem, fix := fmt.Sprintf("%s needs quotes", quoted(text)), ""
	body := strings.TrimRight(text, `"″'`)
	switch word := strings.ToLower(text); {
	case word == "true" || word == "yes" || word == "on":
		problem, fix = quoted(text)+" is no value", "write true, or put text in quotes"
	case word == "false" || word == "no" || word == "off":
		problem, fix = quoted(text)+" is no value", "write false, or put text in quotes"
	case isLoose.MatchString(text):
		v, _ := strconv.ParseFloat(text, 64)
		problem, fix = quoted(text)+" is not how a number is written here", "write "+strconv.FormatFloat(v, 'f', -1, 64)
	case body != text && body != "" && isDigit(body[0]):
		fix = fmt.Sprintf(`inches are written "%s in", in quotes`, body)
	case strings.ContainsAny(text, `"\`):
		fix = "put single quotes round the whole"
	default:
		fix = fmt.Sprintf(`write "%s"; only plain numbers such as 35.5 go without quotes`, text)
	}
	s.fail(start, start+len(text), problem, fix)
}

// isLoose is a number with an idle zero, or with no digit on one side of its
// point.
var isLoose = regexp.MustCompile(`^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)$`)

func isDigit(c byte) bool { return '0' <= c && c <= '9' }
