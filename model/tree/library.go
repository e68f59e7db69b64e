package tree

import (
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"
)

// refusal returns why the TOML library does not take text, nil if it does.
func refusal(text string) *fault {
	_, err := decode(text)
	if err == nil {
		return nil
	}
	var bad toml.ParseError
	if !errors.As(err, &bad) {
		return &fault{0, 0, ruleSyntax, "this is not a TOML file: " + sentence(err.Error()), "", noSpan, ""}
	}
	// The library leaves the byte order mark out when it counts.
	start := bad.Position.Start + len(text) - len(strings.TrimPrefix(text, byteOrderMark))
	start = max(0, min(start, len(text)))
	end := min(start+max(bad.Position.Len, 1), len(text))
	if n := strings.IndexByte(text[start:end], '\n'); n > 0 {
		end = start + n
	}
	if date, ok := strings.CutPrefix(bad.Message, "invalid datetime: "); ok {
		return &fault{start, end, ruleSyntax, date + " is no date or time", "write a day of the calendar as 2026-05-31, or put text in quotes", noSpan, ""}
	}
	return &fault{start, end, ruleSyntax, sentence(bad.Message), "", noSpan, ""}
}

// decode is the library's reading of text. Some broken texts make it panic with
// a report of a bug in itself; that is a refusal like any other.
func decode(text string) (values map[string]any, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	_, err = toml.Decode(text, &values)
	return values, err
}

// sentence makes the library's message fit the house: one sentence without its
// full stop, no capital at the start, not in the library's name.
func sentence(message string) string {
	message = strings.TrimPrefix(strings.TrimSpace(message), "toml: ")
	message, _, _ = strings.Cut(message, "\n")
	message = strings.TrimSuffix(message, ".")
	if message != "" && 'A' <= message[0] && message[0] <= 'Z' {
		message = strings.ToLower(message[:1]) + message[1:]
	}
	return message
}
