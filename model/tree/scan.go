package tree

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"planset/model/source"
)

const byteOrderMark = "\xef\xbb\xbf"

// noSpan is nowhere.
var noSpan = source.Span{}

// scanner walks through the text and builds the tree. After the first fault
// every method returns at once.
type scanner struct {
	file  *source.File
	text  string
	pos   int
	root  *Node
	nodes int
	fault *fault
}

func (s *scanner) span(start, end int) source.Span {
	return source.Span{File: s.file, Start: start, End: end}
}

// fail notes the first fault.
func (s *scanner) fail(start, end int, text, fix string) {
	if s.fault == nil {
		s.fault = &fault{start, min(end, len(s.text)), ruleSyntax, text, fix, noSpan, ""}
	}
}

func (s *scanner) failed() bool { return s.fault != nil }

// node makes a node and counts it.
func (s *scanner) node(kind Kind, span source.Span) *Node {
	s.nodes++
	if s.nodes > maxNodes && s.fault == nil {
		s.fault = &fault{span.Start, span.Start, ruleLimit, fmt.Sprintf("the file has more than %d values", maxNodes), "split the plan into several files", noSpan, ""}
	}
	return &Node{Kind: kind, Span: span}
}

func (s *scanner) tooDeep(depth, at int) bool {
	if depth > maxDepth && s.fault == nil {
		s.fault = &fault{at, min(at+1, len(s.text)), ruleLimit, fmt.Sprintf("values are nested more than %d deep here", maxDepth), "a plan needs no more than about six levels", noSpan, ""}
	}
	return s.failed()
}

// document reads the whole file.
func (s *scanner) document() *Node {
	s.root = s.node(Table, s.span(0, 0))
	s.root.made = byHeader
	if !utf8.ValidString(s.text) {
		at := strings.IndexFunc(s.text, func(r rune) bool { return r == utf8.RuneError })
		s.fail(at, at+1, "the file is not UTF-8 text", "save it as UTF-8 in the editor")
		return nil
	}
	if strings.HasPrefix(s.text, byteOrderMark) {
		s.pos = len(byteOrderMark)
	}
	table := s.root
	for s.skip(true); s.pos < len(s.text) && !s.failed(); s.skip(true) {
		if s.text[s.pos] == '[' {
			table = s.header()
		} else {
			s.entry(table, 1)
		}
		s.endOfLine()
	}
	return s.root
}

// skip passes blanks and comments, and ends of lines if lines is set.
func (s *scanner) skip(lines bool) {
	for s.pos < len(s.text) && !s.failed() {
		switch c := s.text[s.pos]; {
		case c == ' ' || c == '\t':
			s.pos++
		case lines && c == '\n':
			s.pos++
		case lines && strings.HasPrefix(s.text[s.pos:], "\r\n"):
			s.pos += 2
		case lines && c == '#':
			s.comment()
		default:
			return
		}
	}
}

func (s *scanner) comment() {
	end := len(s.text)
	if n := strings.IndexByte(s.text[s.pos:], '\n'); n >= 0 {
		end = s.pos + n
	}
	body := strings.TrimSuffix(s.text[s.pos:end], "\r")
	if n := strings.IndexFunc(body, isControl); n >= 0 {
		s.fail(s.pos+n, s.pos+n+1, "a comment holds a control character", "take it out; only tabs may stand in a comment")
	}
	s.pos = end
}

// endOfLine reads what may stand after a header or an entry: a comment.
func (s *scanner) endOfLine() {
	if s.failed() {
		return
	}
	s.skip(false)
	rest := s.text[s.pos:]
	switch {
	case rest == "" || rest[0] == '#' || rest[0] == '\n' || strings.HasPrefix(rest, "\r\n"):
	default:
		end := s.pos + len(firstLine(rest))
		fix := "write one entry a line; a comment begins with #"
		if rest[0] == ',' {
			fix = "write thousands without a comma, and put several values in brackets: [1, 2]"
		}
		s.fail(s.pos, end, fmt.Sprintf("%s stands where the line should end", quoted(rest[:end-s.pos])), fix)
	}
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return strings.TrimRight(line, " \t\r")
}

// part is one part of a key.
type part struct {
	key        string
	start, end int
}

