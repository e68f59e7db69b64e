package main

import (
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"planset/render"
)

// TestNoKeyIsPrinted builds a plan in which every name has a low line, and
// reads its pages: buyers see words, and no word twice because a side's name
// already says what it is.
func TestNoKeyIsPrinted(t *testing.T) {
	a := &app{out: io.Discard, err: io.Discard}
	a.flags = values{model: filepath.Join("testdata", "spoken.toml"), set: map[string]string{"variant": "all", "units": "both"}}
	d, err := a.load()
	require.NoError(t, err)
	require.False(t, a.problems.Failed())
	editions, err := a.editions(d)
	require.NoError(t, err)
	require.Len(t, editions, 4)
	key, doubled := regexp.MustCompile(`[a-z]_[a-z]`), regexp.MustCompile(`\b(end|edge|face) (end|edge|face)\b`)
	for _, e := range editions {
		_, book := a.compose(d, e)
		require.NotNil(t, book)
		all := ""
		for i, p := range book.Pages {
			words := wordsOf(p.Items)
			assert.Empty(t, key.FindString(words), "page %d, %s", i+1, p.Title)
			assert.Empty(t, doubled.FindString(words), "page %d, %s", i+1, p.Title)
			all += words
		}
		for _, s := range []string{"foot block", "flat board", "foot joint"} {
			assert.Contains(t, strings.ToLower(all), s, "the name is printed in words")
		}
	}
}

// wordsOf returns what a page says, groups opened.
func wordsOf(items []render.Item) string {
	var b strings.Builder
	for _, item := range items {
		switch item := item.(type) {
		case render.Text:
			b.WriteString(item.Text + " ")
		case render.Group:
			b.WriteString(wordsOf(item.Items))
		}
	}
	return b.String()
}
