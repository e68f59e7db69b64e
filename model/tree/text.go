package tree

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// str reads a string of any of the four kinds.
func (s *scanner) str() *Node {
	start := s.pos
	rest := s.text[start:]
	n := s.node(String, s.span(start, start))
	from, to := 0, 0
	switch {
	case strings.HasPrefix(rest, `"""`):
		n.Text, from, to = s.block('"')
	case strings.HasPrefix(rest, "'''"):
		n.Text, from, to = s.block('\'')
	default:
		n.Text, n.Inner = "", s.span(start+1, start+1)
		n.Text, to = s.quotedLine()
		from = start + 1
	}
	if s.failed() {
		return nil
	}
	n.Span.End = s.pos
	n.Inner = s.span(from, to)
	n.Plain = n.Text == s.text[from:to]
	return n
}

// quotedLine reads "…" or '…' and returns the text and where its inside ends.
func (s *scanner) quotedLine() (text string, end int) {
	start := s.pos
	quote := s.text[start]
	for i := start + 1; i < len(s.text); i++ {
		switch c := s.text[i]; {
		case c == quote:
			s.pos = i + 1
			if quote == '\'' {
				return s.text[start+1 : i], i
			}
			return s.unescape(start+1, i), i
		case c == '\n' || c == '\r':
			i = len(s.text)
		case isControl(rune(c)):
			s.fail(i, i+1, "a control character stands in a string", "take it out")
			return "", 0
		case c == '\\' && quote == '"' && i+1 < len(s.text) && s.text[i+1] != '\n' && s.text[i+1] != '\r':
			i++
		}
	}
	s.fail(start, start+len(firstLine(s.text[start:])), "this string is not closed", fmt.Sprintf("add the closing %c on the same line", quote))
	return "", 0
}

// block reads a string in triple quotes and returns the text and the bounds of
// its inside. A line end right after the opening quotes is not part of it.
func (s *scanner) block(quote byte) (text string, from, to int) {
	start := s.pos
	from = start + 3
	if strings.HasPrefix(s.text[from:], "\r\n") {
		from += 2
	} else if strings.HasPrefix(s.text[from:], "\n") {
		from++
	}
	for i := from; i < len(s.text); i++ {
		switch c := s.text[i]; {
		case c == quote:
			run := len(s.text[i:]) - len(strings.TrimLeft(s.text[i:], string(quote)))
			if run < 3 {
				i += run - 1
				continue
			}
			if run > 5 {
				s.fail(i, i+run, "too many quotes end this string", "at most two quotes may stand before the closing three")
				return "", 0, 0
			}
			to = i + run - 3
			s.pos = i + run
			if quote == '\'' {
				return s.text[from:to], from, to
			}
			return s.unescape(from, to), from, to
		case c == '\\' && quote == '"':
			i++
		case c == '\r' && strings.HasPrefix(s.text[i:], "\r\n"), c == '\n':
		case isControl(rune(c)):
			s.fail(i, i+1, "a control character stands in a string", "take it out")
			return "", 0, 0
		}
	}
	s.fail(start, start+3, "this string is not closed", fmt.Sprintf("add the closing %s", strings.Repeat(string(quote), 3)))
	return "", 0, 0
}

// unescape decodes the escapes of text[start:end].
func (s *scanner) unescape(start, end int) string {
	raw := s.text[start:end]
	if strings.IndexByte(raw, '\\') < 0 {
		return raw
	}
	var b strings.Builder
	for i := 0; i < len(raw); {
		if raw[i] != '\\' {
			b.WriteByte(raw[i])
			i++
			continue
		}
		size, decoded := escape(raw[i:])
		if size == 0 {
			_, wide := utf8.DecodeRuneInString(raw[min(i+1, len(raw)):])
			s.fail(start+i, start+i+1+wide, fmt.Sprintf("%q is not an escape", raw[i:min(i+1+wide, len(raw))]),
				`write \\ for a backslash, or use single quotes, which take it as it is`)
			return ""
		}
		b.WriteString(decoded)
		i += size
	}
	return b.String()
}

// escape returns how long the escape at the start of text is, 0 if it is none,
// and what it stands for.
func escape(text string) (size int, decoded string) {
	if len(text) < 2 {
		return 0, ""
	}
	if n := strings.IndexByte("btnfre\"\\", text[1]); n >= 0 {
		return 2, "\b\t\n\f\r\x1b\"\\"[n : n+1]
	}
	digits := 0
	switch text[1] {
	case 'x':
		digits = 2
	case 'u':
		digits = 4
	case 'U':
		digits = 8
	default:
		return lineEscape(text)
	}
	if len(text) < 2+digits {
		return 0, ""
	}
	code, err := strconv.ParseUint(text[2:2+digits], 16, 32)
	if err != nil || code > utf8.MaxRune || !utf8.ValidRune(rune(code)) {
		return 0, ""
	}
	return 2 + digits, string(rune(code))
}

// lineEscape is a backslash at the end of a line: it takes away all blanks and
// line ends up to the next text.
func lineEscape(text string) (size int, decoded string) {
	rest := strings.TrimLeft(text[1:], " \t\r\n")
	size = len(text) - len(rest)
	if !strings.Contains(text[:size], "\n") {
		return 0, ""
	}
	return size, ""
}