// path reads a dotted key.
func (s *scanner) path() []part {
	var path []part
	for !s.failed() {
		s.skip(false)
		p := s.part()
		path = append(path, p)
		s.skip(false)
		if s.tooDeep(len(path), p.start) || s.pos >= len(s.text) || s.text[s.pos] != '.' {
			break
		}
		s.pos++
	}
	return path
}

func (s *scanner) part() part {
	start := s.pos
	if s.pos < len(s.text) && (s.text[s.pos] == '"' || s.text[s.pos] == '\'') {
		key, _ := s.quotedLine()
		return part{key, start, s.pos}
	}
	for s.pos < len(s.text) && isBare(s.text[s.pos]) {
		s.pos++
	}
	if s.pos == start {
		s.noKey()
	}
	return part{s.text[start:s.pos], start, s.pos}
}

// noKey explains what stands in the place of a key.
func (s *scanner) noKey() {
	r, size := utf8.DecodeRuneInString(s.text[s.pos:])
	switch {
	case size == 0 || r == '\n' || r == '\r':
		s.fail(s.pos, s.pos, "a name is missing here", "write the name of the entry")
	case unicode.IsLetter(r):
		s.fail(s.pos, s.pos+size, fmt.Sprintf("the letter %q cannot stand in a bare name", r), `put the name in quotes: "…" = …`)
	default:
		s.fail(s.pos, s.pos+size, fmt.Sprintf("%q stands where a name should", r), "write name = value, one a line")
	}
}

// entry reads "key = value" into table.
func (s *scanner) entry(table *Node, depth int) {
	path := s.path()
	if s.failed() {
		return
	}
	if s.pos >= len(s.text) || s.text[s.pos] != '=' {
		last := path[len(path)-1]
		fix := `write name = value`
		if s.pos < len(s.text) && (isBare(s.text[s.pos]) || s.text[s.pos] >= utf8.RuneSelf) {
			fix = `names have no blanks; write back_slat or "back slat"`
		} else if s.pos < len(s.text) && s.text[s.pos] == ':' {
			fix = "write = in the place of :"
		}
		s.fail(last.start, last.end, fmt.Sprintf("%s has no = after it", quoted(s.text[path[0].start:last.end])), fix)
		return
	}
	s.pos++
	s.skip(false)
	for i, p := range path[:len(path)-1] {
		if table = s.dotted(table, p); table == nil || s.tooDeep(depth+i, p.start) {
			return
		}
	}
	last := path[len(path)-1]
	if old := table.entry(last.key); old != nil {
		s.twice(last, old)
		return
	}
	value := s.value(depth + len(path) - 1)
	if value == nil || s.failed() {
		return
	}
	value.Key, value.KeySpan = last.key, s.span(last.start, last.end)
	table.add(value)
}

// dotted enters the table of a part of a dotted key, making it if need be.
func (s *scanner) dotted(table *Node, p part) *Node {
	old := table.entry(p.key)
	if old == nil {
		made := s.node(Table, s.span(p.start, p.end))
		made.Key, made.KeySpan, made.made = p.key, made.Span, byDots
		table.add(made)
		return made
	}
	if old.Kind != Table || old.closed || old.made == byHeader {
		s.notOpen(p, old)
		return nil
	}
	return old
}

// notOpen reports that nothing can be put under a key that was given before.
func (s *scanner) notOpen(p part, old *Node) {
	if s.failed() {
		return
	}
	text, fix := fmt.Sprintf("%q is %s, so nothing can stand under it", p.key, old.Kind), "give one of the two another name"
	if old.Kind == Table || old.Kind == Array {
		text, fix = fmt.Sprintf("%q was complete before this", p.key), "put this entry where the others are"
	}
	s.fault = &fault{p.start, p.end, ruleTwice, text, fix, old.KeySpan, "it is set here"}
}

// twice reports a key that was given before.
func (s *scanner) twice(p part, old *Node) {
	if s.fault == nil {
		s.fault = &fault{p.start, p.end, ruleTwice, fmt.Sprintf("%q is set twice", p.key), "keep one of the two", old.KeySpan, "it is set here first"}
	}
}

func isBare(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' || c == '_' || c == '-'
}

// isControl tells the characters that TOML has nowhere.
func isControl(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f }
