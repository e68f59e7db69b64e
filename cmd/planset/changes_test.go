package main

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/model"
	"planset/model/expr"
)

// TestChangesNameThePagesOfTheirParts: a buyer who has revision A looks up what
// revision B changed on the pages that draw those parts.
func TestChangesNameThePagesOfTheirParts(t *testing.T) {
	p := shelf.edition(t, "petrel-chair", model.Edition{Variant: "standard", Unit: expr.Inch, Paper: "letter"})
	var codes []string
	for _, c := range p.plan.Changes {
		for _, part := range c.Parts {
			codes = append(codes, part.Code)
		}
	}
	require.NotEmpty(t, codes)
	var log string
	for _, page := range p.book.Pages {
		if words := wordsOf(page.Items); strings.Contains(words, "Parts already cut") {
			log = words
		}
	}
	require.NotEmpty(t, log)
	for _, code := range codes {
		drawn := 0
		for i, page := range p.book.Pages {
			if regexp.MustCompile(`^Part drawings .*\b` + code + `\b`).MatchString(page.Title) {
				drawn = i + 1
			}
		}
		require.Positive(t, drawn, code)
		assert.Regexp(t, `\b`+strconv.Itoa(drawn)+`\b`, log, code)
	}
}
