package sheets

import "strings"

// fractions writes the fractions of an inch in a text of the maker's with the
// fraction slash, so that they are set as such: "3/8" but not the "5/4" of a
// board's name, which is larger than one, nor a date.
func fractions(s string) string {
	for from := 0; ; {
		i := strings.IndexByte(s[from:], '/')
		if i < 0 {
			return s
		}
		i += from
		from = i + 1
		n, d := figuresBefore(s[:i]), figuresAfter(s[i+1:])
		if n == 0 || !strings.Contains(" 2 4 8 16 32 64 ", " "+digits(d)+" ") || n >= d || n%2 == 0 {
			continue
		}
		s = s[:i] + "⁄" + s[i+1:]
	}
}

// figuresBefore returns the number of at most two figures that ends s, 0 for none.
func figuresBefore(s string) int {
	n, unit := 0, 1
	i := len(s)
	for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
		i--
		n += int(s[i]-'0') * unit
		unit *= 10
		if len(s)-i > 2 {
			return 0
		}
	}
	if i > 0 && (s[i-1] == '/' || s[i-1] == '.') {
		return 0
	}
	return n
}

// figuresAfter returns the number of at most two figures that begins s, 0 for
// none.
func figuresAfter(s string) int {
	n, i := 0, 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		n = n*10 + int(s[i]-'0')
		i++
		if i > 2 {
			return 0
		}
	}
	if i < len(s) && s[i] == '/' {
		return 0
	}
	return n
}
